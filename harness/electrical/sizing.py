"""Which cable to lay: the thinnest that loses no more than allowed and that a wanted fuse protects."""

from __future__ import annotations

from typing import NamedTuple

from harness.electrical.conductors import BASE_C, ohm_per_m
from harness.electrical.fuses import greatest_fuse_a
from harness.units import WireSize, wire_size

# What a shop stocks, thin to thick.
AWG = tuple(
    wire_size(f"{gauge} AWG") for gauge in ("18", "16", "14", "12", "10", "8", "6", "4", "2", "1/0", "2/0", "4/0")
)
SAE = tuple(
    wire_size(f"{gauge} SAE") for gauge in ("18", "16", "14", "12", "10", "8", "6", "4", "2", "1/0", "2/0", "4/0")
)
METRIC = tuple(
    wire_size(f"{area} mm2") for area in ("0.75", "1", "1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95")
)


class Sized(NamedTuple):
    """One size and the volts lost over it, there and back where the length is."""

    size: WireSize
    drop_v: float


class Choice(NamedTuple):
    """The size to lay, the next thinner with what it would lose, the next thicker; None at the ends of the list."""

    chosen: Sized | None
    thinner: Sized | None
    thicker: Sized | None


def sizes_like(size: WireSize) -> tuple[WireSize, ...]:
    """The list that a size is of: AWG, SAE or metric."""
    system = size.text.rsplit(" ", 1)[-1]
    return {"SAE": SAE, "mm2": METRIC}.get(system, AWG)


def drop_v(
    size: WireSize, current_a: float, length_m: float, metal: str = "copper", temperature_c: float = BASE_C
) -> float:
    """Volts lost over a length of one conductor."""
    return current_a * length_m * ohm_per_m(size, metal, temperature_c)


def size_for(
    current_a: float, length_m: float, allowed_v: float, sizes: tuple[WireSize, ...] = AWG, *,
    fuse_a: float = 0.0, chart: str = "A", metal: str = "copper", temperature_c: float = BASE_C,
) -> Choice:  # fmt: skip
    """The thinnest of `sizes` that loses at most `allowed_v` and that a fuse of `fuse_a` still protects."""
    lost = [Sized(size, drop_v(size, current_a, length_m, metal, temperature_c)) for size in sizes]
    for at, each in enumerate(lost):
        if each.drop_v <= allowed_v * (1 + 1e-9) and greatest_fuse_a(each.size, metal, chart) >= fuse_a * (1 - 1e-9):
            return Choice(each, lost[at - 1] if at else None, lost[at + 1] if at + 1 < len(lost) else None)
    return Choice(None, lost[-1] if lost else None, None)
