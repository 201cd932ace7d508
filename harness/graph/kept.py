"""Answers that several ask for: found once, kept with the wiring that they are about."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TYPE_CHECKING, TypeVar, cast

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring

Answer = TypeVar("Answer")


def kept(question: Callable[[Wiring], Answer]) -> Callable[[Wiring], Answer]:
    """Asks once a wiring and keeps the answer, as nothing in a wiring changes. Who asks doesn't change it either."""

    @wraps(question)
    def ask(wiring: Wiring) -> Answer:
        answers = wiring.answers
        if question not in answers:
            answers[question] = question(wiring)
        return cast("Answer", answers[question])

    return ask
