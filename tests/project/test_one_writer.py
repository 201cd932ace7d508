"""Files are written, synced and renamed in one place."""

from __future__ import annotations

import re
from pathlib import Path

# Only these may ask the system for it: the one writer, and who lays folders whole.
MAY = {"harness/disk.py", "harness/bundles/laying.py"}
ASKS = re.compile(r"os\.(?:fsync|replace|rename)\b|\btempfile\b|\.write_bytes\(|\.write_text\(")


def test_nobody_else_renames_syncs_or_writes(root: Path) -> None:
    found = {
        path.relative_to(root).as_posix()
        for folder in ("harness", "render")
        for path in (root / folder).rglob("*.py")
        if ASKS.search(path.read_text(encoding="utf-8"))
    }
    assert found == MAY
