"""Days of the calendar: a date that its pattern lets pass may still be none."""

from __future__ import annotations

from datetime import date

from harness.read.nodes import Table, Text
from harness.read.troubles import Troubles


def day_of(table: Table, key: str, troubles: Troubles, bad: set[int]) -> str:
    """The date behind a key, or empty where there is none, or (told) where the calendar has no such day."""
    node = table.get(key)
    if not isinstance(node, Text) or id(node) in bad:
        return ""
    try:
        date.fromisoformat(node.value)
    except ValueError:
        troubles.add("R09", node.place, node.value, f"There is no {node.value} in the calendar.", "Correct the date.")
        return ""
    return node.value
