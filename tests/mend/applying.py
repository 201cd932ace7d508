"""A mend put into a file by this folder's own hand, and what holds before and after it.

`applied` follows the words of `Edit` and nothing else; what is served is counted here over the nets anew.
"""

from __future__ import annotations

import shutil
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

import yaml

from harness.checks import all_checks
from harness.finding import Edit, Finding, Report, Severity
from harness.model.job import Job
from harness.prove import Proof, prove

# Codes mended in the chart and not in the plan; that the chart is then right is held to in tests/patterns.
BY_THE_CHART = ("A02", "A03", "A04", "A08", "A12", "A20", "A21", "A22", "A23", "A24", "A25")
ROOT = Path(__file__).resolve().parent.parent


class Edited(NamedTuple):
    """A text after edits; `lines` says for each of its lines which one it was before, 0 for a new one."""

    text: str
    lines: tuple[int, ...]


def applied(text: str, edits: Iterable[Edit]) -> Edited:
    """Line numbers are those of the text before; what stands in no edit stays byte for byte."""
    pieces = text.split("\n")
    ends = ["\r\n" if piece.endswith("\r") else "\n" for piece in pieces[:-1]] + [""]
    held = [piece.removesuffix("\r") for piece in pieces]
    end = ends[0] or "\n"
    new: list[tuple[int, str]] = []
    edits = list(edits)
    for number in range(1, len(held) + 2):
        here = [edit for edit in edits if edit.place.line == number]
        new += [(0, edit.new + end) for edit in here if edit.old == ""]
        if number > len(held):
            break
        changed = [edit for edit in here if edit.old]
        assert len(changed) <= 1, f"line {number} changes twice"
        if not changed:
            new.append((number, held[number - 1] + ends[number - 1]))
            continue
        assert changed[0].old == held[number - 1], f"line {number} is not as the edit says"
        if changed[0].new:
            new.append((number, changed[0].new + ends[number - 1]))
    for at, (_, line) in enumerate(new[:-1]):
        if line and not line.endswith("\n"):
            new[at] = (new[at][0], line + end)  # the last line had no end, and something follows it now
    return Edited("".join(line for _, line in new), tuple(number for number, _ in new))


def beside(path: Path, folder: Path) -> Path:
    """A copy of a job in another folder, with its part files and its evidence."""
    text = path.read_bytes()
    job = folder / path.name
    job.write_bytes(text)
    evidence = path.with_name(path.stem + ".evidence.yaml")
    if evidence.is_file():
        shutil.copy(evidence, folder / evidence.name)
    for part in yaml.load(text, Loader=yaml.BaseLoader).get("parts", []):
        (folder / part).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path.parent / part, folder / part)
    return job


def read(path: Path) -> str:
    """The text with the line ends that it has."""
    return path.read_bytes().decode("utf-8")


def proved(path: Path, text: str) -> Proof:
    path.write_bytes(text.encode("utf-8"))
    return prove(path, mends=False)


Told = Counter[tuple[str, str, int]]


def told(report: Report, job: str, lines: tuple[int, ...] | None = None) -> Told:
    """STOP, FIX and ASK by code, file and line; lines of the job as they were before its edits.

    What a record says is of the car as it was before the edits, and doesn't speak against them.
    """
    made: Told = Counter()
    of_records = {check.code for check in all_checks() if check.needs == "records"}
    for finding in report.findings:
        if finding.severity <= Severity.ASK and finding.code not in of_records:
            made[place_of(finding, job, lines)] += 1
    return made


def place_of(finding: Finding, job: str, lines: tuple[int, ...] | None = None) -> tuple[str, str, int]:
    place = finding.places[0].place
    name = Path(place.file).name
    line = lines[place.line - 1] if lines and name == job and place.line <= len(lines) else place.line
    return finding.code, name, line


# -- what is served -------------------------------------------------------------------------------------


def keeps(proof: Proof) -> set[str]:
    """Speakers with a signal, ports that lead to another unit or a speaker, wires that are fed."""
    job, wiring = proof.job, proof.wiring
    assert job is not None
    assert wiring is not None
    signals, net = wiring.signals, wiring.planned.net
    made = {receiver.name for receiver in signals.speaker_receivers if signals.ways(receiver, most=1)}
    for unit in job.parts.units.values():
        if unit.name in job.removed:
            continue
        for port in unit.ports.values():
            for terminal in (port.plus, port.minus):
                others = {other for name in net(terminal) for other in [_end(job, name, unit.name)] if other}
                wanted = {"out"} if port.way == "in" else {"in", "speaker"}
                if others & wanted:
                    made.add(unit.name if unit.is_source else terminal)
        for wake in unit.wakes:
            terminal = f"{unit.name}.{wake.split()[0]}"
            if terminal in job.contacts and any(_wakes(job, name, unit.name) for name in net(terminal)):
                made.add(terminal)
        feed = f"{unit.name}.B+"
        if feed in job.contacts and any(_feeds(job, name, unit.name) for name in net(feed)):
            made.add(feed)
    return made


def _feeds(job: Job, name: str, unit: str) -> bool:
    contact = job.contacts[name]
    return contact.owner != unit and contact.kind in ("plug", "battery") and contact.function.kind == "battery"


def _end(job: Job, name: str, unit: str) -> str:
    contact = job.contacts[name]
    if contact.kind == "speaker":
        return "speaker"
    if contact.kind != "unit" or contact.owner == unit or contact.owner in job.removed:
        return ""
    ports = job.parts.units[contact.owner].ports.values()
    return next((port.way for port in ports if name in (port.plus, port.minus)), "")


def _wakes(job: Job, name: str, unit: str) -> bool:
    contact = job.contacts[name]
    if contact.kind == "unit":
        return contact.owner != unit and contact.last in job.parts.units[contact.owner].gives_a
    return contact.kind == "plug" and contact.function.kind in ("trigger", "switched", "battery")


def shares(proof: Proof) -> set[tuple[str, str]]:
    """Speakers on one output."""
    assert proof.wiring is not None
    signals = proof.wiring.signals
    by_driver: dict[str, set[str]] = {}
    for receiver in signals.speaker_receivers:
        for way in signals.ways(receiver):
            by_driver.setdefault(way.hops[-1].feed.driver.name, set()).add(receiver.name)
    return {(a, b) for speakers in by_driver.values() for a in speakers for b in speakers if a < b}


def loses(before: Proof, after: Proof) -> set[str]:
    """What was there before and isn't any more."""
    lost = keeps(before) - keeps(after)
    fed = {name for name in keeps(before) if name.startswith("spk.")}
    new = shares(after) - shares(before)
    return lost | {a for a, b in new if a in fed and b in fed}
