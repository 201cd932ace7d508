"""A record isn't put where it couldn't be read: a file that is fine as it is, by YAML 1.2.2, and not with one more."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
import yaml

from harness.records.append import NotRecorded, append
from harness.records.flow import is_whole

L = "{by: RK, handover: paused}"
MORE = [("by", "MID"), ("handover", "taken")]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (f"[{L}]\n", 1), (f"[\n {L},\n]\n", 1), ("[]\n", 1), (f"# mine\n[{L}]", 2),  # a list in brackets, 7.4.1
        (f"  - {L}\n", 1), (f"# mine\n - {L}\n - {L}", 2),  # a list set in, 8.2.1: its other lines stand as far in
        (f"---\n- {L}\n...\n", 3), (f"- {L}\n...", 2),  # a document's end mark, 9.1.2
        (f"- {L}\n- {{by: RK, handover: paused\n- {L}\n", 2),  # a bracket that somebody took out
    ],
)  # fmt: skip
def test_refused_before_a_byte_is_written(text: str, line: int, tmp_path: Path) -> None:
    path = tmp_path / "hazel.evidence.yaml"
    path.write_text(text, encoding="utf-8")
    photo = tmp_path / "p.png"
    photo.write_bytes(b"\x89PNG\r\n\x1a\n")
    with pytest.raises(NotRecorded, match=rf"line {line} is no closed record.*write each record there as one line"):
        append(path, MORE, [photo])
    assert path.read_text(encoding="utf-8") == text
    assert not (tmp_path / "hazel.photos").exists()


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("# mine\n", 0), ("", 0), (f"---\n- {L}\n", 1), (f"- {L} # seen\n\n# two\n- {L}", 2),
        ("- by: RK\n  handover: paused\n", 1), ("-\n  by: RK\n\n  # mine\n  note: |\n    a\n\n    b\n", 1),
        ("- {by: RK,\n   handover: paused}\n", 1), ('- {by: "R, {K", note: [a, "b]"]}\n', 1),
    ],
)  # fmt: skip
def test_behind_what_else_is_written_by_hand(text: str, count: int, tmp_path: Path) -> None:
    """Read by PyYAML: all that stood there, and the new one."""
    path = tmp_path / "hazel.evidence.yaml"
    path.write_text(text, encoding="utf-8")
    append(path, MORE)
    raw = path.read_text(encoding="utf-8")
    assert raw.startswith(text)
    read = yaml.safe_load(raw)
    assert len(read) == count + 1
    assert read[-1]["by"] == "MID"


# YAML 1.2.2, 7.3.1 and 7.4: quotes close only at their like, brackets at theirs, " #" begins a remark
@pytest.mark.parametrize(
    ("line", "whole"),
    [
        ('- {a: "b, c", d: [e, f]}', True), ('- {a: "b \\" c"}', True), ('- {a: "b}', False), ('- {a: "b" c"}', True),
        ("- {a: [b, c}", False), ("- {a: [b, [c]]}", True), ("- {a: b} }", False), ("-{a: b}", False),
    ],
)  # fmt: skip
def test_whole(line: str, whole: bool) -> None:
    assert is_whole(line) is whole


def test_ten_thousand_records_take_no_longer_each(tmp_path: Path) -> None:
    """Ten times the lines, at most thirty times the time: linear, with slack for a busy machine."""

    def taken(count: int) -> float:
        path = tmp_path / f"{count}.evidence.yaml"
        line = '- {when: 2026-02-12 09:40, by: RK, seen: dash.car.7, fact: [1 FL+ WH, seen from wire], note: "a, b"}\n'
        path.write_text(line * count, encoding="utf-8")
        best = 9.0
        for _ in range(3):
            begun = time.process_time()
            append(path, MORE)
            best = min(best, time.process_time() - begun)
        return best

    assert taken(10_000) < 30 * max(taken(1_000), 0.001)
