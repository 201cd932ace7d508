"""What must connect: the nets of the plan, seen from what stays in the car whatever way is taken.

What stays are the two halves of each factory plug, the terminals of units, speakers, grounds and the battery, and the
wires that are laid: a run that begins at a cavity or a lead has an end there that must be joined. The job's own looms
and joints are one way of connecting them, and are left out of sight here.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from harness.graph.conductor import JOINT, LEAD, MATED, PLANNED, PLUGGED
from harness.graph.wire_class import most_delicate
from harness.graph.wiring import Wiring
from harness.model.contact import listed
from harness.model.parts import Plug, Row
from harness.weighing.begun import RunEnd, run_ends

_OURS = ("plug", "loom")


class Need(NamedTuple):
    """Contacts that must be one net and no more. `units` and `cars` are cavities of the plug's two halves, in the
    plug's order; `outs` what stays outside the plug, the ends of runs (`RunEnd.name`) last. One contact alone must be
    left alone.

    `what` is the class of wire as the presets name it; `at` where the job joins its lead now, or empty.
    """

    units: tuple[str, ...]
    cars: tuple[str, ...]
    outs: tuple[str, ...]
    what: str
    at: str

    @property
    def joined(self) -> bool:
        """Whether there is anything to connect."""
        return len(self.units) + len(self.cars) + len(self.outs) > 1

    @property
    def several(self) -> bool:
        """Whether it has more than one cavity of a side."""
        return len(self.units) > 1 or len(self.cars) > 1

    @property
    def straight(self) -> bool:
        """Whether all that it has of the plug is in cavities of one number."""
        return len({*self.units, *self.cars}) < 2

    @property
    def words(self) -> str:
        """Its cavities: `6 and 15`, `unit 5 and car 7` where only one half of each is in it."""
        both = [each for each in self.units if each in self.cars]
        units = [f"unit {each}" for each in self.units if each not in both]
        return listed([*both, *units, *(f"car {each}" for each in self.cars if each not in both)])

    @property
    def slots(self) -> tuple[tuple[str, str], ...]:
        """Its cavities as (side, cavity in small letters), the unit's first."""
        return (*(("unit", each.lower()) for each in self.units), *(("car", each.lower()) for each in self.cars))


@dataclass(frozen=True)
class PlugNeeds:
    """One factory plug where the plan does something. `net` is the need of a half: (side, cavity in small letters)."""

    plug: Plug
    rows: dict[str, Row]  # by cavity in small letters, empty ones left out
    needs: tuple[Need, ...]
    net: dict[tuple[str, str], int]

    @property
    def name(self) -> str:
        return self.plug.name

    @property
    def where(self) -> str:
        return self.plug.where or self.plug.name


class LeftAlone(NamedTuple):
    """A plug that stays as the job has it, and why."""

    plug: str
    why: str


class Site(NamedTuple):
    """The plugs that can be weighed, and those that are left as they are."""

    plugs: tuple[PlugNeeds, ...]
    alone: tuple[LeftAlone, ...]


def site(wiring: Wiring, plugs_too: Iterable[str] = ()) -> Site:
    """What must connect at every plug that the plan touches, and at these plugs as well."""
    job = wiring.job
    touched = dict.fromkeys((*plugs_too, *(mate.plug for mate in job.mates)))
    for name, _, _ in wiring.touched():
        contact = job.contacts[name]
        if contact.kind == "plug":
            touched.setdefault(contact.owner)
    plugs = [job.parts.plugs[name] for name in job.parts.plugs if name in touched and not job.parts.plugs[name].inline]
    nets = nets_of(wiring)
    runs: dict[str, list[RunEnd]] = {}
    for end in run_ends(job):
        runs.setdefault(end.contact, []).append(end)
    at = _places(wiring)
    made: list[PlugNeeds] = []
    alone: list[LeftAlone] = []
    for plug in plugs:
        got = _of_plug(wiring, plug, nets, runs, at)
        if isinstance(got, LeftAlone):
            alone.append(got)
        else:
            made.append(got)
    return Site(tuple(made), tuple(alone))


def nets_of(wiring: Wiring) -> dict[str, list[str]]:
    """Contact -> all that the plan joins to it over looms, plugs and joints."""
    contacts = wiring.job.contacts
    up: dict[str, str] = {}

    def top(name: str) -> str:
        while up.setdefault(name, name) != name:
            up[name] = name = up[up[name]]
        return name

    for a, b, kind, states, _, _ in wiring.conductors:
        if not states & PLANNED:
            continue
        ours = [name for name in (a, b) if contacts[name].kind in _OURS]
        if kind in (LEAD, PLUGGED, MATED) or (kind == JOINT and ours):
            up[top(a)] = top(b)
    nets: dict[str, list[str]] = {}
    for name in up:
        nets.setdefault(top(name), []).append(name)
    return {name: nets[top(name)] for name in up}


def _places(wiring: Wiring) -> dict[str, str]:
    """Where what stays outside is joined to a loom's lead now."""
    contacts = wiring.job.contacts
    made: dict[str, str] = {}
    for joint in wiring.job.joints:
        for link in joint.links:
            for one, other in ((link.a, link.b), (link.b, link.a)):
                if contacts[one].kind == "loom" and contacts[other].kind not in _OURS:
                    made.setdefault(other, joint.at)
    return made


def carried(wiring: Wiring, members: Iterable[str], ends: Iterable[RunEnd]) -> str:
    """What the most delicate wire of a net carries, as the presets name it: of all that stays whatever way is taken."""
    contacts = wiring.job.contacts
    stays = [each for each in members if contacts[each].kind != "loom"]
    return most_delicate(wiring, [*stays, *(far for end in ends for far in end.far if contacts[far].kind not in _OURS)])


def _of_plug(
    wiring: Wiring, plug: Plug, nets: dict[str, list[str]], runs: dict[str, list[RunEnd]], at: dict[str, str]
) -> PlugNeeds | LeftAlone:
    contacts = wiring.job.contacts
    rows: dict[str, Row] = {}
    for row in plug.rows:
        if row.function.kind != "empty":
            rows.setdefault(row.cavity.lower(), row)
        elif why := _put_to_use(wiring, plug, row, nets, runs):
            return LeftAlone(plug.name, why)
    order = {row.cavity.lower(): at for at, row in enumerate(plug.rows)}
    needs: list[Need] = []
    net: dict[tuple[str, str], int] = {}
    for low, row in rows.items():
        for side in ("unit", "car"):
            if (side, low) in net:
                continue
            name = f"{plug.name}.{side}.{row.cavity}"
            members = nets.get(name, [name])
            halves = [contacts[each] for each in members if contacts[each].kind == "plug"]
            outs = tuple(sorted(each for each in members if contacts[each].kind not in _OURS))
            ends = [end for each in members for end in runs.get(each, ())]
            if stays := next((end.why for end in ends if end.why), ""):
                return LeftAlone(plug.name, stays)
            other = next((each for each in halves if each.owner != plug.name), None)
            if other is not None:
                return LeftAlone(plug.name, f"{contacts[name].words} and {other.words} are one net, and a joint that "
                                 "serves two plugs isn't weighed")  # fmt: skip
            halves.sort(key=lambda each: order[each.last.lower()])
            units, cars = (tuple(each.last for each in halves if each.half == half) for half in ("unit", "car"))
            where = next((at[each] for each in outs if at.get(each)), "")
            outs = (*outs, *sorted(end.name for end in ends))
            need = Need(units, cars, outs, carried(wiring, members, ends), where)
            for half in halves:
                net[half.half, half.last.lower()] = len(needs)
            needs.append(need)
    if any(need.what == "restraint" and (need.outs or [len(need.units), len(need.cars)] != [1, 1]) for need in needs):
        return LeftAlone(plug.name, "it carries a restraint circuit that the plan touches")
    return PlugNeeds(plug, rows, tuple(needs), net)


def _put_to_use(wiring: Wiring, plug: Plug, row: Row, nets: dict[str, list[str]], runs: dict[str, list[RunEnd]]) -> str:
    """Why a plug isn't weighed of which the plan joins a cavity that is charted empty; else empty."""
    contacts = wiring.job.contacts
    halves = [f"{plug.name}.{side}.{row.cavity}" for side in ("unit", "car")]
    for name in halves:
        for each in nets.get(name, [name]):
            strange = contacts[each].kind != "loom" and each not in halves
            if strange or runs.get(each):
                return f"{contacts[name].words} is charted empty, and the plan joins it: write what is there"
    return ""
