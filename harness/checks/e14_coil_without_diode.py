"""E14."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.relays import bare_coils
from harness.graph.wiring import Wiring


@check(
    "E14",
    Severity.NOTE,
    "Relay coil without a diode",
    source="common practice, no source",
    by_joints=False,
    needs="relay",
)
def coil_without_diode(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a relay's coil that a unit's turn-on output drives, with neither a diode nor a resistor
    across it, written with the relay or joined to its coil.

    Why it matters: when the output switches off, the coil answers with a hundred volts or more. The small transistor
    that drives it dies of that some day, long after the car has left.

    Example: `k1: {kind: relay, coil: 150 mA}` on the radio's turn-on lead.

    What to do: take a relay with a diode or resistor inside, or solder a diode across, its ring (k) on the 12 V side.

    Known limits: a radio's output may have a diode of its own, which the file can't say. A coil on a feed that the
    key switches isn't told. A diode put in the wrong way round isn't seen as one across.

    Source: common practice, no source.
    """
    for each in bare_coils(wiring):
        yield Fault(
            at=Spot(each.way.place, wiring.words(each.coil)),
            message=f"{wiring.words(each.giver.contact)} drives {wiring.words(each.coil)}, and nothing is written "
            "across that coil: its spike at switch-off hits the output.",
            do=f"Take a relay with a diode or resistor inside, or solder a diode across the coil of {each.relay}.",
            about=(each.coil, each.giver.contact),
            path=each.way.path,
        )
