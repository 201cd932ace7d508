"""Two bays recorded on one job: the file here stays as it is, what only the other has is put behind it."""

from __future__ import annotations

import hashlib
import random
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from harness.bundles.arrival import NotTaken
from harness.bundles.joining import could_join, join, lay_joined
from harness.records.append import append

ROOT = Path(__file__).resolve().parents[2]
CHILD = Path(__file__).with_name("joining_child.py")
JOB = b"ringout: 1\n"
KINDS = {"hazel.yaml": "job", "parts/a.yaml": "part", "hazel.evidence.yaml": "evidence"}
RECORDS = "hazel.evidence.yaml"


def chain(lines: list[str], before: str = "") -> list[str]:
    """Lines sealed one behind the other: 16 hex digits of SHA-256 (FIPS 180-4) over the seal before, a line feed and
    the line.
    """
    made = []
    for line in lines:
        before = hashlib.sha256(f"{before}\n{line}".encode()).hexdigest()[:16]
        made.append(f"{line[:-1]}, seal: {before}}}")
    return made


def seal_of(line: str) -> str:
    return line.rpartition("seal: ")[2].rstrip("}")


def bare(line: str) -> str:
    return line.rpartition(", seal: ")[0] + "}"


def raw(lines: list[str]) -> bytes:
    return "".join(f"{line}\n" for line in lines).encode()


def note(by: str, number: int) -> str:
    return f"- {{when: 2026-03-02 09:{number:02d}, by: {by}, handover: paused, done: part {number}}}"


BEGUN = chain([note("RK", 1), note("RK", 2)])


def test_what_only_the_other_has_comes_behind(tmp_path: Path) -> None:
    mine = [*BEGUN, *chain([note("RK", 3)], seal_of(BEGUN[-1]))]
    theirs = [*BEGUN, *chain([note("JM", 4), note("JM", 5)], seal_of(BEGUN[-1]))]
    joined = join(raw(mine), raw(theirs))

    assert joined.raw == raw([*mine, *chain([note("JM", 4), note("JM", 5)], seal_of(mine[-1]))])
    assert (joined.shared, joined.added, joined.doubled) == (2, (4, 5), 0)
    again = join(joined.raw, raw(theirs))
    assert (again.raw, again.added, again.doubled) == (joined.raw, (), 2), "told twice, nothing comes twice"


@pytest.mark.parametrize("seed", range(200))
def test_random_rows_of_records(seed: int) -> None:
    """Each bay's records are in the joined file once for each time that one of the two has them, in their order, and
    what stood here stands.
    """
    dice = random.Random(seed)
    shared = [note("RK", at) for at in range(dice.randint(0, 3))]
    common = [note("XX", at) for at in range(dice.randint(0, 2))]
    mine, theirs = ([*common, *(note(by, dice.randint(0, 5)) for _ in range(dice.randint(0, 4)))] for by in ("A", "B"))
    dice.shuffle(mine)
    here, comes = chain([*shared, *mine]), chain([*shared, *theirs])
    end = dice.choice(["\n", "", "\n# a remark\n", "\n- {when: 2026-03-02, by: R"])
    joined = join(raw(here)[:-1] + end.encode() if here else b"", raw(comes))
    lines = joined.raw.decode().splitlines()

    assert joined.raw.startswith(raw(here)[:-1])
    found = [bare(line) for line in lines if "seal" in line]
    assert sorted(found) == sorted([*shared, *mine, *_more(theirs, mine)])
    behind = found[len(here) :]
    left = list(theirs)
    for line in behind:
        left = left[left.index(line) + 1 :]
    sealed = [line for line in lines if "seal: " in line]
    assert sealed == chain([bare(line) for line in sealed])


def _more(theirs: list[str], mine: list[str]) -> list[str]:
    left = list(mine)
    return [line for line in theirs if line not in left or left.remove(line)]  # type: ignore[func-returns-value]


def test_a_record_that_strikes_goes_on_striking_the_same() -> None:
    """Line 3 of the bundle's becomes line 5 here; one that strikes a shared line keeps its number; words that look like
    it in a reason don't change.
    """
    mine = [*BEGUN, *chain([note("RK", 3), note("RK", 4)], seal_of(BEGUN[-1]))]
    tone = "- {when: 2026-03-02 10:00, by: JM, tone: dash.car.1/2, heard: FL}"
    strikes = ['- {by: JM, reason: "struck: 3 was wrong", struck: 3, was: tone dash.car.1/2}', "- {by: JM, struck: 2}"]
    theirs = [*BEGUN, *chain([tone, *strikes], seal_of(BEGUN[-1]))]
    lines = join(raw(mine), raw(theirs)).raw.decode().splitlines()

    assert bare(lines[4]) == tone
    assert bare(lines[5]) == '- {by: JM, reason: "struck: 3 was wrong", struck: 5, was: tone dash.car.1/2}'
    assert bare(lines[6]) == "- {by: JM, struck: 2}"
    again = join(raw(lines), raw(theirs))
    assert (again.added, again.doubled) == ((), 3)


def test_what_both_recorded_is_told() -> None:
    one, other = (f"- {{when: 2026-03-02 {time}, by: {by}, tone: dash.car.1/2, heard: FL}}"
                  for time, by in (("10:00", "RK"), ("09:00", "JM")))  # fmt: skip
    joined = join(raw([*BEGUN, one]), raw([*BEGUN, other]))

    assert [tuple(each) for each in joined.contests] == [("tone dash.car.1/2", 3, 4, True)]


# a woofer's tone and a tweeter's, two ends of a fader: each says its own; of one kind the last counts
@pytest.mark.parametrize(
    ("one", "other", "told"),
    [
        ("tone: dash.car.1/2, heard: FL, signal: 500 Hz", "tone: dash.car.1/2, heard: FL-TW, signal: 9 kHz", 0),
        ("tone: dash.car.1/2, heard: FL, signal: 500 Hz", "tone: dash.car.1/2, heard: FR, signal: 500 Hz warble", 1),
        ("tone: dash.car.1/2, heard: FL", "tone: dash.car.1/2, heard: FL-TW, signal: 9 kHz", 1),
        ("plays: radio, faded: front, heard: FL", "plays: radio, faded: rear, heard: RL", 0),
        ("plays: radio, faded: front, heard: FL", "plays: radio, faded: front, heard: RL", 1),
    ],
)  # fmt: skip
def test_what_says_its_own_is_no_contest(one: str, other: str, told: int) -> None:
    lines = (f"- {{when: 2026-03-02 10:00, by: JM, {each}}}" for each in (one, other))
    mine, theirs = (raw([*BEGUN, line]) for line in lines)
    assert len(join(mine, theirs).contests) == told


@pytest.mark.parametrize(
    ("tail", "why"),
    [
        ([chain([note("JM", 4)], "0" * 16)[0]], "line 3 was changed"),
        (["- by: JM", "  handover: paused"], "line 3 is no record on one line"),
        (["- {by: JM, struck: 9}"], "strikes line 9, which is no record above it"),
        (["- {by: JM, struck: 3}"], "strikes line 3, which is no record above it"),
    ],
)
def test_what_cannot_be_joined(tail: list[str], why: str) -> None:
    with pytest.raises(NotTaken, match=why):
        join(raw([*BEGUN, note("RK", 3)]), raw([*BEGUN, *tail]))


def test_half_a_record_is_left_out_and_told() -> None:
    joined = join(raw([*BEGUN, note("RK", 3)]), raw([*BEGUN, note("JM", 4)]) + b"- {when: 2026-03-02, by: J")

    assert joined.half == (4,)
    assert joined.raw == raw([*BEGUN, note("RK", 3), note("JM", 4)])


# -- in folders ----------------------------------------------------------------------------------------------

MINE, THEIRS = raw([*BEGUN, note("RK", 3)]), raw([*BEGUN, note("JM", 4), note("JM", 5)])
WANTED = raw([*BEGUN, note("RK", 3), note("JM", 4), note("JM", 5)])
PHOTO = b"\x89PNG\r\n\x1a\n"
PHOTO_NAME = f"hazel.photos/{hashlib.sha256(PHOTO).hexdigest()[:16]}.png"
COMES = {"hazel.yaml": JOB, "parts/a.yaml": b"a\n", RECORDS: THEIRS, PHOTO_NAME: PHOTO}


def bay(folder: Path, **other: bytes) -> Path:
    (folder / "parts").mkdir(parents=True)
    (folder / "hazel.yaml").write_bytes(other.get("job", JOB))
    (folder / "parts/a.yaml").write_bytes(other.get("part", b"a\n"))
    (folder / RECORDS).write_bytes(MINE)
    return folder


def test_photos_come_along(tmp_path: Path) -> None:
    folder = bay(tmp_path / "a")
    laid, joined = lay_joined(COMES, KINDS, folder, RECORDS)

    assert joined is not None
    assert (folder / RECORDS).read_bytes() == WANTED
    assert (folder / PHOTO_NAME).read_bytes() == PHOTO
    assert laid.new == (PHOTO_NAME,)
    assert sorted(path.name for path in folder.iterdir()) == [RECORDS, "hazel.photos", "hazel.yaml", "parts"]


@pytest.mark.parametrize(("what", "name"), [("job", "hazel.yaml"), ("part", "parts/a.yaml")])
def test_another_job_is_not_joined(what: str, name: str, tmp_path: Path) -> None:
    folder = bay(tmp_path / "a", **{what: b"ringout: 1\ntitle: other\n"})
    with pytest.raises(NotTaken, match="it says something else here from line"):
        lay_joined(COMES, KINDS, folder, RECORDS)
    assert (folder / RECORDS).read_bytes() == MINE
    told = could_join(COMES, KINDS, folder, RECORDS)
    assert len(told) == 1
    assert f"the job itself differs ({folder / name})" in told[0]


def test_an_offer_to_join(tmp_path: Path) -> None:
    told = could_join(COMES, KINDS, bay(tmp_path / "a"), RECORDS)

    assert len(told) == 1
    assert "both begin with the same 2 lines" in told[0]
    assert "--join puts the 2 records" in told[0]


def test_an_offer_says_what_both_recorded(tmp_path: Path) -> None:
    """The two bays found + of one pair at different cavities: told before anything is joined, not only after."""
    folder = bay(tmp_path / "a")
    (folder / RECORDS).write_bytes(raw([*BEGUN, "- {when: 2026-03-02 10:00, by: RK, polarity: dash.car.1/2, plus: 1}"]))
    theirs = raw([*BEGUN, "- {when: 2026-03-02 11:00, by: JM, polarity: dash.car.1/2, plus: 2}"])
    told = could_join({**COMES, RECORDS: theirs}, KINDS, folder, RECORDS)

    assert "both recorded polarity dash.car.1/2, of which the bundle's would count" in told[0]
    assert "contradicts" not in told[0]


def test_killed_at_each_call(tmp_path: Path) -> None:
    """Ended without any cleaning up at each call that changes the disk: the records are the old ones or the joined
    ones, whole, and taken again all is there.
    """
    ended, at = True, 0
    states = set()
    while ended:
        at += 1
        folder = bay(tmp_path / str(at))
        answer = subprocess.run(
            [sys.executable, str(CHILD), str(ROOT), str(folder), str(at)], capture_output=True, check=False, timeout=60
        )
        assert answer.returncode in (0, 9), answer.stderr
        ended = answer.returncode == 9
        found = (folder / RECORDS).read_bytes()
        states.add(found)
        assert found in (MINE, WANTED)
        lay_joined(COMES, KINDS, folder, RECORDS)
        assert (folder / RECORDS).read_bytes() == WANTED
        assert (folder / PHOTO_NAME).read_bytes() == PHOTO
    assert at > 10
    assert states == {MINE, WANTED}


def test_two_at_once_and_somebody_recording(tmp_path: Path) -> None:
    """Three bundles are joined while records are written: each record of all of them is there once, the chain whole."""
    folder = bay(tmp_path / "a")
    failed: list[BaseException] = []

    def take(by: str) -> None:
        tail = chain([note(by, at) for at in range(20)], seal_of(BEGUN[-1]))
        try:
            lay_joined({**COMES, RECORDS: raw([*BEGUN, *tail])}, KINDS, folder, RECORDS)
        except BaseException as wrong:  # told by the test
            failed.append(wrong)

    def record() -> None:
        for at in range(20):
            append(folder / RECORDS, [("by", "HERE"), ("handover", "paused"), ("done", f"part {at}")])

    working = [threading.Thread(target=take, args=(by,)) for by in ("AA", "BB", "CC")]
    working.append(threading.Thread(target=record))
    for each in working:
        each.start()
    for each in working:
        each.join(60)
    assert not failed
    lines = (folder / RECORDS).read_text(encoding="utf-8").splitlines()
    assert raw(lines).startswith(MINE)
    for by in ("AA", "BB", "CC", "HERE"):
        assert [line for line in lines if f"by: {by}," in line] == sorted(
            {line for line in lines if f"by: {by}," in line}, key=lines.index
        )
        assert sum(f"by: {by}," in line for line in lines) == 20
    tail = [bare(line) for line in lines[len(BEGUN) :] if "seal: " in line]
    assert [line for line in lines[len(BEGUN) :] if "seal: " in line] == chain(tail, seal_of(BEGUN[-1]))
