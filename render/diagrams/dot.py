"""DOT text of plain boxes of fixed size. Graphviz only places them; every word is drawn by us.

No labels, records or ports, so nothing of a job's text reaches Graphviz: nodes are called n0, n1 … here
and the quoting below guards whatever a later caller puts in.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

POINTS_PER_INCH = 72.0

Gaps = tuple[float, float]
WIDE_GAPS: Gaps = (0.1 * POINTS_PER_INCH, 0.28 * POINTS_PER_INCH)  # nodesep and ranksep
CLOSE_GAPS: Gaps = (0.07 * POINTS_PER_INCH, 0.19 * POINTS_PER_INCH)


class Box(NamedTuple):
    """A box to place: size in points; boxes of the same `stage` stand in one column, None anywhere."""

    width: float
    height: float
    stage: int | None = None


def quote(name: str) -> str:
    r"""A name as a DOT string, whatever it holds.

    >>> print(quote('plain'))
    "plain"
    >>> print(quote('<b>not html</b>'))
    "<b>not html</b>"
    >>> print(quote('say "hi" {now} a:b'))
    "say \"hi\" {now} a:b"

    A backslash is doubled, so that the last one can't swallow the closing quote:

    >>> print(quote('ends in \\'))
    "ends in \\"
    """
    return '"' + name.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


def dot_text(boxes: Sequence[Box], lines: Sequence[tuple[int, int]], gaps: Gaps = WIDE_GAPS) -> str:
    """Boxes and the lines between them, by index, to be laid out left to right with gaps between rows and columns.

    >>> print(dot_text([Box(72, 36, 1), Box(36, 18)], [(0, 1)]))
    digraph {
    graph [rankdir="LR" splines="spline" nodesep="0.1" ranksep="0.28" outputorder="edgesfirst"]
    node [shape="box" fixedsize="true" label="" margin="0"]
    edge [arrowhead="none"]
    "n0" [width="1.0000" height="0.5000"]
    "n1" [width="0.5000" height="0.2500"]
    {rank="same" "n0"}
    "n0" -> "n1" [id="e0"]
    }
    """
    nodesep, ranksep = (f"{gap / POINTS_PER_INCH:g}" for gap in gaps)
    text = [
        "digraph {",
        f'graph [rankdir="LR" splines="spline" nodesep="{nodesep}" ranksep="{ranksep}" outputorder="edgesfirst"]',
        'node [shape="box" fixedsize="true" label="" margin="0"]',
        'edge [arrowhead="none"]',
    ]
    stages: dict[int, list[str]] = {}
    for index, box in enumerate(boxes):
        name = quote(f"n{index}")
        width, height = box.width / POINTS_PER_INCH, box.height / POINTS_PER_INCH
        text.append(f'{name} [width="{width:.4f}" height="{height:.4f}"]')
        if box.stage is not None:
            stages.setdefault(box.stage, []).append(name)
    for stage in sorted(stages):
        text.append("{" + f'rank="same" {" ".join(stages[stage])}' + "}")
    for index, (tail, head) in enumerate(lines):
        # the answer lists lines by their tails, so each carries its index
        text.append(f"{quote(f'n{tail}')} -> {quote(f'n{head}')} [id={quote(f'e{index}')}]")
    # an unseen line between columns keeps their order where no connection does
    heads = [stages[stage][0] for stage in sorted(stages)]
    text += [f'{left} -> {right} [style="invis"]' for left, right in pairwise(heads)]
    return "\n".join([*text, "}"])


def expected_size(
    boxes: Sequence[Box], lines: Sequence[tuple[int, int]], gaps: Gaps = WIDE_GAPS
) -> tuple[float, float]:
    """About the size in points that a layout will have: columns by the longest way to each box.

    Graphviz is free to do otherwise; good enough to choose what to ask it. Boxes in a ring count as one column.

    >>> expected_size([Box(100, 20), Box(50, 30), Box(50, 30)], [(0, 1), (0, 2)])
    (170.16, 67.2)
    """
    column = [0] * len(boxes)
    waiting = [0] * len(boxes)
    after: list[list[int]] = [[] for _ in boxes]
    for tail, head in lines:
        waiting[head] += 1
        after[tail].append(head)
    ready = [index for index in range(len(boxes)) if not waiting[index]]
    for here in ready:
        for head in after[here]:
            column[head] = max(column[head], column[here] + 1)
            waiting[head] -= 1
            if not waiting[head]:
                ready.append(head)
    wide: dict[int, float] = {}
    high: dict[int, float] = {}
    for index, box in enumerate(boxes):
        at = column[index]
        wide[at] = max(wide.get(at, 0.0), box.width)
        high[at] = high.get(at, -gaps[0]) + box.height + gaps[0]
    return round(sum(wide.values()) + gaps[1] * max(len(wide) - 1, 0), 2), round(max(high.values(), default=0.0), 2)
