"""Ways of joining conductors, one file each, found by being there. Nobody asks for one by its name."""

from __future__ import annotations

import importlib
import os
from functools import lru_cache

from harness.joints.method import JointMethod


@lru_cache(maxsize=1)
def methods() -> dict[str, JointMethod]:
    """Every joint method by its name, sorted by name.

    Raises ValueError where two files hold the same name.
    """
    found: dict[str, JointMethod] = {}
    for module in _modules():
        method: JointMethod = importlib.import_module(f"{__name__}.{module}").METHOD
        if method.name in found:
            raise ValueError(f"the joint method {method.name!r} stands in two files")
        found[method.name] = method
    return {name: found[name] for name in sorted(found)}


def _modules() -> list[str]:
    names = {name.partition(".")[0] for name in os.listdir(os.path.dirname(__file__)) if ".py" in name}
    return sorted(names - {"__init__", "method"})


__all__ = ["JointMethod", "methods"]
