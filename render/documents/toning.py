"""The toning checklist: each pair from the car half, then the outputs, the turn-on, and every feature."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.model.contact import printed
from harness.planning.output_test import Heard, OutputTest, output_test
from harness.planning.toning import Answer, Clip, TonePair, lacked_speakers, toning_plan
from harness.planning.turn_on import KEYS, WRITE, turn_on_test
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
from render.documents.wording import NOT_RECORDED, name_of, names, ohms, or_not_recorded, speaker_words, swatch

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof

NEVER = (
    "Never tone or pop into a connected amplifier, output or input: its plug is out, or its leads not joined yet.",
    "No test lamp. No probe in a restraint plug (often yellow), in anything orange, or in a twisted data pair.",
    "Measure DC first, on every pair: anything but 0 V means something is still connected. Find it before you tone.",
    "Polarity by a 1.5 V cell, one short touch, cone in sight. Never a cell on a tweeter: use a pulse or its marks.",
)


# keeps a short reading or word together in a narrow column
_HOLD = "\N{NO-BREAK SPACE}"


@document("toning", title="Toning checklist and tests", order=5)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For two hands at the car: what goes where, what must answer, room for what really happened."""
    if proof.wiring is not None:
        yield Sheet("toning", "Toning checklist", tuple(_toning(proof.wiring)), landscape=True)
        yield Sheet("tests", "Output, turn-on and feature tests", tuple(_tests(proof.wiring)))


# -- toning --------------------------------------------------------------------------------------------


def _toning(wiring: Wiring) -> Iterator[Block]:
    pairs = toning_plan(wiring)
    yield Caution("\n".join(NEVER))
    if not pairs:
        yield Para("The job has no plug with a speaker pair, so there is nothing to tone.")
        return
    to_tone = [pair for pair in pairs if not pair.units]
    left = [pair for pair in pairs if pair.units]
    yield Heading("First", 2)
    yield Listing(tuple(_first(wiring, to_tone)), numbered=True)
    silent = lacked_speakers(wiring.job.car.lacks) if wiring.job.car else ()
    if silent:
        yield Para(f"Declared: the car has no {', '.join(silent)}: must stay silent. If one answers, stop.")
    else:
        yield Para("The job declares no speaker that the car lacks.")
    yield Para(
        "Resistance: from the nominal impedance of the speakers reached, side by side, at 0.62 to 1.0 times each "
        "(retailers' guides, seen 2026, origin soundcertified.com and 365electric.com). Hold the meter's tips together "
        "first and take that reading off; thin wire of the car may add 0.2 to 0.4 Ω (calculated, 15 ft each way)."
    )
    if not to_tone:
        yield Para("No pair of this job leads from a plug to a speaker without a unit between: tone none.")
    for plug, where in dict.fromkeys((pair.plug, (pair.clip.where, pair.clip.owner)) for pair in to_tone):
        group = [pair for pair in to_tone if pair.plug == plug and (pair.clip.where, pair.clip.owner) == where]
        yield Heading(_heading(plug, group[0].clip))
        yield _grid(wiring, group)
    if left:
        yield from _not_to_tone(left)


def _heading(plug: str, clip: Clip) -> str:
    if clip.where == "leads":
        return f"{plug}, through the leads of loom {clip.owner}"
    if clip.where == "end":
        return f"{plug}, through the open unit end of loom {clip.owner}"
    return f"{plug}, at the plug, car side"


def _first(wiring: Wiring, pairs: list[TonePair]) -> Iterator[str]:
    yield "Key off."
    for plug in dict.fromkeys(pair.plug for pair in pairs):
        about = wiring.job.parts.plugs[plug]
        unit = about.unit or f"the unit (name {NOT_RECORDED})"
        yield f"Unplug {plug} ({or_not_recorded(about.where)}) from {unit}: you tone its car side."
    for loom in dict.fromkeys(pair.clip.owner for pair in pairs if pair.clip.where != "plug"):
        ends = [f"{m.end} end into {m.plug}, car side" for m in wiring.job.mates if m.loom == loom and m.half == "car"]
        yield f"Plug {loom}, {' and '.join(ends)}. Its other end stays open; its leads are joined to nothing."


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
    yield Heading("DO NOT TONE: a unit is at the other end")
    yield Grid(columns, tuple(rows))


def _grid(wiring: Wiring, pairs: list[TonePair]) -> Grid:
    """One row a pair. Through a loom, the clip is on the loom's colours and the car's own stand beside them."""
    through = pairs[0].clip.where != "plug"
    columns = [
        Column("Pair", 0.1),
        Column("Clip on", 2.4),
        Column("At the plug", 2.3),
        Column("DC first", 0.1),
        Column("Then ohms", 1.0),
        Column("To body", 0.1),
        Column("Must answer", 2.1),
        Column("Heard where, at which Hz", 1.8),
        Column("Polarity", 1.9),
    ]
    if not through:
        del columns[2]
    return Grid(tuple(columns), tuple(_row(wiring, pair, through) for pair in pairs))


def _row(wiring: Wiring, pair: TonePair, through: bool) -> tuple[Cell, ...]:
    own = (swatch(pair.plus.colour), swatch(pair.minus.colour))
    clip = _clip_colours(wiring, pair) if through else own
    at_plug: tuple[Cell, ...] = ((f"{pair.plus.cavity} +", own[0], f"{pair.minus.cavity} −", own[1]),)
    body = "the job puts it on the body: STOP" if pair.on_body else "open"
    return (
        (Strong(pair.plus.function.base), pair.state, f"{'' if pair.used else f'not{_HOLD}'}in{_HOLD}use"),
        (Strong(f"+ {printed(pair.clip.plus)}"), clip[0], Strong(f"− {printed(pair.clip.minus)}"), clip[1]),
        *(at_plug if through else ()),
        (Strong("0 V"), Room(11)),
        (*_ohms(wiring, pair), Room(18)),
        (body, Tick("+", "−")),
        _answer(wiring, pair),
        (Room(22), Tick("as said", "other")),
        _polarity(wiring, pair),
    )


def _clip_colours(wiring: Wiring, pair: TonePair) -> tuple[Piece, Piece]:
    """The colours where the clips go; at an open plug end there is no wire to see."""
    if pair.clip.where != "leads":
        return f"{pair.clip.owner} unit end", f"{pair.clip.owner} unit end"
    plus, minus = (wiring.contact(name).colour for name in (pair.clip.plus, pair.clip.minus))
    return swatch(plus), swatch(minus)


def _answer(wiring: Wiring, pair: TonePair) -> Cell:
    if pair.silent:
        return (Strong("SILENT"), f"the car has none (declared: lacks {pair.silent})")
    if not pair.answers:
        return "No speaker is written behind this pair: write what answers."
    said = [Strong(", ".join(_speaker(answer) for answer in pair.answers))]
    who = list(dict.fromkeys(answer.speaker for answer in pair.answers))
    alone = len(who) == 1
    where = [f"{'' if alone else f'{name}: '}{speaker_words(wiring, name)}" for name in who]
    chained = [_speaker(answer) for answer in pair.answers if answer.in_line]
    line = [f"{' and '.join(chained)} stand in line: all or none"] if chained else []
    return (*said, *where, *line, "and nothing else")


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
    """By a cell and the cone; behind a capacitor, and at any tweeter, by a pulse or the marks."""
    if pair.silent:
        return "none"
    if not pair.answers:
        return Room(20)
    tweeters = {name for name, speaker in wiring.job.parts.speakers.items() if speaker.function.driver == "TW"}
    no_cell = tweeters | set(pair.expected.blocked)
    said: list[Piece] = []
    for sign, way in ((1, "OUT"), (-1, "IN")):
        these = [_speaker(each) for each in pair.answers if each.sign == sign and each.speaker not in no_cell]
        if these:
            who = f"{', '.join(these)}: " if len(pair.answers) > 1 else ""
            said.append(f"{who}cell + on +: cone {way}")
    for sign, way in ((1, "straight"), (-1, "turned round")):
        these = [_speaker(each) for each in pair.answers if each.sign == sign and each.speaker in no_cell]
        if these:
            said.append(f"{', '.join(these)}: pulse or marks, {way}")
    return (*said, Tick("so", "other"))


def _speaker(answer: Answer) -> str:
    return answer.terminals.removeprefix("spk.")


# -- tests ---------------------------------------------------------------------------------------------


def _tests(wiring: Wiring) -> Iterator[Block]:
    test = output_test(wiring)
    yield Heading("Output test")
    yield Para("Lowest volume first. One channel at a time by balance and fader, or one output at a time.")
    if not test.channels:
        yield Para("The job has no unit that gives a signal of its own, so no output can be expected.")
    else:
        yield _channels(wiring, test)
        yield _ends(wiring, test)
    if test.unfed:
        yield Caution(f"No signal reaches {', '.join(test.unfed)} in this plan: silent unless the plan changes.")
    yield Heading("Turn-on test")
    yield from _turn_on(wiring)
    yield Heading("Features, before and after")
    yield from _features(wiring)


def _channels(wiring: Wiring, test: OutputTest) -> Grid:
    columns = (
        Column("Play only", 0.1),
        Column("Must answer", 5),
        Column("These, no other", 0.9),
        Column("Follows volume", 0.9),
        Column("Follows fader", 0.9),
        Column("Heard", 1.3),
    )
    rows: list[tuple[Cell, ...]] = []
    for channel in test.channels:
        lines = []
        for heard in channel.heard:
            turned = _turned(heard)
            said = f"{heard.speaker}: " if len(channel.heard) > 1 else ""
            lines.append(f"{said}{speaker_words(wiring, heard.speaker)}{turned}")
        answer: Cell = (Strong(", ".join(each.speaker for each in channel.heard)), "; ".join(lines))
        if not channel.heard:
            answer = "nothing: no speaker is reached in this plan"
        rows.append(
            (
                (Strong(channel.channel), f"from{_HOLD}{channel.unit}"),
                answer,
                Tick("yes", "no"),
                Tick("yes", "no"),
                Tick("yes", "no"),
                Room(30),
            )
        )
    return Grid(columns, tuple(rows), caption="Each channel, expected by the plan's signals")


def _turned(heard: Heard) -> str:
    """What to say of a speaker's polarity: nothing where it is straight and nobody wished otherwise."""
    if heard.turned:
        return ", turned round as the job wishes" if heard.wished else ", POLARITY REVERSED in this plan"
    return "" if heard.wished else ", straight, though the job wishes it turned round"


def _ends(wiring: Wiring, test: OutputTest) -> Grid:
    setting = {
        "front": "Fader full front",
        "rear": "Fader full rear",
        "left": "Balance full left",
        "right": "Balance full right",
    }
    rows: list[tuple[Cell, ...]] = []
    for end, speakers in test.ends.items():
        silent = [name for name in wiring.job.parts.speakers if name not in speakers and name not in test.unfed]
        rows.append(
            (
                Strong(setting[end]),
                Strong(", ".join(speakers) or "nothing"),
                ", ".join(silent) or "none",
                Tick("yes", "no"),
                Room(30),
            )
        )
    for name in test.subs:
        feeders = [channel.channel for channel in test.channels if any(each.speaker == name for each in channel.heard)]
        fed = f"from {' + '.join(feeders)}" if feeders else "no signal reaches it in this plan"
        rows.append(
            (
                Strong(f"Subwoofer {name}"),
                (Strong(name), fed),
                "no voice or treble from it",
                Tick("yes", "no"),
                Room(30),
            )
        )
    columns = (
        Column("Set", 2.3),
        Column("Must play", 3.2),
        Column("Must be silent", 2.4),
        Column("So?", 1.3),
        Column("Heard", 1.2),
    )
    return Grid(columns, tuple(rows), caption="Front and rear, left and right, subwoofer")


def _turn_on(wiring: Wiring) -> Iterator[Block]:
    test = turn_on_test(wiring)
    if not test.readings and not test.without_lead:
        yield Para("No unit is joined or supplied by this job.")
        return
    if not wiring.job.has_runs:
        yield Para(f"The job has no runs, so supply and ground are {NOT_RECORDED}: write what you read.")
    columns = (
        Column("Meter +", 1.2),
        Column("Fed by", 1.2),
        *(Column(f"Key {key}", 2) for key in KEYS),
    )
    rows: list[tuple[Cell, ...]] = []
    for reading in test.readings:
        source = name_of(wiring.contact(reading.source)) if reading.source else NOT_RECORDED
        cells = [(Strong(value) if value != WRITE else "write", Room(20)) for value in reading.expected]
        rows.append((Strong(f"{reading.unit}{_HOLD}{printed(reading.terminal)}"), source, *cells))
    if rows:
        yield Grid(columns, tuple(rows), caption="Meter − on the body; fed by: in this plan")
    for unit, word in test.without_lead:
        yield Para(f"{unit} is woken by {word}, not by a lead: write what wakes it and how long after it sleeps.")
    yield Para(
        "Volts of a battery at rest: a fault-finding guide, seen 2026, origin autovly.com; engine running 13.7 to "
        "14.7 V. Switched and turn-on lines: reference values of makers' workshop tables. Below 1 V when off: common "
        "practice, no source. “write”: nothing is known, so write what you read."
    )


def _features(wiring: Wiring) -> Iterator[Block]:
    features = wiring.job.features
    if not features:
        yield Para(f"Features {NOT_RECORDED}. Try every lamp, chime, voice and button before and after all the same.")
        return
    columns = (
        Column("Feature", 2),
        Column("From", 0.8),
        Column("Heard or felt at", 2),
        Column("Before", 1.0),
        Column("After", 1.0),
        Column("Notes", 1.6),
    )
    rows: list[tuple[Cell, ...]] = []
    for feature in features:
        plus = tuple(name for name in feature.contacts if not name.endswith("-"))
        kind = f"{feature.kind}: it must work" if feature.kind in ("warning", "emergency") else ""
        rows.append(
            (
                (Strong(feature.name), kind) if kind else Strong(feature.name),
                feature.unit,
                names(wiring, plus) or NOT_RECORDED,
                Tick("works", "no"),
                Tick("works", "no"),
                Room(30),
            )
        )
    yield Grid(columns, tuple(rows))
