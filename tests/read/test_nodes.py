"""Text stays text, places are the user's own, and what a word processor put in is folded."""

from __future__ import annotations

import gc
from pathlib import Path

import pytest
import yaml

from harness.place import Place
from harness.read import files
from harness.read.lines import WIDTH, forget, shown_line
from harness.read.nodes import Rows, Table, Text, read_file, read_text
from harness.read.troubles import Troubles


def table(text: str) -> Table:
    troubles = Troubles()
    node = read_text(text, "job.yaml", troubles)
    assert isinstance(node, Table)
    assert not troubles.findings
    return node


def value(text: str) -> str:
    node = table(f"a: {text}\n").get("a")
    assert isinstance(node, Text)
    return node.value


@pytest.mark.parametrize(
    "text",
    [
        "012", "1E3", "1e3", "0x1F", "1_000", "12:30", "1.10", "+5", ".5", ".inf", "NO", "no", "on", "off", "Yes",
        "true", "null", "~",
        "2026-03-02", "2026-03-02 09:40", "=", "a:b", "8.50", "0o17", "<<x",
    ],
)  # fmt: skip
def test_nothing_is_turned_into_something_else(text: str) -> None:
    assert value(text) == text
    assert value(f"'{text}'") == text
    assert [key.value for key, _ in table(f"{text}: x\n")] == [text]


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("4 Ω", "4 ohm"), ("2.2 kΩ", "2.2 kohm"), ("0.5 mm²", "0.5 mm2"), ("−3 dB", "-3 dB"), ("–3 dB", "-3 dB"),
        ("18\u00a0AWG", "18 AWG"), ("10 µF", "10 uF"), ("10 μF", "10 uF"), ("FL− x", "FL- x"),
        ("Larch – left", "Larch – left"), ("5².00 EUR", "5².00 EUR"), ("2² x 4 mm²", "2² x 4 mm2"),
        ("FL  WH \t BK", "FL WH BK"), ("2 × 4 ohm", "2 x 4 ohm"), ("driver’s seat", "driver's seat"),
        ("a\u2028b", "a b"),
        ("'driver’s seat'", "driver's seat"), ("1\u20118", "1-8"),
    ],
)  # fmt: skip
def test_word_processors_are_folded(written: str, read: str) -> None:
    assert value(written) == read


def test_places_are_those_of_the_users_own_line() -> None:
    text = "\ufeffringout: 1\r\nb – c:   4 Ω\r\n# é\r\nd:\u00a0{e: −3, f: \"g\" }\rh:\n  - i\n  - [j, 'k']\n"
    node = table(text.replace("b – c", "bé – c"))
    places = {}

    def walk(node: object) -> None:
        if isinstance(node, Table):
            for key, inner in node:
                places[key.value] = key.place[1:]
                walk(inner)
        elif isinstance(node, Rows):
            for inner in node:
                walk(inner)
        elif isinstance(node, Text):
            places[node.value] = node.place[1:]

    walk(node)
    assert places == {
        "ringout": (1, 1), "1": (1, 10), "bé – c": (2, 1), "4 ohm": (2, 11), "d": (4, 1), "e": (4, 5), "-3": (4, 8),
        "f": (4, 12), "g": (4, 15), "h": (5, 1), "i": (6, 5), "j": (7, 6), "k": (7, 9),
    }  # fmt: skip


def test_the_place_of_a_word_within_a_value() -> None:
    node = table("a: FL+ WH\nb: 'FL+ WH'\nc: FL+   WH\n")
    first, quoted, spaced = (each for _, each in node)
    assert isinstance(first, Text)
    assert isinstance(quoted, Text)
    assert isinstance(spaced, Text)
    assert first.place_of(4) == Place("job.yaml", 1, 8)
    assert quoted.place_of(4) == quoted.place  # the quotes and what they escape shift it
    assert spaced.place_of(4) == spaced.place


def test_blocks_keep_their_lines() -> None:
    node = table("rows: |\n  1 2 .\n  3   4 5\nnote: >\n  one\n  two\n")
    rows, note = (each for _, each in node)
    assert isinstance(rows, Text)
    assert isinstance(note, Text)
    assert rows.value == "1 2 .\n3   4 5"
    assert note.value == "one two"


def test_the_collector_runs_again_afterwards() -> None:
    assert gc.isenabled()
    read_text("a: [", "job.yaml", Troubles())
    assert gc.isenabled()


def test_without_the_c_parser_the_same_is_read(jobs: dict[str, str], monkeypatch: pytest.MonkeyPatch) -> None:
    def flat(node: object) -> object:
        if isinstance(node, Table):
            return [(key.value, key.place, flat(each)) for key, each in node]
        if isinstance(node, Rows):
            return [flat(each) for each in node]
        assert isinstance(node, Text)
        return (node.value, node.place)

    fast = {name: flat(read_text(text, name, Troubles())) for name, text in jobs.items()}
    monkeypatch.delattr(yaml, "CSafeLoader")
    slow = {name: flat(read_text(text, name, Troubles())) for name, text in jobs.items()}
    assert fast == slow


def test_without_the_c_parser_the_same_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    refused = sorted((Path(__file__).parent / "refused").glob("*.yaml"))

    def told() -> dict[str, list[tuple[str, int]]]:
        said = {}
        for path in refused:
            troubles = Troubles()
            read_file(str(path), troubles)
            said[path.name] = [(each.code, each.places[0].place.line) for each in troubles.findings]
        return said

    fast = told()
    monkeypatch.delattr(yaml, "CSafeLoader")
    assert told() == fast


def test_a_hundred_thousand_rows_are_read() -> None:
    text = "plugs:\n" + "".join(f"  p{n}:\n    cavities: {{1: FL+ WH, 2: FL- BK}}\n" for n in range(50_000))
    assert len(text) < files.MOST_BYTES / 4
    plugs = table(text).get("plugs")
    assert isinstance(plugs, Table)
    assert len(plugs) == 50_000


def test_files_that_cannot_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "MOST_BYTES", 100)
    (tmp_path / "big.yaml").write_text("a: " + "x" * 200)
    (tmp_path / "jobs.yaml").write_text("a: b")
    for name, code, word in (
        ("big.yaml", "R12", "at most"),
        ("", "R10", "folder"),
        ("job.yaml", "R10", "Is “jobs.yaml” meant?"),
        ("no/job.yaml", "R10", "no folder"),
        ("a\0b", "R10", "can't be read"),
        ("x" * 5000, "R10", "can't be read"),
    ):
        troubles = Troubles()
        assert read_file(str(tmp_path / name), troubles) is None
        (finding,) = troubles.findings
        assert finding.code == code, name
        assert word in f"{finding.message} {finding.do}", finding
        assert finding.places[0].place == Place(str(tmp_path / name), 1, 1)


def test_the_shown_line_has_its_caret_in_place(tmp_path: Path) -> None:
    forget()
    path = tmp_path / "job.yaml"
    path.write_bytes("\ufefftitle: é\tx\r\n\rlast".encode() + b"\n" + b"a" * 500 + b"#" + b"b" * 500)
    file = str(path)
    assert shown_line(Place(file, 1, 8)) == ("title: é x", 7)
    assert shown_line(Place(file, 2, 1)) == ("", 0)
    assert shown_line(Place(file, 3, 99)) == ("last", 4)
    assert shown_line(Place(file, 9, 1)) is None
    assert shown_line(Place(str(tmp_path / "none"), 1, 1)) is None
    cut = shown_line(Place(file, 4, 501))
    assert cut is not None
    assert len(cut[0]) == WIDTH
    assert cut[0][cut[1]] == "#"
    assert cut[0].startswith("…")
    assert cut[0].endswith("…")
    for column in (1, 2, 60, 950, 1001):
        shown = shown_line(Place(file, 4, column))
        assert shown is not None
        assert 0 <= shown[1] < WIDTH
        assert shown[0][shown[1]] in "ab"
    forget()
