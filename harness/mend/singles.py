"""Single changes that may clear a finding, each kind from what lies near."""

from __future__ import annotations

from collections.abc import Iterator

from harness.joints import methods
from harness.mend.changes import (
    COVER,
    AddJoint,
    Change,
    DropRow,
    DropTarget,
    Group,
    Method,
    Move,
    Say,
    SwapRows,
    TakeBack,
    TurnRow,
    Unplug,
    where,
)
from harness.mend.scene import Row, Scene

FATES = ("cut", "capped", "depinned", "removed", "moved")


def singles(scene: Scene) -> Iterator[Change]:
    """Every single change."""
    for row in scene.rows:
        if len(row.joint.links) == 2 and len(row.rights) == 1:
            yield TurnRow(row.place)
    yield from _swaps(scene)
    yield from _methods(scene)
    yield from _taken_back(scene)
    yield from caps(scene)
    yield from added(scene)
    for row in scene.rows:
        if len(row.rights) > 1:
            yield from (DropTarget(row.place, target) for target in range(len(row.rights)))
    yield from (DropRow(place) for place in scene.row_places)
    for row in scene.rows:
        yield from moves(scene, row)
    yield from _cuts(scene)
    near = [mate.place for mate in scene.job.mates if scene.is_about(mate.loom) or scene.is_about(mate.plug)]
    near += [each.place for each in scene.job.couplings if scene.is_about(each.loom) or scene.is_about(each.other)]
    mates = dict.fromkeys(place for place in near if scene.mine(place))
    yield from (Unplug(place) for place in mates)


def _swaps(scene: Scene) -> Iterator[SwapRows]:
    """The two wires at a pair exchanged, where each of them has a row of its own."""
    ends: dict[str, list[tuple[Row, bool, Group]]] = {}
    for row in scene.rows:
        if len(row.rights) == 1 and len(row.left.contacts) == 1:
            ends.setdefault(row.left.contacts[0], []).append((row, False, row.left))
            ends.setdefault(row.right.contacts[0], []).append((row, True, row.right))
    done: set[frozenset[Move]] = set()
    for name, here in ends.items():
        there = ends.get(scene.partner(name), [])
        if len(here) != 1 or len(there) != 1 or scene.job.contacts[name].function.sign in ("-", "L"):
            continue
        (one, second, plus), (two, other_second, minus) = sorted(
            [*here, *there], key=lambda e: (not e[0].own, e[0].place)
        )
        if one.place == two.place:
            continue
        swap = SwapRows(Move(one.place, second, minus, True), Move(two.place, other_second, plus, True))
        if frozenset((swap.one, swap.two)) not in done:
            done.add(frozenset((swap.one, swap.two)))
            yield swap


def _taken_back(scene: Scene) -> Iterator[TakeBack]:
    for heading in FATES:
        table = getattr(scene.job, heading)
        places = dict.fromkeys(
            place
            for name, value in table.items()
            for place in [where(value)]
            if place and scene.mine(place) and (heading == "removed" or place in scene.places or scene.near(name))
        )
        yield from (TakeBack(heading, place) for place in places)


def caps(scene: Scene) -> Iterator[Say]:
    """A fate for what has none."""
    for group in scene.loose:
        yield Say("capped", group)
        if all(scene.job.contacts[name].kind != "plug" for name in group.contacts):
            yield Say("depinned", group)


def _methods(scene: Scene) -> Iterator[Method]:
    by_place = {joint.place: joint for joint in scene.job.joints}
    for places in scene.headings.values():
        old = by_place[places[0]].method
        bare = not all(by_place[place].cover for place in places)
        if not any(place in scene.places for place in places):
            continue
        for name, method in methods().items():
            if name != old and not method.plugs_in:
                yield Method(old, name, tuple(places), COVER if bare and method.needs_cover else "")


def _cuts(scene: Scene) -> Iterator[Say]:
    """Pairs that nothing is joined to yet; with joints on them they are cut in a combination."""
    from harness.graph.pairs import pairs_of

    used = {name for row in scene.rows for group in (row.left, *row.rights) for name in group.contacts}
    for plug in scene.job.parts.plugs.values():
        if plug.inline or plug.name in scene.wiring.opened:
            continue
        for plus, minus in pairs_of(scene.wiring, plug.name):
            contacts = (f"{plug.name}.car.{plus.cavity}", f"{plug.name}.car.{minus.cavity}")
            if any(scene.near(name) for name in contacts) and not used & set(contacts):
                yield Say("cut", cut_group(scene, contacts))


def cut_group(scene: Scene, contacts: tuple[str, ...]) -> Group:
    """A pair of a plug named without its half: `dash.FL`."""
    group = scene.named(contacts)
    return Group(group.text.replace(".car.", ".", 1), contacts)


# -- joints added ---------------------------------------------------------------------------------------


def added(scene: Scene) -> Iterator[AddJoint]:
    """A joint that is missing."""
    method = _usual_method(scene)
    if not method:
        return
    for row in scene.rows:  # one wire of a pair is joined, and its partner on both sides is free
        if len(row.joint.links) == 1:
            a, b = scene.partner(row.joint.links[0].a), scene.partner(row.joint.links[0].b)
            if a and b and scene.is_free(a) and scene.is_free(b):
                yield AddJoint(method, Group(a, (a,)), Group(b, (b,)))
    leads = scene.free_leads
    contacts = scene.job.contacts
    ports = {"in": scene.free_ports("in"), "out": scene.free_ports("out")}
    for group in leads:
        first = contacts[group.contacts[0]]
        if len(group.contacts) == 2 and first.function.kind in ("audio", "port", "unknown"):
            for port in ports["in" if first.half == "unit" else "out"]:
                yield AddJoint(method, group, port)
        if first.kind == "loom" and first.half:  # passed on from one end of the loom to the other
            for through in halves(scene, group):
                there = [contacts[name].function for name in through.contacts]
                unused = first.half == "unit" and all(scene.is_free(name) for name in through.contacts)
                if there == [contacts[name].function for name in group.contacts] and not unused:
                    yield AddJoint(method, *((group, through) if first.half == "unit" else (through, group)))
        if first.function.kind == "trigger":
            yield from (AddJoint(method, group, Group(name, (name,))) for name in _unwoken(scene))
    for port in ports["out"]:
        yield from (AddJoint(method, port, speaker) for speaker in scene.free_speakers)


def _unwoken(scene: Scene) -> list[str]:
    names = [f"{unit.name}.{each.split()[0]}" for unit in scene.job.parts.units.values() for each in unit.wakes]
    return [name for name in names if name in scene.job.contacts and scene.is_free(name)]


def _usual_method(scene: Scene) -> str:
    """The method by which the job joins wires: that of its first joint that isn't made at a terminal."""
    made = [joint.method for joint in scene.job.joints if scene.mine(joint.place)]
    known = methods()
    return next((name for name in made if name in known and not known[name].at_terminal), made[0] if made else "")


# -- joints moved ---------------------------------------------------------------------------------------


def moves(scene: Scene, row: Row) -> Iterator[Move]:
    """Either side of a row moved to where it could go: what other rows have there, and what is free."""
    if len(row.rights) != 1:
        return
    planned = scene.wiring.planned
    targets: dict[tuple[str, ...], Group] = {}
    for other in scene.rows:
        for group in other.rights:
            targets.setdefault(group.contacts, group)
    for group in (*scene.free_ports("out"), *scene.free_ports("in"), *scene.free_speakers):
        targets.setdefault(group.contacts, group)
    for name in _same_owner(scene, row.right):
        targets.setdefault((name,), Group(name, (name,)))
    for group in targets.values():
        if _can(scene, row.right, row.left, group):
            yield Move(row.place, True, group, _fits(scene, row.left, group))
    for group in halves(scene, row.left):  # led on past what it was opened for
        if all(not planned.joined(a, b) for a, b in zip(row.left.contacts, group.contacts, strict=True)):
            yield Move(row.place, True, group, True)
    near: dict[tuple[str, ...], Group] = {g.contacts: g for g in (*scene.free_leads, *halves(scene, row.left))}
    if scene.job.contacts[row.left.contacts[0]].kind in ("unit", "speaker"):
        for group in (*scene.free_ports("out"), *scene.free_ports("in"), *scene.free_speakers):
            near.setdefault(group.contacts, group)
        for name in _same_owner(scene, row.left):
            near.setdefault((name,), Group(name, (name,)))
    for group in near.values():
        if _can(scene, row.left, row.right, group):
            yield Move(row.place, False, group, _fits(scene, row.right, group))


def _can(scene: Scene, here: Group, other_side: Group, there: Group) -> bool:
    """Whether a side may be moved: to as many contacts, of the same role, not onto the net of its other side."""
    if len(here.contacts) != len(there.contacts) or here.contacts == there.contacts:
        return False
    role, number = scene.wiring.role, scene.wiring.planned.net_number
    if any(number(a) == number(b) for a, b in zip(other_side.contacts, there.contacts, strict=False)):
        return False
    return all(role(a) == role(b) for a, b in zip(here.contacts, there.contacts, strict=True))


def _fits(scene: Scene, other_side: Group, there: Group) -> bool:
    """Whether the new contact's marks agree with those of the other side of the joint."""
    contacts = scene.job.contacts
    for a, b in zip(other_side.contacts, there.contacts, strict=False):
        one, two = contacts[a].function, contacts[b].function
        if one.sign != two.sign or (one.channel and two.channel and one.channel != two.channel):
            return False
    return True


def _same_owner(scene: Scene, group: Group) -> list[str]:
    """For a joint of one wire: the other terminals of the same unit or speaker that no joint uses yet."""
    if len(group.contacts) != 1:
        return []
    owner = scene.job.contacts[group.contacts[0]].owner
    kind = scene.job.contacts[group.contacts[0]].kind
    return [
        name
        for name, contact in scene.job.contacts.items()
        if contact.owner == owner and contact.kind == kind and scene.is_free(name)
    ]


def halves(scene: Scene, group: Group) -> list[Group]:
    """The same cavities on the other half of an opened plug, or at the other end of a loom."""
    made = []
    for half, other in ((".unit.", ".car."), (".car.", ".unit.")):
        contacts = tuple(name.replace(half, other, 1) for name in group.contacts)
        if contacts != group.contacts and all(name in scene.job.contacts for name in contacts):
            text = contacts[0] if len(contacts) == 1 else scene.named(contacts).text
            made.append(Group(text, contacts))
    return made
