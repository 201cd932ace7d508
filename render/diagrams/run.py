"""The only place that runs Graphviz: DOT text in, where boxes and lines stand out.

Which program: the path in the environment's RINGOUT_DOT if set (a user's own choice), else the one that
the graphviz-pure package puts beside the interpreter, else `dot` on the search path. None at all is no
error: the layout is None, and the caller says so on the paper.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import sysconfig
from collections.abc import Iterable
from pathlib import Path
from typing import Any, NamedTuple

# Layout time grows with the square of the lines; above this a picture is not readable on paper anyway.
MOST_LINES = 300
# A packet's pictures take a fraction of a second; whoever waits longer would rather have the list.
SECONDS = 20.0
_MOST_KEPT = 256

Point = tuple[float, float]


class Wanted(NamedTuple):
    """DOT text to lay out, and how many boxes and lines the answer must have."""

    text: str
    boxes: int
    lines: int


class Layout(NamedTuple):
    """Where things stand, in points from the lower left corner.

    `centres` of the boxes by index; `curves` of the lines by index: a start point, then three points
    for each Bézier piece.
    """

    width: float
    height: float
    centres: tuple[Point, ...]
    curves: tuple[tuple[Point, ...], ...]


# What the program said of each text: where things stand, or why it failed.
_answered: dict[tuple[Path, str], Layout | str] = {}


def find_dot() -> Path | None:
    """The layout program to use, or None."""
    chosen = os.environ.get("RINGOUT_DOT")
    if chosen:
        found = shutil.which(chosen)
        return Path(found) if found else None
    name = "graphviz-pure.exe" if os.name == "nt" else "graphviz-pure"
    # beside the interpreter even where the environment is not activated
    for folder in (Path(sys.executable).parent, Path(sysconfig.get_path("scripts"))):
        if (folder / name).is_file():
            return folder / name
    for program in (name, "dot"):
        found = shutil.which(program)
        if found:
            return Path(found)
    return None


def lay_out(text: str, boxes: int, lines: int) -> Layout | None:
    """Lay out DOT text of `render.diagrams.dot`; None without a program, or with too many lines.

    Raises RuntimeError with the program's own words where it fails, or doesn't answer within SECONDS.
    """
    program = find_dot()
    if program is None or lines > MOST_LINES:
        return None
    if (program, text) not in _answered:
        _run((Wanted(text, boxes, lines),), program)
    answer = _answered[program, text]
    if isinstance(answer, str):
        raise RuntimeError(answer)
    return answer


def lay_out_ahead(wanted: Iterable[Wanted]) -> None:
    """Lay out several texts in one start of the program, so that `lay_out` has the answers at once.

    Never raises: what fails here is told by `lay_out` when its text is asked for.
    """
    program = find_dot()
    if program is None:
        return
    # a dictionary, since the same picture may stand twice
    texts = {each.text: each for each in wanted if each.lines <= MOST_LINES and (program, each.text) not in _answered}
    _run(tuple(texts.values()), program)


def _run(wanted: tuple[Wanted, ...], program: Path) -> None:
    """One start of the program over all texts; one that it can't read must not spoil the others."""
    if not wanted:
        return
    if len(_answered) > _MOST_KEPT:
        _answered.clear()
    try:
        answers = _ask("\n".join(each.text for each in wanted), program)
        if len(answers) != len(wanted):
            raise ValueError(f"{len(answers)} answers to {len(wanted)} pictures")
        for each, answer in zip(wanted, answers, strict=True):
            _answered[program, each.text] = _read(answer, each.boxes, each.lines)
    except subprocess.TimeoutExpired:
        # once is enough: asking for each alone would wait for each
        for each in wanted:
            _answered[program, each.text] = f"the layout program {program.name} gave no answer within {SECONDS:g} s"
    except (OSError, subprocess.CalledProcessError, ValueError, LookupError) as error:
        if len(wanted) > 1:
            for each in wanted:
                _run((each,), program)
        else:
            _answered[program, wanted[0].text] = f"the layout program {program.name} failed: {_why(error)}"


def _why(error: Exception) -> str:
    """What went wrong without the path of the program, which differs from machine to machine."""
    if isinstance(error, subprocess.CalledProcessError):
        return f"exit code {error.returncode}"
    if isinstance(error, OSError):
        return error.strerror or "it could not be started"
    return "its answer can't be read"


def _ask(text: str, program: Path) -> list[dict[str, Any]]:
    """Graphviz's answers to a stream of graphs, one JSON object each."""
    from graphviz.backend import execute

    # json0 has the places and none of the drawing, a fifth of the text
    done = execute.run_check(
        [program, "-Kdot", "-Tjson0"], input=text.encode("utf-8"), capture_output=True, timeout=SECONDS, quiet=True
    )
    rest = done.stdout.decode("utf-8").lstrip()
    read, answers = json.JSONDecoder(), []
    at = 0
    while at < len(rest):
        answer, at = read.raw_decode(rest, at)
        answers.append(answer)
        while at < len(rest) and rest[at].isspace():
            at += 1
    return answers


def _read(answer: dict[str, Any], boxes: int, lines: int) -> Layout:
    width, height = (float(value) for value in answer["bb"].split(",")[2:])
    centres: dict[int, Point] = {}
    for thing in answer.get("objects", ()):
        if "pos" in thing:
            centres[int(thing["name"][1:])] = _point(thing["pos"])
    curves: dict[int, tuple[Point, ...]] = {}
    for line in answer.get("edges", ()):
        if "id" in line:
            curves[int(line["id"][1:])] = tuple(_point(point) for point in line["pos"].split())
    return Layout(
        width,
        height,
        tuple(centres[index] for index in range(boxes)),
        tuple(curves[index] for index in range(lines)),
    )


def _point(text: str) -> Point:
    across, up = text.split(",")[:2]
    return float(across), float(up)
