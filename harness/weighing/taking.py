"""An offer taken: the job's own text with other looms and joints in it, every line that is not concerned as it was."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import pairwise

from harness.joints import methods
from harness.mend.changes import Change, DropRow, Group, Say, TakeBack, Unplug, where
from harness.mend.edits import edits_for
from harness.mend.page import CannotEdit, Page, edited, indent
from harness.model.job import Job, Joint
from harness.model.parts import Lead, LoomEnd, Row
from harness.place import Place
from harness.read.joining import heading as read_heading
from harness.read.quoting import quoted
from harness.weighing.begun import run_ends
from harness.weighing.combine import waited_for
from harness.weighing.mixes import PlugMix, Used
from harness.weighing.naming import JointRow, Labels, Named, headings, rows
from harness.weighing.starts import run_edits

_LISTS = ("cut", "capped", "depinned", "moved")
_NOTE = "# The steps below were for another way of joining; the proposed order holds until you write yours."


def taken(job: Job, text: str, mixes: tuple[PlugMix, ...], names: Named, day: str = "") -> str:
    """The text of the job with these mixes at their plugs, and the day of the work where `day` is one.

    Raises CannotEdit where its lines can't be told apart.
    """
    bare = text.removeprefix("\ufeff")
    wanted = _Wanted(job, mixes, names)
    begun = edited(bare, run_edits(job, bare, wanted.starts, names, Labels(job, mixes, names)))
    first = edited(begun, edits_for(job.file, begun, _undone(job, mixes, names, wanted)))
    page = Page(job.file, first)
    late = waited_for(mixes)
    looms = [line for name, used in wanted.looms.items() for line in loom_lines(name, used, used.mark in late)]
    if looms:
        _add(page, "looms", looms, before=("units", "speakers", "joints"))
    new = [line for key, made in wanted.rows.items() for line in _joint_lines(page, key, made)]
    if new:
        _add(page, "joints", new, before=("runs", "steps"))
    moved = [f"{contact}: {contact.rpartition('.')[0]}.{goal}" for contact, goal in wanted.moved]
    if moved:
        _add(page, "moved", moved, before=("joints", "runs"))
    if first != bare or looms or new or moved or wanted.cut or wanted.capped or wanted.pulled:
        _steps(page)
    if day and page.top("date") is None:
        page.put_in((page.top("revision") or page.top("title") or 1) + 1, f"date: {day}")
    second = edited(first, page.edits())
    says = [
        Say(heading, Group(name, (name,)))
        for heading, contacts in (("cut", wanted.cut), ("capped", wanted.capped), ("depinned", wanted.pulled))
        for name in contacts
    ]
    made_text = edited(second, edits_for(job.file, second, says)) if says else second
    return text[: len(text) - len(bare)] + made_text


class _Wanted:
    """What must stand in the job; what stands there already is taken out of this as it is met."""

    def __init__(self, job: Job, mixes: tuple[PlugMix, ...], names: Named) -> None:
        labels = Labels(job, mixes, names)
        covers = {name: method.needs_cover for name, method in methods().items()}
        self.looms: dict[str, Used] = {}
        self.mates: dict[str, str] = {}
        self.starts: dict[str, tuple[str, ...]] = {}  # of each end of a run the contacts that it is joined with
        self.rows: dict[str, list[JointRow]] = {}
        self.cut = [names.of(each) for mix in mixes for each in mix.cut]
        self.capped = [names.of(each) for mix in mixes for each in mix.capped]
        self.pulled = [names.of(each) for mix in mixes for each in mix.pulled]
        self.moved = [(names.of(contact), goal) for mix in mixes for contact, goal in mix.moved]
        ends = {end.name for end in run_ends(job)}
        for mix in mixes:
            row = [names.names[used.mark] for used in mix.looms]
            for name, used in zip(row, mix.looms, strict=True):
                if name not in names.kept:
                    self.looms[name] = used
                if len(row) == 1:
                    whole = len(used.ends) == 2 or used.cut_off or len(used.item.loom.ends) == 1  # type: ignore[union-attr]
                    for end in ("",) if whole else used.ends:
                        self.mates[f"{name}.{end}".rstrip(".")] = mix.plug
            if len(row) > 1:
                self.mates[f"{row[0]}.unit"] = mix.plug
                self.mates[f"{row[-1]}.car"] = mix.plug
                for one, other in pairwise(row):
                    self.mates[f"{other}.unit"] = f"{one}.car"
            joints = []
            for joint in mix.joints:
                contacts = tuple(each for each in joint.members if each not in ends)
                for end in set(joint.members) & ends:
                    self.starts[end] = tuple(map(names.of, contacts))
                if len(contacts) > 1:  # a run that meets one contact begins there, without a row
                    joints.append(joint._replace(members=contacts))
            for key, made in headings(joints, covers).items():
                self.rows.setdefault(key, []).extend(rows(made, labels, names))
        if self.mates:
            made_rows = [JointRow((one, other), ()) for one, other in self.mates.items()]
            self.rows = {"mate": made_rows, **self.rows}

    def strike(self, key: str, places: set[frozenset[str]]) -> bool:
        """Whether rows of a heading make exactly these places; they are then wanted no more."""
        there = next((each for each in self.rows if _same(each, key)), "")
        for row in self.rows.get(there, ()):
            if row.places and set(row.places) == places:
                self.rows[there].remove(row)
                if not self.rows[there]:
                    del self.rows[there]
                return True
        return False


def _same(one: str, other: str) -> bool:
    return tuple(map(str.casefold, read_heading(one))) == tuple(map(str.casefold, read_heading(other)))


def _undone(job: Job, mixes: tuple[PlugMix, ...], names: Named, wanted: _Wanted) -> list[Change]:
    """What of the job's own looms, joints and fates at these plugs gives way."""
    plugs = {mix.plug for mix in mixes}
    here = {mate.loom for mate in job.mates if mate.plug in plugs}
    here |= {each.loom for each in job.couplings if each.other in here} | {
        each.other for each in job.couplings if each.loom in here
    }
    here -= {mate.loom for mate in job.mates if mate.plug not in plugs}

    def concerned(contact: str) -> bool:
        about = job.contacts[contact]
        return (about.kind == "plug" and about.owner in plugs) or (about.kind == "loom" and about.owner in here)

    whole = said_whole(job)
    made: dict[Place, Change] = {}
    by_row: dict[Place, list[Joint]] = {}
    for joint in job.joints:
        by_row.setdefault(joint.place, []).append(joint)
    for place, joints in by_row.items():
        if any(concerned(end) for joint in joints for link in joint.links for end in link):
            key = " ".join(filter(None, (
                joints[0].method, f"at {joints[0].at}" if joints[0].at else "",
                f"with {joints[0].cover}" if joints[0].cover else "")))  # fmt: skip
            groups = {frozenset(whole.get(end, end) for end in each) for joint in joints for each in places_of(joint)}
            if not wanted.strike(key, groups):
                made[place] = DropRow(place)
    mates = _mates_kept(job, mixes, names)
    for mate in job.mates:
        if mate.plug in plugs and mate.loom not in mates:
            made[mate.place] = Unplug(mate.place)
        elif mate.plug in plugs:
            wanted.rows["mate"] = [row for row in wanted.rows.get("mate", ()) if row.members[0] != mate.loom]
    for each in job.couplings:
        if each.loom in here:
            made[each.place] = Unplug(each.place)
    if not wanted.rows.get("mate", True):
        del wanted.rows["mate"]
    for heading in _LISTS:
        entries: dict[Place, list[str]] = {}
        for contact, value in getattr(job, heading).items():
            at = where(value)
            if at is not None and concerned(contact):
                entries.setdefault(at, []).append(contact)
        for place, contacts in entries.items():
            if not _still(heading, contacts, job, wanted):
                made[place] = TakeBack(heading, place)
    for name in job.parts.looms:
        if name in here and name not in names.kept:
            made[job.parts.looms[name].place] = DropRow(job.parts.looms[name].place)
    return list(made.values())


def said_whole(job: Job) -> dict[str, str]:
    """Contacts that the job names by the cavity alone, `dash.6`: neither cut nor at a plug that a loom opens."""
    opened = {mate.plug for mate in job.mates}
    apart = {(job.contacts[name].owner, job.contacts[name].last) for name in job.cut}
    return {
        name: f"{each.owner}.{each.last}"
        for name, each in job.contacts.items()
        if each.kind == "plug" and each.owner not in opened and (each.owner, each.last) not in apart
    }


def _mates_kept(job: Job, mixes: tuple[PlugMix, ...], names: Named) -> set[str]:
    """Looms that stay plugged in as the job has them: alone at their plug, whole, with all their ends there."""
    kept = set()
    for mix in mixes:
        if len(mix.looms) == 1 and (name := names.names[mix.looms[0].mark]) in names.kept:
            ends = {mate.end for mate in job.mates if mate.loom == name and mate.plug == mix.plug}
            if ends == set(mix.looms[0].ends) == set(job.parts.looms[name].ends):
                kept.add(name)
    return kept


def _still(heading: str, contacts: list[str], job: Job, wanted: _Wanted) -> bool:
    """Whether an entry of a list says just what is wanted; it is then wanted no more."""
    if heading == "moved":
        rows_there = [(contact, job.moved[contact][0]) for contact in contacts]
        if all(row in wanted.moved for row in rows_there):
            wanted.moved = [row for row in wanted.moved if row not in rows_there]
            return True
        return False
    held = {"cut": wanted.cut, "capped": wanted.capped, "depinned": wanted.pulled}[heading]
    said = [re.sub(r"\.(unit|car)\.", ".", each) for each in contacts] if heading == "cut" else contacts
    if not all(each in held for each in said):
        return False
    held[:] = [each for each in held if each not in said]
    return True


def places_of(joint: Joint) -> list[frozenset[str]]:
    """Where a joint's wires meet: the contacts of each place."""
    groups: list[set[str]] = []
    for link in joint.links:
        touched = [group for group in groups if link.a in group or link.b in group]
        groups = [group for group in groups if group not in touched]
        groups.append({link.a, link.b}.union(*touched))
    return [frozenset(group) for group in groups]


# -- lines ----------------------------------------------------------------------------------------------------


def loom_lines(name: str, used: Used, late: bool) -> list[str]:
    """A loom of the drawer as rows of `looms:`, its price and stock with it: none there where it is `late`."""
    loom, store = used.item.loom, used.item.store
    assert loom is not None
    made = [f"{name}:", f"  ends: {{{', '.join(_end(end) for end in loom.ends.values())}}}"]
    straight = [each.unit_cavity for each in loom.throughs if each.unit_cavity == each.car_cavity]
    if straight and len(straight) == len(loom.throughs):
        made.append(f"  through: {' '.join(straight)}" if len(straight) > 1 else f"  through: [{straight[0]}]")
    elif loom.throughs:
        made.append("  through:")
        made += [f"    {each.unit_cavity}: {each.car_cavity}" for each in loom.throughs]
    if loom.leads:
        made += ["  leads:", *(f"    {row}" for row in map(_lead, loom.leads))]
    if loom.pins:
        made += ["  pins:", *(f"    {row.cavity}: {_words(row)}" for row in loom.pins)]
    if used.cut_off:
        made.append(f"  cut off: {used.cut_off}")
    if store.price is not None:
        made.append(f"  price: {store.price.words}")
    if store.stock is not None:
        made.append(f"  stock: {0 if late else store.stock}")
    if store.arrives:
        made.append(f"  arrives: {store.arrives}")
    return made


def _end(end: LoomEnd) -> str:
    if not end.contacts:
        return f"{end.name}: {quoted(end.housing)}"
    housing = f"housing: {quoted(end.housing)}, " if end.housing else ""
    return f"{end.name}: {{{housing}contacts: {end.contacts}}}"


def _lead(lead: Lead) -> str:
    if not lead.own:
        return f"{lead.end}.{lead.cavity}: {_words(lead)}"
    at = f"{lead.end}.{lead.cavity} " if lead.cavity else ""
    return f"{lead.own}: {at}{_words(lead)}"


def _words(row: Row | Lead) -> str:
    colour = row.colour.text if row.colour is not None else ""
    size = row.size.text if row.size is not None else ""
    return " ".join(filter(None, (row.function.name, colour, size)))


def _add(page: Page, heading: str, lines: Iterable[str], before: tuple[str, ...]) -> None:
    """Rows put in at the end of a section of the outermost level; a section that isn't there is made."""
    number = page.top(heading)
    if number is None:
        at = next((found for key in before if (found := page.top(key)) is not None), len(page.before) + 1)
        if at > len(page.before) or page.before[at - 1].strip():
            at = _above_comments(page, at)
        for line in (f"{heading}:", *(f"  {each}" for each in lines), ""):
            page.put_in(at, line)
        return
    line = page.line(number)
    if not re.search(r":\s*(#.*)?$", line):
        if re.search(r":\s*\{.*\}\s*(#.*)?$", line) and heading == "moved":
            inner = ", ".join(lines)
            page.change(number, re.sub(r"\}(\s*(#.*)?)$", rf", {inner}}}\1", line))
            return
        raise CannotEdit(f"{heading} is written in one line")
    under = page.under(number)
    depth = indent(page.before[under[0] - 1]) if under else 2
    for each in lines:
        page.put_in((under[-1] if under else number) + 1, " " * depth + each)


def _above_comments(page: Page, at: int) -> int:
    while at > 1 and at - 2 < len(page.before) and page.before[at - 2].lstrip().startswith("#"):
        at -= 1
    return at


def _joint_lines(page: Page, key: str, made: list[JointRow]) -> list[str]:
    """The rows of a heading: put in where the job has that heading, else given as lines of a new one."""
    top = page.top("joints")
    texts = [row.text for row in made]
    for number in page.under(top) if top is not None else ():
        match = re.match(r"\s+([^:{]+?)\s*:\s*(\{)?", page.before[number - 1])
        if not match or not _same(match[1], key):
            continue
        line = page.line(number)
        if match[2]:
            closing = re.search(r"\}(\s*(?:#.*)?)$", line)
            if not closing:
                raise CannotEdit("the joints go on in other lines")
            page.change(number, f"{line[: closing.start()]}, {', '.join(texts)}}}{closing[1]}")
            return []
        under = page.under(number)
        depth = indent(page.before[under[0] - 1]) if under else indent(line) + 2
        for text in texts:
            page.put_in((under[-1] if under else number) + 1, " " * depth + text)
        return []
    if not any(row.places for row in made):  # looms and plugs
        return [f"mate: {{{', '.join(texts)}}}"]
    return [f"{key}:", *(f"  {text}" for text in texts)]


def _steps(page: Page) -> None:
    """Steps that were for another way stay as remarks."""
    number = page.top("steps")
    if number is None:
        return
    page.put_in(number, _NOTE)
    for at in (number, *page.under(number)):
        page.change(at, f"# {page.line(at)}")
