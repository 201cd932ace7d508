"""C13."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.walk import feed_stages
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check("C13", Severity.FIX, "Output without source", source="common practice, no source")
def output_without_source(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output that is wired to a speaker or an input, with nothing routed to it in its
    unit.

    Why it matters: the channel stays silent, and the fault is looked for in the wires, where it isn't.

    Example: the processor's out 5 drives the third amplifier, but its `routes` end at out 4.

    What to do: write the route, in the job and in the processor, or take the wires to an output that has
    one.

    Known limits: a unit that has no `routes` at all is not looked at; its outputs are taken from the inputs
    of their numbers, and the report says so.

    Source: common practice, no source.
    """
    signals = wiring.signals
    for driver in signals.drivers:
        unit = wiring.job.parts.units[driver.port.unit]
        if unit.is_source or not unit.routes_said or signals.route(driver) is not None:
            continue
        feeds = signals.feeds_from(driver)
        if not feeds:
            continue
        fed = [feed.receiver for feed in feeds]
        names = " and ".join(printed(receiver.name.removeprefix("spk.").replace(".", " ")) for receiver in fed)
        last = driver.name.removeprefix(f"{unit.name}.")
        yield Fault(
            at=Spot(driver.port.place, f"{unit.name} {last}"),
            message=f"{unit.name} {last} drives {names}, but nothing is routed to it: the channel stays silent.",
            do=f"Write its route under `routes:` of {unit.name}, for instance `{driver.port.name}: in1`.",
            about=(driver.plus, driver.minus, *(t for r in fed for t in (r.plus, r.minus))),
            path=tuple(stage.contact for stage in feed_stages(wiring, feeds[0])),
        )
