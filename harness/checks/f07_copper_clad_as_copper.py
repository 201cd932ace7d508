"""F07."""

from collections.abc import Iterator

from harness.checks.overfusing import faults
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.overfused import COPPER_CLAD
from harness.graph.wiring import Wiring


@check(
    "F07",
    Severity.STOP,
    "Copper-clad aluminium counted as copper",
    source="a car-audio guide's page, seen 2026",
    by_joints=False,
    needs="runs",
)
def copper_clad_as_copper(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a cable of copper-clad aluminium (CCA) behind a fuse that copper of its size would carry and
    it does not.

    Why it matters: aluminium has half as much resistance again. The cable runs hot at a current that the chart for
    copper allows.

    Example: 4 AWG CCA behind 125 A; it counts as two sizes thinner, 6 AWG, and carries 80 A.

    What to do: fit the fuse named, or lay copper or a thicker size.

    Known limits: the copper skin is not counted, so the figure is on the safe side. CCA is known where the run says
    so; a cable without a word counts as copper.

    Source: a car-audio guide's page, seen 2026: 16.06 against 10.37 ohm circular mil per foot.
    """
    yield from faults(wiring, COPPER_CLAD, "copper-clad aluminium counts two sizes thinner.", "fuse")
