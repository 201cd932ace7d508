"""What a meter should read across a pair: the voice coils it reaches, at DC."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from harness.model.evidence import OPEN
from harness.model.parts import Speaker
from harness.units import quantity

# A voice coil reads 0.62 to 1.0 of its nominal impedance at DC. Derived from the ranges that two retailers'
# guides give (1 ohm: 0.5-1.0; 2: 1.2-2; 4: 3.1-4.0; 6: 4.0-6; 8: 5.7-8, seen 2026) and
# from a lower one (8 ohm: 5-6, 4 ohm: 2.5-3, a forum's engineer).
LOW_SHARE = 0.62
HIGH_SHARE = 1.0


class Expected(NamedTuple):
    """What to expect of a meter. `low_ohm`, `high_ohm` are None where nothing can be said.

    `blocked` names speakers behind a capacitor (open to DC), `unknown` those without a nominal impedance.
    """

    low_ohm: float | None
    high_ohm: float | None
    blocked: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def open_to_dc(self) -> bool:
        """Every speaker reached sits behind a capacitor, so a meter reads open and a tone must be used."""
        return bool(self.blocked) and self.low_ohm is None and not self.unknown


def nominal_ohm(speaker: Speaker) -> float | None:
    """The nominal impedance at a speaker's two terminals (of one coil where coils are separate), in ohms.

    Equal coils in series add up, in parallel they divide (voltage law). None where the job doesn't say.
    """
    if speaker.nominal_ohm is not None or speaker.coil_ohm is None:
        return speaker.nominal_ohm
    if speaker.coils == 1 or speaker.coil_wiring == "separate":
        return speaker.coil_ohm
    if speaker.coil_wiring == "series":
        return speaker.coil_ohm * speaker.coils
    if speaker.coil_wiring == "parallel":
        return speaker.coil_ohm / speaker.coils
    return None


class Part(NamedTuple):
    """A speaker, or one coil of it: nominal ohms where written, and whether a capacitor is in line with it."""

    name: str
    nominal_ohm: float | None
    behind_capacitor: bool


def expected_dc(branches: Sequence[Sequence[Speaker]]) -> Expected:
    """What a meter reads across parallel branches of the car's speakers, each of one or of several in line."""
    return expected_of(
        [[Part(each.name, nominal_ohm(each), bool(each.capacitor)) for each in branch] for branch in branches]
    )


def expected_of(branches: Sequence[Sequence[Part]]) -> Expected:
    """What a meter reads across parallel branches, each of one part or of several in line.

    A branch with a capacitor in it carries no DC and drops out; a branch with an unknown part makes the
    whole unknown. No branch that conducts: no band.
    """
    blocked: dict[str, None] = {}
    unknown: dict[str, None] = {}
    conductance = 0.0
    for branch in branches:
        with_capacitor = [part.name for part in branch if part.behind_capacitor]
        if with_capacitor:
            blocked.update(dict.fromkeys(with_capacitor))
            continue
        missing = [part.name for part in branch if not part.nominal_ohm]
        unknown.update(dict.fromkeys(missing))
        if not missing:
            conductance += 1 / sum(part.nominal_ohm for part in branch if part.nominal_ohm)
    if unknown or not conductance:
        return Expected(None, None, tuple(blocked), tuple(unknown))
    nominal = 1 / conductance
    return Expected(LOW_SHARE * nominal, HIGH_SHARE * nominal, tuple(blocked), ())


# What the wires to a speaker add to it: 15 ft of No. 24 each way is 2 x 15 x 25.67/1000 = 0.77 ohm (wire table credited
# to Floyd, Electric Circuit Fundamentals, 2nd ed.).
WIRE_OHM = 0.8


def fits(low_ohm: float, high_ohm: float, reads_ohm: float) -> bool:
    """Whether a reading is that of a speaker, with or without the wires to it."""
    return low_ohm <= reads_ohm <= high_ohm + WIRE_OHM


def in_band(expected: Expected, reads: str) -> bool | None:
    """Whether a reading (`3.5 ohm`, `open`) is what is expected; None where nothing can be said."""
    if reads == OPEN:
        return True if expected.open_to_dc else None if expected.low_ohm is None else False
    if expected.low_ohm is None or expected.high_ohm is None:
        return False if expected.open_to_dc else None
    try:
        ohm = quantity(reads, "resistance")
    except ValueError:
        return None
    return fits(expected.low_ohm, expected.high_ohm, ohm)
