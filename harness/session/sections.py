"""All kinds of work at the car, in the order in which a job comes to them."""

from __future__ import annotations

from collections.abc import Callable

from harness.graph.wiring import Wiring
from harness.session import features, lights, ohms, outputs, responses, tones, turned, volts
from harness.session.talk import Section

_ORDER: tuple[Callable[[Wiring], Section | None], ...] = (
    features.before, responses.section, tones.section, turned.section, ohms.section, volts.section, lights.section,
    outputs.section, features.after,
)  # fmt: skip


def sections(wiring: Wiring) -> list[Section]:
    """What this job has, with what is done and what is left of it by the records that still hold."""
    return [made for each in _ORDER if (made := each(wiring)) is not None]
