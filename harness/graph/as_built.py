"""What was built against what is planned, contact by contact."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.conductor import Conductor
from harness.graph.fates import CAPPED, DEPINNED, EMPTY, INTERCEPTED, LOOSE, ONE_END, OPEN, PASSED, TAPPED, USED
from harness.graph.kept import kept
from harness.graph.waking import is_alone
from harness.graph.wiring import Wiring
from harness.model.evidence import PROVES_NOTHING, Record
from harness.model.function import read_function
from harness.model.good_and_bad import JOINT_MADE, JOINT_NOT, NOT_JOINED
from harness.model.job import Joint
from harness.place import Place

_FATES = (PASSED, INTERCEPTED, TAPPED, ONE_END, CAPPED, DEPINNED, EMPTY, USED, LOOSE, OPEN)
_MEANS = {
    "cap": CAPPED, "pass": PASSED, "joined": USED, "connected": USED, "tap": TAPPED, "intercept": INTERCEPTED,
    "bare": LOOSE, "hanging": LOOSE, "taken out": DEPINNED,
    **dict.fromkeys(NOT_JOINED, LOOSE),
}  # fmt: skip
_AS_PLANNED = "as planned"
REVERSED = "reversed"  # of a pair, or of a joint of one: + on the other's −
FATE_WORDS = (*_FATES, *_MEANS, _AS_PLANNED, REVERSED)  # what `is` may say of a contact
# Fates of a wire that is joined to nothing, and those that say that it is.
_APART = frozenset((CAPPED, DEPINNED, EMPTY, LOOSE, OPEN))
_JOINED = frozenset((USED, TAPPED, INTERCEPTED, ONE_END))


class Built(NamedTuple):
    """A record of what was built that isn't as planned: the contacts that differ, and what is planned of them.

    `planned` are words; `place` is where the plan says so.
    """

    record: Record
    contacts: tuple[str, ...]
    planned: str
    place: Place


@kept
def as_built(wiring: Wiring) -> tuple[tuple[Built, ...], tuple[Record, ...]]:
    """The records of what was built that differ from the plan, and those of which the words can't be compared.

    The last record of each contact counts.
    """
    last = last_built(wiring)
    names = {name.lower(): name for name in wiring.job.contacts} if last else {}
    differing: list[Built] = []
    unread: list[Record] = []
    for record in dict.fromkeys(last.values()):
        contacts = [name for name in record.contacts if last[name] is record]
        odd: list[str] = []
        for at, name in enumerate(record.contacts):
            same = _same(wiring, names, record, name, at)
            if same is None:
                unread.append(record)
                break
            if not same and name in contacts:
                odd.append(name)
        else:
            if odd:
                differing.append(Built(record, tuple(odd), *planned(wiring, odd[0])))
    return tuple(differing), tuple(unread)


@kept
def last_built(wiring: Wiring) -> dict[str, Record]:
    """The last record of what was built of each contact, by the contact's name; a joint's is of all its ends."""
    last: dict[str, Record] = {}
    for record in wiring.job.records:
        if record.verb == "built" and not record.stale:
            last.update(dict.fromkeys(record.contacts, record))
    return last


def targets(wiring: Wiring, record: Record) -> tuple[tuple[str, str], ...]:
    """The contacts that a record says its own are joined to, as links; none where it names none."""
    names = {name.lower(): name for name in wiring.job.contacts}
    said = [part.strip().lower() for part in record.word("is").split(",") if part.strip()]
    return tuple(
        (name, target)
        for at, name in enumerate(record.contacts)
        for words in said
        if (target := _target(wiring, names, words, name, at)) is not None
    )


def _target(wiring: Wiring, names: dict[str, str], words: str, name: str, at: int) -> str | None:
    """The contact that a word means behind `is`: itself, or that of a pair which goes with this one's sign."""
    words = words.removeprefix("joined to ").strip()
    own = wiring.contact(name).function.sign
    return names.get(words) or names.get(words + (own if own in ("+", "-") else "+-"[min(at, 1)]))


def joint_as_planned(record: Record) -> bool | None:
    """Whether a record of a joint says that it was made as planned; None where its words say neither."""
    if record.word("result") in PROVES_NOTHING:
        return False
    said = (record.word("is") or record.word("found")).strip().lower()
    return True if said in JOINT_MADE else False if said in JOINT_NOT else None


def not_made(wiring: Wiring, record: Record) -> bool:
    """Whether a record says that a joint, or the one at its contacts, isn't there: in so many words, or by a fate that
    leaves a wire on nothing (`capped`) which the plan joins, or `passed` one which it opens.
    """
    if record.joint:
        return joint_as_planned(record) is False
    said = {part.strip().lower() for part in record.word("is").split(",")}
    if not said.isdisjoint(NOT_JOINED):
        return True
    fates = {_MEANS.get(words, words) for words in said}
    if not fates.isdisjoint(_JOINED) or targets(wiring, record):
        return False
    if PASSED in fates and any(INTERCEPTED in _fates(wiring, name) for name in record.contacts):
        return True
    return not fates.isdisjoint(_APART) and any(_ours(wiring, name) for name in record.contacts)


def _ours(wiring: Wiring, name: str) -> list[Conductor]:
    """What we make or lay at a contact as planned."""
    return [each for each in wiring.planned.conductors(name) if each.kind in ("joint", "run", "fuse")]


def turned_joint(wiring: Wiring, record: Record) -> Joint | None:
    """The joint of a pair that a record says was built `reversed`; None where it says no such thing of one."""
    if REVERSED not in {part.strip().lower() for part in record.word("is").split(",")}:
        return None
    pairs = (joint for joint in wiring.job.joints if len(joint.links) == 2 and len(joint.ends) == 4)
    if record.joint:
        return next((joint for joint in pairs if joint.name == record.joint), None)
    return next((joint for joint in pairs if _both_joined(wiring, joint, record.contacts)), None)


def _both_joined(wiring: Wiring, joint: Joint, contacts: tuple[str, ...]) -> bool:
    """Whether the two contacts of a record are on the two wires of a joint."""
    nets = {wiring.planned.net_number(link.a) for link in joint.links}
    return len(nets) == 2 and nets == {wiring.planned.net_number(name) for name in contacts}


def uncompared(wiring: Wiring, record: Record) -> tuple[str, ...]:
    """The words of what was built that say no fate, no contact and no function, as written."""
    if record.joint:
        said_of_it = record.word("is") or record.word("found")
        return () if _same(wiring, {}, record, "", 0) is not None else (said_of_it,)
    names = {name.lower(): name for name in wiring.job.contacts}
    said = [part.strip() for part in record.word("is").split(",") if part.strip()]
    pair = len(record.contacts) == 2
    if turned_joint(wiring, record) is not None:
        said = [words for words in said if words.lower() != REVERSED]
    return tuple(
        words
        for words in said
        if any(_says(wiring, names, words.lower(), name, at, pair) is None for at, name in enumerate(record.contacts))
    )


def _same(wiring: Wiring, names: dict[str, str], record: Record, name: str, at: int) -> bool | None:
    """Whether one contact was built as planned; None where the words say no fate, no contact and no function."""
    turned = turned_joint(wiring, record)
    if record.joint:
        return joint_as_planned(record) if turned is None else turned.turned
    said = [part.strip().lower() for part in record.word("is").split(",") if part.strip()]
    if not said:
        return None
    for words in said:
        if words == REVERSED and turned is not None:
            if not turned.turned:
                return False
            continue
        same = _says(wiring, names, words, name, at, len(record.contacts) == 2)
        if not same:
            return same
    return True


def _says(wiring: Wiring, names: dict[str, str], words: str, name: str, at: int, pair: bool) -> bool | None:
    """Whether what is said of a contact in a few words is so as planned; None where they can't be understood."""
    fate = _MEANS.get(words, words)
    if fate == _AS_PLANNED:
        return True
    if fate in _FATES:
        return fate in _fates(wiring, name)
    target = _target(wiring, names, fate, name, at)
    if target is not None:
        return wiring.planned.joined(name, target)
    function = read_function(words)
    if function is None or function.kind in ("unknown", "empty"):
        return None
    own = wiring.contact(name).function.sign
    sign = own if pair and own else function.sign or own or "+-"[min(at, 1)]  # `FL+` of a pair means the pair
    net = wiring.planned.nets[wiring.planned.net_number(name)]
    return any(
        each.base == function.base and each.sign in ("", sign) for each in (wiring.contact(end).function for end in net)
    )


def _fates(wiring: Wiring, name: str) -> set[str]:
    """The words that are true of a contact as planned: of a plug's half its own, and its cavity's."""
    job, contact = wiring.job, wiring.contact(name)
    if name in job.capped:
        made = {CAPPED}
    elif name in job.depinned:
        made = {DEPINNED}
    else:
        made = set()
    if contact.kind == "plug" and wiring.fates.has(contact.owner, contact.last):
        cavity = wiring.fates.cavity(contact.owner, contact.last)
        to = cavity.unit_to if contact.half == "unit" else cavity.car_to
        made.add(cavity.fate)
        if to and cavity.fate != PASSED:
            made.add(USED)
        elif cavity.fate == OPEN:
            made.add(LOOSE)
        return made
    leads = wiring.fates.leads(contact.owner) if contact.owner in {**job.parts.looms, **job.parts.units} else []
    made.update(each.fate for each in leads if each.lead.name == name)
    if not made and contact.owner in job.parts.looms:
        loom = job.parts.looms[contact.owner]
        made = {PASSED} if any(contact.last in (t.unit_cavity, t.car_cavity) for t in loom.throughs) else {EMPTY}
    return made or {LOOSE if is_alone(wiring, name) else USED}


def planned(wiring: Wiring, name: str) -> tuple[str, Place]:
    """What is planned of a contact in words, and where."""
    job, contact = wiring.job, wiring.contact(name)
    for table in (job.capped, job.depinned):
        if name in table:
            return (CAPPED if table is job.capped else DEPINNED), table[name]
    if ours := _ours(wiring, name):
        return f"joined to {wiring.words(ours[0].other(name))}", ours[0].place
    order = [fate for fate in _FATES if fate in _fates(wiring, name)]
    return (order[0] if order else LOOSE), contact.place
