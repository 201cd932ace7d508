"""Where each word of a YAML text stands, so that a test can change the text and leave the rest as it is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import yaml

Path = tuple[str | int, ...]


class Scalar(NamedTuple):
    """One key or value: where it stands in the text (characters `start` to `end`) and under which keys."""

    path: Path  # of the thing itself: a key's path ends with the key
    is_key: bool
    start: int
    end: int
    value: str


def composed(text: str) -> yaml.Node:
    node = yaml.compose(text, Loader=yaml.SafeLoader)
    assert node is not None
    return node


def scalars(text: str) -> list[Scalar]:
    """Every key and value, in the order of the text."""
    return list(_walk(composed(text), ()))


def _walk(node: yaml.Node, path: Path) -> Iterator[Scalar]:
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            here = (*path, key.value)
            yield Scalar(here, True, key.start_mark.index, key.end_mark.index, key.value)
            yield from _walk(value, here)
    elif isinstance(node, yaml.SequenceNode):
        for number, item in enumerate(node.value):
            yield from _walk(item, (*path, number))
    else:
        yield Scalar(path, False, node.start_mark.index, node.end_mark.index, node.value)


def edited(text: str, changes: list[tuple[int, int, str]]) -> str:
    """The text with some of its pieces replaced; the pieces don't overlap."""
    for start, end, new in sorted(changes, reverse=True):
        text = text[:start] + new + text[end:]
    return text
