"""A search: symptoms in, the next test out, an answer in, until one place is left or nothing tells more."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.locate.choose import Chooser, most_tests
from harness.locate.circuit import Circuit
from harness.locate.proposals import Proposals
from harness.locate.recorded import Recorded, recorded
from harness.locate.rows import Rows
from harness.locate.simulate import Faults, Simulator
from harness.locate.symptoms import NOISE, PROTECTS, STAYS_ON, Symptom, Unreadable
from harness.locate.tests import CLIP, KEY_OFF, Answer, Test, keyed
from harness.locate.tracing import circuit_of

Progress = Callable[[int, int], None]  # (done, of how many)
_MOST_PAIRS = 20_000


class Suspect(NamedTuple):
    """What may be wrong: one fault or, in a search for two, a pair of them; with its share of the odds left."""

    faults: Faults
    share: float


class Session:
    """One search. Nothing in it is written to disk: `answers` are its records, as plain data.

    Without `power` only tests are made for which nothing is switched on: a plan with a STOP must not be powered.
    With `records` those of the job that hold are answers given already, from `since` on where that is given.
    """

    def __init__(
        self,
        wiring: Wiring,
        symptoms: tuple[Symptom, ...],
        *,
        double: bool = False,
        simulator: Callable[[Circuit], Simulator] = Simulator,
        progress: Progress | None = None,
        power: bool = True,
        records: bool = True,
        since: str = "",
    ) -> None:
        if double and any(each.word == PROTECTS for each in symptoms):
            raise Unreadable("what protects is looked for as one fault; leave --double out")
        self.wiring, self.symptoms, self.double = wiring, symptoms, double
        speakers = [each.subject for each in symptoms if each.word != STAYS_ON]
        units = [each.subject for each in symptoms if each.word == STAYS_ON]
        self.circuit = circuit_of(wiring, speakers, units, noise=any(each.word == NOISE for each in symptoms))
        self.simulator = simulator(self.circuit)
        self.suspects: list[Faults] = self._suspects(progress)
        self.power = power
        pieces = frozenset(number for faults in self.suspects for number in self.pieces_of(faults))
        proposed = Proposals(wiring, self.circuit).tests(symptoms)
        self.tests = [test for test in proposed if self._may_tell(test, pieces)]
        rows: list[list[str]] = []
        known: dict[object, list[str]] = {}
        made = Rows(self.simulator, self.suspects)
        for done, test in enumerate(self.tests, 1):
            key = self.simulator.alike(test, pieces)
            row = known.get(key)
            if row is None:
                row = known[key] = made.of(test)
            rows.append(row)
            if progress is not None:
                progress(done, len(self.tests))
        said = recorded(wiring, self.simulator, self.suspects, symptoms, since) if records else Recorded()
        self.recorded = said
        self.chooser = Chooser(said.weighed([self.simulator.odds(faults) for faults in self.suspects]), rows)
        self.start = self.chooser.everything & said.fitting  # what the records leave
        self.left = self.start
        self.answers: list[Answer] = []
        self.confirmed: Answer | None = None  # the test to be sure, once one place is left
        self._before: list[int] = []
        self.most = most_tests(len(self.chooser.classes(self.left))) if self.suspects else 0
        self._asked: tuple[int, int | None] | None = None

    def _may_tell(self, test: Test, pieces: frozenset[int]) -> bool:
        """Whether a test is allowed in this search and can tell anything of these pieces."""
        if not self.power and test.kind not in KEY_OFF:
            return False
        if self.double and test.kind == CLIP:
            return False  # clips past one of two breaks change nothing that is heard
        if test.piece < 0 or test.piece in pieces:
            return True
        wires = self.circuit.pieces[test.piece].wires
        return any(wires & self.circuit.pieces[number].wires for number in pieces)

    def _suspects(self, progress: Progress | None) -> list[Faults]:
        simulator = self.simulator
        single = simulator.suspects(self.symptoms)
        made: list[Faults] = [(fault,) for fault in simulator.explaining(single, self.symptoms)]
        if not self.double:
            return made
        pairs = [(a, b) for at, a in enumerate(single) for b in single[at + 1 :] if a.piece != b.piece]
        for done, pair in enumerate(pairs[:_MOST_PAIRS], 1):
            if simulator.explains(pair, self.symptoms):
                made.append(pair)
            if progress is not None and done % 200 == 0:
                progress(done, len(pairs))
        return made

    # -- asking ------------------------------------------------------------------------------------------

    @property
    def places(self) -> list[int]:
        """The sets of suspects left that no test splits."""
        return self.chooser.classes(self.left) if self.suspects else []

    def next_test(self) -> Test | None:
        """The test that tells most for its cost; None where one place is left, or none that a test splits."""
        if self._asked is None or self._asked[0] != len(self.answers):
            self._asked = (len(self.answers), self._choose())
        number = self._asked[1]
        return None if number is None else self.tests[number]

    def _choose(self) -> int | None:
        if not self.suspects or not self.left & (self.left - 1):
            return None
        opened = {answer.test.where for answer in self.answers}
        costs = [test.minutes + test.risk + (0.0 if test.where in opened else test.reach_min) for test in self.tests]
        return self.chooser.next(self.left, costs, max(1, self.most - len(self.answers)))

    def results(self, test: Test) -> dict[str, int]:
        """The answers that a test can still give, each with the suspects behind it, in the order of their keys."""
        parts = self.chooser.answers(self.tests.index(test))
        found = {str(word): mask & self.left for word, mask in parts.items() if mask & self.left}
        return {word: found[word] for word in keyed(test.kind, found)}

    def answer(self, result: str) -> None:
        """Takes the answer to the test asked. Raises Unreadable where it isn't one of those asked for."""
        test = self.next_test()
        if test is None:
            last = self.confirming()
            if last is None:
                raise Unreadable(f"“{result}”: nothing is asked any more; the search has ended")
            self.confirmed = Answer(last, self._chosen(last, self.confirmations(last), result))
            return
        results = self.results(test)
        chosen = self._chosen(test, results, result)
        self._before.append(self.left)
        self.left = results[chosen]
        self.answers.append(Answer(test, chosen))

    def _chosen(self, test: Test, results: Iterable[str], said: str) -> str:
        """The answer meant by a word or a number key. Raises Unreadable."""
        words = keyed(test.kind, results)
        folded = " ".join(said.lower().split())
        chosen = next((word for word, key in words.items() if folded in (word.lower(), str(key))), None)
        if chosen is None:
            asked = ", ".join(f"{key} {word}" for word, key in words.items())
            number = f"test {len(self.answers) + 1}" if self.next_test() is not None else "the test to be sure"
            raise Unreadable(f"“{said}” is no answer to {number}; there are: {asked}")
        return chosen

    # -- to be sure --------------------------------------------------------------------------------------

    def _misfits(self, answers: Iterable[Answer]) -> list[int]:
        """For each suspect, how many of the answers, and of the records used, speak against it."""
        made = [sum(not used.fits >> at & 1 for used in self.recorded.used) for at in range(len(self.suspects))]
        for answer in answers:
            fits = self.chooser.answers(self.tests.index(answer.test)).get(answer.result, 0)
            for at in range(len(made)):
                made[at] += not fits >> at & 1
        return made

    def confirming(self) -> Test | None:
        """The cheapest test that bears out the one place left; None where none is left to make, or none is needed.

        One answer misheard, a key mistaken or a record outdated would have led here from any suspect that a single one
        speaks against.
        Of the tests not made yet, it is the one that parts the most of their odds from the place found for its cost.
        """
        given = self.answers or self.start != self.chooser.everything
        if self.double or not given or self.confirmed is not None or not self._one_left():
            return None
        near = sum(1 << at for at, count in enumerate(self._misfits(self.answers)) if count == 1)
        made = {answer.test for answer in self.answers}
        opened = {test.where for test in made}
        best, best_rate = None, 0.0
        for number, test in enumerate(self.tests):
            if test in made:
                continue
            same = next(mask for mask in self.chooser.answers(number).values() if mask & self.left)
            cost = test.minutes + test.risk + (0.0 if test.where in opened else test.reach_min)
            rate = self.chooser.weight(near & ~same) / cost
            if rate > best_rate:
                best, best_rate = test, rate
        return best

    def _one_left(self) -> bool:
        return bool(self.left) and not self.left & (self.left - 1)

    def confirmations(self, test: Test) -> dict[str, bool]:
        """The answers to a test that is made to be sure, in the order of their keys: whether each bears it out."""
        parts = {str(word): mask for word, mask in self.chooser.answers(self.tests.index(test)).items()}
        return {word: bool(parts[word] & self.left) for word in keyed(test.kind, parts)}

    @property
    def borne_out(self) -> bool | None:
        """Whether the test to be sure bore the place out; None where none was made."""
        if self.confirmed is None:
            return None
        return self.confirmations(self.confirmed.test)[self.confirmed.result]

    @property
    def one_misheard(self) -> list[Suspect]:
        """What is possible where one of all answers, the last test's too, was misheard; likeliest first."""
        answers = [*self.answers, *([self.confirmed] if self.confirmed is not None else [])]
        mask = sum(1 << at for at, count in enumerate(self._misfits(answers)) if count == 1)
        return self.suspects_in(mask)

    def undo(self) -> bool:
        """Takes the last answer back; False where there is none."""
        if self.confirmed is not None:
            self.confirmed = None
            return True
        if not self.answers:
            return False
        self.answers.pop()
        self.left = self._before.pop()
        return True

    def restart(self) -> None:
        """Takes all answers back, not what the records say, and forgets what was chosen."""
        self.answers, self._before, self.confirmed = [], [], None
        self.left = self.start
        self._asked = None

    # -- telling -----------------------------------------------------------------------------------------

    def suspects_in(self, mask: int) -> list[Suspect]:
        """The suspects of a set, likeliest first, with their shares of it."""
        whole = self.chooser.weight(mask)
        numbers = [at for at in range(len(self.suspects)) if mask >> at & 1]
        ranked = sorted(numbers, key=lambda at: (-self.chooser.odds[at], at))
        return [Suspect(self.suspects[at], self.chooser.odds[at] / whole if whole else 0.0) for at in ranked]

    @property
    def ranked(self) -> list[Suspect]:
        """All suspects left, likeliest first."""
        return self.suspects_in(self.left)

    def pieces_of(self, faults: Faults) -> list[int]:
        return [number for fault in faults for number in (fault.piece, fault.other) if number >= 0]
