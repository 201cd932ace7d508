"""The evidence file beside the job: every record that holds together, and what tones and readings prove."""

from __future__ import annotations

import os
from datetime import date
from typing import NamedTuple

from harness.model.evidence import VERBS, Record
from harness.model.function import read_function
from harness.model.job import Tone
from harness.model.parts import Plug
from harness.read.names import Names
from harness.read.nodes import Node, Rows, Table, Text, read_file
from harness.read.plugs import text_of
from harness.read.troubles import Troubles

GONE = "it names what is not in the job"


class Evidence(NamedTuple):
    """All records in the order taken, and what the ones that still hold prove: tones, and contacts read in ohms."""

    records: tuple[Record, ...] = ()
    tones: tuple[Tone, ...] = ()
    ohms: frozenset[str] = frozenset()


def evidence_path(job_file: str) -> str:
    """`larch.yaml` has its evidence in `larch.evidence.yaml`."""
    stem, dot, ending = job_file.rpartition(".")
    return f"{stem if dot else ending}.evidence.yaml"


def read_evidence(
    job_file: str, names: Names, plugs: dict[str, Plug], stands: dict[str, str], troubles: Troubles
) -> Evidence:
    """The records beside a job. A record about something that is no longer in the job is kept, as stale.

    `stands` says, of a place that a terminal was moved to (in small letters), which terminal stands there now.
    """
    path = evidence_path(job_file)
    if not os.path.exists(path) or (os.path.isfile(path) and os.path.getsize(path) == 0):
        return Evidence()
    root = read_file(path, troubles)
    if root is None:
        return Evidence()
    from harness.read.conform import conform
    from harness.read.spec_evidence import EVIDENCE  # here, as most jobs have no evidence yet

    bad = conform(root, EVIDENCE, troubles)
    tables = [each for each in root.items if isinstance(each, Table)] if isinstance(root, Rows) else []
    quiet = _quiet(names)
    records = []
    for table in tables:
        if id(table) not in bad and not any(id(value) in bad for _, value in table.items):
            record = _record(table, quiet, plugs, stands, troubles)
            if record is not None:
                records.append(record)
    holding = [record for record in records if not record.stale]
    tones = tuple(_tone(each) for each in holding if each.verb == "tone" and len(each.contacts) == 2)
    read = frozenset(
        name for each in holding if each.verb in ("tone", "ohm") and len(each.contacts) == 2 for name in each.contacts
    )
    return Evidence(tuple(records), tones, read)


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
    elif "." in value.value and " " not in value.value:
        groups = names.groups(value, "car")
        if len(groups) == 1:
            contacts = groups[0].contacts
        else:
            stale = GONE
    record = Record(key.value, value.value, contacts, when, text_of(table, "by"), said, value.place, stale)
    facts = table.get("fact")
    if contacts and facts is not None:
        from harness.read.facts import facts_of, stale_words

        heard = frozenset(f.base for word in record.word("heard").split() if (f := read_function(word)))
        now = facts_of([names.contacts[name] for name in contacts], plugs)
        record = record._replace(stale=stale_words(_listed(facts), now, heard))
    return record


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
    pair = (record.contacts[0], record.contacts[1])
    unplugged = tuple(each.lower() for each in record.word("unplugged").replace(",", " ").split())
    return Tone(pair, record.word("charted"), record.word("heard"), record.word("plus"), record.place, unplugged)


def _quiet(names: Names) -> Names:
    """The same names, with their troubles set aside: what is gone makes a record stale, and no error."""
    quiet = Names(Troubles())
    for attribute in ("contacts", "owners", "shaky", "plug", "end", "unit", "speakers", "grounds", "opened", "cut"):
        setattr(quiet, attribute, getattr(names, attribute))
    return quiet
