"""The screen of a session at the car: menus, questions, results, and what is written after each."""

from __future__ import annotations

import re
from datetime import datetime
from decimal import Decimal

from harness.cli.keys import ENTER, UNREADABLE, Ended, Keys, readable
from harness.cli.screen import Refused, as_argument, harmless, say
from harness.cli.tone_chart import Charts, of_charts
from harness.cli.tone_plan import STOP, Stopped, after_the_change, told_first
from harness.finding import Report
from harness.graph.wiring import Wiring
from harness.read.evidence import evidence_path
from harness.records.append import NotRecorded, append
from harness.session.danger import dangers, made_safe
from harness.session.recording import Fields, record_of, unreadable
from harness.session.sections import sections
from harness.session.talk import LEFT_OUT, Conversation, Outcome, Question, Section, Task

BACK = "-"
LONGEST_NAME = 100
_REVERSED = ("B01", "B05", "B08")
_SIGNS = "*/+"  # on a keypad, for answers beside a typed number
_NUMBER = re.compile(r"(-?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+))\s*([^0-9\s.,-].*)?")
# As a meter or a hand writes the unit, in small letters, and what a number in it is multiplied by.
_UNITS = {
    "ohm": {"ohm": 1.0, "ohms": 1.0, "r": 1.0, "ω": 1.0, "kohm": 1e3, "k ohm": 1e3, "kω": 1e3, "k": 1e3},
    "V": {"v": 1.0, "volt": 1.0, "volts": 1.0, "vdc": 1.0, "v dc": 1.0, "mv": 1e-3},
    "dB": {"db": 1.0},
}
HELP = f"Keys: a number answers, Enter leaves out, {BACK} goes one back, {STOP} alone stops; a number may hold a point."


class Screen:
    """One session. `job` is the file, `moment` what to write as date and time, empty for now."""

    def __init__(self, job: str, wiring: Wiring, report: Report, hand: Keys, by: str, moment: str) -> None:
        self.job, self.wiring, self.hand, self.by, self.moment = job, wiring, hand, by, moment
        self.report = report
        self.differs = 0
        self.written = 0
        self.corrected = 0  # charts put right
        self.charts = Charts(job, hand)

    # -- menus -----------------------------------------------------------------------------------------

    def run(self, first: str) -> int:
        """Sections by choice until stopped or nothing is open. Gives the exit code."""
        known = sections(self.wiring)
        if not known:
            say("This job has nothing to tone, to read or to try.")
            return 0
        if first and first not in [each.name for each in known]:
            raise Refused(f"there is no {first!r} in this job; there is {', '.join(each.name for each in known)}")
        say(f"{harmless(self.wiring.job.title)}{self._car()}")
        try:
            self._who()
            say(HELP)
            self.charts.known_already(of_charts(self.wiring, self.report.findings))
            for line in self._on_record():
                say(f"!! {line}")
            if first:
                self._section(next(each for each in known if each.name == first))
            while self._menu():
                pass
        except Stopped:
            pass
        return self.goodbye()

    def _who(self) -> None:
        """Who records: as given, else asked for until a name can be read again."""
        given = self.by
        if len(given) > LONGEST_NAME:
            raise Refused(f"a record needs a name of at most {LONGEST_NAME} signs: --by JM")
        self.by = " ".join(readable(given).split())
        while not 0 < len(self.by) <= LONGEST_NAME or UNREADABLE in self.by:
            if self.by:
                say(f"{harmless(self.by)} can't be written as a name: at most {LONGEST_NAME} signs that can be read.")
            say("Who records? Initials or a name, then Enter.")
            self.by = " ".join(self.hand.line().split())
            if self.by == STOP:
                self.by = ""
                raise Stopped

    def _car(self) -> str:
        car = self.wiring.job.car
        return f" · {harmless(' '.join(filter(None, (car.name, car.year))))}" if car else ""

    def _menu(self) -> bool:
        """A kind of work chosen and done; False where nothing is open any more."""
        known = sections(self.wiring)
        wrong = [each for each in of_charts(self.wiring, self.report.findings) if each.mend is not None]
        if not wrong and not any(section.open for section in known):
            say("\nNothing is open: all that this job asks of the car is recorded. To do one again: --section NAME.")
            return False
        say("")
        for number, section in enumerate(known, 1):
            state = f"{len(section.open)} open" if section.open else "done"
            say(f"  {number}  {section.title}: {state}, {section.done} recorded")
        for number, finding in enumerate(wrong, len(known) + 1):
            say(f"  {number}  Put the chart of {harmless(finding.places[0].name)} right ({finding.code}): not done")
        many = len(known) + len(wrong)
        while True:
            say("Which one?")
            pressed = self.hand.key() if many < 10 else self.hand.line()
            if pressed in (STOP, BACK):
                raise Stopped
            if pressed.isdecimal() and 1 <= int(pressed) <= many:
                at = int(pressed) - 1
                if at >= len(known):
                    self._changed(self.charts.tell(wrong[at - len(known)]))
                    return True
                if known[at].open or known[at].earlier:
                    self._section(known[at])
                    return True
            say("  A number of the list, or . to stop.")

    # -- one kind of work -------------------------------------------------------------------------------

    def _section(self, section: Section) -> None:
        say(f"\n== {section.title} ==")
        if section.powered:
            self._safe_first()
            told_first(self.report, self.hand)
        for number, line in enumerate(section.first, 1):
            say(f"{number}. {harmless(line)}")
        for line in section.cautions:
            say(f"! {line}")
        done = list(section.earlier)
        tasks = list(section.open)
        if not tasks and done:
            say(f"All of it is recorded. The last one again; {BACK} goes to the one before it.")
            tasks = [done.pop()]
        elif done:
            say(f"{len(done)} recorded before; {BACK} goes back to them, the last one first.")
        while tasks:
            task = tasks.pop(0)
            say(f"\n[{len(done) + 1} of {len(done) + len(tasks) + 1}] {harmless(task.lines[0])}")
            for line in task.lines[1:]:
                say(f"   {harmless(line)}")
            before = self.corrected
            if (outcome := self._task(task)) is not None:
                if section.powered:
                    self._safe_first()
                if (
                    outcome.again
                ):  # it isn't done before that is found; what was recorded may have changed what is asked
                    tasks.insert(0, self._anew(section, task))
                    continue
                done.append(task)
                self._then(section, task, outcome)
                if self.corrected != before:  # other rows stand in the chart now: what is left is asked anew
                    section = next(each for each in sections(self.wiring) if each.name == section.name)
                    done, tasks = list(section.earlier), list(section.open)
                continue
            tasks.insert(0, task)  # one step back, before its first question
            if done:
                tasks.insert(0, done.pop())
                say("   The one before again; the new record counts.")
            else:
                say("   This is the first one.")

    def _anew(self, section: Section, task: Task) -> Task:
        """The same task as the records have it now."""
        now = next((each for each in sections(self.wiring) if each.name == section.name), section)
        return next((each for each in now.open if each.about == task.about), task)

    def _safe_first(self) -> None:
        """A reading that says stop: nothing under power is asked before somebody said what he did about it."""
        for danger in dangers(self.wiring):
            if danger.safe is None:
                for line in (danger.words, *danger.lines[1:]):
                    say(f"!! {harmless(line)}")
                while self._task(made_safe(danger)) is None:
                    pass

    def _then(self, here: Section, task: Task, outcome: Outcome) -> None:
        """What an answer leads to is asked at once, where it is still open."""
        while outcome.then:
            section = next((each for each in sections(self.wiring) if each.name == outcome.then), None)
            found = [each for each in section.open if each.contacts == task.contacts] if section else []
            if section is None or not found:
                return
            for line in section.first if section.name != here.name else ():  # of the work in hand that was read
                say(f"   {harmless(line)}")
            following = self._task(found[0]._replace(talk=found[0].at_once or found[0].talk))
            if following is None:
                return
            outcome = following

    def _task(self, task: Task) -> Outcome | None:
        """Ask a task through and record its end. None where the first question was gone back from."""
        while True:
            outcome = self._talk(task)
            if outcome is None:
                return None
            fields = self._fields(task, outcome)
            wrong = unreadable(self.job, fields)
            if not wrong:
                break
            say(f"   Not recorded: {harmless(wrong)}\n   Once more:")
        self._end(outcome, fields)
        return outcome

    def _end(self, outcome: Outcome, fields: Fields) -> None:
        """The result against what was expected, and its record."""
        for line in outcome.fits:
            say(f"   ok {harmless(line)}")
        for line in outcome.lines:
            say(f"   {'!!' if outcome.loud else '->'} {harmless(line)}")
        self.differs += outcome.loud
        if fields:
            self._record(fields)

    def _talk(self, task: Task) -> Outcome | None:
        """The questions of a task, to their end."""
        talk = Conversation(task)
        while talk.outcome is None:
            assert talk.question is not None
            try:
                given = self._ask(talk.question)
            except (Stopped, Ended) as stopped:
                if self._kept(task, talk, asks=isinstance(stopped, Stopped)):
                    raise
                continue
            if given != BACK:
                talk.answer(given)
            elif not talk.back():
                return None
        return talk.outcome

    def _kept(self, task: Task, talk: Conversation, *, asks: bool) -> bool:
        """Stopped in the middle: what is complete of the answers is recorded. What can't be is named, and asked about.

        False where the person goes on with it.
        """
        given = talk.given
        if not given:
            return True
        about = harmless(task.about)
        lost = f"Not recorded of {about}: {', '.join(map(harmless, given))}. It is too little for a record."
        ahead = Conversation(task)
        for value in talk.every:
            ahead.answer(value)
        outcome = ahead.rest_left_out()
        fields = self._fields(task, outcome) if outcome is not None else []
        if outcome is not None and fields and not unreadable(self.job, fields):
            say(f"   Stopped in the middle of {about}; what was answered is kept:")
            self._end(outcome, fields)
            return True
        if not asks:
            say(f"   {lost}")
            return True
        say(f"   {lost}\n     1  go on with it\n     2  stop, and answer it anew next time")
        while (pressed := self.hand.key()) not in ("1", "2"):
            say("     1 or 2")
        return pressed == "2"

    def _ask(self, question: Question) -> str:
        """An answer's value, `-` for back. Asks again for what is no answer."""
        expected = f"  (expected: {harmless(question.expected)})" if question.expected else ""
        say(f"   {harmless(question.text)}{expected}")
        signs = _SIGNS if question.unit else [str(number) for number in range(1, len(question.choices) + 1)]
        by_sign = dict(zip(signs, question.choices, strict=False))
        for sign, choice in by_sign.items():
            say(f"     {sign}  {harmless(choice.words)}")
        zero = [choice for choice in question.choices if choice.value == "0"]
        by_sign |= dict(zip("0", zero, strict=False))  # what the meter shows
        if question.unit:
            say(f"     a number in {question.unit}, then Enter ({STOP} alone stops)")
        typed = bool(question.unit) or len(question.choices) > 9
        while True:
            given = self.hand.line() if typed else self.hand.key()
            if given == STOP:
                raise Stopped
            if given == BACK:
                return BACK
            if given == ENTER and not question.must:
                return LEFT_OUT
            if given in by_sign:
                return by_sign[given].value
            number = _number(given, question.unit)
            if number is not None:
                return f"{number.normalize() + 0:f}"
            say(f"     {harmless(given) or 'Nothing'} is no answer here. {HELP}")

    # -- what is written ----------------------------------------------------------------------------------

    def _fields(self, task: Task, outcome: Outcome) -> Fields:
        """The record that an end makes; none where there is nothing to write."""
        if not outcome.fields:
            return []
        when = self.moment or datetime.now().strftime("%Y-%m-%d %H:%M")
        return record_of(self.wiring, outcome, task.contacts, when, self.by)

    def _record(self, fields: Fields) -> None:
        try:
            made = append(evidence_path(self.job), fields)
        except (NotRecorded, ValueError) as wrong:
            raise Refused(f"not recorded: {wrong}. What was recorded before is safe; this answer is not") from None
        if made.torn:
            say(f"   ! half a record was found at the end and set aside: {harmless(made.torn[:60])}")
        self.written += 1
        say(f"   recorded (line {made.number})")
        self._look_again()

    def _look_again(self) -> None:
        """Read the job with its new record; where the tones now say how the chart is wrong, offer to put it right."""
        before = {(each.code, each.message) for each in self.report.findings}
        self._read_again()
        for each in self.report.findings:  # a speaker that is turned in this car makes the plan wrong
            if each.code in _REVERSED and (each.code, each.message) not in before:
                say(f"   !! {each.severity.name} {harmless(each.title)} ({each.code}): {harmless(each.message)}")
                say(f"      Do now: {harmless(each.do)}")
        for finding in self.charts.news(of_charts(self.wiring, self.report.findings)):
            self._changed(self.charts.tell(finding))

    def _read_again(self) -> None:
        from harness.prove import prove

        proof = prove(self.job, mends=False)
        if proof.wiring is None:
            raise Refused(f"{self.job} can't be read any more; look at it with ringout check")
        self.wiring, self.report = proof.wiring, proof.report

    def _changed(self, changed: bool) -> None:
        """After a chart was put right: the plan proved again."""
        if changed:
            self.corrected += 1
            self._read_again()
            self.charts.known_already(of_charts(self.wiring, self.report.findings))
            say("\n".join(after_the_change(self.report)))

    def _on_record(self) -> list[str]:
        """Readings that say stop and that nobody has read again."""
        return [harmless(each.words) for each in dangers(self.wiring)]

    def goodbye(self) -> int:
        """What was done and what is open. Gives the exit code: 1 where something differed, else 0."""
        known = sections(self.wiring)
        say(f"\n{self.written} recorded{f', {self.differs} of them not as expected' if self.differs else ''}.")
        for line in self._on_record():
            say(f"  !! {line}")
        for section in known:
            if section.open:
                say(f"  open: {section.title}, {len(section.open)}")
        for finding in of_charts(self.wiring, self.report.findings):
            say(f"  open: the chart of {harmless(finding.places[0].name)} ({finding.code})")
        if any(section.open for section in known):
            say(f"Go on with: ringout tone {as_argument(self.job)} --by {as_argument(self.by or 'NAME')}")
        return 1 if self.differs else 0


def _number(given: str, unit: str) -> Decimal | None:
    """A number as typed, with or without its unit: `12.6`, `12,6 V`, `3.9 Ω`, `1.`; None where it is none in `unit`."""
    match = _NUMBER.fullmatch(given.strip()) if unit else None
    if match is None:
        return None
    spelt = " ".join((match[2] or unit).replace("\N{OHM SIGN}", "Ω").lower().split())
    times = _UNITS[unit].get(spelt)
    return None if times is None else Decimal(match[1].replace(",", ".")) * Decimal(str(times))
