"""The evidence file beside the job: every record that holds together, and what tones and readings prove."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from datetime import date
from typing import NamedTuple

from harness.model.evidence import JOINT_VERBS, STRUCK, VERBS, Record, Struck, of_another_car
from harness.model.function import bases_in
from harness.model.job import Car, Joint, Tone
from harness.model.parts import Plug
from harness.place import Place
from harness.read.files import load
from harness.read.lines import split_lines
from harness.read.names import Names
from harness.read.nodes import Node, Rows, Table, Text, read_text
from harness.read.plugs import text_of
from harness.read.troubles import Troubles

GONE = "it names what is not in the job"
_FOREIGN = "it was taken on another car"
# All that a record may say that takes another one back.
_OF_STRUCK = (STRUCK, "was", "reason", "when", "by", "car", "note", "photo", "seal", "who", "name")
# What they are about is a function's name, a sheet's or nothing, and never a contact.
_PLAIN = ("before", "after", "printed", "handover", "signed", STRUCK)


class Evidence(NamedTuple):
    """All records in the order taken but those that were struck, and what the ones that still hold prove.

    `tones` of pairs of the chart; `off_chart`, tones at cavities of a plug's face that its chart has no row for; the
    contacts of pairs read in `ohms`.
    """

    records: tuple[Record, ...] = ()
    tones: tuple[Tone, ...] = ()
    off_chart: tuple[Tone, ...] = ()
    ohms: frozenset[str] = frozenset()
    struck: tuple[Struck, ...] = ()


def evidence_path(job_file: str) -> str:
    """`larch.yaml` has its evidence in `larch.evidence.yaml`, beside it.

    Only the file's name is looked at, never a dot in the folders above; and `.yaml` is a name without an ending.
    """
    return f"{os.path.splitext(job_file)[0]}.evidence.yaml"


def read_evidence(
    job_file: str,
    names: Names,
    plugs: dict[str, Plug],
    stands: dict[str, str],
    car: Car | None,
    troubles: Troubles,
    text: str | None = None,
    joints: Sequence[Joint] = (),
) -> Evidence:
    """The records beside a job. One about what is no longer in the job, or of another car, is kept, as stale.

    `stands` says, of a place that a terminal was moved to (in small letters), which terminal stands there now; `text`
    stands in the place of the file: to try a record before it is written.
    """
    path = evidence_path(job_file)
    if text is None and not os.path.lexists(path):
        return Evidence()
    root, text = read_records(path, troubles, text)
    if root is None:
        return Evidence()
    from harness.read.conform import conform
    from harness.read.spec_evidence import EVIDENCE

    bad = conform(root, EVIDENCE, troubles)
    tables = [each for each in root.items if isinstance(each, Table)] if isinstance(root, Rows) else []
    quiet = _quiet(names)
    seals = {table.line: seal for table in tables if (seal := text_of(table, "seal"))}
    unsealed = _unsealed(text, seals) if seals else frozenset()
    records = []
    for table in tables:
        if id(table) not in bad and not any(id(value) in bad for _, value in table.items):
            record = _record(table, quiet, plugs, stands, troubles)
            if record is not None and record.verb in JOINT_VERBS and "." not in record.what:
                record = _of_joint(record, joints, table)
            if record is not None:
                record = _of_this_car(record, car)
                records.append(record._replace(unsealed=True) if table.line in unsealed else record)
    records, struck = _without_struck(records)
    off_chart = {
        at: bare
        for at, each in enumerate(records)
        if each.verb == "tone" and each.stale == GONE and not each.word("fact")
        if (bare := _off_chart(each.what, names, plugs)) is not None
    }
    for at in off_chart:
        records[at] = records[at]._replace(stale="")  # the face has these cavities, though its chart has no row
    holding = [record for record in records if not record.stale]
    tones = tuple(_tone(each) for each in holding if each.verb == "tone" and len(each.contacts) == 2)
    read = frozenset(
        name for each in holding if each.verb in ("tone", "ohm") and len(each.contacts) == 2 for name in each.contacts
    )
    off = tuple(_tone(records[at])._replace(contacts=bare) for at, bare in off_chart.items())
    return Evidence(tuple(records), tones, off, read, struck)


def read_records(path: str, troubles: Troubles, text: str | None = None) -> tuple[Node | None, str]:
    """The nodes of an evidence file and its text without torn lines, which are told.

    None where it can't be read (and told), or where it says nothing, as an empty one or one with remarks alone.
    `text` stands in the place of the file.
    """
    from harness.records.torn import whole_characters, without_torn

    if text is None:
        text = load(path, troubles, mended=whole_characters)
        if text is None:
            return None, ""
    text, torn = without_torn(text)
    for number, half in torn:
        troubles.add(
            "R30", Place(path, number, 1), half[:40],
            "This line is only half a record: whoever wrote it was cut off, and it was never acknowledged.",
            "Do again what it was about, if that is missing; the line may stay as it is.",
        )  # fmt: skip
    says = any(line.strip() and not line.lstrip().startswith("#") for line in split_lines(text))
    return (read_text(text, path, troubles) if says else None), text


def _record(
    table: Table, names: Names, plugs: dict[str, Plug], stands: dict[str, str], troubles: Troubles
) -> Record | None:
    verbs = [(key, value) for key, value in table.items if key.value in VERBS and isinstance(value, Text)]
    if len(verbs) > 1:
        second = verbs[1][0]
        troubles.add(
            "R08", second.place, second.value, f"One record has one verb: {verbs[0][0].value} stands here already.",
            "Write a record of its own for it, on a line of its own.",
        )  # fmt: skip
        return None
    key, value = verbs[0]
    assert isinstance(value, Text)
    if key.value == STRUCK:
        alien = next((each for each, _ in table.items if each.value not in _OF_STRUCK), None)
        if alien is not None:
            troubles.add(
                "R07", alien.place, alien.value,
                f"“{alien.value}” can't stand in a record that strikes another one: it would be lost.",
                "Write what was found as a record of its own, on a line of its own.",
            )  # fmt: skip
            return None
    when = text_of(table, "when")
    if when and not _is_day(when[:10]):
        node = table.get("when")
        assert isinstance(node, Text)
        troubles.add("R09", node.place, when, f"There is no {when[:10]} in the calendar.", "Correct the date.")
        return None
    said = tuple((name.value, _flat(node)) for name, node in table.items if name.value not in (key.value, "when", "by"))
    contacts: tuple[str, ...] = ()
    stale = ""
    if key.value == "checked" and value.value.lower() in stands:
        contacts = (stands[value.value.lower()],)  # what is looked at in a housing is what stands there now
    elif "." in value.value and " " not in value.value and key.value not in _PLAIN:
        groups = names.groups(value, "car")
        if len(groups) == 1:
            contacts = groups[0].contacts
        else:
            stale = GONE
    record = Record(key.value, value.value, contacts, when, text_of(table, "by"), said, value.place, stale)
    facts = table.get("fact")
    if contacts and facts is not None:
        from harness.read.facts import facts_of, stale_words

        heard = bases_in(record.word("heard"))
        now = facts_of([names.contacts[name] for name in contacts], plugs)
        if record.verb == "polarity":  # says where + is, and of which channel it doesn't
            bases = {names.contacts[name].function.base for name in contacts}
            heard = frozenset(
                base for base in bases if f"{base}+" in record.words("fact") or f"{base}-" in record.words("fact")
            )
        record = record._replace(stale=stale_words(_listed(facts), now, heard, record.word("plus")))
    return record


def _without_struck(records: list[Record]) -> tuple[list[Record], tuple[Struck, ...]]:
    """The records that count, and those that a later one takes back. One that strikes and is struck takes none back.

    A record names the one that it strikes by its line, and behind `was` in words: where the words aren't those of the
    line, it strikes nothing and no longer holds. It must stand below what it strikes. One of another car strikes only
    records of other cars.
    """
    if not any(each.verb == STRUCK for each in records):
        return records, ()
    at_line = {str(each.place.line): at for at, each in enumerate(records)}
    by: dict[int, Record] = {}
    for at in range(len(records) - 1, -1, -1):  # from the last one, which nothing can strike
        each = records[at]
        if each.verb != STRUCK or at in by:
            continue
        target = at_line.get(each.what)
        if target is None or target >= at:
            records[at] = each._replace(stale=f"no record stands above it on line {each.what}")
        elif each.stale and not records[target].stale.startswith(_FOREIGN):
            pass  # who works on another car takes nothing back of this one
        elif (was := each.word("was")) and was.lower() != records[target].named.lower():
            records[at] = each._replace(stale=f"line {each.what} says {records[target].named}, and not {was}")
        else:
            by[target] = each
    struck = tuple(Struck(records[at], by[at]) for at in sorted(by))
    return [each for at, each in enumerate(records) if at not in by], struck


def _of_joint(record: Record, joints: Sequence[Joint], table: Table) -> Record:
    """A record about a joint by its name. What was built of it is about its ends; a look at it says nothing of them."""
    joint = next((each for each in joints if each.name.lower() == record.what.lower()), None)
    if joint is None:  # runs and plug ends are known by their names where they are numbered
        return record if " " in record.what else record._replace(stale=GONE)
    ends = joint.ends if record.verb == "built" else ()
    facts = table.get("fact")
    if facts is None:
        return record._replace(contacts=ends, joint=joint.name)
    from harness.read.facts import joint_facts, stale_joint

    return record._replace(
        contacts=ends, joint=joint.name, stale=stale_joint(_listed(facts), joint_facts(joint.links))
    )  # fmt: skip


def _unsealed(text: str, seals: Mapping[int, str]) -> frozenset[int]:
    """The lines whose seal isn't right; `seals` are those that the reader sees, wherever they stand in their record."""
    from harness.records.seal import broken  # here, as most jobs have no evidence yet
    from harness.records.torn import lines_in

    return frozenset(broken(lines_in(text), seals))


def _of_this_car(record: Record, car: Car | None) -> Record:
    said = record.word("car")
    if car is not None and of_another_car(said, car.name, car.year):
        return record._replace(stale=f"{_FOREIGN}, {said}")
    return record


def _off_chart(text: str, names: Names, plugs: Mapping[str, Plug]) -> tuple[str, str] | None:
    """`dash.car.7/9` where the plug's face has both cavities, and the chart has no row for one of them or both."""
    owner, _, rest = text.strip().partition(".")
    plug = plugs.get(names.owners.get(owner.lower(), ("", ""))[1])
    a, slash, b = rest.removeprefix("unit.").removeprefix("car.").partition("/")
    if plug is None or plug.face is None or not slash or a.lower() == b.lower():
        return None
    there = {each.lower(): each for line in plug.face.drawn for each in line if each is not None}
    there |= {each.lower(): each for each in plug.cavities}
    if a.lower() not in there or b.lower() not in there:
        return None
    return f"{plug.name}.car.{there[a.lower()]}", f"{plug.name}.car.{there[b.lower()]}"


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _listed(node: Node) -> list[str]:
    if isinstance(node, Rows):
        return [each.value for each in node.items if isinstance(each, Text)]
    return [node.value] if isinstance(node, Text) else []


def _flat(node: Node) -> str:
    return ", ".join(_listed(node))


def _tone(record: Record) -> Tone:
    pair = (record.contacts[0], record.contacts[1]) if len(record.contacts) == 2 else ("", "")
    unplugged = tuple(each.lower() for each in record.word("unplugged").replace(",", " ").split())
    return Tone(
        pair, record.word("charted"), record.word("heard"), record.word("plus"), record.place, unplugged,
        record.word("signal"),
    )  # fmt: skip


def _quiet(names: Names) -> Names:
    """The same names, with their troubles set aside: what is gone makes a record stale, and no error."""
    quiet = Names(Troubles())
    for attribute in ("contacts", "owners", "shaky", "plug", "end", "unit", "speakers", "grounds", "opened", "cut"):
        setattr(quiet, attribute, getattr(names, attribute))
    return quiet
