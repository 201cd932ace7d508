"""What stands above every page: which job, which car, how far it is proved, and from which text."""

from __future__ import annotations

import hashlib
import os
from typing import TYPE_CHECKING

from harness.finding import Severity
from render.blocks import Masthead
from render.documents.wording import count

if TYPE_CHECKING:
    from harness.model.job import Job
    from harness.prove import Proof

DIGEST_LENGTH = 12
_STATES = {
    "consistent-not-verified": "CONSISTENT, NOT VERIFIED",
    "released": "RELEASED, NOT VERIFIED",
    "verified": "VERIFIED",
    "unreadable": "UNREADABLE: nothing was checked",
}


def masthead(proof: Proof) -> Masthead:
    """The masthead of a proof; the same for every page of its packet."""
    job = proof.job
    car = ""
    if job is not None and job.car is not None:
        car = " ".join(filter(None, (job.car.name, job.car.year)))
    counts = proof.report.counts
    return Masthead(
        job=job.title if job is not None else os.path.basename(proof.job_path),
        revision=job.revision if job is not None else "",
        car=car,
        state=state_words(proof),
        counts=f"pairs in use: {counts.charted} charted, {counts.measured} measured, {counts.toned} toned",
        preset=proof.report.preset,
        digest=digest(proof),
    )


def state_words(proof: Proof) -> str:
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
    return _STATES.get(report.verdict, report.verdict.upper())


def digest(proof: Proof) -> str:
    """The first 12 hex digits of the SHA-256 of the job file's bytes, then of its part files'.

    Part files follow in the order of their paths from the job's folder; each file's bytes go in after their
    number, so that no two sets of files give the same stream. Empty where a file can't be read any more.
    """
    whole = hashlib.sha256()
    try:
        for path in [proof.job_path, *(_part_files(proof.job) if proof.job is not None else ())]:
            with open(path, "rb") as stream:
                data = stream.read()
            whole.update(f"{len(data)} ".encode())
            whole.update(data)
    except OSError:
        return ""
    return whole.hexdigest()[:DIGEST_LENGTH]


def _part_files(job: Job) -> list[str]:
    """Every file other than the job's own that something of the job was read from."""
    parts = job.parts
    places = [contact.place for contact in job.contacts.values()]
    for plug in parts.plugs.values():
        places.append(plug.place)
        places += [plug.face.place] if plug.face is not None else []
        places += [plug.source.place] if plug.source is not None else []
        places += [row.place for row in plug.rows]
    for loom in parts.looms.values():
        places += [loom.place, *(end.place for end in loom.ends.values()), *(lead.place for lead in loom.leads)]
        places += [*(through.place for through in loom.throughs), *(row.place for row in loom.pins)]
    for unit in parts.units.values():
        places += [unit.place, *unit.terminals.values()]
        places += [*(port.place for port in unit.ports.values()), *(route.place for route in unit.routes)]
        places += [*(bond.place for bond in unit.bonds), *(lead.place for lead in unit.leads)]
    folder = os.path.dirname(os.path.abspath(job.file))
    own = os.path.abspath(job.file)
    files = {place.file for place in places if place.file and os.path.abspath(place.file) != own}
    return sorted(files, key=lambda path: os.path.relpath(path, folder))
