"""A wrong record is taken back by one that names it. The file grows, and what was struck decides nothing any more.

Expected words and verdicts are read off the job in tests/session/hazel.py by hand: two pairs of its plug are used, 1/7
(FL) and 2/8 (FR). That the line above is left as it is, byte for byte, is what the file promises.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import Answer
from tests.session.hazel import JOB

Ringout = Callable[..., Answer]
Record = Callable[..., Answer]
TONE = ("tone: dash.car.1/7", "heard: FL", "plus: 1", "unplugged: dash")
WHEN = "2026-03-02 15:00"
WHY = ("reason: probe was on 8", "--yes")


@pytest.fixture
def record(ringout: Ringout, tmp_path: Path) -> Record:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    return lambda *words: ringout("record", "job.yaml", "--by", "RK", "--when", WHEN, *words)


@pytest.fixture
def toned(ringout: Ringout) -> Callable[[], tuple[int, str]]:
    """How many pairs count as toned, and the verdict."""

    def ask() -> tuple[int, str]:
        told = json.loads(ringout("check", "job.yaml", "--json").out)
        return told["counts"]["toned"], told["verdict"]

    return ask


def test_a_struck_tone_leaves_the_pair_charted(record: Record, toned: Callable[..., object], tmp_path: Path) -> None:
    assert record(*TONE).code == 0
    assert toned() == (1, "consistent-not-verified")
    first = (tmp_path / "job.evidence.yaml").read_bytes()
    answer = record("strike", "1", *WHY)

    assert answer.code == 0, answer
    assert "To be struck: job.evidence.yaml:1: - {when:" in answer.out
    assert "the pair is charted again" in answer.out
    assert toned() == (0, "consistent-not-verified")
    after = (tmp_path / "job.evidence.yaml").read_bytes()
    assert after.startswith(first)
    assert b"struck: 1, was: tone dash.car.1/7, reason: probe was on 8" in after[len(first) :]


def test_an_older_tone_holds_again(record: Record, toned: Callable[..., object]) -> None:
    record(*TONE)
    record(*TONE[:1], "heard: FR", *TONE[2:])
    record("strike", "last", *WHY)
    assert toned() == (1, "consistent-not-verified")


def test_a_struck_signature_frees_the_job(record: Record, toned: Callable[..., object]) -> None:
    record(*TONE)
    record("signed: released", "reason: customer waits")
    assert toned() == (1, "released")
    assert record("strike: last", *WHY).code == 0
    assert toned() == (1, "consistent-not-verified")


def test_last_passes_over_what_is_struck_and_what_strikes(record: Record, tmp_path: Path) -> None:
    for odd in ("one", "two"):
        record("handover: taken", f"odd: {odd}")
    record("strike", "last", *WHY)
    record("struck: last", *WHY)
    lines = (tmp_path / "job.evidence.yaml").read_text(encoding="utf-8").splitlines()
    assert ["struck: 2" in lines[2], "struck: 1" in lines[3]] == [True, True]
    assert "no record that could be struck" in record("strike", "last", *WHY).err


def test_what_strikes_can_be_struck(record: Record, toned: Callable[..., object]) -> None:
    record(*TONE)
    record("strike", "1", *WHY)
    answer = record("strike", "2", *WHY)
    assert "the record on line 1 counts again" in answer.out
    assert toned() == (1, "consistent-not-verified")
    assert record("strike", "1", *WHY).code == 0
    assert toned() == (0, "consistent-not-verified")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("strike", "1", *WHY), "line 1 (tone dash.car.1/7) is struck already, by RK"),
        (("strike", "9", *WHY), "there is no record '9'"),
        (("strike", "dash.car.1/7", *WHY), "there is no record 'dash.car.1/7'"),
        (("strike", "2", "was: tone dash.car.2/8", *WHY), "line 2 says struck 1, and not tone dash.car.2/8"),
        (("strike", "2", "--yes"), "Missing with “struck: 2”: reason."),
        (("strike", "2", "reason: slip"), "add --yes to strike it"),
        (("strike",), "which one is to be struck?"),
    ],
)
def test_refused(words: tuple[str, ...], said: str, record: Record, tmp_path: Path) -> None:
    record(*TONE)
    record("strike", "1", *WHY)
    before = (tmp_path / "job.evidence.yaml").read_bytes()
    answer = record(*words)

    assert (answer.code, said in answer.err) == (2, True), answer
    assert (tmp_path / "job.evidence.yaml").read_bytes() == before


@pytest.mark.parametrize(
    ("what", "names"),
    [
        ("tone: dash.car.2/8, heard: FR, plus: 2, unplugged: dash", "tone dash.car.2/8"),
        ("polarity: dash.car.1/7, plus: 1, how: cone", "polarity dash.car.1/7"),
        ("ohm: dash.car.1/7, reads: 3.5 ohm", "ohm dash.car.1/7"),
        ("volts: amp.rem, reads: 12.1 V, key: run", "volts amp.rem"),
        ("response: radio.FL, from: 25 Hz, levels: 0 0 -1", "response radio.FL"),
        ("built: T1.car.FL, is: amp.out2", "built T1.car.FL"),
        ("checked: T1.car.FL, found: tug", "checked T1.car.FL"),
        ("seen: dash.car.1, colour: BN", "seen dash.car.1"),
        ("plays: radio.FL, heard: RL", "plays radio.FL"),
        ("before: hands-free, result: silent", "before hands-free"),
        ("after: hands-free, result: wrong", "after hands-free"),
        ("printed: packet, revision: C", "printed packet"),
        ("handover: paused, done: front", "handover paused"),
        ("signed: lost, lost: hands-free", "signed lost"),
    ],
)
def test_every_verb(what: str, names: str, ringout: Ringout, record: Record, tmp_path: Path) -> None:
    """With the record and what strikes it, the report says what it says without both, and that it was struck."""
    evidence = tmp_path / "job.evidence.yaml"
    record("handover: taken")
    kept = evidence.read_text(encoding="utf-8")
    bare = ringout("check", "job.yaml", "--need", "verified").out
    evidence.write_text(f"{kept}- {{when: 2026-03-02 09:40, by: JM, {what}}}\n", encoding="utf-8")
    answer = record("strike", "last", *WHY)

    assert answer.code == 0, answer
    assert f"struck: 2, was: {names}, reason" in evidence.read_text(encoding="utf-8")
    said = ringout("check", "job.yaml", "--need", "verified").out.splitlines(keepends=True)
    told = f"Not checked: the record on line 2, {names} (struck by RK 2026-03-02: probe was on 8)\n"
    assert said.count(told) == 1
    assert "".join(line for line in said if line != told) == bare


def test_printed_for_the_next_one(ringout: Ringout, record: Record, tmp_path: Path) -> None:
    record(*TONE)
    record("strike", "last", *WHY)
    ringout("packet", "job.yaml", "--sheet", "handover", "-o", "out")
    text = " ".join((tmp_path / "out" / "packet.txt").read_text(encoding="utf-8").split())
    said = (
        "1 tone dash.car.1/7 charted: FL; heard: FL; plus: 1; unplugged: dash RK 2026-03-02 RK 2026-03-02 probe was on"
    )
    assert said in text


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("struck: 7", "no record stands above it on line 7"),
        ("struck: 3", "no record stands above it on line 3"),
        ("struck: 2", "no record stands above it on line 2"),
        ("struck: 1, was: tone dash.car.2/8", "line 1 says tone dash.car.1/7, and not tone dash.car.2/8"),
    ],
)
def test_by_hand_it_strikes_only_what_it_names(
    line: str, why: str, ringout: Ringout, record: Record, toned: Callable[..., object], tmp_path: Path
) -> None:
    record(*TONE)
    more = f"- {{when: 2026-03-02 09:40, by: JM, {line}}}\n- {{when: 2026-03-02 09:41, by: JM, handover: taken}}\n"
    with open(tmp_path / "job.evidence.yaml", "a", encoding="utf-8") as stream:
        stream.write(more)

    assert toned() == (1, "consistent-not-verified")
    said = " ".join(ringout("check", "job.yaml").out.split())
    assert "J07" in said
    assert why in said


def test_striking_a_changed_record_does_not_hide_the_change(ringout: Ringout, record: Record, tmp_path: Path) -> None:
    record(*TONE)
    path = tmp_path / "job.evidence.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("heard: FL", "heard: FR"), encoding="utf-8")
    record("strike", "last", *WHY)
    assert "J20" in ringout("check", "job.yaml").out


def test_one_that_says_more_is_refused(
    ringout: Ringout, record: Record, toned: Callable[..., object], tmp_path: Path
) -> None:
    """What was heard can't hide in a record that strikes another one: by the command and by hand."""
    record(*TONE)
    answer = record("strike", "1", *WHY, "heard: RL", "--yes")
    assert answer.code == 2
    assert "nothing was recorded" in answer.err
    assert toned()[0] == 1  # type: ignore[index]
    with open(tmp_path / "job.evidence.yaml", "a", encoding="utf-8") as stream:
        stream.write("- {when: 2026-03-02 09:40, by: JM, struck: 1, reason: other, lost: FL}\n")
    said = ringout("check", "job.yaml")
    assert said.code == 2
    assert "R07" in said.out
    assert "job.evidence.yaml:2:62" in said.out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        # one wire alone is read to the body
        (("ohm: dash.car.1", "reads: open"),
         ["Then dash cavity 1 (white, FL+), car side: open to the body counts as not read, unless an older"]),
        (("volts: amp.B+", "reads: 12.4 V", "key: out"),
         ["Then amp B+: 12.4 V to the body, key out counts as not read"]),
        # a pair between its wires, and each of them to the body
        (("ohm: dash.car.1/7", "reads: 3.4 ohm", "body: 0.2 ohm"),
         ["Then dash cavities 1 and 7 (white and white with black stripe, FL): 3.4 ohm across and 0.2 ohm from each ",
          " from each to the body count as not read"]),
        ((*TONE, "reads: 3.4 ohm", "body: open"),
         ["Then the pair is charted again, unless an older tone of it holds; dash cavities 1 and 7 ",
          ": 3.4 ohm across and open from each to the body count as not read"]),
    ],
)  # fmt: skip
def test_which_wire_and_which_reading(record: Record, words: tuple[str, ...], told: list[str]) -> None:
    """The wires in the words of the job: white on 1 and white with black stripe on 7 are FL."""
    assert record(*words).code == 0
    answer = record("strike", "1", *WHY)
    assert answer.code == 0
    assert all(each in answer.out for each in told), answer.out
    assert ("pair" in answer.out.partition("Then ")[2]) is (words[0] == TONE[0])
