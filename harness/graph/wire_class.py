"""Which class a joint's wires are of, in the words of the presets: where they are and what they carry."""

from __future__ import annotations

from collections.abc import Iterable

from harness.graph.wiring import INPUT, OUTPUT, SPEAKER, Wiring
from harness.joints import JointMethod
from harness.model.job import Joint
from harness.presets import AUDIO, DATA, FACTORY, GROUND, LOOM, POWER, RESTRAINT, SIGNAL, TERMINAL

_WHAT = {
    "restraint": RESTRAINT, "high voltage": RESTRAINT, "data": DATA, "digital": DATA, "battery": POWER,
    "switched": POWER, "audio": AUDIO, "port": AUDIO, "mic": AUDIO, OUTPUT: AUDIO, INPUT: AUDIO, SPEAKER: AUDIO,
    "ground": GROUND, "shield": GROUND,
    "light": SIGNAL, "trigger": SIGNAL, "aerial": SIGNAL, "mute": SIGNAL, "control": SIGNAL, "other": SIGNAL,
}  # fmt: skip
_WORST_FIRST = (RESTRAINT, DATA, POWER, AUDIO, GROUND, SIGNAL)
_WIRES = frozenset(("plug", "loom"))  # kinds of contacts on a wire; all others are terminals


def wire_class(wiring: Wiring, joint: Joint, method: JointMethod) -> tuple[str, str]:
    """(where, what) of the most delicate wire in a joint.

    A method that is made at a terminal is judged there, when the joint has one.
    """
    kinds, carried = set(), set()
    for link in joint.links:
        for end in link:
            kinds.add(wiring.contact(end).kind)
            if (what := _WHAT.get(wiring.role(end))) is not None:
                carried.add(what)
    at_terminal = method.at_terminal and not kinds <= _WIRES
    where = TERMINAL if at_terminal else FACTORY if "plug" in kinds else LOOM if "loom" in kinds else TERMINAL
    if not carried:
        nets = {wiring.planned.net_number(end) for link in joint.links for end in link}
        carried = {_WHAT[role] for net in nets for role in wiring.roles_of_net(net) if role in _WHAT}
    return where, min(carried, key=_WORST_FIRST.index, default=SIGNAL)


def most_delicate(wiring: Wiring, names: Iterable[str]) -> str:
    """What the most delicate of some contacts carries, as the presets name it."""
    carried = {_WHAT[role] for role in map(wiring.role, names) if role in _WHAT}
    return min(carried, key=_WORST_FIRST.index, default=SIGNAL)
