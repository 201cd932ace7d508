"""By hand: `python -m tests.benchmarks`, or `python -m tests.benchmarks reading --rounds 9`.

Ratios only; the floor and the subject alternate in one loop. Exit code 1 where a ratio is above its target.
"""

from __future__ import annotations

import argparse
import sys

from tests.benchmarks import locating, memory, paper, processes, reading, repinning, supply, weighing
from tests.benchmarks.ratio import Result, table

NAMES = ("start", "reading", "supply", "locate", "weigh", "repin", "mends", "memory", "packet")


def results_of(name: str, rounds: int, largest: int) -> list[Result]:
    sizes = [size for size in reading.SIZES if size <= largest] or [largest]
    if name == "start":
        return processes.start_up(rounds)
    if name == "reading":
        made = reading.sizes(rounds, sizes)
        return [*made, reading.growth(made)]
    if name == "supply":
        return supply.against_the_loader(rounds)
    if name == "locate":
        return locating.against_check(rounds, min(largest, 10_000))
    if name == "weigh":
        return weighing.against_milp(rounds)
    if name == "repin":
        return repinning.against_milp(small=largest < 1_000)
    if name == "mends":
        return [each._replace(target=None) for each in reading.sizes(max(1, rounds // 3), sizes[:3], mends=True)]
    if name == "memory":
        return memory.sizes(sizes[-2:])
    return paper.packet(max(1, rounds // 2))


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    parser.add_argument("names", nargs="*", choices=[*NAMES, []], help="which; none: all")
    parser.add_argument("--rounds", type=int, default=9)
    parser.add_argument("--largest", type=int, default=reading.SIZES[-1], help="contacts of the largest job")
    chosen = parser.parse_args()
    made: list[Result] = []
    for name in chosen.names or NAMES:
        print(f"… {name}", file=sys.stderr)
        made += results_of(name, chosen.rounds, chosen.largest)
    print(table(made))
    return 1 if any(each.verdict == "TOO MUCH" for each in made) else 0


if __name__ == "__main__":
    sys.exit(main())
