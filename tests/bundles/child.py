"""A small process that lays files for real, started by the tests here: `python -I -S child.py ROOT FOLDER`.

The bundle that comes: a file that is there as it is, one that another gives way to, one in a folder that is there and
one in a folder that isn't.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

COMES = {
    "job.yaml": b"job\n" * 50,
    "parts/a.yaml": b"a\n" * 50,
    "parts/same.yaml": b"same\n",
    "parts/deep/b.yaml": b"b\n" * 50,
}
THERE = {"job.yaml": b"old job\n", "parts/a.yaml": b"old a\n", "parts/same.yaml": b"same\n", "mine.txt": b"mine\n"}

if __name__ == "__main__":
    sys.path.insert(0, sys.argv[1])
    from harness.bundles.laying import lay

    os.access("the take begins", 0)
    try:
        laid = lay(COMES, Path(sys.argv[2]), replace=True)
        told = f"laid {len(laid.new)} {len(laid.same)} {len(laid.replaced)}"
    except OSError as wrong:
        told = f"not laid: {wrong.strerror}"
    os.access("the take ended", 0)
    os.write(1, told.encode() + b"\n")
