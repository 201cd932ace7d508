"""A search: symptoms in, the next test out, an answer in, until one place is left or nothing tells more."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.locate.choose import Chooser, most_tests
from harness.locate.circuit import Circuit
from harness.locate.proposals import Proposals
from harness.locate.simulate import Faults, Simulator
from harness.locate.symptoms import STAYS_ON, Symptom, Unreadable
from harness.locate.tests import CLIP, KEY_OFF, Answer, Test
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
    ) -> None:
        self.wiring, self.symptoms, self.double = wiring, symptoms, double
        speakers = [each.subject for each in symptoms if each.word != STAYS_ON]
        units = [each.subject for each in symptoms if each.word == STAYS_ON]
        self.circuit = circuit_of(wiring, speakers, units)
        self.simulator = simulator(self.circuit)
        self.suspects: list[Faults] = self._suspects(progress)
        self.power = power
        pieces = frozenset(number for faults in self.suspects for number in self.pieces_of(faults))
        proposed = Proposals(wiring, self.circuit).tests(symptoms)
        self.tests = [test for test in proposed if self._may_tell(test, pieces)]
        rows: list[list[str]] = []
        known: dict[object, list[str]] = {}
        for done, test in enumerate(self.tests, 1):
            key = self.simulator.alike(test, pieces)
            row = known.get(key)
            if row is None:
                row = known[key] = [self.simulator.answer(faults, test) for faults in self.suspects]
            rows.append(row)
            if progress is not None:
                progress(done, len(self.tests))
        self.chooser = Chooser([self.simulator.odds(faults) for faults in self.suspects], rows)
        self.left = self.chooser.everything
        self.answers: list[Answer] = []
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
        made: list[Faults] = [(fault,) for fault in single if simulator.explains((fault,), self.symptoms)]
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
        """The answers that a test can still give, each with the suspects behind it, likeliest first."""
        parts = self.chooser.answers(self.tests.index(test))
        found = {str(word): mask & self.left for word, mask in parts.items() if mask & self.left}
        return dict(sorted(found.items(), key=lambda each: (-self.chooser.weight(each[1]), each[0])))

    def answer(self, result: str) -> None:
        """Takes the answer to the test asked. Raises Unreadable where it isn't one of those asked for."""
        test = self.next_test()
        if test is None:
            raise Unreadable(f"“{result}”: nothing is asked any more; the search has ended")
        results = self.results(test)
        words = list(results)
        folded = " ".join(result.lower().split())
        if folded.isdigit() and 1 <= int(folded) <= len(words):
            folded = words[int(folded) - 1].lower()
        chosen = next((word for word in words if word.lower() == folded), None)
        if chosen is None:
            asked = ", ".join(f"{number} {word}" for number, word in enumerate(words, 1))
            raise Unreadable(f"“{result}” is no answer to test {len(self.answers) + 1}; there are: {asked}")
        self._before.append(self.left)
        self.left = results[chosen]
        self.answers.append(Answer(test, chosen))

    def undo(self) -> bool:
        """Takes the last answer back; False where there is none."""
        if not self.answers:
            return False
        self.answers.pop()
        self.left = self._before.pop()
        return True

    def restart(self) -> None:
        """Takes all answers back and forgets what was chosen."""
        self.answers, self._before = [], []
        self.left = self.chooser.everything
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
