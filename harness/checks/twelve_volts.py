"""What 12 V must not reach, and how it is told: shared by the checks on feeds and on turn-on wires."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from harness.checks.registry import Fault
from harness.finding import Spot
from harness.graph.kept import kept
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


def meets(wiring: Wiring, giving: Sequence[str], signals: dict[str, str]) -> Iterator[Fault]:
    """One fault for each net that holds a contact that gives 12 V and one that must not get it.

    `giving` are all the contacts that give it, in the order of the job.
    """
    looked: set[str] = set()
    with_signal: dict[int, bool] = {}
    gives = frozenset(giving).__contains__
    for name in giving:
        number = wiring.planned.net_number(name)
        if number not in with_signal:
            with_signal[number] = any(_is_signal(wiring, n, signals) for n in wiring.planned.nets[number])
        if name in looked or not with_signal[number]:
            continue
        # what meets 12 V only by way of ground is the fault of who joined the two: told there
        net, _ = reach(wiring, name, lambda other: is_ground(wiring, other))
        looked.update(net)
        wanted = {n for n in net if _is_signal(wiring, n, signals) and not gives(n)}
        if not wanted:
            continue
        givers = [other for other in net if gives(other)]
        start = next((n for n in givers if wiring.contact(n).kind in ("plug", "battery")), givers[0])
        far = wiring.planned.nearest(start, wanted.__contains__)
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


_BY_SWITCH = ("trigger", "aerial", "light")


def gives_turn_on(wiring: Wiring, name: str) -> bool:
    """A cavity or lead that carries 12 V by switch, or the terminal of a unit that gives it; not the one it wakes."""
    contact = wiring.contact(name)
    if contact.kind == "unit":
        gives = wiring.job.parts.units[contact.owner].gives_a
        return contact.last in gives and contact.function.kind in (*_BY_SWITCH, "terminal")
    return contact.function.kind in _BY_SWITCH  # a cavity or a lead: nothing else has such a function


@kept
def turn_on_wires(wiring: Wiring) -> list[str]:
    """Every contact that carries or gives 12 V by switch, in the order of the file."""
    return [name for name in wiring.contacts_for(*_BY_SWITCH, "terminal") if gives_turn_on(wiring, name)]
