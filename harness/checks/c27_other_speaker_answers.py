"""C27."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import holding
from harness.graph.signal import Driver
from harness.graph.wiring import Wiring


@check(
    "C27",
    Severity.FIX,
    "Another speaker answers than planned",
    source="common practice, no source",
    by_joints=False,
    needs="record plays",
)
def other_speaker_answers(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output of the radio that was played alone, and other speakers answered than the plan
    leads it to; or the level did not follow the volume.

    Why it matters: two leads are crossed, a route is set otherwise, or a joint is open: what is on paper is
    not what is in the car.

    Example: FL was played, and the right front door answered.

    What to do: follow the output by the route picture; look at the joints and at the processor's routes, then
    play it again. `ringout locate` finds the place.

    Known limits: the last record of an output counts. Speakers are held against the plan's signals as
    written; which of two coils answers is not known.

    Source: common practice, no source: one channel at a time is the test that finds crossed leads.
    """
    played = {record.what.lower(): record for record in holding(wiring, "plays")}
    for driver in wiring.signals.drivers:
        record = played.get(driver.name.lower())
        if record is None:
            continue
        planned, heard = _planned(wiring, driver), set(record.word("heard").split()) - {"none"}
        name = driver.name.replace(".", " ")
        said = []
        if {each.lower() for each in heard} != {each.lower() for each in planned}:
            said.append(
                f"{' and '.join(sorted(heard)) or 'nothing'} answered, planned {' and '.join(planned) or 'nothing'}"
            )
        if record.word("follows") in ("fader", "nothing"):
            said.append("the level doesn't follow the volume")
        if said:
            yield Fault(
                at=Spot(record.place, name),
                message=f"{name} played alone: {'; '.join(said)}. What is in the car is not what the plan says.",
                do="Follow it by the route picture: joints, routes, the take-off; put it right, and play it again.",
                about=(driver.plus, driver.minus),
            )


def _planned(wiring: Wiring, driver: Driver) -> list[str]:
    """The speakers that an output is led to, in the job's order."""
    signals = wiring.signals
    return list(
        dict.fromkeys(
            receiver.speaker
            for receiver in signals.speaker_receivers
            if any(way.source.name == driver.name for way in signals.ways(receiver))
        )
    )
