"""Grounds, feeds and fuses of 150 random supplies, against floods over plain tables of contacts and conductors.

No outside source: the rules are those that the module's own pages say in words; what follows from them is worked out
here from the tables that the job's text was written from, contact by contact.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable
from functools import cache, cached_property

import numpy as np
import pytest

from harness.graph import cable, feeding, fitted, fused_ground, grounding, live, meeting
from harness.graph.supply import feed_terminals, supply
from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles
from tests.graph.random_supply import SIZES, Line, RandomSupply

JOBS, BATCH = 240, 60
CAR_BRINGS = {"radio", "factory amplifier", "control unit", "cluster"}
WANT_FEED = {"processor", "amplifier", "processor amplifier", "interface"}
LET_PASS = {"relay", "fuse block", "battery", "diode", "switch"}
FEED_A_PLUG = {"fuse block", "battery", "relay", "switch", "control unit"}


class Look:
    """The second look at one random supply."""

    def __init__(self, job: RandomSupply) -> None:
        self.job, self.units, self.sits = job, job.units, job.sits
        self.leaving: dict[str, list[Line]] = defaultdict(list)
        for line in job.lines:
            self.leaving[line.a].append(line)
            self.leaving[line.b].append(line)
        self.names = [*job.contacts(), "chassis"]

    def owner(self, name: str) -> str:
        return name.partition(".")[0]

    def flood(
        self, start: str, passes: Callable[[Line], bool], wall: Callable[[str], bool] = lambda _: False
    ) -> set[str]:
        seen, row = {start}, [start]
        for here in row:
            if here != start and wall(here):
                continue
            for line in self.leaving[here]:
                other = line.other(here)
                if other not in seen and passes(line):
                    seen.add(other)
                    row.append(other)
        return seen

    # -- single contacts ---------------------------------------------------------------------------------------

    @cached_property
    def seated(self) -> set[str]:
        fed = {plug for plug, rows in self.job.plugs.items() if {"B+", "GND"} & set(rows.values())}
        return {unit for (plug, _), unit in self.sits.items() if plug in fed}

    def is_body(self, name: str) -> bool:
        owner, last = self.owner(name), self.job.last(name)
        if name in ("chassis", "battery.-") or owner == "gnd":
            return True
        if owner in self.units:
            unit = self.units[owner]
            if last == "-":
                return unit.kind == "battery"
            return last == "GND" and not unit.gone and (unit.kind in CAR_BRINGS or owner in self.seated)
        half = name.split(".")[1]
        return owner in self.job.plugs and last == "GND" and (owner, half) not in self.sits

    def is_port(self, name: str) -> bool:
        owner = self.owner(name)
        return owner in self.units and not self.units[owner].gone and self.job.kind(name) == "port"

    def is_ground(self, name: str) -> bool:
        battery = self.owner(name) in self.units and self.units[self.owner(name)].kind == "battery"
        return self.job.kind(name) == "ground" or (battery and name.endswith(".-"))

    def signal(self, line: Line) -> bool:
        ends = (line.a, line.b)
        carries = line.kind in ("joint", "run", "inside") and any(self.is_port(end) for end in ends)
        return carries and not any(self.is_body(end) for end in ends)

    def is_feed(self, name: str) -> bool:
        owner = self.owner(name)
        if owner in self.units:
            kind = self.units[owner].kind
            if kind in ("battery", "relay"):
                return name.endswith(".+")
        return self.job.kind(name) in ("battery", "switched")

    def is_live(self, name: str) -> bool:
        owner, last = self.owner(name), self.job.last(name)
        if name == "battery.+":
            return True
        if owner in self.units:
            unit = self.units[owner]
            return not unit.gone and (last in unit.gives or last in ("out1+", "out1-"))
        if owner not in self.job.plugs:
            return False
        seat = self.sits.get((owner, name.split(".")[1]))
        unit = self.units[seat] if seat else None
        if unit is not None and unit.gone:
            return False
        if last in ("B+", "ACC", "ILL"):
            return unit is None or unit.kind in FEED_A_PLUG
        if last in ("AMP-ON", "AERIAL"):
            if unit is not None:
                return unit.kind == "radio" or last in unit.gives
            if name.split(".")[1] == "unit":
                return True
            across = self.units.get(self.sits.get((owner, "unit"), ""))
            return across is not None and across.kind != "radio" and last not in across.gives
        return False

    # -- nets and feeds ----------------------------------------------------------------------------------------

    @cached_property
    def grounded(self) -> set[str]:
        made: set[str] = set()
        for name in self.names:
            if self.is_ground(name) and not self.is_port(name) and name not in made:
                made |= self.flood(name, lambda line: True)
        return made

    @property
    def posts(self) -> list[str]:
        more = [f"{name}.+" for name, unit in self.units.items() if unit.kind == "battery" and not unit.gone]
        return ["battery.+", *more]

    def is_fed(self, name: str) -> bool:
        seen, row = set(), [name]
        for here in row:
            net = self.flood(here, lambda line: True) - seen
            seen |= net
            if any(each in self.posts or self.is_live(each) for each in net):
                return True
            for each in net:
                owner, last = self.owner(each), self.job.last(each)
                unit = self.units.get(owner)
                if unit is None or unit.gone:
                    continue
                inside: Collection[str] = ()
                if unit.kind == "relay" and last in ("30", "87", "87a"):
                    inside = ("30", "87", "87a")
                elif unit.kind in ("diode", "switch") and last != "GND":
                    inside = [terminal for terminal in unit.terminals if terminal != "GND"]
                row += [f"{owner}.{other}" for other in inside if f"{owner}.{other}" not in seen]
        return False

    @cached_property
    def fuses(self) -> dict[Line, float | None]:
        made = {line: line.fuse_a for line in self.job.lines if line.kind == "fuse"}
        for line in self.job.lines:
            behind = [each for each in self.leaving[line.b] if each != line]
            first = [each for each in behind if each.kind == "fuse" and each.a == line.b]
            if line.kind == "way" and behind and not first:
                made[line] = None
        return made

    @cached_property
    def through(self) -> dict[str, float]:
        """Until nothing grows: what the fuses let through to each contact, by the best way."""
        made = {post: math.inf for post in self.posts if post not in self.grounded}
        grew = True
        while grew:
            grew = False
            for here, most in list(made.items()):
                steps = [
                    (line.other(here), self.fuses.get(line) or math.inf)
                    for line in self.leaving[here]
                    if line.kind not in ("body", "inside")
                ]
                owner, last = self.owner(here), here.rpartition(".")[2]
                unit = self.units.get(owner)
                if unit is not None and unit.kind == "relay" and not unit.gone and last in ("30", "87"):
                    steps.append((f"{owner}.{'87' if last == '30' else '30'}", math.inf))
                for other, limit in steps:
                    if other not in self.grounded and min(most, limit) > made.get(other, 0.0):
                        made[other] = min(most, limit)
                        grew = True
        return made

    def terminals(self, unit: str, *functions: str) -> list[str]:
        return [f"{unit}.{t}" for t in self.units[unit].terminals if t in functions]

    @property
    def ours(self) -> list[str]:
        return [
            name
            for name, unit in self.units.items()
            if unit.kind not in CAR_BRINGS | LET_PASS
            and not unit.gone
            and name not in self.seated
            and (unit.kind in WANT_FEED or bool(unit.draws) or unit.woken)
        ]

    # -- grounds -----------------------------------------------------------------------------------------------

    def ground_flood(self, start: str, signals: bool = False, without: Iterable[Line] = ()) -> set[str]:
        left_out = set(without)
        passes = lambda line: line not in left_out and (signals or not self.signal(line))  # noqa: E731
        return self.flood(start, passes, self.is_body)

    def is_ground_terminal(self, name: str) -> bool:
        return self.owner(name) in self.units and (self.job.kind(name) == "ground" or self.is_body(name))


@cache
def looked(seed: int) -> tuple[Look, Wiring]:
    job, troubles = RandomSupply(seed), Troubles()
    made = read_job_text(job.text, "supply.yaml", troubles)
    assert made is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Look(job), Wiring(made)


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
def test_the_live_outputs(start: int) -> None:
    all_agree(outputs, start)
