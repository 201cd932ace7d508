"""Data wires net by net: both letters of a pair in one net, crossed letters, and strangers on the bus."""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.wiring import Wiring

_SILENT_KINDS = ("unknown", "empty", "terminal", "data", "")


class Trouble(NamedTuple):
    """Two contacts of one net that must not meet; `what` says how, for the message."""

    what: str  # shorted | crossed | stranger | other bus
    first: str
    second: str


@kept
def bus_troubles(wiring: Wiring) -> list[Trouble]:
    """At most one a net, the worst first: a pair's own two wires, a stranger, another bus, crossed letters."""
    by_net: dict[int, list[str]] = defaultdict(list)
    for name in wiring.contacts_for("data"):
        contact = wiring.contact(name)
        if contact.function.sign and contact.kind in ("plug", "unit"):
            by_net[wiring.planned.net_number(name)].append(name)
    made = []
    for number, wires in by_net.items():
        found = (
            _shorted(wiring, wires)
            or _stranger(wiring, wires, wiring.planned.nets[number])
            or _other_bus(wiring, wires)
            or _crossed(wiring, wires)
        )
        if found:
            made.append(found)
    return made


def _shorted(wiring: Wiring, wires: list[str]) -> Trouble | None:
    """H and L of one plug's half, or of one unit, in one net."""
    letters: dict[tuple[str, str], dict[str, str]] = {}
    for name in wires:
        contact = wiring.contact(name)
        letters.setdefault((contact.owner, contact.half), {}).setdefault(contact.function.sign, name)
    for both in letters.values():
        if len(both) == 2:
            return Trouble("shorted", both["H"], both["L"])
    return None


def _stranger(wiring: Wiring, wires: list[str], net: list[str]) -> Trouble | None:
    """Anything in the net whose function is known and is not data. A loom's lead is only what its maker calls it."""
    strangers = {
        name
        for name in net
        if wiring.role(name) not in _SILENT_KINDS and wiring.contact(name).kind not in ("loom", "run")
    }
    if not strangers:
        return None
    return Trouble("stranger", wires[0], wiring.planned.nearest(wires[0], strangers.__contains__))


def _other_bus(wiring: Wiring, wires: list[str]) -> Trouble | None:
    """A data contact of another plug that was not in the net as found."""
    plugs = [name for name in wires if wiring.contact(name).kind == "plug"]
    for name in plugs[1:]:
        if wiring.contact(name).owner != wiring.contact(plugs[0]).owner and not wiring.found.joined(plugs[0], name):
            return Trouble("other bus", plugs[0], name)
    return None


def _crossed(wiring: Wiring, wires: list[str]) -> Trouble | None:
    """Different letters that meet without their own partners: a swap."""
    first = wires[0]
    sign = wiring.contact(first).function.sign
    other = next((name for name in wires if wiring.contact(name).function.sign != sign), "")
    return Trouble("crossed", first, other) if other else None
