"""B06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check("B06", Severity.STOP, "Split pair", source="common practice, no source")
def split_pair(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker or an input whose two wires come from two different outputs.

    Why it matters: the two channels are tied together through the speaker; with bridged outputs each drives
    into the other, and neither plays right.

    Example: amplifier out 1 + goes to the left speaker's + and amplifier out 2 − to its −.

    What to do: take both wires of the pair from one output.

    Known limits: a bridge that the maker allows must be written under the unit's `bridges`.

    Source: common practice, no source.
    """
    number = wiring.planned.net_number
    live: dict[int, list[str]] = {}
    for name, port in wiring.ports.items():
        if port.way == "out":
            live.setdefault(number(name), []).append(name)
    bridges = {frozenset((d.plus, d.minus)) for d in wiring.signals.drivers if "/" in d.name}
    for receiver in wiring.signals.receivers:
        at_plus, at_minus = live.get(number(receiver.plus), []), live.get(number(receiver.minus), [])
        if not at_plus or not at_minus or number(receiver.plus) == number(receiver.minus):
            continue
        ports_plus = {wiring.ports[n].name + wiring.ports[n].unit for n in at_plus}
        ports_minus = {wiring.ports[n].name + wiring.ports[n].unit for n in at_minus}
        if ports_plus & ports_minus or any(frozenset((a, b)) in bridges for a in at_plus for b in at_minus):
            continue
        hops_plus = wiring.planned.path(at_plus[0], receiver.plus)
        hops_minus = wiring.planned.path(at_minus[0], receiver.minus)
        blamed = wiring.blame(hops_minus) or wiring.blame(hops_plus)
        place = blamed.place if blamed else wiring.contact(receiver.minus).place
        plus_blamed = wiring.blame(hops_plus)
        also = (
            (Spot(plus_blamed.place, wiring.words(at_plus[0])),)
            if plus_blamed and blamed and plus_blamed.place != blamed.place
            else ()
        )
        yield Fault(
            at=Spot(place, wiring.words(receiver.minus)),
            message=(
                f"{wiring.words(receiver.plus)} is driven by {wiring.words(at_plus[0])}, but "
                f"{wiring.words(receiver.minus)} by {wiring.words(at_minus[0])}: two channels are tied together."
            ),
            do=f"Take both wires of {receiver.name} from one output.",
            about=(receiver.plus, receiver.minus, at_plus[0], at_minus[0]),
            also=also,
            path=wiring.way_in_words(at_minus[0], hops_minus),
        )
