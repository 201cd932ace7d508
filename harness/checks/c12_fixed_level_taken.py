"""C12."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.volume import Taken, taken_fixed
from harness.graph.walk import place_to_change
from harness.graph.wiring import Wiring
from harness.place import Place


@check("C12", Severity.FIX, "Fixed-level take-off", source="common practice, no source", by_joints=False)
def fixed_level_taken(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output whose level is `fixed`, because the volume is made behind it, that an added unit
    takes and plays from a speaker with no volume on the way.

    Why it matters: from there on the level is full, whatever the knob says: full blast at the first turn-on.

    Example: the radio sends fixed line signals to the factory amplifier, which makes the volume by data bus; the
    processor takes them before that amplifier.

    What to do: take the signal behind the amplifier, or let the processor make the volume and write `volume` on its
    outputs.

    Known limits: a level is only known as fixed where the output says so. The car's own amplifier counts as making
    the volume unless its outputs are `fixed` themselves.

    Source: common practice, no source.
    """
    for taken in taken_fixed(wiring):
        feed = taken.feed
        driver, port = feed.driver.name.replace(".", " "), feed.receiver.name.replace(".", " ")
        speakers = " and ".join(dict.fromkeys(name.removeprefix("spk.") for name in taken.speakers))
        yield Fault(
            at=Spot(_place(wiring, taken), wiring.words(feed.entry)),
            message=f"{driver} gives a fixed level, its volume is made behind it, and {port} takes it before that: "
            f"{speakers} {'plays' if len(taken.speakers) == 1 else 'play'} at full level, whatever the knob says.",
            do="Take the signal where the volume is made already, or make the volume in the added unit and write "
            "`volume` on its outputs.",
            about=(feed.driver.plus, feed.driver.minus, feed.receiver.plus, feed.receiver.minus),
            path=taken.path,
        )


def _place(wiring: Wiring, taken: Taken) -> Place:
    """Where the feed was joined, else the output's own line."""
    blamed = wiring.blame(wiring.planned.path(taken.feed.driver.plus, taken.feed.entry))
    return place_to_change(wiring, blamed) if blamed is not None else taken.feed.driver.port.place
