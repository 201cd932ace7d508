"""A safer order of the job's own steps: one or two of them moved, or the proposed order, proved by playing it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from harness.checks import all_checks
from harness.checks.registry import Check
from harness.finding import Edit, Finding, Mend, Severity
from harness.graph.wiring import Wiring
from harness.mend.page import CannotEdit, Page, edited, indent
from harness.model.job import Job, Step
from harness.read.files import load
from harness.read.job import read_job_text
from harness.read.troubles import Troubles
from harness.work.deeds import Deeds
from harness.work.order import proposed_lines
from harness.work.replay import replay
from harness.work.situation import states_of

# Work is counted in contacts played through, so that the same job gives the same answer on any machine.
WORK = 600_000
BEST = 6  # first moves from which a second one is tried

Order = tuple[int, ...]  # the job's steps by their numbers from 0


class _Move(NamedTuple):
    """One step moved: which, and before which other it stands then (None: at the end)."""

    step: int
    before: int | None


def with_safer_order(wiring: Wiring, findings: list[Finding]) -> list[Finding]:
    """The findings of steps with the smallest change of their order that clears all of them, where there is one."""
    codes = {each.code for each in all_checks() if each.needs == "steps"}
    told = [each for each in findings if each.code in codes and each.severity <= Severity.FIX]
    if not told or not wiring.job.steps:
        return findings
    mend = _safer(wiring, codes)
    if mend is None:
        none = " No order of these steps that this tool tried is safe, nor is the proposed one."
        return [each._replace(do=each.do + none) if each in told else each for each in findings]
    return [each._replace(mend=mend) if each in told else each for each in findings]


def _safer(wiring: Wiring, codes: set[str]) -> Mend | None:
    """The smallest change of the order that clears everything: one move, two, else the proposed order."""
    job = wiring.job
    text = load(job.file, Troubles()) or ""
    looks = [each for each in all_checks() if each.code in codes]
    for order, moves in _moved_orders(wiring, looks):
        try:
            edits = _edits(job, text, order, moves)
        except CannotEdit:
            continue
        if _proved(job, text, edits, looks):
            return Mend(_in_words(job, moves), edits, len(moves))
    for edits in _proposed(wiring, text):
        if _proved(job, text, edits, looks):
            return Mend("take the proposed order in place of these steps", edits)
    return None


def _moved_orders(wiring: Wiring, looks: list[Check]) -> Iterator[tuple[Order, tuple[_Move, ...]]]:
    """Orders of the steps in which nothing is at risk: one step moved, the least far first; then two."""
    job = wiring.job
    doing = [at for at, moment in enumerate(replay(wiring).moments) if moment.deeds != Deeds()]
    as_written = tuple(range(len(job.steps)))
    left = max(WORK // max(len(job.contacts), 1), len(doing))
    better: list[tuple[int, int, Order, _Move]] = []
    risks = _risks(wiring, looks)
    for number, (order, move) in enumerate(_moves(as_written, doing)):
        if (left := left - 1) < 0:
            return
        found = _risks(_laid_out(job, order, wiring), looks, stop_above=risks)
        if not found:
            yield order, (move,)
        elif found < risks:
            better.append((found, number, order, move))
    for _, _, first, one in sorted(better)[:BEST]:
        for order, two in _moves(first, doing):
            if two.step == one.step:
                continue
            if (left := left - 1) < 0:
                return
            if not _risks(_laid_out(job, order, wiring), looks, stop_above=0):
                yield order, (one, two)


def _moves(order: Order, doing: list[int]) -> Iterator[tuple[Order, _Move]]:
    """Every step that does something moved past others that do, those moved least far first."""
    count = len(order)
    places = [(order.index(step), to) for step in doing for to in range(count)]
    seen = {tuple(step for step in order if step in doing)}
    for start, to in sorted(places, key=lambda move: (abs(move[1] - move[0]), move)):
        row = list(order)
        step = row.pop(start)
        row.insert(to, step)
        acting = tuple(each for each in row if each in doing)
        if acting not in seen:
            seen.add(acting)
            yield tuple(row), _Move(step, row[to + 1] if to + 1 < count else None)


def _in_words(job: Job, moves: tuple[_Move, ...]) -> str:
    def name(step: int) -> str:
        return f"step {step + 1} ({job.steps[step].verb})"

    said = [
        f"{name(move.step)} {'to the end' if move.before is None else f'before {name(move.before)}'}" for move in moves
    ]
    return f"move {', then '.join(said)}"


def _edits(job: Job, text: str, order: Order, moves: tuple[_Move, ...]) -> tuple[Edit, ...]:
    """Each moved step's line taken out, and put in before the next step that stays."""
    page = Page(job.file, text)
    moved = {move.step for move in moves}
    lines = {step: _line_of(page, job.steps[step]) for step in moved}
    for step in moved:
        page.drop(job.steps[step].place.line)
    for at, step in enumerate(order):
        if step in moved:
            stays = next((each for each in order[at:] if each not in moved), None)
            if stays is None:
                last = max(job.steps, key=lambda each: each.place.line)
                _line_of(page, last)
                page.put_in(last.place.line + 1, lines[step])
            else:
                _line_of(page, job.steps[stays])
                page.put_in(job.steps[stays].place.line, lines[step])
    return page.edits()


def _line_of(page: Page, step: Step) -> str:
    """The line of a step that stands on one line of its own. Raises CannotEdit."""
    line = page.at(step.place)
    if not line.lstrip().startswith(f"- {step.verb}:") or page.under(step.place.line):
        raise CannotEdit("the step is more than a line, or shares it")
    return line


def _proposed(wiring: Wiring, text: str) -> Iterator[tuple[Edit, ...]]:
    job = wiring.job
    page = Page(job.file, text)
    try:
        lines = [_line_of(page, step) for step in job.steps]
        for step in job.steps:
            page.drop(step.place.line)
    except CannotEdit:
        return
    at = min(step.place.line for step in job.steps)
    for verb, what in proposed_lines(wiring):
        page.put_in(at, f"{' ' * indent(lines[0])}- {verb}: {what}")
    yield page.edits()


def _laid_out(job: Job, order: Order, known: Wiring) -> Wiring:
    wiring = Wiring(replace(job, steps=tuple(job.steps[step] for step in order)))
    wiring.by_steps = True
    wiring.answers[states_of] = states_of(known)  # the car with the same work done is the same car
    return wiring


def _risks(wiring: Wiring, looks: Iterable[Check], stop_above: int | None = None) -> int:
    """How many faults these checks find; no more are looked for once there are more than `stop_above`."""
    found = 0
    for each in looks:
        for _ in each.look(wiring):
            found += 1
            if stop_above is not None and found > stop_above:
                return found
    return found


def _proved(job: Job, text: str, edits: tuple[Edit, ...], looks: list[Check]) -> bool:
    """Whether the edited file reads, and plays through without a finding."""
    troubles = Troubles()
    after = read_job_text(edited(text, edits), job.file, troubles)
    if after is None or troubles.refused:
        return False
    wiring = Wiring(after)
    wiring.by_steps = True
    return not _risks(wiring, looks, stop_above=0)
