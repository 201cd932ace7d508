"""Which changes may clear a finding: single ones, and the few combinations a person would think of."""

from __future__ import annotations

from collections.abc import Iterator

from harness.graph.fates import LOOSE
from harness.graph.pairs import pairs_of
from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.mend.changes import (
    AddJoint,
    Change,
    DropRow,
    Group,
    Method,
    Rekey,
    Retarget,
    Say,
    TakeBack,
    TurnRow,
    Unplug,
    rows,
)
from harness.model.job import Joint
from harness.model.parts import Lead
from harness.place import Place

# Above this many rows only those that touch the nets of the finding are tried.
ALL_ROWS_UP_TO = 40


class Scene:
    """What of a job may be changed for one finding."""

    def __init__(self, wiring: Wiring, about: tuple[str, ...], places: tuple[Place, ...] = ()) -> None:
        self.wiring = wiring
        self.job = wiring.job
        number = wiring.planned.net_number
        self.nets = {number(name) for name in about if name in wiring.job.contacts}
        every = rows(wiring.job)
        if len(every) > ALL_ROWS_UP_TO:
            every = {place: joints for place, joints in every.items() if self._touches(joints)}
        own = {place: joints for place, joints in every.items() if place.file == self.job.file}
        # the rows that the finding names come first: of two changes that clear it, that is the one meant
        self.rows = dict(sorted(own.items(), key=lambda row: (row[0] not in places, row[0])))

    def _touches(self, joints: list[Joint]) -> bool:
        number = self.wiring.planned.net_number
        return any(number(end) in self.nets for joint in joints for link in joint.links for end in link)

    def near(self, contact: str) -> bool:
        """Whether a contact is in a net of the finding, or the job is small enough to try everything."""
        return len(self.job.joints) <= ALL_ROWS_UP_TO or self.wiring.planned.net_number(contact) in self.nets

    # -- single changes ------------------------------------------------------------------------------------

    def singles(self) -> Iterator[Change]:
        """Every single change, the least invasive kind first."""
        yield from (TurnRow(place) for place, joints in self.rows.items() if _is_pair_row(joints))
        yield from self._take_backs()
        yield from self._caps()
        yield from self._added()
        yield from self._retargets()
        yield from self._methods()
        yield from self._cuts()
        yield from (DropRow(place) for place in self.rows)
        yield from (Unplug(place) for place in dict.fromkeys(m.place for m in self.job.mates) if self._own(place))

    def _own(self, place: Place) -> bool:
        return place.file == self.job.file

    def _take_backs(self) -> Iterator[Change]:
        for heading in ("cut", "capped", "depinned", "removed", "moved"):
            table = getattr(self.job, heading)
            places = dict.fromkeys(v if isinstance(v, Place) else v[-1] for v in table.values())
            for place in places:
                if self._own(place):
                    yield TakeBack(heading, place)

    def _caps(self) -> Iterator[Change]:
        for group in self.loose_leads():
            yield Say("capped", group)
            yield Say("depinned", group)

    def loose_leads(self) -> list[Group]:
        """Leads joined to nothing without a fate: pairs as pairs, and each lead by itself."""
        made = []
        for owner in (*self.job.parts.looms, *self.job.parts.units):
            loose = [each.lead for each in self.wiring.fates.leads(owner) if each.fate == LOOSE]
            loose = [lead for lead in loose if self.near(lead.name)]
            made += [Group(lead.name, (lead.name,)) for lead in loose] + lead_pairs(loose)
        return made

    def _retargets(self) -> Iterator[Change]:
        targets: dict[tuple[str, ...], Group] = {}
        for joints in self.rows.values():
            for joint in joints:
                group = Group(
                    joint.text.partition(": ")[2].removesuffix(" reversed"), tuple(link.b for link in joint.links)
                )
                if len(joints) == 1 and "," not in group.text:
                    targets.setdefault(group.contacts, group)
        for group in self.free_ports("out") + self.free_ports("in"):
            targets.setdefault(group.contacts, group)
        for place, joints in self.rows.items():
            if len(joints) != 1 or "," in joints[0].text:
                continue
            here = tuple(link.b for link in joints[0].links)
            for contacts, group in targets.items():
                if len(contacts) == len(here) and contacts != here and self._alike(here[0], contacts[0]):
                    yield Retarget(place, group)
            for single in self._partners(here):
                if (single,) not in targets:
                    yield Retarget(place, Group(single, (single,)))

    def _alike(self, here: str, there: str) -> bool:
        """Whether a joint may be moved from one contact to the other: an output for an output, and so on."""
        return self.wiring.role(here) == self.wiring.role(there)

    def _partners(self, here: tuple[str, ...]) -> list[str]:
        """For a joint of one wire: the terminals of the same unit that no joint uses yet."""
        if len(here) != 1:
            return []
        owner = self.job.contacts[here[0]].owner
        return [
            name
            for name, contact in self.job.contacts.items()
            if contact.owner == owner
            and contact.function.sign
            and name != here[0]
            and self._alike(here[0], name)
            and self.is_free(name)
        ]

    def is_free(self, contact: str) -> bool:
        """Whether nothing that a person made leaves the contact."""
        return not any(c.kind in ("joint", "run", "fuse") for c in self.wiring.planned.conductors(contact))

    def free_ports(self, way: str) -> list[Group]:
        """Ports of units that stay and that no joint uses."""
        return [
            Group(f"{port.unit}.{port.name}", (port.plus, port.minus))
            for unit in self.job.parts.units.values()
            if unit.name not in self.wiring.gone and not self._on_plug(unit.name)
            for port in unit.ports.values()
            if port.way == way and self.is_free(port.plus) and self.is_free(port.minus)
        ]

    def _on_plug(self, unit: str) -> bool:
        return any(unit in (plug.unit, plug.car) for plug in self.job.parts.plugs.values())

    def _methods(self) -> Iterator[Change]:
        headings: dict[str, list[Place]] = {}
        for place, joints in self.rows.items():
            headings.setdefault(joints[0].method, []).append(place)
        for old, places in headings.items():
            for new, method in methods().items():
                if new != old and not method.plugs_in:
                    yield Method(old, new, tuple(places))

    def _cuts(self) -> Iterator[Change]:
        for plug in self.job.parts.plugs.values():
            if plug.inline or plug.name in self.wiring.opened:
                continue
            for plus, minus in pairs_of(self.wiring, plug.name):
                group = Group(
                    f"{plug.name}.{plus.cavity}/{minus.cavity}",
                    (f"{plug.name}.car.{plus.cavity}", f"{plug.name}.car.{minus.cavity}"),
                )
                if any(self.near(contact) for contact in group.contacts):
                    yield Say("cut", group)

    def _added(self) -> Iterator[Change]:
        """A joint that is missing: a free lead pair to a free port, or the second wire of a pair."""
        method = next((j.method for j in self.job.joints if j.method in ("crimp", "solder")), "")
        method = method or next((j.method for j in self.job.joints), "")
        if not method:
            return
        leads = self.free_lead_pairs()
        for way, half in (("out", "car"), ("in", "unit")):
            for port in self.free_ports(way):
                for group in leads:
                    if self.job.contacts[group.contacts[0]].half == half:
                        yield AddJoint(method, group, port)
        yield from self._second_wires(method)

    def free_lead_pairs(self) -> list[Group]:
        """Pairs of loom leads that are joined to nothing, whatever fate is said of them."""
        made: list[Group] = []
        for owner in self.job.parts.looms:
            made += lead_pairs([e.lead for e in self.wiring.fates.leads(owner) if not e.to])
        return made

    def _second_wires(self, method: str) -> Iterator[Change]:
        """One wire of a pair is joined and its partner on both sides is free."""
        for joints in self.rows.values():
            for link in (link for joint in joints for link in joint.links if len(joint.links) == 1):
                a, b = self.partner(link.a), self.partner(link.b)
                if a and b and self.is_free(a) and self.is_free(b):
                    yield AddJoint(method, Group(a, (a,)), Group(b, (b,)))

    def partner(self, name: str) -> str:
        """The other contact of a contact's pair, by owner, half and function; empty where there is none."""
        contact = self.job.contacts[name]
        wanted = {"+": "-", "-": "+", "H": "L", "L": "H"}.get(contact.function.sign)
        if not wanted:
            return ""
        return next(
            (
                other.name
                for other in self.job.contacts.values()
                if (other.owner, other.half, other.kind) == (contact.owner, contact.half, contact.kind)
                and other.function.base == contact.function.base
                and other.function.sign == wanted
            ),
            "",
        )

    # -- combinations --------------------------------------------------------------------------------------

    def combinations(self) -> Iterator[tuple[Change, ...]]:
        """Two or three changes that belong together."""
        yield from self._exchanges()
        yield from self._undone_and_capped()
        yield from self._joined_after_all()
        yield from self._opened()

    def _exchanges(self) -> Iterator[tuple[Change, ...]]:
        """The second sides of two joints exchanged."""
        single = [
            (place, Group(js[0].text.partition(": ")[2], tuple(link.b for link in js[0].links)))
            for place, js in self.rows.items()
            if len(js) == 1 and "," not in js[0].text
        ]
        for at, (place, group) in enumerate(single):
            for other_place, other in single[at + 1 :]:
                if len(group.contacts) != len(other.contacts) or group.contacts == other.contacts:
                    continue
                if self._alike(group.contacts[0], other.contacts[0]):
                    yield Retarget(place, other), Retarget(other_place, group)

    def _undone_and_capped(self) -> Iterator[tuple[Change, ...]]:
        """A joint undone and the lead that it leaves bare capped."""
        leads = {lead.name for loom in self.job.parts.looms.values() for lead in loom.leads}
        leads |= {lead.name for unit in self.job.parts.units.values() for lead in unit.leads}
        for place, joints in self.rows.items():
            if len(joints) != 1 or "," in joints[0].text:
                continue
            key, _, value = joints[0].text.partition(": ")
            sides = (
                Group(key, tuple(dict.fromkeys(link.a for link in joints[0].links))),
                Group(value.removesuffix(" reversed"), tuple(link.b for link in joints[0].links)),
            )
            bare = [side for side in sides if set(side.contacts) <= leads]
            for side in bare:
                yield DropRow(place), Say("capped", side)
            if len(bare) == 2:
                yield DropRow(place), Say("capped", bare[0]), Say("capped", bare[1])

    def _joined_after_all(self) -> Iterator[tuple[Change, ...]]:
        """A cap taken off and the lead joined."""
        capped = self.job.capped | self.job.depinned
        for change in self._added():
            assert isinstance(change, AddJoint)
            said = [(h, getattr(self.job, h)[c]) for c in change.left.contacts for h in ("capped", "depinned")
                    if c in getattr(self.job, h)]  # fmt: skip
            if said and capped:
                yield *(TakeBack(heading, place) for heading, place in dict.fromkeys(said)), change

    def _opened(self) -> Iterator[tuple[Change, ...]]:
        """A factory pair cut after all, each joint on it moved to the side that it needs."""
        for change in self._cuts():
            assert isinstance(change, Say)
            moved = [
                Rekey(place, side)
                for place, joints in self.rows.items()
                for side in [self._side(joints, set(change.group.contacts))]
                if side
            ]
            if moved:
                yield change, *moved

    def _side(self, joints: list[Joint], contacts: set[str]) -> str:
        """The half that a joint on an uncut wire belongs to: an input's to the unit, an output's to the car."""
        if len(joints) != 1 or not {link.a for link in joints[0].links} <= contacts:
            return ""
        key = joints[0].text.partition(": ")[0]
        if key.count(".") != 1:
            return ""
        port = self.wiring.ports.get(joints[0].links[0].b)
        return "" if port is None else "unit" if port.way == "in" else "car"


def _is_pair_row(joints: list[Joint]) -> bool:
    return len(joints) == 1 and len(joints[0].links) == 2 and "," not in joints[0].text


def lead_pairs(leads: list[Lead]) -> list[Group]:
    """Leads of one end that are a pair by their functions, named by the function where that is clear."""
    by_base: dict[tuple[str, str], dict[str, Lead]] = {}
    for lead in leads:
        if lead.function.sign:
            by_base.setdefault((lead.name.rsplit(".", 1)[0], lead.function.base), {})[lead.function.sign] = lead
    made = []
    for (stem, _), signs in by_base.items():
        plus, minus = signs.get("+") or signs.get("H"), signs.get("-") or signs.get("L")
        if plus and minus:
            last = f"{plus.name.rsplit('.', 1)[1]}/{minus.name.rsplit('.', 1)[1]}"
            made.append(Group(f"{stem}.{last}", (plus.name, minus.name)))
    return made
