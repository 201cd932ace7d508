"""What hangs on each turn-on output: terminals and coils in its net and behind diodes."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.waking import Giver, Wake, givers_of_net, wakes
from harness.graph.wiring import Wiring
from harness.graph.woken import Way, way


class Loaded(NamedTuple):
    """A turn-on output with what it can give and what hangs on it; currents that aren't written count as nothing.

    `way` goes from the output to what draws most.
    """

    giver: Giver
    gives_a: float
    wakes: tuple[Wake, ...]
    sum_a: float
    way: Way


def loaded(wiring: Wiring) -> list[Loaded]:
    """Every turn-on output whose limit is written and on which something else hangs, in the order of the job."""
    made: list[Loaded] = []
    for giver in outputs(wiring):
        if giver.gives_a is None:
            continue
        found = hanging(wiring, giver)
        if not found:
            continue
        most, through = max(found, key=lambda each: each[0].draws_a or 0.0)
        made.append(
            Loaded(
                giver,
                giver.gives_a,
                tuple(wake for wake, _ in found),
                sum(wake.draws_a or 0.0 for wake, _ in found),
                way(wiring, giver._replace(through=through), most.contact, own_joint=True),
            )
        )
    return made


def hanging(wiring: Wiring, giver: Giver) -> list[tuple[Wake, tuple[str, ...]]]:
    """What draws its current from one giver, each with the diodes between, from the woken unit back."""
    made: list[tuple[Wake, tuple[str, ...]]] = []
    by_net = _wakes_by_net(wiring)
    row: list[tuple[int, tuple[str, ...]]] = [(wiring.planned.net_number(giver.contact), ())]
    seen = {row[0][0]}
    for number, through in row:
        made += [(wake, through) for wake in by_net.get(number, ()) if wake.unit != giver.unit]
        for diode in _diodes_from(wiring).get(number, ()):
            behind = wiring.planned.net_number(f"{diode}.k")
            if behind not in seen:
                seen.add(behind)
                row.append((behind, (diode, *through)))
    return made


@kept
def _wakes_by_net(wiring: Wiring) -> dict[int, list[Wake]]:
    made: dict[int, list[Wake]] = {}
    for wake in wakes(wiring):
        made.setdefault(wiring.planned.net_number(wake.contact), []).append(wake)
    return made


@kept
def outputs(wiring: Wiring) -> tuple[Giver, ...]:
    """Every turn-on output of a unit of the plan, once: the cavity and the terminal behind it are one."""
    made: dict[tuple[str, str], Giver] = {}
    seen: set[int] = set()
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone:
            continue
        for terminal in unit.gives_a:
            contact = f"{unit.name}.{terminal}"
            if wiring.planned.net_number(contact) in seen:
                continue
            seen.add(wiring.planned.net_number(contact))
            for giver in givers_of_net(wiring, contact):
                if giver.unit:
                    made.setdefault((giver.unit, giver.contact), giver)
    return tuple(made.values())


@kept
def _diodes_from(wiring: Wiring) -> dict[int, list[str]]:
    """The diodes by the net of their `a`."""
    made: dict[int, list[str]] = {}
    for unit in wiring.job.parts.units.values():
        if unit.kind == "diode" and unit.name not in wiring.gone:
            made.setdefault(wiring.planned.net_number(f"{unit.name}.a"), []).append(unit.name)
    return made
