"""Which class a joint's wires are of, in the words of the presets: where they are and what they carry."""

from __future__ import annotations

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
_WHERE = {"plug": FACTORY, "loom": LOOM}


def wire_class(wiring: Wiring, joint: Joint, method: JointMethod) -> tuple[str, str]:
    """(where, what) of the most delicate wire in a joint.

    A method that is made at a terminal is judged there, when the joint has one.
    """
    ends = list(dict.fromkeys(end for link in joint.links for end in link))
    places = {_WHERE.get(wiring.contact(end).kind, TERMINAL) for end in ends}
    if method.at_terminal and TERMINAL in places:
        where = TERMINAL
    else:
        where = next(each for each in (FACTORY, LOOM, TERMINAL) if each in places)
    carried = {_WHAT[role] for end in ends if (role := wiring.role(end)) in _WHAT}
    if not carried:
        nets = {wiring.planned.net_number(end) for end in ends}
        carried = {_WHAT[role] for net in nets for role in wiring.roles_of_net(net) if role in _WHAT}
    return where, next((each for each in _WORST_FIRST if each in carried), SIGNAL)
