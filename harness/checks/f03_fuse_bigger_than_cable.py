"""F03."""

from collections.abc import Iterator

from harness.checks.overfusing import faults
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.overfused import BEHIND_ITS_FUSE
from harness.graph.wiring import Wiring


@check(
    "F03",
    Severity.STOP,
    "Fuse bigger than its cable",
    source="fuse charts of two car-audio guides, seen 2026",
    by_joints=False,
    needs="runs",
)
def fuse_bigger_than_cable(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a piece of cable right behind a fuse whose rating is above what the cable may carry.

    Why it matters: where the cable rubs through, it glows and sets fire to what it touches before the fuse opens.

    Example: 8 AWG behind 100 A; the chart of the house preset allows 50 A.

    What to do: fit the fuse named, or lay the size named. A fuse is chosen for the cable first, then for the load.

    Known limits: the charts are for single cables in free air; bundles, heat and thin insulation ask for less. Sizes
    between two rows of the chart count in proportion. Cables without a size are told as not checked.

    Source: fuse charts of two car-audio guides, seen 2026, about 300 circular mils per ampere. They differ; the
    preset says which one holds.
    """
    yield from faults(wiring, BEHIND_ITS_FUSE, "the cable burns before the fuse opens.", "fuse")
