"""C22."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check(
    "C22", Severity.NOTE, "Noise cancelling in the car", source="a workshop bulletin, maker withheld", needs="fitted"
)
def noise_cancelling_present(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a car with `fitted: [noise cancelling]` in which another unit drives a speaker after the job,
    or a speaker is new.

    Why it matters: noise cancelling plays through the speakers by what it hears in the cabin. With another level or
    another subwoofer it feeds back on itself and booms.

    Example: a new subwoofer in a car with noise cancelling.

    What to do: note which plug it has, plan a road test with windows shut and open, tell the customer.

    Known limits: that it is fitted must be written. Whether it booms only the road tells.

    Source: a workshop bulletin, maker withheld: its own isolation step is to pull the module's plug.
    """
    car = wiring.job.car
    if car is None or "noise cancelling" not in car.fitted:
        return
    changed = []
    for receiver in wiring.signals.speaker_receivers:
        now = {feed.driver.port.unit for feed in wiring.signals.feeds_into(receiver)}
        before = {feed.driver.port.unit for feed in wiring.found_signals.feeds_into(receiver)}
        if now - before or (now and wiring.job.parts.speakers[receiver.speaker].new):
            changed.append(receiver.speaker)
    if not changed:
        return
    names = [printed(name) for name in dict.fromkeys(changed)]
    are = "is" if len(names) == 1 else "are"
    yield Fault(
        at=Spot(car.place, "car"),
        message=f"The car has noise cancelling, and after the job {', '.join(names)} {are} driven otherwise: "
        "it may boom.",
        do="Note its plug, and plan a road test with windows shut and open.",
        about=(),
    )
