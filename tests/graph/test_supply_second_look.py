"""Grounds, feeds and fuses of 240 random supplies, against floods over plain tables of contacts and conductors.

No outside source: the rules are those that the module's own pages say in words; what follows from them is worked out
here from the tables that the job's text was written from, contact by contact.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable

import numpy as np
import pytest

from harness.graph import cable, feeding, fitted, fused_ground, grounding, live, meeting
from harness.graph.supply import feed_terminals, supply
from harness.graph.turn_on_test import turn_on_test
from harness.graph.wiring import Wiring
from tests.graph.random_supply import SIZES, Line
from tests.graph.supply_look import LET_PASS, Look, looked

JOBS, BATCH = 240, 60


def single_contacts(look: Look, wiring: Wiring) -> None:
    for name in look.names:
        assert grounding.is_body(wiring, name) is look.is_body(name), f"{name} body"
        assert grounding.is_ground_terminal(wiring, name) is look.is_ground_terminal(name), f"{name} ground terminal"
        assert meeting.is_ground(wiring, name) is (look.is_ground(name) and not look.is_port(name)), f"{name} ground"
        assert meeting.is_feed(wiring, wiring.contact(name)) is look.is_feed(name), f"{name} feed"
        assert feeding.is_live(wiring, name) is look.is_live(name), f"{name} live"
        assert fitted.is_fed(wiring, name) is look.is_fed(name), f"{name} fed"
        takes = look.owner(name) in look.units and look.job.kind(name) == "battery"
        takes = takes and look.units[look.owner(name)].kind not in LET_PASS
        assert fitted.takes_feed(wiring, name) is takes, f"{name} takes current"
        source = feeding.live_source(wiring, name)
        alive = {each for each in look.flood(name, lambda line: True) if look.is_live(each)}
        assert (source in alive) if alive else not source, f"{name} live by {source}"
    assert set(meeting.feeds(wiring)) == {name for name in look.names if look.is_feed(name)}
    assert [unit.name for unit in fitted.ours(wiring)] == look.ours


def grounds(look: Look, wiring: Wiring) -> None:
    made, told = grounding.grounds(wiring), []
    for name, unit in look.units.items():
        for terminal in look.terminals(name, "GND") if not unit.gone else ():
            reached = look.ground_flood(terminal)
            points = {each for each in reached if look.is_body(each)} - {terminal}
            assert set(made[terminal].points) == points, terminal
            others = {each for each in reached if look.is_ground_terminal(each) and not look.is_body(each)}
            others = set() if look.is_body(terminal) else others  # what hangs on it is grounded at it
            assert set(made[terminal].terminals) == others | {terminal}, terminal
            assert bool(grounding.by_signal(wiring, terminal)) is (
                not look.is_body(terminal)
                and any(look.is_body(each) for each in look.ground_flood(terminal, signals=True))
            ), terminal
    for name in look.ours:
        own = look.terminals(name, "GND")
        grounded = any(look.is_body(each) for one in own for each in look.ground_flood(one) - {one})
        if own and not grounded and not any(look.is_feed(each) for each in look.flood(own[0], lambda line: True)):
            told.append(own[0])
    found = grounding.ungrounded(wiring)
    assert {each for ground in found for each in ground.terminals} >= set(told)
    assert all(set(ground.terminals) & set(told) for ground in found)
    assert len(set(found)) == len(found)
    made_behind = sorted(str(each.fuse.rating_a) for each in fused_ground.fused_grounds(wiring))
    assert made_behind == sorted(str(line.fuse_a) for line in look.job.lines if behind_ground(look, line))


def behind_ground(look: Look, line: Line) -> bool:
    """Whether it is a fuse with a ground terminal on one side and the body on the other, and no feed on either."""
    if line not in look.fuses or line.a not in look.grounded:
        return False
    sides = [look.ground_flood(end, without=[line]) for end in (line.a, line.b)]
    if any(look.is_feed(name) for side in sides for name in side):
        return False
    has = [(any(map(look.is_ground_terminal, side)), any(map(look.is_body, side))) for side in sides]
    return (has[0][0] and has[1][1]) or (has[1][0] and has[0][1])


def feeds(look: Look, wiring: Wiring) -> None:
    through = {n: a for n, a in cable.let_through(wiring).items() if not n.startswith("run.")}
    assert through == {name: a for name, a in look.through.items() if not name.startswith("run.")}
    assert cable.posts(wiring) == tuple(look.posts)
    ratings = sorted(str(fuse.rating_a) for fuse in cable.fuses(wiring).values())
    assert ratings == sorted(str(rating) for rating in look.fuses.values())
    runs = [line for line in look.job.lines if line.kind == "run" and {line.a, line.b} <= look.through.keys()]
    assert [(each.segment.size.text, each.through_a) for each in cable.cables(wiring) if each.segment.size] == [
        (line.size, max(look.through[line.a], look.through[line.b])) for line in runs
    ]
    fed = {}
    for name, unit in look.units.items():
        feed = [each for each in look.terminals(name, "B+", "ACC") if each in look.through]
        if unit.gone or unit.kind in LET_PASS or not feed:
            continue
        own = look.terminals(name, "GND")
        fed[name] = (feed[0], next((each for each in own if each in look.grounded), (own or ["chassis"])[0]))
    assert feed_terminals(wiring) == fed
    if look.through.keys() <= set(look.posts):
        assert supply(wiring) is None


def first_cables(look: Look, wiring: Wiring) -> None:
    """The thickest wire that comes first from a unit's feed."""
    for name in look.units:
        starts = look.terminals(name, "B+", "ACC")
        bare, sized, row = set(starts), {}, list(starts)
        for here in row:
            for line in look.leaving[here]:
                other = line.other(here)
                size = line.size if line.kind in ("run", "fuse") else look.job.sizes.get(other, "")
                if line.kind == "inside" or look.is_body(other) or other in bare:
                    continue
                if size:
                    sized[other] = max(SIZES[size], sized.get(other, 0.0))
                else:
                    bare.add(other)
                    row.append(other)
        if bare & sized.keys():
            continue  # a wire with a size beside one without: either may be called the first
        thickest = grounding.feed_cable(wiring, starts)
        if not sized:
            assert thickest is None, name
        elif not doubled(look, sized):
            assert thickest is not None, name
            assert thickest.area_mm2 == pytest.approx(max(sized.values()), rel=1e-3), name


def doubled(look: Look, sized: Collection[str]) -> bool:
    """Whether two conductors lead to one of these: which comes first is no question of sizes."""
    return any(len(look.leaving[name]) > len({line.other(name) for line in look.leaving[name]}) for name in sized)


def ways_to_ground(look: Look, wiring: Wiring) -> None:
    """For each way from a ground terminal to the body the thinnest wire of the thickest way; nothing without a size."""
    for name, unit in look.units.items():
        for terminal in look.terminals(name, "GND") if not unit.gone else ():
            if look.is_body(terminal):
                continue
            wanted: list[float] | None = []
            for line in look.leaving[terminal]:
                other = line.other(terminal)
                if look.signal(line) or wanted is None:
                    continue
                apart, with_it = _thickest(look, other, terminal), _thickest(look, other, "")
                if apart is None:
                    continue
                if apart != with_it or with_it == _thickest(look, terminal, ""):
                    break  # by way of the terminal itself it is as thick: which way is meant is open
                thinnest = min(_area(look, line, other), apart)
                wanted = [*wanted, thinnest] if math.isfinite(thinnest) else None
            else:
                made = [each.area_mm2 for each in grounding.ground_cables(wiring, terminal)]
                assert sorted(made) == pytest.approx(sorted(wanted or ()), rel=1e-3), terminal


def _area(look: Look, line: Line, other: str) -> float:
    """Of a wire, or of the cavity that it reaches; infinite where no size is written."""
    size = line.size if line.kind in ("run", "fuse") else look.job.sizes.get(other, "")
    return SIZES[size] if size else math.inf


def _thickest(look: Look, start: str, without: str) -> float | None:
    """The thinnest wire of the thickest way from a contact to the body that isn't by way of another."""
    if look.is_body(start):
        return math.inf
    bodies = [name for name in look.names if look.is_body(name) and name != without]
    for least in (math.inf, *sorted(SIZES.values(), reverse=True)):
        seen, row = {without, *bodies}, list(bodies)
        for here in row:
            for line in look.leaving[here]:
                other = line.other(here)
                if other not in seen and not look.signal(line) and _area(look, line, other) >= least:
                    seen.add(other)
                    row.append(other)
        if start in seen and start != without:
            return least
    return None


# Ohm per metre at 20 °C: the table of the American sizes as in tests/electrical; IEC 60228 class 5 for the metric ones.
OHM_PER_M = {"4 AWG": 0.81515e-3, "8 AWG": 2.0609e-3, "16 AWG": 13.17e-3, "10 mm2": 1.91e-3, "1.5 mm2": 13.3e-3}
SUPPLY_V = 13.8


def currents(look: Look, wiring: Wiring) -> None:
    """Volts lost on the way there and back, by Kirchhoff's law on the tables: `supply` counts a fuse as a microohm."""
    solved = supply(wiring)
    loads = {name: pair for name, pair in feed_terminals(wiring).items() if look.units[name].draws}
    if solved is None or solved.collapsed or not loads:
        return
    wires = [
        (line.a, line.b, 1e-6 if line.kind == "fuse" else line.length_m * OHM_PER_M.get(line.size, 0.0))
        for line in look.job.lines
        if line.kind != "inside" and not look.signal(line)
    ]
    wires = [(a, b, 1e-6 if line_is_way(look, a, b) else ohm) for a, b, ohm in wires]
    relays = [name for name, unit in look.units.items() if unit.kind == "relay" and not unit.gone]
    wires += [(f"{name}.30", f"{name}.87", 1e-6) for name in relays]
    node = _merged(look, [(a, b) for a, b, ohm in wires if not ohm])
    held = {node(post): SUPPLY_V for post in look.posts if post in look.through} | {node("chassis"): 0.0}
    lines = [(node(a), node(b), ohm) for a, b, ohm in wires if ohm and node(a) != node(b)]
    alive = _connected(held, lines)
    pull = {name: (node(a), node(b)) for name, (a, b) in loads.items() if {node(a), node(b)} <= alive}
    volts = _volts(held, [each for each in lines if each[0] in alive], pull, look)
    made = {each.unit: each for each in solved.fed}
    assert made.keys() == pull.keys()
    for name, (there, back) in pull.items():
        drops = (made[name].feed_drop_v, made[name].ground_drop_v)
        assert drops == pytest.approx((SUPPLY_V - volts[there], volts[back]), rel=3e-3, abs=1e-7), name


def line_is_way(look: Look, a: str, b: str) -> bool:
    return any((line.a, line.b) == (a, b) and line.kind == "way" for line in look.leaving[a])


def _merged(look: Look, joined: Iterable[tuple[str, str]]) -> Callable[[str], str]:
    above: dict[str, str] = {}

    def top(name: str) -> str:
        while above.setdefault(name, name) != name:
            name = above[name]
        return name

    for a, b in joined:
        above[top(a)] = top(b)
    return top


def _connected(held: Iterable[str], lines: Iterable[tuple[str, str, float]]) -> set[str]:
    seen, lines = set(held), list(lines)
    for _ in lines:
        for a, b, _ in lines:
            if a in seen or b in seen:
                seen |= {a, b}
    return seen


def _volts(
    held: dict[str, float], lines: list[tuple[str, str, float]], pull: dict[str, tuple[str, str]], look: Look
) -> dict[str, float]:
    """The nodes' volts; what draws a power is asked for its current again until that stays."""
    names = sorted({name for a, b, _ in lines for name in (a, b)} | held.keys())
    at = {name: number for number, name in enumerate(names)}
    volts = dict.fromkeys(names, 0.0)
    volts |= {name: SUPPLY_V for name in names if name not in held} | held
    for _ in range(6):
        table, right = np.zeros((len(names), len(names))), np.zeros(len(names))
        for a, b, ohm in lines:
            for here, there in ((a, b), (b, a)):
                table[at[here], at[here]] += 1 / ohm
                table[at[here], at[there]] -= 1 / ohm
        for unit, (there, back) in pull.items():
            draws = look.units[unit].draws
            watts = 100 / max(1.0, volts[there] - volts[back])
            current_a = watts if draws.endswith("W") else float(draws.split()[1])
            right[at[there]] -= current_a
            right[at[back]] += current_a
        for name, value in held.items():
            table[at[name]] = 0.0
            table[at[name], at[name]], right[at[name]] = 1.0, value
        volts = dict(zip(names, np.linalg.solve(table, right), strict=True))
    return volts


def outputs(look: Look, wiring: Wiring) -> None:
    """+ of every output that stays, and − where the unit doesn't tie it to ground."""
    wanted = []
    for name, unit in look.units.items():
        if "out1" in unit.ports and not unit.gone:
            wanted += [f"{name}.out1+"] + ([f"{name}.out1-"] if unit.ports["out1"] != "grounded" else [])
    assert [terminal for terminal, _ in live.live_terminals(wiring)] == wanted


REST, ACC_ON, TRIGGER_ON, OFF = "12.4 to 12.7 V", "10 to 14 V", "10 to 12 V", "below 1 V"  # as the sheet prints them
FEEDS = ("B+", "ACC", "ILL", "AMP-ON", "AERIAL")


def turn_on(look: Look, wiring: Wiring) -> None:
    """What to read at each unit that the plan adds a wire to, key by key, by what feeds it."""
    made = turn_on_test(wiring)
    touched = {end for line in look.job.lines if line.kind in ("joint", "run", "fuse") for end in (line.a, line.b)}
    read = {(each.unit, each.terminal): each for each in made.readings}
    wanted: list[tuple[str, str]] = []
    for name, unit in look.units.items():
        written = unit.terminals[: unit.own]
        if unit.gone or unit.kind == "radio" or not any(f"{name}.{terminal}" in touched for terminal in written):
            continue
        for terminal in written:
            here = f"{name}.{terminal}"
            if terminal == "GND":
                wanted.append((name, terminal))
                grounded = "chassis" in look.flood(here, lambda line: True)
                assert read[name, terminal].expected == (("0 V" if grounded else "write",) * 4), here
            elif terminal in ("B+", "30") or (terminal == "rem" and unit.woken):
                wanted.append((name, terminal))
                expected = volts_expected(look, name, here)
                if expected is not None:
                    assert read[name, terminal].expected == expected, here
                    fed = bool(read[name, terminal].source)
                    assert fed is (expected != ("write",) * 4), here
    assert list(read) == wanted
    ours = {name for name, _ in wanted}
    assert {name for name, _ in made.without_lead} <= ours
    leadless = {name for name, unit in look.units.items() if unit.wake in ("signal", "bus") and not unit.gone}
    for name in leadless & ours:
        assert (name, look.units[name].wake) in made.without_lead


def volts_expected(look: Look, unit: str, here: str) -> tuple[str, ...] | None:
    """By the feed that ranks first and is nearest; None where two of one kind are equally near."""
    distance, row = {here: 0}, [here]
    for each in row:
        for line in look.leaving[each]:
            other = line.other(each)
            if other not in distance:
                distance[other] = distance[each] + 1
                row.append(other)
    if "battery.+" in distance:
        return (REST, REST, REST, "write")
    found: list[tuple[int, int, str]] = []
    for name, steps in distance.items():
        owner, last = look.owner(name), look.job.last(name)
        if owner == "battery":
            found.append((0, steps, name))
        elif owner in look.job.plugs and last in FEEDS:
            found.append((1 if ".unit." in name else 3, steps, name))
        elif owner in look.units and owner != unit and last in look.units[owner].gives:
            found.append((2, steps, name))
    found.sort()
    if not found:
        return ("write",) * 4
    if len(found) > 1 and found[0][:2] == found[1][:2]:
        return None
    source, last = found[0][2], look.job.last(found[0][2])
    if last == "B+":
        return (REST, REST, REST, "write")
    if last == "ACC":
        return (OFF, ACC_ON, ACC_ON, "write")
    if last in ("AMP-ON", "rem-out") and look.owner(source) in look.job.plugs:
        return (OFF, "write", TRIGGER_ON, "write")
    return (OFF, "write", "write", "write")


def all_agree(agrees: Callable[[Look, Wiring], None], start: int) -> None:
    for seed in range(start, start + BATCH):
        try:
            agrees(*looked(seed))
        except AssertionError as wrong:
            raise AssertionError(f"seed {seed}: {wrong}") from wrong


STARTS = pytest.mark.parametrize("start", range(0, JOBS, BATCH))


@STARTS
def test_what_each_contact_is(start: int) -> None:
    all_agree(single_contacts, start)


@STARTS
def test_what_each_ground_reaches(start: int) -> None:
    all_agree(grounds, start)


@STARTS
def test_what_each_feed_reaches(start: int) -> None:
    all_agree(feeds, start)


@STARTS
def test_the_cables_that_come_first(start: int) -> None:
    all_agree(first_cables, start)


@STARTS
def test_the_cables_to_ground(start: int) -> None:
    all_agree(ways_to_ground, start)


@STARTS
def test_the_currents(start: int) -> None:
    all_agree(currents, start)


@STARTS
def test_what_to_read_at_turn_on(start: int) -> None:
    all_agree(turn_on, start)


@STARTS
def test_the_live_outputs(start: int) -> None:
    all_agree(outputs, start)
