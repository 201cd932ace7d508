"""How a chart is wrong, told from tones: pure, on cavities' names, knowing nothing of jobs.

`judge` answers for one plug. Each pattern is one file in `known/`, found by being there.
"""

from __future__ import annotations

import importlib
import os
from functools import lru_cache

from harness.patterns.pattern import Pattern


@lru_cache(maxsize=1)
def patterns() -> tuple[Pattern, ...]:
    """Every pattern, by rank. Raises ValueError where two files have the same name or rank."""
    folder = os.path.join(os.path.dirname(__file__), "known")
    names = sorted(name[:-3] for name in os.listdir(folder) if name.endswith(".py") and name != "__init__.py")
    made: list[Pattern] = [importlib.import_module(f"{__name__}.known.{name}").PATTERN for name in names]
    if len({each.name for each in made}) < len(made) or len({each.rank for each in made}) < len(made):
        raise ValueError("two patterns have one name or one rank")
    return tuple(sorted(made, key=lambda each: each.rank))


__all__ = ["Pattern", "patterns"]
