"""As built against the plan: every lead and cavity that somebody recorded as made, and where it differs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.as_built import as_built, last_built, planned
from harness.graph.joints_made import joints_made
from harness.graph.polarity import speaker_polarities, turned_back
from harness.model.evidence import Record
from harness.planning.states import contradictions
from render.blocks import Block, Caution, Cell, Column, Grid, Para, Sheet, Strong
from render.documents import document
from render.documents.wording import count

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof


@document("as-built", title="As built, against the plan", order=20)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For the file and the next bay: what was really done. Prints once something is recorded as built."""
    if proof.wiring is not None and (
        proof.wiring.job.turned_here or any(record.verb == "built" for record in proof.wiring.job.records)
    ):
        yield Sheet("as-built", "As built, against the plan", tuple(_blocks(proof.wiring)), shares=True)


def _blocks(wiring: Wiring) -> Iterator[Block]:
    differing, unread = as_built(wiring)
    odd = {id(each.record): each for each in differing}
    records = [record for record, _ in _last(wiring).values()]
    stands = {key: contacts for key, (_, contacts) in _last(wiring).items()}
    same = [each for each in records if id(each) not in odd and each not in unread]
    yield Para(
        f"{count(len(records), 'record')} of what was built: {len(same)} as planned, {len(differing)} not"
        f"{f', {len(unread)} in words that can’t be compared' if unread else ''}. What nobody recorded is not on this "
        "sheet, and nothing says that it was built as planned."
    )
    if turned := dict.fromkeys(wiring.job.turned_here.values()):
        backs = {speaker: f"turned back at joint {name}" for name, (speaker, _) in turned_back(wiring).items()}
        ways = speaker_polarities(wiring)
        right = {each.speaker for each in ways} - {each.speaker for each in ways if each.wrong}
        rows_here = tuple(
            (
                Strong(record.what.removeprefix("spk.")), "+ lead on −, − lead on +",
                backs.get(name := wiring.contact(record.contacts[0]).owner)
                or ("comes out right by the plan" if name in right else Strong("NOT turned back by the plan")),
                record.word("how") or record.word("note"), record.signed,
            )
            for record in turned
        )  # fmt: skip
        yield Grid(
            (Column("Speaker", 1), Column("In this car", 2), Column("Plan", 2.2), Column("Seen", 2), Column("By", 1.3)),
            rows_here, caption="Turned in this car, and not in its chart",
        )  # fmt: skip
    against = contradictions(wiring)
    if against:
        said = ", ".join(f"{pair} {words}" for pair, words in against.items())
        yield Caution(f"The car speaks against the chart: {said}. Built as planned may be wrong all the same.")
    columns = (Column("Contact", 2.4), Column("Planned", 2), Column("Built", 2), Column("By", 1.3), Column("", 1.1))
    rows = [
        (_about(wiring, each.record, each.contacts), each.planned, *_built(wiring, each.record), Strong("DIFFERS"))
        for each in differing
    ]
    if rows:
        yield Grid(columns, tuple(rows), caption="Differs from the plan")
    rest = [(_about(wiring, each, stands[id(each)]), "the same", *_built(wiring, each), "as planned") for each in same]
    rest += [
        (
            _about(wiring, each, stands.get(id(each), each.contacts)),
            planned(wiring, each.contacts[0])[0],
            *_built(wiring, each),
            "not compared",
        )
        for each in unread
    ]
    if rest:
        yield Grid(columns, tuple(rest), caption="As planned, and what is not compared" if unread else "As planned")


def _last(wiring: Wiring) -> dict[int, tuple[Record, tuple[str, ...]]]:
    """The records that have the last word on a contact, by their identity, each with those contacts."""
    last, made = last_built(wiring), joints_made(wiring)
    found: dict[int, tuple[Record, tuple[str, ...]]] = {}
    for record in dict.fromkeys(last.values()):
        if not record.joint or made[record.joint].built is record:
            # a joint of which an end was changed since is told by that
            found[id(record)] = record, tuple(name for name in record.contacts if last[name] is record)
    return found


def _about(wiring: Wiring, record: Record, contacts: tuple[str, ...]) -> Strong:
    """What a record is about: contacts, or a joint with what it joins."""
    if record.joint:
        links = wiring.joints[record.joint].links
        joined = (f"{wiring.words(link.a)} to {wiring.words(link.b)}" for link in links)
        return Strong(record.joint, ", ".join(joined))
    return Strong(_words(wiring, contacts))


def _words(wiring: Wiring, contacts: tuple[str, ...]) -> str:
    return " and ".join(wiring.words(name) for name in contacts)


def _built(wiring: Wiring, record: Record) -> tuple[Cell, str]:
    words = record.word("is") or "made"
    if record.joint and joints_made(wiring)[record.joint].holds:
        words += ", tugged"
    return Strong(words), record.signed
