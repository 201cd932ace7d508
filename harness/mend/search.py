"""The search for the smallest change: try, look again with every check, keep what does no harm."""

from __future__ import annotations

from collections.abc import Iterator

from harness.checks import all_checks, run_checks
from harness.finding import Edit, Finding, Mend, Severity
from harness.graph.wiring import Wiring
from harness.mend.candidates import Scene
from harness.mend.changes import Change, applied
from harness.mend.edits import CannotEdit, Page, apply, edits_for
from harness.mend.served import served
from harness.place import Place
from harness.read.files import load
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

# Contacts looked at in trials, for one finding and for a whole run: a bound that is the same on any machine.
WORK_A_FINDING = 400_000
WORK_A_RUN = 1_600_000

Key = tuple[str, Place]


def with_mends(wiring: Wiring, findings: list[Finding]) -> tuple[list[Finding], int]:
    """The findings, each with its mend where a change can clear it; and for how many the work ran out."""
    text = load(wiring.job.file, Troubles()) or ""
    purse = WORK_A_RUN
    given_up = 0
    made: list[Finding] = []
    for finding in findings:
        if finding.severity > Severity.FIX or finding.code.startswith("R"):
            made.append(finding)
            continue
        if purse <= 0:
            given_up += 1
            made.append(finding)
            continue
        search = _Search(wiring, finding, findings, text, min(purse, WORK_A_FINDING))
        mend = search.run()
        purse -= search.spent
        given_up += search.gave_up and mend is None
        made.append(finding._replace(mend=mend))
    return made, given_up


def _key(finding: Finding) -> Key:
    return finding.code, finding.places[0].place


class _Search:
    def __init__(self, wiring: Wiring, finding: Finding, findings: list[Finding], text: str, purse: int) -> None:
        self.wiring, self.job, self.finding, self.text = wiring, wiring.job, finding, text
        self.before = {_key(each) for each in findings}
        self.served = served(wiring)
        self.check = next(check for check in all_checks() if check.code == finding.code)
        self.cost = max(len(wiring.job.contacts), 1)
        self.purse, self.spent, self.gave_up = purse, 0, False

    def run(self) -> Mend | None:
        """The smallest mend that loses nothing, else the smallest that does and says so, else None."""
        places = tuple(spot.place for spot in self.finding.places)
        scene = Scene(self.wiring, (*self.finding.about, *self.finding.path), places)
        lossy: tuple[tuple[Change, ...], frozenset[str]] | None = None
        for changes in self._by_size(scene):
            lost = self._try(changes)
            if lost is None:
                if self.gave_up:
                    break
                continue
            if not lost:
                mend = self._written(changes, "")
                if mend:
                    return mend
            elif lossy is None or (len(lossy[0]), len(lossy[1])) > (len(changes), len(lost)):
                lossy = changes, lost
        if lossy is None:
            return None
        return self._written(lossy[0], f"Loses {', '.join(sorted(lossy[1]))}: ")

    def _by_size(self, scene: Scene) -> Iterator[tuple[Change, ...]]:
        yield from ((change,) for change in scene.singles())
        yield from sorted(scene.combinations(), key=len)

    def _try(self, changes: tuple[Change, ...]) -> frozenset[str] | None:
        """What a change loses, or None where it does not clear the finding or does harm."""
        if self.spent + self.cost > self.purse:
            self.gave_up = True
            return None
        self.spent += self.cost
        wiring = Wiring(applied(self.job, changes))
        mine = _key(self.finding)
        if any((self.check.code, fault.at.place) == mine for fault in self.check.look(wiring)):
            return None
        after, raised = run_checks(wiring)
        if raised or not self._harmless(after):
            return None
        return self.served - served(wiring)

    def _harmless(self, after: list[Finding]) -> bool:
        mine = _key(self.finding)
        return all(_key(each) != mine and (each.severity > Severity.ASK or _key(each) in self.before) for each in after)

    def _written(self, changes: tuple[Change, ...], first: str) -> Mend | None:
        """The mend as edits of the file, proved by reading the edited text; None where it can't be written."""
        page = Page(self.job.file, self.text)
        edits: list[Edit] = []
        try:
            for change in changes:
                edits += edits_for(page, change)
            edits = _merged(edits)
            lines = apply(page.lines, edits)
        except CannotEdit:
            return None
        if not self._holds("\n".join(lines), edits):
            return None
        words = [change.words(self.job) for change in changes]
        said = first + words[0] + "".join(f"; then {more}" for more in words[1:])
        return Mend(said[0].upper() + said[1:] + ".", tuple(edits), len(changes))

    def _holds(self, text: str, edits: list[Edit]) -> bool:
        """Whether the edited file reads, has lost the finding and gained no new one."""
        troubles = Troubles()
        job = read_job_text(text, self.job.file, troubles)
        if job is None or troubles.refused:
            return False
        after, raised = run_checks(Wiring(job))
        if raised:
            return False
        moved = _Moved(edits)
        there = [
            each._replace(places=(each.places[0]._replace(place=moved.back(each.places[0].place)),)) for each in after
        ]
        return self._harmless(there)


class _Moved:
    """Lines of the edited file as lines of the file before."""

    def __init__(self, edits: list[Edit]) -> None:
        self.edits = sorted(edits, key=lambda edit: edit.place.line)

    def back(self, place: Place) -> Place:
        line = place.line
        for edit in self.edits:
            if edit.old == "" and edit.place.line < line:
                line -= 1
            elif edit.new == "" and edit.place.line <= line:
                line += 1
        return place._replace(line=line)


def _merged(edits: list[Edit]) -> list[Edit]:
    """Each line edited once; raises CannotEdit where two changes want the same line."""
    by_line: dict[int, Edit] = {}
    made = []
    for edit in edits:
        if edit.old == "":
            made.append(edit)
            continue
        if edit.place.line in by_line:
            if by_line[edit.place.line] == edit:
                continue
            raise CannotEdit("two changes of one line")
        by_line[edit.place.line] = edit
        made.append(edit)
    return sorted(made, key=lambda edit: (edit.place.line, edit.old))
