"""F30."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.charging import added_a
from harness.graph.wiring import Wiring


@check(
    "F30",
    Severity.FIX,
    "Added load over what the converter gives",
    source="common practice, no source",
    by_joints=False,
    needs="runs",
)
def over_converter_limit(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: in a car whose 12 V come from a converter, full power of the added units against its limit.

    Why it matters: a converter has no reserve like an alternator's. Over its limit it switches off, and steering
    aid, brakes' aid and lamps hang on the 12 V too.

    Example: 130 A of amplifiers on a converter of 120 A.

    What to do: less power, or ask the maker what may be added.

    Known limits: what the car itself draws isn't counted, so less than the limit may be too much already. Without a
    written limit F18 asks for it.

    Source: common practice, no source.
    """
    car = wiring.job.car
    if car is None or car.supply != "converter" or not car.supply_a:
        return
    full_a = added_a(wiring)
    if full_a <= car.supply_a:
        return
    yield Fault(
        at=Spot(car.place, "car"),
        message=f"The added units draw {full_a:.0f} A at full power and the converter gives {car.supply_a:g} A: it "
        "switches off, and the car's own aids with it.",
        do="Plan less power, or ask the car's maker what may be added.",
        about=(),
    )
