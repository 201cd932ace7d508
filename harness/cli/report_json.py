"""A report as JSON, for scripts. The shape is part of the tool's promise: add keys, never change one."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from harness.finding import Edit, Finding

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof


def text(proof: Proof, need: str | None = None, need_words: str = "") -> str:
    """The report as one JSON object.

    `open` lists what no record proves yet, where the job could be read. `need` adds a key of that name: what was asked
    for, whether it is met, and the words where not.
    """
    report = proof.report
    counts = report.counts
    whole: dict[str, Any] = {
        "verdict": report.verdict,
        "preset": report.preset,
        "counts": counts._asdict(),
        "unchecked": [{"what": item.what, "why": item.why} for item in report.unchecked],
        "findings": [_finding(found) for found in sorted(report.findings, key=lambda found: found.order)],
    }
    if proof.wiring is not None:
        whole["open"] = _open(proof.wiring)
    if proof.wiring is not None and proof.wiring.by_steps:
        whole["steps"] = _steps(proof.wiring, report.findings)
    if need is not None:
        whole["need"] = {"asked": need, "met": not need_words, "why": need_words or None}
    # ASCII with escapes: the same bytes on every console, whatever its code page does to a pipe.
    return json.dumps(whole, indent=2)


def _open(wiring: Wiring) -> dict[str, list[str]]:
    """What no record proves yet: pairs to tone, drivers of toned ones that weren't heard, outputs to hear as planned,
    functions to try after and before; and what a record says against the plan.
    """
    from harness.graph.proven import open_evidence

    still = open_evidence(wiring)
    return {
        "pairs": [each.name for each in still.pairs],
        "drivers": [f"{pair.name}: {each.words}" for pair in still.pairs for each in pair.unheard],
        "outputs": [each.name for each in still.outputs],
        "after": list(still.untried),
        "before": [each.name for each in still.before],
        "contrary": [each.words for each in still.contrary],
    }


def _steps(wiring: Wiring, findings: tuple[Finding, ...]) -> list[dict[str, Any]]:
    """Every step with the state of the car after it; the findings of a step by their codes."""
    from harness.work.replay import replay
    from harness.work.telling import bare_ends, found_at, plug_words, step_words

    made = []
    for moment in replay(wiring).moments:
        after = moment.after
        made.append(
            {
                "number": moment.number,
                "verb": moment.step.verb,
                "what": step_words(moment.step),
                "joints": list(moment.step.joints),
                "after": {
                    "battery": "on" if after.power.battery else "off",
                    "key": "on" if after.power.key else "off",
                    "plugs": plug_words(wiring, after.work),
                    "bare": list(bare_ends(wiring, after.work)),
                },
                "findings": [each.code for each in found_at(moment, findings)],
            }
        )
    return made


def _finding(finding: Finding) -> dict[str, Any]:
    mend = finding.mend
    return {
        "code": finding.code,
        "severity": finding.severity.name,
        "title": finding.title,
        "places": [
            {
                "file": spot.place.file,
                "line": spot.place.line,
                "column": spot.place.column,
                "name": spot.name,
            }
            for spot in finding.places
        ],
        "path": list(finding.path),
        "message": finding.message,
        "do": finding.do,
        "mend": None if mend is None else [_edit(edit) for edit in mend.edits],
        "mend_words": None if mend is None else mend.words,
    }


def _edit(edit: Edit) -> dict[str, Any]:
    return {
        "file": edit.place.file,
        "line": edit.place.line,
        "column": edit.place.column,
        "old": edit.old,
        "new": edit.new,
    }
