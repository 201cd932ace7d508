"""F18."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.fitted import ours
from harness.graph.wiring import Wiring

_DRIVES = ("hybrid", "electric")


@check(
    "F18",
    Severity.ASK,
    "What the converter may give is not written",
    source="common practice, no source",
    by_joints=False,
    needs="drive",
)
def converter_limit_unknown(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a hybrid or electric car that gets a unit of ours, without its converter's current written.

    Why it matters: there is no alternator. A converter charges the 12 V side, and above its limit the car shuts
    down what it can do without, or stands still.

    Example: `drive: electric` and an amplifier of 40 A, with no `supply`.

    What to do: look up what the converter may give for additions and write `supply: converter 150 A`.

    Known limits: a hybrid with an alternator and its amperes written is not asked. What the car draws of this itself
    is not known.

    Source: common practice, no source.
    """
    car = wiring.job.car
    if car is None or car.drive not in _DRIVES:
        return
    if car.supply_a is not None and (car.supply == "converter" or car.drive == "hybrid"):
        return
    units = [unit.name for unit in ours(wiring)]
    if not units:
        return
    said = f"`{car.supply}`" if car.supply in ("alternator", "unknown") else "nothing"
    yield Fault(
        at=Spot(car.place, car.name),
        message=f"The car is {car.drive} and {said} is written of its supply: what the converter may give for "
        f"{' and '.join(units[:3])}{' and others' if units[3:] else ''} is a guess.",
        do="Look up the converter's limit for additions and write it, for instance `supply: converter 150 A`.",
    )
