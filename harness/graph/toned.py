"""What the tones of a pair say: of its chart, and of each driver behind it by the tone that was on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from harness.graph.answering import branches_between, halves_apart, lacked_by_name
from harness.graph.drivers import Named, is_tweeter, must_answer, named, played, takes_over, tone_for
from harness.graph.kept import kept
from harness.graph.parted import wires_of
from harness.graph.wiring import Wiring
from harness.model.evidence import ELSEWHERE, NOTHING
from harness.model.function import bases_in, read_function, words_in
from harness.model.job import Tone
from harness.model.parts import Plug, Row

# How a tone goes with the chart of its pair: as charted, or what it says otherwise.
AS_CHARTED, OTHER, SILENT, WORDS, STRANGER, UNSAID = "", "other", "silent", "words", "stranger", "unsaid"


class Unheard(NamedTuple):
    """A driver of a pair that no tone has proved: what to play for it, and the tone that it must have answered."""

    speaker: str
    play: str
    silent: str = ""

    @property
    def words(self) -> str:
        """`FL-TW not heard: play 8.5 to 9.5 kHz`."""
        if self.silent:
            return f"{self.speaker} silent at {self.silent}, which it must play"
        return f"{self.speaker} not heard: play {self.play}"


class Told(NamedTuple):
    """All tones of a pair. `tone` is the one that the chart is held against, `kind` how it goes with it.

    `toned`: the tones confirm the channel, and every driver that the plan uses was heard. `counted` are the tones that
    still count, each of its part of the range; `idle` those that nothing on the pair must answer, so that their silence
    says nothing. `blind` are tweeters taken as heard with the rest by a tone that isn't written.
    """

    tone: Tone | None = None
    kind: str = AS_CHARTED
    toned: bool = False
    heard: tuple[str, ...] = ()
    unheard: tuple[Unheard, ...] = ()
    counted: tuple[Tone, ...] = ()
    idle: tuple[Tone, ...] = ()
    blind: tuple[str, ...] = ()

    @property
    def answered(self) -> bool:
        """Whether its own speakers answered, or nobody toned it."""
        return self.kind in (AS_CHARTED, STRANGER)


def on_car_side(contacts: tuple[str, ...]) -> frozenset[str]:
    """The contacts of a pair as the car half of their plug has them."""
    return frozenset(name.replace(".unit.", ".car.", 1) for name in contacts)


@kept
def tones_of(wiring: Wiring) -> dict[frozenset[str], tuple[Tone, ...]]:
    """The tones of each two contacts on the car side, in the order taken."""
    made: dict[frozenset[str], tuple[Tone, ...]] = {}
    for tone in wiring.job.tones:
        key = on_car_side(tone.contacts)
        made[key] = (*made.get(key, ()), tone)
    return made


@kept
def _told(_: Wiring) -> dict[tuple[str, str, str], Told]:
    return {}


_NEVER_TONED = Told()


def told(wiring: Wiring, plug: Plug, plus: Row, minus: Row) -> Told:
    """What the tones of a charted pair say."""
    tones = tones_of(wiring).get(frozenset((f"{plug.name}.car.{plus.cavity}", f"{plug.name}.car.{minus.cavity}")))
    if not tones:
        return _NEVER_TONED
    known, key = _told(wiring), (plug.name, plus.cavity, minus.cavity)
    if key not in known:
        known[key] = told_by(wiring, plug, (plus, minus), tones)
    return known[key]


def told_by(wiring: Wiring, plug: Plug, rows: tuple[Row, Row], tones: Sequence[Tone]) -> Told:
    """As `told`, by these tones."""
    speakers, (plus, _) = wiring.job.parts.speakers, rows
    base = plus.function.base
    own = _own(wiring, plug, rows)
    counted: list[tuple[Tone, str]] = []
    idle: list[Tone] = []
    drivers: dict[str, str | None] = {}  # of each driver: "" where it was heard, else the tone that it kept silent at
    assumed: set[str] = set()
    says_so = False
    for tone in tones:
        span = played(tone.signal)
        said = named(speakers, tone.heard, span)
        kind = _kind(wiring, plug, rows, own, tone, said)
        if kind == SILENT and own and not any(must_answer(speakers[each], span) for each in own):
            idle.append(tone)
            continue
        counted = [each for each in counted if not takes_over(tone.signal, each[0].signal)]
        counted.append((tone, kind))
        confirms = says(tone, base, own, said)
        if not confirms and (tone.charted or kind != SILENT):
            continue
        says_so = says_so or confirms
        for name in own:
            if span is None and base in bases_in(tone.heard):
                drivers[name] = ""
                (assumed.discard if name in said.speakers and name not in said.vague else assumed.add)(name)
            elif name in said.speakers and _is_meant(wiring, name, own, said, tone.signal):
                drivers[name] = ""
                assumed.discard(name)
            elif span is None:
                drivers[name] = drivers.get(name) if kind != SILENT else None
            elif must_answer(speakers[name], span) and not said.odd:
                drivers[name] = tone.signal
    heard = tuple(name for name in own if drivers.get(name) == "")
    unheard = tuple(
        Unheard(name, tone_for(speakers[name]), drivers.get(name) or "") for name in own if name not in heard
    )
    held, kind = _held_against(counted, bool(heard))
    blind = tuple(name for name in own if name in assumed and is_tweeter(speakers[name])) if len(own) > 1 else ()
    return Told(
        held, kind, says_so and not unheard and kind != SILENT, heard, unheard,
        tuple(each for each, _ in counted), tuple(idle), blind,
    )  # fmt: skip


def _held_against(counted: list[tuple[Tone, str]], heard: bool) -> tuple[Tone | None, str]:
    """The last tone that says otherwise than the chart; of silence only where nothing of the pair ever answered."""
    against = [each for each in counted if each[1] in (OTHER, WORDS, STRANGER, UNSAID)]
    if against:
        return against[-1]
    if not counted:
        return None, AS_CHARTED
    answered = [each for each in counted if each[1] == AS_CHARTED]
    last, kind = (answered or counted)[-1]
    return last, AS_CHARTED if heard else kind


def own_speakers(wiring: Wiring, plug: Plug, rows: tuple[Row, Row], *, all_of_them: bool = False) -> tuple[str, ...]:
    """The speakers between the two wires of a pair as found, without those that the car never had."""
    wires, apart = wires_of(wiring, wiring.found), halves_apart(wiring, plug)
    at_plus, at_minus = (wires.reach(f"{plug.name}.car.{row.cavity}", apart) for row in rows)
    lacked = frozenset() if all_of_them else lacked_by_name(wiring)
    _, answers = branches_between(wiring, at_plus, at_minus, apart, lacked)
    return tuple(dict.fromkeys(answer.speaker for answer in answers))


def _own(wiring: Wiring, plug: Plug, rows: tuple[Row, Row]) -> tuple[str, ...]:
    """The speakers of a pair that the plan goes on using; all of them where it uses none."""
    own = own_speakers(wiring, plug, rows)
    fed = _fed(wiring) if len(own) > 1 else frozenset(own)
    return tuple(name for name in own if name in fed) or own


@kept
def _fed(wiring: Wiring) -> frozenset[str]:
    return frozenset(each.speaker for each in wiring.signals.speaker_receivers if wiring.signals.ways(each))


def _is_meant(wiring: Wiring, name: str, own: Sequence[str], said: Named, signal: str) -> bool:
    """Whether a speaker of the pair is surely among those that a record names. A channel's word (`FL` for FL-WF and
    FL-TW) means the one that the tone moves.
    """
    if name not in said.vague:
        return True
    span = played(signal)
    if span is None:
        return said.vague <= set(own)
    return must_answer(wiring.job.parts.speakers[name], span) or len(said.vague) == 1


def says(tone: Tone, base: str, own: Sequence[str], said: Named) -> bool:
    """Whether a tone confirms a channel: charted so and heard, or heard alone where the chart was corrected to it."""
    if tone.charted == base or tone.heard == base:
        return True
    if not said.speakers or said.odd or said.elsewhere:
        return False
    return set(said.speakers) <= set(own)


def _kind(wiring: Wiring, plug: Plug, rows: tuple[Row, Row], own: Sequence[str], tone: Tone, said: Named) -> str:
    if not tone.heard:
        return UNSAID
    bases, (plus, _) = bases_in(tone.heard), rows
    if plus.function.base in bases or not set(own).isdisjoint(said.speakers):
        return STRANGER if strangers(wiring, plug, rows, tone.heard) else AS_CHARTED
    if all(word.lower() in NOTHING for word in words_in(tone.heard)):
        return SILENT
    return OTHER if bases else WORDS


def strangers(wiring: Wiring, plug: Plug, rows: tuple[Row, Row], heard: str) -> tuple[str, ...]:
    """Speakers that answered a pair beside its own: of another channel (of any where its chart has none and the
    job has its speakers), and not between its wires as the job has them; or at a place that isn't in the job.

    Such a pair is joined to another one, or touches it: an amplifier put on it drives both. A further driver of the
    same channel is none of them.
    """
    (plus, _), words = rows, words_in(heard)
    own = plus.function.channel
    named_so = ((word, function) for word in words if (function := read_function(word)))
    others = {word: function.base for word, function in named_so if function.channel and function.channel != own}
    elsewhere = tuple(dict.fromkeys(word for word in words if word.lower() in ELSEWHERE))
    there = own_speakers(wiring, plug, rows, all_of_them=True) if others or elsewhere else ()
    if not (own or there):
        return ()  # nobody knows what belongs there
    return (*(word for word, base in others.items() if base not in there), *elsewhere)
