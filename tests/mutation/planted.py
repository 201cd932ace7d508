"""One change put into the project: into a module as it is imported, or into the functions of one that already is."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from inspect import CO_OPTIMIZED
from itertools import zip_longest
from pathlib import Path
from types import CodeType, ModuleType

from tests.mutation.mutants import Mutant, mutated


class _Loader(SourceFileLoader):
    """Compiles the changed tree; never reads or writes a cache of bytecode."""

    mutant: Mutant

    def get_code(self, fullname: str) -> CodeType:
        return _changed(self.mutant)


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


def exchanged(mutant: Mutant) -> dict[CodeType, CodeType] | None:
    """The functions' code that the change touches, old -> new; None where it touches what runs at import.

    A function in which another one is written holds that one's code too: both are here.
    """
    source = Path(mutant.file).read_text(encoding="utf-8")
    old, new = compile(source, mutant.file, "exec", dont_inherit=True), _changed(mutant)
    made: dict[CodeType, CodeType] = {}
    for one, other in _side_by_side(old, new):
        if one is None or other is None or one == other:
            continue
        if one.co_flags & CO_OPTIMIZED and other.co_flags & CO_OPTIMIZED:
            if one.co_freevars != other.co_freevars:
                return None
            made[one] = other
        elif _own(one) != _own(other):
            return None
    return made


def _changed(mutant: Mutant) -> CodeType:
    tree = mutated(Path(mutant.file).read_text(encoding="utf-8"), mutant.number)
    return compile(tree, mutant.file, "exec", dont_inherit=True)


def _side_by_side(one: CodeType | None, other: CodeType | None) -> Iterator[tuple[CodeType | None, CodeType | None]]:
    yield one, other
    if one is not None and other is not None:
        inner = [[each for each in code.co_consts if isinstance(each, CodeType)] for code in (one, other)]
        for pair in zip_longest(*inner):
            yield from _side_by_side(*pair)


def _own(code: CodeType) -> tuple[object, ...]:
    """What a module's or a class's code does beside the functions in it."""
    plain = tuple("" if isinstance(each, CodeType) else each for each in code.co_consts)
    return code.co_code, code.co_names, repr(plain), code.co_exceptiontable
