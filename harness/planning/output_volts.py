"""The volts that an output gives at its rated power into the load that it sees, or as far as is written."""

from __future__ import annotations

from typing import NamedTuple

from harness.electrical.impedance import each_half_ohm
from harness.electrical.levels import volts_of
from harness.graph.levels import level_of
from harness.graph.loads import Load
from harness.graph.wiring import Wiring


class OutputVolts(NamedTuple):
    """Volts RMS, the watts that they are in the load (None where it is no rating), and where they come from."""

    volts: float
    power_w: float | None
    how: str


def output_volts(wiring: Wiring, load: Load) -> OutputVolts | None:
    """By V = sqrt(P R) with the rated watts and the lesser of the ohms seen and rated; None where nothing tells.

    Into more ohms than rated an output gives no more volts; into fewer no more than its rated watts are counted on.
    A bridge gives twice the volts of one half, each half driving half of the load. Without watts, the written level.
    """
    signal = load.driver.port.signal
    if signal.power_w and signal.load_ohm and load.nominal_ohm is not None:
        seen = each_half_ohm(load.nominal_ohm) if load.bridged else load.nominal_ohm
        halves = 2 if load.bridged else 1
        volts = halves * volts_of(signal.power_w, min(seen, signal.load_ohm))
        how = f"{'2 x ' if load.bridged else ''}{signal.power_w:g} W at {signal.load_ohm:g} ohm"
        return OutputVolts(volts, volts * volts / load.nominal_ohm, how)
    level = level_of(wiring, load.driver)
    return OutputVolts(level.volts, None, level.how) if level is not None else None
