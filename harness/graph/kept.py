"""Answers that several ask for: found once, kept with the wiring that they are about."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring

Answer = TypeVar("Answer")


def kept(question: Callable[[Wiring], Answer]) -> Callable[[Wiring], Answer]:
    """Asks once a wiring and keeps the answer, as nothing in a wiring changes. Who asks doesn't change it either."""

    @wraps(question)
    def ask(wiring: Wiring) -> Answer:
        try:
            return wiring.answers[question]  # type: ignore[return-value]
        except KeyError:
            made = wiring.answers[question] = question(wiring)
            return made

    return ask
