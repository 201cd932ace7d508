"""C01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check("C01", Severity.STOP, "Two outputs on one wire", source="common practice, no source")
def two_outputs_on_one_wire(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: + terminals (or live − terminals) of two different outputs in one net.

    Why it matters: two amplifiers drive against each other; one or both can fail at the first loud passage.

    Example: a loom passes the radio's left front wire through while the new amplifier's output is joined
    to the same wire on the speaker side.

    What to do: open the wire toward the radio and use that end as the input, or undo the second joint.

    Known limits: outputs of units that the job does not list are not known.

    Source: common practice, no source.
    """
    signals = wiring.signals
    by_net: dict[int, list[str]] = {}
    for driver in signals.drivers:
        if "/" in driver.name:
            continue  # a bridge uses terminals that are counted as their own outputs
        for terminal in (driver.plus,) if driver.port.signal.form == "grounded" else (driver.plus, driver.minus):
            by_net.setdefault(wiring.planned.net_number(terminal), []).append(terminal)
    for terminals in by_net.values():
        first = terminals[0]
        others = [t for t in terminals if wiring.ports[t] != wiring.ports[first]]
        if not others:
            continue
        hops = wiring.planned.path(first, others[0])
        blamed = wiring.blame(hops)
        place = blamed.place if blamed else wiring.contact(others[0]).place
        names = " and ".join(wiring.words(t) for t in (first, *others))
        meeting = wiring.words(blamed.a) if blamed else wiring.words(first)
        yield Fault(
            at=Spot(place, meeting),
            message=f"{names} meet on one wire at {meeting}: two amplifiers fight and one or both can fail.",
            do=f"Open the wire toward {wiring.contact(first).owner}, or undo the joint at {meeting}.",
            about=(first, *others),
            path=wiring.way_in_words(first, hops),
        )
