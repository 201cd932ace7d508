"""The route pictures: how each signal goes from the radio to each speaker, and what units do with it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.signal import routes_of
from harness.model.contact import printed
from harness.planning.routes import Leg, Stop, Wire, group_of, legs
from render.blocks import Block, Cell, Column, Edge, Grid, Heading, Listing, Node, Para, Picture, Sheet, Strong, Swatch
from render.documents import document
from render.documents.wording import hertz

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.parts import Route
    from harness.prove import Proof

LEGEND = (
    "A box is a unit, a plug with the loom in it, a joint or a speaker. Signals go from left to right.",
    "A dot is a joint, named as on the splice list. Numbers of a plug are + first, then −.",
    "On a line: the two wires' colours, + first. No words on it: the colours are not recorded, or it is no wire.",
    "REVERSED: + and − change places on that leg, as planned.",
)


@document("route-picture", title="Route pictures", order=6)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For whoever must find the way of one signal, forwards or backwards."""
    if proof.wiring is not None:
        yield Sheet("route-picture", "Route pictures", tuple(_blocks(proof.wiring)), landscape=True)


def _blocks(wiring: Wiring) -> Iterator[Block]:
    found = legs(wiring)
    if not found:
        yield Para("No signal reaches a speaker in this plan, so there is no route to draw.")
    else:
        yield Listing(LEGEND)
        for group in dict.fromkeys(_group(leg) for leg in found):
            yield Heading(f"{group[:1].upper()}{group[1:]}")
            yield from _pictures(wiring, [leg for leg in found if _group(leg) == group])
    yield from _routes(wiring)


def _group(leg: Leg) -> str:
    """By what it leads to where that is the subwoofer alone, else by the channels that it carries."""
    if leg.speakers and all(group_of(name) == "subwoofer" for name in leg.speakers):
        return "subwoofer"
    return " and ".join(dict.fromkeys(group_of(channel) for channel in leg.channels))


def _pictures(wiring: Wiring, found: list[Leg]) -> Iterator[Block]:
    """One picture from unit to unit or speakers, so that each fits its page with text that can be read."""
    for unit, kind in dict.fromkeys(_span(leg) for leg in found):
        these = [leg for leg in found if _span(leg) == (unit, kind)]
        nodes: dict[str, Node] = {}
        edges: dict[tuple[str, str], Edge] = {}
        for leg in these:
            _draw(wiring, leg, nodes, edges)
        yield Picture(f"From {unit} to {kind}", tuple(nodes.values()), tuple(edges.values()))


def _span(leg: Leg) -> tuple[str, str]:
    to = leg.feed.receiver
    return leg.feed.driver.port.unit, to.port.unit if to.port is not None else "speakers"


def _draw(wiring: Wiring, leg: Leg, nodes: dict[str, Node], edges: dict[tuple[str, str], Edge]) -> None:
    keys = []
    for at, stop in enumerate(leg.stops):
        node = _node(wiring, leg, stop, first=at == 0, last=at == len(leg.stops) - 1)
        nodes.setdefault(node.name, node)
        keys.append(node.name)
    group = group_of(leg.channels[0]) if leg.channels else ""
    for at, wire in enumerate(leg.wires):
        words = [wire.words] if wire.words else []
        if leg.turned and at == len(leg.wires) - 1:
            words.insert(0, "REVERSED on this leg")
        edge = Edge(keys[at], keys[at + 1], ", ".join(words), _pair_swatch(wire), group=group)
        edges.setdefault((keys[at], keys[at + 1]), edge)


def _pair_swatch(wire: Wire) -> Swatch | None:
    if wire.plus is None:
        return None
    minus = f", − {wire.minus.words}" if wire.minus is not None else ""
    return Swatch(wire.plus.base, wire.plus.stripe, wire.plus.mark, f"+ {wire.plus.words}{minus}")


def _node(wiring: Wiring, leg: Leg, stop: Stop, *, first: bool, last: bool) -> Node:
    if stop.kind == "joint":
        joint = wiring.joints[stop.owner]
        return Node(f"joint {stop.owner}", stop.owner, (joint.method,), symbol="splice")
    if stop.kind == "speaker":
        place = wiring.job.parts.speakers[stop.owner].where
        return Node(f"speaker {stop.owner}", f"speaker {stop.owner}", (place,) if place else (), symbol="loudspeaker")
    if stop.kind == "plug":
        numbers = "/".join(_last(name) for name in (stop.plus, stop.minus) if name)
        contact = wiring.contact(stop.plus)
        plug, half = stop.owner, contact.half
        if contact.kind == "loom":  # the loom's pin was reached last
            half = next((m.half for m in wiring.job.mates if m.loom == stop.loom and m.plug == plug), "")
        lines = [f"{half} side"] if half and not wiring.job.parts.plugs[plug].inline else []
        lines += [f"loom {stop.loom}, {_pins(stop)}"] if stop.loom else []
        return Node(f"plug {plug} {numbers} {half}", f"{plug} {numbers}", tuple(lines))
    if stop.kind == "loom":
        return Node(f"loom {stop.plus}", f"loom {stop.owner}", (_pins(stop),))
    if stop.kind == "unit" and (first or last):
        name = leg.feed.driver.name if first else leg.feed.receiver.name
        unit, _, port = name.partition(".")
        return Node(f"unit {name}", f"{unit} {printed(port)}", tuple(_does(wiring, leg, first)))
    return Node(f"{stop.kind} {stop.plus}", f"{stop.owner} {printed(_last(stop.plus))}")


def _last(name: str) -> str:
    return name.rsplit(".", 1)[-1]


def _pins(stop: Stop) -> str:
    """`lead unit 1/11` or the leads' own names."""
    plus, minus = (pin.partition(".")[2] for pin in stop.pins)
    end, _, number = plus.rpartition(".")
    other = minus.rpartition(".")
    if end and other[0] == end:
        return f"{end} end {number}/{other[2]}"
    return " and ".join(filter(None, (plus, minus)))


def _does(wiring: Wiring, leg: Leg, first: bool) -> list[str]:
    """Under an output: which inputs it plays. Under an input: which outputs it goes to."""
    if first:
        route = wiring.signals.route(leg.feed.driver)
        if route is not None:
            return [f"plays {' + '.join(route.inputs)}{', INVERTED' if route.inverted else ''}"]
        return ["output"]
    port = leg.feed.receiver.port
    if port is None:
        return []
    outputs = [route.output for route in routes_of(port.unit, wiring.job) if port.name in route.inputs]
    return [f"to {', '.join(outputs)}"] if outputs else ["routed to no output"]


def _routes(wiring: Wiring) -> Iterator[Block]:
    rows: list[tuple[Cell, ...]] = []
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone:
            continue
        for route in routes_of(unit.name, wiring.job):
            rows.append(
                (
                    Strong(f"{unit.name} {route.output}"), " + ".join(route.inputs), _band(route), _gain(route), _delay(route),
                    Strong("INVERTED") if route.inverted else "no", "as written" if unit.routes_said else "assumed by number",
                )
            )  # fmt: skip
    yield Heading("What the units do inside")
    if not rows:
        yield Para("No routes inside a unit are written.")
        return
    columns = (
        Column("Output", 2), Column("Plays", 2), Column("Band", 2), Column("Gain"), Column("Delay"), Column("Turned round", 1.5),
        Column("Known", 2),
    )  # fmt: skip
    yield Grid(columns, tuple(rows))
    settings = [f"{unit.name}: {unit.settings}" for unit in wiring.job.parts.units.values() if unit.settings]
    if settings:
        yield Para(f"Settings files: {'; '.join(settings)}.")


def _band(route: Route) -> str:
    low, high = route.signal.low_hz, route.signal.high_hz
    if low is None and high is None:
        return "not recorded"
    if low is None:
        return f"up to {hertz(high)}" if high is not None else ""
    return f"{hertz(low)} to {hertz(high)}" if high is not None else f"from {hertz(low)}"


def _gain(route: Route) -> str:
    gain = route.signal.gain_db
    return "not recorded" if gain is None else f"{'−' if gain < 0 else ''}{abs(gain):g} dB"


def _delay(route: Route) -> str:
    delay = route.signal.delay_s
    return "not recorded" if delay is None else f"{delay * 1000:g} ms"
