"""C24."""

from collections.abc import Iterator
from typing import NamedTuple

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.bonded import bonded
from harness.graph.conductor import Hop
from harness.graph.live import outside, seen_at
from harness.graph.pairs import pairs_of
from harness.graph.state import hops_to
from harness.graph.wiring import Wiring


class _Pair(NamedTuple):
    plus: str
    minus: str


@check("C24", Severity.STOP, "Both wires of a pair in one net", source="common practice, no source")
def pair_shorted(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: + and − of one output, speaker, input or speaker pair of a plug that conduct to
    each other.

    Why it matters: the output works into a short; it shuts down at best, and at worst it burns.

    Example: a pair is joined as one splice, both its wires under one cap.

    What to do: part the two wires at the place named, and meter the pair before it is powered.

    Known limits: data pairs are told as G12, supply as F22, and what meets through ground as C03 or C05. An
    input that nothing is joined to may be closed with a link on purpose, and is not told. One finding a
    net.

    Source: common practice, no source.
    """
    number = wiring.planned.net_number
    by_net: dict[int, list[_Pair]] = {}
    for pair in _pairs(wiring):
        if number(pair.plus) == number(pair.minus):
            by_net.setdefault(number(pair.plus), []).append(pair)
    for pairs in by_net.values():
        ways = []
        for pair in pairs:
            reached = outside(wiring, pair.plus)
            if pair.minus in reached and not _bonded(wiring, pair):
                ways.append((pair, hops_to(reached, pair.minus)))
        if not ways or all(_closed_input(wiring, pair) for pair, _ in ways):
            continue
        pair, hops = min(ways, key=lambda each: len(each[1]))
        culprit = wiring.blame(_over(wiring, hops))
        place = culprit.place if culprit else wiring.contact(pair.minus).place
        at = wiring.words(seen_at(wiring, culprit, pair.minus))
        shown = next((other for other, _ in ways if other.plus in wiring.ports), pair)
        yield Fault(
            at=Spot(place, at),
            message=(
                f"{wiring.words(shown.plus)} and {wiring.words(shown.minus)} are one wire through {at}: "
                "the output works into a short."
            ),
            do=f"Part + and − at {at}, and meter the pair before it is powered.",
            about=tuple(dict.fromkeys(name for other, _ in ways for name in (other.plus, other.minus))),
            path=wiring.way_in_words(pair.plus, hops),
        )


def _pairs(wiring: Wiring) -> Iterator[_Pair]:
    """Everything that comes as + and −: outputs (bridges too), inputs, speakers, speaker pairs of plugs."""
    for driver in wiring.signals.drivers:
        yield _Pair(driver.plus, driver.minus)
    for receiver in wiring.signals.receivers:
        yield _Pair(receiver.plus, receiver.minus)
    for plug in wiring.job.parts.plugs.values():
        for plus, minus in pairs_of(wiring, plug.name):
            for half in ("unit", "car"):
                yield _Pair(f"{plug.name}.{half}.{plus.cavity}", f"{plug.name}.{half}.{minus.cavity}")


def _over(wiring: Wiring, hops: tuple[Hop, ...]) -> tuple[Hop, ...]:
    """Of the way from + to −, what lies between the last contact marked + and the first marked −."""
    since = 0
    for at, hop in enumerate(hops):
        sign = wiring.contact(hop.contact).function.sign
        if sign == "-":
            return hops[since : at + 1]
        if sign == "+":
            since = at + 1
    return hops


def _bonded(wiring: Wiring, pair: _Pair) -> bool:
    """Whether the unit itself joins the two inside."""
    unit = wiring.job.parts.units.get(wiring.contact(pair.plus).owner)
    inside = bonded(unit) if unit is not None else {}
    return pair.plus in inside and inside[pair.plus] == inside.get(pair.minus)


def _closed_input(wiring: Wiring, pair: _Pair) -> bool:
    """An unused input whose two wires are linked, with nothing else on them."""
    port = wiring.ports.get(pair.plus)
    if port is None or port.way != "in":
        return False
    return all(wiring.contact(name).owner == port.unit for name in outside(wiring, pair.plus))
