"""The second look at one random supply: floods over plain tables of contacts and conductors, and no graph."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable
from functools import cache, cached_property

from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles
from tests.graph.random_supply import Line, RandomSupply

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
def looked(seed: int, turn_on: bool = False) -> tuple[Look, Wiring]:
    job, troubles = RandomSupply(seed, turn_on), Troubles()
    made = read_job_text(job.text, "supply.yaml", troubles)
    assert made is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Look(job), Wiring(made)
