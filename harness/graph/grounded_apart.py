"""Units that share a signal by a grounded input and have their grounds at different points."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.fitted import terminals_for
from harness.graph.grounding import grounds
from harness.graph.joined import made_at
from harness.graph.signal import Feed
from harness.graph.wiring import Wiring
from harness.place import Place

_PARTED = ("differential", "transformer", "digital")


class Apart(NamedTuple):
    """`giver` sends a signal to `taker`; each with its ground terminal and its points. `start` and `end` are the −
    of the output and of the input; `place` is where the taker's ground is written.
    """

    giver: str
    giving_ground: str
    giver_points: tuple[str, ...]
    taker: str
    taking_ground: str
    taker_points: tuple[str, ...]
    start: str
    end: str
    place: Place


def grounded_apart(wiring: Wiring) -> Iterator[Apart]:
    """One for each two units, in the order of the outputs."""
    told: set[tuple[str, str]] = set()
    for feed in wiring.signals.feeds:
        taking = feed.receiver.port
        if taking is None or (feed.driver.port.unit, taking.unit) in told or not _shares_ground(feed):
            continue
        told.add((feed.driver.port.unit, taking.unit))
        giver, taker = (_points(wiring, name) for name in (feed.driver.port.unit, taking.unit))
        if not giver or not taker or set(giver[1]) & set(taker[1]):
            continue
        wires = made_at(wiring, taker[0])
        yield Apart(
            feed.driver.port.unit, *giver, taking.unit, *taker, feed.driver.minus,
            feed.leaving,
            wires[0].place if wires else wiring.contact(taker[0]).place,
        )  # fmt: skip


def _shares_ground(feed: Feed) -> bool:
    """Whether the − of the signal is ground at both ends, as far as the file says."""
    taking, giving = (port.signal.form for port in (feed.receiver.port, feed.driver.port) if port is not None)
    return taking not in _PARTED and giving not in (*_PARTED, "btl")


def _points(wiring: Wiring, unit: str) -> tuple[str, tuple[str, ...]] | None:
    """A unit's ground terminal and the named points that it reaches; None where it reaches none."""
    for terminal in terminals_for(wiring, unit, "ground"):
        known = grounds(wiring).get(terminal)
        points = tuple(p for p in known.points if wiring.contact(p).kind in ("ground", "battery")) if known else ()
        if points:
            return terminal, points
    return None
