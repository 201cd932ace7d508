"""Questions and answers as plain values, and a conversation that can go back a step."""

from __future__ import annotations

from collections.abc import Callable, Generator
from typing import NamedTuple

LEFT_OUT = ""  # the answer to a question that was passed over


class Choice(NamedTuple):
    """One answer by number: what it says, and the word that stands for it."""

    words: str
    value: str


class Question(NamedTuple):
    """What is asked. Either one of the `choices`, or a number in `unit`, or both.

    `expected` is told beside the question. A question that must be answered can't be passed over.
    """

    text: str
    choices: tuple[Choice, ...] = ()
    unit: str = ""
    expected: str = ""
    must: bool = False


class Outcome(NamedTuple):
    """The end of a conversation: the fields of a record in order, and the result against what was expected.

    Without fields there is nothing to record. `fits` are the lines of what is as expected, `lines` the others; `loud`:
    these differ, or are a danger. `again`: what stands in the way must be found first, so the same task is asked again.
    `then` names the kind of work whose task about the same contacts comes next. `rests_on` are the contacts that the
    record rests on, where those aren't the task's.
    """

    fields: tuple[tuple[str, str | tuple[str, ...]], ...]
    lines: tuple[str, ...]
    loud: bool = False
    again: bool = False
    fits: tuple[str, ...] = ()
    then: str = ""
    rests_on: tuple[str, ...] | None = None


Talk = Generator[Question, str, Outcome]


class Task(NamedTuple):
    """One thing to do at the car. `lines` say where to put hands and probes; `about` names it for a list.

    `at_once` are its questions where they follow at once on a record about the same contacts: what was just read isn't
    asked again.
    """

    about: str
    lines: tuple[str, ...]
    talk: Callable[[], Talk]
    contacts: tuple[str, ...] = ()
    at_once: Callable[[], Talk] | None = None


class Section(NamedTuple):
    """One kind of work. `first` is read before it begins: what to unplug, and the cautions.

    `earlier` are those of the tasks done that can be done again, in the order of the work; `powered` says that the
    car is under power for it.
    """

    name: str
    title: str
    first: tuple[str, ...]
    cautions: tuple[str, ...]
    open: tuple[Task, ...]
    done: int
    earlier: tuple[Task, ...] = ()
    powered: bool = False


class Conversation:
    """One task's questions. `question` is what is asked now, None once `outcome` is there."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self._given: list[str] = []
        self.question: Question | None = None
        self.outcome: Outcome | None = None
        self._talk = task.talk()
        self._ask(None)

    def answer(self, value: str) -> None:
        """Take an answer and go on."""
        self._given.append(value)
        self._ask(value)

    @property
    def every(self) -> tuple[str, ...]:
        """All answers so far, in order, those left out too."""
        return tuple(self._given)

    @property
    def given(self) -> tuple[str, ...]:
        """The answers given so far, without those left out."""
        return tuple(each for each in self._given if each)

    def rest_left_out(self) -> Outcome | None:
        """The end if nothing more is answered; None where a question that must be answered stands in the way."""
        while self.question is not None:
            if self.question.must:
                return None
            self.answer(LEFT_OUT)
        return self.outcome

    def back(self) -> bool:
        """Take the last answer back; False where there is none. What was answered before is asked through again."""
        if not self._given:
            return False
        given = self._given[:-1]
        self._given, self.question, self.outcome = [], None, None
        self._talk = self.task.talk()
        self._ask(None)
        for value in given:
            self.answer(value)
        return True

    def _ask(self, value: str | None) -> None:
        try:
            self.question = next(self._talk) if value is None else self._talk.send(value)
        except StopIteration as end:
            self.question, self.outcome = None, end.value
