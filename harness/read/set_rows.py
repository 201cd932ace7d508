"""How a unit's switches and controls are set: the table `set:`, and the names that its keys stand for."""

from __future__ import annotations

from collections.abc import Iterator

from harness.finding import Spot
from harness.model.function import read_function
from harness.model.parts import Port, Setting
from harness.read.names import nearest, spread
from harness.read.nodes import Node, Rows, Table, Text
from harness.read.troubles import Troubles
from harness.units import quantity

_DIMENSIONS = {"high-pass": "frequency", "low-pass": "frequency", "gain": "gain"}


def names_in(key: Text, troubles: Troubles, text: str | None = None) -> list[str]:
    """The names one key stands for: `FL FR`, `in1..4`; of `text` where the key has more words than names."""
    names: list[str] = []
    for word in (key.value if text is None else text).split():
        try:
            names += spread(word)
        except ValueError as wrong:
            troubles.add("R23", key.place, word, f"{wrong}.", "Write first..last, for instance in1..4.")
    return names


def port_name(name: str) -> str:
    """Channels are printed one way, whatever the spelling."""
    function = read_function(name)
    return function.base if function and function.channel else name


# The words of the file, and those of the sheets that a person reads.
_MEANT = {"used": "on", "unused": "off"}


def read_settings(
    node: Node | None, ports: dict[str, Port], troubles: Troubles, bad: set[int]
) -> Iterator[Setting]:  # fmt: skip
    """Each setting by itself; one of an output that isn't written, or given twice, is told and left out."""
    seen: dict[tuple[str, str], Setting] = {}
    outputs = {name.lower(): name for name, port in ports.items() if port.way == "out"}
    for key, value in node.items if isinstance(node, Table) else ():
        if id(key) in bad or id(value) in bad:
            continue
        what, _, names = key.value.partition(" ")
        if what not in _DIMENSIONS:
            what, names = key.value, ""
        for each in value.items if isinstance(value, Rows) else [value]:
            if not isinstance(each, Text) or id(each) in bad:
                continue
            words = _MEANT.get(said := " ".join(each.value.split()), said)
            for at, output in _of(key, each, what, names, troubles):
                known = [outputs.get(port_name(name).lower(), "") for name in output.split("/") if name]
                if not all(known):
                    _no_output(at, output, outputs, troubles)
                    continue
                dimension = _DIMENSIONS.get(what, "")
                number = quantity(words, dimension) if dimension and words not in ("off", "unknown") else None
                made = Setting(what, "/".join(known), words, number, key.place)
                before = seen.setdefault((what, made.output), made)
                if before is not made:
                    troubles.add(
                        "R22", at.place, key.value, f"{what} of {made.output} is set twice.", "Take one of them out.",
                        also=(Spot(before.place, what),),
                    )  # fmt: skip
                    continue
                yield made


def _of(key: Text, value: Text, what: str, names: str, troubles: Troubles) -> list[tuple[Text, str]]:
    """What a setting is of, each with the text that says so: outputs, the two of a bridge, or the whole unit."""
    if names:
        return [(key, each) for each in names_in(key, troubles, names)]
    return [(value, value.value if what == "bridge" and value.value not in ("unused", "off", "unknown") else "")]


def _no_output(at: Text, output: str, outputs: dict[str, str], troubles: Troubles) -> None:
    near = nearest(output, outputs.values())
    meant = f" Is {near} meant?" if near else ""
    troubles.add(
        "R20", at.place, output, f"No output “{output}” is written for this unit.{meant}",
        "Correct the name, or write it under outputs.",
    )  # fmt: skip
