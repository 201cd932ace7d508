"""What wakes each unit of 320 random jobs, and what hangs on each turn-on output, against plain tables.

No outside source: a relay's contact passes on what its coil's giver switches where its other contact is fed; a diode
passes from a to k; a unit's own output doesn't wake it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from harness.graph import turn_on_load, waking, woken
from harness.graph.waking import Giver
from harness.graph.wiring import Wiring
from tests.graph.supply_look import Look, looked

JOBS, BATCH = 320, 80
KIND = {"B+": "constant", "ACC": "switched", "AMP-ON": "trigger", "AERIAL": "aerial", "ILL": "light"}
SOUND = {"amplifier", "processor", "processor amplifier", "factory amplifier", "line converter"}
Key = tuple[str, str]  # whose it is, and which of its terminals


def net(look: Look, name: str) -> set[str]:
    return look.flood(name, lambda line: True)


def givers(look: Look, name: str) -> dict[Key, str]:
    """What gives 12 V on a contact's net -> of which kind; sound is none, and neither is its own unit's output."""
    made: dict[Key, str] = {}
    for each in net(look, name):
        owner, last = look.owner(each), look.job.last(each)
        if not look.is_live(each) or look.job.kind(each) == "port":
            continue
        if owner in look.job.plugs:
            seat = look.sits.get((owner, each.split(".")[1]), "")
            made.setdefault((seat, last), KIND[last])
        elif owner in look.units:
            radio = look.units[owner].kind == "radio"
            made[owner, last] = "trigger" if radio else "control"
        else:
            made["", last] = "constant"
    own = look.owner(name)
    return {key: kind for key, kind in made.items() if key[0] != own}


def coil(look: Look, relay: str) -> str:
    at = [f"{relay}.{last}" in look.grounded for last in ("85", "86")]
    return f"{relay}.85" if at == [False, True] else f"{relay}.86"


def staying(look: Look, *kinds: str) -> list[str]:
    return [name for name, unit in look.units.items() if unit.kind in kinds and not unit.gone]


def steps(look: Look, here: str) -> Iterator[str]:
    """Where to go on from: the diodes and relays that may bring 12 V onto a contact's net."""
    around = net(look, here)
    for name in staying(look, "diode"):
        if f"{name}.k" in around:
            yield f"{name}.a"
    for name in staying(look, "relay"):
        far = "30" if f"{name}.87" in around else "87"
        if {f"{name}.30", f"{name}.87"} & around and givers(look, f"{name}.{far}"):
            yield coil(look, name)


def sources(look: Look, name: str) -> dict[Key, str]:
    made, row, seen = dict(givers(look, name)), [name], net(look, name)
    for here in row:
        for other in steps(look, here):
            if other not in seen:
                seen |= net(look, other)
                made = {**givers(look, other), **made}
                row.append(other)
    return made


def wakes(look: Look) -> list[tuple[str, str, float | None]]:
    """(unit, terminal, amperes) of everything that wants 12 V."""
    made: list[tuple[str, str, float | None]] = []
    for name, unit in look.units.items():
        if unit.gone:
            continue
        if unit.kind == "relay":
            made.append((name, coil(look, name), None))
        elif unit.woken:
            made.append((name, f"{name}.rem", 0.02 if unit.wake.endswith("mA") else None))
    return made


def key_of(look: Look, giver: Giver) -> Key:
    return giver.unit, look.job.last(giver.contact)


def what_wakes(look: Look, wiring: Wiring) -> None:
    assert [(each.unit, each.contact, each.draws_a) for each in waking.wakes(wiring)] == wakes(look)
    told: list[tuple[Key, str]] = []
    edges: set[tuple[str, str]] = set()
    for unit, terminal, _ in wakes(look):
        wanted = sources(look, terminal)
        made = waking.sources(wiring, terminal)
        assert {key_of(look, giver): giver.kind for giver in made} == wanted, terminal
        near = {key_of(look, giver): giver.kind for giver in waking.givers(wiring, terminal)}
        assert near == givers(look, terminal), terminal
        edges |= {(key[0], unit) for key in wanted}
        ports, kind = look.units[unit].ports, look.units[unit].kind
        if kind != "relay" and (kind in SOUND or ports) and set(wanted.values()) == {"constant"}:
            told += [(key, unit) for key in wanted]
    made_so = [(key_of(look, giver), wake.unit) for giver, wake in woken.only_from(wiring, "constant")]
    assert set(made_so) == set(told)
    led = {unit for unit, _, _ in wakes(look)}
    edges |= {("", name) for name, unit in look.units.items() if not unit.gone and name not in led}
    assert set(waking.who_wakes_whom(wiring).edges) == edges


def what_is_alone(look: Look, wiring: Wiring) -> None:
    for name in look.names:
        if look.owner(name) in look.units:
            alone = {look.owner(each) for each in net(look, name)} == {look.owner(name)}
            assert waking.is_alone(wiring, name) is alone, name
    for name in staying(look, "relay"):
        used = any({look.owner(each) for each in net(look, f"{name}.{last}")} != {name} for last in ("30", "87"))
        assert waking.relay_in_use(wiring, name) is used


def what_hangs(look: Look, wiring: Wiring) -> None:
    """On each output whose limit is written: what wants 12 V in its net and behind diodes, but for its own unit."""
    wanted: dict[Key, tuple[set[str], float]] = {}
    for name, unit in look.units.items():
        if unit.gone or not unit.gives:
            continue
        row, seen, hanging = [f"{name}.rem-out"], net(look, f"{name}.rem-out"), set()
        for here in row:
            around = net(look, here)
            hanging |= {(own, amps) for own, terminal, amps in wakes(look) if terminal in around and own != name}
            for diode in staying(look, "diode"):
                if f"{diode}.a" in around and f"{diode}.k" not in seen:
                    seen |= net(look, f"{diode}.k")
                    row.append(f"{diode}.k")
        if hanging:
            wanted[name, "rem-out"] = {own for own, _ in hanging}, sum(amps or 0.0 for _, amps in hanging)
    made = {key_of(look, each.giver): each for each in turn_on_load.loaded(wiring)}
    assert made.keys() == wanted.keys()
    for key, (units, sum_a) in wanted.items():
        assert {wake.unit for wake in made[key].wakes} == units, key
        assert made[key].sum_a == pytest.approx(sum_a), key
        assert made[key].gives_a == 0.1
        most = max(wake.draws_a or 0.0 for wake in made[key].wakes)
        end = made[key].way.path[-1]
        assert any(wake.contact == end and (wake.draws_a or 0.0) == most for wake in made[key].wakes), key


def all_agree(agrees: Callable[[Look, Wiring], None], start: int) -> None:
    for seed in range(start, start + BATCH):
        try:
            agrees(*looked(seed, turn_on=True))
        except AssertionError as wrong:
            raise AssertionError(f"seed {seed}: {wrong}") from wrong


STARTS = pytest.mark.parametrize("start", range(0, JOBS, BATCH))


@STARTS
def test_what_wakes_each_unit(start: int) -> None:
    all_agree(what_wakes, start)


@STARTS
def test_what_is_alone(start: int) -> None:
    all_agree(what_is_alone, start)


@STARTS
def test_what_hangs_on_each_output(start: int) -> None:
    all_agree(what_hangs, start)
