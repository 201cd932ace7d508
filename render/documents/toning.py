"""The toning checklist: each pair from the car half, then the outputs, the turn-on, and every feature."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from harness.electrical.turn_on import MOST_WITHOUT_FEED_V
from harness.graph.answering import Answer, lacked, lacked_speakers
from harness.graph.contrary import dc_read
from harness.graph.drivers import must_answer, named, played, tone_for
from harness.graph.pairs import Polarity, speaker_turned
from harness.graph.readings import volts_of
from harness.graph.resistance import in_band
from harness.graph.toned import told
from harness.model.contact import printed
from harness.planning.toning import Clip, TonePair, toning_plan
from harness.planning.written import Written, body_fits
from render.blocks import (
    Block,
    Caution,
    Cell,
    Column,
    Grid,
    Heading,
    Listing,
    Para,
    Piece,
    Room,
    Sheet,
    Strong,
    Tick,
)
from render.documents import document
from render.documents.car_tests import car_tests
from render.documents.output_ohms import output_ohms
from render.documents.wording import NOT_RECORDED, as_read, ohms, or_not_recorded, speaker_words, swatch

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.evidence import Record
    from harness.prove import Proof

NEVER = (
    "Never tone or pop into a connected amplifier, output or input: its plug is out, or its leads not joined yet.",
    "No test lamp. No probe in a restraint plug (often yellow), in anything orange, or in a twisted data pair.",
    "Measure DC first, on every pair: anything but 0 V means something is still connected: find it first.",
    "Polarity by a 1.5 V cell, one short touch, cone in sight.",
    "Never a cell on a bare tweeter. Through its capacitor a cell only clicks: use a tone, and its marks.",
)


_RESISTANCE = (
    "Resistance: from the nominal impedance of the speakers reached, side by side, at 0.62 to 1.0 times each "
    "(retailers' guides, seen 2026). Take off what the meter's tips read held together; thin wire of the car may add "
    "0.2 to 0.4 Ω. Open, 0 Ω or far off: write it, stop, and find out why."
)

# keeps a short reading or word together in a narrow column
_HOLD = "\N{NO-BREAK SPACE}"


_COILS = ("coil by meter", "series, parallel")
_VOLTS = ("battery", "switched wires", "off")


@document("toning", title="Toning checklist and tests", order=5)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For two hands at the car: what goes where, what must answer, room for what really happened."""
    if proof.wiring is not None:
        yield Sheet("toning", "Toning checklist", tuple(_toning(proof.wiring)), landscape=True, bases=_COILS)
        if at_outputs := tuple(output_ohms(proof.wiring)):
            yield Sheet("output-ohms", "Ohms at each output", at_outputs, shares=True, bases=_COILS)
        yield Sheet(
            "tests", "Turn-on, output and feature tests", tuple(car_tests(proof.wiring)), shares=True, bases=_VOLTS
        )


# -- toning --------------------------------------------------------------------------------------------


def _toning(wiring: Wiring) -> Iterator[Block]:
    pairs, written = toning_plan(wiring), Written(wiring)
    yield Caution("\n".join(NEVER))
    if not pairs:
        yield Para("The job has no plug with a speaker pair, so there is nothing to tone.")
        return
    to_tone = [pair for pair in pairs if not pair.units]
    left = [pair for pair in pairs if pair.units]
    several = len({pair.plug for pair in to_tone}) > 1
    first = tuple(_first(wiring, to_tone))
    yield Listing(first, numbered=len(first) > 1)
    yield Para(f"{_declared(wiring)}\n{_RESISTANCE}")
    if not to_tone:
        yield Para("No pair of this job leads from a plug to a speaker without a unit between: tone none.")
    groups = dict.fromkeys((pair.plug, (pair.clip.where, pair.clip.owner)) for pair in to_tone)
    for plug, where in groups:
        group = [pair for pair in to_tone if pair.plug == plug and (pair.clip.where, pair.clip.owner) == where]
        yield Heading(_heading(plug, group[0].clip), 2)
        if several and (plug, where) == next(each for each in groups if each[0] == plug):
            yield Para(" ".join(_alone(wiring, [pair for pair in to_tone if pair.plug == plug])))
        yield _grid(wiring, written, group)
    if left:
        yield from _not_to_tone(left)


def _heading(plug: str, clip: Clip) -> str:
    if clip.where == "leads":
        return f"{plug}, through the leads of loom {clip.owner}"
    if clip.where == "end":
        return f"{plug}, through the open unit end of loom {clip.owner}"
    return f"{plug}, at the plug, car side"


def _first(wiring: Wiring, pairs: list[TonePair]) -> Iterator[str]:
    if len({pair.plug for pair in pairs}) > 1:
        yield (
            "Key off. One plug at a time: pull the one named above a table and no other; every other plug is "
            "together, as found, no loom in it."
        )
        return
    for number, step in enumerate(_alone(wiring, pairs)):
        yield step if number else f"Key off. {step}"


def _alone(wiring: Wiring, pairs: list[TonePair]) -> Iterator[str]:
    """How one plug is made ready: pulled, and the loom's end put in through which it is toned."""
    for plug in dict.fromkeys(pair.plug for pair in pairs):
        about = wiring.job.parts.plugs[plug]
        unit = f" from {about.unit}" if about.unit else ""
        yield f"Unplug {plug} ({or_not_recorded(about.where)}){unit}: you tone its car side."
        for loom in dict.fromkeys(pair.clip.owner for pair in pairs if pair.clip.where != "plug"):
            ends = [f"{m.end} end into {m.plug}, car side" for m in wiring.job.mates
                    if (m.loom, m.half, m.plug) == (loom, "car", plug)]  # fmt: skip
            yield f"Plug {loom}, {' and '.join(ends)}. Its other end stays open; its leads are joined to nothing."


def _declared(wiring: Wiring) -> str:
    """What must stay silent while toning, and what of it must play once the new speaker is joined."""
    silent = lacked_speakers(wiring.job.car.lacks) if wiring.job.car else ()
    if not silent:
        return "The job declares no speaker that the car lacks."
    said = f"As delivered the car has no {', '.join(silent)}: silent while you tone. If one answers, stop."
    speakers = wiring.job.parts.speakers.values()
    new = [each.name for each in speakers if each.new and lacked(silent, each.function)]
    if new:
        said += f" {' and '.join(new)} is new: silent before it is joined, it must play in the output test."
    return said


def _not_to_tone(pairs: list[TonePair]) -> Iterator[Block]:
    """Pairs whose wires end in a unit: no tone, no cell, no ohms."""
    columns = (
        Column("Plug", 0.3),
        Column("Pair", 0.3),
        Column("Cavities", 0.5),
        Column("+ at the plug", 2),
        Column("− at the plug", 2),
        Column("Why", 2),
    )
    rows: list[tuple[Cell, ...]] = []
    for pair in pairs:
        why = f"ends in {' and '.join(pair.units)}"
        if pair.answers:
            why += f", and in {', '.join(answer.speaker for answer in pair.answers)}: pull the plug of the unit first"
        rows.append(
            (
                Strong(pair.plug),
                Strong(pair.plus.function.base),
                Strong(f"{pair.plus.cavity} / {pair.minus.cavity}"),
                swatch(pair.plus.colour),
                swatch(pair.minus.colour),
                why,
            )
        )
    yield Heading("DO NOT TONE: a unit is at the other end", 2)
    yield Grid(columns, tuple(rows))


def _grid(wiring: Wiring, written: Written, pairs: list[TonePair]) -> Grid:
    """One row a pair. Through a loom, the clip is on the loom's colours and the car's own stand beside them."""
    through = pairs[0].clip.where != "plug"
    columns = [
        Column("Pair", 0.1),
        # the colours on one line each, as far as the paper goes: they make the row's height
        Column("Clip on", 7.2),
        Column("At the plug", 7.2),
        Column(f"1:{_HOLD}DC", 0.1),
        Column(f"2:{_HOLD}Ohms", 1.0),
        Column(f"3:{_HOLD}Body", 0.1),
        Column("Must answer", 4.3),
        Column("Heard, Hz", 1.6),
        Column("Polarity", 4.2),
    ]
    if not through:
        del columns[2]
    return Grid(tuple(columns), tuple(_row(wiring, written, pair, through) for pair in pairs))


def _row(wiring: Wiring, written: Written, pair: TonePair, through: bool) -> tuple[Cell, ...]:
    """What was written at the car stands where a blank would be."""
    own = (swatch(pair.plus.colour), swatch(pair.minus.colour))
    clip = _clip_colours(wiring, pair) if through else own
    at_plug: tuple[Cell, ...] = ((f"{pair.plus.cavity} +", own[0], f"{pair.minus.cavity} −", own[1]),)
    body = "the job puts it on the body: STOP" if pair.on_body else "open"
    contacts = (f"{pair.plug}.car.{pair.plus.cavity}", f"{pair.plug}.car.{pair.minus.cavity}")
    tone, tones = written.about("tone", *contacts), written.tones(*contacts)
    reads, to_body = written.reads(*contacts), written.body(*contacts)
    who = tuple(dict.fromkeys(each.signed.replace(" ", _HOLD) for each in tones))
    reader = written.read_by(*contacts, but=tones).replace(" ", _HOLD)
    read = (*as_read(reads, in_band(pair.expected, reads)), *((reader,) if reader else ())) if reads else (Room(18),)
    return (
        (Strong(pair.plus.function.base), pair.state, f"{'' if pair.used else f'not{_HOLD}'}in{_HOLD}use", *who),
        (Strong(f"+ {printed(pair.clip.plus)}"), clip[0], Strong(f"− {printed(pair.clip.minus)}"), clip[1]),
        *(at_plug if through else ()),
        (Strong("0 V"), *_direct(wiring, contacts)),
        (*_ohms(wiring, pair), *read),
        (body, *(as_read(to_body, body_fits(to_body)) if to_body else (Tick("+", "−"),))),
        _answer(wiring, pair),
        (*_heard(wiring, pair, tones), *_to_hear(wiring, pair)),
        _plus(wiring, pair, written.plus(*contacts), tone),
    )


def _direct(wiring: Wiring, contacts: tuple[str, str]) -> tuple[Piece, ...]:
    """The volts DC that were read on the pair, or room for them."""
    read = dc_read(wiring).get(frozenset(contacts)) if wiring.job.records else None
    if read is None:
        return (Room(11),)
    volts = volts_of(read[1])
    return as_read(read[1], None if volts is None else volts <= MOST_WITHOUT_FEED_V)


def _to_hear(wiring: Wiring, pair: TonePair) -> tuple[Piece, ...]:
    """Room for what is heard: of a pair that one tone doesn't prove, a line for each that is still to be played."""
    speakers, tones = wiring.job.parts.speakers, told(wiring, wiring.job.parts.plugs[pair.plug], pair.plus, pair.minus)
    own = dict.fromkeys(answer.speaker for answer in pair.answers)
    if tones.counted or tones.idle:
        left = dict.fromkeys(each.play for each in tones.unheard if not each.silent)
        return tuple(piece for play in left for piece in (f"{play}:", Room(18), Tick("as said", "other")))
    plays = dict.fromkeys(tone_for(speakers[name]) for name in own)
    if len(plays) < 2:
        return (Room(22), Tick("as said", "other"))
    return tuple(piece for play in plays for piece in (f"{play}:", Room(18), Tick("as said", "other")))


def _heard(wiring: Wiring, pair: TonePair, tones: Sequence[Record]) -> tuple[Piece, ...]:
    """Who answered, with which tone, whether that is what was said of that tone."""
    speakers = wiring.job.parts.speakers
    own = {answer.speaker for answer in pair.answers}
    made: list[Piece] = []
    for tone in tones:
        heard, span = tone.word("heard"), played(tone.word("signal"))
        who = named(speakers, heard, span)
        must = {name for name in own if must_answer(speakers[name], span)}
        known = not (who.odd or who.elsewhere)
        same = known and must <= set(who.speakers) <= own and (bool(who.speakers) or not own)
        idle = not must and own and not who.speakers and known
        signal = (tone.word("signal"),) if span or tone.word("signal") else ()
        made += [Strong(heard), *signal, "says nothing" if idle else "as said" if same else Strong("OTHER")]
    return tuple(made)


def _plus(wiring: Wiring, pair: TonePair, polarity: Polarity, tone: Record | None) -> Cell:
    """Where + was found, and by whom and how where that isn't the tone beside it; else how it is found.

    It must be on the charted wire, or on the other where the speaker is turned.
    """
    record = polarity.record
    said: tuple[Piece, ...] = ()
    if polarity.idle is not None:
        how = f"{polarity.idle.word('how')} ({polarity.idle.signed}) proves nothing behind a capacitor"
        said = (how,)
    if record is None:
        blank = _polarity(wiring, pair)
        return (*said, *(blank if isinstance(blank, tuple) else (blank,)))
    plus = polarity.plus.rsplit(".", 1)[-1]
    if record is not tone:
        said = (*said, ", ".join(filter(None, (record.word("how"), record.signed))))
    turned = speaker_turned(wiring, f"{pair.plug}.car.{pair.plus.cavity}")
    awaited = (pair.minus if turned else pair.plus).cavity
    why = f"speaker turned: must be on {awaited}" if turned else f"charted on {awaited}"
    if plus.lower() != awaited.lower():
        return (Strong(f"+ on {plus}"), Strong("OTHER"), why, *said)
    return (Strong(f"+ on {plus}"), *(_turned_words(wiring, pair) if turned else ("as charted",)), *said)


def _turned_words(wiring: Wiring, pair: TonePair) -> tuple[Piece, ...]:
    """Which speakers of a pair are turned, and by whose record, where that is so in this car alone."""
    names = [each.speaker for each in pair.answers if each.sign < 0]
    said = []
    for name in dict.fromkeys(names):
        record = wiring.job.turned_here.get(f"spk.{name}+")
        said.append(f"{name} is turned in this car ({record.signed})" if record else f"{name} is turned in the car")
    return tuple(said)


def _clip_colours(wiring: Wiring, pair: TonePair) -> tuple[Piece, Piece]:
    """The colours where the clips go; at an open plug end there is no wire to see."""
    if pair.clip.where != "leads":
        return f"{pair.clip.owner} unit end", f"{pair.clip.owner} unit end"
    plus, minus = (wiring.contact(name).colour for name in (pair.clip.plus, pair.clip.minus))
    return swatch(plus), swatch(minus)


def _answer(wiring: Wiring, pair: TonePair) -> Cell:
    if pair.silent:
        return (Strong("SILENT"), f"as delivered the car has none (declared: lacks {pair.silent})")
    if not pair.answers:
        return "No speaker is written behind this pair: write what answers."
    said = [Strong(", ".join(_speaker(answer) for answer in pair.answers))]
    who = list(dict.fromkeys(answer.speaker for answer in pair.answers))
    alone = len(who) == 1
    speakers = wiring.job.parts.speakers
    # which tone proves which, where one doesn't prove all of them
    plays = {name: f" ({tone_for(speakers[name])})" for name in who}
    plays = plays if len(set(plays.values())) > 1 else {}
    where = [f"{'' if alone else f'{name}: '}{speaker_words(wiring, name)}{plays.get(name, '')}" for name in who]
    chained = [_speaker(answer) for answer in pair.answers if answer.in_line]
    line = [f"{' and '.join(chained)} stand in line: all or none"] if chained else []
    left = told(wiring, wiring.job.parts.plugs[pair.plug], pair.plus, pair.minus).unheard
    return (*said, *where, *line, "and nothing else", *(Strong(each.words) for each in left))


def _ohms(wiring: Wiring, pair: TonePair) -> tuple[Piece, ...]:
    expected = pair.expected
    if pair.silent:
        return (Strong("open"),)
    who = f"{' and '.join(expected.blocked)}: " if len(pair.answers) > 1 else ""
    capacitor = f"{who}capacitor in line" if expected.blocked else ""
    if expected.open_to_dc:
        return (Strong(f"open{_HOLD}to{_HOLD}DC"), f"{capacitor}: use a tone")
    if expected.low_ohm is None:
        why = f"nominal of {' and '.join(expected.unknown)} {NOT_RECORDED}" if expected.unknown else ""
        return tuple(piece for piece in (Strong("write"), why, capacitor) if piece)
    speakers = wiring.job.parts.speakers
    new = [answer.speaker for answer in pair.answers if speakers[answer.speaker].new]
    replaced = f"{' and '.join(new)} is replaced: the old one may read otherwise" if new else ""
    return tuple(
        piece
        for piece in (Strong(ohms(expected.low_ohm, expected.high_ohm).replace(" ", _HOLD)), capacitor, replaced)
        if piece
    )


def _polarity(wiring: Wiring, pair: TonePair) -> Cell:
    """By a cell and the cone, where no bare tweeter hangs on the pair; a tweeter by a tone and its marks."""
    if pair.silent:
        return "none"
    if not pair.answers:
        return Room(20)
    blocked = set(pair.expected.blocked)
    speakers = wiring.job.parts.speakers
    bare = [each for each in pair.answers if speakers[each.speaker].function.driver == "TW"]
    bare = [each for each in bare if each.speaker not in blocked]
    said: list[Piece] = []
    if bare:
        said.append(f"{', '.join(map(_speaker, bare))}: bare tweeter, no cell on this pair")
    for sign, way in ((1, "OUT"), (-1, "IN")):
        these = [_speaker(each) for each in pair.answers if each.sign == sign and each.speaker not in blocked]
        if these and not bare:
            who = f"{', '.join(these)}: " if len(pair.answers) > 1 else ""
            said.append(f"{who}cell + on +: cone {way}")
    for sign, way in ((1, "straight"), (-1, "turned round")):
        here = [each for each in pair.answers if each.sign == sign]
        these = [_speaker(each) for each in here if each.speaker in blocked]
        if these:
            who = f"{', '.join(these)}: " if len(pair.answers) > 1 else ""
            said.append(f"{who}clicks only: tone, marks {way}")
        these = [_speaker(each) for each in here if bare and each.speaker not in blocked]
        if these:
            said.append(f"{', '.join(these)}: pulse or marks, {way}")
    return (*said, *_turned_words(wiring, pair), Tick("so", "other"))


def _speaker(answer: Answer) -> str:
    return answer.terminals.removeprefix("spk.")
