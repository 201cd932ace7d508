"""Small random jobs with a random order of work, and what is at risk in it by an oracle of its own.

Nothing of the project is imported: the oracle keeps its own list of wires and its own union-find, and reads no words of
the steps; each step is written beside what it does.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

CHANNELS = ("FL", "FR", "RL")
FEED, TURN_ON, HIGH, LOW = "7", "8", "9", "10"  # cavities besides the channels' 1 to 6
_FACE = (
    "    face: {rows: 2, columns: 6, view: wire, latch: top, count: across, first: top left}\n"
    "    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}\n"
)


@dataclass(frozen=True)
class Step:
    """One step: its line in the file, and what it does, by the words of the oracle."""

    line: str
    does: str


@dataclass
class State:
    battery: bool = True
    key: bool = False
    calm: bool = False
    apart: bool = False
    loom_ends: set[str] = field(default_factory=set)
    seat_apart: bool = False
    joined: set[str] = field(default_factory=set)
    cut: bool = False
    capped: bool = False
    supply: bool = False
    fuse: bool = False
    ground: bool = False


@dataclass(frozen=True)
class Small:
    """A job: with a loom or with cuts, so many channels, a seat with a restraint plug or none; steps in an order."""

    loom: bool
    channels: tuple[str, ...]
    seat: bool
    live_lead: bool
    steps: tuple[Step, ...]

    # -- the file --------------------------------------------------------------------------------------

    def text(self) -> str:
        pairs = {channel: f"{2 * at + 1}/{2 * at + 2}" for at, channel in enumerate(self.channels)}
        rows = [f"      {pair}: {channel} WH WH/BK" for channel, pair in pairs.items()]
        rows += [f"      {FEED}: B+ YE", f"      {TURN_ON}: AMP-ON BU", f"      {HIGH}/{LOW}: CAN YE/GN YE/BN twisted"]
        lines = ["ringout: 1", "title: A small job", "car: {name: Bench car, steering: left}", "plugs:", "  dash:"]
        lines += ["    place: behind the radio", "    unit: radio", *_FACE.splitlines(), "    cavities:", *rows]
        if self.seat:
            lines += ["  seat:", "    place: under the left seat", "    unit: sensor", "    carries: SRS"]
            lines += [*_FACE.splitlines(), "    cavities: {1: SRS YE, 2: GND BK}"]
        ins, outs = f"in1..{len(pairs)}", f"out1..{len(pairs)}"
        if self.loom:
            lines += ["looms:", "  T1:", "    ends: {unit: 12-way A, car: 12-way A}", f"    through: {FEED}..{LOW}"]
            lines += ["    leads:", *(f"      {pair}: {channel} WH WH/BK" for channel, pair in pairs.items())]
            lines += [f"      car.{TURN_ON}: AMP-ON BU"]
            if self.live_lead:
                lines += [f"      car.{FEED}: B+ YE"]
        radio = f"{{kind: radio, outputs: {{{' '.join(pairs)}: btl 8.5 V clean step 31}}, gives: {{AMP-ON: 100 mA}}}}"
        amp = f"inputs: {{{ins}: 2..20 V differential}}, outputs: {{{outs}: 50 W @ 4 ohm least 2 ohm}}"
        lines += ["units:", f"  radio: {radio}", f"  amp: {{kind: amplifier, {amp}, wakes: rem 20 mA, class: D}}"]
        if self.seat:
            lines += ["  sensor: {kind: control unit}"]
        lines += ["speakers:", f"  {' '.join(pairs)}: {{nominal: 4 ohm}}", "grounds: {G1: {place: floor, metal: bare}}"]
        if self.loom:
            if self.live_lead:
                lines += [f"capped: [T1.car.{FEED}]"]
        else:
            lines += [f"cut: [{', '.join(f'dash.{channel}' for channel in pairs)}]"]
        lines += ["joints:", *(["  mate: {T1: dash}"] if self.loom else []), "  crimp at the dash with heat shrink:"]
        lines += [f"    {a}: {b}" for a, b in self.joints().values()]
        lines += ["runs:", "  - battery.+ > 12 in 8 AWG > fuse 30 A > 12 ft 8 AWG via bulkhead grommet > amp.B+",
                  "  - amp.GND > 18 in 8 AWG > gnd.G1", "steps:"]  # fmt: skip
        return "\n".join([*lines, *(f"  - {step.line}" for step in self.steps)]) + "\n"

    def joints(self) -> dict[str, tuple[str, str]]:
        """Name -> both sides as written; they are numbered in this order."""
        here = "T1" if self.loom else "dash"
        made = []
        for at, channel in enumerate(self.channels, 1):
            made += [(f"{here}.unit.{channel}", f"amp.in{at}"), (f"{here}.car.{channel}", f"amp.out{at}")]
        made.append((f"T1.car.{TURN_ON}" if self.loom else f"dash.unit.{TURN_ON}", "amp.rem"))
        return {f"J{number}": pair for number, pair in enumerate(made, 1)}

    # -- the oracle ------------------------------------------------------------------------------------

    def risks(self) -> set[tuple[int, str]]:
        """(number of the step, code). J13 and J18 are told at each step, the rest where it first is so."""
        now, found, told = State(), set(), set()
        hasty = False
        for number, step in enumerate(self.steps, 1):
            before = _copy(now)
            touched = self._do(step, now)
            during = [before, now]
            if before.battery != now.battery:  # a wait left out and a plug mated under power are two causes
                hasty = False
            if now.battery and any(self._live(state, wire, now.key) for wire in touched for state in during):
                found.add((number, "J13"))
            driven = any(
                self._net(now, f"dc{channel}{sign}") & self._outputs() for channel in self.channels for sign in "+-"
            )
            if step.does == "tone" and (driven or (now.battery and now.key)):
                found.add((number, "J18"))
            if before.seat_apart != now.seat_apart and not hasty and (now.battery or before.battery or not now.calm):
                hasty = True
                found.add((number, "G10"))
            for code in self._standing(now):
                if code not in told:
                    told.add(code)
                    found.add((number, code))
        if not self._whole(now):
            found.add((len(self.steps), "J19"))
        return found

    def _do(self, step: Step, now: State) -> list[str]:
        """Changes the state; the wires that are worked on by hand."""
        match step.does.split():
            case ["power", "off"]:
                now.battery, now.key, now.calm = False, False, False
            case ["wait"]:
                now.calm = not now.battery
            case ["power", "on"]:
                now.battery, now.calm = True, False
            case ["key", "on"]:
                now.key = True
            case ["key", "off"]:
                now.key = False
            case ["unplug"]:
                now.apart, now.loom_ends = True, set()
            case ["mate"]:
                now.apart = False
                now.loom_ends = {"unit", "car"} if self.loom else set()
            case ["seat", "out"]:
                now.seat_apart = True
            case ["seat", "in"]:
                now.seat_apart = False
            case ["join", *names]:
                new = set(names) - now.joined
                now.joined |= new
                return [end for name in new for pair in self._wires(name) for end in pair]
            case ["cut"]:
                now.cut = True
                return [f"dc{channel}{sign}" for channel in self.channels for sign in "+-"]
            case ["cap"]:
                now.capped = True
                return [f"T1.car.{FEED}"]
            case ["supply"]:
                now.supply = True
                return ["run.2", "amp.B+"]
            case ["fuse"]:
                if now.supply:  # one that goes in before its run is laid goes nowhere
                    now.fuse = True
                    return ["battery.+", "run.1", "run.2"]
            case ["ground"]:
                now.ground = True
                return ["amp.GND", "body"]
        return []

    def _wires(self, name: str) -> Iterator[tuple[str, str]]:
        """The wires of a joint as pairs of the oracle's names."""
        a, b = self.joints()[name]
        half, last = a.split(".")[1:]
        prefix = f"T1.{half}." if self.loom else ("du" if half == "unit" else "dc")
        if last in self.channels:
            for sign in "+-":
                yield f"{prefix}{last}{sign}", f"{b}{sign}"
        else:
            yield f"{prefix}{last}", b

    def _cavities(self) -> list[str]:
        return [f"{channel}{sign}" for channel in self.channels for sign in "+-"] + [FEED, TURN_ON, HIGH, LOW]

    def _edges(self, now: State) -> Iterator[tuple[str, str]]:
        together = not now.apart and not now.loom_ends
        for cavity in self._cavities():
            if not (now.apart and now.cut and cavity[0].isalpha()):  # a cut end goes along with the pulled plug
                yield f"du{cavity}", f"radio.{cavity}"
            if together and not (now.cut and cavity[0].isalpha()):
                yield f"du{cavity}", f"dc{cavity}"
            for half, end in (("unit", "du"), ("car", "dc")):
                if half in now.loom_ends:
                    yield f"T1.{half}.{cavity}", f"{end}{cavity}"
            if self.loom and not cavity[0].isalpha():
                yield f"T1.unit.{cavity}", f"T1.car.{cavity}"
        for name in now.joined:
            yield from self._wires(name)
        if now.supply:
            yield "run.2", "amp.B+"
            if now.fuse:
                yield "battery.+", "run.1"
                yield "run.1", "run.2"
        if now.ground:
            yield "amp.GND", "body"

    def _net(self, now: State, wire: str) -> set[str]:
        parent: dict[str, str] = {}

        def root(name: str) -> str:
            while parent.setdefault(name, name) != name:
                name = parent[name]
            return name

        for a, b in self._edges(now):
            parent[root(a)] = root(b)
        here = root(wire)
        return {name for name in list(parent) if root(name) == here}

    def _outputs(self) -> set[str]:
        signs = [f"{at}{sign}" for at in range(1, len(self.channels) + 1) for sign in "+-"]
        return {f"radio.{channel}{sign}" for channel in self.channels for sign in "+-"} | {
            f"amp.out{each}" for each in signs
        }

    def _live(self, now: State, wire: str, key: bool) -> bool:
        sources = {"battery.+", f"dc{FEED}"}
        if key:
            sources |= {f"du{TURN_ON}", *self._outputs()}
        return bool(self._net(now, wire) & sources)

    def _bare(self, now: State) -> Iterable[str]:
        if self.loom:
            done = {pair[0] for name in now.joined for pair in self._wires(name)}
            leads = [
                f"T1.{half}.{channel}{sign}" for half in ("unit", "car") for channel in self.channels for sign in "+-"
            ]
            leads.append(f"T1.car.{TURN_ON}")
            if self.live_lead and not now.capped:
                leads.append(f"T1.car.{FEED}")
            return [lead for lead in leads if lead not in done]
        if not now.cut:
            return []
        done = {pair[0] for name in now.joined for pair in self._wires(name)}
        return [e for e in (f"{h}{c}{s}" for h in ("du", "dc") for c in self.channels for s in "+-") if e not in done]

    def _standing(self, now: State) -> Iterator[str]:
        """What is at risk in a state that has power."""
        if not now.battery:
            return
        # each row of bare ends is told where it first is live: which rows, the caller sees by the name
        for end in self._bare(now):
            if self._live(now, end, now.key):
                yield f"J14 {end.rstrip('+-')}"
        if self._live_feed(now) and not now.ground:
            yield "J17"
        if now.key:
            if now.seat_apart:
                yield "G10 key"
            if any(f"dc{wire}" not in self._net(now, f"du{wire}") for wire in (HIGH, LOW)):
                yield "J16"
            meets = {frozenset(self._net(now, output) & self._outputs()) for output in self._outputs()}
            for net in meets:
                if len({name.rstrip("+-") for name in net}) > 1:
                    yield f"J15 {min(net).rstrip('+-')}"

    def _live_feed(self, now: State) -> bool:
        return "battery.+" in self._net(now, "amp.B+")

    def _whole(self, now: State) -> bool:
        plugged = now.loom_ends == {"unit", "car"} if self.loom else not now.apart
        done = now.joined == set(self.joints()) and now.supply and now.fuse and now.ground and not now.seat_apart
        return plugged and done and now.battery and (now.cut or self.loom) and (now.capped or not self.live_lead)


def _copy(state: State) -> State:
    return State(**{**state.__dict__, "loom_ends": set(state.loom_ends), "joined": set(state.joined)})


def small_job(seed: int) -> Small:
    """One job; a third of the orders are a sound one, the rest are shaken."""
    luck = random.Random(seed)
    loom = luck.random() < 0.5
    channels = CHANNELS[: luck.randint(1, 3)]
    live_lead = loom and luck.random() < 0.5
    seat = luck.random() < 0.4
    bare = Small(loom, channels, seat, live_lead, ())
    names = list(bare.joints())
    first = names[: luck.randint(1, len(names) - 1)]
    rest = [name for name in names if name not in first]
    steps = [Step("power: key off, battery negative off", "power off"), Step("wait: 2 min", "wait")]
    if seat:
        steps.append(Step("unplug: seat", "seat out"))
    steps += [Step("unplug: dash", "unplug"), Step("tone: every pair", "tone")]
    if not loom:
        steps.append(Step("cut: dash, behind the plug", "cut"))
    steps += [
        Step(f"join: {' '.join(first)}", f"join {' '.join(first)}"),
        Step(f"join: {' '.join(rest)}", f"join {' '.join(rest)}"),
    ]
    if live_lead:
        steps.append(Step(f"cap: T1.car.{FEED}", "cap"))
    steps += [
        Step("lay: the ground", "ground"),
        Step("lay: the supply, its fuse out, the battery end insulated", "supply"),
        Step("mate: T1" if loom else "mate: dash", "mate"),
        Step("fuse: battery end joined, then fuses in", "fuse"),
    ]
    if seat:
        steps.append(Step("mate: seat", "seat in"))
    steps += [Step("power: battery negative on", "power on"), Step("key: on", "key on")]
    for _ in range(luck.choice((0, 1, 2, 6))):
        step = steps.pop(luck.randrange(len(steps)))
        if luck.random() < 0.8:
            steps.insert(luck.randrange(len(steps) + 1), step)
    return Small(loom, channels, seat, live_lead, tuple(steps))
