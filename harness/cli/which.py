"""`ringout which`: which of the maps a plug in hand is."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from harness.cli.screen import Refused, complain, harmless, say

if TYPE_CHECKING:
    from harness.read.maps import Maps
    from harness.telling_apart.session import Observation, Session

_MOST_BYTES = 100_000


@click.command("which", no_args_is_help=True)
@click.argument("observed", nargs=-1, metavar="['LOOK: WHAT'] ...")
@click.option(
    "--maps",
    "folders",
    multiple=True,
    required=True,
    metavar="FOLDER",
    help="Part files with plugs; may be given again.",
)
@click.option("--facts", "facts", metavar="FILE", help="Observations in a file, a line each.")
@click.option("--json", "as_json", is_flag=True, help="Give how it stands and the next test as JSON, for a script.")
def command(observed: tuple[str, ...], folders: tuple[str, ...], facts: str | None, as_json: bool) -> int:
    """Tell which map a plug in hand is, by the fewest looks, ohms and tones.

    What is known is written as housing, ways, keying, cavity 7, body 19 (ohms to the body), ohm 1/11, tone 1/11 or
    plus 1/11, a colon and the answer. In a terminal it asks on: number keys answer, Enter leaves out, - goes one
    back, . stops. Exit code: 0, 1 where no map fits, 2 where something can't be read or is misused.

    \b
    Example:
      ringout which --maps maps
      ringout which --maps maps "ways: 20" "cavity 7: GN/YE" "cavity 8: empty"
      ringout which --maps maps --facts plug.txt "ohm 1/11: 3.8 ohm" "tone 1/11: FL" --json
    """
    from harness.telling_apart.session import Session

    maps = _maps(folders)
    if maps is None:
        return 2
    session = Session(maps.maps, _observations(observed, facts))
    _known_words(session)
    if as_json:
        from harness.cli import which_json

        say(which_json.text(session, maps))
        return 0 if session.standing() else 1
    from harness.cli import which_text

    say("\n".join(map(harmless, which_text.opening(session, maps))))
    if sys.stdin is not None and sys.stdin.isatty() and sys.stdout.isatty():
        return which_text.converse(session)
    say("\n".join(map(harmless, which_text.standing(session))))
    return 0 if session.standing() else 1


def _maps(folders: tuple[str, ...]) -> Maps | None:
    """The maps; None (and told) where one of them can't be read: the right one may be among these."""
    from harness.finding import Severity
    from harness.read.maps import read_maps
    from harness.read.troubles import Troubles

    troubles = Troubles()
    maps = read_maps(folders, troubles)
    if troubles.refused:
        for each in troubles.findings:
            if each.severity <= Severity.FIX:
                complain(harmless(f"{each.places[0].place}: {each.code} {each.message} {each.do}"))
        complain("put it right, or take it out of the folder: it may be the map that fits")
        return None
    if not maps.maps:
        raise Refused(f"there is no plug in {', '.join(folders)}")
    return maps


def _observations(observed: tuple[str, ...], facts: str | None) -> tuple[Observation, ...]:
    """All that was said, the file's first. Raises Refused for what isn't understood or contradicts itself."""
    from harness.cli.files import bytes_of
    from harness.telling_apart.observed import NotObserved, read_lines, read_observation

    said: list[tuple[str, int, str]] = []
    if facts is not None:
        try:
            text = bytes_of(Path(facts), _MOST_BYTES).decode("utf-8-sig")
        except UnicodeDecodeError:
            raise Refused(f"{facts}:1:1: this is no UTF-8 text") from None
        said += [(f"{facts}:{line}", column, words) for line, column, words in read_lines(text)]
    said += [("", 0, words) for words in observed]
    made: list[Observation] = []
    for where, column, words in said:
        try:
            seen = read_observation(words)
        except NotObserved as wrong:
            raise Refused(harmless((f"{where}:{column + wrong.at}: " if where else "") + str(wrong))) from None
        twin = next((each for each in made if each.test == seen.test), None)
        if twin is not None and twin.answer != seen.answer:
            place = f"{where}:{column}: " if where else ""
            raise Refused(harmless(f"{place}“{seen.words}” contradicts “{twin.words}”: look again"))
        if twin is None:
            made.append(seen)
    return tuple(made)


def _known_words(session: Session) -> None:
    """Housing and keying are words of the maps. Raises Refused for others, so that a slip strikes nothing out."""
    from harness.telling_apart.phrases import answer_words
    from harness.telling_apart.tests import HOUSING, KEYING, OTHER

    for seen in session.observed:
        if seen.test.kind in (HOUSING, KEYING) and seen.answer != OTHER:
            words = {answer for each in session.facts for answer in each.says(seen.test).answers}
            if seen.answer not in words:
                known = "; ".join(sorted(answer_words(seen.test, each, session.facts) for each in words))
                has = f"they have: {known}" if known else "none says any"
                raise Refused(
                    harmless(f"no map has “{seen.words}”; {has}. If it is none of these: {seen.test.kind}: other")
                )
