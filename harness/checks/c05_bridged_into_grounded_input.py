"""C05."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.live import grounded_inside, is_ground, live_terminals, outside
from harness.graph.state import hops_to
from harness.graph.wiring import Wiring
from harness.place import Place


@check("C05", Severity.STOP, "Bridged source into a grounded input", source="common practice, no source")
def bridged_into_grounded_input(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a wire of a bridged (btl) output on the − of an input that its unit ties to
    ground.

    Why it matters: the input shorts one half of the output stage to ground; the radio shuts down, or its
    output stage fails, and the noise is of the worst kind until then.

    Example: radio speaker wires go to a line converter whose RCA shells and inputs share one ground.

    What to do: use a differential or transformer input, or put a converter with a transformer in front.

    Known limits: what an input does with its − is known from `grounded` or from the unit's `bonds`.

    Source: common practice, no source.
    """
    faults: dict[Place, Fault] = {}
    with_input = {wiring.planned.net_number(name) for name, port in wiring.ports.items() if port.way == "in"}
    for terminal, port in live_terminals(wiring):
        if port.signal.form != "btl":
            continue
        if wiring.planned.net_number(terminal) not in with_input:
            continue
        reached = outside(wiring, terminal)
        for name, step in reached.items():
            if step is None or not is_ground(wiring.contact(name)):
                continue
            if grounded_inside(step, wiring) is None:
                continue
            hops = hops_to(reached, step.contact)
            blamed = wiring.blame(hops)
            place = blamed.place if blamed else wiring.contact(step.contact).place
            if place in faults:
                faults[place] = faults[place]._replace(about=(*faults[place].about, terminal, step.contact))
            else:
                faults[place] = Fault(
                    at=Spot(place, wiring.words(step.contact)),
                    message=(
                        f"{wiring.words(terminal)} is bridged, live at about 6 V, and {wiring.words(step.contact)} "
                        "is tied to ground inside: half the output is shorted."
                    ),
                    do=f"Take {port.unit} {port.name} to a differential or transformer input instead.",
                    about=(terminal, step.contact),
                    path=wiring.way_in_words(terminal, hops),
                )
    yield from faults.values()
