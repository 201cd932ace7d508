"""The route pictures: how each signal goes from the radio to each speaker, and what units do with it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from harness.graph.loads import loads
from harness.graph.signal import routes_of
from harness.model.contact import printed
from harness.planning.routes import Leg, Stop, Wire, group_of, legs
from harness.planning.states import contradicted_at
from render.blocks import Block, Cell, Column, Edge, Grid, Heading, Node, Para, Picture, Sheet, Strong, Swatch
from render.documents import document
from render.documents.route_legend import legend
from render.documents.wording import NOT_RECORDED, hertz, piece_words

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.parts import Route
    from harness.prove import Proof
_HOLD = "\N{NO-BREAK SPACE}"


@document("route-picture", title="Route pictures", order=6)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For whoever must find the way of one signal, forwards or backwards."""
    if proof.wiring is not None:
        blocks = tuple(_blocks(proof.wiring))
        bases = ("series, parallel",)
        yield Sheet("route-picture", "Route pictures", blocks, landscape=True, shares=True, bases=bases)


def _blocks(wiring: Wiring) -> Iterator[Block]:
    found = legs(wiring)
    if not found:
        yield Para("No signal reaches a speaker in this plan, so there is no route to draw.")
    else:
        whole = _whole(wiring, found)
        groups = dict.fromkeys(_group(leg) for leg in found)
        pictures = {group: list(_pictures(wiring, [leg for leg in found if _group(leg) == group])) for group in groups}
        yield whole
        yield Para(legend([whole, *(each for made in pictures.values() for each in made)]))
        for group, made in pictures.items():
            yield Heading(f"{group[:1].upper()}{group[1:]}")
            yield from made
    yield from _routes(wiring)


def _whole(wiring: Wiring, found: list[Leg] | tuple[Leg, ...]) -> Picture:
    """Every signal's way through the units, without the plugs and joints between."""
    nodes: dict[str, Node] = {}
    edges: dict[tuple[str, str], Edge] = {}
    for leg in found:
        driver, receiver = leg.feed.driver, leg.feed.receiver
        nodes.setdefault(driver.name, Node(driver.name, _port_words(driver.name)))
        if receiver.port is None:
            where = wiring.job.parts.speakers[receiver.speaker].where
            title = f"speaker {receiver.name.removeprefix('spk.')}"
            nodes.setdefault(receiver.name, Node(receiver.name, title, (where,) if where else (), "loudspeaker"))
        else:
            nodes.setdefault(receiver.name, Node(receiver.name, _port_words(receiver.name)))
        words = _reversed(wiring, leg) if leg.turned else ""
        tail = driver.name
        line = leg.feed.series
        if line and line[0] != receiver.name:  # drawn as it is wired: behind the one before it in the line
            tail, words = line[line.index(receiver.name) - 1], ", ".join(filter(None, ("in line", words)))
        edges.setdefault((tail, receiver.name), Edge(tail, receiver.name, words, group=_group(leg)))
    for leg in found:
        driver = leg.feed.driver
        route = wiring.signals.route(driver)
        for name in route.inputs if route is not None else ():
            tail = f"{driver.port.unit}.{name}"
            if route is not None and tail in nodes:
                said = [_band(route) if route.signal.low_hz or route.signal.high_hz else ""]
                said += ["INVERTED" if route.inverted else ""]
                words = ", ".join(filter(None, said))
                edges.setdefault((tail, driver.name), Edge(tail, driver.name, words, group=_group(leg)))
    return Picture("The whole job, unit by unit", tuple(nodes.values()), tuple(edges.values()))


def _port_words(name: str) -> str:
    unit, _, port = name.partition(".")
    return f"{unit} {printed(port)}"


def _group(leg: Leg) -> str:
    """By what it leads to where that is the subwoofer alone, else by the channels that it carries."""
    if leg.speakers and all(group_of(name) == "subwoofer" for name in leg.speakers):
        return "subwoofer"
    return " and ".join(dict.fromkeys(group_of(channel) for channel in leg.channels))


def _pictures(wiring: Wiring, found: list[Leg]) -> Iterator[Picture]:
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
    stops, wires = _without_passed_speakers(leg)
    for at, stop in enumerate(stops):
        node = _node(wiring, leg, stop, first=at == 0, last=at == len(stops) - 1)
        nodes.setdefault(node.name, node)
        keys.append(node.name)
    back = leg.back
    for _, stop in back:
        node = _node(wiring, leg, stop, first=False, last=False)
        if stop.kind == "unit":
            node = replace(node, lines=("back to the output",))
        nodes.setdefault(node.name, node)
        keys.append(node.name)
    group = group_of(leg.channels[0]) if leg.channels else ""
    for at, wire in enumerate([*wires, *(wire for wire, _ in back)]):
        words = [", ".join(piece_words(segment) for segment in wire.run)] if wire.run else []
        words += [f"in line with {' and '.join(wire.in_line)}"] if wire.in_line else []
        if leg.turned and at == len(wires) - 1:
            words.insert(0, _reversed(wiring, leg))
        edge = Edge(keys[at], keys[at + 1], ", ".join(words), _swatches(wire), wire.twisted, group)
        edges.setdefault((keys[at], keys[at + 1]), edge)


def _without_passed_speakers(leg: Leg) -> tuple[list[Stop], list[Wire]]:
    """A speaker whose terminals only pass the wires on is left out: speakers side by side hang on one stop."""
    stops, wires = [leg.stops[0]], []
    for at, (stop, wire) in enumerate(zip(leg.stops[1:], leg.wires, strict=True), 1):
        if stop.kind != "speaker" or at == len(leg.stops) - 1:
            stops.append(stop)
            wires.append(wire)
    return stops, wires


def _reversed(wiring: Wiring, leg: Leg) -> str:
    """A leg on which + and − change places, and whether the job wishes it so for that speaker."""
    speaker = leg.feed.receiver.speaker
    wish = wiring.job.parts.speakers[speaker].inverted if speaker else ""
    return f"REVERSED, {wish}" if wish else "REVERSED"


def _swatches(wire: Wire) -> tuple[Swatch, ...]:
    """One for each wire whose colour is known, with its sign before the words."""
    signed = (("+", wire.plus), ("−", wire.minus))
    return tuple(
        Swatch(colour.base, colour.stripe, colour.mark, f"{sign}{_HOLD}{colour.words}")
        for sign, colour in signed
        if colour is not None
    )


def _node(wiring: Wiring, leg: Leg, stop: Stop, *, first: bool, last: bool) -> Node:
    if stop.kind == "joint":
        return _joint_node(wiring, leg, stop)
    if stop.kind == "speaker":
        place = wiring.job.parts.speakers[stop.owner].where
        name = stop.plus.removeprefix("spk.").rstrip("+-")
        return Node(f"speaker {name}", f"speaker {name}", (place,) if place else (), symbol="loudspeaker")
    if stop.kind == "plug":
        numbers = "/".join(_last(name) for name in (stop.plus, stop.minus) if name)
        contact = wiring.contact(stop.plus)
        plug, half = stop.owner, contact.half
        opened = wiring.fates.opened(plug, _last(stop.plus))
        words = [f"{half} side"] if half and opened else []
        if stop.loom:
            same = numbers == _pins(stop).rpartition(" ")[2]
            # the end's name and the same numbers again would only make the box wide
            words.append(f"loom {stop.loom}" if same else f"loom {stop.loom}, {_pins(stop)}")
        lines = [", ".join(words)] if words else []
        if against := contradicted_at(wiring, stop.plus):
            lines.append(against)
        return Node(f"plug {plug} {numbers} {half}", f"{plug} {numbers}", tuple(lines))
    if stop.kind == "loom":
        return Node(f"loom {stop.plus}", f"loom {stop.owner}", (_pins(stop),))
    if stop.kind == "unit" and (first or last):
        name = leg.feed.driver.name if first else leg.feed.receiver.name
        return Node(f"unit {name}", _port_words(name), tuple(_does(wiring, leg, first)))
    return Node(f"{stop.kind} {stop.plus}", f"{stop.owner} {printed(_last(stop.plus))}")


def _joint_node(wiring: Wiring, leg: Leg, stop: Stop) -> Node:
    """A joint of both wires by its name; one that only one of the wires has with that wire's sign behind it."""
    names = [stop.owner]
    if stop.other:
        names = [f"{stop.owner}{_HOLD}+", f"{stop.other}{_HOLD}−"]
    elif not leg.feed.series and not (stop.plus and stop.minus):
        names = [f"{stop.owner}{_HOLD}{'+' if stop.plus else '−'}"]
    methods = dict.fromkeys(wiring.joints[name].method for name in (stop.owner, stop.other) if name)
    return Node(f"joint {stop.owner} {stop.other}", " / ".join(names), (", ".join(methods),), symbol="splice")


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
        plays = f"plays {' + '.join(route.inputs)}{', INVERTED' if route.inverted else ''}" if route else "output"
        load = _load(wiring, leg.feed.driver.name)
        return [plays, f"load {load}"] if load else [plays]
    port = leg.feed.receiver.port
    if port is None:
        return []
    outputs = [route.output for route in routes_of(port.unit, wiring.job) if port.name in route.inputs]
    return [f"to {', '.join(outputs)}"] if outputs else ["routed to no output"]


def _load(wiring: Wiring, driver: str) -> str:
    """The ohms that an output sees by nominal, its cable included; empty where it drives no speaker."""
    load = next((each for each in loads(wiring) if each.driver.name == driver), None)
    if load is None:
        return ""
    return f"{load.nominal_ohm:.3g}{_HOLD}Ω" if load.nominal_ohm else f"ohms {NOT_RECORDED}"


def _routes(wiring: Wiring) -> Iterator[Block]:
    """Output by output; a setting that is written nowhere is said once, below, instead of in every row."""
    found = [
        (unit, route)
        for unit in wiring.job.parts.units.values()
        if unit.name not in wiring.gone
        for route in routes_of(unit.name, wiring.job)
    ]
    yield Heading("What the units do inside")
    if not found:
        yield Para("No routes inside a unit are written.")
        return
    settings: list[tuple[str, float, Callable[[Route], str]]] = [
        ("Band", 1.4, _band), ("Gain", 1.2, _gain), ("Delay", 1.2, _delay),
    ]  # fmt: skip
    told = [each for each in settings if any(each[2](route) != NOT_RECORDED for _, route in found)]
    untold = [title.lower() for title, _, say in settings if say not in [each[2] for each in told]]
    rows: list[tuple[Cell, ...]] = [
        (
            Strong(f"{unit.name} {route.output}"),
            " + ".join(route.inputs),
            *(say(route) for _, _, say in told),
            Strong("INVERTED") if route.inverted else "no",
            "as written" if unit.routes_said else "assumed by number",
        )
        for unit, route in found
    ]
    columns = (
        Column("Output", 1.4),
        Column("Plays", 1.6),
        *(Column(title, weight) for title, weight, _ in told),
        Column("Turned round", 0.9),
        Column("Known", 1),
    )
    yield Grid(columns, tuple(rows))
    if untold:
        said = " and ".join(filter(None, (", ".join(untold[:-1]), untold[-1])))
        yield Para(f"{said[:1].upper()}{said[1:]}: {NOT_RECORDED} for any output.")
    files = [f"{unit.name}: {unit.settings}" for unit in wiring.job.parts.units.values() if unit.settings]
    if files:
        yield Para(f"Settings files: {'; '.join(files)}.")


def _band(route: Route) -> str:
    low, high = route.signal.low_hz, route.signal.high_hz
    if low is None and high is None:
        return NOT_RECORDED
    if low is None:
        return f"up to {hertz(high)}" if high is not None else ""
    return f"{hertz(low)} to {hertz(high)}" if high is not None else f"from {hertz(low)}"


def _gain(route: Route) -> str:
    gain = route.signal.gain_db
    return NOT_RECORDED if gain is None else f"{'−' if gain < 0 else ''}{abs(gain):g} dB"


def _delay(route: Route) -> str:
    delay = route.signal.delay_s
    return NOT_RECORDED if delay is None else f"{delay * 1000:g} ms"
