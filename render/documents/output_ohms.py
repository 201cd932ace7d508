"""The ohms at each output's leads: for the same meter as the toning checklist, after the joints are made."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from harness.graph.output_ohms import AtOutput, at_outputs
from harness.graph.resistance import in_band
from harness.model.contact import printed
from harness.planning.written import Written, body_fits
from render.blocks import Block, Cell, Column, Grid, Para, Room, Strong, Tick
from render.documents.wording import NOT_RECORDED, as_read, ohms

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring

# keeps a short reading or word together in a narrow column
_HOLD = "\N{NO-BREAK SPACE}"


def output_ohms(wiring: Wiring) -> Iterator[Block]:
    """The ohms of each output of ours with all beyond it joined: the last look before power."""
    found = at_outputs(wiring)
    if not found:
        return
    columns = (
        Column("Output", 1.5),
        Column("Speakers on it", 2.4),
        Column("By nominal", 1),
        Column("Meter expects", 2.1),
        Column("Reads", 1.1),
        Column("Body: open", 1.1),
    )
    rows: list[tuple[Cell, ...]] = []
    written = Written(wiring)
    for each in found:
        ends = (each.driver.plus, each.driver.minus)
        lines = ", ".join(" then ".join(line) + (" in line" if len(line) > 1 else "") for line in each.lines)
        if len(each.lines) > 1:
            lines += " side by side"
        nominal = f"{each.nominal_ohm:.3g}{_HOLD}Ω" if each.nominal_ohm else NOT_RECORDED
        rows.append(
            (
                Strong(f"{each.driver.name.partition('.')[0]}{_HOLD}{printed(each.driver.name.partition('.')[2])}"),
                lines,
                Strong(nominal),
                _meter(each),
                (*as_read(reads, in_band(each.expected, reads)), written.read_by(*ends))
                if (reads := written.reads(*ends))
                else Room(18),
                as_read(body, body_fits(body)) if (body := written.body(*ends)) else Tick("+", "−"),
            )
        )
    yield Para(
        "Once the joints are made, before power, fuses out: take the output's two leads off its terminals, everything "
        "beyond them joined. Read across the two, then each to the body; then put them back. Nominal: the load that "
        "the output sees. Meter: as on the toning checklist, with the plan's speakers."
    )
    yield Grid(columns, tuple(rows))


def _meter(each: AtOutput) -> Cell:
    """What a meter reads across the leads, at DC."""
    expected = each.expected
    blocked = f"{' and '.join(expected.blocked)}: capacitor in line" if expected.blocked else ""
    if expected.open_to_dc:
        return (Strong("open to DC"), blocked)
    if expected.unknown:
        return (Strong("write"), f"nominal of {' and '.join(expected.unknown)} {NOT_RECORDED}")
    value = Strong(ohms(expected.low_ohm, expected.high_ohm).replace(" ", _HOLD))
    return (value, blocked) if blocked else value
