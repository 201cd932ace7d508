"""An answer of an object that is computed when first asked for, and kept with it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Generic, TypeVar, overload

Answer = TypeVar("Answer")


class once(Generic[Answer]):  # noqa: N801 - used as a decorator
    """`functools.cached_property` without the lock that Python before 3.12 takes at every first question.

    The twenty first questions of a small job would cost more than some of its checks.
    """

    def __init__(self, compute: Callable[[Any], Answer]) -> None:
        self.compute = compute
        self.__doc__ = compute.__doc__

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name

    @overload
    def __get__(self, instance: None, owner: type) -> once[Answer]: ...
    @overload
    def __get__(self, instance: object, owner: type) -> Answer: ...
    def __get__(self, instance: object | None, owner: type) -> once[Answer] | Answer:
        if instance is None:
            return self
        answer = instance.__dict__[self.name] = self.compute(instance)
        return answer
