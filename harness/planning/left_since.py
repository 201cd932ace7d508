"""What a handover left to do, and which of it was recorded as done since."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from harness.graph.answers import answers
from harness.graph.contrary import contrary
from harness.graph.joints_made import joints_made
from harness.graph.pairs import pairs_of, used_pairs
from harness.graph.proven import tried, worked
from harness.graph.ticked import LATCHED, SEATED, rests_on, ticked
from harness.graph.toned import on_car_side
from harness.graph.wiring import Wiring
from harness.model.evidence import PROVES_NOTHING, Record
from harness.model.function import bases_in, read_function

_TONE = frozenset(("tone", "tones", "toned", "toning"))
_TUG = frozenset(("tug", "tugged", "check", "checked", "look", "hold", "holds"))
_SIDES, _ENDS = {"left": "L", "right": "R"}, {"front": "F", "rear": "R"}


class LeftItem(NamedTuple):
    """One thing left to do in the words of the handover, and the records that it was done by; none while it is left."""

    words: str
    done: tuple[Record, ...]

    @property
    def signed(self) -> str:
        """`RK 2026-03-03`, of each that did some of it."""
        return ", ".join(dict.fromkeys(each.signed for each in self.done if each.signed))


def left_since(wiring: Wiring, paused: Record) -> tuple[LeftItem, ...]:
    """The things left, in their order. One is done when all that it names (joints, runs, plug ends, outputs, functions,
    contacts, or channels to tone) is recorded as done since, and as it should be; what names nothing of the job stays
    left.
    """
    things = _Things(wiring, paused)
    made = []
    for part in re.split(r"[;,]", paused.word("left")):
        halves = [each.strip() for each in re.split(r"\band\b", part)]
        together = len(halves) == 1 or not all(things.named(each) for each in halves)
        made += [part.strip()] if together else halves
    return tuple(LeftItem(words, things.done(words)) for words in made if words)


class _Things:
    """What a handover's words may name, each with how to find the record that answers it."""

    def __init__(self, wiring: Wiring, paused: Record) -> None:
        self._wiring = wiring
        later = (each for each in wiring.job.records if each.place.line > paused.place.line)
        self._since = [each for each in later if not each.stale]
        self._places = {each.place for each in self._since}
        self._against = {each.record.place for each in contrary(wiring)}
        plugs = (plug.name for plug in wiring.job.parts.plugs.values() if not plug.inline)
        self._charted = frozenset(plus.function.base for name in plugs for plus, _ in pairs_of(wiring, name))
        drivers = {each.name.lower(): each.name for each in wiring.signals.drivers}
        self._kinds: tuple[tuple[str, dict[str, str]], ...] = (
            ("joint", {name.lower(): name for name in wiring.joints}),
            ("box", {name.lower(): name for name in rests_on(wiring)}),
            ("output", {**drivers, **{low.replace(".", " "): name for low, name in drivers.items()}}),
            ("function", {each.name.lower(): each.name for each in tried(wiring)}),
        )

    def named(self, words: str) -> tuple[tuple[str, str], ...]:
        """The things that some words name, by kind and name."""
        text = " ".join(words.lower().split())
        found = [(kind, name) for kind, names in self._kinds for low, name in names.items() if _holds(text, low)]
        outputs = {name.lower() for kind, name in found if kind == "output"}
        dotted = (word for word in text.split() if re.fullmatch(r"\w[\w-]*\.[\w./+-]+", word))
        found += [("contact", word) for word in dotted if word not in outputs]
        if not _TONE.isdisjoint(re.findall(r"\w+", text)):
            found += [("tone", base) for base in _channels(words, self._charted)]
        return tuple(dict.fromkeys(found))

    def done(self, words: str) -> tuple[Record, ...]:
        """The records that say all of it was done; empty where one of the things isn't, or nothing is named."""
        named = self.named(words)
        tugged = not _TUG.isdisjoint(re.findall(r"\w+", words.lower()))
        found = [self._answer(kind, name, tugged) for kind, name in named]
        return tuple(record for each in found for record in each) if named and all(found) else ()

    def _answer(self, kind: str, name: str, tugged: bool) -> tuple[Record, ...]:
        wiring = self._wiring
        if kind == "joint":
            made = joints_made(wiring).get(name)
            if made is None or (made.looked is not None and not made.holds) or not (made.made or made.holds):
                return ()
            return self._new((made.looked,) if tugged else (made.built or made.looked,))
        if kind == "box":
            boxes = ("laid",) if name.startswith("RUN ") else (SEATED, LATCHED)
            seen = [ticked(wiring).get((name, box)) for box in boxes]
            return self._new(each.record if each is not None and each.yes else None for each in seen)
        if kind == "output":
            return self._new(each.record for each in answers(wiring) if each.driver.name == name and each.as_planned)
        if kind == "function":
            return self._new(each.after for each in tried(wiring) if each.name == name and worked(each.after))
        if kind == "tone":
            return self._toned(name)
        said = [each for each in self._since if each.what.lower() == name]
        good = said and said[-1].place not in self._against and said[-1].word("result") not in PROVES_NOTHING
        return (said[-1],) if good else ()

    def _toned(self, base: str) -> tuple[Record, ...]:
        """The tones of all pairs of a channel, as charted."""
        wiring = self._wiring
        used = {pair.name: pair for pair in used_pairs(wiring)}
        tones = {on_car_side(each.contacts): each for each in self._since if each.verb == "tone"}
        found: list[Record | None] = []
        for plug in wiring.job.parts.plugs.values():
            for plus, minus in () if plug.inline else pairs_of(wiring, plug.name):
                if plus.function.base != base:
                    continue
                ends = frozenset(f"{plug.name}.car.{row.cavity}" for row in (plus, minus))
                pair = used.get(f"{plug.name}.{plus.cavity}/{minus.cavity}")
                last = [
                    each for each in tones.values()
                    if {name.replace(".unit.", ".car.", 1) for name in each.contacts} == ends
                ][-1:]  # fmt: skip
                right = (
                    pair.state == "toned"
                    if pair is not None
                    else bool(last) and base in bases_in(last[0].word("heard"))
                )
                found.append(last[0] if last and right else None)
        return self._new(found)

    def _new(self, records: Iterable[Record | None]) -> tuple[Record, ...]:
        """The records where all of them are there and were written since."""
        made = tuple(records)
        there = tuple(each for each in made if each is not None and each.place in self._places)
        return tuple(dict.fromkeys(there)) if len(there) == len(made) else ()


def _holds(text: str, name: str) -> bool:
    return re.search(rf"(?<![\w.]){re.escape(name)}(?![\w.]|/)", text) is not None


def _channels(words: str, charted: frozenset[str]) -> list[str]:
    """`FL`, `RR`; `left rear` for one, `rear` for those of both that are charted."""
    low = re.findall(r"\w+", words.lower())
    sides = [_SIDES[word] for word in low if word in _SIDES]
    made = []
    for end in (_ENDS[word] for word in low if word in _ENDS):
        both = [end + side for side in sides or _SIDES.values()]
        made += both if sides else [base for base in both if base in charted] or both
    for word in re.findall(r"[A-Z][A-Z-]*", words):
        function = read_function(word)
        if function is not None and function.kind == "audio":
            made.append(function.base)
    return made
