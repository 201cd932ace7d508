"""F20."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.charging import AVERAGE, MARGIN, added_a
from harness.graph.wiring import Wiring


@check("F20", Severity.NOTE, "Added load over the charging margin", source="common practice, no source", needs="runs")
def over_charging_margin(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: what the added units draw on average against half of what the alternator gives.

    Why it matters: with lamps, heater and fan on, the battery is emptied while driving.

    Example: 180 A at full power, 60 A on average, on an alternator of 90 A.

    What to do: talk with the customer about a larger alternator, or about less power.

    Known limits: music is taken as a third of full power on average, and half of the alternator as the car's own
    need; both are rules of thumb. Without `supply: alternator N A` nothing is said.

    Source: common practice, no source.
    """
    car = wiring.job.car
    if car is None or car.supply != "alternator" or not car.supply_a:
        return
    full_a = added_a(wiring)
    if full_a * AVERAGE <= car.supply_a * MARGIN:
        return
    yield Fault(
        at=Spot(car.place, "car"),
        message=f"The added units draw {full_a:.0f} A at full power, about {full_a * AVERAGE:.0f} A on average, and "
        f"the alternator gives {car.supply_a:g} A: the battery is emptied while driving.",
        do="Discuss a larger alternator with the customer, or less power.",
        about=(),
    )
