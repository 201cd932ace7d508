"""What is written of a unit's supply: class, efficiency, draw, fuses, coil."""

from __future__ import annotations

import re

from harness.model.parts import Power
from harness.read.nodes import Table, Text
from harness.read.plugs import text_of
from harness.units import quantity

_FUSES = re.compile(r"(?:([1-9]) x )?(.+)")
_COIL = re.compile(r"(\S+ \S+)(?: (diode|resistor))?")
_NOTHING = Power()
_KEYS = frozenset(("class", "efficiency", "draws", "fuses", "coil"))


def read_power(table: Table, bad: set[int]) -> Power:
    """The supply of one unit; what is no good was told and counts as not written."""
    if not any(key.value in _KEYS for key, _ in table.items):
        return _NOTHING
    draws, coil = _known(table, "draws", bad), _known(table, "coil", bad)
    efficiency = _known(table, "efficiency", bad)
    in_watts = draws.endswith("W")
    coiled = _COIL.fullmatch(coil)
    fuses = table.get("fuses")
    ways: dict[str, float | None] = {}
    for key, value in fuses.items if isinstance(fuses, Table) else ():
        if isinstance(value, Text) and id(value) not in bad and id(key) not in bad:
            ways[key.value] = None if value.value == "unknown" else quantity(value.value, "current")
    own = _FUSES.fullmatch(_known(table, "fuses", bad))
    return Power(
        amp_class=_known(table, "class", bad),
        efficiency=quantity(efficiency, "share") if efficiency else None,
        draws_a=quantity(draws, "current") if draws and not in_watts else None,
        draws_w=quantity(draws, "power") if in_watts else None,
        fuses_a=(quantity(own[2], "current"),) * int(own[1] or 1) if own else (),
        ways_a=ways,
        coil_a=quantity(coiled[1], "current") if coiled else None,
        coil_across=(coiled[2] or "") if coiled else "",
    )


def _known(table: Table, key: str, bad: set[int]) -> str:
    """The text behind a key, empty where it is `unknown`, refused or not there."""
    text = text_of(table, key, bad)
    return "" if text == "unknown" else text
