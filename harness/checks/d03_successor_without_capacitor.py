"""D03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.load_words import about_of, ohms, way_of
from harness.graph.loads import loads
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check(
    "D03",
    Severity.FIX,
    "New parallel speaker lost its capacitor",
    source="common practice, no source",
    by_joints=False,
    needs="new speakers",
)
def successor_without_capacitor(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker that had a capacitor as found, whose successor has none, in parallel with another
    on one output.

    Why it matters: the capacitor kept bass away from it, and its ohms out of the load. Without it the load is
    halved, and the small speaker gets bass.

    Example: the dash speaker had 47 uF in line; the new one of 4 ohm goes beside the door's 4 ohm without.

    What to do: fit a capacitor of the old value in its + wire, or give it an output of its own with a high-pass.

    Known limits: told where `new` is a table that says what the successor is. A capacitor that sits in the car's
    wiring and stays must be written for the new one too.

    Source: common practice, no source.
    """
    for load in loads(wiring):
        names = list(dict.fromkeys(arrival.speaker for arrival in load.arrivals))
        if len(names) < 2 or load.least is None:
            continue
        for name in names:
            speaker = wiring.job.parts.speakers[name]
            if not speaker.capacitor or speaker.successor is None or speaker.successor.capacitor:
                continue
            was = speaker.capacitor if speaker.capacitor != "unknown" else "a capacitor of unknown value"
            yield Fault(
                at=Spot(speaker.place, f"speaker {printed(name)}"),
                message=f"{printed(name)} had {was} in line and the new one has none: "
                f"{load.driver.name.replace('.', ' ')} sees {ohms(load.least.ohm)}, and the new speaker gets bass.",
                do="Fit a capacitor of the old value in its + wire, or give it an output of its own with a high-pass.",
                about=about_of(wiring, load),
                path=way_of(wiring, load),
            )
