"""The splice list: every joint with both its sides, in the order of work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.as_built import as_built, joint_as_planned
from harness.graph.joints_made import joints_made
from harness.graph.polarity import turned_back
from harness.graph.runs import cables
from harness.graph.ticked import LATCHED, SEATED, ticked
from harness.joints import methods
from harness.planning.states import contradicted_at
from harness.work.order import order_of_work
from render.blocks import (
    Block,
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
    Swatch,
    Tick,
)
from render.documents import document
from render.documents.wording import (
    NOT_RECORDED,
    labelled,
    length,
    name_of,
    or_not_recorded,
    pair_name,
    piece_words,
    swatch,
)

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.job import Joint
    from harness.prove import Proof

_HOLD = "\N{NO-BREAK SPACE}"


@document("splice-list", title="Splice list, in working order", order=4)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For whoever makes the joints, one after another, with a box to tick for each; the steps are on the work order."""
    if proof.wiring is not None:
        yield Sheet("splice-list", "Splice list", tuple(_blocks(proof.wiring)), shares=True)


def _blocks(wiring: Wiring) -> Iterator[Block]:
    job = wiring.job
    order = order_of_work(wiring)
    yield Heading("Joints")
    if not job.joints:
        yield Para("No joints: nothing is soldered, crimped, screwed or tapped.")
    numbers = {name: number for number, step in enumerate(order.steps, 1) for name in step.joints}
    for number, step in enumerate(order.steps, 1):
        if step.joints:
            joints = [wiring.joints[name] for name in step.joints]
            # a proposed step says no more than how and where, and these stand above its joints anyway
            said = "" if order.proposed else f", {step.verb} {step.what}"
            yield _grid(wiring, joints, f"Step {number}{said}")
    left = [joint for joint in job.joints if joint.name not in numbers]
    if left:
        yield _grid(wiring, left, "Joints that no step of the job names: decide when, before you begin")
    yield from _plug_in(wiring)
    yield from _runs(wiring)
    yield from _method_steps(job.joints)


def _grid(wiring: Wiring, joints: list[Joint], caption: str) -> Grid:
    """The joints of a step; what they have in common stands once, above them."""
    common = len({_how(joint) for joint in joints}) == 1
    noted = any(_notes(wiring, joint) for joint in joints)
    sides = [_sides(wiring, joint) for joint in joints]
    # a column that only says "not recorded" says it once, above
    bare = [not any(isinstance(piece, Swatch) for side in sides for piece in side[at]) for at in (1, 3)]
    alike = not any(bare) and all(side[1] == side[3] for side in sides)
    bare[1] = bare[1] or alike
    columns = (
        Column("Joint", 0.1),
        *(() if common else (Column("How and where", 1.6),)),
        Column("This side", 2.0),
        *(() if bare[0] else (Column("Colour", 1.9),)),
        Column("Other side", 1.3),
        *(() if bare[1] else (Column("Colour", 1.9),)),
        *((Column("Notes", 1.2),) if noted else ()),
        Column("Made", 0.1),
    )
    rows: list[tuple[Cell, ...]] = []
    for joint, (this, this_colours, other, other_colours) in zip(joints, sides, strict=True):
        method, *where = _how(joint)
        rows.append(
            (
                Strong(joint.name),
                *(() if common else ((Strong(method), *where),)),
                this,
                *(() if bare[0] else (this_colours,)),
                other,
                *(() if bare[1] else (other_colours,)),
                *((_notes(wiring, joint),) if noted else ()),
                _made(wiring, joint),
            )
        )
    said = f"{caption}: {', '.join(_how(joints[0]))}" if common else caption
    if alike:
        said += ". Colours: the same on both sides"
    elif any(bare):
        side = "either side" if all(bare) else "this side" if bare[0] else "the other side"
        said += f". No colours recorded on {side}"
    return Grid(columns, tuple(rows), caption=said, aligned=True)


def _made(wiring: Wiring, joint: Joint) -> Cell:
    """What is recorded of a joint, by its name, in the place of its boxes; an empty box for what isn't."""
    said = joints_made(wiring).get(joint.name) if wiring.job.records else None
    if said is None:
        return Tick("made", "tugged")
    made: Piece = Tick("made")
    if said.built is not None:
        words = {True: "made", False: "NOT MADE", None: said.built.word("is")}[joint_as_planned(said.built)]
        made = Strong(words, said.built.signed)
    tugged: Piece = Tick("tugged")
    if said.looked is not None:
        tugged = Strong("tugged" if said.holds else said.looked.word("found") or "NOT", said.looked.signed)
    return (made, tugged)


def _how(joint: Joint) -> tuple[str, str, str]:
    return joint.method, joint.at or f"place {NOT_RECORDED}", f"cover: {or_not_recorded(joint.cover)}"


def _sides(wiring: Wiring, joint: Joint) -> tuple[tuple[Piece, ...], ...]:
    """Both sides with their colours, wire by wire, so that each wire stands level with what it is joined to."""
    this: list[str] = []
    other: list[str] = []
    for first in dict.fromkeys(link.a for link in joint.links):
        theirs = [link.b for link in joint.links if link.a == first]
        this += [first] + [""] * (len(theirs) - 1)
        other += theirs
    made: list[tuple[Piece, ...]] = []
    for names in (this, other):
        made.append(tuple(Strong(labelled(wiring.contact(name))) if name else "" for name in names))
        made.append(tuple(swatch(wiring.contact(name).colour) if name else "" for name in names))
    return tuple(made)


def _notes(wiring: Wiring, joint: Joint) -> str:
    notes = []
    if against := contradicted_at(wiring, *(end for link in joint.links for end in link)):
        notes.append(against)
    if wiring.job.records:
        ends = set(joint.ends)
        for each in as_built(wiring)[0]:
            if not each.record.joint and not ends.isdisjoint(each.contacts):
                names = " and ".join(name_of(wiring.contact(name)) for name in each.contacts if name in ends)
                notes.append(f"{names} built otherwise: {each.record.word('is')} ({each.record.signed})")
    if joint.turned:
        notes.append("REVERSED as written: + of one side to − of the other")
        if joint.name in turned_back(wiring):
            speaker, record = turned_back(wiring)[joint.name]
            notes.append(f"as {speaker} is turned in this car ({record.signed}): both belong together")
    if joint.stub_m is not None:
        notes.append(f"stub {length(joint.stub_m)}")
    if joint.untwist_m is not None:
        notes.append(f"untwisted {length(joint.untwist_m)}")
    if joint.stagger_m is not None:
        notes.append(f"{length(joint.stagger_m)} from the next")
    if joint.takes is not None:
        notes.append("connector for " + " to ".join(dict.fromkeys(size.text for size in joint.takes)))
    if len(joint.links) > len({link.a for link in joint.links}):
        notes.append("three or more wires in one joint")
    return "\n".join(notes)


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
                    _ticks(wiring, f"{mate.loom} {mate.end} end", SEATED, LATCHED),
                )
                for mate in mates
            ),
        )


def _ticks(wiring: Wiring, name: str, *boxes: str) -> Cell:
    """Boxes to tick, or in their place what is recorded by the name printed beside them."""
    seen = ticked(wiring) if wiring.job.records else {}
    if not any((name, box) in seen for box in boxes):
        return Tick(*boxes)
    made: list[Piece] = []
    for box in boxes:
        said = seen.get((name, box))
        made.append(Tick(box) if said is None else Strong(box if said.yes else f"NOT {box}", said.record.signed))
    return tuple(made)


def _runs(wiring: Wiring) -> Iterator[Block]:
    if not wiring.job.has_runs:
        return
    yield Heading("Runs to lay")
    columns = (
        Column("Run", 0.1), Column("From", 2), Column("To", 2), Column("Made of, in order", 4.4), Column("Done", 0.4)
    )  # fmt: skip
    rows: list[tuple[Cell, ...]] = []
    for cable in cables(wiring.job):
        made_of = ", then ".join(piece_words(segment) for segment in cable.segments)
        start, end = (
            name_of(wiring.contact(ends[0]))
            if len(ends) == 1
            else pair_name(wiring.contact(ends[0]), wiring.contact(ends[1]))
            for ends in ([run.start for run in cable.wires], [run.end for run in cable.wires])
        )
        turned = len(cable.wires) > 1 and wiring.contact(cable.wires[0].end).function.sign == "-"
        made: Cell = (made_of, "REVERSED as written: + to −") if turned else made_of
        rows.append(
            (
                Strong(cable.name.replace(" ", _HOLD)),
                Strong(start),
                Strong(end),
                made,
                _ticks(wiring, cable.name, "laid"),
            )
        )
    yield Grid(columns, tuple(rows)) if rows else Para("None written.")


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
                Listing(method.steps, numbered=True),
                Para(f"Tools: {', '.join(method.tools)}. Source: {method.source}."),
            )
        )
