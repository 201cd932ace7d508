"""J11."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "J11",
    Severity.FIX,
    "Evidence of another car",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def evidence_of_another_car(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: records that say by their own words that they were taken on another car than the job's.

    Why it matters: tones of the first car say nothing of the second one, whose loom may be another variant's.

    Example: a job was copied for the next car of the same kind, its evidence file with it.

    What to do: take the evidence file away and begin anew (`ringout again` does so), or correct the car's
    name if it is the same one.

    Known limits: records without `car` are not told; the tool's own always have it.

    Source: common practice, no source.
    """
    car = wiring.job.car
    name = " ".join(filter(None, (car.name, car.year))) if car is not None else ""
    others = [r for r in wiring.job.records if r.word("car") and r.word("car").lower() != name.lower()]
    if not others or not name:
        return
    first = others[0]
    many = f"{len(others)} records are" if len(others) > 1 else "One record is"
    yield Fault(
        at=Spot(first.place, first.what),
        message=f"{many} of {first.word('car')}, and this job is {name}: they prove nothing of this car.",
        do="Take the evidence file away and tone this car; or correct the car's name if it is the same one.",
        about=tuple(dict.fromkeys(name for record in others for name in record.contacts)),
    )
