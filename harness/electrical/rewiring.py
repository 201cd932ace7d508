"""What the same coils can be wired to: strings of equal coils in series, the strings in parallel."""

from __future__ import annotations

from typing import NamedTuple


class Wiring(NamedTuple):
    """`strings` in parallel, each of `in_series` coils; the ohms that they make together."""

    strings: int
    in_series: int
    ohm: float

    @property
    def words(self) -> str:
        """`all in parallel`, `all in series`, `2 strings of 2 in series`."""
        if self.in_series == 1:
            return "one alone" if self.strings == 1 else "all in parallel"
        return "all in series" if self.strings == 1 else f"{self.strings} strings of {self.in_series} in series"


def equal_wirings(count: int, coil_ohm: float) -> tuple[Wiring, ...]:
    """Every way in which each of `count` equal coils gets the same power, least ohms first.

    Strings of unequal length are left out: their coils would get unequal power.
    """
    made = [
        Wiring(count // in_series, in_series, coil_ohm * in_series / (count // in_series))
        for in_series in range(1, count + 1)
        if count % in_series == 0
    ]
    return tuple(sorted(made, key=lambda wiring: wiring.ohm))


def allowed_wirings(count: int, coil_ohm: float, least_ohm: float) -> tuple[Wiring, ...]:
    """Those at or above the least load, nearest to it first."""
    return tuple(each for each in equal_wirings(count, coil_ohm) if each.ohm >= least_ohm * (1 - 1e-9))
