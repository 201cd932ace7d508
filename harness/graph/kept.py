"""Answers that several ask for: found once, kept with the wiring that they are about."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring

Answer = TypeVar("Answer")
_NOTHING = object()


def kept(question: Callable[[Wiring], Answer]) -> Callable[[Wiring], Answer]:
    """Asks once a wiring and keeps the answer, as nothing in a wiring changes. Who asks doesn't change it either."""

    @wraps(question)
    def ask(wiring: Wiring) -> Answer:
        made = wiring.answers.get(question, _NOTHING)
        if made is _NOTHING:  # dearer than a KeyError caught, only that on a small job most are asked once
            made = wiring.answers[question] = question(wiring)
        return made  # type: ignore[return-value]

    return ask
