"""What of a job lies near a finding, and what is free there: the ground on which changes are looked for."""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from harness.finding import Finding
from harness.graph.conductor import FUSE, JOINT, RUN
from harness.graph.loose import loose_ends
from harness.graph.wiring import Wiring
from harness.mend.changes import Group, sides
from harness.mend.edits import heading_of
from harness.mend.page import Page
from harness.model.contact import Contact
from harness.model.job import Joint, Mate
from harness.model.parts import Lead
from harness.place import Place

# With at most this many rows all of them are tried; with more, those on the nets of the finding.
ALL_ROWS_UP_TO = 12


class Row(NamedTuple):
    """A row of `joints:` that makes one joint: its first side and what stands behind the colon."""

    place: Place
    left: Group
    rights: tuple[Group, ...]
    joint: Joint
    own: bool  # the finding names it

    @property
    def right(self) -> Group:
        return self.rights[0]


class Scene:
    """The surroundings of one finding."""

    def __init__(self, wiring: Wiring, finding: Finding, page: Page) -> None:
        self.wiring, self.job, self.finding, self.page = wiring, wiring.job, finding, page
        self.places = {spot.place for spot in finding.places}
        number = wiring.planned.net_number
        named = (*finding.about, *finding.path)
        self.nets = {number(name) for name in named if name in self.job.contacts}
        self.small = len({joint.place for joint in self.job.joints}) <= ALL_ROWS_UP_TO

    def near(self, contact: str) -> bool:
        """Whether a contact is in a net of the finding, or the job is small enough to try everything."""
        return self.small or self.wiring.planned.net_number(contact) in self.nets

    def mine(self, place: Place) -> bool:
        """Whether a line is in the job file itself: a part file serves other jobs too, and stays as it is."""
        return place.file == self.job.file

    @cached_property
    def row_places(self) -> list[Place]:
        """The rows that may be changed, those that the finding names first."""
        near: dict[Place, None] = {}
        for joint in self.job.joints:
            if self.mine(joint.place) and (
                joint.place in self.places or any(self.near(end) for link in joint.links for end in link)
            ):
                near[joint.place] = None
        return sorted(near, key=lambda place: (place not in self.places, place))

    @cached_property
    def rows(self) -> list[Row]:
        """Those rows that make one joint; a range makes several, and is only turned or undone as a whole."""
        joints: dict[Place, list[Joint]] = {}
        for joint in self.job.joints:
            joints.setdefault(joint.place, []).append(joint)
        made = []
        for place in self.row_places:
            if len(joints[place]) == 1 and joints[place][0].links:
                made.append(self._row(place, joints[place][0]))
        return made

    def _row(self, place: Place, joint: Joint) -> Row:
        left, rights = sides(joint)
        width = max(len(joint.links) // len(rights), 1)
        groups = [joint.links[at : at + width] for at in range(0, len(joint.links), width)]
        straight = [tuple(link.b for link in links) for links in groups]
        if joint.turned and len(rights) == 1:
            straight = [pair[::-1] for pair in straight]
        return Row(
            place,
            Group(left, tuple(link.a for link in groups[0])),
            tuple(Group(text, contacts) for text, contacts in zip(rights, straight, strict=False)),
            joint,
            place in self.places,
        )

    @cached_property
    def headings(self) -> dict[int, list[Place]]:
        """Rows by the line of their heading, which says the method."""
        made: dict[int, list[Place]] = {}
        for joint in self.job.joints:
            if self.mine(joint.place):
                heading = heading_of(self.page, joint.place)
                if heading is not None:
                    made.setdefault(heading, []).append(joint.place)
        return {line: list(dict.fromkeys(places)) for line, places in made.items()}

    # -- what is free ----------------------------------------------------------------------------------

    def is_free(self, contact: str) -> bool:
        """Whether nothing that a person made leaves the contact."""
        return not any(c.kind in (JOINT, RUN, FUSE) for c in self.wiring.planned.conductors(contact))

    @cached_property
    def leads(self) -> set[str]:
        """Every flying lead of looms and units."""
        parts = self.job.parts
        of_looms = {lead.name for loom in parts.looms.values() for lead in loom.leads}
        return of_looms | {lead.name for unit in parts.units.values() for lead in unit.leads}

    @cached_property
    def loose(self) -> list[Group]:
        """Leads and cut ends that nothing was done with, by rows: pairs as pairs, and each by itself."""
        made: dict[Group, None] = {}
        for end in loose_ends(self.wiring):
            if not any(self.near(name) for name in end.contacts):
                continue
            if len(end.contacts) == 2:
                made[self.named(end.contacts)] = None
            for name in end.contacts:
                made[Group(name, (name,))] = None
        return list(made)

    @cached_property
    def free_leads(self) -> list[Group]:
        """Leads of looms, and cut ends, that are joined to nothing, whatever fate is said of them."""
        made: dict[Group, None] = {}
        for owner in self.job.parts.looms:
            leads = [each.lead for each in self.wiring.fates.leads(owner) if not each.to]
            leads = [lead for lead in leads if self.near(lead.name)]
            for group in self._lead_pairs(leads):
                made[group] = None
            for lead in leads:
                made[Group(lead.name, (lead.name,))] = None
        ends: dict[Place, list[str]] = {}
        for name, place in self.job.cut.items():
            ends.setdefault(place, []).append(name)
        for names in ends.values():
            for half in ("unit", "car"):
                contacts = tuple(name.replace(".car.", f".{half}.").replace(".unit.", f".{half}.") for name in names)
                if len(contacts) == 2 and all(self.is_free(name) and self.near(name) for name in contacts):
                    made[self.named(contacts)] = None
        return list(made)

    def _lead_pairs(self, leads: list[Lead]) -> list[Group]:
        by_base: dict[tuple[str, str], dict[str, str]] = {}
        for lead in leads:
            if lead.function.sign:
                stem = lead.name.rsplit(".", 1)[0]
                by_base.setdefault((stem, lead.function.base), {})[lead.function.sign] = lead.name
        pairs = [(signs.get("+") or signs.get("H"), signs.get("-") or signs.get("L")) for signs in by_base.values()]
        return [self.named((plus, minus)) for plus, minus in pairs if plus and minus]

    def free_ports(self, way: str) -> list[Group]:
        """Ports of units that stay and sit in no plug, and that no joint uses."""
        return [
            Group(f"{port.unit}.{port.name}", (port.plus, port.minus))
            for unit in self.job.parts.units.values()
            if unit.name not in self.wiring.gone and unit.name not in self._in_plugs and self.is_about(unit.name)
            for port in unit.ports.values()
            if port.way == way and self.is_free(port.plus) and self.is_free(port.minus)
        ]

    def is_about(self, owner: str) -> bool:
        """Whether the finding, or a row near it, concerns this plug, loom or unit; in a small job each is tried."""
        return self.small or owner in self._owners or any(m.place in self.places for m in self._mates_of(owner))

    def _mates_of(self, owner: str) -> list[Mate]:
        return [mate for mate in self.job.mates if owner in (mate.loom, mate.plug)]

    @cached_property
    def _owners(self) -> set[str]:
        """Whose contacts the finding or a row near it names."""
        contacts = self.job.contacts
        named = {name for row in self.rows for group in (row.left, *row.rights) for name in group.contacts}
        named |= {name for name in (*self.finding.about, *self.finding.path) if name in contacts}
        return {contacts[name].owner for name in named}

    @cached_property
    def _in_plugs(self) -> set[str]:
        return {unit for plug in self.job.parts.plugs.values() for unit in (plug.unit, plug.car) if unit}

    @cached_property
    def free_speakers(self) -> list[Group]:
        """Speakers to which nothing leads."""
        planned = self.wiring.planned
        return [
            Group(receiver.name, (receiver.plus, receiver.minus))
            for receiver in self.wiring.signals.speaker_receivers
            if not planned.conductors(receiver.plus) and not planned.conductors(receiver.minus)
        ]

    # -- names -----------------------------------------------------------------------------------------

    def named(self, contacts: tuple[str, ...]) -> Group:
        """A pair as the file would name it: by its function where only this pair of the end has it."""
        first = self.job.contacts[contacts[0]]
        stem = contacts[0].rsplit(".", 1)[0]
        base = first.function.base
        alike = [
            name for name, contact in self._by_owner.get((first.owner, first.half), ()) if contact.function.base == base
        ]
        if base not in ("unknown", "empty") and sorted(alike) == sorted(contacts):
            return Group(f"{stem}.{base}", contacts)
        return Group(f"{stem}.{'/'.join(self.job.contacts[name].last for name in contacts)}", contacts)

    @cached_property
    def _by_owner(self) -> dict[tuple[str, str], list[tuple[str, Contact]]]:
        made: dict[tuple[str, str], list[tuple[str, Contact]]] = {}
        for name, contact in self.job.contacts.items():
            made.setdefault((contact.owner, contact.half), []).append((name, contact))
        return made

    @cached_property
    def _partners(self) -> dict[tuple[str, str, str, str, str], str]:
        return {
            (c.owner, c.half, c.kind, c.function.base, c.function.sign): name
            for name, c in self.job.contacts.items()
            if c.function.sign
        }

    def partner(self, name: str) -> str:
        """The other contact of a contact's pair, by owner, half and function; empty where there is none."""
        contact = self.job.contacts[name]
        wanted = {"+": "-", "-": "+", "H": "L", "L": "H"}.get(contact.function.sign, "")
        return self._partners.get((contact.owner, contact.half, contact.kind, contact.function.base, wanted), "")
