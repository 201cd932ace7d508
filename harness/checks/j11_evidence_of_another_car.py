"""J11."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.outdated import foreign
from harness.graph.wiring import Wiring
from harness.model.evidence import Record


@check(
    "J11",
    Severity.FIX,
    "Copied job keeps old evidence",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def evidence_of_another_car(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: records whose `car` is another one than the job's.

    Why it matters: charts change within a model year, and cars are repaired and rewired. Tones of the first car say
    nothing of the second, and the job looks proved.

    Example: a job copied for the next car of the same kind, with its evidence file copied beside it.

    What to do: put the copied file aside, start this car with no records, and tone, read and try on this car. What was
    charted and how it is joined may be kept.

    Known limits: `car` in a record is the car's name, or its name and year, as under `car` of the job; spaces and
    capitals don't matter. A record without `car` may be any car's and counts as this one's. Records of another car
    prove nothing here in any case, and one that strikes takes no record of this car back. Told once a car.

    Source: common practice, no source.
    """
    others: dict[str, list[Record]] = {}
    for record in wiring.job.records:
        if foreign(wiring, record):
            others.setdefault(" ".join(record.word("car").lower().split()), []).append(record)
    car = wiring.job.car
    mine = " ".join(filter(None, (car.name, car.year))) if car is not None else ""
    for records in others.values():
        first = records[0]
        many = "1 record is" if len(records) == 1 else f"{len(records)} records are"
        yield Fault(
            at=Spot(first.place, first.what),
            message=f"{many} of another car, {first.word('car')}, and this job is for {mine}: what was toned and tried "
            "there proves nothing here.",
            do="Put the copied evidence file aside, start this car with none, and tone, read and try on this car.",
            also=tuple(Spot(each.place, each.what) for each in records[1:]),
        )
