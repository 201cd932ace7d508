"""Changes that belong together: what a person would do in one go."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, permutations

from harness.mend.changes import AddJoint, Change, DropRow, DropTarget, Group, Move, Say, TakeBack, ToHalf
from harness.mend.scene import Row, Scene
from harness.mend.singles import added, cut_group, moves, singles
from harness.place import Place

# Three joints in a ring are tried among this many rows at most.
RING_UP_TO = 8

Changes = tuple[Change, ...]


def combined(scene: Scene) -> Iterator[Changes]:
    """Two changes or more that belong together, in no order of size."""
    yield from _exchanged(scene)
    yield from _undone_and_capped(scene)
    yield from _undone_as_pair(scene)
    yield from _opened(scene)
    yield from _joined_after_all(scene)
    yield from _uncut(scene)
    yield from _left_in_after_all(scene)
    yield from _depinned_instead(scene)


def paired(scene: Scene) -> Iterator[Changes]:
    """Any two single changes at lines that the finding names."""
    there = [change for change in singles(scene) if change.at in scene.places or _touches(scene, change)]
    for one, two in combinations(there, 2):
        if one.at is None or one.at != two.at:
            yield one, two


def _depinned_instead(scene: Scene) -> Iterator[Changes]:
    """A lead's terminal taken out where it was to be capped: its cavity is free then."""
    by_place: dict[Place, list[str]] = {}
    for name, place in scene.job.capped.items():
        by_place.setdefault(place, []).append(name)
    for place, names in by_place.items():
        if len(names) <= 2 and scene.mine(place) and all(scene.job.contacts[n].kind == "loom" for n in names):
            yield TakeBack("capped", place), Say("depinned", scene.named(tuple(names)))


def _left_in_after_all(scene: Scene) -> Iterator[Changes]:
    """A unit that comes out left in, with one joint undone that took its place."""
    table = scene.job.removed
    for place in dict.fromkeys(place for place in table.values() if scene.mine(place)):
        yield from ((TakeBack("removed", place), DropRow(row)) for row in scene.row_places)


def _touches(scene: Scene, change: Change) -> bool:
    """Whether something new is put on a contact that the finding names."""
    about = set(scene.finding.about)
    if isinstance(change, Say):
        return bool(about & set(change.group.contacts))
    return isinstance(change, AddJoint) and bool(about & {*change.left.contacts, *change.right.contacts})


def _exchanged(scene: Scene) -> Iterator[Changes]:
    """The second sides of two joints exchanged, or of three passed round."""
    rows = [row for row in scene.rows if len(row.rights) == 1]
    for one, two in combinations(rows, 2):
        if _alike(scene, one, two):
            yield Move(one.place, True, two.right, True), Move(two.place, True, one.right, True)
    own = [row for row in rows if row.own or scene.near(row.left.contacts[0])][:RING_UP_TO]
    for ring in combinations(own, 3):
        if _alike(scene, ring[0], ring[1]) and _alike(scene, ring[1], ring[2]):
            for order in permutations(ring):
                if all(row is not new for row, new in zip(ring, order, strict=True)):
                    yield tuple(Move(row.place, True, new.right, True) for row, new in zip(ring, order, strict=True))


def _alike(scene: Scene, one: Row, two: Row) -> bool:
    a, b = one.right.contacts, two.right.contacts
    return len(a) == len(b) and a != b and all(_role(scene, x) == _role(scene, y) for x, y in zip(a, b, strict=True))


def _role(scene: Scene, contact: str) -> str:
    """What a contact is to a person who exchanges two: constant and switched feeds are both feeds."""
    role = scene.wiring.role(contact)
    return "feed" if role in ("battery", "switched") else role


def _undone_and_capped(scene: Scene) -> Iterator[Changes]:
    """A joint undone and the leads that it leaves bare capped."""
    for row in scene.rows:
        for target, right in enumerate(row.rights):
            drop = _drop(row, target)
            bare = [side for side in (row.left, right) if set(side.contacts) <= scene.leads]
            for side in bare:
                yield drop, Say("capped", side)
            if len(bare) == 2:
                yield drop, Say("capped", bare[0]), Say("capped", bare[1])


def _undone_as_pair(scene: Scene) -> Iterator[Changes]:
    """A joint of one wire undone, and with it that of the other wire of its pair; leads left bare are capped."""
    for row in scene.rows:
        for target, right in enumerate(row.rights):
            if len(right.contacts) != 1:
                continue
            partners = {scene.partner(row.left.contacts[0]), scene.partner(right.contacts[0])} - {""}
            for other in scene.rows:
                if other.place == row.place or len(other.rights) != 1 or not _shares(other, tuple(partners)):
                    continue
                yield _drop(row, target), DropRow(other.place)
                bare = [side for side in (row.left, right, other.left, other.right)
                        if len(side.contacts) == 1 and side.contacts[0] in scene.leads]  # fmt: skip
                if bare:
                    yield _drop(row, target), DropRow(other.place), *(Say("capped", side) for side in bare)


def _drop(row: Row, target: int) -> Change:
    return DropTarget(row.place, target) if len(row.rights) > 1 else DropRow(row.place)


# -- wires cut after all --------------------------------------------------------------------------------


def _opened(scene: Scene) -> Iterator[Changes]:
    """A wire of the car cut after all, and each joint on it put on the end that it needs."""
    pairs: dict[tuple[str, ...], None] = {}
    for row in scene.rows:
        for group in (row.left, *row.rights):
            if _on_whole_wire(scene, group):
                pairs[group.contacts] = None
    for contacts in pairs:
        sided = [_sided(scene, row, contacts) for row in scene.rows]
        if any(each is None for each in sided):
            continue
        cut = (Say("cut", cut_group(scene, contacts)), *(change for each in sided if each for change in each))
        yield cut
        put = [change.target.text for change in cut if isinstance(change, ToHalf)]
        put += [change.left.text for change in cut if isinstance(change, AddJoint)]
        halves = [_half(scene, contacts, half) for half in ("unit", "car")]
        yield from ((*cut, Say("capped", half)) for half in halves if half.text not in put)


def _on_whole_wire(scene: Scene, group: Group) -> bool:
    contact = scene.job.contacts[group.contacts[0]]
    return contact.kind == "plug" and group.text.count(".") == 1 and contact.owner not in scene.wiring.opened


def _sided(scene: Scene, row: Row, contacts: tuple[str, ...]) -> list[Change] | None:
    """What is done with a row when the wire is cut; nothing where it isn't on the wire, None where it can't be told."""
    if row.left.contacts != contacts:
        if len(row.rights) > 1 or row.right.contacts != contacts:
            return [] if not _shares(row, contacts) else None
        half = _half_for(scene, row.left)
        return [ToHalf(row.place, True, _half(scene, contacts, half))] if half else None
    halves = [_half_for(scene, group) for group in row.rights]
    if not all(halves):
        return None
    if len(set(halves)) == 1:
        return [ToHalf(row.place, False, _half(scene, contacts, halves[0]))]
    if len(row.rights) != 2:
        return None
    # two wires in one joint part: the first stays, the second gets a joint of its own on the other end
    return [
        DropTarget(row.place, 1),
        ToHalf(row.place, False, _half(scene, contacts, halves[0])),
        AddJoint(row.joint.method, _half(scene, contacts, halves[1]), row.rights[1]),
    ]


def _shares(row: Row, contacts: tuple[str, ...]) -> bool:
    return any(name in contacts for group in (row.left, *row.rights) for name in group.contacts)


def _half(scene: Scene, contacts: tuple[str, ...], half: str) -> Group:
    """The two contacts of a cut wire toward the unit or toward the body."""
    there = tuple(name.replace(".car.", f".{half}.", 1) for name in contacts)
    stem = cut_group(scene, contacts).text
    owner, _, last = stem.partition(".")
    return Group(f"{owner}.{half}.{last}", there)


def _half_for(scene: Scene, group: Group) -> str:
    """An input takes its signal from the unit's end, an output gives it to the body's."""
    port = scene.wiring.ports.get(group.contacts[0])
    return "" if port is None else "unit" if port.way == "in" else "car"


# -- fates taken back -----------------------------------------------------------------------------------


def _joined_after_all(scene: Scene) -> Iterator[Changes]:
    """Caps taken off and the leads joined, by a new joint or by one that is moved there."""
    for change in added(scene):
        yield from _uncapped(scene, (*change.left.contacts, *change.right.contacts), change)
    for row in scene.rows:
        for move in moves(scene, row):
            yield from _uncapped(scene, move.target.contacts, move)


def _uncapped(scene: Scene, contacts: tuple[str, ...], change: Change) -> Iterator[Changes]:
    said: dict[TakeBack, None] = {}
    for name in contacts:
        for heading in ("capped", "depinned"):
            place = getattr(scene.job, heading).get(name)
            if place is not None:
                said[TakeBack(heading, place)] = None
    if said and all(scene.mine(each.place) for each in said):
        yield *said, change


def _uncut(scene: Scene) -> Iterator[Changes]:
    """A cut not made, and the caps and joints on its two ends left out with it."""
    job = scene.job
    places: dict[Place, set[str]] = {}
    for name, place in job.cut.items():
        ends = {name, name.replace(".car.", ".unit.", 1)}
        places.setdefault(place, set()).update(ends)
    for place in dict.fromkeys(job.cut.values()):
        ends = places[place]
        if not scene.mine(place) or not any(scene.near(name) for name in ends):
            continue
        capped = {job.capped[name] for name in ends if name in job.capped}
        taken: list[Change] = [TakeBack("capped", each) for each in sorted(capped)]
        rows = [DropRow(row.place) for row in scene.rows if _shares(row, tuple(ends))]
        if taken:
            yield TakeBack("cut", place), *taken
        if rows:
            yield TakeBack("cut", place), *taken, *rows
