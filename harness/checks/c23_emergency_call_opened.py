"""C23."""

from collections.abc import Iterator

from harness.checks.losses import heard_at
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.heard import lost_features
from harness.graph.wiring import Wiring


@check(
    "C23",
    Severity.STOP,
    "Emergency-call voice on an opened channel",
    source="common practice, no source",
    needs="features",
)
def emergency_call_opened(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an emergency call whose way to its speaker is opened: lost, or led through an
    added unit.

    Why it matters: after a crash the voice must come with the radio off and every added unit asleep or
    without supply.

    Example: the emergency call speaks from the left front speaker, and that pair now runs through the
    processor.

    What to do: leave that speaker's pair uncut and passed on as it was, and take another one for the
    processor.

    Known limits: only calls that are written under `features` with their speaker are known. A unit that the
    call passed as found may stay in its way.

    Source: common practice, no source.
    """
    for lost in lost_features(wiring, frozenset({"emergency"}), untouched=True):
        feature, cause = lost.feature, lost.cause
        place = cause.place if cause else feature.place
        where = heard_at(wiring, lost.contacts) if lost.contacts else "the car"
        if cause is not None and cause.unit:
            at = cause.unit
            message = f"{feature.name} is heard through {at}, which is taken out: no voice after a crash."
        else:
            at = wiring.words(cause.contact) if cause else feature.name
            how = f"must pass {' and '.join(lost.through)}" if lost.through else "no longer gets there"
            message = f"{feature.name} to {where} is opened at {at} and {how}: it must work with all else off."
        yield Fault(
            at=Spot(place, at),
            message=message,
            do="Pass this pair untouched from its unit to its speaker, and take another speaker into the plan.",
            about=tuple(dict.fromkeys((*lost.contacts, *(cause.about if cause else ())))),
            also=(Spot(feature.place, feature.name),),
            path=lost.way,
        )
