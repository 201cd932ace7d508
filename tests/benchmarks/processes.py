"""Whole processes: a check against importing what it can't do without; help against importing click."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tests.benchmarks.ratio import Result, alternate

ROOT = Path(__file__).resolve().parents[2]
COMMAND = "from harness.cli import main; main()"  # what the installed command `ringout` does


def run(*args: str) -> None:
    """One process from the checkout. Raises RuntimeError with its words where it dies."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # pip compiled the floor's modules; ours are at the first run
    done = subprocess.run(
        [sys.executable, *args], cwd=ROOT, env=environment,
        stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, check=False,
    )  # fmt: skip
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stderr.decode("utf-8", "replace"))


def ringout(*args: str) -> None:
    run("-c", COMMAND, *args)


def start_up(rounds: int) -> list[Result]:
    sample = str(ROOT / "samples" / "hatch-plug-in.yaml")
    cases = [
        ("check of sample (a) / import yaml, networkx", "import yaml, networkx", ("check", sample), 1.45, 1.3),
        ("--help / import click", "import click", ("--help",), 1.5, None),
        ("explain C01 / import click", "import click", ("explain", "C01"), 1.5, None),
    ]
    results = []
    for what, imports, args, target, goal in cases:
        floor, subject = alternate(lambda i=imports: run("-c", i), lambda a=args: ringout(*a), rounds)  # type: ignore[misc]
        results.append(Result(what, floor * 1e3, subject * 1e3, "ms", target, goal))
    return results
