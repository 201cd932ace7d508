"""A plug in hand and its maps on the screen, and the keys that answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from harness.cli.keys import ENTER, Ended, Keys, keys
from harness.cli.screen import harmless, say

if TYPE_CHECKING:
    from harness.read.maps import Maps
    from harness.telling_apart.session import Next, Session, Table

BACK, STOP = "-", "."  # as in `ringout tone`
_SHOWN = 12
HELP = f"Enter leaves out, {BACK} goes one back, {STOP} stops"


def opening(session: Session, maps: Maps) -> list[str]:
    """How many maps there are, what is struck out by what is known already."""
    count, files = len(maps.maps), len(maps.files)
    lines = [f"{count} map{'' if count == 1 else 's'} in {files} file{'' if files == 1 else 's'}"]
    if maps.others:
        lines.append(f"Left out, since they are jobs, scopes or shop files: {', '.join(maps.others)}")
    return lines + struck(session, len(session.observed))


def struck(session: Session, last: int) -> list[str]:
    """The maps that the last observations strike out, each with all that speaks against it."""
    from harness.telling_apart import phrases
    from harness.telling_apart.phrases import Names

    names = Names(session.facts)
    new = session.observed[len(session.observed) - last :]
    lines = []
    for each in session.facts:
        against = session.against(each)
        if against and all(seen in new for seen in against):
            lines += [f"  out: {names.of(each)}: {phrases.strike(seen, each)}" for seen in against]
    return lines


def standing(session: Session) -> list[str]:
    """The maps that could fit, then the next test or the end."""
    table = session.table()
    if table.next is None:
        return _end(session, table)
    return [*_could_fit(session, table), *test_lines(session, table, table.next)]


def _could_fit(session: Session, table: Table) -> list[str]:
    from harness.telling_apart.telling import Told

    told = Told(session)
    lines = [f"{len(table.maps)} could fit:"]
    lines += [f"  {told.map_line(each)}" for each in table.maps[:_SHOWN]]
    if len(table.maps) > _SHOWN:
        lines.append(f"  and {len(table.maps) - _SHOWN} more; --json has them all")
    return lines + told.plan_lines(table)


def test_lines(session: Session, table: Table, step: Next) -> list[str]:
    """What to look at or do, the caution, and a line for each key."""
    from harness.telling_apart import phrases

    test = step.test
    lines = ["", f"Next (about {phrases.minutes(test.seconds)}): {phrases.ask(test, table.maps)}"]
    if phrases.caution(test):
        lines.append(f"  Caution: {phrases.caution(test)}.")
    if not step.sure:
        lines.append("  It may tell: not every map says something of it.")
    for number, (answer, left) in enumerate(table.left(test).items(), 1):
        lines.append(f"  {number}  {phrases.answer_words(test, answer, table.maps)} ({left} of {len(table.maps)} left)")
    missing = len(table.left(test)) + 1
    if not _closed(table, test):
        lines.append(f"  {missing}  {phrases.answer_words(test, 'other')} (none left)")
    return lines


def _closed(table: Table, step: object) -> bool:
    """Whether the answers listed are all that there can be."""
    from harness.telling_apart.tests import BODY, OHM, OTHER, PLUS, Test

    assert isinstance(step, Test)
    return OTHER in table.left(step) or step.kind in (BODY, OHM, PLUS)


def _end(session: Session, table: Table) -> list[str]:
    from harness.telling_apart.telling import Told

    return ["", *Told(session).end_lines(table)]


def converse(session: Session) -> int:
    """Asks test after test by number keys. Gives the exit code."""
    try:
        with keys() as hand:
            return _converse(session, hand)
    except Ended:
        say("")
        return _stopped(session)


def _converse(session: Session, hand: Keys) -> int:
    from harness.telling_apart.session import Observation

    shown = False
    while True:
        table = session.table()
        if table.next is None:
            say("\n".join(map(harmless, _end(session, table))))
            return 0 if table.maps else 1
        if not shown:
            say("\n".join(map(harmless, _could_fit(session, table))))
            shown = True
        say("\n".join(map(harmless, test_lines(session, table, table.next))))
        test = table.next.test
        answers = [*table.left(test)] + ([] if _closed(table, test) else ["other"])
        given = _key(hand, len(answers))
        if given == STOP:
            return _stopped(session)
        if given == BACK:
            if not session.back():
                say("  There is nothing to take back yet.")
        elif given == ENTER:
            session.leave_out(test)
        else:
            session.observe(Observation(test, answers[int(given) - 1]))
            say("\n".join(map(harmless, struck(session, 1))) or "  nothing is struck out by it")


def _key(hand: Keys, count: int) -> str:
    allowed = {str(number) for number in range(1, count + 1)} | {BACK, STOP, ENTER}
    while True:
        click.echo(f"{f'1 to {count}' if count > 1 else '1'}; {HELP}: ", nl=False)
        given = hand.key() if count < 10 else hand.line()
        if given in allowed:
            return given
        say(f"  {harmless(given)} is no answer here.")


def _stopped(session: Session) -> int:
    from harness.telling_apart.phrases import as_argument_words

    standing_ = session.standing()
    say(f"Stopped; {len(standing_)} of {len(session.facts)} maps could fit.")
    if session.observed:
        said = " ".join(f'"{as_argument_words(each)}"' for each in session.observed)
        say(f"To go on from here, add {harmless(said)}")
    return 0
