"""Single changes of a plan: a joint undone, turned or moved, a fate said or taken back, a loom left out.

Each knows how the job looks after it, and how the file must be edited (`harness.mend.edits`).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from harness.model.job import Job, Joint, Link
from harness.place import Place


class Group(NamedTuple):
    """One contact or a pair, + first, and how the file names it."""

    text: str
    contacts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """What all changes have: words for a person, and the job after the change."""

    def words(self, job: Job) -> str:
        raise NotImplementedError

    def after(self, job: Job) -> Job:
        raise NotImplementedError


def rows(job: Job) -> dict[Place, list[Joint]]:
    """Joints by the row of the file that makes them: a range makes several joints in one row."""
    made: dict[Place, list[Joint]] = {}
    for joint in job.joints:
        made.setdefault(joint.place, []).append(joint)
    return made


@dataclass(frozen=True, slots=True)
class DropRow(Change):
    """A joint undone."""

    place: Place

    def words(self, job: Job) -> str:
        text = next(j.text for j in job.joints if j.place == self.place)
        return f"undo the joint {text}"

    def after(self, job: Job) -> Job:
        return replace(job, joints=tuple(j for j in job.joints if j.place != self.place))


@dataclass(frozen=True, slots=True)
class TurnRow(Change):
    """The two wires of a pair joint exchanged."""

    place: Place

    def words(self, job: Job) -> str:
        text = next(j.text for j in job.joints if j.place == self.place)
        return f"swap the two wires of the joint {text}"

    def after(self, job: Job) -> Job:
        def turned(joint: Joint) -> Joint:
            if joint.place != self.place or len(joint.links) != 2:
                return joint
            one, two = joint.links
            return joint._replace(links=(Link(one.a, two.b), Link(two.a, one.b)), turned=not joint.turned)

        return replace(job, joints=tuple(turned(j) for j in job.joints))


@dataclass(frozen=True, slots=True)
class Retarget(Change):
    """A joint's second side moved to another contact or pair."""

    place: Place
    target: Group

    def words(self, job: Job) -> str:
        text = next(j.text for j in job.joints if j.place == self.place)
        return f"move the joint {text} to {self.target.text}"

    def after(self, job: Job) -> Job:
        def moved(joint: Joint) -> Joint:
            if joint.place != self.place or len(joint.links) != len(self.target.contacts):
                return joint
            links = tuple(Link(link.a, there) for link, there in zip(joint.links, self.target.contacts, strict=True))
            return joint._replace(links=links, turned=False)

        return replace(job, joints=tuple(moved(j) for j in job.joints))


@dataclass(frozen=True, slots=True)
class Rekey(Change):
    """A joint's first side moved to one half of an opened plug: `dash.FL` becomes `dash.unit.FL`."""

    place: Place
    side: str

    def words(self, job: Job) -> str:
        text = next(j.text for j in job.joints if j.place == self.place)
        owner, _, rest = text.partition(": ")[0].partition(".")
        return f"put the joint {text} on {owner}.{self.side}.{rest}"

    def after(self, job: Job) -> Job:
        def moved(joint: Joint) -> Joint:
            if joint.place != self.place:
                return joint
            links = tuple(link._replace(a=link.a.replace(".car.", f".{self.side}.", 1)) for link in joint.links)
            return joint._replace(links=links)

        return replace(job, joints=tuple(moved(j) for j in job.joints))


@dataclass(frozen=True, slots=True)
class AddJoint(Change):
    """Two groups joined by a method that the job uses already."""

    method: str
    left: Group
    right: Group

    def words(self, job: Job) -> str:
        return f"join {self.left.text} to {self.right.text}"

    def after(self, job: Job) -> Job:
        links = tuple(Link(a, b) for a, b in zip(self.left.contacts, self.right.contacts, strict=True))
        text = f"{self.left.text}: {self.right.text}"
        joint = Joint(
            f"J{len(job.joints) + 1}", self.method, "", "heat shrink", links, None, None, False, text, job.place
        )
        return replace(job, joints=(*job.joints, joint))


@dataclass(frozen=True, slots=True)
class Method(Change):
    """Every joint of a heading made by another method."""

    old: str
    new: str
    places: tuple[Place, ...]  # of the rows under the heading

    def words(self, job: Job) -> str:
        return f"make it by {self.new} and not by {self.old}"

    def after(self, job: Job) -> Job:
        return replace(
            job, joints=tuple(j._replace(method=self.new) if j.place in self.places else j for j in job.joints)
        )


@dataclass(frozen=True, slots=True)
class Say(Change):
    """A fate said: cut, capped or depinned."""

    heading: str
    group: Group

    def words(self, job: Job) -> str:
        verb = {"cut": "cut", "capped": "cap", "depinned": "depin"}[self.heading]
        return f"{verb} {self.group.text}"

    def after(self, job: Job) -> Job:
        table = dict(getattr(job, self.heading))
        table.update(dict.fromkeys(self.group.contacts, job.place))
        return _with(job, self.heading, table)


@dataclass(frozen=True, slots=True)
class TakeBack(Change):
    """An entry of cut, capped, depinned, removed or moved taken out of its list."""

    heading: str
    place: Place

    def words(self, job: Job) -> str:
        names = [name for name, value in getattr(job, self.heading).items() if _place(value) == self.place]
        phrase = {
            "cut": "do not cut", "capped": "take the cap off", "depinned": "leave the terminal in",
            "removed": "leave in the car", "moved": "do not move",
        }[self.heading]  # fmt: skip
        return f"{phrase} {' and '.join(names)}"

    def after(self, job: Job) -> Job:
        table = {name: value for name, value in getattr(job, self.heading).items() if _place(value) != self.place}
        return _with(job, self.heading, table)


def _with(job: Job, heading: str, table: dict[str, Any]) -> Job:
    changed: dict[str, Any] = {heading: table}
    return replace(job, **changed)


def _place(value: object) -> Place | None:
    if isinstance(value, Place):
        return value
    return value[-1] if isinstance(value, tuple) and isinstance(value[-1], Place) else None


@dataclass(frozen=True, slots=True)
class Unplug(Change):
    """A loom left out of the plan."""

    place: Place

    def words(self, job: Job) -> str:
        mate = next(m for m in job.mates if m.place == self.place)
        return f"leave {mate.loom} unplugged from {mate.plug}"

    def after(self, job: Job) -> Job:
        return replace(job, mates=tuple(m for m in job.mates if m.place != self.place))


def applied(job: Job, changes: Iterable[Change]) -> Job:
    """The job after several changes."""
    for change in changes:
        job = change.after(job)
    return job
