"""Levels and loads: each channel step by step to its speakers, what the outputs see, other ways to wire speakers."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.signal import Driver, Receiver
from harness.model.contact import printed
from harness.planning.channel_levels import (
    OutputLine,
    Rewired,
    StageLine,
    output_lines,
    rewired,
    stage_lines,
)
from harness.planning.output_test import output_test
from render.blocks import Block, Cell, Column, Grid, Heading, Para, Piece, Sheet, Strong
from render.documents import document
from render.documents.wording import NOT_RECORDED, db, hertz, level, load_ohms, power

if TYPE_CHECKING:
    from harness.electrical.levels import Band
    from harness.graph.wiring import Wiring
    from harness.prove import Proof

_HOLD = "\N{NO-BREAK SPACE}"
_BASES = (
    "decibels", "watts and volts", "least load", "series, parallel", "bridge", "awg", "copper", "copper, warm",
    "metric", "SAE sizes", "CCA", "temperature",
)  # fmt: skip


@document("levels", title="Levels and loads", order=7)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who sets gains and picks pads: volts, decibels, ohms and watts on the way of each channel."""
    if proof.wiring is None:
        return
    blocks = tuple(_blocks(proof.wiring))
    if blocks:
        yield Sheet("levels", "Levels and loads", blocks, landscape=True, shares=True, bases=_BASES)


def _blocks(wiring: Wiring) -> Iterator[Block]:
    stages = stage_lines(wiring)
    if stages:
        yield Heading("Each channel, step by step")
        yield Para(
            "Volts RMS, the most that the output gives: as written, or at its rated watts; inputs summed in step. "
            "Headroom: up to what the input takes."
        )
        # what is recorded nowhere is said once, below, instead of in every row
        delays = any(line.delay_s is not None for line in stages)
        steps = any(line.route is None and _step(line) for line in stages)
        columns = _STAGE_COLUMNS if delays else _STAGE_COLUMNS[:-1]
        yield Grid(columns, tuple(_stage_row(line, delays=delays, steps=steps) for line in stages))
        untold = [] if steps else [f"Last clean volume step: {NOT_RECORDED} for any source."]
        untold += [] if delays else [f"Delay: {NOT_RECORDED} for any channel."]
        if untold:
            yield Para(" ".join(untold))
    outputs = output_lines(wiring)
    if outputs:
        yield Heading("Outputs and speakers")
        yield Para(
            f"Ohms as wired, at mid band; may fall to 80{_HOLD}% of the least over the band (IEC 60268-5). A rating "
            f"speaks of nominal ohms: the least is held against it without the 80{_HOLD}%. Rated watts or less. Lost "
            "in wire: of the watts."
        )
        yield Grid(_OUTPUT_COLUMNS, tuple(_output_row(line) for line in outputs))
    unfed = output_test(wiring).unfed if stages or outputs else ()
    if unfed:
        yield Para(f"No signal reaches {', '.join(unfed)} in this plan: no step and no load to tell.")
    others = rewired(wiring)
    if others:
        yield Heading("Other ways to wire the same speakers")
        yield Para("Each of like speakers gets the same watts. All is off, fuses out, before a speaker is wired anew.")
        yield Grid(_REWIRED_COLUMNS, tuple(_rewired_row(line) for line in others))


_STAGE_COLUMNS = (
    Column("Channel", 0.8), Column("From", 1.1), Column("Made from", 1.2), Column("Gain", 0.9),
    Column("Volts at most", 2), Column("To", 1.2), Column("Takes", 1), Column("Headroom", 1.1),
    Column("Band", 1.2), Column("Delay", 0.8),
)  # fmt: skip
_OUTPUT_COLUMNS = (
    Column("Output", 1.2), Column("Speakers", 1.2), Column("Ohms", 0.7), Column("May fall to", 0.8),
    Column("Rated for", 1), Column("Gives", 1.4), Column("Arrives", 1.5), Column("Lost in wire", 0.8),
)  # fmt: skip
_REWIRED_COLUMNS = (
    Column("Output", 1.2), Column("Why told", 1.6), Column("As planned", 0.8), Column("Ways", 4),
)  # fmt: skip


def _stage_row(line: StageLine, *, delays: bool, steps: bool) -> tuple[Cell, ...]:
    volts: Cell = NOT_RECORDED
    if line.level is not None:
        volts = Strong(level(line.level.volts), _in_ohms(_signed(line.level.how)))
    cells: list[Cell] = [
        Strong("+".join(name.rpartition(".")[2] for name in line.channels)),
        _from(line, steps=steps), _made_of(line), _gain(line), volts, _to(line.receivers),
        _window(line.receivers), _headroom(line), _bands(line.bands),
    ]  # fmt: skip
    if delays:
        cells.append(NOT_RECORDED if line.delay_s is None else f"{line.delay_s * 1000:.3g}{_HOLD}ms")
    return tuple(cells)


def _from(line: StageLine, *, steps: bool) -> Cell:
    name = Strong(_name(line.driver))
    if line.route is not None or not steps:
        return name
    return name, _step(line) or f"last clean step {NOT_RECORDED}"


def _step(line: StageLine) -> str:
    """How a source is set: its fixed level or last clean step; empty where neither is written."""
    port = line.driver.port
    if port.signal.volume == "fixed":
        return "fixed level"
    of = f" of{_HOLD}{port.steps}" if port.steps is not None else ""
    return f"last clean step {port.clean_step}{of}" if port.clean_step is not None else ""


def _signed(words: str) -> str:
    """`-3 dB from in1` with the sign that all of the sheet has."""
    return f"−{words[1:]}" if words.startswith("-") else words


def _in_ohms(how: str) -> str:
    return how.replace(" ohm", f"{_HOLD}Ω").replace(" W", f"{_HOLD}W")


def _made_of(line: StageLine) -> str:
    if line.route is None:
        said = "source"
    else:
        said = " + ".join(line.route.inputs) + (", INVERTED" if line.route.inverted else "")
    return f"{said}; tapped, 0{_HOLD}dB" if line.tapped else said


def _gain(line: StageLine) -> str:
    if line.route is None:
        return "source"
    gain_db = line.route.signal.gain_db
    return NOT_RECORDED if gain_db is None else db(gain_db)


def _to(receivers: tuple[Receiver, ...]) -> Cell:
    if receivers[0].port is not None:
        return Strong(f"{receivers[0].port.unit}{_HOLD}{printed(receivers[0].port.name)}")
    names = dict.fromkeys(receiver.speaker for receiver in receivers)
    return Strong(f"speaker{'s' if len(names) > 1 else ''} {', '.join(names)}")


def _window(receivers: tuple[Receiver, ...]) -> str:
    port = receivers[0].port
    if port is None:
        return "speaker"
    least, most = port.signal.least_v, port.signal.most_v
    if least is None and most is None:
        return NOT_RECORDED
    if least is None or most is None:
        return f"up to {level(most)}" if most is not None else f"from {level(least or 0.0)}"
    return f"{least:g} to {most:g}{_HOLD}V"


def _headroom(line: StageLine) -> Cell:
    if line.receivers[0].port is None:
        return "see outputs"
    if line.fit is None:
        return NOT_RECORDED
    if line.fit.verdict == "too hot":
        return Strong("TOO HOT"), f"take off {line.fit.pad_db}{_HOLD}dB or more"
    if line.fit.verdict == "too small":
        return Strong("TOO SMALL"), f"{line.fit.short_db:.1f}{_HOLD}dB short"
    return "no most recorded" if math.isinf(line.fit.headroom_db) else f"{line.fit.headroom_db:.1f}{_HOLD}dB left"


def _bands(bands: dict[str, Band | None]) -> Cell:
    if not bands:
        return NOT_RECORDED
    said = {name.rpartition(".")[2]: _band(band) for name, band in bands.items()}
    if len(set(said.values())) == 1:
        return next(iter(said.values()))
    return "\n".join(f"{name}: {words}" for name, words in said.items())


def _band(band: Band | None) -> str:
    return "nothing is left" if band is None else f"{hertz(band[0])} to {hertz(band[1])}"


def _output_row(line: OutputLine) -> tuple[Cell, ...]:
    load = line.load
    rated = NOT_RECORDED if load.rated_ohm is None else f"{load_ohms(load.rated_ohm)} or more"
    low = load.rated_ohm is not None and line.nominal_ohm is not None and line.nominal_ohm < load.rated_ohm * (1 - 1e-9)
    gives: Cell = NOT_RECORDED
    if line.volts is not None:
        gives = Strong(level(line.volts.volts), power(line.volts.power_w) if line.volts.power_w else line.volts.how)
    arrives: Piece = NOT_RECORDED
    lost = NOT_RECORDED
    if line.delivery is not None:
        each = line.delivery.speakers
        arrives = "\n".join(f"{one.name.removeprefix('spk.')} {power(one.power_w)}" for one in each)
        if line.delivery.wire_w > 0:  # else nobody wrote a length: that is no loss of nothing
            lost = f"{max(one.power_lost for one in each) * 100:.1f}{_HOLD}%"
    return (
        Strong(_name(load.driver)), ", ".join(line.speakers),
        Strong(load_ohms(line.nominal_ohm)) if line.nominal_ohm is not None else NOT_RECORDED,
        load_ohms(line.least_ohm) if line.least_ohm is not None else NOT_RECORDED,
        (Strong("TOO LOW"), rated) if low else rated + (", bridged" if load.bridged and load.rated_ohm else ""),
        gives, arrives, lost,
    )  # fmt: skip


def _rewired_row(line: Rewired) -> tuple[Cell, ...]:
    assert line.load.nominal_ohm is not None
    why = {"below": "the load is too low", "above": "it would take a lower load"}.get(line.reason, "more than one coil")
    rated = line.load.rated_ohm
    said = []
    for way in line.ways:
        verdict = "least not recorded" if rated is None else "takes it" if way.allowed else "TOO LOW"
        mark = ", as planned" if math.isclose(way.ohm, line.load.nominal_ohm, rel_tol=0.02) else ""
        said.append(f"{load_ohms(way.ohm)}: {way.words}, {verdict}{mark}")
    ways = "\n".join(said) if said else line.why_not
    return Strong(_name(line.load.driver)), why, load_ohms(line.load.nominal_ohm), ways


def _name(driver: Driver) -> str:
    unit, _, port = driver.name.partition(".")
    return f"{unit}{_HOLD}{printed(port)}"
