"""What was heard: a speaker or unit, and what is wrong there."""

from __future__ import annotations

import difflib
import re
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.locate.faults import CROSSED, HISS, LOOSE, NOISY, OPEN, POOR, PROTECT_MODES, STUCK, TURNED, WEAK
from harness.model.function import CHANNEL_WORDS, DRIVER_WORDS, read_function

SILENT, REVERSED, WRONG, FAINT, NOISE, STAYS_ON, INTERMITTENT, PROTECTS = (
    "silent", "reversed", "wrong place", "weak", "noise", "stays on", "intermittent", "protects"
)  # fmt: skip
WORDS = (SILENT, REVERSED, WRONG, FAINT, NOISE, STAYS_ON, INTERMITTENT, PROTECTS)
MEANING = {
    SILENT: "plays nothing", REVERSED: "its cone moves the wrong way, thin bass", WRONG: "plays another channel",
    FAINT: "plays, but too low", NOISE: "hum, whine or crackle", STAYS_ON: "a unit that doesn’t go off",
    INTERMITTENT: "comes and goes", PROTECTS: "silent, and what drives it shows protect, or cuts out",
}  # fmt: skip
_SPELT = {
    "dead": SILENT, "no sound": SILENT, "polarity": REVERSED, "wrong": WRONG, "elsewhere": WRONG, "low": FAINT,
    "quiet": FAINT, "hum": NOISE, "whine": NOISE, "noisy": NOISE, "on": STAYS_ON, "stays-on": STAYS_ON,
    "wrong-place": WRONG, "cuts out": INTERMITTENT, "comes and goes": INTERMITTENT, "loose": INTERMITTENT,
    "protect": PROTECTS, "in protect": PROTECTS, "shorted": PROTECTS,
}  # fmt: skip

# The faults that show as a symptom.
MODES = {
    SILENT: (OPEN,), PROTECTS: PROTECT_MODES, REVERSED: (TURNED,), WRONG: (CROSSED,), FAINT: (WEAK, OPEN),
    NOISE: (POOR, NOISY, HISS), STAYS_ON: (STUCK,), INTERMITTENT: (LOOSE,),
}  # fmt: skip


class Symptom(NamedTuple):
    """A speaker's name, or for `stays on` a unit's, and one of WORDS."""

    subject: str
    word: str

    @property
    def words(self) -> str:
        return f"{self.subject} {self.word}"


class Unreadable(Exception):
    """A symptom or answer that can't be understood, in one line that says what would be."""


def read_since(text: str) -> str:
    """When a symptom was first there, as records say when they were taken. Raises Unreadable."""
    folded = " ".join(text.split())
    if folded and not re.fullmatch(
        r"[12]\d{3}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])( ([01]\d|2[0-3]):[0-5]\d)?", folded
    ):
        raise Unreadable(f'“{text}” is no day; write it as 2026-03-02 or "2026-03-02 14:30"')
    return folded


def speakers_of(wiring: Wiring) -> list[str]:
    """The speakers that the plan gives a signal, in the order of the job."""
    signals = wiring.signals
    return list(dict.fromkeys(each.speaker for each in signals.speaker_receivers if signals.ways(each, 1)))


def waking_units(wiring: Wiring) -> list[str]:
    """The units that a turn-on wakes, in the order of the job."""
    return [unit.name for unit in wiring.job.parts.units.values() if unit.wakes and unit.name not in wiring.gone]


def read_symptoms(wiring: Wiring, texts: list[str] | tuple[str, ...]) -> tuple[Symptom, ...]:
    """`FL silent`, `FL FR silent`, `amp silent` (all its speakers), `amp stays on`. Raises Unreadable."""
    made: dict[str, Symptom] = {}
    for text in texts:
        for subjects, word in _parted(wiring, text):
            for name in subjects:
                for subject in _subjects(wiring, name, word, text):
                    if subject in made and made[subject].word != word:
                        raise Unreadable(
                            f"{subject} can’t be {made[subject].word} and {word} at once; name what is worse"
                        )
                    made[subject] = Symptom(subject, word)
    if not made:
        raise Unreadable('no symptom was given; say one as --symptom "FL silent"')
    words = {each.word for each in made.values()}
    if STAYS_ON in words and len(words) > 1:
        raise Unreadable("a unit that stays on and what is heard are two searches; give them one at a time")
    if INTERMITTENT in words and len(words) > 1:
        raise Unreadable("what comes and goes is a search of its own; give the other symptoms another time")
    if PROTECTS in words and len(words) > 1:
        raise Unreadable("what protects is a search of its own; give the other symptoms another time")
    return tuple(made.values())


_KNOWN = {**{word: word for word in WORDS}, **_SPELT}
_SAID = re.compile(
    rf"(?<!\S)(?:{'|'.join(sorted(map(re.escape, _KNOWN), key=len, reverse=True))})(?!\S)".replace(r"\ ", " "),
    re.IGNORECASE,
)
_FILLERS = frozenset(("is", "are", "and", "speaker", "speakers"))
_THERE_ARE = f"there are: {', '.join(WORDS)}"


def _parted(wiring: Wiring, text: str) -> list[tuple[list[str], str]]:
    """The subjects and the symptom’s word of each part: `FL RL silent, RR weak` has two. Raises Unreadable."""
    folded = " ".join(text.replace(",", " ").split())
    said = [(found.start(), found.end(), _KNOWN[found[0].lower()]) for found in _SAID.finditer(folded)]
    if not said:
        raise Unreadable(_no_symptom(wiring, text, _named(folded)))
    parts: list[tuple[list[str], str]] = []
    behind = 0
    for start, end, word in said:
        subjects = _named(folded[behind:start])
        if subjects:
            parts.append((subjects, word))
        elif parts:
            names, before = " ".join(parts[-1][0]), parts[-1][1]
            worse = f"give the one that is worse, “{names} {before}” or “{names} {word}”"
            raise Unreadable(f"“{text}”: two symptoms, {before} and {word}, for {names}; {worse}; {_THERE_ARE}")
        behind = end
    rest = _named(folded[behind:])
    if not parts and len(said) == 1 and rest:  # `silent FL`
        return [(rest, said[0][2])]
    if not parts:
        raise Unreadable(f"“{text}”: which speaker? Say it as “FL {said[0][2]}”")
    if rest:
        names = " ".join(rest)
        raise Unreadable(
            f"“{text}”: what is wrong with {names}? Put the symptom behind, “{names} silent”; {_THERE_ARE}"
        )
    return parts


def _named(said: str) -> list[str]:
    return [word for word in _channels(said).split() if word.lower() not in _FILLERS]


def _no_symptom(wiring: Wiring, text: str, words: list[str]) -> str:
    """What of a text without a symptom was understood, and what wasn't."""
    known = {each.lower() for each in (*speakers_of(wiring), *wiring.job.parts.units)}
    names = [word for word in words if word.lower() in known]
    odd = [word for word in words if word.lower() not in known]
    if names and odd:
        return f"“{text}”: {' '.join(names)} is understood, “{' '.join(odd)}” is no symptom; {_THERE_ARE}"
    if names:
        return f"“{text}”: {' '.join(names)} is understood, but not what is wrong there; {_THERE_ARE}"
    return f"“{text}” names no symptom; {_THERE_ARE}"


def _channels(said: str) -> str:
    """Places in words as channels: `left rear` and `rear left` as RL, `left front tweeter` as FL-TW."""
    for channel, words in CHANNEL_WORDS.items():
        first, _, second = words.partition(" ")
        spelt = f"{first}[ -]{second}|{second}[ -]{first}" if second else words
        drivers = "|".join(DRIVER_WORDS.values())
        by_word = {word: short for short, word in DRIVER_WORDS.items()}
        said = re.sub(
            rf"(?<!\S)(?:{spelt})(?: ({drivers}))?(?!\S)",
            lambda found, channel=channel, by_word=by_word: (  # type: ignore[misc]
                channel + (f"-{by_word[found[1].lower()]}" if found[1] else "")
            ),
            " ".join(said.split()),
            flags=re.IGNORECASE,
        )
    return said


def _subjects(wiring: Wiring, name: str, word: str, text: str) -> list[str]:
    speakers = speakers_of(wiring)
    units = [unit.name for unit in wiring.job.parts.units.values() if unit.name not in wiring.gone]
    by_fold = {each.lower(): each for each in units}
    if word == STAYS_ON:
        if name.lower() in by_fold:
            unit = by_fold[name.lower()]
            if unit not in waking_units(wiring):
                raise Unreadable(f"“{text}”: the job doesn’t say what wakes {unit} (`wakes:`), so nothing can be told")
            return [unit]
        raise Unreadable(
            f"“{text}”: {name} is no unit of the job; there are: {', '.join(waking_units(wiring)) or 'none'}"
        )
    spoken = {each.lower(): each for each in speakers}
    folded = name.lower().removeprefix("spk.")
    if folded in spoken:
        return [spoken[folded]]
    function = read_function(name)
    if function is not None and function.name.lower() in spoken:
        return [spoken[function.name.lower()]]
    if function is not None and function.channel and not function.driver and folded not in by_fold:
        known = wiring.job.parts.speakers  # `FL` of a door with FL-WF and FL-TW: all that its channel plays
        if drivers := [each for each in speakers if known[each].function.channel == function.channel]:
            return drivers
    if folded in by_fold:
        found = [each for each in speakers if _passes(wiring, each, by_fold[folded])]
        if word == PROTECTS:  # those that it drives itself: what it hands on may play or not
            found = [each for each in found if _passes(wiring, each, by_fold[folded], last=True)] or found
        if found:
            return found
        raise Unreadable(f"“{text}”: no speaker of the plan plays through {by_fold[folded]}")
    if folded in {each.lower() for each in wiring.job.parts.speakers}:
        raise Unreadable(f"“{text}”: the plan gives {name} no signal at all; ringout check says why")
    alike = difflib.get_close_matches(folded, [*spoken, *by_fold], n=1)
    hint = f"did you mean {spoken.get(alike[0]) or by_fold[alike[0]]}? " if alike else ""
    raise Unreadable(
        f"“{text}”: there is no speaker {name}; {hint}there are: {', '.join(speakers) or 'none with a signal'}"
    )


def _passes(wiring: Wiring, speaker: str, unit: str, *, last: bool = False) -> bool:
    """Whether a speaker plays through a unit; with `last` whether that one drives it."""
    return any(
        hop.feed.driver.port.unit == unit
        for receiver in wiring.signals.speaker_receivers
        if receiver.speaker == speaker
        for way in wiring.signals.ways(receiver)
        for hop in (way.hops if not last else [each for each in way.hops if each.feed.receiver.speaker])
    )
