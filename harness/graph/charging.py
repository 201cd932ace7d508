"""What the added units draw from the car's charging."""

from __future__ import annotations

from harness.graph.supply import supply
from harness.graph.wiring import Wiring

# Common practice, no source: music takes a third of full power on average; the car needs half of its alternator.
AVERAGE = 1 / 3
MARGIN = 1 / 2


def added_a(wiring: Wiring) -> float:
    """Amperes at full power of every unit on the laid feed whose draw is known; 0 where nothing is laid."""
    solved = supply(wiring)
    return sum(fed.current_a for fed in solved.fed) if solved is not None and not solved.collapsed else 0.0
