"""The cover: what the job is, how far it is proved, what was found and not looked at, what to beware of."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.finding import Finding, Severity
from harness.graph.contrary import contrary
from harness.graph.proven import release_words
from render.blocks import Banner, Block, Caution, Cell, Column, Grid, Heading, Keep, Listing, Para, Sheet, Strong
from render.diagrams.run import find_dot
from render.documents import document
from render.documents.masthead import state_words
from render.documents.wording import NOT_RECORDED, count, or_not_recorded

if TYPE_CHECKING:
    from harness.model.job import Job
    from harness.prove import Proof

_MOST_PLACES = 6
_MEANS = {
    "stop": "As planned, this can do damage or hurt someone. Join nothing, power nothing, until every STOP is gone.",
    "mend": "As planned, something won't work or will come back. Change the plan first, then print again.",
    "consistent-not-verified": "It all fits on paper. A chart is not the car: nothing here is proved until the pairs "
    "are toned on this car.",
    "released": "It all fits on paper, and someone has signed for what was not proved on this car.",
    "verified": "It all fits; every pair that the plan uses was toned on this car, every output heard, every function "
    "that worked before was tried again.",
    "unreadable": "The job file has to be put right before anything can be checked. Do not work from this paper.",
}
CAUTIONS = (
    "Local codes and licensed practice come before anything on this paper.",
    "Restraint wiring (often yellow): never probe, join or open it. Near it: battery off, the maker's wait over.",
    "High voltage (orange cables): stay away. Only people trained for it open or move anything orange.",
    "Battery: negative off before supply work, negative back on last. Nothing metal on your hands at the posts.",
    "Fuses: out until the last check. The main fuse sits close to the battery, never larger than its cable allows.",
    "Hearing: every tone and first sound begins at the lowest level, nobody's ear at a speaker.",
)


@document("cover", title="Cover", order=1)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """Who works on the job reads this first; nothing on it is better than the evidence."""
    yield Sheet("cover", "Cover", tuple(_blocks(proof)))


def _blocks(proof: Proof) -> Iterator[Block]:
    report = proof.report
    yield Banner(state_words(proof), loud=report.verdict in ("stop", "unreadable"))
    yield Para(_MEANS.get(report.verdict, ""))
    if report.verdict == "released" and proof.wiring is not None:
        yield Para(f"Signed by {release_words(proof.wiring)}")
    if proof.job is not None:
        yield _about(proof.job, proof.report.preset)
    yield _counts(proof)
    against = contrary(proof.wiring) if proof.wiring is not None else ()
    if against:
        yield Heading("Records that speak against the plan", 2)
        yield Listing(tuple(f"{each.words} ({each.record.signed or 'nobody signed'})" for each in against))
    yield from _findings(report.findings, proof.job_path)
    yield Keep((Heading("Before you touch the car", 2), Caution("\n".join(CAUTIONS))))
    if proof.job is not None:
        yield from _closed_plugs(proof.job)
    yield Heading("Not checked", 2)
    if report.unchecked:
        yield Listing(tuple(f"{each.what}: {each.why}" for each in report.unchecked))
    else:
        yield Para("Nothing was left out of what this version looks at.")
    if find_dot() is None:
        yield Para("Pictures: Graphviz was not found, so the route pictures print as lists of connections.")


def _about(job: Job, preset: str) -> Grid:
    car = job.car
    said: list[tuple[str, float, str]] = [
        ("Car", 2, " ".join(filter(None, (car.name, car.year))) if car else NOT_RECORDED),
        ("Steering wheel", 1, or_not_recorded(car.steering if car else "")),
        ("Audio as delivered", 1.5, or_not_recorded(car.audio if car else "")),
        ("Delivered without", 1.5, ", ".join(car.lacks) if car and car.lacks else "nothing declared"),
    ]
    said.append(("Preset", 0.9, or_not_recorded(preset)))
    if job.removed:
        said.append(("Comes out of the car", 1.5, ", ".join(job.removed)))
    columns = tuple(Column(title, weight) for title, weight, _ in said)
    return Grid(columns, (tuple(Strong(text) for _, _, text in said),))


def _counts(proof: Proof) -> Block:
    charted, measured, toned, against = proof.report.counts
    total = proof.report.counts.used
    return Heading(
        f"Pairs in use: {total}. Charted (on a page) {charted}, measured (by a meter) {measured}, "
        f"toned (heard) {toned}{f', contradicted {against}' if against else ''}",
        2,
    )


def _findings(findings: tuple[Finding, ...], job_path: str) -> Iterator[Block]:
    tally = [(severity, [each for each in findings if each.severity == severity]) for severity in Severity]
    said = ", ".join(f"{len(here)} {severity.name}" for severity, here in tally if here)
    alone = [severity for severity, here in tally if here]
    meaning = f" ({alone[0].meaning})" if len(alone) == 1 else ""
    yield Heading(f"Findings: {said or 'none'}{meaning}")
    for severity, here in tally:
        if not here:
            continue
        # the place is narrow and short, the words are many
        columns = (Column("Code"), Column("Where", 1.9), Column("What", 5.2), Column("Do now", 3.7))
        if len(alone) > 1:
            yield Heading(f"{severity.name}: {severity.meaning}", 2)
        yield Grid(columns, tuple((Strong(each.code), _where(each, job_path), _what(each), _do(each)) for each in here))


def _where(finding: Finding, job_path: str) -> str:
    """Each place's name and line; the part file's name where the line isn't in the job file itself."""
    spots = []
    for spot in finding.places[:_MOST_PLACES]:
        file = "" if spot.place.file == job_path else f"{os.path.basename(spot.place.file)} "
        spots.append(f"{spot.name} ({file}line\N{NO-BREAK SPACE}{spot.place.line})")
    more = len(finding.places) - _MOST_PLACES
    return "\n".join([*spots, *([f"and {count(more, 'more place')}"] if more > 0 else [])])


def _what(finding: Finding) -> Cell:
    return (Strong(finding.title), finding.message)


def _do(finding: Finding) -> Cell:
    return finding.do if finding.mend is None else (finding.do, f"Smallest change: {finding.mend.words}")


def _closed_plugs(job: Job) -> Iterator[Block]:
    for plug in job.parts.plugs.values():
        carried = {each.upper() for each in plug.carries}
        carried |= {row.function.base for row in plug.rows if row.function.kind in ("restraint", "high voltage")}
        danger = sorted(carried & {"SRS", "HV"})
        if danger:
            yield Caution(
                f"{plug.name} ({or_not_recorded(plug.where)}) carries {' and '.join(danger)}: leave it closed."
            )
