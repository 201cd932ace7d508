"""What `ringout record` can know to be wrong before anything is written, as it has the job at hand."""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import NamedTuple

from harness.cli.record_words import FREE, STRIKE
from harness.graph.answers import at_an_end, is_of_output
from harness.graph.as_built import FATE_WORDS, uncompared
from harness.graph.faded import setting_of
from harness.graph.ticked import printed_name, rests_on, wrong_words
from harness.graph.wiring import Wiring
from harness.model.evidence import (
    AS_MARKED,
    ELSEWHERE,
    JOINT_VERBS,
    LOST,
    NOTHING,
    PAUSED,
    RELEASED,
    STRUCK,
    TURNED,
    VERBS,
    Record,
)
from harness.model.function import read_function, words_in
from harness.read.spec_evidence import RECORD

Said = Sequence[tuple[str, str | tuple[str, ...]]]

# What a record can't do without, by its verb or by its verb and what it says.
_NEEDED = {
    "tone": {
        "heard": "the speakers that answered, or none",
        "unplugged": "the plugs or units parted while it was toned, or none",
    },
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
_NEEDED_OF_SPEAKER = {"found": f"{TURNED}, or {AS_MARKED}: how its leads lie on its terminals"}
# Two names as alike as this are one name and a slip of the hand (`revers tone` and `reverse tone`: 0.96).
_ALIKE = 0.85
_LISTED = 12
_OFFERED = 3  # names that are offered for one that is not there
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
        return f"{self.message}\n  {shown}\n  {' ' * at}^\n  {self.do}"


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
    made = [*_ahead(moment, now), *_heard(wiring, record), *_name(wiring, record), *_output(wiring, record)]
    made += [
        *_seen(wiring, record),
        *_replaced(wiring, record),
        *_built(wiring, record),
        *_leads(record),
        *_printed(wiring, record),
    ]
    return [*made, *_missing(record, said)]


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
    for word in words_in(heard):
        function = read_function(word)
        if word.lower() in (*speakers, *NOTHING, *ELSEWHERE) or (function is not None and function.channel):
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


def of_a_whole(wiring: Wiring, record: Record) -> str:
    """What to type for a look at a plug, loom, unit or ground point as a whole, which has no contact; else empty."""
    parts = wiring.job.parts
    kinds = (("plug", parts.plugs), ("loom", parts.looms), ("unit", parts.units), ("ground point", parts.grounds))
    for kind, names in kinds:
        name = next((each for each in names if each.lower() == record.what.lower()), "")
        if name and record.verb == "checked":
            seen = record.word("found") or record.word("is") or "…"
            return f'{name} is a whole {kind}; a look at it is: "seen: {name}" "shows: {seen}"'
    return ""


def nearest_names(wiring: Wiring, what: str) -> str:
    """`Is “radio.FL” meant?` for a name that the job doesn't have, or empty where none is near."""
    parts = wiring.job.parts
    owner, dot, last = what.partition(".")
    owners = {name.lower(): name for name in (*parts.plugs, *parts.looms, *parts.units)}
    if not dot:
        names = {name.lower(): name for name in wiring.joints}
    elif owner.lower() not in owners:
        alike = difflib.get_close_matches(owner.lower(), list(owners), n=1, cutoff=0.5)
        return f"Is “{owners[alike[0]]}.{last}” meant?" if alike else ""
    else:
        names = {}
        for each in wiring.job.contacts.values():
            if each.owner == owners[owner.lower()]:
                pair = f"{each.name.rpartition('.')[0]}.{each.function.base}" if each.function.sign else each.name
                names[pair.lower()] = pair
                if each.kind != "unit":  # a cavity is called by its number too
                    names[each.name.lower()] = each.name
    near = difflib.get_close_matches(what.lower(), list(names), n=_OFFERED, cutoff=0.6)
    if near:
        return f"Is {' or '.join(f'“{names[each]}”' for each in near)} meant?"
    if dot or not names:
        return ""
    more = f" and {len(names) - _LISTED} more" if len(names) > _LISTED else ""
    return f"The joints are {', '.join(list(names.values())[:_LISTED])}{more}."


def _output(wiring: Wiring, record: Record) -> list[Doubt]:
    if record.verb != "plays":
        return []
    if at_an_end(record):
        return _at_an_end(wiring, record)
    if is_of_output(wiring, record):
        return []
    outputs = {each.name.lower(): each.name for each in wiring.signals.drivers}
    if not outputs:
        return []
    whole = [name for name in outputs.values() if name.lower().startswith(f"{record.what.lower()}.")]
    if whole:
        do = f'Name one, "plays: {whole[0]}", or say how it was turned: "faded: front", "balanced: left".'
        return [Doubt("plays", record.what, record.what, f"“{record.what}” is no output: it has {len(whole)}.", do)]
    near = difflib.get_close_matches(record.what.lower(), list(outputs), n=1, cutoff=0.5)
    ends = [name for lower, name in outputs.items() if lower.endswith(f".{record.what.lower()}")]
    meant = ends[0] if len(ends) == 1 else outputs[near[0]] if near else ""
    do = f'Is “{meant}” meant? Type: "plays: {meant}"' if meant else f"Type one of: {', '.join(outputs.values())}."
    return [Doubt("plays", record.what, record.what, f"“{record.what}” is no output of this job.", do)]


def _at_an_end(wiring: Wiring, record: Record) -> list[Doubt]:
    """Fader and balance are a whole unit's, and never one output's."""
    if setting_of(wiring, record) is not None:
        return []
    sources = [name for name, unit in wiring.job.parts.units.items() if unit.is_source]
    owner = record.what.partition(".")[0].lower()
    meant = next((name for name in sources if name.lower() == owner), "")
    do = f'Type: "plays: {meant}"' if meant else f"Type one of: {', '.join(sources) or 'none is in this job'}."
    message = f"Fader and balance are said of what plays as a whole, and “{record.what}” is no such unit."
    return [Doubt("plays", record.what, record.what, message, do)]


def _seen(wiring: Wiring, record: Record) -> list[Doubt]:
    """`seen: dash.car.7 YE`: a cavity with more words behind it would be a thing of that name."""
    first, blank, rest = record.what.partition(" ")
    parts, (owner, dot, _) = wiring.job.parts, first.partition(".")
    if record.verb != "seen" or not blank or not dot:
        return []
    if owner.lower() not in {name.lower() for name in (*parts.plugs, *parts.looms, *parts.units)}:
        return []
    return [
        Doubt("seen", record.what, rest, f"Behind “{first}” stands “{rest}”, which is no part of its name.",
              f'Type: "seen: {first}" "colour: {rest}", or "shows: {rest}"')
    ]  # fmt: skip


def own_words(wiring: Wiring, record: Record) -> str:
    """What is said of something built that can't be held against the plan, or empty."""
    return ", ".join(uncompared(wiring, record)) if record.verb == "built" else ""


def _built(wiring: Wiring, record: Record) -> list[Doubt]:
    """A fate or function with a slip in it, or a contact that isn't there; words of one's own are let be."""
    whole = record.word("is")
    made = []
    for words in uncompared(wiring, record) if record.verb == "built" else ():
        message = f"“{words}” is no fate, no contact and no function of this job."
        last = words.split(" ")[-1]
        if record.joint:
            message = f"“{words}” can’t be said of a whole joint."
            do = "Say made or not made; what a wire is joined to is said of the wire: built: T1.car.FL"
        elif "." in last.strip("."):
            there = not uncompared(wiring, record._replace(said=(("is", last),)))
            do = f'Type: "is: {last}"' if there else nearest_names(wiring, last) or "Write it as the job file names it."
        elif (near := _slip(wiring, words)) and near.lower() == words.lower():
            message = f"“{words}” can’t be held against the plan at {record.what}."
            do = "Say what it is joined to (is: amp.in1), or say it of the joint by its name on the paper: built: J1"
        elif near:
            do = f'Is “{near}” meant? Type: "is: {near}"'
        else:
            continue
        made.append(Doubt("is", whole, words, message, do))
    return made


def _slip(wiring: Wiring, words: str) -> str:
    """The fate, or the function of the job, that words are most like, or empty."""
    if near := difflib.get_close_matches(words.lower(), FATE_WORDS, n=1, cutoff=_ALIKE):
        return near[0]
    functions = {f.base.lower(): f.base for each in wiring.job.contacts.values() if (f := each.function).base}
    near = difflib.get_close_matches(words.lower(), list(functions), n=1, cutoff=0.7) if " " not in words else []
    return functions[near[0]] if near else ""


def _replaced(wiring: Wiring, record: Record) -> list[Doubt]:
    """A record that stands for an older one must find it by what that was about."""
    named = record.word("replaces")
    older = {each.what.lower(): each.what for each in wiring.job.records}
    if not named or named.lower() in older:
        return []
    near = difflib.get_close_matches(named.lower(), list(older), n=1, cutoff=0.5)
    do = f'Is “{older[near[0]]}” meant? Type: "replaces: {older[near[0]]}"' if near else "Leave it out."
    return [Doubt("replaces", named, named, f"No record here is about “{named}”.", do)]


def about_a_speaker(record: Record) -> bool:
    """Whether a look for + was at a speaker itself and not at a plug."""
    return record.verb == "polarity" and record.what.lower().startswith("spk.")


def _leads(record: Record) -> list[Doubt]:
    """How a speaker's leads lie is one of two words: another one would be read as the second."""
    found = record.word("found")
    if not about_a_speaker(record) or not found or found.lower() in (TURNED, AS_MARKED):
        return []
    return [Doubt("found", found, found, f"“{found}” doesn't say how the leads of {record.what} lie.",
                  f'Type: "found: {TURNED}" or "found: {AS_MARKED}"; words of your own go behind note:')]  # fmt: skip


def _printed(wiring: Wiring, record: Record) -> list[Doubt]:
    """A run or a plug end by its printed name that the splice list doesn't have, or with words that tick no box."""
    if record.verb not in JOINT_VERBS or " " not in record.what:
        return []
    name = printed_name(wiring, record.what)
    if not name:
        known = ", ".join(rests_on(wiring)) or "none: this job has no runs and no plugs to mate"
        return [Doubt(record.verb, record.what, record.what, f"The splice list has no “{record.what}”.",
                      f"It has {known}.")]  # fmt: skip
    run = name.startswith("RUN ")
    key = "is" if run or not record.word("found") else "found"
    if run and record.verb == "checked":
        seen = f'; a look at it is: "seen: {name}" "shows: {found}"' if (found := record.word("found")) else ""
        return [Doubt("checked", record.what, record.what, "A run is ticked as laid.", f'Type: "built: {name}"{seen}')]
    words = wrong_words(record, name)
    do = "Type: is: laid, or is: not laid" if run else f"Type: {key}: seated, {key}: latched, or both"
    return [Doubt(key, record.word(key), words, f"“{words}” is no box of {name}.", f"{do}.")] if words else []


_READS_V = "what the meter showed, 12.6 V"


def needed(record: Record, said: Said) -> dict[str, str]:
    """The keys that a record lacks and can't do without, each with what is meant by it."""
    there = {key for key, _ in said}
    if record.verb == "volts" and not there & {"signal", "step"}:
        wanted = {"reads": _READS_V, "key": "out, accessory, run, crank, engine or locked"}
    elif record.verb == "volts":
        wanted = {"reads": _READS_V}
    elif record.verb == "ohm" and "body" not in there:
        wanted = {"reads": "what the meter showed, 3.5 ohm or open", **_NEEDED.get("ohm", {})}
    else:
        wanted = (
            _NEEDED_OF_SPEAKER
            if about_a_speaker(record)
            else _NEEDED.get(record.verb) or _NEEDED.get(record.named) or {}
        )
    return {key: meant for key, meant in wanted.items() if key not in there}


def _missing(record: Record, said: Said) -> list[Doubt]:
    missing = needed(record, said)
    if not missing:
        return []
    words = " ".join(f'"{key}: …"' for key in missing)
    meant = "; ".join(f"{key}: {words}" for key, words in missing.items())
    return [Doubt("", "", "", f"Missing with “{record.verb}: {record.what}”: {', '.join(missing)}.",
                  f"Add {words} ({meant}).")]  # fmt: skip
