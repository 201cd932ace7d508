"""Runs of an offer taken: a chain begins or ends where its wire is now joined, the rest of its line as it was."""

from __future__ import annotations

import re
from collections.abc import Mapping

from harness.finding import Edit
from harness.mend.page import CannotEdit, Page, indent
from harness.model.job import Job
from harness.weighing.begun import RunEnd, run_ends
from harness.weighing.naming import Labels, Named

_QUOTED = re.compile(r"""(["'])(?P<chain>.*?)\1""")
_IN_BRACKETS = re.compile(r"(?P<chain>[^,\]]*?)(?=\s*(?:[,\]]|\s#|$))")
_HOP = re.compile(r"\s*(?:[0-9]|fuse\b)")
_PLAIN = re.compile(r"(?P<chain>.*?)(?=\s*(?:\s#|$))")


def run_edits(
    job: Job, text: str, wanted: Mapping[str, tuple[str, ...]], names: Named, labels: Labels
) -> tuple[Edit, ...]:
    """The edits of the lines of `runs:`; `wanted` has for each end the contacts that it is joined with.

    An end that is at one of them already stays as it is written. Raises CannotEdit.
    """
    page = Page(job.file, text)
    by_step: dict[tuple[int, int, int], list[RunEnd]] = {}
    for end in run_ends(job):
        if end.name in wanted:
            by_step.setdefault((end.place.line, end.place.column, end.step), []).append(end)
    # what stands further back in a line comes first, so that columns hold
    for (number, column, step), ends in sorted(by_step.items(), reverse=True):
        line = page.at(ends[0].place)
        before, rest = line[: column - 1], line[column - 1 :]
        match = (_QUOTED if rest[:1] in "\"'" else _IN_BRACKETS if "[" in before else _PLAIN).match(rest)
        if match is None:
            raise CannotEdit("a run is written in another way")
        steps = match["chain"].split(">")
        at = _written_at(steps, step)
        if all(_there(end, steps[at], wanted[end.name], names) for end in ends):
            continue
        if step and _goes_on(page, number):
            raise CannotEdit("a run goes on in other lines")
        if not steps[at].strip():
            raise CannotEdit("a run is written in another way")
        if len(ends) != ends[0].wires:
            raise CannotEdit("a run of two wires is joined at two plugs")
        ends.sort(key=lambda end: end.wire)
        new = _step([wanted[end.name][0] for end in ends], labels)
        steps[at] = steps[at].replace(steps[at].strip(), new)
        start, stop = match.span("chain")
        page.change(number, f"{before}{rest[:start]}{'>'.join(steps)}{rest[stop:]}")
    return page.edits()


def _written_at(steps: list[str], step: int) -> int:
    """Where a contact stands among the steps of a chain, of which the others are wires and fuses."""
    if step in (0, -1):
        return step
    contacts = [at for at, each in enumerate(steps) if not _HOP.match(each)]
    if step >= len(contacts):
        raise CannotEdit("a run goes on in other lines")
    return contacts[step]


def _there(end: RunEnd, written: str, contacts: tuple[str, ...], names: Named) -> bool:
    """Whether an end, as it is written, is joined where it shall be."""
    owner, _, last = end.contact.partition(".")
    sided = re.search(r"\.(unit|car)\.", written.lower()) is not None
    for each in contacts:
        if each == end.contact and (sided or owner in names.kept):
            return True
        if each == f"{owner}.{last.rpartition('.')[2]}" and last.startswith(("unit.", "car.")):
            return True  # a factory wire that stays whole: either half is on it
    return False


def _goes_on(page: Page, number: int) -> bool:
    """Whether the next line belongs to the same entry of a list in lines."""
    line, after = page.line(number), page.before[number : number + 1]
    if not line.lstrip().startswith("-") or not after or not after[0].strip():
        return False
    return indent(after[0]) > indent(line) and not after[0].lstrip().startswith(("-", "#"))


def _step(contacts: list[str], labels: Labels) -> str:
    """The contacts of one step as the file names them: one, or a pair."""
    if len(contacts) == 1:
        return contacts[0]
    one, other = contacts
    if labels.partners(one, other):
        return labels.pair(one, other)
    if one.rpartition(".")[0] != other.rpartition(".")[0]:
        raise CannotEdit("a run of two wires would begin at two places")
    return f"{one}/{other.rpartition('.')[2]}"
