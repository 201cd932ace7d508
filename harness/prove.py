"""Prove a job: read it, lay it out, look at it with every check, and say what holds."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from harness.checks import run_checks
from harness.finding import Counts, Finding, Report, Severity, Spot, Unchecked
from harness.graph.pairs import used_pairs
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


def prove(path: str | os.PathLike[str], *, mends: bool = True) -> Proof:
    """Everything `ringout check` says about a job file. Never raises for what stands in the file.

    `mends` false leaves out the search for the smallest changes, which costs many looks at the job.
    """
    file = os.fspath(path)
    troubles = Troubles()
    with _no_collector():
        return _proof(file, read_job(file, troubles), troubles, mends)


def prove_text(text: str, file: str, *, mends: bool = False) -> Proof:
    """As `prove`, for a text that would stand in `file`; part files are looked for beside it."""
    troubles = Troubles()
    with _no_collector():
        return _proof(file, read_job_text(text, file, troubles), troubles, mends)


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


def _proof(file: str, job: Job | None, troubles: Troubles, mends: bool) -> Proof:
    told = sorted(troubles.findings, key=lambda finding: finding.order)
    if job is None or troubles.refused:
        report = Report("unreadable", job.preset if job else "", Counts(0, 0, 0), (), tuple(told))
        return Proof(file, None, None, report)
    wiring = Wiring(job)
    findings, raised = run_checks(wiring)
    given_up = 0
    if mends and any(finding.severity <= Severity.FIX for finding in findings):
        from harness.mend.search import with_mends

        findings, given_up = with_mends(wiring, findings)
    findings += [_failed(job, each.code, each.error) for each in raised]
    if told or raised:
        findings = sorted([*told, *findings], key=lambda finding: finding.order)
    counts = _counts(wiring)
    unchecked = _unchecked(wiring)
    if given_up:
        unchecked.append(Unchecked(f"the smallest change for {given_up} findings", "too many to try in one run"))
    unchecked += [Unchecked(f"the check {each.code}", "it failed to run; please report it") for each in raised]
    report = Report(_verdict(findings), job.preset, counts, tuple(unchecked), tuple(findings))
    return Proof(file, job, wiring, report)


def _failed(job: Job, code: str, error: BaseException) -> Finding:
    about = REFUSALS["R29"]
    return Finding(
        "R29", about.severity, about.title, (Spot(job.place, job.title),),
        f"The check {code} failed to run ({type(error).__name__}: {error}), so what it looks for was not looked for.",
        "Please report this with the job file; the other checks ran.",
    )  # fmt: skip


def _verdict(findings: list[Finding]) -> str:
    """Never better than the evidence: a plan without faults on an untoned chart is consistent, not verified."""
    if any(finding.severity == Severity.STOP for finding in findings):
        return "stop"
    if any(finding.severity == Severity.FIX for finding in findings):
        return "mend"
    return "consistent-not-verified"


def _counts(wiring: Wiring) -> Counts:
    states = [pair.state for pair in used_pairs(wiring)]
    return Counts(states.count("charted"), states.count("measured"), states.count("toned"))


def _unchecked(wiring: Wiring) -> list[Unchecked]:
    """What this run did not look at, and why."""
    job = wiring.job
    made = []
    if not job.has_runs:
        made.append(Unchecked("supply and ground", "the job has no `runs:`, so no cable, fuse or ground is written"))
    else:
        made.append(
            Unchecked("whether each unit has its feed, fuse and ground", "this version does not look at the supply")
        )
        made.append(Unchecked("cable size, fuse size and voltage drop", "this version does not compute them"))
    made.append(
        Unchecked(
            "turn-on: whether each unit has one, its source, capacity and order", "this version does not look at it"
        )
    )
    made.append(Unchecked("loads, levels and gains", "this version does not compute them"))
    made.append(Unchecked("the order of work", "this version does not prove the states between the steps"))
    for unit in job.parts.units.values():
        outputs = [port for port in unit.ports.values() if port.way == "out"]
        if outputs and not unit.is_source and not unit.routes_said and unit.name not in wiring.gone:
            made.append(
                Unchecked(
                    f"routes inside {unit.name}", "none are written; each output is taken from the input of its number"
                )
            )
    for plug in job.parts.plugs.values():
        if plug.ways is not None and not plug.inline:
            missing = plug.ways - len(set(plug.cavities))
            if missing > 0:
                made.append(Unchecked(f"{missing} of {plug.ways} cavities of {plug.name}", "not recorded in the job"))
    return made
