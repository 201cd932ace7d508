"""What stands above every page: which job, which car, how far it is proved, and from which text."""

from __future__ import annotations

import hashlib
import os
from typing import TYPE_CHECKING

from harness.finding import Severity
from render.blocks import Masthead
from render.documents.wording import count

if TYPE_CHECKING:
    from harness.prove import Proof

DIGEST_LENGTH = 12
_STATES = {
    "consistent-not-verified": "CONSISTENT, NOT VERIFIED",
    "verified": "VERIFIED",
    "unreadable": "UNREADABLE: nothing was checked",
}


def masthead(proof: Proof) -> Masthead:
    """The masthead of a proof; the same for every page of its packet."""
    job = proof.job
    car = ""
    if job is not None and job.car is not None:
        car = " ".join(filter(None, (job.car.name, job.car.year)))
    charted, measured, toned, against = proof.report.counts
    said = f"pairs in use: {charted} charted, {measured} measured, {toned} toned"
    return Masthead(
        job=job.title if job is not None else os.path.basename(proof.job_path),
        revision=job.revision if job is not None else "",
        car=car,
        state=state_words(proof),
        counts=said + (f", {against} contradicted" if against else ""),
        preset=proof.report.preset,
        digest=digest(proof),
        loud=proof.report.verdict in ("stop", "unreadable"),
    )


def state_words(proof: Proof) -> str:
    """The verdict, and how many records speak against the plan; the same on every page."""
    from harness.graph.contrary import contrary

    against = len(contrary(proof.wiring)) if proof.wiring is not None else 0
    verb = "speaks" if against == 1 else "speak"
    unread = ""
    if proof.wiring is not None and proof.report.verdict == "verified":
        from harness.graph.unread import unread_kinds

        unread = unread_kinds(proof.wiring)
    return (
        _verdict(proof)
        + (f"; {count(against, 'record')} {verb} against the plan" if against else "")
        + (f"; not all read: {unread}" if unread else "")
    )


def _verdict(proof: Proof) -> str:
    """`STOP: 2 findings of damage or danger`, `MEND FIRST: …`, `CONSISTENT, NOT VERIFIED` and the like."""
    report = proof.report
    tally = dict.fromkeys(Severity, 0)
    for finding in report.findings:
        tally[finding.severity] += 1
    if report.verdict == "stop":
        return f"STOP: {count(tally[Severity.STOP], 'finding')} of damage or danger"
    if report.verdict == "mend":
        number = count(tally[Severity.FIX], "finding")
        verb = "needs" if tally[Severity.FIX] == 1 else "need"
        return f"MEND FIRST: {number} {verb} a change"
    if report.verdict == "released":
        lacking = report.counts.untoned
        return f"RELEASED, {count(lacking, 'PAIR', 'PAIRS')} NOT TONED" if lacking else "RELEASED, NOT ALL TRIED"
    return _STATES.get(report.verdict, report.verdict.upper())


def digest(proof: Proof) -> str:
    """The first 12 hex digits of the SHA-256 of the job file's bytes, then of its part files'.

    Part files follow in the order in which the job names them; each file's bytes go in after their number,
    so that no two sets of files give the same stream. Empty where a file can't be read any more.
    """
    whole = hashlib.sha256()
    parts = proof.job.part_files if proof.job is not None else ()
    try:
        for path in (proof.job_path, *parts):
            with open(path, "rb") as stream:
                data = stream.read()
            whole.update(f"{len(data)} ".encode())
            whole.update(data)
    except OSError:
        return ""
    return whole.hexdigest()[:DIGEST_LENGTH]
