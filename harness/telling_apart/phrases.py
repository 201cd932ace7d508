"""Tests, answers and maps in words."""

from __future__ import annotations

import os
from collections.abc import Sequence

from harness.model.colour import colour_word
from harness.model.contact import printed
from harness.model.function import CHANNEL_WORDS, DRIVER_WORDS
from harness.model.parts import Row
from harness.patterns.ohms import MOST_OHM
from harness.telling_apart.session import Observation
from harness.telling_apart.tests import (
    BODY,
    CAVITY,
    EMPTY,
    FILLED,
    GROUND,
    HOUSING,
    KEYING,
    LEAST_OHM,
    LOOKS,
    NONE,
    OHM,
    OPEN,
    OTHER,
    PLUS,
    SHORT,
    SPEAKER,
    TONE,
    WAYS,
    Facts,
    Says,
    Test,
)

_OFF = "Key out, the plug off its unit"
CAUTION_METER = "Read volts to the body first; where it reads more than 0.1 V, or jumps, no ohms are read"
CAUTION_TONE = "Read volts first, begin with the softest tone, and into nothing but this pair of the car side"
_FIXED = {
    SPEAKER: f"{LEAST_OHM:g} to {MOST_OHM:g} ohm: a speaker (one of 4 ohm reads about 3 to 5)",
    OPEN: f"open, or more than {MOST_OHM:g} ohm",
    SHORT: f"less than {LEAST_OHM:g} ohm",
}


class Names:
    """Short names of maps: the file's name where one file only has it, and the plug's where a file has several."""

    def __init__(self, maps: Sequence[Facts]) -> None:
        paths = list(dict.fromkeys(each.map.file for each in maps))
        short = [os.path.basename(path) for path in paths]
        self._file = {path: name if short.count(name) == 1 else path for path, name in zip(paths, short, strict=True)}
        counted = [each.map.file for each in maps]
        self._several = {path for path in paths if counted.count(path) > 1}

    def of(self, facts: Facts) -> str:
        """`alder-base.yaml, plug sound`."""
        file = self._file[facts.map.file]
        return f"{file}, plug {facts.map.plug.name}" if facts.map.file in self._several else file

    def all(self, maps: Sequence[Facts]) -> str:
        made = [self.of(each) for each in maps]
        return " and ".join(made) if len(made) < 3 else f"{'; '.join(made[:-1])}; and {made[-1]}"


def short(test: Test) -> str:
    """A test in a list: `cavity 7`, `ohms 1/11`."""
    word = {OHM: "ohms", BODY: "ohms to the body", PLUS: "which is +,", WAYS: "number of cavities"}
    return f"{word.get(test.kind, test.kind)} {_shown(test)}".strip()


def ask(test: Test, maps: Sequence[Facts]) -> str:
    """What to do or look at, as a question."""
    kind = test.kind
    if kind == HOUSING:
        return "Which housing is it?"
    if kind == WAYS:
        return "How many cavities has the plug, empty ones too?"
    if kind == KEYING:
        return "How is it keyed?"
    if kind == CAVITY:
        return f"Which wire is in cavity {_shown(test)}{_spot(test, maps)}?"
    if kind == BODY:
        return f"{_OFF}: ohms from cavity {_shown(test)} of the car side to bare metal of the body?"
    if kind == OHM:
        return f"{_OFF}: ohms between cavities {_both(test)} of the car side?"
    if kind == TONE:
        return f"{_OFF}: a soft tone into cavities {_both(test)} of the car side. Which speaker answers?"
    return f"{_OFF}: the pulse into cavities {_both(test)} of the car side. Which one is +, the cone first coming out?"


def caution(test: Test) -> str:
    """What to mind in a test, or empty."""
    if test.kind in LOOKS:
        return ""
    return CAUTION_METER if test.kind in (OHM, BODY) else CAUTION_TONE


def answer_words(test: Test, answer: str, maps: Sequence[Facts] = ()) -> str:
    """An answer in words."""
    if answer == OTHER:
        return {
            CAVITY: "another wire", TONE: "another speaker", WAYS: "another number",
        }.get(test.kind, "none of these")  # fmt: skip
    if test.kind == CAVITY:
        return {EMPTY: "empty", FILLED: "a wire is in it"}.get(answer) or colour_words(answer)
    if test.kind in (OHM, BODY):
        if answer == GROUND:
            return f"less than {LEAST_OHM:g} ohm: ground"
        return f"open, or {LEAST_OHM:g} ohm and more" if test.kind == BODY else _FIXED[answer]
    if test.kind == TONE:
        return "nothing answers" if answer == NONE else speaker_words(answer)
    if test.kind == PLUS:
        return f"cavity {answer}"
    return _as_written(test, answer, maps)


def colour_words(short_: str) -> str:
    """`white with black stripe (WH/BK)`."""
    base, _, stripe = short_.partition("/")
    words = colour_word(base) + (f" with {colour_word(stripe)} stripe" if stripe else "")
    return f"{words} ({short_})"


def speaker_words(name: str) -> str:
    """`left front tweeter (FL-TW)`."""
    channel, _, driver = name.partition("-")
    words = " ".join(filter(None, (CHANNEL_WORDS.get(channel, ""), DRIVER_WORDS.get(driver, ""))))
    return f"{words} ({name})" if words else name


def says_words(test: Test, says: Says, maps: Sequence[Facts] = ()) -> str:
    """What a map says to a test."""
    if says.silent:
        return "nothing"
    if says.filled:
        return f"a wire ({printed(says.rows[0].function.name)}), colour not written"
    if test.kind == CAVITY and not says.rows:
        return f"no cavity {_shown(test)}"  # its face was drawn without one
    shown = sorted(says.answers, key=lambda each: (len(each), each))
    if test.kind == TONE:
        return answer_words(test, shown[0] if len(shown) != 2 else shown[1])
    return " or ".join(answer_words(test, each, maps) for each in shown)


def strike(seen: Observation, facts: Facts) -> str:
    """Why an observation strikes a map: what was seen, what it says, and on which line."""
    says = facts.says(seen.test)
    line = says.rows[0].place.line if says.rows else facts.map.plug.place.line
    rows = ""
    if seen.test.b:
        rows = f" ({', '.join(row_words(row) for row in says.rows)})"
    said = says_words(seen.test, says, (facts,))
    return f"{short(seen.test)}: {seen_words(seen)}; the map has {said}{rows} (line {line})"


def seen_words(seen: Observation) -> str:
    """What was observed, as typed where that says more than the answer."""
    typed = seen.words.partition(":")[2].strip()
    if seen.test.kind in (OHM, BODY) and typed:
        return f"reads {typed}"
    if seen.test.kind in (HOUSING, KEYING) and typed:
        return typed
    return answer_words(seen.test, seen.answer)


def row_words(row: Row) -> str:
    """`7 FL + white (WH)`, as the map has it."""
    colour = f" {row.colour.words}" if row.colour else ""
    return f"{row.cavity} {printed(row.function.name)}{colour}"


def differences(maps: Sequence[Facts]) -> list[str]:
    """Cavities that maps name differently: what is left where nothing tells them apart."""
    names = Names(maps)
    made = []
    for cavity in dict.fromkeys(key for each in maps for key in each.rows):
        said = {}
        for each in maps:
            row = each.rows.get(cavity)
            said[names.of(each)] = row_words(row).partition(" ")[2] if row else "not written"
        if len(set(said.values())) > 1:
            made.append(f"cavity {cavity}: " + "; ".join(f"{words} in {name}" for name, words in said.items()))
    return made


def as_argument_words(seen: Observation) -> str:
    """The observation as it is typed after `ringout which`."""
    if seen.words:
        return seen.words
    head = f"{seen.test.kind} {seen.test.where}".strip()
    value = {SPEAKER: "4 ohm", SHORT: "0.2 ohm", GROUND: "0.2 ohm"}.get(seen.answer, seen.answer)
    return f"{head}: {value}"


def minutes(seconds: float) -> str:
    """`2.3 min`."""
    return f"{seconds / 60:.1f} min"


def _as_written(test: Test, answer: str, maps: Sequence[Facts]) -> str:
    """Housing and keying as the map spells them."""
    for each in maps:
        plug = each.map.plug
        text = plug.housing if test.kind == HOUSING else plug.face.keying if plug.face and test.kind == KEYING else ""
        if " ".join(text.lower().split()) == answer:
            return " ".join(text.split())
    return answer


def _shown(test: Test) -> str:
    return test.where.upper()


def _both(test: Test) -> str:
    return f"{test.a.upper()} and {test.b.upper()}"


def _spot(test: Test, maps: Sequence[Facts]) -> str:
    """Where the cavity lies, by the faces that are drawn; where they differ, that the moulded number counts."""
    spots = dict.fromkeys(filter(None, (_place_of(test.a, each) for each in maps)))
    if not spots:
        return ""
    if len(spots) > 1:
        return " (the number moulded on the plug: the maps' faces are counted differently)"
    return f" ({next(iter(spots))})"


def _place_of(cavity: str, facts: Facts) -> str:
    face = facts.map.plug.face
    if face is None or face.view not in ("wire", "mating"):
        return ""
    for number, line in enumerate(face.drawn, 1):
        for at, each in enumerate(line, 1):
            if each is not None and each.lower() == cavity:
                across = at if face.view == "wire" else len(line) - at + 1
                turned = {"left": "right", "right": "left"} if face.view == "mating" else {}
                latch = turned.get(face.latch, face.latch)
                rows = f"row {number} of {len(face.drawn)}, " if len(face.drawn) > 1 else ""
                return f"{rows}number {across} from the left, wires toward you{f', latch {latch}' if latch else ''}"
    return ""
