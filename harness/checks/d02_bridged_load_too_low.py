"""D02."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.load_words import about_of, legal, ohms, place_of, speakers_words, takes, way_of
from harness.graph.loads import loads
from harness.graph.wiring import Wiring


@check("D02", Severity.STOP, "Bridged load too low", source="follows from the rating of one channel", by_joints=False)
def bridged_load_too_low(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a load across a bridge of two outputs that is less than twice what one of them takes.

    Why it matters: each half sees half of the load. A bridge of two channels rated for 2 ohm burns on 2 ohm, which
    one of them alone would take.

    Example: a subwoofer of 2 ohm across out1+ and out2− of an amplifier with `least 2 ohm` a channel.

    What to do: wire the speakers to the value named, or drive them from one channel.

    Known limits: as for D01. Where the maker gives another figure for the bridge, it isn't known here.

    Source: follows from the rating of one channel; half the load a side is common knowledge of the trade.
    """
    for load in loads(wiring):
        if not load.bridged or load.least is None or load.rated_ohm is None:
            continue
        if takes(load.rated_ohm, load.least.ohm):
            continue
        others = legal(wiring, load, load.rated_ohm)
        yield Fault(
            at=Spot(place_of(wiring, load), wiring.words(load.driver.plus)),
            message=f"Bridged, each half of {load.driver.name.replace('.', ' ')} sees {ohms(load.least.ohm / 2)} with "
            f"{speakers_words(load)}, rated for {ohms(load.rated_ohm / 2)}: it shuts down or burns.",
            do=f"Needs {ohms(load.rated_ohm)} or more"
            + (f"; legal with these speakers: {others}." if others else ": drive them from one channel."),
            about=about_of(wiring, load),
            path=way_of(wiring, load),
        )
