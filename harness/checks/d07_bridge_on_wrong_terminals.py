"""D07."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.splits import splits
from harness.graph.walk import place_to_change
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check("D07", Severity.STOP, "Bridge on the wrong terminals", source="the unit's own instructions", needs="bridges")
def bridge_on_wrong_terminals(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker across two outputs of one unit that may be bridged, but not at these terminals.

    Why it matters: between two + terminals there is no signal, and the wrong pair may short a half of the amplifier.

    Example: a subwoofer across out1+ and out2+ of an amplifier that bridges out1+ and out2−.

    What to do: move the wire to the terminal named.

    Known limits: which terminals make the bridge is known from `bridges`. An amplifier without it is told as B06.

    Source: the unit's own instructions, as written under `bridges`.
    """
    units = wiring.job.parts.units
    for split in (each for group in splits(wiring) for each in group):
        unit, _, plus = split.plus_from.rpartition(".")
        other, _, minus = split.minus_from.rpartition(".")
        if unit != other or unit not in units:
            continue
        meant = next((b for b in units[unit].bridges if {b[0][:-1], b[1][:-1]} == {plus[:-1], minus[:-1]}), None)
        if meant is None:
            continue
        wrong = split.minus_from if minus not in meant else split.plus_from
        end = split.minus if wrong == split.minus_from else split.plus
        hops = wiring.planned.path(wrong, end)
        blamed = wiring.blame(hops)
        yield Fault(
            at=Spot(place_to_change(wiring, blamed) if blamed else wiring.contact(wrong).place, wiring.words(wrong)),
            message=f"{printed(split.name.removeprefix('spk.'))} is bridged over {unit} {printed(plus)} and "
            f"{printed(minus)}; {unit} bridges {printed(meant[0])} and {printed(meant[1])}: no sound, or a short.",
            do=f"Its + to {unit} {printed(meant[0])}, its − to {unit} {printed(meant[1])}.",
            about=(split.plus, split.minus, split.plus_from, split.minus_from),
            path=wiring.way_in_words(wrong, hops),
        )
