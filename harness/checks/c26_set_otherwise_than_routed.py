"""C26."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.set_otherwise import set_otherwise
from harness.graph.wiring import Wiring


@check(
    "C26",
    Severity.FIX,
    "Crossover or gain set otherwise",
    source="common practice, no source",
    by_joints=False,
    needs="settings",
)
def set_otherwise_than_routed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output in use whose high-pass, low-pass or gain under `set:` is off, or differs by more
    than a third of an octave or 1 dB from what its route says.

    Why it matters: levels, loads and bands of this plan are computed from the route. Set otherwise they are wrong, and
    a small speaker gets bass that it can't bear.

    Example: `routes: {out1: in1 80.. Hz}` with `set: {high-pass out1: 250 Hz}`.

    What to do: set it as the route says, or write in the route what is meant.

    Known limits: looks only where both are written. A tweeter without a capacitor is told as D08. How steep a crossover
    is isn't known.

    Source: common practice, no source: what a knob's scale may be off by.
    """
    for each in set_otherwise(wiring):
        driver, receiver = each.feed.driver, each.feed.receiver
        output = f"{driver.port.unit} {driver.port.name}"
        planned = f"{each.planned:g} {'dB' if each.setting.what == 'gain' else 'Hz'}"
        yield Fault(
            at=Spot(each.setting.place, f"{output} {each.setting.what}"),
            message=f"The {each.setting.what} of {output} is set to {each.setting.words}, its route says {planned}: "
            "levels and bands of this plan don't hold.",
            do=f"Set it to {planned}, or write in the route what is meant.",
            about=(driver.plus, driver.minus, receiver.plus, receiver.minus),
            path=wiring.way_in_words(driver.plus, wiring.planned.path(driver.plus, receiver.plus)),
        )
