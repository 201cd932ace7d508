"""C16."""

from collections.abc import Iterator

from harness.checks.losses import heard_at
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.muted import muted
from harness.graph.wiring import Wiring

KEY_OUT = "out"


@check(
    "C16",
    Severity.FIX,
    "Chime muted while the added unit sleeps",
    source="common practice, no source",
    by_joints=False,
    needs="features",
)
def muted_while_asleep(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a sound that the car makes with the key out (`key: out`), which as planned reaches its
    speaker only through an added unit that is awake only with the key or the radio on.

    Why it matters: the belt or light chime is silent just when it is needed, and with the radio on, as one tests it,
    all is well.

    Example: the chime plays through the left front speaker; that pair now runs through a processor that the radio's
    turn-on lead wakes.

    What to do: leave that pair passed on as it was, or let the unit wake by signal or by bus as well; test with the
    key out and a door open.

    Known limits: only features that say `key: out`. A unit that a signal wakes counts as awake, though it may swallow
    the first tone; so does one of which nobody wrote how it wakes. Whether its supply is on isn't looked at.
    Emergency calls are C23.

    Source: common practice, no source.
    """
    for each in muted(wiring):
        feature, cause = each.feature, each.cause
        if feature.key != KEY_OUT:
            continue
        units = " and ".join(each.units)
        place = cause.place if cause else feature.place
        yield Fault(
            at=Spot(place, wiring.words(cause.contact) if cause else feature.name),
            message=f"{feature.name} to {heard_at(wiring, each.contacts)} must pass {units}, "
            f"which {'sleeps' if len(each.units) == 1 else 'sleep'} while the key is out: it is silent then.",
            do=f"Pass this pair on as it was, or let {units} wake by signal or by bus too; test with the key out and a "
            "door open.",
            about=tuple(dict.fromkeys((*each.contacts, *(cause.about if cause else ())))),
            also=(Spot(feature.place, feature.name),),
            path=each.path,
        )
