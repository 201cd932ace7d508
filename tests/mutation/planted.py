"""Importing one module of the project with a change made in it, and nothing else of it changed."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from pathlib import Path
from types import CodeType, ModuleType

from tests.mutation.mutants import Mutant, mutated


class _Loader(SourceFileLoader):
    """Compiles the changed tree; never reads or writes a cache of bytecode."""

    mutant: Mutant

    def get_code(self, fullname: str) -> CodeType:
        source = Path(self.mutant.file).read_text(encoding="utf-8")
        return compile(mutated(source, self.mutant.number), self.mutant.file, "exec")


class _Finder(MetaPathFinder):
    def __init__(self, mutant: Mutant, module: str) -> None:
        self.mutant, self.module = mutant, module

    def find_spec(
        self, fullname: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        if fullname != self.module:
            return None
        spec = PathFinder.find_spec(fullname, path, target)
        assert spec is not None
        assert spec.origin is not None
        loader = _Loader(fullname, spec.origin)
        loader.mutant = self.mutant
        spec.loader = loader
        return spec


def plant(mutant: Mutant, root: Path) -> None:
    """From now on the mutant's module is imported changed. Raises RuntimeError where the project is already."""
    if any(name.partition(".")[0] in ("harness", "render") for name in sys.modules):
        raise RuntimeError("the project is imported already")
    relative = Path(mutant.file).relative_to(root).with_suffix("")
    parts = relative.parts[:-1] if relative.name == "__init__" else relative.parts
    sys.meta_path.insert(0, _Finder(mutant, ".".join(parts)))
