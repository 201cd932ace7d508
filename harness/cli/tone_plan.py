"""What the check says of the plan, told at the car: before power, and after a chart was put right."""

from __future__ import annotations

from pathlib import Path

from harness.cli.keys import Keys
from harness.cli.screen import harmless, say
from harness.finding import Report, Severity
from harness.read.nodes import Rows, Table, Text, read_text
from harness.read.troubles import Troubles

STOP = "."
_MOST_JOBS = 200  # of one folder
_MOST_BYTES = 1_000_000
_SHOWN = 8


class Stopped(Exception):
    """The person at the keys has had enough for now."""


def told_first(report: Report, hand: Keys) -> None:
    """Before work under power: each STOP of the plan in words, and whether to go on. Raises Stopped."""
    stops = [finding for finding in report.findings if finding.severity == Severity.STOP]
    if not stops:
        return
    say("!! The plan as it is written can do damage or hurt someone. Nothing is switched on before this is put right:")
    say("\n".join(_found(report, Severity.STOP)))
    say(f"   Go on?\n     1  go on anyway: it is put right in the car, and I know what it says\n     {STOP}  stop")
    while True:
        pressed = hand.key()
        if pressed == STOP:
            raise Stopped
        if pressed == "1":
            return
        say(f"     1 or {STOP}")


def after_the_change(report: Report) -> list[str]:
    """What the plan has against it now that the chart says something else, in words."""
    if not any(finding.severity <= Severity.FIX for finding in report.findings):
        return ["      Proved again with the new chart: no STOP and no FIX."]
    return ["      !! Proved again with the new chart, the plan doesn't hold:", *_found(report, Severity.FIX)]


def _found(report: Report, down_to: Severity) -> list[str]:
    """Findings down to a severity, worst first: title, what is wrong and what to do."""
    worst = [finding for finding in report.findings if finding.severity <= down_to]
    lines = []
    for finding in worst[:_SHOWN]:
        lines.append(f"      {finding.severity.name} {harmless(finding.title)} ({finding.code}): "
                     f"{harmless(finding.message)}")  # fmt: skip
        lines.append(f"        Do now: {harmless(finding.do)}")
    if len(worst) > _SHOWN:
        lines.append(f"      and {len(worst) - _SHOWN} more: ringout check")
    return lines


def shared_with(job: str, files: list[str]) -> list[str]:
    """For each file changed that isn't the job itself: which other jobs of the job's folder name it as a part."""
    made = []
    for file in files:
        if not _same(Path(file), Path(job)):
            others = _others(job, file)
            use = f"these jobs use it too and have the new chart now: {', '.join(others)}. Check each of them."
            made.append(f"{file} is a part file; {use if others else 'no other job beside this one uses it.'}")
    return made


def sharing(job: str, files: list[str]) -> list[str]:
    """Before a change: for each part file among the files, whose chart it is as well."""
    made = []
    for file in files:
        if not _same(Path(file), Path(job)):
            others = _others(job, file)
            named = f"these jobs beside this one use it too: {', '.join(others)}" if others else "other jobs may use it"
            made.append(f"{file} is a part file; {named}. What is so in this car alone doesn't belong into it.")
    return made


def _others(job: str, file: str) -> list[str]:
    return [path.name for path in _beside(Path(job)) if any(_same(part, Path(file)) for part in _parts(path))]


def _beside(job: Path) -> list[Path]:
    found = sorted(path for path in job.parent.iterdir() if path.suffix in (".yaml", ".yml"))
    return [path for path in found if not path.name.endswith(".evidence.yaml") and not _same(path, job)][:_MOST_JOBS]


def _parts(path: Path) -> list[Path]:
    """The files that a job names under `parts:`; none where it can't be read."""
    try:
        if path.stat().st_size > _MOST_BYTES:
            return []
        root = read_text(path.read_text(encoding="utf-8-sig"), str(path), Troubles())
    except (OSError, UnicodeDecodeError):
        return []
    entries = root.get("parts") if isinstance(root, Table) else None
    named = entries.items if isinstance(entries, Rows) else (entries,)
    return [path.parent / each.value for each in named if isinstance(each, Text)]


def _same(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except OSError:
        return False
