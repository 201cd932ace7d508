"""How a load is told: what hangs on an output, where it was joined, what else the same speakers could make."""

from __future__ import annotations

from harness.electrical.rewiring import allowed_wirings
from harness.graph.conductor import Conductor
from harness.graph.kept import kept
from harness.graph.loads import Load, coil_of, counted
from harness.graph.signal import Receiver
from harness.graph.walk import place_to_change
from harness.graph.wiring import Wiring
from harness.model.contact import printed
from harness.place import Place

# What rounding of a capacitor and two ends of a band may make; not a tolerance of the rating.
_ROUNDING = 1e-6


def takes(rated_ohm: float, least_ohm: float) -> bool:
    """Whether what is rated for so many ohms takes a load of so many: no less than that."""
    return least_ohm >= rated_ohm * (1 - _ROUNDING)


def ohms(value: float) -> str:
    """`2 ohm`, `0.5 ohm`, `2.67 ohm`."""
    return f"{value:.3g} ohm"


def speakers_words(load: Load) -> str:
    """`SUB`, `FL and FL-TW`, `SUB (2 coils)`."""
    counted: dict[str, int] = {}
    for arrival in load.arrivals:
        counted[arrival.speaker] = counted.get(arrival.speaker, 0) + 1
    return " and ".join(printed(name) + (f" ({many} coils)" if many > 1 else "") for name, many in counted.items())


def receiver_of(wiring: Wiring, name: str) -> Receiver:
    """The speaker or coil of an arrival."""
    return _receivers(wiring)[name]


@kept
def _receivers(wiring: Wiring) -> dict[str, Receiver]:
    return {each.name: each for each in wiring.signals.receivers}


def place_of(wiring: Wiring, load: Load) -> Place:
    """Where the last of the speakers was joined to the output; the output's own line where nobody joined anything."""
    blamed: Conductor | None = None
    for arrival in load.arrivals:
        hops = wiring.planned.path(load.driver.plus, receiver_of(wiring, arrival.name).plus)
        blamed = wiring.blame(hops) or blamed
    return place_to_change(wiring, blamed) if blamed is not None else load.driver.port.place


def way_of(wiring: Wiring, load: Load) -> tuple[str, ...]:
    """From the output to its farthest speaker."""
    ways = [
        wiring.way_in_words(load.driver.plus, wiring.planned.path(load.driver.plus, receiver.plus))
        for receiver in (receiver_of(wiring, arrival.name) for arrival in load.arrivals)
    ]
    return max(ways, key=len, default=())


def about_of(wiring: Wiring, load: Load) -> tuple[str, ...]:
    """The contacts concerned: the output's and the speakers'."""
    receivers = [receiver_of(wiring, arrival.name) for arrival in load.arrivals]
    return (load.driver.plus, load.driver.minus, *(end for each in receivers for end in (each.plus, each.minus)))


def legal(wiring: Wiring, load: Load, least_ohm: float) -> str:
    """What the same speakers could be wired to on this output: `2 ohm (2 strings of 2 in series) or 8 ohm (…)`.

    Empty where they are unlike, or where no wiring is high enough.
    """
    coils: list[float] = []
    for name in dict.fromkeys(arrival.speaker for arrival in load.arrivals):
        speaker = wiring.job.parts.speakers[name]
        each = counted(speaker)
        coils += [each.coil_ohm] * each.coils if each.coil_ohm else [coil_of(speaker).ohm or 0.0]
    if not coils or len(set(coils)) > 1:
        return ""
    return " or ".join(
        f"{ohms(each.ohm)} ({each.words})" for each in allowed_wirings(len(coils), coils[0], least_ohm)[:2]
    )
