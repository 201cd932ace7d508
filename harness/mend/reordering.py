"""A safer order of the job's own steps: one step moved, or the proposed order in their place, proved by playing it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from harness.checks import all_checks
from harness.checks.registry import run_checks
from harness.finding import Edit, Finding, Mend, Severity
from harness.graph.wiring import Wiring
from harness.mend.page import CannotEdit, Page, edited, indent
from harness.model.job import Job, Step
from harness.read.files import load
from harness.read.job import read_job_text
from harness.read.troubles import Troubles
from harness.work.order import proposed_lines
from harness.work.situation import states_of

_AT_MOST_STEPS = 40  # trying every move of more would take too long; the proposed order is offered then


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
    job = wiring.job
    text = load(job.file, Troubles()) or ""
    for words, steps, edits in (*_moves(job, text), *_proposed(wiring, text)):
        trial = replace(job, steps=steps)
        if _clean(_laid_out(trial, wiring), codes) and _proved(job, text, edits, codes):
            return Mend(words, edits)
    return None


def _moves(job: Job, text: str) -> Iterator[tuple[str, tuple[Step, ...], tuple[Edit, ...]]]:
    """Every single step moved, those moved least far first."""
    count = len(job.steps)
    if count > _AT_MOST_STEPS:
        return
    moves = [(start, to) for start in range(count) for to in range(count) if to not in (start, start - 1)]
    for start, to in sorted(moves, key=lambda move: (abs(move[1] - move[0]), move)):
        steps = list(job.steps)
        step = steps.pop(start)
        steps.insert(to, step)
        before = next((each for each in steps[to + 1 :]), None)
        try:
            edits = _moved(job, text, step, before)
        except CannotEdit:
            continue
        where = f"before step {job.steps.index(before) + 1} ({before.verb})" if before else "to the end"
        yield f"move step {start + 1} ({step.verb}) {where}", tuple(steps), edits


def _moved(job: Job, text: str, step: Step, before: Step | None) -> tuple[Edit, ...]:
    page = Page(job.file, text)
    line = _line_of(page, step)
    page.drop(step.place.line)
    if before is None:
        last = max(job.steps, key=lambda each: each.place.line)
        _line_of(page, last)
        page.put_in(last.place.line + 1, line)
    else:
        _line_of(page, before)
        page.put_in(before.place.line, line)
    return page.edits()


def _line_of(page: Page, step: Step) -> str:
    """The line of a step that stands on one line of its own. Raises CannotEdit."""
    line = page.at(step.place)
    if not line.lstrip().startswith(f"- {step.verb}:") or page.under(step.place.line):
        raise CannotEdit("the step is more than a line, or shares it")
    return line


def _proposed(wiring: Wiring, text: str) -> Iterator[tuple[str, tuple[Step, ...], tuple[Edit, ...]]]:
    job = wiring.job
    page = Page(job.file, text)
    try:
        lines = [_line_of(page, step) for step in job.steps]
        for step in job.steps:
            page.drop(step.place.line)
    except CannotEdit:
        return
    at = min(step.place.line for step in job.steps)
    written = proposed_lines(wiring)
    for verb, what in written:
        page.put_in(at, f"{' ' * indent(lines[0])}- {verb}: {what}")
    steps = tuple(Step(verb, what, job.steps[0].place) for verb, what in written)
    yield "take the proposed order in place of these steps", steps, page.edits()


def _laid_out(job: Job, known: Wiring) -> Wiring:
    wiring = Wiring(job)
    wiring.by_steps = True
    wiring.answers[states_of] = states_of(known)  # the car with the same work done is the same car
    return wiring


def _clean(wiring: Wiring, codes: set[str]) -> bool:
    looks = [each for each in all_checks() if each.code in codes]
    findings, raised = run_checks(wiring, looks)
    return not raised and not any(each.severity <= Severity.FIX for each in findings)


def _proved(job: Job, text: str, edits: tuple[Edit, ...], codes: set[str]) -> bool:
    """Whether the edited file reads, and plays through without a finding."""
    troubles = Troubles()
    after = read_job_text(edited(text, edits), job.file, troubles)
    if after is None or troubles.refused:
        return False
    wiring = Wiring(after)
    wiring.by_steps = True
    return _clean(wiring, codes)
