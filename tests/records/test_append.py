"""Records put behind each other: what stands in the file, what was torn, what is refused."""

from __future__ import annotations

import hashlib
import os
import re
from pathlib import Path

import pytest
import yaml

from harness.read.nodes import Rows, Table, read_text
from harness.read.troubles import Troubles
from harness.records import append as module
from harness.records.append import Appended, NotRecorded, append, without_torn
from harness.records.seal import broken
from harness.records.torn import lines_in, rest_of_character, whole_characters

RECORD = [("when", "2026-03-02 09:40"), ("by", "JM"), ("tone", "dash.car.1/11"), ("heard", "FL FL-TW")]


def _fields(number: int) -> list[tuple[str, str]]:
    return [("n", str(number)), ("by", "Jürgen 🔊"), ("note", 'a "b", {c} €')]


def _records(raw: bytes) -> list[dict[str, str]]:
    """Every record as the job's own reader sees it; a word from it fails the test."""
    text, _ = without_torn(raw.decode())
    troubles = Troubles()
    root = read_text(text, "x.yaml", troubles)
    assert not list(troubles.findings), [finding.message for finding in troubles.findings]
    assert isinstance(root, Rows)
    made = []
    for item in root:
        assert isinstance(item, Table)
        made.append({key.value: getattr(value, "value", "") for key, value in item})
    return made


def test_two_records(tmp_path: Path) -> None:
    path = tmp_path / "larch.evidence.yaml"
    one = append(path, RECORD)
    two = append(str(path), [("by", "RK"), ("ohm", "dash.car.1/11")])
    # FIPS 180-4 over the bytes written out: empty seal, line feed, line; then the first seal, line feed, line
    first = hashlib.sha256(b"\n- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/11, heard: FL FL-TW}").hexdigest()
    second = hashlib.sha256(first[:16].encode() + b"\n- {by: RK, ohm: dash.car.1/11}").hexdigest()
    assert path.read_bytes() == (
        b"- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/11, heard: FL FL-TW, seal: " + first[:16].encode() +
        b"}\n- {by: RK, ohm: dash.car.1/11, seal: " + second[:16].encode() + b"}\n"
    )  # fmt: skip
    lines = path.read_text(encoding="utf-8").splitlines()
    assert (one, two) == (Appended(1, lines[0], ""), Appended(2, lines[1], ""))
    assert os.listdir(tmp_path) == [path.name]


def test_torn_after_every_byte(tmp_path: Path) -> None:
    """The last record cut at every byte, in the middle of letters too: the next one goes in, the rest is read."""
    whole = tmp_path / "whole.yaml"
    for number in (1, 2, 3):
        append(whole, _fields(number))
    raw = whole.read_bytes()
    start = raw.rindex(b"\n", 0, -1) + 1
    last = raw[start:]
    assert len(last) > len(last.decode()) > 60
    path = tmp_path / "torn.yaml"
    for cut in range(len(last) + 1):
        left = raw[: start + cut]
        path.write_bytes(left)
        torn_now = without_torn(whole_characters(left).decode())[1]
        done = append(path, _fields(4))
        now = path.read_bytes()
        assert now.startswith(left)
        kept = ["1", "2", "3", "4"] if cut >= len(last) - 1 else ["1", "2", "4"]
        assert [record["n"] for record in _records(now)] == kept, last[:cut]
        text = now.decode()
        blanked, torn = without_torn(text)
        assert [len(line) for line in lines_in(blanked)] == [len(line) for line in lines_in(text)]
        assert broken(lines_in(text)) == []
        assert lines_in(text)[done.number - 1] == done.line
        if len(kept) == 4 or cut == 0:
            assert (done.torn, torn, torn_now) == ("", [], [])
        else:
            whole_letters = last[:cut].decode("utf-8", "ignore")
            for told in (done.torn, torn[0][1], torn_now[0][1]):
                assert told.startswith(whole_letters)
                assert len(told) <= len(whole_letters) + 3
            assert [line for line, _ in torn] == [line for line, _ in torn_now] == [3]


def test_torn_while_a_torn_line_is_set_aside(tmp_path: Path) -> None:
    """The mark and the next record cut at every byte as well: one write may end anywhere."""
    path = tmp_path / "e.yaml"
    append(path, _fields(1))
    first = path.read_bytes()
    path.write_bytes(first + "- {by: J, note: €".encode()[:-1])
    before = path.read_bytes()
    append(path, _fields(2))
    whole = path.read_bytes()
    for cut in range(len(before), len(whole)):
        path.write_bytes(whole[:cut])
        done = append(path, _fields(3))
        now = path.read_bytes()
        assert now.startswith(whole[:cut])
        kept = ["1", "2", "3"] if cut == len(whole) - 1 else ["1", "3"]
        assert [record["n"] for record in _records(now)] == kept, whole[len(before) : cut]
        assert broken(lines_in(now.decode())) == []
        told = [text for _, text in without_torn(now.decode())[1]]
        assert told[0].startswith("- {by: J, note: ")
        assert not done.torn or done.torn.startswith(("- {by: J, note: ", "-"))


@pytest.mark.parametrize(
    ("end", "between", "torn"),
    [
        ("- {by: me, tone: dash.1/2}", "\n", ""),
        ("- {by: me, tone: dash.1/2} # said by JM", "\n", ""),
        ("# a remark", "\n", ""),
        ("- by: me\n  tone: dash.1/2", "\n", ""),
        ("- {by: me,\n   tone: dash.1/2}", "\n", ""),
        ("- {by: me}\r\n", "", ""),
        ("- {by: me}\r", "", ""),
        ("- {by: me}\n\n", "", ""),
        ("   ", "\n", ""),
        ("\ufeff- {by: me}", "\n", ""),
        ("\ufeff", "\n", ""),
        ("", "", ""),
        ("-", " #torn\n", "-"),
        ("- ", " #torn\n", "- "),
        ("- {", " #torn\n", "- {"),
        ("- {by: me, tone", " #torn\n", "- {by: me, tone"),
        ("- {by: 'me}", " #torn\n", "- {by: 'me}"),
        ("- {by: me #torn", "\n", "- {by: me"),
        ("- {by: \0\0", " #torn\n", "- {by: \0\0"),
        ("\ufeff- {by", " #torn\n", "\ufeff- {by"),
        ("- {by: é} x", " #torn\n", "- {by: é} x"),
    ],
)
def test_last_line_without_line_end(end: str, between: str, torn: str, tmp_path: Path) -> None:
    """What somebody wrote by hand keeps its sense; only the beginning of a record is set aside."""
    path = tmp_path / "e.yaml"
    path.write_bytes(end.encode())
    done = append(path, [("by", "JM")])
    raw = path.read_bytes()
    assert raw == (end + between + done.line + "\n").encode()
    assert done.torn == torn
    assert lines_in(raw.decode())[done.number - 1] == done.line
    records = _records(raw.removeprefix("\ufeff".encode()))
    assert records[-1]["by"] == "JM"
    assert len(records) == 1 + (not torn and "me" in end)


def test_without_torn_keeps_every_place() -> None:
    text = "- {a: b}\r\n- {c: é #torn\r\n\r\n# x #torn\n- {d: e}\n- {f\0: g}\n- {h: i"
    blanked, torn = without_torn(text)
    assert torn == [(2, "- {c: é"), (4, "# x"), (6, "- {f\0: g}"), (7, "- {h: i")]
    assert blanked == "- {a: b}\r\n" + " " * 13 + "\r\n\r\n" + " " * 9 + "\n- {d: e}\n" + " " * 9 + "\n" + " " * 7
    assert without_torn("- {a: b}\r# x #torn\r\r- {c #torn\r")[1] == [(2, "# x"), (4, "- {c")]
    assert without_torn("- {a: b}") == ("- {a: b}", [])
    assert without_torn("") == ("", [])


@pytest.mark.parametrize(
    ("raw", "missing"),
    [
        # RFC 3629: two bytes from C2, three from E0, four from F0; whole ones, and bytes that are no UTF-8
        (b"a\xc3", 1), (b"a\xe0", 2), (b"a\xe2\x82", 1), (b"\xf0", 3), (b"\xf0\x9f", 2), (b"\xf0\x9f\x94", 1),
        (b"", 0), (b"a", 0), ("é€🔊".encode(), 0), (b"\xe2a", 0), (b"\xf0\x9fa", 0), (b"\x80", 0),
        (b"\xe2\x82\xacaaa", 0),
    ],
)  # fmt: skip
def test_half_characters(raw: bytes, missing: int) -> None:
    rest = rest_of_character(raw)
    assert len(rest) == missing
    assert len(whole_characters(raw)) == len(raw)
    if missing:
        assert (raw + rest).decode()[:-1] == raw.decode("utf-8", "ignore")
        assert whole_characters(raw).decode().rstrip("?") == raw.decode("utf-8", "ignore")
    else:
        assert whole_characters(raw) == raw


def test_nul_bytes_where_the_disk_lost_a_block(tmp_path: Path) -> None:
    """A power cut can leave a line whose beginning or middle never reached the disk."""
    path = tmp_path / "e.yaml"
    append(path, _fields(1))
    good = path.read_bytes()
    path.write_bytes(good + b"\0" * 40 + b"note: x, seal: 0123456789abcdef}\n")
    append(path, _fields(2))
    assert [record["n"] for record in _records(path.read_bytes())] == ["1", "2"]
    assert broken(lines_in(path.read_text(encoding="utf-8"))) == []
    path.write_bytes(good + b"\0" * 40)
    assert append(path, _fields(2)).torn == "\0" * 40
    assert [record["n"] for record in _records(path.read_bytes())] == ["1", "2"]


def test_values_that_cannot_be_written_touch_nothing(tmp_path: Path) -> None:
    path = tmp_path / "e.yaml"
    for fields in ([("note", "a\nb")], [("note", "")], [], [("seal", "x")], [("Seal", "x")], [("a", "1"), ("a", "2")]):
        with pytest.raises(ValueError):
            append(path, fields)
    assert os.listdir(tmp_path) == []


def test_files_that_are_none(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    os.mkfifo(tmp_path / "pipe")
    os.symlink("loop", tmp_path / "loop")
    for name, why in (
        ("folder", "is a directory"), ("pipe", "not an ordinary file"), ("loop", "symbolic links"),
        ("no/e.yaml", "no such file"), ("a\0b", "can't be one"), ("x" * 300, "too long"),
    ):  # fmt: skip
        with pytest.raises(NotRecorded, match=why) as told:
            append(tmp_path / name, RECORD)
        assert told.value.path == str(tmp_path / name)
        assert re.search(why, told.value.why)
    with pytest.raises(NotRecorded, match="not an ordinary file"):
        append(os.devnull, RECORD)


def test_a_link_is_followed(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    for _ in range(2):  # the first time what it points to isn't there yet
        (tmp_path / "e.yaml").unlink(missing_ok=True)
        os.symlink("real/there.yaml", tmp_path / "e.yaml")
        append(tmp_path / "e.yaml", RECORD)
        assert (tmp_path / "e.yaml").is_symlink()
    assert len(_records((tmp_path / "real" / "there.yaml").read_bytes())) == 2


def test_utf_16_and_too_big_are_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "e.yaml"
    path.write_text("- {by: me}\n", encoding="utf-16")
    old = path.read_bytes()
    with pytest.raises(NotRecorded, match="UTF-16"):
        append(path, RECORD)
    assert path.read_bytes() == old
    path.write_bytes(b"#" * 31_999_999 + b"\n")
    with pytest.raises(NotRecorded, match="32 MB"):
        append(path, RECORD)
    assert path.stat().st_size == 32_000_000


def test_an_editor_that_saves_by_renaming(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another file stands under the name when the lock is got: the record goes into that one."""
    from harness.records import opening

    path = tmp_path / "e.yaml"
    append(path, _fields(1))
    lock, swapped = opening._lock, []

    def late(file: int) -> None:
        lock(file)
        if not swapped:
            swapped.append(file)
            (tmp_path / "new").write_bytes(b"- {n: 0, by: me}\n")
            os.replace(tmp_path / "new", path)

    monkeypatch.setattr(opening, "_lock", late)
    append(path, _fields(2))
    assert [record["n"] for record in _records(path.read_bytes())] == ["0", "2"]


def test_a_written_line_that_is_not_on_the_disk_is_no_record(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`why` says that the line may be there all the same. The real call is failed in test_disk_failures.py."""

    def fail(file: int) -> None:
        raise OSError(5, "Input/output error")

    monkeypatch.setattr(module, "sync", fail)
    with pytest.raises(NotRecorded) as told:
        append(tmp_path / "e.yaml", RECORD)
    assert told.value.why == "input/output error; the line may stand in the file all the same"


def test_yaml_reads_a_file_of_ours(tmp_path: Path) -> None:
    path = tmp_path / "e.yaml"
    for number in range(20):
        append(path, _fields(number))
    root = yaml.compose(path.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    assert [node.value[0][1].value for node in root.value] == [str(number) for number in range(20)]
    assert [node.value[2][1].value for node in root.value] == ['a "b", {c} €'] * 20
