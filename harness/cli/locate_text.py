"""A search for a fault on the screen, and the keys that answer it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from harness.basis import SEARCH, basis
from harness.cli.screen import harmless, say

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.locate.session import Session
    from harness.locate.telling import Told
    from harness.locate.tests import Test
    from harness.model.evidence import Record
    from harness.prove import Proof

_SHOWN = 8
BACK, STOP = "-", "."  # as in `ringout tone`


def opening(session: Session, proof: Proof) -> list[str]:
    """The symptoms, what is taken for granted, and the suspects."""
    from harness.locate.symptoms import speakers_of
    from harness.locate.telling import Told, suspect_words

    named = {each.subject for each in session.symptoms}
    others = [name for name in speakers_of(session.wiring) if name not in named]
    lines = [f"{harmless(proof.job_path)}: {', '.join(each.words for each in session.symptoms)}"]
    if proof.report.verdict == "stop":
        lines.append(
            "STOP: the plan itself can do damage, so no test is made with power on. ringout check says where it"
        )
        lines.append("is; mend that first.")
    elif proof.report.verdict == "mend":
        lines.append(
            "The plan itself won’t work as it is, and what you hear may be just that: ringout check says where."
        )
    if others and not all(each.word == "stays on" for each in session.symptoms):
        lines.append(f"Taken as working: {' '.join(others)}. Where one isn’t, name it too.")
    lines += map(harmless, Told(session).apart_lines())
    lines += _record_lines(session)
    ranked = session.suspects_in(session.start) if session.suspects else []
    if ranked:
        count = f"{len(ranked)} suspects" if len(ranked) > 1 else "1 suspect"
        if len(ranked) < len(session.suspects):
            count += f" left of {len(session.suspects)}"
        rests_on = f"odds and minutes: entry {_entry(proof)} of the basis, {basis(SEARCH).kind}"
        lines.append(f"{count}, likeliest first ({rests_on}):")
        lines += [
            f"  {round(100 * each.share):3d} % {harmless(suspect_words(session, each.faults))}"
            for each in ranked[:_SHOWN]
        ]
        if len(ranked) > _SHOWN:
            lines.append(f"        and {len(ranked) - _SHOWN} more; --json has them all")
    return lines


def _record_lines(session: Session) -> list[str]:
    """What the job's records say already, and those left aside."""
    every = len(session.suspects)
    lines = []
    if session.recorded.used:
        lines.append("From records, as answers given (--without-records leaves them aside):")
    for used in session.recorded.used[-_SHOWN:]:
        gone = every - used.fits.bit_count()
        what = f"rules out {gone} of {every}" if gone else "raises the suspicion"
        lines.append(f"  {_record_words(used.record)} {harmless(used.says)}: {what}")
    if len(session.recorded.used) > _SHOWN:
        lines.append(f"  and {len(session.recorded.used) - _SHOWN} earlier; --json has them all")
    if session.recorded.aside:
        lines.append("Records left aside:")
    for aside in session.recorded.aside[-_SHOWN:]:
        lines.append(f"  {_record_words(aside.record)} {harmless(aside.record.named)}: {harmless(aside.why)}")
    if len(session.recorded.aside) > _SHOWN:
        lines.append(f"  and {len(session.recorded.aside) - _SHOWN} earlier; --json has them all")
    return lines


def _record_words(record: Record) -> str:
    signed = f", {harmless(record.signed)}" if record.signed else ""
    return f"line {record.place.line}{signed}:"


def _entry(proof: Proof) -> int:
    """The number under which the basis sheet of this job says where odds and minutes come from."""
    from harness.planning.bases import numbered

    return next(each.number for each in numbered(proof.report.preset, proof.job) if each.key == SEARCH)


def standing(session: Session) -> list[str]:
    """The answers given so far, then the next test or the end."""
    lines = []
    for number, answer in enumerate(session.answers, 1):
        lines += ["", *_given_lines(session, number, answer.test, answer.result)]
    test = session.next_test()
    lines.append("")
    if test is not None:
        return lines + test_lines(session, test)
    lines += end_lines(session)
    sure = session.confirming()
    return lines + (["", *sure_lines(session, sure)] if sure is not None else [])


def _given_lines(session: Session, number: int, test: Test, result: str) -> list[str]:
    from harness.locate.telling import Told

    told = Told(session)
    return [
        f"Test {number}: {harmless(told.do(test))}",
        f"  {told.word(test, result)}: {harmless(told.means(test, result))}.",
    ]


def _heading(session: Session, told: Told, test: Test, first: str) -> list[str]:
    """What to do, how long it takes where nothing is opened yet, and the caution."""
    opened = {answer.test.where for answer in session.answers}
    minutes = test.minutes + (0.0 if test.where in opened else test.reach_min)
    where = f", {test.where}" if test.where else ""
    lines = [f"{first} (about {minutes:g} min{where}): {harmless(told.do(test))}"]
    caution = told.caution(test)
    return [*lines, f"  Caution: {caution}."] if caution else lines


def test_lines(session: Session, test: Test) -> list[str]:
    """Where and what to do; what the answers mean, with the caution; then a line for each key."""
    from harness.locate.telling import Told
    from harness.locate.tests import keyed

    told = Told(session)
    lines = _heading(session, told, test, f"Test {len(session.answers) + 1}")
    results = session.results(test)
    for result, key in keyed(test.kind, results).items():
        left = len(session.suspects_in(results[result]))
        meaning = f"{told.word(test, result)}: {harmless(told.means(test, result))}"
        lines.append(f"  {key}  {meaning} ({left} of {len(session.ranked)} left)")
    return lines


def sure_lines(session: Session, test: Test) -> list[str]:
    """The test that bears out what was found, before anybody works on it."""
    from harness.locate.telling import Told
    from harness.locate.tests import keyed

    told = Told(session)
    lines = _heading(session, told, test, "To be sure before you work on it")
    results = session.confirmations(test)
    for result, key in keyed(test.kind, results).items():
        says = "bears it out" if results[result] else "speaks against it"
        lines.append(f"  {key}  {harmless(told.word(test, result))}: {says}")
    return lines


def end_lines(session: Session) -> list[str]:
    """How the search ends."""
    from harness.locate.telling import Told

    lines = [harmless(line) for line in Told(session).end_lines()]
    if session.suspects:
        lines.append(
            "When it is put right: play every speaker once more. Local codes and a licensed person’s word come first."
        )
    return lines


def known_lines(session: Session) -> list[str]:
    """What is known when somebody stops on the way."""
    from harness.locate.telling import suspect_words

    ranked = session.ranked
    done = len(session.answers)
    count = f"{done} test{'' if done == 1 else 's'}"
    lines = ["", f"Stopped after {count}; {len(ranked)} suspects left, likeliest first:"]
    lines += [
        f"  {round(100 * each.share):3d} % {harmless(suspect_words(session, each.faults))}" for each in ranked[:_SHOWN]
    ]
    if len(ranked) > _SHOWN:
        lines.append(f"        and {len(ranked) - _SHOWN} more")
    if session.answers:
        given = " ".join(f'--answer "{answer.result}"' for answer in session.answers)
        lines.append(f"To go on from here: add {given}")
    return lines


def converse(session: Session) -> int:
    """Asks test after test by number keys. Gives the exit code."""
    from harness.locate.tests import keyed

    try:
        while True:
            test = session.next_test()
            say("")
            if test is None:
                say("\n".join(end_lines(session)))
                test = session.confirming()
                if test is None:
                    return 0
                say("")
                say("\n".join(sure_lines(session, test)))
                results = keyed(test.kind, session.confirmations(test))
                key = _key([str(each) for each in results.values()], "- takes the last answer back, . ends")
                if key == STOP:
                    return 0
            else:
                say("\n".join(test_lines(session, test)))
                results = keyed(test.kind, session.results(test))
                key = _key([str(each) for each in results.values()], "- takes the last answer back, . stops")
            if key == STOP:
                say("\n".join(known_lines(session)))
                return 0
            if key == BACK:
                if not session.undo():
                    say("There is no answer to take back yet.")
                continue
            session.answer(key)
    except EOFError:
        say("\n".join(known_lines(session)))
        return 0
    except KeyboardInterrupt:
        say("\n".join(known_lines(session)))
        return 130


def ask_symptoms(wiring: Wiring) -> tuple[str, ...]:
    """Asks what is wrong and where, until that is all. Raises EOFError and KeyboardInterrupt as they come."""
    from harness.locate.symptoms import MEANING, STAYS_ON, WORDS, Unreadable, speakers_of, waking_units

    made: list[str] = []
    while True:
        say("What is wrong?")
        words = [word for word in WORDS if word != STAYS_ON or waking_units(wiring)]
        for number, word in enumerate(words, 1):
            say(f"  {number}  {word}: {MEANING[word]}")
        word = words[int(_key(_up_to(len(words)), "")) - 1]
        subjects = waking_units(wiring) if word == STAYS_ON else speakers_of(wiring)
        if not subjects:
            raise Unreadable("the plan gives no speaker a signal; ringout check says why")
        say("Which unit?" if word == STAYS_ON else "Which speaker?")
        for number, name in enumerate(subjects, 1):
            say(f"  {number}  {harmless(name)}")
        made.append(f"{subjects[int(_key(_up_to(len(subjects)), '')) - 1]} {word}")
        say(f"{made[-1]}. Anything else?")
        say("  1  no, that is all")
        say("  2  yes")
        if _key(_up_to(2), "") == "1":
            return tuple(made)


def _up_to(count: int) -> list[str]:
    return [str(number) for number in range(1, count + 1)]


def _key(numbers: list[str], more: str) -> str:
    """One of the numbers, or - or . where `more` speaks of them; asked again until it is one.

    Up to nine a key is enough; with more the number is typed and sent by Enter. Raises EOFError at the end of input.
    """
    allowed = {*numbers, *((BACK, STOP) if more else ())}
    hint = f"1 to {numbers[-1]}" if numbers[2:] else " or ".join(numbers)
    while True:
        click.echo(f"{hint}{'; ' + more if more else ''}: ", nl=False)
        if int(numbers[-1]) > 9:
            typed = input().strip().lower()
        else:
            typed = click.getchar().lower()
            if typed in ("\x04", "\x1a", ""):
                raise EOFError
            if typed == "\x03":
                raise KeyboardInterrupt
            say(harmless(typed.strip()))
        if typed in allowed:
            return typed
        say(f"That is none of the keys; press {hint}{', - or .' if more else ''}.")
