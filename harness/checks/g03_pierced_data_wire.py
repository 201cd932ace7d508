"""G03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.whole_wire import along
from harness.graph.wiring import Wiring
from harness.joints import methods


@check("G03", Severity.STOP, "Piercing tap on data", source="common practice, no source", needs="data")
def pierced_data_wire(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a joint by a method that pierces insulation, on a wire of a data bus.

    Why it matters: the blade cuts strands and lets water in; the bus drops out weeks later and the fault is
    found in the last place that anyone looks.

    Example: a piercing tap on CAN-L for a steering-wheel interface.

    What to do: take the loom, or solder on the uncut wire and insulate it.

    Known limits: a bus is known by its functions (CAN-H, CAN-L) in the chart and at the units.

    Source: common practice, no source.
    """
    known = methods()
    for joint in wiring.job.joints:
        method = known[joint.method]
        if not method.pierces:
            continue
        ends = [end for link in joint.links for end in link]
        bus, end = next(((wire, end) for end in ends for wire in _bus(wiring, end)), ("", ""))
        if not bus:
            continue
        yield Fault(
            at=Spot(joint.place, wiring.words(bus)),
            message=f"{wiring.words(bus)} is {method.words} at {joint.name}: cut strands stop the bus later.",
            do="Take the loom, or solder to the uncut wire and insulate it.",
            about=tuple(dict.fromkeys((*ends, bus))),
            path=along(wiring, wiring.planned, bus, end),
        )


def _bus(wiring: Wiring, end: str) -> Iterator[str]:
    """Data contacts that conduct to a contact, itself first, the car's before a unit's."""
    wires = [n for n in (end, *wiring.planned.net(end)) if wiring.contact(n).function.kind == "data"]
    yield from sorted(wires, key=lambda name: wiring.contact(name).kind != "plug")
