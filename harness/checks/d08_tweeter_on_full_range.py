"""D08."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.load_words import place_of, receiver_of
from harness.graph.loads import coil_of, loads
from harness.graph.wiring import Wiring
from harness.model.contact import printed

# Common practice, no source: no tweeter of a car is meant to play below this.
LOWEST_HZ = 1000.0


@check(
    "D08",
    Severity.FIX,
    "Tweeter on a full-range output, no capacitor",
    source="common practice, no source",
    by_joints=False,
)
def tweeter_on_full_range(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a tweeter without a capacitor on an output of ours whose band begins below 1 kHz.

    Why it matters: bass tears its coil in the first minute, often at the very first thump of the turn-on.

    Example: `out5: in5` to a tweeter, with no high-pass written and no capacitor on the speaker.

    What to do: set the high-pass first and write it in the route, or fit a capacitor in the + wire.

    Known limits: outputs of radios and factory amplifiers are the car's own and not judged. A crossover that isn't
    written in the route isn't known.

    Source: common practice, no source.
    """
    units = wiring.job.parts.units
    for load in loads(wiring):
        unit = units[load.driver.port.unit]
        if unit.is_source or unit.kind == "factory amplifier" or load.band_hz[0] >= LOWEST_HZ:
            continue
        for name in dict.fromkeys(feed.receiver.name for feed in wiring.signals.feeds_from(load.driver)):
            receiver = receiver_of(wiring, name)
            speaker = wiring.job.parts.speakers.get(receiver.speaker)
            if speaker is None or speaker.function.driver != "TW" or coil_of(speaker).capacitor is not None:
                continue
            hops = wiring.planned.path(load.driver.plus, receiver.plus)
            yield Fault(
                at=Spot(place_of(wiring, load), wiring.words(load.driver.plus)),
                message=f"{printed(speaker.name)} gets {load.band_hz[0]:g} Hz and up from "
                f"{load.driver.name.replace('.', ' ')} and has no capacitor: bass tears its coil.",
                do="Set the high-pass first and write it in the route, or fit a capacitor in the + wire.",
                about=(load.driver.plus, load.driver.minus, receiver.plus, receiver.minus),
                path=wiring.way_in_words(load.driver.plus, hops),
            )
