"""Peak memory of a check against that of `yaml.compose` on the same file, each in a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from tests.benchmarks.jobs import job_text
from tests.benchmarks.processes import ROOT
from tests.benchmarks.ratio import Result

# The kernel's own mark of a process, in kB; ru_maxrss starts from the parent's and would hide a small job.
_PEAK = """
import gc, sys
gc.disable()
def peak():
    try:
        with open("/proc/self/status") as lines:
            return next(int(line.split()[1]) for line in lines if line.startswith("VmHWM"))
    except OSError:
        import resource
        return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // (1024 if sys.platform == "darwin" else 1)
"""
_CHECK = """
from harness.prove import prove
def work(path):
    return prove(path, mends=False)
"""
_COMPOSE = """
import yaml
def work(path):
    with open(path, "rb") as stream:
        return yaml.compose(stream, Loader=yaml.CSafeLoader)
"""
_MEASURE = """
work(sys.argv[1])
before = peak()
kept = work(sys.argv[2])
print(peak() - before)
"""


def peak_kb(work: str, small: Path, large: Path) -> int:
    """How much the peak rises for the large file, once all imports are done for the small one."""
    done = subprocess.run(
        [sys.executable, "-c", _PEAK + work + _MEASURE, str(small), str(large)],
        cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=True,
    )  # fmt: skip
    return int(done.stdout)


def sizes(contacts: Sequence[int]) -> list[Result]:
    results = []
    with tempfile.TemporaryDirectory() as folder:
        small = Path(folder) / "small.yaml"
        small.write_text(job_text(100), encoding="utf-8")
        for size in contacts:
            large = Path(folder) / f"bays-{size}.yaml"
            large.write_text(job_text(size), encoding="utf-8")
            floor, subject = peak_kb(_COMPOSE, small, large), peak_kb(_CHECK, small, large)
            what = f"peak memory of a check, {size:,} contacts / compose"
            results.append(Result(what, floor / 1024, subject / 1024, "MiB", 4.0))
    return results
