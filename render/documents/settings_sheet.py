"""The settings that a job relies on, unit by unit, with room for what was found at the unit itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.planning.settings_list import DELAY, GAIN, HIGH, LOW, SettingLine, UnitSettings, settings_list
from render.blocks import Block, Cell, Column, Grid, Para, Room, Sheet, Strong, Tick
from render.documents import document
from render.documents.wording import NOT_RECORDED, db, hertz

if TYPE_CHECKING:
    from harness.prove import Proof

_HOLD = "\N{NO-BREAK SPACE}"


@document("settings", title="Settings", order=9)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who sets switches, crossovers and gains, and writes down what was found."""
    if proof.wiring is None:
        return
    units = settings_list(proof.wiring)
    if units:
        yield Sheet("settings", "Settings", tuple(_blocks(units)), shares=True)


def _blocks(units: tuple[UnitSettings, ...]) -> Iterator[Block]:
    yield Para(
        "What this plan relies on, from its routes, joints and turn-on, beside what is written as set. Look at the "
        "unit or into its file, tick what is so, and write what was found."
    )
    rows = [row for each in units for row in _rows(each)]
    if rows:
        yield Grid(_COLUMNS, tuple(rows))
    bare = [each.unit for each in units if not list(_rows(each))]
    if bare:
        names = ", ".join(unit.name for unit in bare)
        yield Para(
            f"{names}: nothing is written of crossovers, gains or switches, and no settings file; {NOT_RECORDED}, "
            "which is not the same as set right."
        )


_COLUMNS = (
    Column("", 0.2), Column("Unit", 0.7), Column("Setting", 1.7), Column("Relied on", 1.0), Column("As set", 1.1),
    Column("Found", 0.9),
)  # fmt: skip


def _rows(each: UnitSettings) -> Iterator[tuple[Cell, ...]]:
    name = Strong(each.unit.name)
    if each.unit.settings or "processor" in each.unit.kind:
        file = each.unit.settings or NOT_RECORDED
        yield Tick(""), name, Strong("settings file"), "its own, saved and named", file, Room(18, "")
    for line in each.lines:
        outputs = f"of {', '.join(line.outputs)}" if line.outputs else ""
        yield Tick(""), name, Strong(line.what, outputs), _planned(line), _set(line), Room(18, "")


def _planned(line: SettingLine) -> Cell:
    if line.planned is None:
        return f"{NOT_RECORDED} in the job"
    if isinstance(line.planned, str):
        return line.planned
    if line.what in (HIGH, LOW):
        return hertz(line.planned)
    if line.what == GAIN:
        return db(line.planned)
    assert line.what == DELAY, line.what
    return f"{line.planned * 1000:g}{_HOLD}ms"


def _set(line: SettingLine) -> Cell:
    """What is written, and that it isn't what the plan relies on; never a blank for nothing written."""
    if line.is_set is None:
        return NOT_RECORDED
    words = line.is_set.replace("-", "−", 1) if line.what == GAIN else line.is_set
    words = words.replace(" ", _HOLD)
    return (Strong(words), "NOT AS RELIED ON") if line.agrees is False else words
