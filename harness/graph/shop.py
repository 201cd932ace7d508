"""The shop's figures as they hold for one job: what the job writes under `limits`, else what its preset says."""

from __future__ import annotations

from harness.graph.wiring import Wiring
from harness.presets import Figure, preset


def figure(wiring: Wiring, name: str) -> Figure:
    """A figure in SI with its words and basis. Raises KeyError for a name that no preset knows."""
    written = wiring.job.limits.get(name)
    chosen = preset(wiring.job.preset).figures[name]
    return chosen if written is None else Figure(written.value, written.words, "written in the job")
