"""What each unit draws from its feed, and how that is known."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.shop import figure
from harness.graph.wiring import Wiring
from harness.model.parts import Unit

# Efficiency of an amplifier at full power where the file has none: AB 60 %, D 75 %; a retailer's guide, seen 2026.
# G and H lie between A and D; they are taken as AB, so that the cable is never too thin.
EFFICIENCY = {"A": 0.25, "AB": 0.60, "G": 0.60, "H": 0.60, "D": 0.75}
UNSAID = "AB"


class Draw(NamedTuple):
    """What a unit draws at full power: a constant current, or a constant power where the file gives watts.

    `how` says where it comes from, in words. `guessed` where the class was not written, or only fuses are known.
    """

    unit: str
    current_a: float
    power_w: float | None
    how: str
    guessed: bool


@kept
def draws(wiring: Wiring) -> dict[str, Draw]:
    """Each unit that stays and whose draw can be told, by name; in the order of the job."""
    made = {}
    for unit in wiring.job.parts.units.values():
        if unit.name not in wiring.gone and (draw := draw_of(wiring, unit)) is not None:
            made[unit.name] = draw
    return made


def draw_of(wiring: Wiring, unit: Unit) -> Draw | None:
    """As written; else from the rated power of its outputs, class and efficiency; else from its own fuses.

    Amperes at the supply voltage of the shop's figure. None where nothing of that is written.
    """
    power = unit.power
    volts = figure(wiring, "supply")
    if power.draws_a:
        return Draw(unit.name, power.draws_a, None, f"{power.draws_a:g} A as written", False)
    if power.draws_w:
        return Draw(unit.name, power.draws_w / volts.value, power.draws_w, f"{power.draws_w:g} W as written", False)
    rated_w = [port.signal.power_w for port in unit.ports.values() if port.way == "out" and port.signal.power_w]
    if rated_w:
        efficiency = power.efficiency or EFFICIENCY[power.amp_class or UNSAID]
        said = f"{efficiency * 100:.0f} %" + ("" if power.efficiency else f" for class {power.amp_class or UNSAID}")
        total_w = sum(rated_w)
        how = f"{_sum_words(rated_w)} at {said}, {volts.words}"
        return Draw(unit.name, total_w / efficiency / volts.value, None, how, not (power.efficiency or power.amp_class))
    if power.fuses_a:
        return Draw(unit.name, sum(power.fuses_a), None, f"its own fuses, {_amps_words(power.fuses_a)}", True)
    return None


def _sum_words(rated_w: list[float]) -> str:
    """`4 x 75 W`, `75 W + 300 W`."""
    counted: dict[float, int] = {}
    for each in rated_w:
        counted[each] = counted.get(each, 0) + 1
    return " + ".join(f"{many} x {watts:g} W" if many > 1 else f"{watts:g} W" for watts, many in counted.items())


def _amps_words(fuses_a: tuple[float, ...]) -> str:
    return f"{len(fuses_a)} x {fuses_a[0]:g} A" if len(fuses_a) > 1 else f"{fuses_a[0]:g} A"
