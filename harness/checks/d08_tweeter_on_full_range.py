"""D08."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.load_words import place_of
from harness.graph.set_otherwise import bare_tweeters
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check(
    "D08",
    Severity.FIX,
    "Tweeter on a full-range output, no capacitor",
    source="common practice, no source",
    by_joints=False,
)
def tweeter_on_full_range(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a tweeter without a capacitor on an output of ours whose band begins below 1 kHz: by the
    high-pass under `set:` where it is written, else by the route.

    Why it matters: bass tears its coil in the first minute, often at the very first thump of the turn-on.

    Example: `out5: in5` to a tweeter, with no high-pass written and no capacitor on the speaker; or a route of
    `3000.. Hz` on an amplifier with `high-pass out5: unused`.

    What to do: set the high-pass first and write it, or fit a capacitor in the + wire.

    Known limits: outputs of radios and factory amplifiers are the car's own and not judged. A crossover that is
    written in neither place isn't known.

    Source: common practice, no source.
    """
    for each in bare_tweeters(wiring):
        load, receiver, setting = each.load, each.receiver, each.setting
        hops = wiring.planned.path(load.driver.plus, receiver.plus)
        output = load.driver.name.replace(".", " ")
        do = "Set the high-pass first and write it in the route, or fit a capacitor in the + wire."
        how = ""
        if setting is not None:
            how = f", its high-pass set to {setting.words},"
            do = f"Set the high-pass of {output} to {load.band_hz[0]:g} Hz as routed, or fit a capacitor in the + wire."
        yield Fault(
            at=Spot(setting.place if setting is not None else place_of(wiring, load), wiring.words(load.driver.plus)),
            message=f"{printed(receiver.speaker)} gets {each.low_hz:g} Hz and up from {output}{how} and has no "
            "capacitor: bass tears its coil.",
            do=do,
            about=(load.driver.plus, load.driver.minus, receiver.plus, receiver.minus),
            path=wiring.way_in_words(load.driver.plus, hops),
        )
