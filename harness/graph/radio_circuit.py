"""Units of ours that a wire of the car feeds, and the fuse of that circuit."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.cable import let_through
from harness.graph.draws import Draw, draws
from harness.graph.feeding import is_live
from harness.graph.wiring import Wiring

# Common practice, no source: a radio's circuit has 10 to 15 A.
RADIO_CIRCUIT_A = 15.0


class CarFed(NamedTuple):
    """A unit's feed terminal, the cavity it is fed from, what it draws and the circuit's fuse in amperes.

    `recorded` where the job's `found` shows that fuse.
    """

    feed: str
    cavity: str
    draw: Draw
    rating_a: float
    recorded: bool


def fed_from_car(wiring: Wiring) -> Iterator[CarFed]:
    """In the order of the job. A unit on the plug itself is the car's own and no fault.

    What a unit draws comes by its constant feed where that is joined: a switched one beside it only wakes it.
    """
    for unit in wiring.job.parts.units.values():
        if unit.kind in ("radio", "factory amplifier", "control unit", "cluster"):
            continue
        # asked first: what follows walks the supply
        joined = [name for terminal in unit.terminals if wiring.planned.conductors(name := f"{unit.name}.{terminal}")]
        constant, switched = (
            [name for name in joined if wiring.contact(name).function.kind == kind] for kind in ("battery", "switched")
        )
        for feed in constant or switched:
            draw = draws(wiring).get(unit.name)
            if draw is None:
                break
            through = let_through(wiring)
            rating = through.get(feed)
            cavity = wiring.planned.nearest(feed, lambda name: _car_feed(wiring, name))
            if not cavity or wiring.job.parts.plugs[wiring.contact(cavity).owner].unit == unit.name:
                continue
            if rating is not None and cavity not in through:
                continue
            recorded = rating is not None and not math.isinf(rating)
            if rating is not None and not recorded:
                continue  # our own cable reaches it as well: what lies before it is told there
            yield CarFed(feed, cavity, draw, rating if recorded and rating is not None else RADIO_CIRCUIT_A, recorded)
            break


def _car_feed(wiring: Wiring, name: str) -> bool:
    contact = wiring.contact(name)
    return contact.kind == "plug" and contact.function.kind in ("battery", "switched") and is_live(wiring, name)
