"""Prove a job: read it, lay it out, look at it with every check, and say what holds."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass

from harness.checks import run_checks
from harness.checks.unchecked import unchecked
from harness.finding import Counts, Finding, Report, Severity, Spot, Unchecked
from harness.graph.pairs import used_pairs
from harness.graph.proven import open_evidence, released
from harness.graph.wiring import Wiring
from harness.model.job import Job
from harness.place import Place
from harness.read.job import read_job, read_job_text
from harness.read.lines import shown_line
from harness.read.refusals import REFUSALS
from harness.read.troubles import Troubles


@dataclass(frozen=True, slots=True)
class Proof:
    """A job with all that was found out about it. `job` and `wiring` are None where it can't be read."""

    job_path: str
    job: Job | None
    wiring: Wiring | None
    report: Report

    def source_lines(self, place: Place) -> tuple[str, int] | None:
        """The user's own line at a place and the column of the caret in it, or None."""
        return shown_line(place)


def prove(path: str | os.PathLike[str], *, mends: bool = True, steps: bool = False) -> Proof:
    """Everything `ringout check` says about a job file. Never raises for what stands in the file.

    `mends` false leaves out the search for the smallest changes, which costs many looks at the job. `steps` plays the
    order of work through as well, and looks at the car between the steps.
    """
    file = os.fspath(path)
    troubles = Troubles()
    with _no_collector():
        return _proof(file, read_job(file, troubles), troubles, mends, steps)


def prove_text(text: str, file: str, *, mends: bool = False, steps: bool = False) -> Proof:
    """As `prove`, for a text that would stand in `file`; part files are looked for beside it."""
    troubles = Troubles()
    with _no_collector():
        return _proof(file, read_job_text(text, file, troubles), troubles, mends, steps)


@contextmanager
def _no_collector() -> Iterator[None]:
    """What is built here is needed until the end and makes few circles: the collector would only walk it again and
    again, which at a large job is a third of the time.
    """
    running = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if running:
            gc.enable()


def _proof(file: str, job: Job | None, troubles: Troubles, mends: bool, steps: bool) -> Proof:
    told = sorted(troubles.findings, key=lambda finding: finding.order)
    if job is None or troubles.refused:
        report = Report("unreadable", job.preset if job else "", Counts(0, 0, 0), (), tuple(told))
        return Proof(file, None, None, report)
    wiring = Wiring(job)
    wiring.by_steps = steps
    findings, raised = run_checks(wiring)
    given_up = 0
    if mends and any(finding.severity <= Severity.FIX for finding in findings):
        from harness.mend.search import with_mends

        findings, given_up = with_mends(wiring, findings)
    if mends and "tones" in wiring.facts:
        from harness.mend.chart import with_corrected_charts

        findings = with_corrected_charts(wiring, findings)
    if mends and steps:
        from harness.mend.reordering import with_safer_order

        findings = with_safer_order(wiring, findings)
    findings += [_failed(job, each.code, each.error) for each in raised]
    if told or raised:
        findings = sorted([*told, *findings], key=lambda finding: finding.order)
    counts = _counts(wiring)
    left_out = unchecked(wiring)
    if given_up:
        left_out.append(Unchecked(f"the smallest change for {given_up} findings", "too many to try in one run"))
    left_out += [Unchecked(f"the check {each.code}", "it failed to run; please report it") for each in raised]
    report = Report(_verdict(findings, wiring), job.preset, counts, tuple(left_out), tuple(findings))
    return Proof(file, job, wiring, report)


def _failed(job: Job, code: str, error: BaseException) -> Finding:
    about = REFUSALS["R29"]
    return Finding(
        "R29", about.severity, about.title, (Spot(job.place, job.title),),
        f"The check {code} failed to run ({type(error).__name__}: {error}), so what it looks for was not looked for.",
        "Please report this with the job file; the other checks ran.",
    )  # fmt: skip


def _verdict(findings: list[Finding], wiring: Wiring) -> str:
    """Never better than the evidence: a plan without faults on an untoned chart is consistent, not verified.

    A signature lets it go as it is, and never makes it verified. Where there is nothing to prove, nothing was.
    """
    if any(finding.severity == Severity.STOP for finding in findings):
        return "stop"
    if any(finding.severity == Severity.FIX for finding in findings):
        return "mend"
    asked = any(finding.severity == Severity.ASK for finding in findings)
    if not wiring.job.records:
        return "consistent-not-verified"
    still = open_evidence(wiring)
    if not asked and still.nothing and still.proved:
        return "verified"
    return "released" if released(wiring) else "consistent-not-verified"


def _counts(wiring: Wiring) -> Counts:
    against: Mapping[str, str] = {}
    if wiring.job.records:
        from harness.graph.contrary import pairs_against  # few jobs have records

        against = pairs_against(wiring)
    pairs = used_pairs(wiring)
    states = [pair.state for pair in pairs if pair.name not in against]
    return Counts(states.count("charted"), states.count("measured"), states.count("toned"), len(pairs) - len(states))
