"""C07."""

from collections.abc import Iterator

from harness.checks.leveling import about_of, other_inputs, spot_of, way_of
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.levels import arriving
from harness.graph.wiring import Wiring


@check("C07", Severity.FIX, "Signal too small for the input", source="the input's own window", by_joints=False)
def signal_too_small(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output that gives less volts at most than the input it feeds needs for full power.

    Why it matters: the gain is turned up until there is hiss, and full power never comes.

    Example: a line output of 0.4 V on an input that wants 2 V.

    What to do: take the line-level input where there is one, or a line driver.

    Known limits: as for C06, but sums count as of unrelated signals: that two channels are alike and in step is no
    promise of full power.

    Source: the input's own window; V = sqrt(P R).
    """
    for each in arriving(wiring):
        port = each.feed.receiver.port
        if port is None or each.small.verdict != "too small":
            continue
        others = other_inputs(wiring, each)
        yield Fault(
            at=spot_of(wiring, each),
            message=f"{each.feed.driver.name.replace('.', ' ')} gives {each.level.likely_v:.3g} V, {each.level.how}, "
            f"into {port.unit} {port.name} that wants {port.signal.least_v:g} V at least, {each.small.short_db:.3g} dB "
            "more: hiss, and no full power.",
            do=f"Use {port.unit} {others[0]}."
            if others
            else "Use a line driver, or take the signal where it is larger.",
            about=about_of(each),
            path=way_of(wiring, each),
        )
