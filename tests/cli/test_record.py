"""`ringout record` refuses what the job shows to be wrong, whole and at once, and writes nothing then.

Every expected word is read off the job in tests/session/hazel.py: FL FR RL, reverse beep, hands-free.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import Answer
from tests.session.hazel import JOB

Ringout = Callable[..., Answer]
TONE = ("tone: dash.car.1/7", "plus: 1", "unplugged: dash")


@pytest.fixture
def record(ringout: Ringout, tmp_path: Path) -> Callable[..., Answer]:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    return lambda *words: ringout("record", "job.yaml", "--by", "RK", *words)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        # XX is near to no speaker: the three of the job are named
        ((*TONE, "heard: XX"), ["“XX” is no speaker of this job", "FL, FR, RL; or none", "  heard: XX\n         ^"]),
        ((*TONE, "heard: FL FLL"), ["“FLL” is no speaker", "Is “FL” meant?", "  heard: FL FLL\n            ^"]),
        # one letter is missing
        (("before: revers beep", "result: works"), ["Is “reverse beep” meant?", 'Type: "before: reverse beep"']),
        (("after: handsfree", "result: works"), ["Is “hands-free” meant?"]),
        (("before: reverse beep result: works",), ['Type: "before: reverse beep" "result: works"', "holds one key"]),
        (("signed: released",), ["Missing with “signed: released”: reason.", '"reason: …"']),
        (("handover: paused", "done: front"), ["Missing with “handover: paused”: left, parts, odd."]),
        (("tone: dash.car.1/7", "heard: FL"), ["Missing with “tone: dash.car.1/7”: unplugged."]),
        (("volts: amp.rem", "reads: 12.1 V"), ["Missing with “volts: amp.rem”: key."]),
        (("signed: lost",), ["Missing with “signed: lost”: lost."]),
        # its own number and unit, with the space that is missing
        (("volts: amp.rem", "reads: 12.4V", "key: run"), ["A space parts a number", "reads: 12.4 V"]),
        (("ohm: amp.out1", "reads: 3.5ohm"), ["reads: 3.5 ohm"]),
        # both faults in one go
        (("tone: dash.car.1/7", "heard: XX"), ["“XX” is no speaker", "Missing with “tone: dash.car.1/7”: unplugged."]),
        (("seen: amp", "shows: steady", "--when", "2099-01-01 10:00"), ["2099-01-01 10:00 is still to come"]),
    ],
)  # fmt: skip
def test_refused_and_nothing_written(
    words: tuple[str, ...], said: list[str], record: Callable[..., Answer], tmp_path: Path
) -> None:
    answer = record(*words)

    assert answer.code == 2
    for each in said:
        assert each in answer.err
    assert answer.err.rstrip().endswith("nothing was recorded")
    assert not (tmp_path / "job.evidence.yaml").exists()


@pytest.mark.parametrize(
    "words",
    [
        # a channel that the car lacks may be what was heard; `none` and a tweeter too
        (*TONE, "heard: SUB"), (*TONE, "heard: none"), (*TONE, "heard: FL-TW"), (*TONE, "heard: fl"),
        ("after: Reverse Beep", "result: works"), ("volts: radio.FL", "reads: 8 V", "step: 31"),
        ("handover: taken",), ("signed: released", "reason: customer waits: rear toned on Monday"),
    ],
)  # fmt: skip
def test_taken(words: tuple[str, ...], record: Callable[..., Answer]) -> None:
    answer = record(*words)

    assert (answer.code, answer.err) == (0, "")
    assert answer.out.endswith("recorded\n")


def test_a_new_name_is_taken_and_said_to_be_new_once(record: Callable[..., Answer]) -> None:
    first = record("before: clock", "result: works")
    again = record("after: clock", "result: works")

    assert (first.code, again.code) == (0, 0)
    assert "“clock” is a new name" in first.out
    assert "new name" not in again.out
