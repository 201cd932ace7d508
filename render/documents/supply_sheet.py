"""The power tree as a picture; what each unit draws and gets, fuses and cables, and which cables to lay."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.shop import figure
from harness.planning.cable_choice import CableChoice, cable_choices
from harness.planning.power_tree import NOTHING_A, power_tree
from harness.planning.supply_table import CableLine, FuseLine, SupplyTable, UnitLine, supply_table
from render.blocks import Block, Caution, Cell, Column, Grid, Para, Sheet, Strong
from render.documents import document
from render.documents.power_picture import legend, power_picture
from render.documents.wording import NOT_RECORDED, length, size_words

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof

NOT_COUNTED = "not counted"


_BASES = (
    "supply", "drop", "temperature", "awg", "copper", "copper, warm", "metric", "SAE sizes", "CCA", "CCA fuse",
    "fuse chart A", "fuse chart B", "fuse values", "fuse margin", "ground size", "efficiency",
)  # fmt: skip


@document("supply", title="Power tree and supply", order=8)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who lays the cables and fits the fuses: amperes and volts, each beside what it may be."""
    if proof.wiring is None:
        return
    tree = power_tree(proof.wiring)
    if tree.lines:
        picture = (Para(legend(tree)), power_picture(proof.wiring, tree))
        yield Sheet("power-tree", "Power tree", picture, landscape=True, shares=True, bases=_BASES)
    table = supply_table(proof.wiring)
    if not tree.lines:
        yield Sheet("supply", "Supply", (Para(NO_PICTURE),), shares=True)
    elif table.units or table.unknown or table.collapsed:
        yield Sheet("supply", "Supply", tuple(_blocks(proof.wiring, table)), bases=_BASES)


NO_PICTURE = "No feed or ground cable is written among the runs: there is no power tree to draw."


def _blocks(wiring: Wiring, table: SupplyTable) -> Iterator[Block]:
    if table.collapsed:
        yield Caution(f"{', '.join(table.collapsed)}: no volts satisfy this plan. No figure of the supply is given.")
    if table.units:
        volts, drop = figure(wiring, "supply").words, figure(wiring, "drop").words
        yield Para(
            f"Everything at full power at once, from {volts} at the battery. At most {drop} may be lost there and "
            "back. The body, joints, shields and the leads of looms count as nothing."
        )
        yield Grid(_UNIT_COLUMNS, tuple(_unit_row(line) for line in table.units), caption="Units")
        yield Grid(_FUSE_COLUMNS, tuple(_fuse_row(line) for line in table.fuses), caption="Fuses")
        yield Grid(_CABLE_COLUMNS, tuple(_cable_row(line) for line in table.cables), caption="Cables")
        yield Para(
            "Fit what is planned, unless a finding on the cover speaks of it. The table below is for what is still to "
            "be bought, or not to be had. The thinnest cable: it loses no more than the other cables of its way leave "
            "of the allowed drop, and the smallest fuse still protects it. The smallest fuse: it carries 1.25 times "
            "the amperes. Each line leaves the other cables as planned; a thinner cable than planned needs its "
            "smallest fuse as well."
        )
        choices = cable_choices(wiring)
        fuses = {line.end: line.fuse_a for line in table.cables if math.isfinite(line.fuse_a)}
        rows = tuple(_choice_row(line, fuses.get(line.end)) for line in choices)
        yield Grid(_CHOICE_COLUMNS, rows, caption="The least that does, and what comes next")
    if table.unknown:
        yield Para(f"Not counted, as nobody wrote what it draws: {', '.join(table.unknown)}.")


_UNIT_COLUMNS = (
    Column("Unit", 1.1), Column("Draws", 1), Column("How known", 2.2), Column("Lost there", 0.9),
    Column("Lost back", 0.9), Column("Gets", 0.9),
)  # fmt: skip
_FUSE_COLUMNS = (
    Column("Fuse before", 2.2), Column("As planned", 1), Column("Carries", 1), Column("Its cable takes", 1.2),
    Column("Feeds", 2),
)  # fmt: skip
_CABLE_COLUMNS = (
    Column("Cable to", 2.2), Column("Length", 1.6), Column("Size", 1), Column("Carries", 1), Column("Loses", 0.9),
    Column("Fuse before it", 1.2), Column("Takes at most", 1.2),
)  # fmt: skip
_CHOICE_COLUMNS = (
    Column("Cable to", 1.5), Column("As planned", 1.1), Column("Thinnest cable", 1.2), Column("Why no thinner", 1.8),
    Column("Next size", 1.1), Column("Smallest fuse", 1.2),
)  # fmt: skip


def _unit_row(line: UnitLine) -> tuple[Cell, ...]:
    return (
        Strong(line.unit), Strong(_amps(line.current_a)), line.how,
        _volts(line.feed_drop_v), _volts(line.ground_drop_v), Strong(_volts(line.left_v)),
    )  # fmt: skip


def _choice_row(line: CableChoice, fuse_a: float | None) -> tuple[Cell, ...]:
    """What is planned, the thinnest size that does, why no thinner one, and what comes next; the same of its fuse."""
    metal = f" {line.metal}" if line.metal == "CCA" else ""
    end, laid = (line.end, length(line.length_m)), (Strong(size_words(line.laid) + metal), _fused(fuse_a))
    allowed = _volts(max(line.allowed_v, 0.0))
    if line.lay is None:
        why = f"the other cables of the way leave it {allowed}: no size on the list loses so little"
        return end, laid, Strong("none"), why, "thicken the others first", "none"
    why = {
        "loses too much": f"it may lose {allowed}",
        "fuse too big for it": "a thinner one is not protected by that fuse",
        "thinner than its feed": "no thinner than its feed",
    }.get(line.why, "the thinnest of the list is enough")
    if line.thinner is not None and line.why == "loses too much":
        why += f"; {size_words(line.thinner.size)} would lose {_volts(line.thinner.drop_v)}"
    elif line.thinner is not None:
        why = f"{size_words(line.thinner.size)} is too thin for that fuse"
    after = "none thicker on the list"
    if line.thicker is not None:
        after = f"{size_words(line.thicker.size)}, loses {_volts(line.thicker.drop_v)}"
    lay = Strong(size_words(line.lay.size) + metal)
    return end, laid, (lay, f"loses {_volts(line.lay.drop_v)}"), why, after, _fuse_cell(line)


def _fused(fuse_a: float | None) -> str:
    return "no fuse" if fuse_a is None else f"fuse {_amps(fuse_a)}"


def _fuse_cell(line: CableChoice) -> Cell:
    if line.fuse is None or line.fuse.rating_a is None:
        return "ground, no fuse" if line.limit_a is None else f"none fits: takes {_amps(line.limit_a)}"
    after = f"next {_amps(line.fuse.runner_up_a)}" if line.fuse.runner_up_a is not None else "no next: cable's limit"
    return Strong(_amps(line.fuse.rating_a)), after if line.fuse.fits else "less than 1.25 times the current"


def _fuse_row(line: FuseLine) -> tuple[Cell, ...]:
    return (
        line.name, Strong(_amps(line.rating_a) if line.rating_a is not None else NOT_RECORDED),
        _counted(line.current_a),
        _amps(line.limit_a) if line.limit_a is not None else NOT_RECORDED, ", ".join(line.feeds) or NOT_COUNTED,
    )  # fmt: skip


def _cable_row(line: CableLine) -> tuple[Cell, ...]:
    fuse = "none: up to the fuse" if math.isinf(line.fuse_a) else _amps(line.fuse_a)
    if math.isnan(line.fuse_a):
        fuse = "ground, no fuse"
    return (
        line.end, length(line.length_m) if line.length_m is not None else NOT_RECORDED, Strong(line.size),
        _counted(line.current_a), _volts(line.drop_v) if line.current_a > NOTHING_A else NOT_COUNTED,
        fuse, _amps(line.limit_a),
    )  # fmt: skip


def _counted(value: float) -> str:
    """What is fed by the car's own wiring, or draws nobody knows what, is no 0 A."""
    return _amps(value) if value > NOTHING_A else NOT_COUNTED


def _amps(value: float) -> str:
    return f"{value:.3g}\N{NO-BREAK SPACE}A"


def _volts(value: float) -> str:
    return f"{value:.2f}\N{NO-BREAK SPACE}V"
