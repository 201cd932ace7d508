"""The splice list: the order of work, and every joint with both its sides, in that order."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.joints import methods
from harness.planning.order import order_of_work
from harness.planning.runs import Run, laid_runs
from render.blocks import (
    Block,
    Caution,
    Cell,
    Column,
    Grid,
    Heading,
    Keep,
    Listing,
    Para,
    Piece,
    Sheet,
    Strong,
    Tick,
)
from render.documents import document
from render.documents.wording import (
    NOT_RECORDED,
    count,
    labelled,
    length,
    name_of,
    or_not_recorded,
    piece_words,
    swatch,
)

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.job import Joint
    from harness.prove import Proof


@document("splice-list", title="Splice list, in working order", order=4)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For whoever makes the joints, one after another, with a box to tick for each."""
    if proof.wiring is not None:
        yield Sheet("splice-list", "Splice list", tuple(_blocks(proof.wiring)), landscape=True)


def _blocks(wiring: Wiring) -> Iterator[Block]:
    job = wiring.job
    order = order_of_work(wiring)
    yield Heading("Order of work")
    if order.proposed:
        yield Para("The job says no steps, so this order is proposed. Do not pass a step that failed.")
    steps: list[tuple[Cell, ...]] = []
    for number, step in enumerate(order.steps, 1):
        what = [step.what, *(labelled(wiring.contact(name)) for name in step.contacts)]
        if step.joints:
            what.append(f"Joints: {', '.join(step.joints)}")
        steps.append((Strong(str(number)), Strong(step.verb), "\n".join(what), Tick("done")))
    yield Grid((Column("Step"), Column("Do", 2), Column("What", 9), Column("", 1.6)), tuple(steps))
    if order.unplaced:
        yield Caution(f"No step of the job names {count(len(order.unplaced), 'joint')}: {', '.join(order.unplaced)}.")
    yield Heading("Joints")
    if not job.joints:
        yield Para("No joints: nothing is soldered, crimped, screwed or tapped.")
    numbers = {name: number for number, step in enumerate(order.steps, 1) for name in step.joints}
    for number, step in enumerate(order.steps, 1):
        if step.joints:
            joints = [wiring.joints[name] for name in step.joints]
            yield _grid(wiring, joints, f"Step {number}: {step.verb}, {step.what}")
    left = [joint for joint in job.joints if joint.name not in numbers]
    if left:
        yield _grid(wiring, left, "In no step")
    yield from _plug_in(wiring)
    yield from _runs(wiring)
    yield from _method_steps(job.joints)


def _grid(wiring: Wiring, joints: list[Joint], caption: str) -> Grid:
    columns = (
        Column("Joint"),
        Column("How and where", 3),
        Column("This side", 4),
        Column("Other side", 4),
        Column("Notes", 2),
        Column("Made", 2.2),
    )
    rows: list[tuple[Cell, ...]] = []
    for joint in joints:
        this, other = _sides(wiring, joint)
        how: tuple[Piece, ...] = (
            Strong(joint.method),
            joint.at or f"place {NOT_RECORDED}",
            f"cover: {or_not_recorded(joint.cover)}",
        )
        rows.append((Strong(joint.name), how, this, other, _notes(joint), Tick("made", "tugged")))
    return Grid(columns, tuple(rows), caption=caption)


def _sides(wiring: Wiring, joint: Joint) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Both sides, wire by wire, so that a pair's two wires stand beside what they are joined to."""
    this: list[Piece] = []
    other: list[Piece] = []
    for first in dict.fromkeys(link.a for link in joint.links):
        mine = _end(wiring, first)
        theirs = [piece for link in joint.links if link.a == first for piece in _end(wiring, link.b)]
        longest = max(len(mine), len(theirs))
        this += mine + [""] * (longest - len(mine))
        other += theirs + [""] * (longest - len(theirs))
    return tuple(this), tuple(other)


def _end(wiring: Wiring, name: str) -> list[Piece]:
    contact = wiring.contact(name)
    return [Strong(labelled(contact)), swatch(contact.colour)]


def _notes(joint: Joint) -> str:
    notes = []
    if joint.turned:
        notes.append("REVERSED as written: + of one side to − of the other")
    if joint.stub_m is not None:
        notes.append(f"stub {length(joint.stub_m)}")
    if joint.untwist_m is not None:
        notes.append(f"untwisted {length(joint.untwist_m)}")
    if len(joint.links) > len({link.a for link in joint.links}):
        notes.append("three or more wires in one joint")
    return "\n".join(notes) or "none"


def _plug_in(wiring: Wiring) -> Iterator[Block]:
    mates = wiring.job.mates
    if mates:
        yield Heading("Plugs to mate")
        columns = (Column("Loom end", 3), Column("Into", 3), Column("Place of the plug", 3), Column("Done", 2))
        plugs = wiring.job.parts.plugs
        yield Grid(
            columns,
            tuple(
                (
                    Strong(f"{mate.loom} {mate.end} end"),
                    Strong(f"{mate.plug}, {mate.half} side"),
                    or_not_recorded(plugs[mate.plug].where),
                    Tick("seated", "latched"),
                )
                for mate in mates
            ),
        )


def _runs(wiring: Wiring) -> Iterator[Block]:
    if not wiring.job.has_runs:
        return
    yield Heading("Runs to lay")
    columns = (Column("From", 2), Column("To", 2), Column("Made of, in order", 5), Column("Done"))
    rows = tuple(
        (Strong(start), Strong(end), ", then ".join(made_of) or NOT_RECORDED, Tick("laid"))
        for start, end, made_of in _run_rows(wiring)
    )
    yield Grid(columns, rows) if rows else Para("None written.")


def _run_rows(wiring: Wiring) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """From, to, pieces; the two wires of a pair are one cable and one row."""
    runs = list(laid_runs(wiring.job))
    while runs:
        run = runs.pop(0)
        ends = [name_of(wiring.contact(name)) for name in (run.start, run.end)]
        twin = next((other for other in runs if _is_pair(run, other)), None)
        if twin is not None:
            runs.remove(twin)
            ends = [f"{name[:-1]} + and −" for name in ends]
        yield ends[0], ends[1], tuple(piece_words(segment) for segment in run.segments)


def _is_pair(run: Run, other: Run) -> bool:
    stems = (run.start[:-1], run.end[:-1]) == (other.start[:-1], other.end[:-1])
    plus = run.start.endswith("+") and run.end.endswith("+")
    return stems and plus and other.start.endswith("-") and other.end.endswith("-") and run.same_make(other)


def _method_steps(joints: tuple[Joint, ...]) -> Iterator[Block]:
    """How each method that this job uses is done, from the methods' own files."""
    known = methods()
    used = [known[name] for name in dict.fromkeys(joint.method for joint in joints) if name in known]
    if used:
        yield Heading("How each joint is made")
    for method in used:
        yield Keep(
            (
                Heading(method.name, 2),
                Para(f"Tools: {', '.join(method.tools)}."),
                Listing(method.steps, numbered=True),
                Para(f"Source: {method.source}."),
            )
        )
