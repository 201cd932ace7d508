"""The name of a preset, as a job or a shop file writes it."""

from __future__ import annotations

from harness.presets import names
from harness.read.names import nearest
from harness.read.nodes import Node, Text
from harness.read.troubles import Troubles


def preset_name(node: Node | None, troubles: Troubles) -> str:
    """The preset meant, in small letters; empty where none is written, or one that there isn't (and told)."""
    if not isinstance(node, Text):
        return ""
    if node.value.lower() in names():
        return node.value.lower()
    near = nearest(node.value, names())
    troubles.add(
        "R20", node.place, node.value, f"There is no preset “{node.value}”." + (f" Is {near} meant?" if near else ""),
        f"Write one of {', '.join(names())}.",
    )  # fmt: skip
    return ""
