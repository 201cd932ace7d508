"""What `ringout record` can know to be wrong before anything is written, as it has the job at hand."""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import NamedTuple

from harness.cli.record_words import FREE, STRIKE
from harness.graph.wiring import Wiring
from harness.model.evidence import LOST, NOTHING, PAUSED, RELEASED, STRUCK, VERBS, Record
from harness.model.function import read_function
from harness.read.spec_evidence import RECORD

Said = Sequence[tuple[str, str | tuple[str, ...]]]

# What a record can't do without, by its verb or by its verb and what it says.
_NEEDED = {
    "tone": {"unplugged": "the plugs or units parted while it was toned, or none"},
    "before": {"result": "works, silent, wrong or not tried"},
    "after": {"result": "works, silent, wrong or not tried"},
    "polarity": {"plus": "the cavity found to be +"},
    "plays": {"heard": "the speakers that answered, or none"},
    f"handover {PAUSED}": {
        "done": "what is done", "left": "what is left", "parts": "where the parts are", "odd": "what is odd",
    },
    f"signed {RELEASED}": {"reason": "why it may go as it is"},
    f"signed {LOST}": {"lost": "the functions that are lost"},
    STRUCK: {"reason": "why it is struck"},
}  # fmt: skip
# Two names as alike as this are one name and a slip of the hand (`revers tone` and `reverse tone`: 0.96).
_ALIKE = 0.85
_AHEAD = timedelta(days=1)


class Doubt(NamedTuple):
    """`key: value` is shown with a caret under `part` of it, then what is wrong and what to type."""

    key: str
    value: str
    part: str
    message: str
    do: str

    def lines(self) -> str:
        """Four lines, or one where nothing that was typed is wrong."""
        if not self.key:
            return f"{self.message} {self.do}"
        shown = f"{self.key}: {self.value}"
        at = 0 if self.part == self.key else len(self.key) + 2 + max(self.value.find(self.part), 0)
        return f"  {shown}\n  {' ' * at}^\n{self.message}\n  {self.do}"


def two_in_one(said: Said) -> list[Doubt]:
    """Values with another key and its colon in them. Asked before the record is read, as that tells another fault."""
    made = []
    inner = re.compile(rf"\s({'|'.join(map(re.escape, RECORD.keys))}):(?:\s|$)")
    for key, value in said:
        found = inner.search(value) if isinstance(value, str) and key not in FREE else None
        if found and isinstance(value, str):
            first, second = value[: found.start()], value[found.start() :].strip()
            made.append(
                Doubt(
                    key, value, found[1] + ":", f"“{found[1]}:” stands inside the words of “{key}”: one pair of quotes "
                    "holds one key.", f'Type: "{key}: {first}" "{second}"',
                )
            )  # fmt: skip
    return made


def no_verb(said: Said) -> list[Doubt]:
    """Words without a verb: the nearest one first, then all of them. Asked before the record is read."""
    if not said or any(key in VERBS for key, _ in said):
        return []
    key, value = said[0]
    shown = value if isinstance(value, str) else ", ".join(value)
    near = difflib.get_close_matches(key.lower(), VERBS, n=1, cutoff=0.5)
    meant = f'Is “{near[0]}” meant? Type: "{near[0]}: {shown}". ' if near else ""
    known = key in RECORD.keys
    message = f"“{key}” says how, and not what was done." if known else f"“{key}” is nothing that can be recorded."
    return [Doubt(key, shown, key, message, f"{meant}What was done is one of: {', '.join((*VERBS[:-1], STRIKE))}.")]


def unit_missing(said: Said) -> list[Doubt]:
    """A reading that is a number alone: in which unit it is meant hangs on the verb."""
    verb = next((key for key, _ in said if key in VERBS), "")
    unit = "V" if verb == "volts" else "ohm" if verb in ("ohm", "tone") else ""
    made = []
    for key, value in said:
        if unit and key == "reads" and isinstance(value, str) and re.fullmatch(r"-?[0-9]+(?:\.[0-9]+)?", value):
            made.append(Doubt(key, value, value, f"{value} has no unit.", f'Type: "{key}: {value} {unit}"'))
    return made


def doubts(wiring: Wiring, record: Record, said: Said, moment: str, now: datetime) -> list[Doubt]:
    """All that is wrong with a record that reads well, in the order of its words."""
    return [*_ahead(moment, now), *_heard(wiring, record), *_name(wiring, record), *_missing(record, said)]


def new_name(wiring: Wiring, record: Record) -> bool:
    """Whether a function was tried that neither the plan nor a record names."""
    return record.verb in ("before", "after") and record.what.lower() not in {n.lower() for n in _names(wiring)}


def _ahead(moment: str, now: datetime) -> list[Doubt]:
    try:
        then = datetime.fromisoformat(moment)
    except ValueError:
        return []  # told by the reader
    if then <= now + _AHEAD:
        return []
    return [
        Doubt("when", moment, moment, f"{moment} is still to come; today is {now:%Y-%m-%d}.",
              "Correct --when, or leave it out for now.")
    ]  # fmt: skip


def _heard(wiring: Wiring, record: Record) -> list[Doubt]:
    """A channel that the plan lacks may be what was heard, so any channel's word passes."""
    if record.verb not in ("tone", "plays"):
        return []
    heard = record.word("heard")
    speakers = {name.lower(): name for name in wiring.job.parts.speakers}
    made = []
    for word in heard.replace(",", " ").split():
        function = read_function(word)
        if word.lower() in (*speakers, *NOTHING, "unknown") or (function is not None and function.channel):
            continue
        near = difflib.get_close_matches(word.lower(), [*speakers, "none"], n=1, cutoff=0.5)
        names = ", ".join(speakers.values())
        do = f"Is “{speakers.get(near[0], near[0])}” meant? " if near else ""
        made.append(
            Doubt("heard", heard, word, f"“{word}” is no speaker of this job and no channel.",
                  f"{do}Type one or more of: {names}; or none, where nothing was heard.")
        )  # fmt: skip
    return made


def _names(wiring: Wiring) -> list[str]:
    """The functions of the plan and those that were tried before the work."""
    tried = [each.what for each in wiring.job.records if each.verb in ("before", "after")]
    return list(dict.fromkeys([*(each.name for each in wiring.job.features), *tried]))


def _name(wiring: Wiring, record: Record) -> list[Doubt]:
    if not new_name(wiring, record):
        return []
    names = {each.lower(): each for each in _names(wiring)}
    near = difflib.get_close_matches(record.what.lower(), list(names), n=1, cutoff=_ALIKE)
    if not near:
        return []
    meant = names[near[0]]
    return [
        Doubt(record.verb, record.what, record.what, f"The job has no function “{record.what}”.",
              f"Is “{meant}” meant? Type: \"{record.verb}: {meant}\"")
    ]  # fmt: skip


def needed(record: Record, said: Said) -> dict[str, str]:
    """The keys that a record lacks and can't do without, each with what is meant by it."""
    there = {key for key, _ in said}
    if record.verb == "volts" and not there & {"signal", "step"}:
        wanted = {"key": "out, accessory, run, crank, engine or locked"}
    else:
        wanted = _NEEDED.get(record.verb) or _NEEDED.get(record.named) or {}
    return {key: meant for key, meant in wanted.items() if key not in there}


def _missing(record: Record, said: Said) -> list[Doubt]:
    missing = needed(record, said)
    if not missing:
        return []
    words = " ".join(f'"{key}: …"' for key in missing)
    meant = "; ".join(f"{key}: {words}" for key, words in missing.items())
    return [Doubt("", "", "", f"Missing with “{record.verb}: {record.what}”: {', '.join(missing)}.",
                  f"Add {words} ({meant}).")]  # fmt: skip
