"""Changes that the type checker refuses: CI runs it, so such a change can't get in, whatever the tests see.

Asked only of changes that live through the tests, since it takes a second each.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from tests.mutation.mutants import Mutant, rewritten
from tests.mutation.subjects import ROOT


class TypeChecker:
    """mypy as CI runs it, over the whole project, with one file read from elsewhere. Keeps its cache between calls."""

    def __init__(self) -> None:
        self._folder = Path(tempfile.mkdtemp())
        if self._refuses():
            raise SystemExit("mypy refuses the project unchanged")

    def refuses(self, mutant: Mutant) -> bool:
        """Whether mypy finds fault with the project with this change in it."""
        changed = self._folder / "changed.py"
        source = Path(mutant.file).read_text(encoding="utf-8")
        changed.write_text(rewritten(source, mutant.number), encoding="utf-8")
        return self._refuses("--shadow-file", mutant.file, str(changed))

    def _refuses(self, *options: str) -> bool:
        done = subprocess.run(
            [sys.executable, "-m", "mypy", "--cache-dir", str(self._folder / "cache"), *options],
            cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False,
        )  # fmt: skip
        if done.returncode not in (0, 1) or (done.returncode and ": error:" not in done.stdout):
            raise SystemExit(f"mypy can't be asked:\n{done.stdout[-2000:]}")
        return done.returncode == 1
