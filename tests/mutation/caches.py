"""What functions keep from one call to the next."""

from __future__ import annotations

import sys
from pathlib import Path


def empty_caches(modules: tuple[str, ...]) -> None:
    """Everything that functions of these modules keep is forgotten."""
    for name, module in list(sys.modules.items()):
        if name.startswith(modules) or Path(getattr(module, "__file__", None) or "").name == "conftest.py":
            for kept in list(vars(module).values()):
                if callable(getattr(kept, "cache_clear", None)):
                    kept.cache_clear()
