"""A car with a fault in it, flooded contact by contact: what is heard, and what any test would answer.

Of the package under test it takes the reader only. It knows conductors, never pieces between two points: a fault takes
conductors out, turns or crosses them, or kills a thing; then everything is flooded anew. What it assumes of the car:

- a signal is there where + and − of an output that gives one are reached by wire; what is summed is thinner where a
  part is missing, and gone where all are;
- a unit works with 12 V from the battery's + (fuses conduct), its ground on the body, and its turn-on from a contact
  that gives 12 V; the shield of a grounded signal is as good a ground as another, but not for a measured drop;
- a loom's lead has two ends, the one in the plug is called `LEAD~pin`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from harness.read.job import read_job_text
from harness.read.troubles import Troubles

Ends = tuple[str, str]
PROTECTING = ("load too low", "faulty", "drops volts", "too hot")  # besides wires that touch


class Broken(NamedTuple):
    """A fault: conductors open, a pair turned round, two pairs exchanged; or the same of a thing that is no wire.

    `mode` is open, turned or crossed; or shorted (+ to −), body, touching, the unit protecting itself or not: an output
    that works into it is still, and with `unit protects` all that its unit drives. So it is with `load too low` (a
    speaker) and `faulty` (an output, a unit); `too hot` (a unit) and `drops volts` (a feed or ground) still all of it.
    """

    mode: str
    wires: frozenset[Ends] = frozenset()
    others: frozenset[Ends] = frozenset()  # the pair that the first is crossed with
    dead: tuple[str, str] | None = None  # (kind, name) of what is no wire
    instead: str = ""  # the output that it is exchanged with


def read(text: str) -> Any:
    """The job of a text. Raises where the text is refused."""
    troubles = Troubles()
    job = read_job_text(text, "plan.yaml", troubles)
    if job is None or troubles.refused:
        raise ValueError("the plan doesn't read")
    return job


class Car:
    """One job as a car: its conductors as planned, and the things in it."""

    def __init__(self, job: Any) -> None:
        self.job = job
        self.kind: dict[Ends, str] = {}
        self.owner: dict[Ends, str] = {}
        self.inside: set[str] = set()  # contacts that are one with a unit's terminal
        self._lay()
        self.outputs: dict[str, tuple[str, str, str, tuple[str, ...]]] = {}
        for unit in job.parts.units.values():
            routes = {route.output: route.inputs for route in unit.routes}
            for port in unit.ports.values():
                if port.way == "out":
                    ins = tuple(f"{unit.name}.{name}" for name in routes.get(port.name, ()))
                    self.outputs[f"{unit.name}.{port.name}"] = (
                        f"{unit.name}.{port.name}+",
                        f"{unit.name}.{port.name}-",
                        unit.name,
                        ins,
                    )
        self.whole = World(self, ())

    # -- conductors --------------------------------------------------------------------------------------

    def _add(self, a: str, b: str, kind: str, owner: str = "") -> None:
        self.kind[a, b] = kind
        self.owner[a, b] = owner

    def _lay(self) -> None:
        job = self.job
        opened = {mate.plug for mate in job.mates}
        parted = {tuple(name.split(".")[::2]) for name in job.cut}
        for plug in job.parts.plugs.values():
            for row in plug.rows:
                if plug.name not in opened and (plug.name, row.cavity) not in parted:
                    self._add(f"{plug.name}.unit.{row.cavity}", f"{plug.name}.car.{row.cavity}", "mated", plug.name)
                terminal = f"{plug.unit}.{row.function.name}"
                if plug.unit and terminal in job.contacts:
                    self._add(f"{plug.name}.unit.{row.cavity}", terminal, "inside")
                if row.function.kind == "ground" and not plug.inline:
                    self._add(f"{plug.name}.car.{row.cavity}", "chassis", "wire")
        for segment in job.segments:
            kind = "fuse" if segment.kind == "fuse" else "run" if segment.laid else "wire"
            self._add(segment.a, segment.b, kind)
        for unit in job.parts.units.values():
            for bond in unit.bonds:
                first, *others = (f"{unit.name}.{each}" for each in bond.terminals)
                for other in others:
                    self._add(first, other, "fuse" if bond.fuse else "bond", unit.name)
            for port in unit.ports.values():
                if port.signal.form == "grounded":
                    self._add(f"{unit.name}.{port.name}-", f"{unit.name}.GND", "bond")
        for loom in job.parts.looms.values():
            pins: dict[str, set[str]] = defaultdict(set)
            for through in loom.throughs:
                pins["unit"].add(through.unit_cavity)
                pins["car"].add(through.car_cavity)
                self._add(
                    f"{loom.name}.unit.{through.unit_cavity}~pin",
                    f"{loom.name}.car.{through.car_cavity}~pin",
                    "lead",
                    loom.name,
                )
            for lead in loom.leads:
                pins[lead.end].add(lead.cavity)
                self._add(lead.name + "~pin", lead.name, "lead", loom.name)
            for mate in job.mates:
                if mate.loom == loom.name:
                    for cavity in pins[mate.end]:
                        self._add(
                            f"{loom.name}.{mate.end}.{cavity}~pin",
                            f"{mate.plug}.{mate.half}.{cavity}",
                            "plug",
                            f"{loom.name}.{mate.end}",
                        )
        for joint in job.joints:
            for link in joint.links:
                self._add(link.a, link.b, "joint", joint.name)
        for point in job.parts.grounds.values():
            self._add(f"gnd.{point.name}", "chassis", "ground", point.name)
        self._add("battery.-", "chassis", "strap")

    def terminal(self, name: str) -> str:
        """The unit's terminal that a cavity is, or the contact itself."""
        return next((b for (a, b), kind in self.kind.items() if kind == "inside" and a == name), name)

    # -- what can break ----------------------------------------------------------------------------------

    def faults(self) -> Iterator[Broken]:
        """Everything that can break on some signal's way or supply, a conductor or a pair of them at a time."""
        pairs: dict[tuple[str, str, str], set[Ends]] = defaultdict(set)
        groups: dict[tuple[str, str], list[frozenset[Ends]]] = defaultdict(list)
        for ends, kind in self.kind.items():
            if kind in ("plug", "mated", "lead", "joint", "wire", "run"):
                pairs[kind, self.owner[ends], self._pair_key(ends)].add(ends)
            elif kind in ("fuse", "ground"):
                yield Broken("open", frozenset({ends}))
        for (kind, owner, _), wires in pairs.items():
            yield Broken("open", frozenset(wires))
            if len(wires) == 2 and kind != "ground":
                yield Broken("turned", frozenset(wires))
            if kind in ("plug", "mated"):
                groups[kind, owner].append(frozenset(wires))
        for name in self.outputs:
            yield Broken("open", dead=("output", name))
            yield Broken("turned", dead=("output", name))
        for unit in self.job.parts.units.values():
            if unit.kind != "fuse block":
                yield Broken("open", dead=("unit", unit.name))
            yield from (Broken("open", dead=("giver", f"{unit.name}.{terminal}")) for terminal in unit.gives_a)
        uses = [name for _, _, _, inputs in self.outputs.values() for name in inputs]
        for name in dict.fromkeys(name for name in uses if uses.count(name) > 1):
            yield Broken("open", dead=("input", name))
        for speaker in self.job.parts.speakers:
            yield Broken("open", dead=("speaker", speaker))
            yield Broken("turned", dead=("speaker", speaker))

    def wholes(self) -> Iterator[Broken]:
        """Plugs of more than one pair, not home: a loom's end, and plugs in the car's own wiring."""
        found: dict[tuple[str, str], set[Ends]] = defaultdict(set)
        for ends, kind in self.kind.items():
            owner = self.owner[ends]
            if kind == "plug" or (kind == "mated" and self.job.parts.plugs[owner].inline):
                found[kind, owner].add(ends)
        yield from (Broken("open", frozenset(wires)) for wires in found.values() if len(wires) > 2)

    def crossings(self) -> Iterator[Broken]:
        """Two joints of a place, two plugs' pairs, two leads of an end exchanged."""
        pairs: dict[tuple[str, str, str], set[Ends]] = defaultdict(set)
        for ends, kind in self.kind.items():
            if kind in ("plug", "lead", "joint"):
                pairs[kind, self.owner[ends], self._pair_key(ends)].add(ends)
        done = [(key, frozenset(wires)) for key, wires in pairs.items() if len(wires) == 2]
        for at, ((kind, owner, _), wires) in enumerate(done):
            for (other_kind, other_owner, _), others in done[at + 1 :]:
                if kind != other_kind or (kind == "plug" and owner != other_owner):
                    continue
                ends = {name.split(".")[1] for name, _ in (*wires, *others)} if kind in ("lead", "joint") else {""}
                if len(ends) == 1:
                    yield Broken("crossed", wires, others)
        for name, (_, _, unit, inputs) in self.outputs.items():
            for other, (_, _, other_unit, other_inputs) in self.outputs.items():
                if name < other and unit == other_unit and len(inputs) == len(other_inputs) < 2:
                    yield Broken("crossed", dead=("output", name), instead=other)

    def shorts(self) -> Iterator[Broken]:
        """Signal wires that touch: a pair's two, one the body, two pairs where two could have been exchanged."""
        pairs: dict[tuple[str, str, str], set[Ends]] = defaultdict(set)
        for ends, kind in self.kind.items():
            if kind in ("plug", "mated", "lead", "joint", "wire", "run"):
                pairs[kind, self.owner[ends], self._pair_key(ends)].add(ends)
        made = []
        for each in map(frozenset, pairs.values()):
            made += [Broken("shorted", each)] if len(each) == 2 else []
            made.append(Broken("body", each))
        made += [each._replace(mode="touching") for each in self.crossings() if each.wires and self._ends_there(each)]
        for fault in made:
            on = self.on_outputs(fault, self.whole)
            forms = {self.form(name) for name in on}
            if not on or ("grounded" in forms and fault.mode != "shorted") or (fault.others and len(on) < 2):
                continue
            yield fault
            if self._is_one_of_several(on):
                yield fault._replace(mode=f"{fault.mode}, unit protects")
        yield from self._without_touching()

    def _is_one_of_several(self, on: set[str]) -> bool:
        units = {self.outputs[name][2] for name in on if self.drives(name)}
        return any(
            sum(self.drives(name) and self.outputs[name][2] == unit for name in self.outputs) > 1 for unit in units
        )

    def _without_touching(self) -> Iterator[Broken]:
        """What else makes a unit protect itself: its load, itself, its volts, its heat."""
        sources = [unit.name for unit in self.job.parts.units.values() if unit.kind == "radio"]
        own = [name for name in self.outputs if self.drives(name) and self.outputs[name][2] not in sources]
        made = [Broken("load too low", dead=("speaker", name)) for name in self.job.parts.speakers]
        made += [Broken("faulty", dead=("output", name)) for name in own]
        for fault in made:
            on = self.protecting(fault, self.whole)
            wider = fault._replace(mode=f"{fault.mode}, unit protects")
            if on:
                yield fault
                if self.protecting(wider, self.whole) != on:
                    yield wider
        for unit in dict.fromkeys(self.outputs[name][2] for name in own):
            yield Broken("faulty", dead=("unit", unit))
            yield Broken("too hot", dead=("unit", unit))
        for fault in self.faults():
            sags = fault._replace(mode="drops volts")
            if fault.mode == "open" and fault.wires and self.protecting(sags, self.whole):
                yield sags

    def starved(self, wires: frozenset[Ends]) -> set[str]:
        """The units whose feed or ground goes through these conductors alone; a signal's shield is no ground for it."""
        shields = [ends for ends in self.kind if any(self.is_port(end) for end in ends)]
        fed = World(self, (), without=wires)
        grounded = World(self, (), without=[*wires, *shields])
        return {
            unit.name for unit in self.job.parts.units.values()
            if unit.kind not in ("radio", "fuse block")
            and not (fed.joined(f"{unit.name}.B+", "battery.+") and grounded.joined(f"{unit.name}.GND", "chassis"))
        }  # fmt: skip

    def is_port(self, name: str) -> bool:
        contact = self.job.contacts.get(name)
        return contact is not None and contact.kind == "unit" and name[-1:] in "+-" and contact.last != "B+"

    def protecting(self, fault: Broken, world: World) -> set[str]:
        """The outputs that are still by a load, by themselves, by volts or heat."""
        plain, _, whole = fault.mode.partition(", ")
        kind, name = fault.dead or ("", "")
        if plain == "load too low":
            on = {
                each for each, (plus, _, _, _) in self.outputs.items()
                if self.drives(each) and (world.joined(f"spk.{name}+", plus) or world.joined(f"spk.{name}-", plus))
            }  # fmt: skip
        elif kind == "output":
            on = {name}
        else:
            units = self.starved(fault.wires) if fault.wires else {name}
            return {each for each in self.outputs if self.drives(each) and self.outputs[each][2] in units}
        if whole:
            units = {self.outputs[each][2] for each in on}
            on = {each for each in self.outputs if self.drives(each) and self.outputs[each][2] in units}
        return on

    def _ends_there(self, fault: Broken) -> bool:
        return {self.kind[ends] for ends in fault.wires} <= {"plug", "joint"}

    def form(self, output: str) -> str:
        unit, _, port = output.partition(".")
        return str(self.job.parts.units[unit].ports[port].signal.form)

    def drives(self, output: str) -> bool:
        """Whether an output is made for a speaker."""
        unit, _, port = output.partition(".")
        signal = self.job.parts.units[unit].ports[port].signal
        return signal.power_w is not None or signal.form == "btl"

    def on_outputs(self, fault: Broken, world: World) -> set[str]:
        """The outputs whose wires a short is on; the shield of a grounded one is on the body anyhow."""
        ends = {end for wires in (fault.wires, fault.others) for wire in wires for end in wire}
        return {
            name
            for name, (plus, minus, _, _) in self.outputs.items()
            if any(world.joined(end, plus) for end in ends)
            or (self.form(name) != "grounded" and any(world.joined(end, minus) for end in ends))
        }

    def _pair_key(self, ends: Ends) -> str:
        """What the two wires of a pair share: their contacts' names, cavities taken as the pair they are in."""
        return "|".join(self._pair_name(end) for end in ends)

    def _pair_name(self, name: str) -> str:
        plain = name.removesuffix("~pin")
        contact = self.job.contacts.get(plain)
        if contact is None:
            return name
        if contact.kind in ("plug", "loom") and contact.function.channel:
            return f"{contact.owner} {contact.half} {contact.function.base} {name.endswith('~pin')}"
        if contact.kind == "plug" and self.job.parts.plugs[contact.owner].inline:
            number = int(contact.last)
            return f"{contact.owner} {contact.half} {(number + 1) // 2}"
        if contact.function.kind in ("port",) or contact.kind == "speaker":
            return plain.rstrip("+-")
        if plain[-1:] in "+-" and contact.kind == "unit" and contact.function.kind == "audio":
            return plain.rstrip("+-")
        return name


class World:
    """A car with some faults in it."""

    def __init__(
        self, car: Car, faults: Iterable[Broken], clips: Iterable[Ends] = (), without: Iterable[Ends] = ()
    ) -> None:
        self.car, self.faults = car, tuple(faults)
        self.dead = {fault.dead for fault in self.faults if fault.dead and fault.mode == "open"}
        self.turned = {fault.dead for fault in self.faults if fault.dead and fault.mode == "turned"}
        self.swapped: dict[str, str] = {}  # port -> the port whose leads are on it
        gone = set(without)
        more: list[Ends] = list(clips)
        shorts = [fault for fault in self.faults if fault.mode.partition(",")[0] in ("shorted", "body", "touching")]
        others = [fault for fault in self.faults if fault.mode.partition(",")[0] in PROTECTING]
        for fault in self.faults:
            if fault in shorts or fault in others:
                continue
            gone |= fault.wires | fault.others
            if fault.dead:
                if fault.mode == "crossed":
                    self.swapped |= {fault.dead[1]: fault.instead, fault.instead: fault.dead[1]}
            elif fault.mode == "turned":
                one, other = _plus_first(car, fault.wires)
                more += [(one[0], other[1]), (other[0], one[1])]
            elif fault.mode == "crossed":
                mine, theirs = _plus_first(car, fault.wires), _plus_first(car, fault.others)
                for a, b in zip(mine, theirs, strict=True):
                    more += [(a[0], b[1]), (b[0], a[1])]
        self.edges = [ends for ends in car.kind if ends not in gone] + more
        self.net = _nets(self.edges)
        self._made: dict[str, dict[str, int]] = {}
        self.still: set[str] = set()  # outputs that a short keeps silent
        off = frozenset(without)  # a short in what was taken off has gone with it
        for fault in (each._replace(wires=each.wires - off, others=each.others - off) for each in shorts):
            on = car.on_outputs(fault, self)
            both = [car.on_outputs(fault._replace(wires=each, others=frozenset()), self) for each in fault[1:3]]
            if fault.mode.startswith("touching") and not all(both):
                continue  # the pair that it touches is on no output any more
            if "," in fault.mode:
                units = {car.outputs[name][2] for name in on}
                on = {name for name in car.outputs if car.drives(name) and car.outputs[name][2] in units}
            self.still |= on
        for fault in others:
            self.still |= car.protecting(fault, self)

    def joined(self, a: str, b: str) -> bool:
        return a == b or (a in self.net and self.net.get(a) == self.net.get(b))

    # -- units -------------------------------------------------------------------------------------------

    def on(self, name: str, seen: frozenset[str] = frozenset()) -> bool:
        if ("unit", name) in self.dead:
            return False
        unit = self.car.job.parts.units[name]
        if unit.kind == "radio":
            return True
        if not self.joined(f"{name}.B+", "battery.+") or not self.joined(f"{name}.GND", "chassis"):
            return False
        for words in unit.wakes:
            if words.split()[0] == "rem" and not self.live(f"{name}.rem", seen | {name}):
                return False
        return True

    def live(self, contact: str, seen: frozenset[str] = frozenset()) -> bool:
        """Whether a turn-on contact gets 12 V from a giver that gives."""
        for unit in self.car.job.parts.units.values():
            for terminal in unit.gives_a:
                giver = f"{unit.name}.{terminal}"
                if ("giver", giver) in self.dead or unit.name in seen:
                    continue
                if self.joined(giver, contact) and self.on(unit.name, seen):
                    return True
        return False

    # -- signals -----------------------------------------------------------------------------------------

    def made(self, output: str) -> dict[str, int]:
        """The sources' channels in an output, each with its sign (0: there both ways)."""
        if output in self.still:
            return {}
        output = self.swapped.get(output, output)
        known = self._made.get(output)
        if known is not None:
            return known
        self._made[output] = {}
        _, _, unit, inputs = self.car.outputs[output]
        found: dict[str, int] = {}
        if self.on(unit) and ("output", output) not in self.dead:
            if self.car.job.parts.units[unit].kind == "radio":
                found = {output.partition(".")[2]: 1}
            for name in inputs:
                if ("input", name) not in self.dead:
                    at = self.swapped.get(name, name)
                    for channel, sign in self.at(f"{at}+", f"{at}-").items():
                        found[channel] = sign if found.get(channel, sign) == sign else 0
        if ("output", output) in self.turned:
            found = {channel: -sign for channel, sign in found.items()}
        self._made[output] = found
        return found

    def at(self, plus: str, minus: str) -> dict[str, int]:
        """The channels that arrive across two contacts."""
        found: dict[str, int] = {}
        for output, (out, back, _, _) in self.car.outputs.items():
            if self.joined(out, plus) and self.joined(back, minus):
                sign = 1
            elif self.joined(out, minus) and self.joined(back, plus):
                sign = -1
            else:
                continue
            for channel, turned in self.made(output).items():
                found[channel] = sign * turned
        return found

    def word(self, plus: str, minus: str, before: Ends = ("", "")) -> str:
        """What arrives across two contacts, beside what should (there, or across the two of `before`)."""
        return _compared(self.at(plus, minus), self.car.whole.at(*(before if before[0] else (plus, minus))))

    def speaker(self, name: str) -> str:
        if ("speaker", name) in self.dead:
            return "nothing"
        ends = (f"spk.{name}+", f"spk.{name}-")
        return self.word(*(ends[::-1] if ("speaker", name) in self.turned else ends), ends)

    def heard(self) -> dict[str, str]:
        """What each speaker does that doesn't play as it should."""
        made = {}
        for name in self.car.job.parts.speakers:
            if self.car.whole.at(f"spk.{name}+", f"spk.{name}-") and (word := self.speaker(name)) != "signal":
                made[name] = word
        return made


def _compared(now: dict[str, int], before: dict[str, int]) -> str:
    if now == before:
        return "signal"
    if not now:
        return "nothing"
    if set(now) == set(before) and all(now[each] == -before[each] for each in now):
        return "reversed"
    if len(before) > 1:
        return "thinned"
    return "plays " + " + ".join(now)


def _plus_first(car: Car, wires: frozenset[Ends]) -> list[Ends]:
    """The two conductors of a pair, + first, by the contacts' own signs or, in an inline plug, by number."""

    def key(ends: Ends) -> tuple[int, str]:
        signs = [
            car.job.contacts[end.removesuffix("~pin")].function.sign
            for end in ends
            if end.removesuffix("~pin") in car.job.contacts
        ]
        if "+" in signs:
            return (0, "")
        if "-" in signs:
            return (1, "")
        return (0, ends[0].rpartition(".")[2].zfill(4))

    return sorted(wires, key=key)


def _nets(edges: list[Ends]) -> dict[str, int]:
    leaving: dict[str, list[str]] = defaultdict(list)
    for a, b in edges:
        leaving[a].append(b)
        leaving[b].append(a)
    made: dict[str, int] = {}
    for number, start in enumerate(leaving):
        if start in made:
            continue
        made[start] = number
        row = [start]
        for here in row:
            for other in leaving[here]:
                if other not in made:
                    made[other] = number
                    row.append(other)
    return made


class Bench:
    """Makes a test in a car with faults. A test is taken as plain words and contacts, as a person reads it."""

    def __init__(self, car: Car) -> None:
        self.car = car
        self._worlds: dict[tuple[Broken, ...], World] = {}

    def world(self, faults: tuple[Broken, ...]) -> World:
        known = self._worlds.get(faults)
        if known is None:
            known = self._worlds[faults] = World(self.car, faults)
        return known

    def answer(
        self, faults: tuple[Broken, ...], test: Any, covered: frozenset[Ends] = frozenset(), ports: Ends = ("", "")
    ) -> str:
        """What the test answers. `covered`: what clips go past or a hand moves; `ports`: the two exchanged."""
        world = self.world(faults)
        if test.kind == "hold":  # the leads are off
            off = [ends for ends in self.car.kind if {test.plus, test.minus} & set(ends) and self._is_laid(ends)]
            return World(self.car, faults, without=off).word(test.plus, test.minus)
        if test.kind == "all leads off":
            unit = test.plus.partition(".")[0]
            off = [ends for ends in self.car.kind if self._is_laid(ends) and self._is_output_of(unit, ends)]
            now, mine = World(self.car, faults, without=off), self._driving(unit)
            return "goes" if world.still & mine and not now.still & mine else "stays"
        if test.kind == "look":
            return "shows it" if world.still & self._driving(test.plus.partition(".")[0]) else "plays on"
        if test.kind == "cool":
            hot = ("unit", test.plus.partition(".")[0])
            return "plays at first" if any((each.mode, each.dead) == ("too hot", hot) for each in faults) else "at once"
        if test.kind == "offset":
            own = {("output", name) for name in self._driving(test.plus.partition(".")[0])}
            bad = [each.dead[1] for each in faults if each.mode.startswith("faulty") and each.dead in own and each.dead]
            return f"DC on {bad[0].replace('.', ' ')}" if bad else "under 0.1 V"
        if test.kind == "sag":
            fed = World(self.car, (), without=self._thin(faults)).joined(test.plus, "battery.+")
            return "over 11 V" if fed else "under 11 V"
        if test.kind == "clear":
            return self._touches(faults, test)
        if test.kind == "signal":
            return world.word(test.plus, test.minus)
        if test.kind == "ohms":
            return self._ohms(faults, test)
        if test.kind in ("swap in", "swap out"):
            changed = World(self.car, faults)
            changed.swapped |= {ports[0]: ports[1], ports[1]: ports[0]}
            # the speaker that was wrong is right once the other one's way carries it
            return "moves" if changed.speaker(test.speaker) != world.speaker(test.speaker) else "stays"
        if test.kind == "clip":
            return "plays" if World(self.car, faults, clips=covered).speaker(test.speaker) == "signal" else "no change"
        if test.kind == "dc":
            if self._is_turn_on(test.plus):
                return "12 V" if world.live(test.plus) else "0 V"
            return "12 V" if world.joined(test.plus, "battery.+") else "0 V"
        if test.kind == "drop":
            shields = [ends for ends in self.car.kind if any(self._is_port(end) for end in ends)]
            direct = World(self.car, faults, without=[*shields, *self._thin(faults)])
            return "under 0.1 V" if direct.joined(test.plus, "chassis") else "more"
        if test.kind == "fuse":
            return "open" if any(covered & fault.wires for fault in faults) else "whole"
        if test.kind == "wiggle":
            return "drops out" if any(covered & fault.wires for fault in faults) else "no change"
        raise ValueError(test.kind)

    def _is_turn_on(self, name: str) -> bool:
        return any(
            self.car.whole.joined(f"{unit.name}.rem", name)
            for unit in self.car.job.parts.units.values()
            if f"{unit.name}.rem" in self.car.job.contacts
        )

    def _is_port(self, name: str) -> bool:
        contact = self.car.job.contacts.get(name)
        return contact is not None and contact.kind == "unit" and name[-1:] in "+-" and contact.last not in ("B+",)

    def _ohms(self, faults: tuple[Broken, ...], test: Any) -> str:
        """Parted at the plug there, if it is one, and measured toward the speakers."""
        cut = self._cut(test)
        good = World(self.car, (), without=cut)
        bad = World(self.car, faults, without=cut)
        reached = [self._coils(world, test.plus, test.minus) for world in (good, bad)]
        if self._short_behind(faults, bad, test, "shorted"):
            return "short"
        low = {fault.dead[1] for fault in faults if fault.mode.startswith("load too low") and fault.dead}
        if low & reached[0]:
            return "too low"
        left = reached[0] & reached[1]
        return "as expected" if left == reached[0] else "too high" if left else "open"

    @staticmethod
    def _thin(faults: tuple[Broken, ...]) -> set[Ends]:
        return {ends for fault in faults if fault.mode == "drops volts" for ends in fault.wires}

    def _driving(self, unit: str) -> set[str]:
        return {name for name in self.car.outputs if name.startswith(f"{unit}.") and self.car.drives(name)}

    def _is_output_of(self, unit: str, ends: Ends) -> bool:
        return any(end in (f"{name}+", f"{name}-") for end in ends for name in self._driving(unit))

    def _is_laid(self, ends: Ends) -> bool:
        return self.car.kind[ends] not in ("inside", "bond")

    def _short_behind(self, faults: tuple[Broken, ...], world: World, test: Any, mode: str) -> bool:
        """Whether a short of a kind is on the side measured: it touches at the end of its wires toward the output."""
        for fault in faults:
            if fault.mode.partition(",")[0] == mode:
                for wires in (fault.wires, fault.others):
                    near = [self._near(ends) for ends in wires]
                    if near and all(world.joined(end, test.plus) or world.joined(end, test.minus) for end in near):
                        return True
        return False

    def _near(self, ends: Ends) -> str:
        """The end of a conductor that stays with the output where the conductor is taken out."""
        apart = World(self.car, (), without=[ends])
        for plus, minus, _, _ in self.car.outputs.values():
            for end in ends:
                if apart.joined(end, plus) or apart.joined(end, minus):
                    return end
        return ends[0]

    def _touches(self, faults: tuple[Broken, ...], test: Any) -> str:
        """Parted at a plug or at the unit's own terminals, and at the input that it leads to."""
        ports = [
            f"{unit.name}.{port.name}" for unit in self.car.job.parts.units.values() for port in unit.ports.values()
            if port.way == "in"
        ]  # fmt: skip
        inputs = [end for end in ports if self.car.whole.joined(f"{end}+", test.plus)]
        world = World(self.car, (), without=self._cut(test))
        words = [("short", "shorted")] if inputs else []
        words += [("to the body", "body"), ("to a pair", "touching")]
        return next((word for word, mode in words if self._short_behind(faults, world, test, mode)), "clear")

    def _cut(self, test: Any) -> list[Ends]:
        return [
            ends for ends, kind in self.car.kind.items()
            if kind in ("plug", "mated") and (test.plus in ends or test.minus in ends)
        ]  # fmt: skip

    def _coils(self, world: World, plus: str, minus: str) -> set[str]:
        found = set()
        for name in self.car.job.parts.speakers:
            a, b = f"spk.{name}+", f"spk.{name}-"
            if ("speaker", name) not in world.dead and (
                (world.joined(a, plus) and world.joined(b, minus)) or (world.joined(b, plus) and world.joined(a, minus))
            ):
                found.add(name)
        return found
