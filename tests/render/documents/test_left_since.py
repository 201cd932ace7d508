"""What a handover left, and what was done of it since: read off the printed sheet, by hand from tests/session/hazel.py:
J1 and J2 at the radio, RUN 1 and RUN 2, a car end of T1; FL and FR are opened, RL is passed on, there is no RR.
"""

from __future__ import annotations

from pathlib import Path

from tests.render.documents.test_records_on_paper import AGAIN, PLAYS, TONES, WORKED, printed
from tests.session.hazel import hazel


def test_what_was_left_and_done_since(tmp_path: Path) -> None:
    """Five things left; J1 and the runs are done, the tug of J2 and FR's tone aren't, the trim names nothing here."""
    paused = (
        'handover: paused, done: front, left: "J1 and J2 to tug, RUN 1, run 2; tone FR, trim", parts: none, odd: no'
    )
    records = (
        "built: RUN 2, is: not laid", paused, "handover: taken", "checked: J1, found: tug", "built: J2",
        "built: RUN 1", "built: RUN 2", "tone: dash.car.2/8, charted: FR, heard: none",
    )  # fmt: skip
    text = printed(hazel(tmp_path, *records), "handover")
    left, _, done = text[text.index("Left to do") : text.index("Parts wanted")].partition("Done since")
    assert left.strip() == "Left to do J2 to tug, tone FR, trim"
    assert done.strip() == "J1 JM 2026-03-02 RUN 1 JM 2026-03-02 run 2 JM 2026-03-02"
    more = ("checked: J2, found: holds", TONES[1], "checked: J1, found: loose")
    text = printed(hazel(tmp_path, *records, *more), "handover")
    left, _, done = text[text.index("Left to do") : text.index("Parts wanted")].partition("Done since")
    assert left.strip() == "Left to do J1, trim"  # found loose again
    assert "tone FR JM" in done
    # what was done before he wrote it says nothing of it
    text = printed(hazel(tmp_path, *records[2:], *records[:2]), "handover")
    assert "J1 and J2 to tug, RUN 1, run 2; tone FR, trim" in text
    assert "Done since" not in text


def test_all_of_it_was_done(tmp_path: Path) -> None:
    """A plug end wants both of its boxes, a function its trial, an output its speaker; `rear` is RL and, if any, RR."""
    paused = "handover: paused, done: a, left: 'rear to tone, T1 car end, hands-free, radio.FL', parts: none, odd: no"
    half = (*WORKED, paused, TONES[2], "checked: T1 car end, found: seated", AGAIN[1].replace("works", "wrong"),
            PLAYS[0].replace("heard: FL", "heard: FR"))  # fmt: skip
    text = printed(hazel(tmp_path, *half), "handover")
    assert "Left to do T1 car end, hands-free, radio.FL Done since rear to tone JM" in text
    text = printed(hazel(tmp_path, *half, "checked: T1 car end", AGAIN[1], PLAYS[0]), "handover")
    assert "Left to do nothing of it: all is recorded as done Done since" in text


def test_closed_in_one_go(tmp_path: Path) -> None:
    """Closed and never paused: its words stand in the place of the blanks, and nobody is told to hand it over."""
    text = printed(
        hazel(tmp_path, *TONES, "handover: closed, done: all, left: none, parts: none, odd: hum"), "handover"
    )
    assert "Nobody has handed this job over yet" not in text
    assert text.count("Closed by JM 2026-03-02.") == 1
    assert "Done all" in text
    assert "Anything odd hum" in text
