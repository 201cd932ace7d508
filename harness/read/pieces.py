"""Parts of a text that are told apart, each with its own place."""

from __future__ import annotations

from harness.read.nodes import Text


def piece(node: Text, value: str, offset: int) -> Text:
    """`value`, found `offset` characters into a node's text, as a node of its own."""
    place = node.place_of(offset)
    return Text(value, node.quoted, node.exact, node.file, place.line, place.column)


def words_in(node: Text) -> list[Text]:
    """The words of a text between spaces."""
    made = []
    at = 0
    for word in node.value.split(" "):
        if word:
            made.append(piece(node, word, at))
        at += len(word) + 1
    return made
