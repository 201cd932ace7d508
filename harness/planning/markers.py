"""Marker colours for a pair, by the trade's corner colours."""

from __future__ import annotations

from typing import NamedTuple

from harness.model.colour import Colour, read_colour
from harness.model.function import Function

# Aftermarket speaker colours: left front white, right front grey, left rear green, right rear violet, − with
# a black stripe; EIA/CEA lead colours as public lead tables quote them, seen 2026.
CORNERS = {"FL": "WH", "FR": "GY", "RL": "GN", "RR": "VT"}
STRIPE = "BK"


class Marker(NamedTuple):
    """Sleeves or tape for the two wires of a pair, + first, and a word where one colour serves two pairs."""

    plus: Colour
    minus: Colour
    label: str  # FL, or FL-TW where a driver has a pair of its own

    @property
    def words(self) -> str:
        """`+ white, − white with black stripe`."""
        return f"+ {self.plus.words}, − {self.minus.words}"


def marker(function: Function) -> Marker | None:
    """The marker of a channel's pair; None where the trade has no colour for it (centre, subwoofer, …)."""
    base = CORNERS.get(function.channel)
    if base is None:
        return None
    plus, minus = read_colour(base), read_colour(f"{base}/{STRIPE}")
    assert plus is not None
    assert minus is not None
    return Marker(plus, minus, function.base)
