"""The work order: every step with a box to tick, the state in which it leaves the car, and what is at risk in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.finding import Finding, Severity
from harness.work.replay import Moment, replay
from harness.work.telling import bare_ends, found_at, plug_words, power_words
from render.blocks import Block, Caution, Cell, Column, Grid, Para, Piece, Sheet, Strong, Tick
from render.documents import document
from render.documents.wording import count, labelled, wire_name

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof


@document("work-order", title="Work order, with the state after each step", order=3)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For whoever does the job: the steps in their order, each ticked off, and how the car stands after each."""
    if proof.wiring is not None:
        yield Sheet("work-order", "Work order", tuple(_blocks(proof.wiring, proof.report.findings)), shares=True)


def _blocks(wiring: Wiring, findings: tuple[Finding, ...]) -> Iterator[Block]:
    played = replay(wiring)
    found = [found_at(moment, findings) for moment in played.moments]
    stops = sum(each.severity == Severity.STOP for at_step in found for each in at_step)
    if stops:
        yield Caution(f"{count(stops, 'STOP')} in this order: don't begin before it is put right.")
    source = "The job says no steps, so this order is proposed. " if played.order.proposed else ""
    checked = (
        "Each state between the steps was looked at." if wiring.by_steps else "The states between were not looked at."
    )
    yield Para(f"{source}{checked} Do not pass a step that failed. Under “Then” stands how the car is left.")
    rows = tuple(_row(wiring, moment, at_step) for moment, at_step in zip(played.moments, found, strict=True))
    columns = (Column("Step", 0.1), Column("Do", 0.5), Column("What", 6.0), Column("Then", 3.1), Column("", 0.5))
    yield Grid(columns, rows)
    if played.order.unplaced:
        names = played.order.unplaced
        yield Caution(f"No step of the job names {count(len(names), 'joint')}: {', '.join(names)}.")
    for number, words in played.unsure:
        yield Para(f"Step {number}: {words}.")


def _row(wiring: Wiring, moment: Moment, found: list[Finding]) -> tuple[Cell, ...]:
    step = moment.step
    what: list[Piece] = [step.what]
    if step.contacts:
        say = wire_name if step.verb == "cut" else labelled
        what.append(", ".join(say(wiring.contact(name)) for name in step.contacts))
    if step.joints:
        what.append(f"Joints: {', '.join(step.joints)}")
    for finding in found:
        what.append(Strong(f"{finding.severity.name} {finding.code}: {finding.message} {finding.do}"))
    return Strong(str(moment.number)), Strong(step.verb), tuple(what), _state(wiring, moment), Tick("done")


def _state(wiring: Wiring, moment: Moment) -> tuple[Piece, ...]:
    """Power always; plugs and bare ends where the step changed them."""
    said: list[Piece] = [Strong(power_words(moment.after))]
    plugs, bare = plug_words(wiring, moment.after.work), bare_ends(wiring, moment.after.work)
    if plugs != plug_words(wiring, moment.before.work):
        said.append(", ".join(plugs) or "every plug together")
    if bare != bare_ends(wiring, moment.before.work):
        said.append(f"{count(len(bare), 'bare end')}" if bare else "no bare end left")
    return tuple(said)
