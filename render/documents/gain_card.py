"""The gain card: output by output the tone to play, the volts to read with the speakers off, and what was read."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.model.contact import printed
from harness.planning.gain_card import TONE_DBFS, GainLine, SourceStep, gain_card
from render.blocks import Block, Caution, Cell, Column, Grid, Listing, Para, Piece, Room, Sheet, Strong
from render.documents import document
from render.documents.wording import NOT_RECORDED, hertz, level, load_ohms, power

if TYPE_CHECKING:
    from harness.prove import Proof

_HOLD = "\N{NO-BREAK SPACE}"
_BASES = ("watts and volts", "series, parallel", "bridge", "test tone")


@document("gain-card", title="Gain card", order=9)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who sets the gains, with a meter at the output's terminals."""
    if proof.wiring is None:
        return
    lines = gain_card(proof.wiring)
    if lines:
        yield Sheet("gain-card", "Gain card", tuple(_blocks(lines)), shares=True, bases=_BASES)


_STEPS = (
    "Amplifier off, gain at its lowest, bass lift and tone controls flat, crossovers as planned.",
    "Source to the step of the card. Play a sine of the card's hertz and level, one channel at a time.",
    "A true RMS meter on AC volts across the two terminals of the output; no lead of the meter to the body.",
    "Turn the gain up slowly until the meter reads the target, no further. Where it stops before: write what it read.",
    "Power off, gain left as it is, then the speakers back on, + to +.",
)


def _blocks(lines: tuple[GainLine, ...]) -> Iterator[Block]:
    yield Caution(
        "Speakers off: both leads of each output off its terminals and kept apart before a tone is played. A tone at "
        "full scale burns a voice coil, and is loud enough to hurt hearing: nobody with an ear at a speaker."
    )
    yield Listing(_STEPS, numbered=True)
    yield Para(
        "Target: V = √(P × R), the rated watts into the load that the output sees; into more ohms than it is rated at, "
        "the volts of its rating."
    )
    yield Grid(_COLUMNS, tuple(_row(line) for line in lines))


_COLUMNS = (
    Column("Output", 1.2), Column("Source and step", 1.7), Column("Tone", 0.9), Column("Read", 1.3),
    Column("It read", 0.8), Column("Who, when", 1.0),
)  # fmt: skip


def _row(line: GainLine) -> tuple[Cell, ...]:
    unit, _, port = line.driver.name.partition(".")
    return (
        (Strong(f"{unit}{_HOLD}{printed(port)}"), f"to {', '.join(line.speakers)}"),
        _sources(line.sources), _tone(line), _target(line), Room(18, ""), Room(24, ""),
    )  # fmt: skip


def _sources(sources: tuple[SourceStep, ...]) -> Cell:
    """Sources that are set alike in one line, each step once."""
    if not sources:
        return f"source {NOT_RECORDED}"
    said: dict[str, list[str]] = {}
    for source in sources:
        said.setdefault(_step(source), []).append(source.name)
    pieces: list[Piece] = []
    for step, names in said.items():
        unit = names[0].partition(".")[0]
        channels = ", ".join(printed(name.partition(".")[2]) for name in names)
        pieces += [f"{unit} {channels}", step]
        if NOT_RECORDED in step:
            pieces.append(Room(14, "step"))
    return tuple(pieces)


def _step(source: SourceStep) -> str:
    of = f" of {source.steps}" if source.steps is not None else ""
    if source.fixed:
        return "fixed level, no step"
    if source.clean_step is not None:
        return f"step {source.clean_step}{of}, the last clean one"
    return f"last clean step {NOT_RECORDED}: find it first"


def _tone(line: GainLine) -> Cell:
    if line.tone_hz is None:
        return "none: no band is left"
    return Strong(hertz(line.tone_hz)), _dbfs(TONE_DBFS)


def _target(line: GainLine) -> Cell:
    if line.target_v is None or line.rated is None or line.load.nominal_ohm is None:
        return Strong("no target"), f"{line.missing} {NOT_RECORDED}"
    ohms = line.load.nominal_ohm
    watts = f"{power(line.rated.power_w or 0.0)} into {load_ohms(ohms)}"
    rated = line.driver.port.signal.load_ohm
    if line.load.bridged or rated is None or not math.isclose(rated, ohms, rel_tol=1e-3):
        watts += f"; rated {line.rated.how}".replace(" ohm", f"{_HOLD}Ω").replace(" W", f"{_HOLD}W")
    return Strong(level(line.target_v)), watts


def _dbfs(value: float) -> str:
    return f"{value:g}{_HOLD}dBFS"
