"""What `check` prints."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from harness.cli.report_text import VERDICTS, lines, shortfall
from harness.finding import Counts, Report
from harness.place import Place
from tests.cli.reports import FILE, NOTE, QUIET, STOP, STOPPED, TONED, UNREADABLE, VERIFIED, HandProof
from tests.graph.test_contrary import PROVED
from tests.session.hazel import hazel

UNMET = "--need verified is not met: the verdict is consistent-not-verified, "


def test_whole_report() -> None:
    """Verdict first, the worst finding before the rest, each with the user's line and a caret."""
    assert lines(HandProof(STOPPED)) == [
        VERDICTS["stop"],
        "elm.yaml: 1 STOP, 1 NOTE",
        "",
        "STOP C01 Two outputs on one wire",
        "  elm.yaml:4:16  dsp.out1+",
        "          T1.car.FL: dsp.out1",
        "                     ^",
        "  elm.yaml:2:1  radio.FL+",
        "      joints:",
        "      ^",
        "  Two outputs drive one wire, 8.5 V and 17 V into 4 Ω.",
        "  Do now: Open the radio side.",
        "  Path: radio.FL+ > dash.1 > dsp.out1+",
        "  Mend: Move the joint.",
        "      elm.yaml:4: T1.car.FL: dsp.out1  becomes  T1.unit.FL: dsp.in1",
        "",
        "NOTE B02 Even number of reversals",
        "  elm.yaml:1:1  dash.FL",
        "      ringout: 1",
        "      ^",
        "  Cancels.",
        "  Do now: Note it.",
        "",
        "Of 8 pairs used: 3 only charted, 1 measured, 4 toned.",
        "Not checked: supply (no runs are given)",
        "Preset: house",
    ]


def test_a_pair_that_the_car_speaks_against_is_counted_apart() -> None:
    """Nine pairs: 3 + 1 + 4 + 1; the last is no measured one, and not toned either."""
    report = replace(QUIET, counts=Counts(3, 1, 4, 1))

    assert "Of 9 pairs used: 3 only charted, 1 measured, 4 toned, 1 contradicted." in lines(HandProof(report))
    assert shortfall("toned", report) == "--need toned is not met: 5 of 9 pairs used not toned."
    said = "CONSISTENT, NOT VERIFIED: it all fits on paper; the car says otherwise at 1 pair."
    assert lines(HandProof(report))[0] == said


@pytest.mark.parametrize("verdict", ["stop", "mend", "consistent-not-verified", "verified", "unreadable"])
def test_every_verdict_has_its_own_words(verdict: str) -> None:
    """No verdict borrows the words of another, and none but `verified` begins like it."""
    first = lines(HandProof(replace(QUIET, verdict=verdict)))[0]

    assert first == VERDICTS[verdict]
    assert list(VERDICTS.values()).count(first) == 1
    assert first.startswith("VERIFIED") == (verdict == "verified")
    assert "OK" not in first.split()


def test_a_released_job_says_first_how_much_was_not_toned() -> None:
    """Of the eight pairs of QUIET four are toned, by its own counts: 3 + 1 are not."""
    first = lines(HandProof(replace(QUIET, verdict="released")))[0]

    assert first.startswith("RELEASED, 4 pairs not toned")
    assert "VERIFIED" not in first


@pytest.mark.parametrize(
    ("need", "report", "words"),
    [
        ("toned", QUIET, "--need toned is not met: 4 of 8 pairs used not toned."),
        ("toned", TONED, ""),
        ("toned", UNREADABLE, "--need toned is not met: nothing could be counted."),
        (
            "verified",
            QUIET,
            f"{UNMET}4 of 8 pairs used not toned.",
        ),
        (
            "verified",
            TONED,
            f"{UNMET}every pair used is toned; what is listed as not checked keeps it from being verified.",
        ),
        ("verified", VERIFIED, ""),
    ],
)
def test_shortfall(need: str, report: Report, words: str) -> None:
    """What was demanded and isn't there is said with its number."""
    assert shortfall(need, report) == words


def test_caret_behind_wide_signs() -> None:
    """The caret stands under its sign, though the signs before it take two columns each."""
    spot = STOP.places[0]._replace(place=Place(FILE, 1, 3))
    proof = HandProof(replace(STOPPED, findings=(STOP._replace(places=(spot,)),)), text="語語X")
    shown = lines(proof)
    at = next(number for number, line in enumerate(shown) if line.endswith("^"))

    assert shown[at] == "      " + " " * 4 + "^"


def test_terminal_codes_are_not_passed_on() -> None:
    """A file from a stranger can't steer the terminal."""
    finding = NOTE._replace(message="named \x1b]0;x\a")
    shown = "\n".join(lines(HandProof(replace(QUIET, findings=(finding,)))))

    assert "\x1b" not in shown
    assert "\a" not in shown
    assert "named ·]0;x·" in shown


def test_many_places_are_counted() -> None:
    """Six places are shown; the rest is a number."""
    places = tuple(STOP.places[0] for _ in range(20))
    shown = lines(HandProof(replace(STOPPED, findings=(STOP._replace(places=places),))))

    assert sum(line.endswith("^") for line in shown) == 6
    assert "  and 14 more places; --json has them all" in shown


def test_what_nobody_read_stands_once_beside_verified(tmp_path: Path) -> None:
    """All of PROVED, and no volts, light or joint looked at: each is named in one line, and in one place."""
    proof = hazel(tmp_path, *PROVED)
    assert proof.report.verdict == "verified"
    out = lines(proof)
    (beside,) = (line for line in out if line.startswith("Still open beside it: "))
    assert "the volts at amp B+" in beside
    assert "no `volts` record" in beside
    assert "whether joints J1, " in beside
    text = "\n".join(out)
    assert text.count("the volts at amp B+") == text.count("whether joints J1, ") == 1
    # short of the verdict they are what wasn't checked
    text = "\n".join(lines(hazel(tmp_path, *PROVED[:-1])))
    assert "Not checked: the volts at amp B+" in text
    assert "Still open beside" not in text
