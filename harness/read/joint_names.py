"""Names that the job gives to its joints: each means one joint, and nothing else of the job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from harness.finding import Spot
from harness.model.job import Joint
from harness.model.parts import Parts
from harness.place import Place
from harness.read.names import RESERVED
from harness.read.nodes import Node, Table, Text
from harness.read.troubles import Troubles

# Words of records and of the order of work, which would be taken for these.
_WORDS = (*RESERVED, "last", "all", "every")


def check_joint_names(node: Node | None, joints: Sequence[Joint], parts: Parts, troubles: Troubles) -> None:
    """Tell every given name that is another joint's, one's automatic name, or that of a plug, loom, unit, speaker or
    ground: records and steps call joints by their names, in small or large letters.
    """
    given = _given(node)
    if not given:
        return
    things = _things(parts)
    taken: dict[str, tuple[str, Place]] = {}
    for number, joint in enumerate(joints, 1):
        if joint.place not in given or joint.name == f"J{number}":
            taken[joint.name.lower()] = "another joint, by its number,", joint.place
    for joint in joints:
        name = given.get(joint.place)
        if name is None or name.value != joint.name:
            continue
        lower = name.value.lower()
        if lower in _WORDS:
            troubles.add(
                "R22", name.place, name.value, f"“{name.value}” is a word of jobs and records themselves.",
                f"Give this joint another name, for instance {name.value}-1.",
            )  # fmt: skip
            continue
        other = things.get(lower) or taken.get(lower)
        if other is not None and other[1] != joint.place:
            troubles.add(
                "R22", name.place, name.value,
                f"“{name.value}” is the name of {other[0]} already: a record of it could mean either.",
                "Give one of the two another name.", (Spot(other[1], name.value),),
            )  # fmt: skip
        taken.setdefault(lower, ("another joint", name.place))


def _given(node: Node | None) -> dict[Place, Text]:
    """The names written in the rows of joints, by the place of the row."""
    made = {}
    for _, table in node.items if isinstance(node, Table) else ():
        for key, value in table.items if isinstance(table, Table) else ():
            name = value.get("name") if isinstance(value, Table) else None
            if isinstance(name, Text) and isinstance(key, Text):
                made[key.place] = name
    return made


def _things(parts: Parts) -> Mapping[str, tuple[str, Place]]:
    made: dict[str, tuple[str, Place]] = {}
    kinds = (
        ("ground", parts.grounds), ("speaker", parts.speakers), ("unit", parts.units), ("loom", parts.looms),
        ("plug", parts.plugs),
    )  # fmt: skip
    for kind, each in kinds:
        for name, thing in each.items():
            made[name.lower()] = f"a {kind}", thing.place
    return made
