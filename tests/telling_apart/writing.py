"""Small maps by chance, as text: cavities left out, colours left out, empty ones, pairs turned and exchanged."""

from __future__ import annotations

import random
from pathlib import Path

COLOURS = ("WH", "GY", "GN/YE", "BK", "WH/BK")


def some_map(dice: random.Random, cavities: int) -> str:
    """One map of up to `cavities` cavities, often nearly the same as the next one."""
    rows = []
    free = list(range(1, cavities + 1))
    for channel in dice.sample(("FL", "FR", "RL"), dice.randint(0, min(2, cavities // 2))):
        pair = [free.pop(0), free.pop(0)]
        if dice.random() < 0.3:
            pair.reverse()
        colours = f" {dice.choice(COLOURS[:2])} {dice.choice(COLOURS[:2])}" if dice.random() < 0.6 else ""
        if dice.random() < 0.85:
            rows.append(f"{pair[0]}/{pair[1]}: {channel}{colours}")
    for cavity in free:
        said = dice.choice(["", "empty", "GND", "SWC", "unknown", "B+", "SWC"])
        colour = f" {dice.choice(COLOURS)}" if said not in ("", "empty", "unknown") and dice.random() < 0.7 else ""
        if said:
            rows.append(f"{cavity}: {said}{colour}")
    about = [f"    housing: {dice.choice(['18-way', '20-way'])}"] if dice.random() < 0.3 else []
    about += [f"    ways: {dice.choice([18, 20])}"] if dice.random() < 0.3 else []
    body = "{" + ", ".join(rows) + "}"
    return "\n".join(["ringout: 1", "plugs:", "  radio:", *about, f"    cavities: {body}", ""])


def some_maps(dice: random.Random, folder: Path, count: int, cavities: int) -> list[Path]:
    """So many maps as files of a folder, in the order of their names."""
    paths = []
    for number in range(count):
        path = folder / f"m{number:03d}.yaml"
        path.write_text(some_map(dice, cavities), encoding="utf-8")
        paths.append(path)
    return paths
