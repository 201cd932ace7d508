"""The customer's page: what was fitted, where the fuses are, what was tried, and how to go back to stock."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.proven import built, released, tried
from harness.planning.customer import back_to_stock, fitted, functions, fuse_places
from harness.planning.left_open import left_open
from render.blocks import Block, Caution, Column, Grid, Heading, Listing, Para, Room, Sheet, Strong
from render.documents import document
from render.documents.wording import NOT_RECORDED, count, or_not_recorded

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof

_CAUTIONS = (
    "A fuse that blows is replaced by one of the same amperes. If that blows too, leave it out and come back.",
    "Smoke, heat or a smell of burning: engine off, and the fuse at the battery out.",
    "Restraints (airbags, belts) and high voltage (orange cables) were not to be touched by this work, nor should be.",
    "Loud sound harms hearing, for good: the longer, the sooner.",
)


@document("customer", title="For the owner of the car", order=22)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """One page in plain words, to stay in the car."""
    if proof.wiring is not None:
        yield Sheet("customer", "For the owner of the car", tuple(_blocks(proof)))


def _blocks(proof: Proof) -> Iterator[Block]:
    wiring = proof.wiring
    assert wiring is not None
    yield Para(_how_far(proof, wiring))
    done = built(wiring)
    yield Heading("What was fitted" if done else "What is to be fitted", 2)
    yield Grid(
        (Column("What", 3), Column("Where", 3)),
        tuple((Strong(each.what), or_not_recorded(each.where)) for each in fitted(wiring)),
    )
    fuses = fuse_places(wiring)
    yield Heading("Fuses that were added" if done else "Fuses that are to be added", 2)
    if fuses:
        rows = tuple(
            (
                Strong(f"{each.rating_a:g}\N{NO-BREAK SPACE}A" if each.rating_a else NOT_RECORDED),
                each.where,
                each.protects,
            )
            for each in fuses
        )
        yield Grid((Column("Value", 0.6), Column("Where", 3), Column("Protects", 2.4)), rows)
    else:
        none = "No fuse is written in the plan." if wiring.job.has_runs else "Not written down."
        yield Para(f"{none} Ask the workshop.")
    listed = functions(wiring)
    yield Heading("What the car did before, and does now", 2)
    if listed:
        yield Grid((Column("Function", 2), Column("Now", 3)), tuple((Strong(each.name), each.state) for each in listed))
    else:
        yield Para("No function was listed before the work.")
    if left := left_open(wiring) if wiring.job.records else []:
        yield Heading("What is still open", 2)
        yield Listing(tuple(left))
    yield Heading("To have the car as it was", 2)
    yield Listing(tuple(back_to_stock(wiring)), numbered=True)
    yield Caution("\n".join(_CAUTIONS))
    yield Grid((Column("Workshop", 2), Column("Owner", 2), Column("Date", 1)), ((Room(50), Room(50), Room(25)),))


def _how_far(proof: Proof, wiring: Wiring) -> str:
    """How far the work is proved, in words that rest on the verdict and on records only."""
    counts, verdict = proof.report.counts, proof.report.verdict
    if verdict == "verified":
        lost = ", or was given up as written below" if any(each.signed for each in tried(wiring)) else ""
        said = (
            "Every wire pair that was used was tried on this car, every output was heard, and every function that was "
            f"known to work before works again{lost}."
        )
    elif verdict == "released" and (signed := released(wiring)) is not None:
        where = "what is open stands below" if left_open(wiring) else "what is asked stands on the workshop's sheets"
        said = (
            f"{signed.word('name') or signed.by} signed to let the car go before everything was tried "
            f"({', '.join(filter(None, (signed.when[:10], signed.word('reason'))))}); {where}."
        )
    elif verdict in ("stop", "mend"):
        said = "The plan has a fault that must be mended first; the work is not finished by this page."
    else:
        said = "The work is planned or under way; it is not finished by this page."
    lacking, against = counts.charted + counts.measured, counts.contradicted
    said += f" {count(lacking, 'wire pair')} not tried." if lacking else ""
    return said + (f" {count(against, 'wire pair')} tried and not as expected." if against else "")
