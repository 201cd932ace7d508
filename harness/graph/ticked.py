"""Boxes of the splice list that are neither joints nor wires: runs laid, plugs seated and latched, by printed name.

`built: RUN 1` says that a run was laid, `checked: T1 car end` that a plug is seated and latched; with
`found: seated` only that was seen.
"""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.runs import cables
from harness.graph.wiring import Wiring
from harness.model.evidence import JOINT_VERBS, Record
from harness.model.good_and_bad import LAID, NOT_LAID
from harness.place import Place

SEATED, LATCHED = "seated", "latched"


class Seen(NamedTuple):
    """The record of a box, and whether it says yes."""

    record: Record
    yes: bool


class NotLaid(NamedTuple):
    """A run that a record says isn't laid: its printed name, from where to where, its ends, its place in the job."""

    record: Record
    name: str
    way: str
    ends: tuple[str, ...]
    place: Place


@kept
def rests_on(wiring: Wiring) -> dict[str, str]:
    """Each run and each plug end to mate by its name on the paper, and in words what a record of it rests on."""
    made = {}
    for cable in cables(wiring.job):
        ends = " and ".join(f"{run.start} to {run.end}" for run in cable.wires)
        made[cable.name] = f"lays {ends}"
    for mate in wiring.job.mates:
        made[f"{mate.loom} {mate.end} end"] = f"mates {mate.plug}, {mate.half} side"
    return made


def printed_name(wiring: Wiring, what: str) -> str:
    """`RUN 1` as the paper prints it, for `run 1`; empty where no box has that name."""
    return _by_fold(wiring).get(" ".join(what.lower().split()), "")


@kept
def _by_fold(wiring: Wiring) -> dict[str, str]:
    """The printed names by themselves in small letters; of two that are alike there the first."""
    made: dict[str, str] = {}
    for name in rests_on(wiring):
        made.setdefault(name.lower(), name)
    return made


def wrong_words(record: Record, name: str) -> str:
    """What is said of a box that is no answer to it, or empty."""
    if name.startswith("RUN "):
        said = record.word("is")
        return "" if said.lower() in (*LAID, *NOT_LAID) else said
    said = record.word("found") or record.word("is")
    return " ".join(word for word in _words(said) if word not in (SEATED, LATCHED, "not"))


@kept
def ticked(wiring: Wiring) -> dict[tuple[str, str], Seen]:
    """The last record of each box, by the name and the box's word: `laid`, `seated` or `latched`.

    One whose name means another run now is of the run that it meant, by whatever name; if that isn't there any more it
    proves nothing.
    """
    made: dict[tuple[str, str], Seen] = {}
    for record in wiring.job.records:
        name = _meant(wiring, record) if record.verb in JOINT_VERBS and not record.stale else ""
        if not name or wrong_words(record, name):
            continue
        if name.startswith("RUN "):
            if record.verb == "built":
                made[name, "laid"] = Seen(record, record.word("is").lower() in LAID)
            continue
        said = _words(record.word("found") or record.word("is"))
        for box in (SEATED, LATCHED):
            if not said or box in said:
                at = said.index(box) if said else 0
                made[name, box] = Seen(record, at == 0 or said[at - 1] != "not")
    return made


@kept
def not_laid(wiring: Wiring) -> tuple[NotLaid, ...]:
    """The runs of which the last record says that they aren't laid, in their order."""
    made, boxes = [], ticked(wiring)
    for cable in cables(wiring.job) if boxes else ():
        seen = boxes.get((cable.name, "laid"))
        if seen is not None and not seen.yes:
            ends = tuple(end for run in cable.wires for end in (run.start, run.end))
            ways = " and ".join(f"{wiring.words(run.start)} to {wiring.words(run.end)}" for run in cable.wires)
            made.append(NotLaid(seen.record, cable.name, ways, ends, cable.segments[0].place))
    return tuple(made)


def says_not_laid(wiring: Wiring, record: Record) -> bool:
    """Whether a record says of a run that it isn't laid, whatever a later one says."""
    if record.verb != "built" or record.word("is").lower() not in NOT_LAID:
        return False
    return _meant(wiring, record).startswith("RUN ")


def _meant(wiring: Wiring, record: Record) -> str:
    """The name that the box of a record has now; empty where there is none, or two runs are as it says."""
    name, fact, known = printed_name(wiring, record.what), record.word("fact"), rests_on(wiring)
    if not fact or (name and known[name] == fact):
        return name
    same = [each for each, words in known.items() if words == fact]
    return same[0] if len(same) == 1 else ""


def _words(text: str) -> list[str]:
    return text.lower().replace(",", " ").replace(" and ", " ").split()
