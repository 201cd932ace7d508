"""The chart put right as the tones say: edits of the rows where they stand, in the job or in a part file.

A chart that was read wrongly has whole rows at the wrong cavities: their keys change. One that names wires wrongly
has the right colours and the wrong functions: those change, and the colours stay at their cavities.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping

from harness.checks import run_checks
from harness.disk import put, sync_names
from harness.finding import Edit, Finding, Mend, Severity
from harness.graph.misread import CODES, Misread, by_colour, misread, naming
from harness.graph.wiring import Wiring
from harness.mend.chart_rows import Written, rekeyed, renamed, written_rows
from harness.mend.page import CannotEdit, Page, edited
from harness.model.function import UNKNOWN
from harness.patterns.chart import Corrected
from harness.patterns.face import in_order
from harness.patterns.judging import NAMED
from harness.read.files import load
from harness.read.job import read_job_text
from harness.read.lines import forget
from harness.read.troubles import Troubles


def with_corrected_charts(wiring: Wiring, findings: list[Finding]) -> list[Finding]:
    """The findings; those that name how a chart is wrong have the chart put right as their mend, where it can be."""
    if not any(each.code in CODES.values() for each in findings):
        return findings
    mends = {
        (each.code, each.plug.name, tuple(record.place for record in each.records)): corrected_chart(wiring, each)
        for each in misread(wiring)
    }  # by the tones too: beside a chart that is wrong at one pair another pair may wait for a look
    made = []
    for finding in findings:
        tones = tuple(spot.place for spot in finding.places[1:])
        mend = mends.get((finding.code, finding.places[0].name, tones)) if finding.code in CODES.values() else None
        made.append(finding._replace(mend=mend) if mend else finding)
    return made


def corrected_chart(wiring: Wiring, wrong: Misread) -> Mend | None:
    """The edits that make a plug's chart go with its tones, proved by reading the files after them.

    None where more than one chart is left, a tone stays unexplained, nothing but the + of speakers speaks against it
    and nobody looked at the radio's side, a row is written in a way that can't be edited by lines, or the job wouldn't
    read after it. What the plan then does wrongly is named in the words, not mended: it was
    made for the other chart.
    """
    if wrong.radio_unread or wrong.verdict.kind != NAMED or by_colour(wrong.plug, wrong.verdict) is not None:
        return None
    (left,) = wrong.verdict.left
    if left.odd:
        return None
    texts = {file: load(file, Troubles()) or "" for file in dict.fromkeys(row.place.file for row in wrong.plug.rows)}
    texts.setdefault(wiring.job.file, load(wiring.job.file, Troubles()) or "")
    try:
        edits = _edits(wrong, left.first, texts)
        after = {file: edited(text, [e for e in edits if e.place.file == file]) for file, text in texts.items()}
    except CannotEdit:
        return None
    laid = _read(wiring, after)
    if laid is None or any(each.plug.name == wrong.plug.name for each in misread(laid)):
        return None
    return Mend(_words(wiring, wrong, left.first, edits, laid), edits)


def apply(edits: Iterable[Edit]) -> list[str]:
    """Write edits into their files, each file as a whole or not at all; the paths written.

    Raises CannotEdit where a line is no longer the one that an edit speaks of (nothing is written then), and OSError.
    """
    by_file: dict[str, list[Edit]] = {}
    for edit in edits:
        by_file.setdefault(edit.place.file, []).append(edit)
    new: dict[str, bytes] = {}
    for file, here in by_file.items():
        with open(file, "rb") as stream:
            raw = stream.read()
        mark = b"\xef\xbb\xbf" if raw.startswith(b"\xef\xbb\xbf") else b""
        new[file] = mark + edited(raw.removeprefix(mark).decode("utf-8"), here).encode("utf-8")
    for file, content in new.items():
        _replace(file, content)
    forget()
    return list(new)


def _replace(file: str, content: bytes) -> None:
    """A file's content changed in one step, so that nobody finds half of it; a link is followed, the mode stays."""
    real = os.path.realpath(file)
    put(real, content, mode=os.stat(real).st_mode & 0o7777)
    sync_names(os.path.dirname(real))


# -- the edits --------------------------------------------------------------------------------------------


def _edits(wrong: Misread, after: Corrected, texts: Mapping[str, str]) -> tuple[Edit, ...]:
    pages = {file: Page(file, text) for file, text in texts.items()}
    # from the back of each line, so that columns hold
    rows = sorted(written_rows(wrong.plug), key=lambda row: (row.place.line, -row.place.column))
    if after.reading.carried:
        _put_rows(wrong, after, rows, pages)
    else:
        _put_functions(wrong, after, rows, pages)
    return tuple(edit for page in pages.values() for edit in page.edits())


def _put_rows(wrong: Misread, after: Corrected, rows: list[Written], pages: Mapping[str, Page]) -> None:
    """Whole rows to the cavities where they are; one that would lie at none holds nothing, and goes."""
    name = naming(wrong.plug)
    spelling = {name(row.cavity): row.cavity for row in wrong.plug.rows}
    there = set(wrong.chart.face.cavities)
    for row in rows:
        targets = [after.reading.moves.get(name(cavity), name(cavity)) for cavity in row.cavities]
        kept = [spelling.get(each, each) for each in targets if each and (not there or each in there)]
        if kept != list(row.cavities):
            rekeyed(pages[row.place.file], row, kept)


def _put_functions(wrong: Misread, after: Corrected, rows: list[Written], pages: Mapping[str, Page]) -> None:
    """Functions to the cavities where they are; one that comes to a cavity without a row brings a row with it."""
    name, before = naming(wrong.plug), wrong.chart.content
    new = {cavity: after.content.get(cavity, UNKNOWN.name) for cavity in {*before, *after.content}}
    changed = {cavity for cavity, held in new.items() if before.get(cavity) != held}
    more = [(cavity, new[cavity]) for cavity in in_order(changed - before.keys())]
    for row in rows:
        if not changed.isdisjoint(map(name, row.cavities)):
            functions = [new[name(cavity)] for cavity in row.cavities]
            renamed(pages[row.place.file], row, functions, more)
            more = []


# -- the words and the proof ------------------------------------------------------------------------------


def _read(wiring: Wiring, texts: Mapping[str, str]) -> Wiring | None:
    """The job as it reads after the edits, or None where it is refused."""
    troubles = Troubles()
    file = wiring.job.file
    others = {path: text for path, text in texts.items() if path != file}
    job = read_job_text(texts[file], file, troubles, others)
    return None if job is None or troubles.refused else Wiring(job)


def _words(wiring: Wiring, wrong: Misread, after: Corrected, edits: tuple[Edit, ...], laid: Wiring) -> str:
    old = {(pair.name, pair.plus, pair.minus) for pair in wrong.chart.pairs}
    pairs = [f"{pair.name} {pair.plus}/{pair.minus}" for pair in after.pairs if tuple(pair[:3]) not in old]
    words = f"Correct the chart of {wrong.plug.name}: {', '.join(pairs)}."
    parts = [os.path.basename(each) for each in dict.fromkeys(e.place.file for e in edits) if each != wiring.job.file]
    if parts:
        words += f" It stands in {' and '.join(parts)}, which other jobs may use."
    told = _codes(laid) - _codes(wiring)
    if told:
        are = "is" if len(told) == 1 else "are"
        words += f" The plan was made for the other chart: then {', '.join(sorted(told))} {are} told."
    return words


def _codes(wiring: Wiring) -> set[str]:
    """Codes of what must be dealt with or asked."""
    return {finding.code for finding in run_checks(wiring)[0] if finding.severity <= Severity.ASK}
