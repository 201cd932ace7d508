"""The only place that runs Graphviz: DOT text in, where boxes and lines stand out.

Which program: the path in the environment's RINGOUT_DOT if set (a user's own choice), else the one that
the graphviz-pure package puts beside the interpreter, else `dot` on the search path. None at all is no
error: the layout is None, and the caller says so on the paper.
"""

from __future__ import annotations

import json
import os
import shutil
import sys
import sysconfig
from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

# Layout time grows with the square of the lines; above this a picture is not readable on paper anyway.
MOST_LINES = 300

Point = tuple[float, float]


class Layout(NamedTuple):
    """Where things stand, in points from the lower left corner.

    `centres` of the boxes by index; `curves` of the lines by index: a start point, then three points
    for each Bézier piece.
    """

    width: float
    height: float
    centres: tuple[Point, ...]
    curves: tuple[tuple[Point, ...], ...]


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

    Raises RuntimeError with the program's own words where it fails.
    """
    program = find_dot()
    if program is None or lines > MOST_LINES:
        return None
    return _run(text, boxes, lines, program)


@lru_cache(maxsize=64)
def _run(text: str, boxes: int, lines: int, program: Path) -> Layout:
    from graphviz.backend import dot_command, execute, piping

    before = dot_command.DOT_BINARY
    dot_command.DOT_BINARY = program
    try:
        answer = piping.pipe("dot", "json", text.encode("utf-8"), quiet=True)
    except (execute.CalledProcessError, OSError) as error:
        raise RuntimeError(f"the layout program {program.name} failed: {error}") from error
    finally:
        dot_command.DOT_BINARY = before
    return _read(json.loads(answer), boxes, lines)


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
