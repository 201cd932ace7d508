"""The search for the smallest change: try, look again with every check, keep what does no harm."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from harness.checks import all_checks, run_checks
from harness.checks.hides import HIDES
from harness.finding import Edit, Finding, Mend, Severity
from harness.graph.polarity import BY_FACTORY, causes
from harness.graph.wiring import Wiring
from harness.mend.changes import Change, applied, in_words, rank_of
from harness.mend.combinations import combined, paired
from harness.mend.edits import edits_for
from harness.mend.page import CannotEdit, Page, edited
from harness.mend.scene import Scene
from harness.mend.served import Served, served
from harness.mend.singles import singles
from harness.model.contact import listed
from harness.place import Place
from harness.read.files import load
from harness.read.job import read_job_text
from harness.read.lines import split_lines
from harness.read.troubles import Troubles

# Work is counted in contacts looked at, so that the same job gives the same answer on any machine: a trial of
# one check looks at each contact once, a trial of all checks counts for several.
WORK_A_FINDING = 100_000
WORK_A_RUN = 600_000
LEAST_TRIALS = 40  # for one finding of a big job
ALL_CHECKS = 8
SOONEST = 5  # checks asked before all are

Key = tuple[str, Place]
Line = tuple[str, int]


class _Good(NamedTuple):
    """Changes that clear the finding and do no harm, and what they lose. Sorts with the best first."""

    cost: tuple[int, ...]
    number: int
    changes: tuple[Change, ...]
    lost: tuple[str, ...]
    notes: int  # how many more there are


def with_mends(wiring: Wiring, findings: list[Finding]) -> tuple[list[Finding], int]:
    """The findings, each with its mend where a change can clear it; and for how many the work ran out."""
    text = load(wiring.job.file, Troubles()) or ""
    page = Page(wiring.job.file, text)
    before = served(wiring)
    purse, given_up = WORK_A_RUN, 0
    mendable = {check.code for check in all_checks() if check.by_joints}
    made: list[Finding] = []
    for finding in findings:
        if finding.severity > Severity.FIX or finding.code not in mendable or _not_by_joints(wiring, finding):
            made.append(finding)
            continue
        if purse <= len(wiring.job.contacts):
            given_up += 1
            made.append(finding)
            continue
        search = _Search(wiring, finding, findings, text, before, purse)
        mend = search.run(Scene(wiring, finding, page))
        purse -= search.spent
        given_up += search.gave_up
        made.append(finding._replace(mend=mend))
    return made, given_up


def _not_by_joints(wiring: Wiring, finding: Finding) -> bool:
    """Whether a speaker is reversed by what no joint of ours should make good: a unit's own route turns the signal, or
    it is written as inverted by the factory and nothing says that the car's own wires turn it.
    """
    if finding.code not in ("B01", "B05"):
        return False
    place, parts = finding.places[0].place, wiring.job.parts
    if any(route.inverted and route.place == place for unit in parts.units.values() for route in unit.routes):
        return True
    return any(
        not cause.turns and cause.place == place and parts.speakers[cause.wrong[0].speaker].inverted == BY_FACTORY
        for cause in causes(wiring)
    )


def _key(finding: Finding) -> Key:
    return finding.code, finding.places[0].place


class _Search:
    """The search for one finding; `spent` is the work done, `gave_up` says that it ended before all was tried."""

    def __init__(
        self, wiring: Wiring, finding: Finding, findings: list[Finding], text: str, before: Served, purse: int
    ) -> None:
        self.job, self.finding, self.text, self.before = wiring.job, finding, text, before
        self.known = {_key(each) for each in findings}
        self.notes = Counter(each.code for each in findings if each.severity > Severity.ASK)
        self.lines = Counter((each.code, _line(each.places[0].place)) for each in findings)
        self.checks = {check.code: check for check in all_checks()}
        self.check = self.checks[finding.code]
        self.hidden = {code for each in findings for code in HIDES.get(each.code, ())}
        self.refusing: Counter[str] = Counter()
        self.cost = max(len(wiring.job.contacts), 1)
        self.purse = min(purse, max(WORK_A_FINDING, LEAST_TRIALS * self.cost))
        self.spent, self.gave_up = 0, False

    def run(self, scene: Scene) -> Mend | None:
        """The smallest mend that loses nothing, else the smallest that does and says so, else None."""
        lossy: list[_Good] = []
        for batch in _batches(scene):
            good = list(self._good_of(scene, batch))
            whole = sorted(each for each in good if not each.lost)
            mend = next((mend for each in whole for mend in [self._written(each)] if mend), None)
            if mend:
                return mend
            lossy += [each for each in good if each.lost]
            if self.gave_up:
                break
        return next((mend for each in sorted(lossy) for mend in [self._written(each)] if mend), None)

    def _good_of(self, scene: Scene, batch: Iterable[tuple[Change, ...]]) -> Iterator[_Good]:
        """What of a batch would do; no more once none of the rest, which a person thinks of later, can be better."""
        silent = len(self.before.speakers) < len(scene.wiring.signals.speaker_receivers)
        for each in self._tried(scene, batch):
            if each is None:
                continue
            yield each
            if not each.lost and not silent and each.notes <= 0:
                return

    def _tried(self, scene: Scene, batch: Iterable[tuple[Change, ...]]) -> Iterator[_Good | None]:
        seen: set[frozenset[Change]] = set()
        for number, changes in enumerate(batch):
            if frozenset(changes) in seen:
                continue
            seen.add(frozenset(changes))
            if self.spent + self.cost > self.purse:
                self.gave_up = True
                return
            yield self._try(scene, changes, number)

    def _try(self, scene: Scene, changes: tuple[Change, ...], number: int) -> _Good | None:
        """What a change costs and loses, or None where it does not clear the finding or does harm."""
        self.spent += self.cost
        wiring = Wiring(applied(self.job, changes))
        mine = _key(self.finding)
        if any((self.check.code, fault.at.place) == mine for fault in self.check.look(wiring)):
            return None
        if self._soon_refused(wiring):
            return None
        self.spent += ALL_CHECKS * self.cost
        after, raised = run_checks(wiring)
        if raised or any(_key(each) == mine for each in after):
            return None
        new = [each.code for each in after if self._is_new(each)]
        if new:
            self.refusing.update(new)
            return None
        now = served(wiring)
        lost = self.before.lost_in(now)
        notes = Counter(each.code for each in after if each.severity > Severity.ASK)
        cost = (
            len(changes),
            len(lost),
            len(self.before.speakers - now.speakers) - len(now.speakers - self.before.speakers),
            (notes - self.notes).total(),
            *_order(scene, changes),
        )
        return _Good(cost, number, changes, lost, (notes - self.notes).total())

    def _soon_refused(self, wiring: Wiring) -> bool:
        """Whether one of the checks that refused most so far sees something new: a look before the long one.

        A code that a known finding may hide is left to the long look.
        """
        for code, _ in self.refusing.most_common(SOONEST):
            if code in self.hidden:
                continue
            self.spent += self.cost
            check = self.checks[code]
            if any((code, fault.at.place) not in self.known for fault in check.look(wiring)):
                self.refusing[code] += 1
                return True
        return False

    def _is_new(self, finding: Finding) -> bool:
        return self._counts(finding) and _key(finding) not in self.known

    def _counts(self, finding: Finding) -> bool:
        """Whether a finding speaks against a change. What a record says is of the car as it was before it."""
        return finding.severity <= Severity.ASK and self.checks[finding.code].needs != "records"

    def _written(self, good: _Good) -> Mend | None:
        """The mend as edits of the file, proved by reading the edited text; None where it can't be written."""
        try:
            edits = edits_for(self.job.file, self.text, good.changes)
            text = edited(self.text, edits)
        except CannotEdit:
            return None
        if not self._holds(text, _LinesBefore(self.job.file, edits, len(split_lines(self.text)))):
            return None
        words = in_words(self.job, good.changes)
        if good.lost:
            return Mend(f"Loses {listed(good.lost)}: {words}.", edits, len(good.changes))
        return Mend(words[0].upper() + words[1:] + ".", edits, len(good.changes))

    def _holds(self, text: str, line_before: _LinesBefore) -> bool:
        """Whether the edited file reads, has lost the finding and gained no new one."""
        troubles = Troubles()
        job = read_job_text(text, self.job.file, troubles)
        if job is None or troubles.refused:
            return False
        self.spent += ALL_CHECKS * self.cost
        after, raised = run_checks(Wiring(job))
        there = Counter((each.code, line_before.place(each.places[0].place)) for each in after if self._counts(each))
        mine = (self.finding.code, _line(self.finding.places[0].place))
        there[mine] += 1  # one finding less must stand there than before
        return not raised and there <= self.lines


class _LinesBefore:
    """Lines of the edited file as lines of the file before."""

    def __init__(self, file: str, edits: tuple[Edit, ...], lines: int) -> None:
        self.file = file
        gone = {edit.place.line for edit in edits if edit.old and not edit.new}
        new = Counter(edit.place.line for edit in edits if not edit.old)
        self.numbers = [0]
        for line in range(1, lines + 2):
            self.numbers += [0] * new[line]
            if line not in gone:
                self.numbers.append(line)

    def place(self, place: Place) -> Line:
        """File and line as before; line 0 for a line that is new."""
        if place.file != self.file or place.line >= len(self.numbers):
            return _line(place)
        return place.file, self.numbers[place.line]


def _line(place: Place) -> Line:
    return place.file, place.line


def _order(scene: Scene, changes: tuple[Change, ...]) -> tuple[int, int]:
    """What a person would think of first sorts first: by kind, then by the lines that the finding names."""
    return max(rank_of(change) for change in changes), sum(change.at not in scene.places for change in changes)


def _batches(scene: Scene) -> Iterator[Iterator[tuple[Change, ...]]]:
    """What is tried, by the number of changes; in each batch what a person would think of comes first."""
    yield iter(sorted(((change,) for change in singles(scene)), key=lambda changes: _order(scene, changes)))
    by_size: dict[int, list[tuple[Change, ...]]] = {2: []}
    for changes in combined(scene):
        by_size.setdefault(len(changes), []).append(changes)
    for size in sorted(by_size):
        natural = sorted(by_size[size], key=lambda changes: _order(scene, changes))
        yield iter(natural)
        if size == 2:
            yield paired(scene)
