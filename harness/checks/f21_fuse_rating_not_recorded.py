"""F21."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.cable import Fuse
from harness.graph.unrated import unrated, way_to
from harness.graph.wiring import Wiring
from harness.place import Place


@check(
    "F21", Severity.STOP, "Fuse without its rating", source="common practice, no source", by_joints=False, needs="runs"
)
def fuse_rating_not_recorded(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a fuse in a run of ours, on a used way of a fuse block, or of the car before a run of ours,
    whose amperes are not written.

    Why it matters: a fuse of unknown size protects nothing that can be named. The cable behind it may be the fuse.

    Example: `battery.+ > 12 in 4 AWG > fuse unknown > 15 ft 4 AWG > amp.B+`.

    What to do: read the number on the fuse and write it: `fuse 60 A`, or `fuses: {1: 40 A}` at the block.

    Known limits: a way with a `fuse` right behind it in its chain has its fuse there. Ways that nothing hangs on are
    not asked.

    Source: common practice, no source.
    """
    if not wiring.job.has_runs:
        return
    by_line: dict[Place, list[Fuse]] = {}
    for fuse in unrated(wiring):
        by_line.setdefault(fuse.place, []).append(fuse)
    for place, fuses in by_line.items():
        first = fuses[0]
        path = way_to(wiring, first)
        named = [_named(wiring, fuse, way_to(wiring, fuse)) for fuse in fuses]
        many = len(fuses) > 1
        yield Fault(
            at=Spot(place, named[0]),
            message=f"{'The fuses' if many else 'The fuse'} at {' and '.join(dict.fromkeys(named))} "
            f"{'have' if many else 'has'} no rating: whether the cable behind is protected can't be told.",
            do="Read the number on it and write it, for instance `fuse 60 A`.",
            about=tuple(way_to(wiring, fuse)[-1] for fuse in fuses),
            path=path,
        )


def _named(wiring: Wiring, fuse: Fuse, path: tuple[str, ...]) -> str:
    """The contact at or before a fuse that has a name of its own; of a fuse block the way."""
    contact = wiring.contact(fuse.b)
    if contact.kind == "unit" and wiring.job.parts.units[contact.owner].kind == "fuse block":
        return wiring.words(fuse.b)
    before = path[-2::-1] or (fuse.a,)
    name = next((name for name in before if wiring.contact(name).kind != "run"), "")
    return wiring.words(name or wiring.planned.nearest(fuse.a, lambda other: wiring.contact(other).kind != "run"))
