"""What 12 V must not reach, and how it is told: shared by the checks on feeds and on turn-on wires."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from harness.checks.registry import Fault
from harness.finding import Spot
from harness.graph.meeting import is_ground, meeting, place_of, reach
from harness.graph.wiring import INPUT, OUTPUT, SPEAKER, Wiring

SIGNALS = {
    OUTPUT: "an output that it drives against",
    INPUT: "a signal input",
    SPEAKER: "a speaker, whose coil burns",
    "audio": "a signal wire",
    "data": "a data wire, and the bus stops",
    "mic": "a microphone wire",
    "digital": "a digital audio wire",
}


def meets(wiring: Wiring, gives: Callable[[str], bool], signals: dict[str, str]) -> Iterator[Fault]:
    """One fault for each net that holds a contact that gives 12 V and one that must not get it."""
    looked: set[str] = set()
    for name in wiring.job.contacts:
        if name in looked or not gives(name) or not _any_signal(wiring, name, signals):
            continue
        # what meets 12 V only by way of ground is the fault of who joined the two: told there
        net, _ = reach(wiring, name, lambda other: is_ground(wiring, other))
        looked.update(net)
        wanted = {n for n in net if _is_signal(wiring, n, signals) and not gives(n)}
        if not wanted:
            continue
        givers = [other for other in net if gives(other)]
        start = next((n for n in givers if wiring.contact(n).kind in ("plug", "battery")), givers[0])
        far = next(other for other in wiring.planned.around(start) if other in wanted)
        met = meeting(wiring, start, far, gives)
        path = wiring.way_in_words(start, met.hops)
        through = f" through {wiring.words(met.at)}" if met.at != met.near else ""
        yield Fault(
            at=Spot(place_of(wiring, met.conductor, met.near), wiring.words(met.at)),
            message=f"{wiring.words(met.near)} is joined to {wiring.words(far)}{through}: "
            f"12 V on {signals[wiring.role(far)]}.",
            do=f"Part {wiring.words(met.at)} from {wiring.words(far)} before anything is powered.",
            about=tuple(dict.fromkeys((*path[path.index(met.near) :], *(n for n in net if n in wanted)))),
            path=path,
        )


def _is_signal(wiring: Wiring, name: str, signals: dict[str, str]) -> bool:
    return wiring.role(name) in signals and wiring.contact(name).kind != "run"


def _any_signal(wiring: Wiring, name: str, signals: dict[str, str]) -> bool:
    return any(_is_signal(wiring, other, signals) for other in wiring.planned.net(name))
