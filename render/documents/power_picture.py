"""The picture of the supply: battery, fuses, blocks, units and ground points, every cable with its figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from harness.graph.shop import figure
from harness.planning.power_tree import PowerTree, TreeLine, TreeNode
from render.blocks import Edge, Node, Picture, Symbol
from render.documents.wording import NOT_RECORDED, length, size_words

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring

_HOLD = "\N{NO-BREAK SPACE}"
_SYMBOLS: dict[str, Symbol] = {"battery": "battery", "fuse": "fuse", "ground": "ground", "joint": "splice"}


def power_picture(wiring: Wiring, tree: PowerTree) -> Picture:
    """All of the tree as boxes and lines; where it must be parted, unit by unit."""
    names = {node.key: f"b{number}" for number, node in enumerate(tree.nodes)}
    nodes = tuple(_node(wiring, node, names[node.key]) for node in tree.nodes)
    edges = tuple(
        Edge(names[line.tail], names[line.head], _words(line), group=_group(line)) for line in tree.lines
    )  # fmt: skip
    return Picture("From the battery to each unit and back to ground", nodes, edges, close=True)


def legend(tree: PowerTree) -> str:
    """What the boxes and the words on the lines say, and what stands without figures."""
    said = (
        "On a line: length, size, amperes, volts lost. In a unit: amperes drawn, volts at its own terminals. "
        "From ground back: the body."
    )
    if any(line.pieces and line.current_a is None for line in tree.lines):
        said += " Not counted: nobody wrote what that unit draws, or it is fed by the car's own wiring."
    return said


def _node(wiring: Wiring, node: TreeNode, name: str) -> Node:
    lines: list[str] = []
    title = node.name
    if node.kind == "battery":
        lines.append(figure(wiring, "supply").words.replace(" ", _HOLD))
    elif node.kind == "fuse":
        title = f"fuse {node.rating_a:g}{_HOLD}A" if node.rating_a is not None else "fuse"
        lines += [] if node.rating_a is not None else [f"value {NOT_RECORDED}"]
    elif node.kind == "unit":
        counted = node.current_a is not None and node.volts is not None
        lines += [f"{node.current_a:.3g}{_HOLD}A", f"{node.volts:.2f}{_HOLD}V"] if counted else ["not counted"]
    elif node.kind == "ground":
        title = f"ground {node.name}" if node.where else node.name
        lines += [node.where] if node.where else []
    elif node.kind == "feed":
        lines.append("the car's own feed")
    return Node(name, title, tuple(lines), _SYMBOLS.get(node.kind, "box"))


def _words(line: TreeLine) -> str:
    """`4.57 m (15 ft)`, `4 AWG, 56.2 A`, `loses 0.21 V`, a line each; nothing where boxes touch."""
    if not line.pieces:
        return ""
    carries = f"{line.current_a:.3g}{_HOLD}A" if line.current_a is not None else "not counted"
    said = []
    for piece in line.pieces:
        metal = " CCA" if piece.metal == "CCA" else ""
        said.append(length(piece.length_m) if piece.length_m is not None else f"length {NOT_RECORDED}")
        said.append(size_words(piece.size) + metal)
    said[-1] += f", {carries}"
    if line.current_a is not None:
        said.append(f"loses{_HOLD}{line.drop_v:.2f}{_HOLD}V" if line.drop_v is not None else f"loss {NOT_RECORDED}")
    return "\n".join(said)


def _group(line: TreeLine) -> str:
    return line.units[0] if len(line.units) == 1 else "shared by several units"
