"""Random supplies: units of every kind on plugs, joints, runs and fuses, as the text of a job and as plain tables.

They make no sense as installations; they are legal. The tables say of each contact what it is for, and of each
conductor what it is; what follows from them is worked out anew in test_supply_second_look.py.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field

KINDS = (
    "amplifier", "amplifier", "processor", "interface", "line converter", "relay", "relay", "diode", "switch",
    "fuse block", "battery", "control unit", "factory amplifier", "radio", "cluster",
)  # fmt: skip
TURN_ON_KINDS = (
    "amplifier", "processor", "interface", "relay", "relay", "diode", "diode", "radio", "control unit", "switch",
)  # fmt: skip
TURN_ON = {"rem", "rem-out", "30", "86", "87", "a", "k", "ACC", "AMP-ON", "AERIAL", "ILL", "B+", "+"}
OWN_TERMINALS = {
    "relay": ("30", "85", "86", "87", "87a"), "diode": ("a", "k"), "battery": ("+", "-"),
    "fuse block": ("in", "1", "2"),
}  # fmt: skip
# what each function is for; a relay's 30 is written like a feed and is none
FUNCTIONS = {
    "B+": "battery", "30": "battery", "ACC": "switched", "ILL": "light", "AMP-ON": "trigger", "AERIAL": "aerial",
    "GND": "ground", "rem": "trigger",
}  # fmt: skip
SIZES = {"4 AWG": 21.15, "8 AWG": 8.366, "10 mm2": 10.0, "1.5 mm2": 1.5, "16 AWG": 1.309}  # ASTM B258, mm²


@dataclass
class BenchUnit:
    kind: str
    gone: bool = False
    draws: str = ""
    woken: bool = False
    wake: str = ""
    gives: tuple[str, ...] = ()
    ports: dict[str, str] = field(default_factory=dict)  # in1, out1 -> its form
    terminals: list[str] = field(default_factory=list)
    own: int = 0  # so many of them are written; the others are those of a plug that it sits on


@dataclass(frozen=True)
class Line:
    """One conductor as planned: joint, run, fuse, way (of a fuse block), mated, inside, bond, wire, body."""

    a: str
    b: str
    kind: str
    size: str = ""
    fuse_a: float | None = None
    length_m: float = 0.0

    def other(self, here: str) -> str:
        return self.b if here == self.a else self.a


class RandomSupply:
    """`text` is the file. With `turn_on` it is mostly relays, diodes and what wants to be woken."""

    def __init__(self, seed: int, turn_on: bool = False) -> None:
        self.dice, self.turn_on = random.Random(seed), turn_on
        self.units: dict[str, BenchUnit] = {}
        self.plugs: dict[str, dict[str, str]] = {}  # plug -> cavity -> function
        self.sits: dict[tuple[str, str], str] = {}  # (plug, half) -> unit
        self.cut: list[str] = []
        self.sizes: dict[str, str] = {}  # contact of a plug -> its wire's size
        self.lines: list[Line] = []
        self.runs = 0
        parts = [self._units(), self._plugs(), self._joints_and_runs()]
        gone = [name for name, unit in self.units.items() if unit.gone]
        head = ["ringout: 1", f"title: Random supply {seed}", "car: {name: Bench car, steering: left}"]
        head += ["grounds: {G1: {place: floor}, G2: {place: boot}}"]
        self.text = "\n".join([*head, *(line for part in parts for line in part)]) + "\n"
        self.text += f"removed: [{', '.join(gone)}]\n" if gone else ""
        self.lines += [Line("gnd.G1", "chassis", "body"), Line("gnd.G2", "chassis", "body")]
        self.lines += [Line("battery.-", "chassis", "body")]

    def chance(self, share: float) -> bool:
        return self.dice.random() < share

    def _units(self) -> list[str]:
        rows = ["units:"]
        for number in range(self.dice.randint(5, 9) if self.turn_on else self.dice.randint(3, 8)):
            name, unit = f"u{number}", BenchUnit(self.dice.choice(TURN_ON_KINDS if self.turn_on else KINDS))
            unit.gone = self.chance(0.07 if self.turn_on else 0.15)
            said = [f"kind: {unit.kind}"]
            own = OWN_TERMINALS.get(unit.kind)
            if own is None:
                if self.chance(0.5):
                    unit.draws = self.dice.choice(["draws: 10 A", "draws: 100 W", "fuses: 20 A"])
                    said.append(unit.draws)
                for port, window in (("in1", "1..4 V"), ("out1", "2 V")):
                    if self.chance(0.4):
                        unit.ports[port] = self.dice.choice(["", "grounded"])
                        said.append(f"{port[:-1]}puts: {{{port}: {window} {unit.ports[port]}}}")
                        unit.terminals += [f"{port}+", f"{port}-"]
                if self.chance(0.4):
                    unit.gives = ("rem-out",)
                some = ["rem", "rem 20 mA", "rem 20 mA"] if self.turn_on else ["", "", "rem"]
                wake = self.dice.choice([*some, "rem 20 mA", "signal", "bus"])
                unit.woken, unit.wake = wake.startswith("rem"), wake
                said += [f"wakes: {wake}"] if wake else []
                said += ["gives: {rem-out: 100 mA}"] if unit.gives else []
            if unit.kind == "fuse block":
                said.append("ways: 2")
            unit.terminals += [*(own or ("B+", "GND", "rem")), *unit.gives]
            unit.own = len(unit.terminals)
            rows.append(f"  {name}: {{{', '.join(said)}}}")
            self.units[name] = unit
            if not unit.gone:
                self.lines += [Line(f"{name}.in", f"{name}.{way}", "way") for way in "12" if unit.kind == "fuse block"]
                tied = [port for port, form in unit.ports.items() if form == "grounded"]
                self.lines += [Line(f"{name}.{port}-", f"{name}.GND", "bond") for port in tied]
        return rows

    def _plugs(self) -> list[str]:
        rows, cut = ["plugs:"], self.cut
        seats = [name for name, unit in self.units.items() if unit.kind not in OWN_TERMINALS]
        self.dice.shuffle(seats)
        for plug in ("dash", "kick"):
            functions = self.dice.sample(["B+", "ACC", "ILL", "AMP-ON", "AERIAL", "GND"], self.dice.randint(2, 5))
            self.plugs[plug] = {str(at + 1): function for at, function in enumerate(functions)}
            rows += [f"  {plug}:", f"    place: {plug}"]
            for half in ("unit", "car"):
                if seats and self.chance(0.5 if half == "unit" else 0.2):
                    self.sits[plug, half] = seats.pop()
                    rows.append(f"    {half}: {self.sits[plug, half]}")
            cells = []
            for cavity, function in self.plugs[plug].items():
                size = self.dice.choice(["", "", *SIZES])
                cells.append(f"{cavity}: {function} RD {size}".strip())
                for half in ("unit", "car"):
                    self.sizes[f"{plug}.{half}.{cavity}"] = size
                self._cavity(plug, cavity, function, cut)
            rows.append(f"    cavities: {{{', '.join(cells)}}}")
        return rows + ([f"cut: [{', '.join(cut)}]"] if cut else [])

    def _cavity(self, plug: str, cavity: str, function: str, cut: list[str]) -> None:
        here, there = f"{plug}.unit.{cavity}", f"{plug}.car.{cavity}"
        if self.chance(0.25):
            cut.append(there)
        else:
            self.lines.append(Line(here, there, "mated"))
        for half, contact in (("unit", here), ("car", there)):
            name = self.sits.get((plug, half))
            if name is not None:
                if function not in self.units[name].terminals:
                    self.units[name].terminals.append(function)
                if not self.units[name].gone:
                    self.lines.append(Line(contact, f"{name}.{function}", "inside"))
        if function == "GND" and (plug, "car") not in self.sits:
            self.lines.append(Line(there, "chassis", "wire"))

    def contacts(self) -> list[str]:
        made = [f"{name}.{terminal}" for name, unit in self.units.items() for terminal in unit.terminals]
        made += [f"{plug}.{half}.{c}" for plug, rows in self.plugs.items() for c in rows for half in ("unit", "car")]
        return [*made, "battery.+", "battery.-", "gnd.G1", "gnd.G2"]

    def _joints_and_runs(self) -> list[str]:
        """Feeds to feeds and grounds to grounds mostly, so that they don't all end in one short."""
        names = self.contacts()
        grounds = [name for name in names if self.last(name) in ("GND", "-", "G1", "G2", "85") or name.endswith("1-")]
        feeds = [name for name in names if name not in grounds]
        if self.turn_on:
            feeds = [name for name in feeds if self.last(name) in TURN_ON and not name.endswith(".B+")]
            feeds += [name for name in feeds if name.partition(".")[0] in self.plugs and name not in self.cut]
        joints: dict[str, list[str]] = {}
        runs: list[str] = []
        met: list[set[str]] = []  # two pieces between the same two contacts are no two to the tool
        for _ in range(self.dice.randint(9, 20) if self.turn_on else self.dice.randint(4, 14)):
            pool = self.dice.choice([feeds, feeds, grounds])
            a, b = self.dice.sample(names if self.chance(0.02 if self.turn_on else 0.06) else pool, 2)
            if a == b or {a, b} in met or {a, b} <= {"gnd.G1", "gnd.G2", "battery.-"}:
                continue
            met.append({a, b})
            if self.chance(0.9 if self.turn_on else 0.45):
                joints.setdefault(a, []).append(b)
                self.lines.append(Line(a, b, "joint"))
            else:
                runs.append(self._run(a, b))
        fresh = [name for name in feeds if name != "battery.+" and {name, "battery.+"} not in met]
        runs.append(self._run("battery.+", self.dice.choice(fresh)))
        for a, b in self._likely(feeds) if self.turn_on else ():
            joints.setdefault(a, []).append(b)
            self.lines.append(Line(a, b, "joint"))
        for relay in [name for name, unit in self.units.items() if unit.kind == "relay" and not self.turn_on]:
            taking = [name for name in feeds if name.endswith(".B+") and {f"{relay}.87", name} not in met]
            if taking and {"battery.+", f"{relay}.30"} not in met and self.chance(0.4):
                runs += [self._run("battery.+", f"{relay}.30"), self._run(f"{relay}.87", self.dice.choice(taking))]
        rows = ["runs:", *(f"  - {run}" for run in runs)]
        if joints:
            rows += ["joints:", "  solder:", *(f"    {a}: [{', '.join(b)}]" for a, b in joints.items())]
        return rows

    def _likely(self, feeds: list[str]) -> list[tuple[str, str]]:
        """Relays and diodes before what wants to be woken, mostly with something before them."""
        wanting = [name for name in feeds if self.last(name) in ("rem", "86", "a")]
        giving = [name for name in feeds if self.last(name) in ("rem-out", "ACC", "AMP-ON", "B+", "AERIAL", "k", "87")]
        made = []
        for name, unit in self.units.items():
            ends = {
                "relay": (("87", wanting), ("30", giving), ("86", giving)),
                "diode": (("k", wanting), ("a", giving)),
            }
            for last, pool in ends.get(unit.kind, ()):
                others = [each for each in pool if not each.startswith(f"{name}.")]
                if others and self.chance(0.6):
                    made.append((f"{name}.{last}", self.dice.choice(others)))
        return made

    def _run(self, a: str, b: str) -> str:
        steps, here = [a], a
        shape = self.dice.choice(["w", "w", "wfw", "fw", "f"])
        for at, piece in enumerate(shape):
            self.runs += 1
            there = b if at == len(shape) - 1 else f"run.{self.runs}"
            if piece == "f":
                fuse_a = self.dice.choice([10.0, 30.0, 60.0, None])
                steps.append(f"fuse {fuse_a:g} A" if fuse_a else "fuse unknown")
                self.lines.append(Line(here, there, "fuse", fuse_a=fuse_a))
            else:
                size = self.dice.choice(list(SIZES))
                steps.append(f"{self.runs} cm {size}")
                self.lines.append(Line(here, there, "run", size, length_m=self.runs / 100))
            here = there
        return " > ".join([*steps, b])

    def last(self, name: str) -> str:
        owner, _, rest = name.partition(".")
        _half, _, cavity = rest.partition(".")
        return self.plugs[owner][cavity] if owner in self.plugs else rest

    def kind(self, name: str) -> str:
        """What a contact is for; a terminal of a unit by its name."""
        if name in ("battery.-", "chassis") or name.startswith("gnd."):
            return "ground"
        if name == "battery.+":
            return "battery"
        last = self.last(name)
        if last[:-1] in ("in1", "out1"):
            return "port"
        return FUNCTIONS.get(last, "trigger" if last.startswith("rem") else "other")
