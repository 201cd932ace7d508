"""Units and speakers of the job file."""

from __future__ import annotations

import re
from collections.abc import Iterator

from harness.finding import Spot
from harness.model.function import UNKNOWN, Function, pair_of, read_function
from harness.model.parts import Bond, Lead, Port, Route, Signal, Speaker, Successor, Unit
from harness.place import Place
from harness.read.names import nearest
from harness.read.nodes import Node, Rows, Table, Text
from harness.read.pieces import piece
from harness.read.plugs import legend_of, text_of, texts_of
from harness.read.powering import read_power
from harness.read.rows import read_words
from harness.read.set_rows import names_in, port_name, read_settings
from harness.read.signals import read_signal
from harness.read.troubles import Troubles
from harness.units import quantity

# What a kind of unit has without being told. Relay numbers as the trade's cube relay (common practice, no source).
KIND_TERMINALS = {
    "relay": ("30", "85", "86", "87", "87a"),
    "fuse block": ("in",),
    "battery": ("+", "-"),
    "diode": ("a", "k"),
}
PLAIN_TERMINALS = ("B+", "GND", "rem")
_WAKE = re.compile(r"(\S+)( .*)?")


def read_unit(name: str, key: Text, table: Table, troubles: Troubles, bad: set[int]) -> Unit:
    """One unit; what isn't understood is told and left out."""
    kind = " ".join(text_of(table, "kind").lower().split())
    terminals: dict[str, Place] = {}
    ports: dict[str, Port] = {}
    for heading, way in (("inputs", "in"), ("outputs", "out")):
        node = table.get(heading)
        for port_key, value in node.items if isinstance(node, Table) else ():
            signal = _signal(value, troubles, bad)
            for each in names_in(port_key, troubles):
                ports[port_name(each)] = Port(name, port_name(each), way, signal, port_key.place)
    for port in ports.values():
        for sign in "+-":
            terminals[port.name + sign] = port.place
    ways = text_of(table, "ways")
    for terminal in KIND_TERMINALS.get(kind, PLAIN_TERMINALS):
        terminals.setdefault(terminal, key.place)
    bonds = _bonds(table.get("bonds"), terminals)
    if kind == "fuse block":
        for number in range(1, (int(ways) if ways.isdigit() else 1) + 1):
            terminals[str(number)] = key.place
            bonds.append(Bond(("in", str(number)), key.place, fuse=True))
    gives = _gives(table.get("gives"), terminals, bad)
    wakes = tuple(each.value for each in texts_of(table.get("wakes")))
    for each in wakes:
        word = each.partition(" ")[0] or "signal"
        if word.lower() not in ("bus", "signal"):
            _terminal(word, key.place, terminals)
    for more in listed(table.get("terminals")):
        function = read_function(more.value)
        both = pair_of(function) if function else None
        for terminal in (both[0].name, both[1].name) if both else (more.value,):
            _terminal(terminal, more.place, terminals)
    bridges = tuple(_bridges(texts_of(table.get("bridges")), ports, troubles, bad))
    routes = table.get("routes")
    return Unit(
        name=name, place=key.place, kind=kind, where=text_of(table, "place"), ports=ports,
        routes=tuple(_routes(routes, ports, troubles, bad)), routes_said=isinstance(routes, Table),
        bridges=bridges, bonds=tuple(bonds), wakes=wakes, gives_a=gives, settings=text_of(table, "settings"),
        switches=tuple(read_settings(table.get("set"), ports, troubles, bad)),
        leads=tuple(_leads(name, table, terminals, troubles, bad)), terminals=terminals,
        power=read_power(table, bad),
    )  # fmt: skip


def _signal(node: Node, troubles: Troubles, bad: set[int]) -> Signal:
    if not isinstance(node, Text) or id(node) in bad or node.value == "unknown":
        return Signal()
    try:
        return read_signal(node.value)
    except ValueError as wrong:
        troubles.add("R09", node.place, node.value, f"{wrong}.", "Write for instance `2..20 V differential`.")
        return Signal()


def _bonds(node: Node | None, terminals: dict[str, Place]) -> list[Bond]:
    made = []
    for each in texts_of(node):
        words = tuple(_terminal(word, each.place, terminals) for word in each.value.split())
        made.append(Bond(words, each.place))
    return made


def _terminal(word: str, place: Place, terminals: dict[str, Place]) -> str:
    """A terminal by its name, whatever its case: `REM` is `rem` where that is there; else it is a new one."""
    if word in terminals:
        return word
    known = next((name for name in terminals if name.lower() == word.lower()), word)
    terminals.setdefault(known, place)
    return known


def _gives(node: Node | None, terminals: dict[str, Place], bad: set[int]) -> dict[str, float]:
    gives: dict[str, float] = {}
    for key, value in node.items if isinstance(node, Table) else ():
        terminal = _terminal(key.value, key.place, terminals)
        if isinstance(value, Text) and id(value) not in bad and value.value != "unknown":
            gives[terminal] = quantity(value.value, "current")
    return gives


def _bridges(
    entries: list[Text], ports: dict[str, Port], troubles: Troubles, bad: set[int]
) -> Iterator[tuple[str, str]]:
    """The terminals of each bridge, + first; one that is no output's terminal is told."""
    outputs = {
        port.name.lower() + sign: port.name + sign for port in ports.values() if port.way == "out" for sign in "+-"
    }
    for entry in entries:
        pair = [word.strip() for word in entry.value.split("/")]
        if id(entry) in bad or len(pair) != 2:
            continue
        wrong = next((word for word in pair if word.lower() not in outputs), "")
        if not wrong:
            yield outputs[pair[0].lower()], outputs[pair[1].lower()]
            continue
        near = nearest(wrong, outputs.values())
        troubles.add(
            "R20", entry.place, wrong,
            f"“{wrong}” is no terminal of an output." + (f" Is {near} meant?" if near else ""),
            "Write two terminals of outputs, + first, for instance out1+/out2-.",
        )  # fmt: skip


def _routes(node: Node | None, ports: dict[str, Port], troubles: Troubles, bad: set[int]) -> list[Route]:
    made = []
    for key, value in node.items if isinstance(node, Table) else ():
        if not isinstance(value, Text) or id(value) in bad:
            continue
        outputs = [port_name(each) for each in names_in(key, troubles)]
        inputs: list[str] = []
        rest: list[str] = []
        inverted = False
        for word in value.value.split():
            if word.lower() == "inverted":
                inverted = True
            elif word == "+" and not rest:
                continue
            elif not rest and not inverted and re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]*(\.\.[0-9]+)?", word):
                inputs += [port_name(each) for each in names_in(_word(value, word), troubles)]
            else:
                rest.append(word)
        try:
            signal = read_signal(" ".join(rest)) if rest else Signal()
        except ValueError as wrong:
            troubles.add("R09", value.place, value.value, f"{wrong}.", "Write for instance `in1 + in2 ..80 Hz -3 dB`.")
            continue
        for wrong_name, way in [(each, "out") for each in outputs] + [(each, "in") for each in inputs]:
            port = ports.get(wrong_name)
            if port is None or port.way != way:
                _no_port(value if way == "in" else key, wrong_name, way, ports, troubles)
        made += _spread_routes(outputs, inputs, inverted, signal, key, value, ports, troubles)
    return made


def _spread_routes(
    outputs: list[str], inputs: list[str], inverted: bool, signal: Signal, key: Text, value: Text,
    ports: dict[str, Port], troubles: Troubles,
) -> list[Route]:  # fmt: skip
    """Several outputs: one to one where the inputs are as many and written as a range, else each gets all."""
    one_to_one = len(outputs) > 1 and ".." in value.value
    if one_to_one and len(inputs) != len(outputs):
        troubles.add(
            "R23", value.place, value.value, f"{len(outputs)} outputs and {len(inputs)} inputs.",
            "Give both ranges the same length, or write one route a line.",
        )  # fmt: skip
        return []
    return [
        Route(output, (inputs[at],) if one_to_one else tuple(inputs), inverted, signal, key.place)
        for at, output in enumerate(outputs)
    ]


def _word(node: Text, word: str) -> Text:
    return piece(node, word, max(node.value.find(word), 0))


def _no_port(node: Text, name: str, way: str, ports: dict[str, Port], troubles: Troubles) -> None:

    near = nearest(name, [port.name for port in ports.values() if port.way == way])
    meant = f" Is {near} meant?" if near else ""
    troubles.add(
        "R20", node.place, name, f"No {way}put “{name}” is written for this unit.{meant}",
        f"Correct the name, or write it under {'inputs' if way == 'in' else 'outputs'}.",
    )  # fmt: skip


def _leads(
    name: str, table: Table, terminals: dict[str, Place], troubles: Troubles, bad: set[int]
) -> list[Lead]:  # fmt: skip
    legend = legend_of(table)
    node = table.get("leads")
    made: list[Lead] = []
    for key, value in node.items if isinstance(node, Table) else ():
        if id(value) in bad or not isinstance(value, Text):
            continue
        try:
            words = read_words("unknown " + value.value, legend)
        except ValueError as wrong:
            troubles.add("R09", value.place, value.value, f"{wrong}.", "Write colours and a size: `WH WH/BK 18 AWG`.")
            continue
        for each in names_in(key, troubles):
            lower = {terminal.lower(): terminal for terminal in terminals}
            named = read_function(each)
            both = pair_of(named) if named else None
            if each.lower() not in lower and each.lower() + "+" in lower:
                pair = [lower.get(each.lower() + sign, each + sign) for sign in "+-"]
            elif each.lower() not in lower and both:
                pair = [both[0].name, both[1].name]
            else:
                pair = [lower.get(each.lower(), each)]
            for at, terminal in enumerate(pair):
                terminals.setdefault(terminal, key.place)
                colour = words.colours[at] if at < len(words.colours) else None
                made.append(
                    Lead(
                        f"{name}.{terminal}",
                        "",
                        "",
                        terminal_function(terminal),
                        colour,
                        words.size,
                        key.place,
                        terminal,
                    )
                )
    return made


def terminal_function(terminal: str) -> Function:
    """What a unit's terminal is for, as far as its name says: `rem` is a trigger, `in1+` a port."""
    function = read_function(terminal)
    if function is not None:
        return function
    if terminal.lower().startswith("rem"):
        return Function(terminal, terminal, "", "trigger")
    if terminal[-1:] in "+-" and len(terminal) > 1:
        return Function(terminal, terminal[:-1], terminal[-1], "port")
    return Function(terminal, terminal, "", "terminal")


_COILS = re.compile(r"([0-9]+) x (\S+ \S+)(?: (series|parallel|separate))?")


def read_speakers(node: Node | None, troubles: Troubles, bad: set[int]) -> dict[str, Speaker]:
    """Every speaker by its name."""
    made: dict[str, Speaker] = {}
    for key, value in node.items if isinstance(node, Table) else ():
        for name in names_in(key, troubles):
            function = read_function(name)
            printed = function.base if function and function.channel else name
            if printed in made:
                troubles.add(
                    "R22", key.place, name, f"Speaker {printed} is written twice.", "Give one of the two another name.",
                    also=(Spot(made[printed].place, printed),),
                )  # fmt: skip
                continue
            made[printed] = _speaker(printed, function or UNKNOWN, key, value, bad)
    return made


def _ohms(text: str) -> float | None:
    try:
        return quantity(text, "resistance") if text and text != "unknown" else None
    except ValueError:
        return None  # below a name that can't be read nothing else is looked at: that name is told


def _coils_of(table: Table, bad: set[int]) -> tuple[int, float | None, str]:
    """How many coils, the ohms of each, and how they are wired: `2 x 2 ohm series`."""
    coils = _COILS.fullmatch(text_of(table, "coils", bad))
    return (int(coils[1]), _ohms(coils[2]), coils[3] or "") if coils else (1, None, "")


def _successor(table: Table, bad: set[int]) -> Successor:
    return Successor(_ohms(text_of(table, "nominal", bad)), *_coils_of(table, bad), text_of(table, "capacitor", bad))


def _speaker(name: str, function: Function, key: Text, node: Node, bad: set[int]) -> Speaker:
    table = node if isinstance(node, Table) else Table(key.file, key.line, key.column)

    coils, coil_ohm, coil_wiring = _coils_of(table, bad)
    new = table.get("new")
    return Speaker(
        name=name, place=key.place, where=text_of(table, "place"), function=function,
        nominal_ohm=_ohms(text_of(table, "nominal", bad)),
        coils=coils, coil_ohm=coil_ohm, coil_wiring=coil_wiring,
        capacitor=text_of(table, "capacitor"),
        inverted=text_of(table, "inverted").lower(),
        new=new.value if isinstance(new, Text) else (text_of(new, "note") or "new" if isinstance(new, Table) else ""),
        successor=_successor(new, bad) if isinstance(new, Table) else None,
    )  # fmt: skip


def read_grounds_node(node: Node | None) -> list[tuple[Text, str, str, str]]:
    """(name, place, metal, how it is fixed) of each ground point."""
    made = []
    for key, value in node.items if isinstance(node, Table) else ():
        if isinstance(value, Table):
            made.append(
                (key, text_of(value, "place"), text_of(value, "metal").lower(), text_of(value, "fixed").lower())
            )
        elif isinstance(value, Text):
            made.append((key, value.value, "", ""))
    return made


def listed(node: Node | None) -> list[Text]:
    """Contacts or names in a list, or in one text with spaces."""
    if isinstance(node, Rows):
        return [piece for item in node.items for piece in texts_of(item, split=True)]
    return texts_of(node, split=True)
