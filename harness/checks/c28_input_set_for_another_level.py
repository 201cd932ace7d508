"""C28."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.set_otherwise import LOW_LEVEL, inputs_otherwise
from harness.graph.walk import feed_stages
from harness.graph.wiring import Wiring


@check(
    "C28",
    Severity.FIX,
    "Input switch set for another level",
    source="the unit's own instructions",
    by_joints=False,
    needs="settings",
)
def input_set_for_another_level(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit whose input switch is set to high level while a line output comes in, or to low level
    while the output of an amplifier or a bridged radio does.

    Why it matters: an input that waits for speaker wires hardly hears a line signal: hiss and little sound. One that
    waits for a line signal gets several times what it takes, distorts, and may be damaged.

    Example: a radio's speaker wires on `in1`, with `set: {input: low level}`.

    What to do: set the switch as the signal is, and turn the gain down before the first try.

    Known limits: looks only where `input` is written under `set:`. One switch for several inputs can't suit unlike
    ones: each that it doesn't suit is told. What an output gives is taken by its kind; volts against a window are C06
    and C07.

    Source: the unit's own instructions.
    """
    for each in inputs_otherwise(wiring):
        driver, receiver = each.feed.driver, each.feed.receiver
        comes, does = (
            ("a line signal", "hiss and little sound")
            if each.level == LOW_LEVEL
            else ("a speaker signal", "it distorts, and the input may be damaged")
        )
        unit, name = receiver.name.split(".", 1)
        yield Fault(
            at=Spot(each.setting.place, f"{unit} input"),
            message=f"{unit} {name} gets {comes} from {driver.name.replace('.', ' ')}, and its input switch is set to "
            f"{each.setting.words}: {does}.",
            do=f"Set the input of {unit} to {each.level}.",
            about=(driver.plus, driver.minus, receiver.plus, receiver.minus),
            path=tuple(stage.contact for stage in feed_stages(wiring, each.feed)),
        )
