"""B05."""

from collections.abc import Iterator

from harness.checks.b01_reversed import polarity_fault
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.polarity import Cause, causes
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check("B05", Severity.FIX, "One driver of a set inverted", source="common practice, no source")
def one_driver_inverted(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a driver that is reversed (or not inverted as asked for) while another driver of the
    same channel, or the other coil of the same speaker, is right.

    Why it matters: where both play they work against each other and a hole opens at the crossover; two coils
    of one cone against each other give next to nothing and heat up.

    Example: the left front woofer is joined + to +, the left front tweeter + to −, and nothing says that this
    is meant.

    What to do: swap the two wires at the place named. Some crossovers want one driver inverted: then write
    `inverted: factory` or `inverted: on purpose` on that speaker.

    Known limits: drivers are one set where their names have one channel (FL, FL-TW). What a crossover's
    filters do to the phase is not looked at.

    Source: common practice, no source.
    """
    for cause in causes(wiring):
        if cause.lone:
            yield polarity_fault(wiring, cause, _effect(cause))


def _effect(cause: Cause) -> str:
    turned = cause.wrong[0]
    other = next(name for name in turned.among)
    if turned.receiver.name.partition(".c")[0] == other.partition(".c")[0]:
        return "its coils work against each other, the cone hardly moves and the coils heat up."
    return f"it works against {printed(other.removeprefix('spk.'))}, with a hole where both play."
