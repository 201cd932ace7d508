"""B07."""

from collections.abc import Iterator

from harness.checks.a14_used_pair_never_toned import about_row
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.pairs import UsedPair, behind_capacitors, used_pairs
from harness.graph.rows import row_contacts
from harness.graph.wiring import Wiring


@check("B07", Severity.ASK, "Polarity unknown", source="common practice, no source", by_joints=False, needs="tones")
def polarity_unknown(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a pair that the plan uses and that was toned, where no record says which wire is +: neither
    the tone nor one of polarity.

    Why it matters: that the right speaker answered doesn't tell which way its cone went. A chart that is right about
    the pair may be wrong about + and −, and reversed it sounds right alone.

    Example: the tweeter's pair answers the tone; its capacitor lets no battery pulse through, and `plus` was left out.

    What to do: find + by a battery pulse and the cone, by a pulse of sound and a phase checker, or by the marks at the
    speaker, and add a record: `polarity`, with `plus` and `how`.

    Known limits: the last record that says the + of a pair counts. A battery pulse (`how: battery`) proves nothing
    where every speaker of the pair sits behind a capacitor. Pairs that nobody toned are asked for by A14. Behind
    a crossover a phase checker can lie; what it says is taken all the same.

    Source: common practice, no source.
    """
    for pair in used_pairs(wiring):
        if pair.state != "toned" or pair.tone is None or pair.polarity.plus:
            continue
        plug = wiring.job.parts.plugs[pair.plug]
        behind = _behind(wiring, pair)
        idle = pair.polarity.idle
        why = f" {behind} behind a capacitor, which stops a battery pulse." if behind else ""
        lacks = "its battery pulse proves no +" if idle else "which wire is + isn't recorded"
        how = "a pulse of sound and a phase checker" if behind else "a battery pulse and a look at the cone"
        where = f"{pair.plug} {pair.plus.cavity}/{pair.minus.cavity} ({about_row(pair.plus)})"
        yield Fault(
            at=Spot(idle.place if idle else pair.tone.place, pair.name),
            message=f"{where} answered, but {lacks}.{why} Reversed it would sound right alone.",
            do=f"Find + by {how}, or by the marks at the speaker, and add a `polarity` record with "
            f"`plus: {pair.plus.cavity}` or `plus: {pair.minus.cavity}`.",
            about=row_contacts(plug, pair.plus, pair.minus),
        )


def _behind(wiring: Wiring, pair: UsedPair) -> str:
    """`FL-TW is`, where every speaker of the pair as found has a capacitor; else empty."""
    names = behind_capacitors(wiring, pair.on_the_car[0])
    return f"{' and '.join(names)} {'is' if len(names) == 1 else 'are'}" if names else ""
