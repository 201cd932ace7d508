"""F16."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.grounding import way_to_point
from harness.graph.joined import made_at
from harness.graph.meeting import is_feed
from harness.graph.wiring import Wiring
from harness.place import Place

_SENSOR = "battery sensor"
_POST = "battery.-"


@check(
    "F16",
    Severity.FIX,
    "Ground at the post, behind the battery sensor",
    source="retailer's guide, seen 2026",
    needs="fitted",
)
def ground_behind_battery_sensor(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a ground of ours at the battery's − post, in a car that measures the battery's current there.

    Why it matters: what flows by our cable is not counted. The car thinks that the battery is fuller than it is, stops
    charging, and stays dead one morning.

    Example: `amp.GND > 3 ft 4 AWG > battery.-` in a car with stop-start and a sensor on the − clamp.

    What to do: ground to the body, near the unit, so that the current comes back through the sensor.

    Known limits: that there is a sensor is known from `fitted` of the car alone.

    Source: retailer's guide, seen 2026, origin withheld; where exactly to ground is common practice.
    """
    car = wiring.job.car
    if car is None or _SENSOR not in car.fitted:
        return
    told: set[Place] = set()
    for conductor in made_at(wiring, _POST):
        if conductor.place in told:
            continue
        told.add(conductor.place)
        path = way_to_point(wiring, _POST, conductor)
        if any(is_feed(wiring, wiring.contact(name)) for name in path):
            continue  # told as a short
        here = wiring.words(path[0])
        yield Fault(
            at=Spot(conductor.place, wiring.words(_POST)),
            message=f"{here} goes to {wiring.words(_POST)}, behind the car's battery sensor: the car miscounts its "
            "battery and stops charging.",
            do=f"Take {here} off the post: ground to the body, so that its current comes back by the sensor.",
            about=tuple(dict.fromkeys((path[0], conductor.other(_POST)))),
            path=path,
        )
