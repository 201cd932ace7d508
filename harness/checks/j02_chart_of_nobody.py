"""J02."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.pairs import used_pairs
from harness.graph.rows import row_contacts
from harness.graph.wiring import Wiring


@check(
    "J02",
    Severity.ASK,
    "Chart without source, date or name",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def chart_of_nobody(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug that the plan uses, with pairs not toned yet, whose `source` lacks the chart's name,
    its date or who checked it; once work at the car has begun.

    Why it matters: nobody can ask back, and nobody knows how old it is: the next bay trusts a colour by
    accident.

    Example: a plug without `source`, in a job whose first pairs are toned.

    What to do: write `source: {chart: …, date: …, by: …}`; or tone every pair that is used, then the car
    itself is the source.

    Known limits: asked from the first record on. What is written isn't looked up.

    Source: common practice, no source: a page must say its source, who verified it and when.
    """
    lacking: dict[str, list[str]] = {}
    for pair in used_pairs(wiring):
        if pair.state == "toned" or pair.plug in lacking:
            continue
        source = wiring.job.parts.plugs[pair.plug].source
        said = {"chart": source and source.chart, "date": source and source.date, "name": source and source.by}
        missing = [word for word, there in said.items() if not there]
        if missing:
            lacking[pair.plug] = missing
    for name, missing in lacking.items():
        plug = wiring.job.parts.plugs[name]
        pairs = [p for p in used_pairs(wiring) if p.plug == name and p.state != "toned"]
        yield Fault(
            at=Spot(plug.source.place if plug.source is not None else plug.place, name),
            message=f"{name} is used by a chart without {' or '.join(missing)}: nobody can ask who says what is where.",
            do=f"Write `source: {{chart: …, date: …, by: …}}` at {name}, or tone the pairs that are used.",
            about=row_contacts(plug, *(row for p in pairs for row in (p.plus, p.minus))),
        )
