"""The tests at the car, after the work: the turn-on volts, each output, and every feature."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from harness.graph.answers import Answer, answers
from harness.graph.faded import Faded, faded
from harness.graph.proven import Tried, signatures, tried
from harness.graph.readings import volts_of
from harness.graph.turn_on_test import KEYS, RECORDED_KEYS, WRITE, Reading, fits_band, turn_on_test
from harness.model.contact import Contact, printed
from harness.planning.output_test import Heard, OutputTest, output_test
from harness.planning.written import Written, volts_at
from render.blocks import Block, Caution, Cell, Column, Grid, Heading, Para, Piece, Room, Strong, Tick
from render.documents.wording import (
    NOT_RECORDED,
    as_held,
    as_read,
    function_words,
    name_of,
    pair_name,
    speaker_words,
)

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.evidence import Record

# keeps a short reading or word together in a narrow column
_HOLD = "\N{NO-BREAK SPACE}"


def car_tests(wiring: Wiring) -> Iterator[Block]:
    """Turn-on, outputs and features, in the order of the work, each with room for what really happened."""
    test = output_test(wiring)
    yield Heading("Turn-on test")
    yield from _turn_on(wiring)
    yield Heading("Output test")
    yield Para("Lowest volume first. One channel at a time by balance and fader, or one output at a time.")
    if not test.channels:
        yield Para("The job has no unit that gives a signal of its own, so no output can be expected.")
    else:
        yield _channels(wiring, test)
        yield _ends(wiring, test)
    if test.unfed:
        yield Caution(f"No signal reaches {', '.join(test.unfed)} in this plan: silent unless the plan changes.")
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
    found = {each.driver.name: each for each in answers(wiring)}
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
                *_tried(found.get(channel.source)),
            )
        )
    return Grid(columns, tuple(rows), caption="Each channel, expected by the plan's signals")


def _tried(answer: Answer | None) -> tuple[Cell, ...]:
    """What the output test found, or room for it."""
    if answer is None:
        return (Tick("yes", "no"), Tick("yes", "no"), Tick("yes", "no"), Room(30))
    record = answer.record
    follows = record.word("follows")
    volume, fader = (
        Strong("yes" if follows in ("both", what) else "NO") if follows else Tick("yes", "no")
        for what in ("volume", "fader")
    )
    heard: Cell = (Strong(record.word("heard") or NOT_RECORDED), *_words(record.word("signal")), record.signed)
    same: Cell = Tick("yes", "no")
    if record.word("heard"):
        same = Strong("OTHER" if answer.silent or answer.astray or answer.odd else "yes")
    return (same, volume, fader, heard)


def _words(text: str) -> tuple[str, ...]:
    return (text,) if text else ()


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
    turned = {each.setting.ends: each for each in faded(wiring)}
    for end, speakers in test.ends.items():
        aside = (*speakers, *test.unfed, *test.may)
        silent = [name for name in wiring.job.parts.speakers if name not in aside]
        rows.append(
            (
                Strong(setting[end]),
                Strong(", ".join(speakers) or "nothing"),
                ", ".join(silent) or "none",
                *_at_an_end(turned.get((end,))),
            )
        )
    for ends, each in turned.items():
        if len(ends) > 1 or ends[0] not in test.ends:
            rows.append((Strong(each.setting.words.capitalize()), Strong(", ".join(each.must) or "nothing"), "",
                         *_at_an_end(each)))  # fmt: skip
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


def _at_an_end(turned: Faded | None) -> tuple[Cell, Cell]:
    """Whether what answered was right, and what it was; or room for both."""
    if turned is None or not turned.record.word("heard"):
        return (Tick("yes", "no"), Room(30))
    so = Strong("OTHER" if turned.differs or turned.odd else "yes")
    return so, (Strong(turned.record.word("heard")), turned.record.signed)


def _turn_on(wiring: Wiring) -> Iterator[Block]:
    test = turn_on_test(wiring)
    if not test.readings and not test.without_lead:
        yield Para("No unit is joined or supplied by this job.")
        return
    if not wiring.job.has_runs:
        yield Para(f"The job has no runs, so supply and ground are {NOT_RECORDED}: write what you read.")
    columns = (
        Column("Meter +", 1.2),
        Column("Fed by", 1.7),
        *(Column(f"Key {key}", 2) for key in KEYS),
    )
    rows: list[tuple[Cell, ...]] = []
    written = Written(wiring)
    for reading in test.readings:
        name = f"{reading.unit}.{reading.terminal}"
        cells = [
            (Strong(value) if value != WRITE else "write", *_volts(written.last(volts_at(name, key)), value))
            for value, key in zip(reading.expected, RECORDED_KEYS, strict=True)
        ]
        rows.append((Strong(f"{reading.unit}{_HOLD}{printed(reading.terminal)}"), _fed_by(wiring, reading), *cells))
    if rows:
        yield Grid(columns, tuple(rows), caption="Meter − on the body; fed by: in this plan")
    for unit, word in test.without_lead:
        yield Para(f"{unit} is woken by {word}, not by a lead: write what wakes it and how long after it sleeps.")
    yield Para(
        "With the engine running a battery reads 13.7 to 14.7 V. “write”: nothing is known, so write what you read."
    )


def _volts(record: Record | None, expected: str) -> tuple[Piece, ...]:
    """What was read there, or room for it."""
    if record is None or not record.word("reads"):
        return (Room(20),)
    reads = record.word("reads")
    volts = volts_of(reads)
    return (*as_read(reads, fits_band(volts, expected) if volts is not None else None), record.signed)


def _fed_by(wiring: Wiring, reading: Reading) -> str:
    """The wire as it is held: `T1 car-side lead 5 at bulkhead 5`, `battery + via block 1`; that nothing feeds it."""
    held = [as_held(wiring.contact(name)) for name in reading.via]
    if not reading.source:
        return f"no feed: only {', '.join(held)}" if held else NOT_RECORDED
    source = wiring.contact(reading.source)
    if source.kind == "plug" and held:
        return f"{', '.join(held)} at {source.owner} {source.last}"
    return name_of(source) + (f" via {', '.join(held)}" if held else "")


def _features(wiring: Wiring) -> Iterator[Block]:
    every = tried(wiring)
    if not every:
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
    for each in every:
        name: Cell = Strong(each.name)
        unit, where, feature = "", "tried at the car, not in the job file", each.feature
        if feature is not None:
            unit, where = feature.unit, "\n".join(_heard_at(wiring, feature.contacts)) or NOT_RECORDED
            if feature.kind in ("warning", "emergency"):
                name = Strong(each.name), f"{feature.kind}: it must work"
        rows.append((name, unit, where, _result(each.before), _result(each.after), _given_up(wiring, each)))
    yield Grid(columns, tuple(rows))


def _given_up(wiring: Wiring, each: Tried) -> Cell:
    """Who signed for the loss of a function, or room for notes."""
    if not each.signed:
        return Room(30)
    made: list[Piece] = [Strong("given up")]
    for record in signatures(wiring)[each.name.lower()]:
        who = f", for {record.word('who')}" if record.word("who") else ""
        made.append(f"{record.signed}{who}: {record.word('reason') or NOT_RECORDED}")
    return tuple(made)


def _result(record: Record | None) -> Cell:
    """What a trial of a function found, or boxes for it."""
    if record is None:
        return Tick("works", "no")
    result = record.word("result") or "tried"
    return (Strong(result if result == "works" else result.upper()), record.signed)


def _heard_at(wiring: Wiring, contacts: tuple[str, ...]) -> Iterator[str]:
    """Where a feature is heard or felt: a pair as a whole, one wire of it with its sign."""
    left = [wiring.contact(name) for name in contacts]
    while left:
        here = left.pop(0)
        twin = next((other for other in left if _same_pair(here, other)), None)
        if twin is not None:
            left.remove(twin)
        if here.kind == "speaker":
            name = here.name.removeprefix("spk.").rstrip("+-")
            sign = "" if twin is not None else f", {'+' if here.name.endswith('+') else '−'}"
            yield f"{function_words(here.function._replace(sign=''))} speaker ({name}){sign}"
        elif twin is not None:
            yield pair_name(*((twin, here) if here.function.sign in ("-", "L") else (here, twin)))
        else:
            yield name_of(here)


def _same_pair(one: Contact, other: Contact) -> bool:
    """Whether two contacts are the two of one pair; the coils of a speaker are pairs of their own."""
    same = (one.owner, one.half, one.function.base) == (other.owner, other.half, other.function.base)
    signs = {one.function.sign, other.function.sign} in ({"+", "-"}, {"H", "L"})
    return same and signs and (one.kind == "plug" or one.name[:-1] == other.name[:-1])
