"""D01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.load_words import about_of, legal, ohms, place_of, speakers_words, takes, way_of
from harness.graph.loads import loads
from harness.graph.wiring import Wiring


@check(
    "D01",
    Severity.STOP,
    "Load below what the output takes",
    source="the unit's own rating; IEC 60268-5",
    by_joints=False,
)
def load_below_least(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output whose speakers, as wired, make less than its `least` ohms somewhere in its band.

    Why it matters: the output gives more current than it was made for; it shuts down, or burns.

    Example: two subwoofers of two 2 ohm coils, all in parallel, are 0.5 ohm on an amplifier that takes 1 ohm.

    What to do: wire the same speakers to one of the values named, or take them to two outputs.

    Known limits: speakers count as their nominal ohms, as amplifiers are rated; IEC 60268-5 lets a speaker fall to
    80 % of that. Inductance isn't known. An output without `least` isn't judged, nor one with a speaker of unknown
    ohms. The cable counts as nothing here, so that it can't hide a fault.

    Source: the unit's own rating. Nominal impedance: IEC 60268-5, least modulus in the band at least 80 % of it.
    """
    for load in loads(wiring):
        if load.bridged or load.least is None or load.rated_ohm is None:
            continue
        if takes(load.rated_ohm, load.least.ohm):
            continue
        at = f" at {load.least.hz:.0f} Hz" if load.nominal_ohm and load.nominal_ohm > load.least.ohm * 1.01 else ""
        others = legal(wiring, load, load.rated_ohm)
        yield Fault(
            at=Spot(place_of(wiring, load), wiring.words(load.driver.plus)),
            message=f"{load.driver.name.replace('.', ' ')} sees {ohms(load.least.ohm)}{at} with "
            f"{speakers_words(load)}, rated for {ohms(load.rated_ohm)}: it shuts down or burns.",
            do=f"Legal with these speakers: {others}." if others else "Take the speakers to two outputs.",
            about=about_of(wiring, load),
            path=way_of(wiring, load),
        )
