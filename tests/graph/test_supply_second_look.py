"""Grounds, feeds and fuses of 150 random supplies, against floods over plain tables of contacts and conductors.

No outside source: the rules are those that the module's own pages say in words; what follows from them is worked out
here from the tables that the job's text was written from, contact by contact.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable
from functools import cached_property

import pytest

from harness.graph import cable, feeding, fitted, fused_ground, grounding, live, meeting
from harness.graph.supply import feed_terminals, supply
from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles
from tests.graph.random_supply import SIZES, Line, RandomSupply

JOBS, BATCH = 240, 10
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
            and (unit.kind in WANT_FEED or unit.draws or unit.woken)
        ]

    # -- grounds -----------------------------------------------------------------------------------------------

    def ground_flood(self, start: str, signals: bool = False, without: Iterable[Line] = ()) -> set[str]:
        left_out = set(without)
        passes = lambda line: line not in left_out and (signals or not self.signal(line))  # noqa: E731
        return self.flood(start, passes, self.is_body)

    def is_ground_terminal(self, name: str) -> bool:
        return self.owner(name) in self.units and (self.job.kind(name) == "ground" or self.is_body(name))


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


def outputs(look: Look, wiring: Wiring) -> None:
    """+ of every output that stays, and − where the unit doesn't tie it to ground."""
    wanted = []
    for name, unit in look.units.items():
        if "out1" in unit.ports and not unit.gone:
            wanted += [f"{name}.out1+"] + ([f"{name}.out1-"] if unit.ports["out1"] != "grounded" else [])
    assert [terminal for terminal, _ in live.live_terminals(wiring)] == wanted


@pytest.mark.parametrize("start", range(0, JOBS, BATCH))
@pytest.mark.parametrize("agrees", [single_contacts, grounds, feeds, first_cables, outputs])
def test_a_second_look_agrees(agrees: Callable[[Look, Wiring], None], start: int) -> None:
    for seed in range(start, start + BATCH):
        try:
            agrees(*looked(seed))
        except AssertionError as wrong:
            raise AssertionError(f"seed {seed}: {wrong}") from wrong
