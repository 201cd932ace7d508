"""F06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.cable import way_from_source
from harness.graph.overfused import end_words
from harness.graph.shop import figure
from harness.graph.supply import Fed, supply
from harness.graph.thicker import pieces, thicker
from harness.graph.wiring import Wiring
from harness.place import Place


@check(
    "F06",
    Severity.FIX,
    "Too many volts lost on the supply",
    source="FAA AC 43.13-1B chg 1, table 11-6",
    by_joints=False,
    needs="runs",
)
def drop_too_high(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit that loses more than the shop's figure over its feed and its ground together, with
    everything at full power.

    Why it matters: the amplifier has less power than was sold, its supply runs hot, and lamps dip with the bass.

    Example: 58 A over 19.5 ft of 8 AWG lose 0.71 V, with a limit of 0.5; 4 AWG loses 0.28.

    What to do: lay the size named for the piece named. It is the fewest pieces that clear it.

    Known limits: the body, the battery's own strap, joints and the leads of looms count as nothing. Where two cables
    feed one unit, what is offered is an estimate. All units that share a cable are told once, at its line.

    Source: FAA AC 43.13-1B chg 1, table 11-6: 0.5 V continuous on a 14 V system. Resistance by the AWG definition
    (ASTM B258) or IEC 60228 at the temperature of the preset.
    """
    solved = supply(wiring)
    if solved is None or solved.collapsed:
        return
    limit = figure(wiring, "drop")
    told: dict[Place, list[Fed]] = {}
    for fed in solved.fed:
        if fed.drop_v > limit.value * (1 + 1e-9) and (here := pieces(wiring, solved, fed)):
            told.setdefault(here[0].segment.place, []).append(fed)
    for place, those in told.items():
        worst = max(those, key=lambda fed: fed.drop_v)
        piece = pieces(wiring, solved, worst)[0]
        mend = thicker(wiring, solved, worst, limit.value)
        also = [fed.unit for fed in those if fed.unit != worst.unit]
        more = f" ({', '.join(also)} too)" if also else ""
        offers = " and ".join(
            f"{size.text} to {end_words(wiring, segment.b, segment.a)}" for segment, size in mend.changes
        )
        yield Fault(
            at=Spot(place, wiring.words(worst.feed)),
            message=f"{worst.unit} loses {worst.drop_v:.2f} V at full power, {piece.current_a:.3g} A in the worst "
            f"piece, limit {limit.words}{more}: less power, and lamps dip with the bass.",
            do=f"Lay {offers}: {mend.drop_v:.2f} V then." if offers else "Lay a second feed, or move the unit nearer.",
            about=(worst.feed, worst.ground),
            path=way_from_source(wiring, worst.feed),
        )
