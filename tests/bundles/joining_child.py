"""Joins records for real and ends at one of its calls, without a word: `python joining_child.py ROOT FOLDER AT`.

It ends right after the call of that number that changes the disk, as a kill would, with exit code 9; 0 where it came
to its end first.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

if __name__ == "__main__":
    sys.path.insert(0, sys.argv[1])
    from harness.bundles.joining import lay_joined
    from tests.bundles.test_joining import COMES, KINDS, RECORDS

    left = int(sys.argv[3])

    def counted(call: Callable[..., Any]) -> Callable[..., Any]:
        def made(*words: Any, **named: Any) -> Any:
            global left
            answer = call(*words, **named)
            left -= 1
            if not left:
                os._exit(9)
            return answer

        return made

    for name in ("mkdir", "replace", "rename", "link", "unlink", "rmdir", "fsync", "write"):
        setattr(os, name, counted(getattr(os, name)))
    lay_joined(COMES, KINDS, Path(sys.argv[2]), RECORDS)
