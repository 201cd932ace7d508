"""Pictures of routes: what Graphviz is told, what is made of its answer, and what happens without it."""

from __future__ import annotations

import io
import shutil
import sys
import time
from pathlib import Path

import pdfplumber
import pytest

from render.blocks import Edge, Masthead, Node, Picture, Sheet, Swatch
from render.diagrams import run
from render.diagrams.dot import Box, dot_text
from render.diagrams.route import ahead, by_group, by_length, connections, draw_picture
from render.diagrams.run import MOST_LINES, Wanted, find_dot, lay_out, lay_out_ahead
from render.documents import write_packet
from render.writers.flow import Frame
from render.writers.pdf import block_strips
from render.writers.svg import write_svg

SECRET = 'lead <TABLE> "x" \\N {a|b} :port'
PURE = Path(sys.executable).parent / "graphviz-pure"
PROGRAMS = [str(PURE), *filter(None, [shutil.which("dot")])]


def chain(length: int, group: str = "") -> Picture:
    nodes = tuple(Node(f"n{i}", f"box {i}", (SECRET,)) for i in range(length))
    edges = tuple(Edge(f"n{i}", f"n{i + 1}", f"wire {i}", (), False, group) for i in range(length - 1))
    return Picture("Chain", nodes, edges)


def fan(count: int, groups: int) -> Picture:
    nodes = tuple(Node(f"{side}{i}", f"{side} {i}", ("one", "two")) for side in "ab" for i in range(count))
    edges = tuple(Edge(f"a{i}", f"b{i}", "", (), False, f"G{i * groups // count}") for i in range(count))
    return Picture("Fan", nodes, edges)


def wide(count: int) -> Picture:
    """One box to many in one step, which nothing can part."""
    nodes = (Node("a", "one"), *(Node(f"b{i}", f"box {i}") for i in range(count)))
    return Picture("Wide", nodes, tuple(Edge("a", f"b{i}") for i in range(count)))


def test_dot_text_holds_plain_boxes_and_none_of_our_words(monkeypatch: pytest.MonkeyPatch) -> None:
    told = []
    monkeypatch.setattr("render.diagrams.route.lay_out", lambda text, *_: told.append(text))
    assert draw_picture(chain(3)) is None
    for forbidden in ("TABLE", "box 0", "record", "ortho", "headport", "taillabel", "xlabel"):
        assert forbidden not in told[0]
    assert told[0].count("label=") == 1
    assert 'label=""' in told[0]


@pytest.mark.parametrize("program", PROGRAMS)
def test_boxes_keep_their_size_and_do_not_touch(program: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("RINGOUT_DOT", program)
    boxes = [Box(80 + 7 * i, 20 + 5 * (i % 4), i % 3) for i in range(12)]
    lines = [(i, j) for i in range(12) for j in range(12) if i % 3 + 1 == j % 3 and (i + j) % 2]
    layout = lay_out(dot_text(boxes, lines), len(boxes), len(lines))
    assert layout is not None
    edges = []
    for box, (x, y) in zip(boxes, layout.centres, strict=True):
        edges.append((x - box.width / 2, x + box.width / 2, y - box.height / 2, y + box.height / 2))
    for index, (left, right, low, high) in enumerate(edges):
        assert left >= -0.5
        assert right <= layout.width + 0.5
        for other in edges[index + 1 :]:
            apart = right <= other[0] + 0.1 or other[1] <= left + 0.1 or high <= other[2] + 0.1 or other[3] <= low + 0.1
            assert apart
    columns = [{round(layout.centres[i][0]) for i in range(12) if i % 3 == stage} for stage in range(3)]
    assert all(len(column) == 1 for column in columns), "a stage is a column"
    assert max(columns[0]) < max(columns[1]) < max(columns[2])


@pytest.mark.parametrize("program", PROGRAMS)
def test_each_line_ends_at_its_own_boxes(program: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("RINGOUT_DOT", program)
    boxes = [Box(40, 20)] * 6
    # written so that the answer's own order (by tail) differs, with a pair of lines between the same boxes
    lines = [(4, 5), (0, 3), (2, 3), (0, 1), (0, 1), (1, 4)]
    layout = lay_out(dot_text(boxes, lines), 6, 6)
    assert layout is not None
    for (tail, head), curve in zip(lines, layout.curves, strict=True):
        for box, (x, y) in ((tail, curve[0]), (head, curve[-1])):
            assert abs(x - layout.centres[box][0]) <= 20.6
            assert abs(y - layout.centres[box][1]) <= 10.6
        assert len(curve) % 3 == 1


def test_no_program_is_a_note_and_a_list(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("RINGOUT_DOT", "/no/such/program")
    assert find_dot() is None
    picture = Picture("Alone", (Node("a", "radio"), Node("b", "dsp"), Node("c", "bass")), (Edge("a", "b", "FL"),))
    assert draw_picture(picture) is None
    drawn = write_svg(picture)
    for words in ("Graphviz was not found", "radio → dsp: FL", "bass: no connection"):
        assert words in drawn
    assert len(block_strips([picture], Frame(500, 600))) == 4


def test_environment_need_not_be_activated(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("RINGOUT_DOT", raising=False)
    monkeypatch.setenv("PATH", "")
    assert find_dot() == PURE


def test_a_failing_program_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    false = shutil.which("false")
    assert false is not None
    monkeypatch.setenv("RINGOUT_DOT", false)
    with pytest.raises(RuntimeError, match="layout program false failed"):
        lay_out("digraph {}", 0, 0)
    drawn = write_svg(chain(2))
    assert "Not drawn: the layout program false failed: exit code 1." in drawn
    assert false not in drawn, "a path of this machine is no business of the paper"


def test_too_many_lines_are_not_laid_out() -> None:
    assert lay_out("digraph {}", 0, MOST_LINES + 1) is None


def test_split_by_group_keeps_every_edge_once() -> None:
    picture = fan(30, 3)
    parts = by_group(picture)
    assert [part.title for part in parts] == ["Fan: G0", "Fan: G1", "Fan: G2"]
    assert [edge for part in parts for edge in part.edges] == list(picture.edges)
    assert by_group(chain(3, "one")) == (chain(3, "one"),)


def test_large_pictures_are_split_then_said_in_words() -> None:
    frame = Frame(515, 600)
    strips = block_strips([fan(30, 3)], frame)
    assert len(strips) == 3
    assert all(strip.height <= frame.room for strip in strips)
    assert len(block_strips([chain(3)], frame)) == 1
    parts = block_strips([chain(30)], frame)
    assert len(parts) > 3, "a way too long for the page goes on below"
    assert all(strip.height < 200 for strip in parts), "drawn, not said in words"
    words = block_strips([wide(40)], Frame(200, 100))
    assert len(words) > 39, "one line a connection, so that it can go over pages"


def test_connections_in_words() -> None:
    colour = Swatch("WH", "BK", "stripe", "white with black stripe")
    picture = Picture("P", (Node("a", "radio"), Node("b", "dsp in1")), (Edge("a", "b", "FL", (colour,), True),))
    assert connections(picture) == ("radio → dsp in1: FL, white with black stripe, twisted",)


def test_picture_without_edges_or_nodes_is_drawn() -> None:
    assert draw_picture(Picture("None", (), ())) is not None
    assert draw_picture(Picture("One", (Node("a", "radio"),), ())) is not None


def test_every_symbol_is_drawn() -> None:
    kinds = ("box", "loudspeaker", "splice", "fuse", "ground", "battery")
    sizes = set()
    for kind in kinds:
        drawing = draw_picture(Picture("S", (Node("a", "unit", (), kind),), ()))
        assert drawing is not None
        sizes.add((kind == "box", len(drawing.contents)))
    assert len([size for size in sizes if size[0]]) == 1
    assert min(count for plain, count in sizes if not plain) > max(count for plain, count in sizes if plain)


def test_sheet_name_is_free_text_nowhere() -> None:
    # a picture's words never reach a file name: only the sheet's name does
    assert Sheet("routes", SECRET, ()).name == "routes"


def _sheets_with(*pictures: Picture) -> list[Sheet]:
    return [Sheet(f"s{index}", "S", (picture,), True) for index, picture in enumerate(pictures)]


def test_one_run_of_the_program_for_all_pictures_of_a_packet(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, masthead: Masthead
) -> None:
    from graphviz.backend import execute

    monkeypatch.setattr(run, "_answered", {})
    kept, runs = execute.run_check, []
    monkeypatch.setattr(execute, "run_check", lambda *a, **k: runs.append(k["input"]) or kept(*a, **k))
    write_packet(tuple(_sheets_with(chain(3), chain(4), chain(5), chain(3))), masthead, tmp_path)

    assert len(runs) == 1
    assert runs[0].count(b"digraph") == 3, "the same picture is asked for once"


def test_answers_go_to_the_pictures_that_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    alone = {}
    for length in (2, 3, 5):
        monkeypatch.setattr(run, "_answered", {})
        alone[length] = draw_picture(chain(length))
    monkeypatch.setattr(run, "_answered", {})
    ahead([(chain(length), 700.0, 400.0) for length in (5, 2, 3)])
    together = {length: draw_picture(chain(length)) for length in (2, 3, 5)}
    assert together == alone


def test_a_program_that_hangs_costs_the_pictures_once(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, masthead: Masthead
) -> None:
    slow = tmp_path / "slow-dot"
    slow.write_text("#!/bin/sh\necho x >> " + str(tmp_path / "started") + "\nexec sleep 30\n", encoding="utf-8")
    slow.chmod(0o755)
    monkeypatch.setenv("RINGOUT_DOT", str(slow))
    monkeypatch.setattr(run, "SECONDS", 0.3)
    begun = time.monotonic()
    paths = write_packet(tuple(_sheets_with(chain(3), chain(4), chain(5))), masthead, tmp_path / "out")

    assert time.monotonic() - begun < 10
    assert (tmp_path / "started").read_text(encoding="utf-8").count("x") == 1
    text = "".join(page.extract_text() for page in pdfplumber.open(io.BytesIO(paths[0].read_bytes())).pages)
    assert text.count("Not drawn: the layout program slow-dot gave no answer within 0.3 s.") == 3
    assert str(tmp_path) not in text


def test_one_bad_answer_does_not_spoil_the_others(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run, "_answered", {})
    good = Wanted(dot_text([Box(40, 20)], []), 1, 0)
    lay_out_ahead([good, Wanted("digraph {", 0, 0)])
    assert lay_out(*good) is not None
    with pytest.raises(RuntimeError, match="failed"):
        lay_out("digraph {", 0, 0)


def test_a_long_way_is_parted_in_the_middle() -> None:
    first, second = by_length(chain(7))
    assert [len(part.edges) for part in (first, second)] == [3, 3]
    assert {node.name for node in first.nodes} & {node.name for node in second.nodes} == {"n3"}
    assert "first half" in first.title
    ring = Picture("Ring", (Node("a", "a"), Node("b", "b")), (Edge("a", "b"), Edge("b", "a")))
    assert by_length(ring) == (ring,)
    assert by_length(chain(2)) == (chain(2),)
