"""What functions keep from one call to the next."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

_known: dict[tuple[str, ...], tuple[int, list[Callable[[], None]]]] = {}


def empty_caches(modules: tuple[str, ...]) -> None:
    """Everything that functions of these modules keep is forgotten."""
    count, clearing = _known.get(modules, (0, []))
    if count != len(sys.modules):  # looked through again only where a module came or went: there are many tests
        clearing = [
            kept.cache_clear
            for name, module in list(sys.modules.items())
            if name.startswith(modules) or Path(getattr(module, "__file__", None) or "").name == "conftest.py"
            for kept in list(vars(module).values())
            if callable(getattr(kept, "cache_clear", None))
        ]
        _known[modules] = len(sys.modules), clearing
    for clear in clearing:
        clear()
