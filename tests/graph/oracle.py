"""A second reading of a job's text, to set beside the tool's: what meets what, what is left open, which leads hang.

It shares nothing with the package under test: no import from it, no graph library, only YAML's plain loader
and a union-find. It reads the job file's page of rules, and it assumes, of what that page leaves to the car:

- a signed channel on a plug's car side goes to the speaker of that name, if there is one, unless a `found`
  chain names that cavity or that speaker's terminal; GND goes to the body unless a chain names it; a plug with a
  unit on its car side has no wiring of that kind;
- a cavity is its unit's terminal of that function; that, and what is joined inside a unit, goes with the unit
  when it is removed;
- `grounded` ports have their − on the unit's GND; a fuse conducts; a relay's contacts don't;
- a plug is opened by any loom end in it, on both sides at once; one cavity is parted by a cut or a pulled terminal;
- a pulled or moved terminal takes everything on that pin along; a lead with a name of its own that is depinned
  leaves its pin where it is;
- a lead is a wire with a free end: beside a wire that goes through on the same pin it is a branch, and hangs like
  any other unless it is joined, capped or depinned;
- looms, joints and runs are not in the car as found.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from tests.graph.text_names import Names, Pair, words

WIRE = re.compile(r"[0-9.]+ (in|ft|mm|cm|m) .*|fuse .*")


class Meeting:
    """Union-find by halving paths."""

    def __init__(self) -> None:
        self.above: dict[str, str] = {}

    def add(self, name: str) -> None:
        self.above.setdefault(name, name)

    def top(self, name: str) -> str:
        while self.above[name] != name:
            self.above[name] = self.above[self.above[name]]
            name = self.above[name]
        return name

    def join(self, a: str, b: str) -> None:
        self.add(a)
        self.add(b)
        self.above[self.top(a)] = self.top(b)

    def sets(self) -> set[frozenset[str]]:
        made: dict[str, set[str]] = defaultdict(set)
        for name in self.above:
            made[self.top(name)].add(name)
        return {frozenset(each) for each in made.values()}


@dataclass
class Answer:
    """What the text says of one state or of the plan: all names are the contacts' names."""

    nets: set[frozenset[str]]
    contacts: set[str]
    open_cavities: set[tuple[str, str]] = field(default_factory=set)
    one_ended: set[tuple[str, str]] = field(default_factory=set)
    loose_leads: set[str] = field(default_factory=set)


class Reading(Names):
    """What the text of one job says: in either state of the car."""

    # -- what meets what -------------------------------------------------------------------------------

    def said(self, heading: str) -> set[str]:
        return {c for word in words(self.top.get(heading)) for group in self.groups(word) for c in group}

    def chain(self, text: str, laid: bool) -> Iterator[tuple[str, str]]:
        """The meetings of one chain, without the points between a fuse and its wires."""
        before: Pair = ()
        for step in (" ".join(each.split()) for each in text.split(">")):
            if WIRE.fullmatch(step):
                continue
            turn = step.endswith(" reversed")
            row = step.removesuffix(" reversed").split()
            plug, _, rest = row[0].partition(".")
            if plug in self.section("inline") and rest.partition(".")[0] not in ("unit", "car"):
                near = tuple(f"{plug}.unit.{cavity}" for cavity in rest.split("/"))
                here, after = [near], tuple(f"{plug}.car.{cavity}" for cavity in rest.split("/"))
            else:
                here = [group for word in row for group in self.groups(word)]
                after = here[0]
            for group in here[1:]:
                yield from zip(here[0], group, strict=True)
            if before:
                yield from zip(before, here[0][::-1] if turn else here[0], strict=True)
            before = after

    def chains(self, heading: str) -> list[tuple[str, str]]:
        return [meet for text in self.top.get(heading) or () for meet in self.chain(text, heading == "runs")]

    def joints(self) -> Iterator[tuple[str, str]]:
        for heading, table in self.section("joints").items():
            if heading.split()[0] == "mate":
                continue
            for key, value in table.items():
                if isinstance(value, dict):
                    value = value["to"]
                left = self.groups(key)
                for target in value if isinstance(value, list) else [value]:
                    turn = target.endswith(" reversed")
                    right = self.groups(target.removesuffix(" reversed"))
                    for one, other in zip(left, right, strict=True):
                        yield from zip(one, other[::-1] if turn else other, strict=True)

    def mates(self) -> Iterator[tuple[str, str, str, str]]:
        """(loom, end, plug, half)."""
        for heading, table in self.section("joints").items():
            if heading.split()[0] != "mate":
                continue
            for key, value in table.items():
                loom, _, end = key.partition(".")
                plug, _, half = value.partition(".")
                for each in [end] if end else self.section("looms")[loom]["ends"]:
                    yield loom, each, plug, half or each

    def plugged(self) -> Iterator[tuple[str, str]]:
        depinned = self.said("depinned")
        moved = {self.groups(k)[0][0]: v.rpartition(".")[2] for k, v in self.section("moved").items()}
        for loom, end, plug, half in self.mates():
            for at, cavity in self.pins[loom]:
                pin = f"{loom}.{at}.{cavity}"
                there = moved.get(pin, cavity)
                if at == end and pin not in depinned and there in self.cavities[plug]:
                    yield pin, f"{plug}.{half}.{there}"

    def loom_wires(self) -> Iterator[tuple[str, str]]:
        depinned = self.said("depinned")
        for loom, table in self.section("looms").items():
            for unit_pin, car_pin in self.throughs(table):
                yield f"{loom}.unit.{unit_pin}", f"{loom}.car.{car_pin}"
        for lead, pin in self.leads.items():
            if lead in self.own and pin and lead not in depinned:
                yield pin, lead

    def inside(self, removed: set[str]) -> Iterator[tuple[str, str]]:
        for plug, table in self.section("plugs").items():
            for half in ("unit", "car"):
                unit = table.get(half)
                for cavity, function in self.cavities[plug].items() if unit and unit not in removed else ():
                    if function not in ("empty", "unknown"):
                        yield f"{plug}.{half}.{cavity}", f"{unit}.{function}"
        for unit, table in self.section("units").items():
            if unit in removed:
                continue
            for bond in table.get("bonds") or ():
                first, *others = bond.split()
                yield from ((f"{unit}.{first}", f"{unit}.{other}") for other in others)
            if table["kind"] == "fuse block":
                yield from ((f"{unit}.in", f"{unit}.{n + 1}") for n in range(int(table["ways"])))
            for terminal, signal in self.terminals[unit].items():
                if "grounded" in signal.split() and terminal.endswith("-"):
                    yield f"{unit}.{terminal}", f"{unit}.GND"

    def car_wiring(self) -> Iterator[tuple[str, str]]:
        chained = {contact for meet in self.chains("found") for contact in meet}
        for plug, table in self.section("plugs").items():
            for cavity, function in self.cavities[plug].items() if not table.get("car") else ():
                here, speaker = f"{plug}.car.{cavity}", f"spk.{function}"
                if here in chained:
                    continue
                if function in ("GND", "31"):
                    yield here, "chassis"
                elif speaker in self.contacts and speaker not in chained:
                    yield here, speaker

    def parted(self) -> set[tuple[str, str]]:
        opened = {plug for _, _, plug, _ in self.mates()}
        made = {(plug, cavity) for plug in opened for cavity in self.cavities[plug]}
        for contact in self.said("cut") | self.said("depinned"):
            owner, *_, cavity = contact.split(".")
            if owner in self.cavities:
                made.add((owner, cavity))
        return made

    def _car(self, removed: set[str], parted: set[tuple[str, str]]) -> Meeting:
        meeting = Meeting()
        for contact in self.contacts:
            meeting.add(contact)
        for plug, rows in self.cavities.items():
            for cavity in rows:
                if (plug, cavity) not in parted:
                    meeting.join(f"{plug}.unit.{cavity}", f"{plug}.car.{cavity}")
        bodies = [("chassis", "battery.-"), *(("chassis", f"gnd.{name}") for name in self.section("grounds"))]
        for a, b in [*self.inside(removed), *self.car_wiring(), *self.chains("found"), *bodies]:
            meeting.join(a, b)
        return meeting

    def as_found(self) -> Answer:
        meeting = self._car(set(), set())
        return Answer(meeting.sets(), set(meeting.above))

    def as_planned(self) -> Answer:
        parted = self.parted()
        meeting = self._car(set(words(self.top.get("removed"))), parted)
        laid = [*self.joints(), *self.chains("runs")]
        wires, plugged = list(self.loom_wires()), list(self.plugged())
        for a, b in [*laid, *wires, *plugged]:
            meeting.join(a, b)
        answer = Answer(meeting.sets(), set(meeting.above))
        hand = {contact for meet in laid for contact in meet}
        beyond = _neighbours(wires)
        meets = _neighbours(plugged)
        capped, depinned = self.said("capped"), self.said("depinned")
        for plug, cavity in parted:
            halves = {f"{plug}.unit.{cavity}", f"{plug}.car.{cavity}"}
            if self.cavities[plug][cavity] == "empty" or halves & depinned:
                continue
            on = sum(self._leads_on(half, hand, beyond, meets) for half in halves)
            if on == 1:
                answer.one_ended.add((plug, cavity))
            elif on == 0 and not halves & capped:
                answer.open_cavities.add((plug, cavity))
        answer.loose_leads = set(self.leads) - hand - capped - depinned
        return answer

    @staticmethod
    def _leads_on(half: str, hand: set[str], beyond: dict[str, set[str]], meets: dict[str, set[str]]) -> bool:
        """Whether something that we made goes on from this half of a cavity."""
        if half in hand:
            return True
        seen = set(meets[half])
        row = list(seen)
        for here in row:
            if here in hand or meets[here] - {half} - seen:
                return True
            row += beyond[here] - seen
            seen |= beyond[here]
        return False


def _neighbours(meetings: Iterable[tuple[str, str]]) -> dict[str, set[str]]:
    made: dict[str, set[str]] = defaultdict(set)
    for a, b in meetings:
        made[a].add(b)
        made[b].add(a)
    return made
