"""What lies before the first fuse: loads that no fuse stands before, fuses too far from the source."""

from __future__ import annotations

from typing import NamedTuple

from harness.finding import Unchecked
from harness.graph.cable import Stretch, posts, stretches
from harness.graph.fitted import takes_feed
from harness.graph.kept import kept
from harness.graph.shop import figure
from harness.graph.wiring import Wiring
from harness.model.job import Segment

_EXACT = 1 + 1e-9


class Bare(NamedTuple):
    """A way from a source to a load with no fuse on it; `path` ends at the load."""

    source: str
    load: str
    cables: tuple[Segment, ...]
    path: tuple[str, ...]


def _load_on(wiring: Wiring, stretch: Stretch) -> int | None:
    """Where on its path a stretch reaches what takes current, or a further battery; its end where there is no fuse;
    None where it reaches none.
    """
    sources = posts(wiring)
    for at, name in enumerate(stretch.path):
        if takes_feed(wiring, name) or (at and name in sources):
            return at
    if stretch.fused:
        return None
    return max(at for at, name in enumerate(stretch.path) if wiring.contact(name).kind != "run")


@kept
def bare_ways(wiring: Wiring) -> list[Bare]:
    """Every way to a load that no fuse stands before, also where a fuse follows behind the load."""
    made: dict[tuple[str, str], Bare] = {}
    for stretch in stretches(wiring):
        at = _load_on(wiring, stretch)
        if at is None or not stretch.cables:
            continue
        path = stretch.path[: at + 1]
        on_it = set(path)
        cables = tuple(each for each in stretch.cables if each.a in on_it and each.b in on_it) or stretch.cables
        if (path[-1], stretch.source) not in made:  # between two batteries once
            made.setdefault((stretch.source, path[-1]), Bare(stretch.source, path[-1], cables, path))
    return list(made.values())


@kept
def fused_stretches(wiring: Wiring) -> list[Stretch]:
    """The ways from a source to a first fuse with no load before it."""
    return [each for each in stretches(wiring) if each.fused and _load_on(wiring, each) is None]


def least_m(stretch: Stretch) -> float:
    """The length of a stretch, as far as it is written."""
    return sum(cable.length_m or 0.0 for cable in stretch.cables)


@kept
def far_fuses(wiring: Wiring) -> list[tuple[Stretch, float]]:
    """Stretches longer than the shop's figure `fuse distance`, with what of their length is written, in metres."""
    limit = figure(wiring, "fuse distance")
    measured = [(each, least_m(each)) for each in fused_stretches(wiring)]
    return [(each, length_m) for each, length_m in measured if length_m > limit.value * _EXACT]


def unmeasured(wiring: Wiring) -> list[Unchecked]:
    """Stretches to a first fuse that can't be judged, as a piece has no length; for the list of what wasn't checked."""
    if not wiring.job.has_runs:
        return []
    told = {each.path for each, _ in far_fuses(wiring)}
    made = [
        Unchecked(
            f"the fuse distance from {wiring.words(each.source)} to {wiring.words(_named(wiring, each))}",
            "a piece of the cable has no length written",
        )
        for each in fused_stretches(wiring)
        if each.length_m is None and each.path not in told
    ]
    return list(dict.fromkeys(made))


def _named(wiring: Wiring, stretch: Stretch) -> str:
    """The last contact before the fuse that has a name of its own."""
    return next(name for name in reversed(stretch.path) if wiring.contact(name).kind != "run")


def sizes_words(cables: tuple[Segment, ...]) -> str:
    """`4 AWG and 8 AWG`, the sizes as written, each once."""
    sizes = dict.fromkeys(
        f"{cable.size.text} CCA" if cable.metal == "CCA" else cable.size.text for cable in cables if cable.size
    )
    return " and ".join(sizes)
