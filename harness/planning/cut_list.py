"""Every piece of cable to cut from a reel, before anything is laid: as measured, for corners, for slack."""

from __future__ import annotations

import math
from typing import NamedTuple

from harness.graph.cable import posts
from harness.graph.grounding import is_body
from harness.graph.runs import Cable, cables
from harness.graph.shop import figure
from harness.graph.wiring import Wiring
from harness.units import WireSize

ALLOWANCE = 0.2  # a retailer's guide: what is added to a measured length


class CutPiece(NamedTuple):
    """One piece: of which run, between which ends, and its lengths in metres; `wires` 2 where it is a pair.

    `start` and `end` are contacts, or empty at a fuse in the run, whose value is then in `start_a` or `end_a` (None:
    not recorded). `measured_m` is None where nobody wrote it; then nothing can be cut. `slack_m` is for both ends
    together. Nothing is added where length is a danger or a fault itself; `as_measured` says why.
    """

    run: str
    start: str
    start_a: float | None
    end: str
    end_a: float | None
    size: WireSize | None
    metal: str
    wires: int
    measured_m: float | None
    allowance_m: float
    slack_m: float
    as_measured: str  # before its fuse | ground, or empty

    @property
    def cut_m(self) -> float | None:
        return None if self.measured_m is None else self.measured_m + self.allowance_m + self.slack_m

    @property
    def whole_cm_m(self) -> float | None:
        """To the next whole centimetre upwards, as it is cut: nobody cuts finer, and never shorter."""
        return None if self.cut_m is None else math.ceil(self.cut_m * 100 * (1 - 1e-9)) / 100


class MadeUp(NamedTuple):
    """Signal cable or fibre of a run, bought by the piece and not cut: at least so long; None where not written."""

    run: str
    start: str
    end: str
    kind: str  # rca | fibre
    least_m: float | None


class CutList(NamedTuple):
    """What is cut, in the order of the runs, and what is only laid."""

    pieces: tuple[CutPiece, ...]
    made_up: tuple[MadeUp, ...]


def cut_list(wiring: Wiring) -> CutList:
    """All pieces of the runs that the plan lays."""
    slack_m = 2 * figure(wiring, "slack").value
    pieces: list[CutPiece] = []
    made_up: list[MadeUp] = []
    for cable in cables(wiring.job):
        for at, segment in enumerate(cable.segments):
            if segment.kind in ("rca", "fibre"):
                run = cable.wires[0]
                made_up.append(MadeUp(cable.name, run.start, run.end, segment.kind, segment.length_m))
            elif segment.kind == "wire":
                pieces.append(_piece(wiring, cable, at, slack_m))
    return CutList(tuple(pieces), tuple(made_up))


def _piece(wiring: Wiring, cable: Cable, at: int, slack_m: float) -> CutPiece:
    segment = cable.segments[at]
    start, start_a = _end(cable, at, -1)
    end, end_a = _end(cable, at, 1)
    why = _as_measured(wiring, start, end)
    more_m = 0.0 if why or segment.length_m is None else segment.length_m * ALLOWANCE
    return CutPiece(
        cable.name, start, start_a, end, end_a, segment.size, segment.metal, len(cable.wires), segment.length_m,
        more_m, 0.0 if why else slack_m, why,
    )  # fmt: skip


def _as_measured(wiring: Wiring, *ends: str) -> str:
    """Cable before the first fuse is what nothing protects, and a ground cable loses by every inch."""
    for end in filter(None, ends):
        if is_body(wiring, end):
            return "ground"
        if end in posts(wiring):
            return "before its fuse"
    return ""


def _end(cable: Cable, at: int, step: int) -> tuple[str, float | None]:
    """What a piece ends at: a contact, or the fuse (its value) that lies next to it in the run.

    Where another cable follows without a fuse, its own two ends are a joint in the run: the point's name is given.
    """
    beside = at + step
    segment = cable.segments[at]
    if 0 <= beside < len(cable.segments) and cable.segments[beside].kind == "fuse":
        return "", cable.segments[beside].fuse_a
    return (segment.a if step < 0 else segment.b), None
