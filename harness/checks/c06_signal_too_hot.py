"""C06."""

from collections.abc import Iterator

from harness.checks.leveling import about_of, other_inputs, spot_of, way_of
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.levels import arriving
from harness.graph.wiring import Wiring


@check("C06", Severity.FIX, "Signal too hot for the input", source="the input's own window", by_joints=False)
def signal_too_hot(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output that gives more volts at most than the input it feeds takes.

    Why it matters: the input clips long before the radio does, so that the sound is hard at half volume; some burn.

    Example: a radio's speaker output of 8.5 V on a line input that takes 4 V.

    What to do: take the high-level input where there is one, a line converter, or a pad of the decibels named.

    Known limits: the level is what the file writes of the output, else what power and load make. Where the gain from
    input to output is written, it is what comes in by that gain, sums in step as the worst case, and at most the
    output's own. A gain is volts out over volts in. Where it isn't written, or is turned down later, isn't known.

    Source: the input's own window; V = sqrt(P R).
    """
    for each in arriving(wiring):
        port = each.feed.receiver.port
        if port is None or each.hot.verdict != "too hot":
            continue
        others = other_inputs(wiring, each)
        either = f"Use {port.unit} {others[0]}, or a" if others else "Use a line converter, or a"
        yield Fault(
            at=spot_of(wiring, each),
            message=f"{each.feed.driver.name.replace('.', ' ')} gives {each.level.volts:.3g} V, {each.level.how}, into "
            f"{port.unit} {port.name} that takes {port.signal.most_v:g} V at most: it clips or burns.",
            do=f"{either} pad of {each.hot.pad_db} dB or more.",
            about=about_of(each),
            path=way_of(wiring, each),
        )
