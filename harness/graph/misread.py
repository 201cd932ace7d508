"""Plugs whose chart the tones speak against, and in which way it is wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from harness.graph.drivers import is_silence, named, played, plays_it
from harness.graph.fell_silent import fell_silent
from harness.graph.kept import kept
from harness.graph.pairs import pairs_of, plus_found, speaker_turned, speakers_on
from harness.graph.plus_side import OtherPlus, other_plus
from harness.graph.rows import plain_cavity
from harness.graph.toned import Told, on_car_side, told
from harness.graph.wiring import Wiring
from harness.model.function import Function, bases_in, read_function
from harness.model.job import Tone as Record
from harness.model.parts import Plug, Row
from harness.patterns import patterns
from harness.patterns.chart import Chart, Pair, Tone
from harness.patterns.face import Face
from harness.patterns.judging import NAMED, NONE, Verdict, judge

NO_PATTERN, UNDECIDED = "A08", "A25"
PLUS_ALONE = "+ and − exchanged"
# the code of each pattern; one that isn't here is told as undecided, with its name
CODES = {
    "mirrored": "A02", "rows exchanged": "A03", "shifted": "A04", "wrong partner": "A12", "half turn": "A20",
    "left for right": "A21", "front for rear": "A22", "pairs exchanged": "A23", PLUS_ALONE: "A24",
}  # fmt: skip
_NEVER = ("restraint", "high voltage")
_MAY_BE_TONED = ("audio", "port", "empty", "unknown")


class Misread(NamedTuple):
    """A plug, its chart as the patterns know it, what the tones say of it, and the code that tells it.

    `records` are the toning records that speak against the chart, in the order of the evidence; `toned` is how many
    pairs of cavities were toned. `radio_unread`: nothing but a + on the other wire speaks against it, and nobody looked
    at the radio's side, so that the speakers may be turned as well.
    """

    plug: Plug
    chart: Chart
    verdict: Verdict
    code: str
    records: tuple[Record, ...]
    toned: int
    radio_unread: bool


class Unheard(NamedTuple):
    """A tone that says nothing of the chart, and why."""

    record: Record
    why: str


@kept
def misread(wiring: Wiring) -> list[Misread]:
    """Every plug whose chart the tones speak against, in the order of the job."""
    by_plug = _records(wiring)
    made = []
    for plug in wiring.job.parts.plugs.values():
        if plug.name in by_plug and not plug.inline:
            records = by_plug[plug.name]
            chart = chart_of(wiring, plug)
            names, name = [pair.name for pair in chart.pairs], naming(plug)
            turned, otherwise = _turned(wiring, plug), [each for each in other_plus(wiring) if each.plug == plug.name]
            behind = {_cavities_of(each, name) for each in otherwise if each.radio and not each.chart_wrong}
            unread = {_cavities_of(each, name) for each in otherwise if not each.radio}
            heard = [
                (_without_plus(_as_charted(tone, turned), behind), record)
                for record in records
                if not _says_nothing(wiring, plug, record)
                if (tone := _tone(record, names, name)) is not None
            ]
            verdict = judge(chart, [tone for tone, _ in heard])
            if verdict is not None and _by_plus_alone(verdict):  # or the speakers are turned: nobody knows yet
                heard = [(_without_plus(tone, unread), record) for tone, record in heard]
                verdict = judge(chart, [tone for tone, _ in heard])
            if verdict is not None:
                of_tone = dict(heard)
                against = tuple(of_tone[tone] for tone in verdict.against)
                count = len({tone.cavities for tone, _ in heard})
                plus_only = bool(unread) and all(tone.cavities in unread for tone in verdict.against)
                made.append(Misread(plug, chart, verdict, _code(plug, verdict), against, count, plus_only))
    return made


def _turned(wiring: Wiring, plug: Plug) -> frozenset[str]:
    """The channels whose speakers are turned in the car as found: their + is found on the wire charted −."""
    pairs = pairs_of(wiring, plug.name)
    return frozenset(
        plus.function.base for plus, _ in pairs if speaker_turned(wiring, f"{plug.name}.car.{plus.cavity}")
    )


def _as_charted(tone: Tone, turned: frozenset[str]) -> Tone:
    """A tone as it would be were no speaker turned: a chart says where the radio's + goes."""
    if not tone.plus or turned.isdisjoint(tone.heard):
        return tone
    return tone._replace(plus=tone.b if tone.plus == tone.a else tone.a)


def _by_plus_alone(verdict: Verdict) -> bool:
    """Whether pairs that answer at their places with + on the other wire are all that speaks against the chart."""
    return all(left.first.reading.pattern == PLUS_ALONE for left in verdict.left) and bool(verdict.left)


def _cavities_of(each: OtherPlus, name: Naming) -> frozenset[str]:
    return frozenset((name(each.plus.cavity), name(each.minus.cavity)))


def _without_plus(tone: Tone, pairs: set[frozenset[str]]) -> Tone:
    return tone._replace(plus="") if tone.cavities in pairs else tone


def told_as(wiring: Wiring, code: str) -> list[Misread]:
    """Those that one code tells."""
    return [each for each in misread(wiring) if each.code == code]


def unheard(wiring: Wiring) -> Iterator[Unheard]:
    """Tones at charted plugs whose record doesn't say which speaker answered, or says it in a word that is none."""
    for plug_name, records in _records(wiring).items():
        plug = wiring.job.parts.plugs[plug_name]
        for record in () if plug.inline else records:
            said = named(wiring.job.parts.speakers, record.heard)
            if _tone(record, (), naming(plug)) is None:
                why = f"“{record.heard}” is no channel" if record.heard else "its record has no `heard`"
                yield Unheard(record, why)
            elif _says_nothing(wiring, plug, record):
                if why := _why_nothing(wiring, plug, record):
                    yield Unheard(record, why)
            elif said.elsewhere:
                where = f"“{said.elsewhere[0]}” answered too, a place that isn't in the job"
                yield Unheard(record, f"{where}: find what it is before anything is joined here")
            elif odd := [word for word in said.odd if read_function(word) is None]:
                yield Unheard(record, f"“{' '.join(odd)}” beside it is no channel: what else answered isn't known")
            if bases_in(record.heard) and record.plus and not _plus(record, naming(plug)):
                yield Unheard(
                    record, f"its `plus` is {record.plus}, which is neither of the two: + counts as not found"
                )


class ByColour(NamedTuple):
    """A cavity whose wire has another colour by one reading than by another, with both colours in words."""

    cavity: str
    carried: str
    stayed: str


def by_colour(plug: Plug, verdict: Verdict) -> ByColour | None:
    """What parts two patterns that have every channel at the same cavities: in one the rows, colours and all, were put
    at the wrong cavities, in the other only the channels. None where there are no such two, or no colours.
    """
    readings = [each.reading for each in verdict.left[0].corrections] if verdict.kind == NAMED else []
    carried = next((each for each in readings if each.carried), None)
    if carried is None or all(each.carried for each in readings):
        return None
    name = naming(plug)
    colours = {name(row.cavity): row.colour.words for row in plug.rows if row.colour is not None}
    after = {carried.moves.get(cavity, cavity): words for cavity, words in colours.items()}
    for cavity, words in colours.items():
        if after.get(cavity, words) != words:
            return ByColour(cavity, after[cavity], words)
    return None


def _code(plug: Plug, verdict: Verdict) -> str:
    if verdict.kind == NONE:
        return NO_PATTERN
    if verdict.kind != NAMED:
        return UNDECIDED
    if by_colour(plug, verdict) is not None:
        return UNDECIDED
    return CODES.get(verdict.left[0].first.reading.pattern, UNDECIDED)


def pattern_words(name: str) -> str:
    """`it is read from the other side`."""
    return next(each.words for each in patterns() if each.name == name)


def pattern_look(name: str) -> str:
    """What to look at on the page or the plug."""
    return next(each.look for each in patterns() if each.name == name)


Naming = Callable[[str], str]


def naming(plug: Plug) -> Naming:
    """A cavity's one name for all its spellings: as on the face, else as in the chart (`01` is `1`, `a5` is `A5`)."""
    drawn = (each for line in plug.face.drawn for each in line if each) if plug.face else ()
    names: dict[str, str] = {}
    for cavity in (*drawn, *plug.cavities):
        names.setdefault(plain_cavity(cavity), cavity)
    return lambda cavity: names.get(plain_cavity(cavity), cavity)


# -- from the job -----------------------------------------------------------------------------------------


def _records(wiring: Wiring) -> dict[str, list[Record]]:
    """The toning records of each plug, in the order of the evidence, with the + that was found last for their pair.
    Silence at a pair that answered as charted before says nothing of the chart.
    """
    made: dict[str, list[Record]] = {}
    job, found = wiring.job, plus_found(wiring)
    since = {frozenset(each.contacts) for each in fell_silent(wiring)}
    for record in sorted((*job.tones, *job.off_chart), key=lambda each: each.place):
        plugs = {name.split(".")[0] for name in record.contacts}
        contacts = on_car_side(record.contacts)
        if contacts in since and is_silence(record.heard):
            continue
        if len(plugs) == 1 and plugs <= job.parts.plugs.keys():
            looked = found.get(contacts)
            made.setdefault(plugs.pop(), []).append(record if looked is None else record._replace(plus=looked.plus))
    return made


def _tone(record: Record, charted: Sequence[str], name: Naming) -> Tone | None:
    """What a record says; None where it doesn't say what was heard. `charted` are the channels of the plug's pairs."""
    functions = [function for base in bases_in(record.heard) if (function := read_function(base)) is not None]
    heard = frozenset(
        base
        for each in functions
        if each.kind == "audio"
        for base in (each.base, *_of_channel(each, charted, record.signal))
    )
    if not heard and not is_silence(record.heard):
        return None
    return Tone(*_cavities(record, name), heard, _plus(record, name))


def _says_nothing(wiring: Wiring, plug: Plug, record: Record) -> bool:
    """Whether nothing answered a tone that nothing must answer: on a charted pair by its own speakers, at other
    cavities of the plug by those of any of its pairs. Nor does it where another tone found a driver of that pair.
    """
    span = played(record.signal)
    if span is None or not is_silence(record.heard):
        return False
    tones = _told_there(wiring, plug, record)
    if tones is not None:
        return bool(tones.heard) or any(tone.place == record.place for tone in tones.idle)
    return not all(plays_it(plus.function, span) for plus, _ in pairs_of(wiring, plug.name))


def _why_nothing(wiring: Wiring, plug: Plug, record: Record) -> str:
    """Why the silence at a tone says nothing of the chart. Empty where the same tone was played anew since."""
    tones = _told_there(wiring, plug, record)
    if tones is None or any(tone.place == record.place for tone in tones.idle):
        return f"nothing at this plug must answer {record.signal}, so silence says nothing"
    if all(tone.place != record.place for tone in tones.counted):
        return ""
    return f"{' and '.join(tones.heard)} answered there by another tone: silence is of a driver, not of the row"


def _told_there(wiring: Wiring, plug: Plug, record: Record) -> Told | None:
    """What the tones of the charted pair say that a record is about. None at two cavities that are no pair."""
    at = on_car_side(record.contacts)
    for plus, minus in pairs_of(wiring, plug.name):
        if at == {f"{plug.name}.car.{plus.cavity}", f"{plug.name}.car.{minus.cavity}"}:
            return told(wiring, plug, plus, minus)
    return None


def _cavities(record: Record, name: Naming) -> tuple[str, str]:
    a, b = (name(contact.rsplit(".", 1)[1]) for contact in record.contacts)
    return a, b


def _plus(record: Record, name: Naming) -> str:
    """The cavity found to be +; empty where none was, or one that wasn't toned."""
    plus = name(record.plus) if record.plus else ""
    return plus if plus in _cavities(record, name) else ""


def _of_channel(heard: Function, charted: Sequence[str], signal: str) -> list[str]:
    """The pairs that may be meant where the chart has none of that name: `FL` for a tweeter of it, or its drivers; of
    these the ones that the tone moves.
    """
    if heard.base in charted:
        return []
    if heard.driver:
        return [heard.channel] if heard.channel in charted else []
    drivers = [name for name in charted if name.partition("-")[0] == heard.channel]
    span = played(signal)
    moved = [name for name in drivers if (function := read_function(name)) and plays_it(function, span)]
    return moved or drivers


def chart_of(wiring: Wiring, plug: Plug) -> Chart:
    """A plug's chart, its cavities named as on its face."""
    name = naming(plug)
    face = Face(
        tuple(tuple(name(each) if each else None for each in line) for line in plug.face.drawn) if plug.face else ()
    )
    pairs = tuple(
        _pair(wiring, plug, plus, minus) for plus, minus in pairs_of(wiring, plug.name) if plus.function.kind == "audio"
    )
    paired = {cavity for pair in pairs for cavity in (pair.plus, pair.minus)}
    held: dict[str, str] = {}
    off, never = set(), set()
    carries = bool(plug.carries)
    for row in plug.rows:
        cavity, kind = name(row.cavity), row.function.kind
        if carries or kind in _NEVER:
            never.add(cavity)
        if carries or kind not in _MAY_BE_TONED:
            off.add(cavity)
        if cavity not in paired:
            held.setdefault(cavity, row.function.name)
    return Chart(face, pairs, held, frozenset(off), frozenset(never))


def _pair(wiring: Wiring, plug: Plug, plus: Row, minus: Row) -> Pair:
    answers = _answers(wiring, plug, plus.cavity)
    name = naming(plug)
    return Pair(plus.function.base, name(plus.cavity), name(minus.cavity), answers)


def _answers(wiring: Wiring, plug: Plug, cavity: str) -> frozenset[str]:
    """The speakers on a pair as the job has the car's wiring: by their channel, or their name where that is none."""
    names = speakers_on(wiring, f"{plug.name}.car.{cavity}")
    functions = ((name, wiring.job.parts.speakers[name].function) for name in names)
    return frozenset(function.base if function.kind == "audio" else name for name, function in functions)
