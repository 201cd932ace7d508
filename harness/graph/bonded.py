"""What a unit joins inside: its terminals that are one, and outputs that only pass on what comes in."""

from __future__ import annotations

from harness.model.parts import Unit


def bonded(unit: Unit) -> dict[str, str]:
    """Terminal of a unit -> the one that stands for all that are joined to it inside, GND before others."""
    groups: list[set[str]] = []
    pairs = [set(bond.terminals) for bond in unit.bonds if not bond.fuse]
    pairs += [{port.name + "-", "GND"} for port in unit.ports.values() if port.signal.form == "grounded"]
    for pair in pairs:
        touching = [group for group in groups if group & pair]
        groups = [group for group in groups if not group & pair]
        groups.append(pair.union(*touching))
    return {
        f"{unit.name}.{terminal}": f"{unit.name}.{'GND' if 'GND' in group else min(group)}"
        for group in groups
        for terminal in group
    }


def passed_on(unit: Unit) -> frozenset[str]:
    """The outputs of which the unit joins + to a wire of an input: what comes in goes out, and the unit drives nothing
    there (the through sockets of an amplifier).
    """
    inside = bonded(unit)
    into = {inside.get(end) for port in unit.ports.values() if port.way == "in" for end in (port.plus, port.minus)}
    passed = (port for port in unit.ports.values() if port.way == "out" and inside.get(port.plus) in into - {None})
    return frozenset(port.name for port in passed)
