"""The package stands alone: a record can be put down before anything heavy is loaded."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from harness.read.files import MOST_BYTES as READ_AT_MOST
from harness.records.append import MOST_BYTES


def test_it_loads_nothing_but_itself(root: Path) -> None:
    """Neither jobs nor YAML, and nothing that draws, computes or serves."""
    script = (
        f"import sys; sys.path.insert(0, {str(root)!r}); import harness.records.append, harness.records.seal;"
        "print(*sorted(sys.modules))"
    )
    answer = subprocess.run(
        [sys.executable, "-I", "-S", "-c", script], capture_output=True, encoding="utf-8", check=True, timeout=60
    )
    loaded = set(answer.stdout.split())
    ours = {name for name in loaded if name.partition(".")[0] in ("harness", "render")}
    assert "harness.records.flow" in ours
    assert {name for name in ours if not name.startswith("harness.records")} == {"harness", "harness.disk"}
    assert loaded & {"yaml", "click", "networkx", "hashlib", "tempfile", "shutil", "subprocess", "logging"} == set()


def test_what_is_written_can_be_read() -> None:
    """The limit of the file is the reader's own."""
    assert MOST_BYTES == READ_AT_MOST
