"""The supply of two hundred loads, solved, against PyYAML's C loader on the same file."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from harness.graph.supply import Supply, supply
from harness.graph.wiring import Wiring
from harness.prove import prove
from tests.benchmarks.ratio import Result, alternate
from tests.benchmarks.reading import load

LOADS = 200
WAYS = 10  # of a block


def tree_text(loads: int = LOADS) -> str:
    """One battery cable through fuse blocks to each unit, each with a ground of its own."""
    return _job(loads, [])


def mesh_text(loads: int = LOADS) -> str:
    """As the tree, and the blocks in a ring with a second cable from the battery, the units' grounds joined on."""
    blocks = range(loads // WAYS)
    across = [f"  - block{at}.in > 1 m 4 AWG > block{(at + 1) % len(blocks)}.in" for at in blocks]
    across += [f"  - u{at}.GND > 30 cm 8 AWG > u{at + 1}.GND" for at in range(loads - 1)]
    across.append(f"  - battery.+ > 30 cm 1/0 AWG > fuse 300 A > 5 m 1/0 AWG > block{len(blocks) // 2}.in")
    return _job(loads, across)


def _job(loads: int, across: list[str]) -> str:
    blocks = range(loads // WAYS)
    lines = ["ringout: 1", "title: Two hundred loads", "car: {name: Long train, steering: left}", "units:"]
    lines += [f"  block{at}: {{kind: fuse block, ways: {WAYS}}}" for at in blocks]
    said = (
        "draws: 3 A",
        "class: D, efficiency: 80 %, outputs: {out1..2: 20 W @ 4 ohm}",
        "outputs: {out1: 30 W @ 4 ohm}",
    )
    lines += [f"  u{at}: {{kind: amplifier, place: floor {at}, {said[at % 3]}}}" for at in range(loads)]
    lines.append("grounds:")
    lines += [f"  G{at}: {{place: floor {at}, metal: bare}}" for at in blocks]
    lines.append("runs:")
    lines.append("  - battery.+ > 30 cm 1/0 AWG > fuse 300 A > 5 m 1/0 AWG > block0.in")
    lines += [f"  - block{at - 1}.1 > fuse 200 A > 2 m 1/0 AWG > block{at}.in" for at in blocks if at]
    for at in range(loads):
        lines.append(f"  - block{at // WAYS}.{2 + at % (WAYS - 1)} > fuse 15 A > 2 m 10 AWG > u{at}.B+")
        lines.append(f"  - u{at}.GND > 40 cm 10 AWG > gnd.G{at // WAYS}")
    return "\n".join([*lines, *across]) + "\n"


def solved(path: Path) -> Supply:
    """The supply of a job file; raises where it has none, or where the file doesn't read."""
    wiring = prove(path, mends=False).wiring
    made = supply(wiring) if wiring is not None else None
    if made is None or made.collapsed:
        raise ValueError(f"{path} has no supply to solve")
    return made


def against_the_loader(rounds: int, loads: int = LOADS) -> list[Result]:
    """One result for the tree, one for the mesh; the job is read and laid out outside of what is timed."""
    results = []
    with tempfile.TemporaryDirectory() as folder:
        for what, text, target in (("tree", tree_text(loads), 1.0), ("mesh", mesh_text(loads), 3.0)):
            path = Path(folder) / f"{what}.yaml"
            path.write_text(text, encoding="utf-8")
            solved(path)
            wiring = prove(path, mends=False).wiring
            assert wiring is not None

            def run(wiring: Wiring = wiring) -> object:
                wiring.answers.clear()
                return supply(wiring)

            floor, subject = alternate(lambda p=path: load(p), run, rounds)  # type: ignore[misc]
            name = f"supply, {loads} loads, {what} / C loader"
            results.append(Result(name, floor * 1e3, subject * 1e3, "ms", target))
    assert "numpy" not in sys.modules or "pytest" in sys.modules
    return results
