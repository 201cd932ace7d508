"""The shop's figures as they hold for one job: what the job writes under `limits`, else what its preset says."""

from __future__ import annotations

from harness.electrical.fuses import greatest_fuse_a
from harness.graph.wiring import Wiring
from harness.presets import Figure, preset
from harness.units import WireSize


def figure(wiring: Wiring, name: str) -> Figure:
    """A figure in SI with its words and basis. Raises KeyError for a name that no preset knows."""
    written = wiring.job.limits.get(name)
    chosen = preset(wiring.job.preset).figures[name]
    return chosen if written is None else Figure(written.value, written.words, "written in the job")


def cable_limit_a(wiring: Wiring, size: WireSize, metal: str) -> float:
    """The greatest fuse before a cable, by the chart that the job's preset takes; amperes."""
    return greatest_fuse_a(size, metal, preset(wiring.job.preset).fuse_chart)


def fuse_chart(wiring: Wiring) -> str:
    """Which chart of cable and fuse the job's preset takes."""
    return preset(wiring.job.preset).fuse_chart
