"""Single changes of a plan: a joint undone, turned or moved, a fate said or taken back, a loom left out.

Each knows how the job looks after it and how a person is told; `harness.mend.edits` puts it into the file.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any, ClassVar, NamedTuple

from harness.model.contact import listed
from harness.model.job import Job, Joint, Link
from harness.place import Place

COVER = "heat shrink"  # what a joint that we offer is covered with


class Group(NamedTuple):
    """One contact or a pair, + first, and how the file names it."""

    text: str
    contacts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """What all changes have. `rank` orders those that do equally well: the lower, the sooner a person thinks of it."""

    rank: ClassVar[int] = 5

    def words(self, job: Job) -> str:
        """What a person does, as the end of a sentence."""
        raise NotImplementedError

    def after(self, job: Job) -> Job:
        """The job with the change made."""
        raise NotImplementedError

    @property
    def at(self) -> Place | None:
        """The line that the change is about; None for something new."""
        return getattr(self, "place", None)


def sides(joint: Joint) -> tuple[str, tuple[str, ...]]:
    """The contact before the colon as written, and those behind it."""
    left, _, right = joint.text.partition(": ")
    return left, tuple(each.removesuffix(" reversed") for each in right.split(", "))


def told(joint: Joint) -> str:
    """A joint for a sentence: `dash.FL to amp.in1 and amp.in2`."""
    left, right = sides(joint)
    return f"{left} to {listed(right)}"


def row_at(job: Job, place: Place) -> Joint:
    """The first joint of a row."""
    return next(joint for joint in job.joints if joint.place == place)


def _each_at(job: Job, place: Place, new: Any) -> Job:
    return replace(job, joints=tuple(new(joint) if joint.place == place else joint for joint in job.joints))


@dataclass(frozen=True, slots=True)
class DropRow(Change):
    """A joint undone."""

    place: Place
    rank: ClassVar[int] = 6

    def words(self, job: Job) -> str:
        return f"undo the joint {told(row_at(job, self.place))}"

    def after(self, job: Job) -> Job:
        return replace(job, joints=tuple(j for j in job.joints if j.place != self.place))


@dataclass(frozen=True, slots=True)
class DropTarget(Change):
    """One wire taken out of a joint of several."""

    place: Place
    target: int  # which of those behind the colon, from 0
    rank: ClassVar[int] = 5

    def words(self, job: Job) -> str:
        left, right = sides(row_at(job, self.place))
        return f"take {right[self.target]} off the joint at {left}"

    def after(self, job: Job) -> Job:
        return _each_at(job, self.place, self._without)

    def _without(self, joint: Joint) -> Joint:
        left, right = sides(joint)
        width = len(joint.links) // len(right)
        start = self.target * width
        kept = [*right[: self.target], *right[self.target + 1 :]]
        links = joint.links[:start] + joint.links[start + width :]
        return joint._replace(links=links, text=f"{left}: {', '.join(kept)}")


@dataclass(frozen=True, slots=True)
class TurnRow(Change):
    """The two wires of a pair joint exchanged."""

    place: Place
    rank: ClassVar[int] = 0

    def words(self, job: Job) -> str:
        return f"swap the two wires of the joint {told(row_at(job, self.place))}"

    def after(self, job: Job) -> Job:
        return _each_at(job, self.place, _turned)


def _turned(joint: Joint) -> Joint:
    if len(joint.links) != 2:
        return joint
    one, two = joint.links
    return joint._replace(links=(Link(one.a, two.b), Link(two.a, one.b)), turned=not joint.turned)


@dataclass(frozen=True, slots=True)
class Move(Change):
    """One side of a joint moved to another contact or pair; a turn said at the end goes with the second side."""

    place: Place
    second: bool  # the side behind the colon
    target: Group
    fits: bool = False  # the new contact is of the function that the other side has
    rank: ClassVar[int] = 7

    def words(self, job: Job) -> str:
        left, right = sides(row_at(job, self.place))
        if self.second:
            return f"move {left} from {right[0]} to {self.target.text}"
        return f"move {right[0]} from {left} to {self.target.text}"

    def after(self, job: Job) -> Job:
        return _each_at(job, self.place, self._moved)

    def _moved(self, joint: Joint) -> Joint:
        there = self.target.contacts
        if len(joint.links) != len(there):
            return joint
        left, right = sides(joint)
        if self.second:
            links = tuple(Link(link.a, new) for link, new in zip(joint.links, there, strict=True))
            return joint._replace(links=links, turned=False, text=f"{left}: {self.target.text}")
        links = tuple(Link(new, link.b) for link, new in zip(joint.links, there, strict=True))
        return joint._replace(links=links, text=f"{self.target.text}: {', '.join(right)}")


@dataclass(frozen=True, slots=True)
class SwapRows(Change):
    """The two wires of a pair exchanged where each has a row of its own: one change, as `TurnRow` is."""

    one: Move
    two: Move
    rank: ClassVar[int] = 0

    @property
    def at(self) -> Place:
        return self.one.place

    def words(self, job: Job) -> str:
        ends = []
        for move in (self.one, self.two):
            left, right = sides(row_at(job, move.place))
            ends.append(f"{left if move.second else right[0]} to {move.target.text}")
        return f"swap the two wires: {listed(ends)}"

    def after(self, job: Job) -> Job:
        return self.two.after(self.one.after(job))


@dataclass(frozen=True, slots=True)
class ToHalf(Change):
    """A joint on a pair that is cut now, put on one of the two ends."""

    place: Place
    second: bool  # the side that names the pair
    target: Group
    rank: ClassVar[int] = 4

    def words(self, job: Job) -> str:
        left, right = sides(row_at(job, self.place))
        return f"have {left if self.second else ' and '.join(right)} on {self.target.text}"

    def after(self, job: Job) -> Job:
        move = Move(self.place, self.second, self.target)
        return _each_at(job, self.place, self._at_several if not self.second else move._moved)

    def _at_several(self, joint: Joint) -> Joint:
        _, right = sides(joint)
        there = self.target.contacts * len(right)
        if len(there) != len(joint.links):
            return joint
        links = tuple(Link(new, link.b) for link, new in zip(joint.links, there, strict=True))
        return joint._replace(links=links, text=f"{self.target.text}: {', '.join(right)}")


@dataclass(frozen=True, slots=True)
class AddJoint(Change):
    """Two groups joined by a method that the job uses already."""

    method: str
    left: Group
    right: Group
    rank: ClassVar[int] = 4

    def words(self, job: Job) -> str:
        return f"join {self.left.text} to {self.right.text}"

    def after(self, job: Job) -> Job:
        links = tuple(Link(a, b) for a, b in zip(self.left.contacts, self.right.contacts, strict=True))
        text = f"{self.left.text}: {self.right.text}"
        name = f"J{len(job.joints) + 1}"
        joint = Joint(name, self.method, "", COVER, links, None, None, False, text, job.place, job.place)
        return replace(job, joints=(*job.joints, joint))


@dataclass(frozen=True, slots=True)
class Method(Change):
    """Every joint of one heading made by another method."""

    old: str
    new: str
    places: tuple[Place, ...]  # of the rows under the heading
    cover: str = ""  # what the new method needs over its joints, where none is written
    rank: ClassVar[int] = 1

    @property
    def at(self) -> Place:
        return self.places[0]

    def words(self, job: Job) -> str:
        first = told(row_at(job, self.places[0]))
        more = len(self.places) - 1
        others = f" and the other {more if more > 1 else 'one'} under that heading" if more else ""
        covered = f" with {self.cover}" if self.cover else ""
        return f"make the joint {first}{others} by {self.new}{covered}, not by {self.old}"

    def after(self, job: Job) -> Job:
        return replace(
            job, joints=tuple(self._made(each) if each.place in self.places else each for each in job.joints)
        )

    def _made(self, joint: Joint) -> Joint:
        return joint._replace(method=self.new, cover=joint.cover or self.cover)


_SAID = {"cut": "cut {}", "capped": "cap {}", "depinned": "take the terminal of {} out of its cavity"}


@dataclass(frozen=True, slots=True)
class Say(Change):
    """A fate said: cut, capped or depinned."""

    heading: str
    group: Group
    rank: ClassVar[int] = 3

    def words(self, job: Job) -> str:
        return _SAID[self.heading].format(self.group.text)

    def after(self, job: Job) -> Job:
        table = dict(getattr(job, self.heading))
        table.update(dict.fromkeys(self.group.contacts, job.place))
        return _with(job, self.heading, table)


_BACK = {
    "cut": "leave {} uncut",
    "capped": "leave {} without a cap",
    "depinned": "leave {} in its cavity",
    "removed": "leave {} in the car",
    "moved": "leave {} in its own cavity",
}


@dataclass(frozen=True, slots=True)
class TakeBack(Change):
    """An entry of cut, capped, depinned, removed or moved taken out of its list."""

    heading: str
    place: Place
    rank: ClassVar[int] = 2

    def words(self, job: Job) -> str:
        return _BACK[self.heading].format(listed(self.names(job)))

    def names(self, job: Job) -> list[str]:
        """What the entry stands for; a wire that is cut is told without its half."""
        names = [name for name, value in getattr(job, self.heading).items() if where(value) == self.place]
        return [name.replace(".car.", ".", 1) for name in names] if self.heading == "cut" else names

    def after(self, job: Job) -> Job:
        table = {name: value for name, value in getattr(job, self.heading).items() if where(value) != self.place}
        return _with(job, self.heading, table)


def _with(job: Job, heading: str, table: dict[str, Any]) -> Job:
    changed: dict[str, Any] = {heading: table}
    return replace(job, **changed)


def where(value: object) -> Place | None:
    """The place of an entry of `job.cut` and the like."""
    if isinstance(value, Place):
        return value
    return value[-1] if isinstance(value, tuple) and isinstance(value[-1], Place) else None


@dataclass(frozen=True, slots=True)
class Unplug(Change):
    """A loom left out of the plan."""

    place: Place
    rank: ClassVar[int] = 9

    def words(self, job: Job) -> str:
        for each in job.couplings:
            if each.place == self.place:
                return f"leave {each.loom} unplugged from {each.other}"
        mate = next(m for m in job.mates if m.place == self.place)
        return f"leave {mate.loom} unplugged from {mate.plug}"

    def after(self, job: Job) -> Job:
        mates = tuple(m for m in job.mates if m.place != self.place)
        return replace(job, mates=mates, couplings=tuple(each for each in job.couplings if each.place != self.place))


def rank_of(change: Change) -> int:
    """How soon a person thinks of it, from 0."""
    if isinstance(change, Move):
        return 5 if change.fits else 7
    if isinstance(change, Say):
        return {"capped": 3, "depinned": 6, "cut": 8}[change.heading]
    if isinstance(change, TakeBack) and change.heading == "removed":
        return 8
    return change.rank


def applied(job: Job, changes: Iterable[Change]) -> Job:
    """The job after several changes."""
    for change in changes:
        job = change.after(job)
    return job


def in_words(job: Job, changes: tuple[Change, ...]) -> str:
    """Several changes as one sentence without its end; each is told of the job that the one before left."""
    moves = [change for change in changes if isinstance(change, Move) and change.second]
    if len(moves) > 1 and len(moves) == len(changes):
        ends = [f"{sides(row_at(job, move.place))[0]} to {move.target.text}" for move in moves]
        return f"exchange the joints: {listed(ends)}"
    said: list[str] = []
    alike: dict[tuple[type, str], list[str]] = {}
    for change in changes:
        if isinstance(change, TakeBack | Say):
            # several of a kind are told as one
            key = (type(change), change.heading)
            names = change.names(job) if isinstance(change, TakeBack) else [change.group.text]
            alike.setdefault(key, []).extend(names)
            words = _BACK if isinstance(change, TakeBack) else _SAID
            sentence = words[change.heading].format(listed(alike[key]))
            said = [each for each in said if each != words[change.heading].format(listed(alike[key][: -len(names)]))]
        else:
            sentence = change.words(job)
        said.append(sentence)
        job = change.after(job)
    return listed(said) if len(said) < 3 else f"{'; '.join(said[:-1])}; and {said[-1]}"
