"""A contact: one end that conducts. Its name is its identity, whatever its colour or order in the file."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from harness.model.colour import Colour
from harness.model.function import Function
from harness.place import Place
from harness.units import WireSize

CHASSIS = "chassis"


class Contact(NamedTuple):
    """`name` is PLUG.half.cavity, LOOM.end.cavity, LOOM.own, UNIT.terminal, spk.NAME+, gnd.NAME, battery.+."""

    name: str
    owner: str
    kind: str  # plug | loom | unit | speaker | ground | battery | chassis
    half: str  # unit | car | ''
    function: Function
    colour: Colour | None
    size: WireSize | None
    place: Place

    @property
    def last(self) -> str:
        """The cavity, terminal or own name."""
        return self.name.rsplit(".", 1)[1] if "." in self.name else self.name

    @property
    def words(self) -> str:
        """As a message names it: `dash cavity 14 (violet/black, RR −), car side`."""
        return contact_words(self)


def contact_words(contact: Contact) -> str:
    """Place, cavity, colour and channel, in words."""
    about = []
    if contact.colour is not None:
        about.append(contact.colour.words)
    name = printed(contact.function.name)
    if contact.kind in ("plug", "loom") and contact.function.kind not in ("unknown", "empty"):
        about.append(name)
    tail = f" ({', '.join(about)})" if about else ""
    if contact.kind == "plug":
        side = {"unit": ", unit side", "car": ", car side"}.get(contact.half, "")
        return f"{contact.owner} cavity {contact.last}{tail}{side}"
    if contact.kind == "loom":
        if contact.half:
            return f"{contact.owner} {contact.half} end {contact.last}{tail}"
        return f"{contact.owner} lead {contact.last}{tail}"
    if contact.kind == "speaker":
        return f"speaker {printed(contact.name.removeprefix('spk.'))}{tail}"
    if contact.kind == "ground":
        return f"ground point {contact.last}"
    if contact.kind == "battery":
        return f"battery {printed(contact.last)}"
    if contact.kind == "chassis":
        return "the car's body"
    return f"{contact.owner} {printed(contact.last)}{tail}"


def printed(name: str) -> str:
    """A name for people: a sign − that reads as a minus and not as a hyphen."""
    return name[:-1] + "−" if name.endswith("-") else name


def listed(names: Sequence[str]) -> str:
    """Names in a sentence: `a`, `a and b`, `a, b and c`; empty where there is none."""
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else "".join(names)
