"""A report in words, for a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from harness.cli.screen import columns, harmless
from harness.finding import Counts, Edit, Finding, Report, Severity, Spot

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from harness.graph.wiring import Wiring
    from harness.prove import Proof

VERDICTS = {
    "stop": "STOP: as planned, this can do damage or hurt someone. Join nothing and power nothing yet.",
    "mend": "TO MEND: as planned, something won't work or will come back.",
    "consistent-not-verified": "CONSISTENT, NOT VERIFIED: it all fits on paper; the car has not said so yet.",
    "verified": "VERIFIED: it all fits; on this car every used pair was toned, every output heard and function tried.",
    "unreadable": "UNREADABLE: the file has to be put right before anything can be checked.",
}

_SHOWN_PLACES = 6


def verdict_words(report: Report) -> str:
    """The verdict as a sentence. A verdict that has none yet is given by its own word."""
    counts = report.counts
    if report.verdict == "consistent-not-verified" and counts.toned and not counts.untoned:
        return (
            "CONSISTENT, NOT VERIFIED: it all fits and every used pair was toned; what was not checked is still open."
        )
    if report.verdict == "consistent-not-verified" and counts.contradicted:
        return (
            f"CONSISTENT, NOT VERIFIED: it all fits on paper; the car says otherwise at {_pairs(counts.contradicted)}."
        )
    if report.verdict == "released":
        return f"RELEASED, {untoned_words(report)}: it all fits on paper, and someone has signed for what is open."
    return VERDICTS.get(report.verdict, report.verdict.upper())


def untoned_words(report: Report) -> str:
    """`2 pairs not toned`, or what else was open when it was signed for."""
    lacking = report.counts.untoned
    return f"{_pairs(lacking)} not toned" if lacking else "not all tried"


def tally(report: Report) -> str:
    """`1 STOP, 2 FIX, 3 ASK`, or words where there is nothing."""
    counted = dict.fromkeys(Severity, 0)
    for finding in report.findings:
        counted[finding.severity] += 1
    parts = [f"{number} {severity.name}" for severity, number in counted.items() if number]
    return ", ".join(parts) if parts else "no findings"


def shortfall(need: str, report: Report, against: Sequence[str] = ()) -> str:
    """What is missing for `--need toned` or `--need verified`, in words; empty where nothing is.

    `against` is what records say against the plan, each in a few words.
    """
    counts = report.counts
    used = counts.used
    if need == "toned":
        lacking = counts.untoned
        if report.verdict == "unreadable":
            return "--need toned is not met: nothing could be counted."
        return f"--need toned is not met: {lacking} of {_pairs(used)} used not toned." if lacking else ""
    if report.verdict == "verified":
        return ""
    lacking = counts.untoned
    toned = f"{lacking} of {_pairs(used)} used not toned" if lacking else "every pair used is toned"
    asked = any(finding.severity == Severity.ASK for finding in report.findings)
    why = "what is asked" if asked else "what is listed as not checked"
    if against:
        why = f"what a record says against the plan ({'; '.join(against)})"
    open_too = "" if lacking and not against else f"; {why} keeps it from being verified"
    return f"--need verified is not met: the verdict is {report.verdict}, {toned}{open_too}."


def lines(proof: Proof, need_words: str = "") -> list[str]:
    """The whole report: the verdict, the findings (worst first), then what it rests on."""
    report = proof.report
    out = [verdict_words(report)]
    if need_words:
        out.append(need_words)
    if proof.wiring is not None and report.verdict == "released":
        from harness.graph.proven import release_words

        out.append(f"Signed by {harmless(release_words(proof.wiring))}")
    beside: tuple[str, ...] = ()
    if proof.wiring is not None and report.verdict == "verified":
        from harness.graph.unread import unread_words

        unread = unread_words(proof.wiring)
        beside = tuple(what for what, _ in unread)
        if unread:
            out.append(f"Still open beside it: {harmless('; '.join(f'{what} ({why})' for what, why in unread))}.")
    out.append(f"{harmless(proof.job_path)}: {tally(report)}")
    for finding in sorted(report.findings, key=lambda found: found.order):
        out.append("")
        out.extend(_finding_lines(proof, finding))
    out.append("")
    if proof.wiring is not None and proof.wiring.by_steps:
        out.extend(_step_lines(proof.wiring))
        out.append("")
    out.extend(_closing_lines(report, beside))
    return out


def _step_lines(wiring: Wiring) -> list[str]:
    """Each step with the state in which it leaves the car."""
    from harness.work.replay import replay
    from harness.work.telling import bare_ends, plug_words, power_words, step_words

    played = replay(wiring)
    out = ["The order of work" + (", proposed, since the job says none:" if played.order.proposed else ":")]
    for moment in played.moments:
        bare = bare_ends(wiring, moment.after.work)
        state = [power_words(moment.after), *plug_words(wiring, moment.after.work)]
        if bare:
            state.append(f"{len(bare)} bare end{'s' if len(bare) > 1 else ''}")
        step = moment.step
        made = f" [{', '.join(step.joints)}]" if step.joints else ""
        out.append(f"{moment.number:3}  {harmless(step.verb)}: {harmless(step_words(step))}{made}")
        out.append(f"       then: {harmless('; '.join(state))}")
    return out


def _finding_lines(proof: Proof, finding: Finding) -> list[str]:
    out = [f"{finding.severity.name} {finding.code} {harmless(finding.title)}"]
    for spot in finding.places[:_SHOWN_PLACES]:
        out.extend(_spot_lines(proof, spot))
    hidden = len(finding.places) - _SHOWN_PLACES
    if hidden > 0:
        out.append(f"  and {hidden} more places; --json has them all")
    out.append(f"  {harmless(finding.message)}")
    out.append(f"  Do now: {harmless(finding.do)}")
    if finding.path:
        out.append(f"  Path: {harmless(' > '.join(finding.path))}")
    if finding.mend is not None:
        out.append(f"  Mend: {harmless(finding.mend.words)}")
        out.extend(_edit_line(edit) for edit in finding.mend.edits)
    return out


def _spot_lines(proof: Proof, spot: Spot) -> list[str]:
    """`file:line:column name`, then the user's own line with a caret under the place."""
    name = f"  {harmless(spot.name)}" if spot.name else ""
    head = f"  {harmless(str(spot.place))}{name}"
    written = proof.source_lines(spot.place)
    if written is None:
        return [head]
    line, before_caret = written
    return [head, f"      {line}", f"      {' ' * columns(line[:before_caret])}^"]


def _edit_line(edit: Edit) -> str:
    where = f"{harmless(edit.place.file)}:{edit.place.line}"
    old, new = harmless(edit.old.strip()), harmless(edit.new.strip())
    if not old:
        return f"      {where}: put in before this line: {new}"
    if not new:
        return f"      {where}: take out: {old}"
    return f"      {where}: {old}  becomes  {new}"


def _closing_lines(report: Report, told: Collection[str]) -> list[str]:
    """What the verdict rests on; what is `told` beside it as not read stands there alone."""
    if report.verdict == "unreadable":
        return ["Nothing else was checked."]
    out = [_count_words(report.counts)]
    unchecked = [item for item in report.unchecked if item.what not in told]
    out.extend(f"Not checked: {harmless(item.what)} ({harmless(item.why)})" for item in unchecked)
    out.append(f"Preset: {harmless(report.preset)}")
    return out


def _count_words(counts: Counts) -> str:
    if not counts.used:
        return "The plan uses no pair of any plug."
    states = f"{counts.charted} only charted, {counts.measured} measured, {counts.toned} toned"
    states += f", {counts.contradicted} contradicted" if counts.contradicted else ""
    return f"Of {_pairs(counts.used)} used: {states}."


def _pairs(number: int) -> str:
    return "1 pair" if number == 1 else f"{number} pairs"
