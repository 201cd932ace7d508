"""How a level outside of an input's window is told: shared by too hot and too small."""

from __future__ import annotations

from harness.finding import Spot
from harness.graph.levels import Arriving
from harness.graph.walk import place_to_change
from harness.graph.wiring import Wiring


def spot_of(wiring: Wiring, each: Arriving) -> Spot:
    """Where the feed was joined, else the input's own line."""
    driver, receiver = each.feed.driver, each.feed.receiver
    blamed = wiring.blame(wiring.planned.path(driver.plus, each.feed.entry))
    assert receiver.port is not None
    return Spot(place_to_change(wiring, blamed) if blamed else receiver.port.place, wiring.words(receiver.plus))


def way_of(wiring: Wiring, each: Arriving) -> tuple[str, ...]:
    """The contacts from the output to the input, by its + wire."""
    start = each.feed.driver.plus
    return wiring.way_in_words(start, wiring.planned.path(start, each.feed.entry))


def about_of(each: Arriving) -> tuple[str, ...]:
    """Both contacts of the output and of the input."""
    driver, receiver = each.feed.driver, each.feed.receiver
    return (driver.plus, driver.minus, receiver.plus, receiver.minus)


def other_inputs(wiring: Wiring, each: Arriving) -> list[str]:
    """Other inputs of the same unit whose window takes the level, by name."""
    port = each.feed.receiver.port
    assert port is not None
    made = []
    for other in wiring.job.parts.units[port.unit].ports.values():
        low, high = other.signal.least_v or 0.0, other.signal.most_v
        if other.way == "in" and high is not None and low <= each.level.volts <= high:
            made.append(other.name)
    return made
