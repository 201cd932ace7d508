"""Random whole jobs as text, the same ones for the same seed. They make no sense as installations; they are legal."""

from __future__ import annotations

import random
from typing import NamedTuple

AUDIO = ("FL", "FR", "RL", "RR", "C", "SUB", "FL-TW", "FR-TW", "FL-WF")
SPELT = {"FL": "LF", "FR": "RHF", "RL": "LR", "RR": "RHR"}
SINGLES = ("B+", "ACC", "ILL", "GND", "AMP-ON", "AERIAL", "MUTE", "SHIELD", "31", "empty", "unknown")
COLOURS = ("BK", "BN", "RD/WH", "OG", "YE/GN", "GN", "BU/BK", "VT", "GY", "WH", "PK")
SIZES = ("0.5 mm2", "18 AWG", "1.5 mm2", "1/0 AWG")
WIRES = ("2 m 1.5 mm2", "12 in 4 AWG copper", "3 ft 8 AWG", "1 m 16 AWG via bulkhead grommet")
INDENT = "  "


class Named(NamedTuple):
    """A contact or a pair as it may be written, and the contacts meant."""

    word: str
    meant: frozenset[str]


class RandomJob:
    """One job being written. `text` is the file."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.lines: list[str] = []
        self.plugs: dict[str, dict[str, str]] = {}  # plug -> cavity -> function
        self.car_unit: set[str] = set()
        self.opened: set[str] = set()  # plugs
        self.parted: set[tuple[str, str]] = set()
        self.loom_leads: dict[str, dict[str, dict[str, str]]] = {}  # loom -> end -> cavity -> function
        self.own_leads: list[str] = []
        self.inline_used: dict[str, list[str]] = {"C204": [], "c305": [], "C7-1": []}
        self.next_inline = 1
        body = [
            self._plugs, self._looms, self._units, self._speakers, self._mates_and_cuts, self._found, self._fates,
            self._joints, self._runs,
        ]  # fmt: skip
        sections = {part.__name__: self._written(part) for part in body}
        rest = [name for name in sections if name != "_joints"]
        self.dice.shuffle(rest)
        head = ["ringout: 1", f"title: Random job {seed}"]
        self.text = "\n".join(head + [line for name in [*rest, "_joints"] for line in sections[name]]) + "\n"

    def _written(self, part) -> list[str]:  # type: ignore[no-untyped-def]
        self.lines = []
        part()
        return self.lines

    def say(self, depth: int, text: str) -> None:
        if self.dice.random() < 0.03:
            self.lines.append(f"{INDENT * depth}# a remark: with colon, [and] {{more}}")
        self.lines.append(INDENT * depth + text)

    def chance(self, share: float) -> bool:
        return self.dice.random() < share

    def spelt(self, function: str) -> str:
        base = SPELT.get(function, function)
        base = base if self.chance(0.2) else function
        return base.lower() if self.chance(0.1) else base

    # -- parts -----------------------------------------------------------------------------------------

    def _plugs(self) -> None:
        self.say(0, "plugs:")
        for name in self.dice.sample(["dash", "kick", "seat", "Boot-2"], self.dice.randint(1, 3)):
            cavities = [str(n + 1) for n in range(self.dice.randint(8, 20))]
            self.dice.shuffle(cavities)
            rows: dict[str, str] = {}
            self.say(1, f"{name}:")
            if self.chance(0.6):
                self.say(2, "unit: radio")
            if self.chance(0.25):
                self.car_unit.add(name)
                self.say(2, "car: Famp")
            self.say(2, "cavities:")
            pairs = self.dice.sample([*AUDIO, "CAN", "MIC"], self.dice.randint(2, 7))
            for pair in pairs:
                if len(cavities) < 2:
                    break
                a, b = cavities.pop(), cavities.pop()
                two = ("CAN-H", "CAN-L") if pair == "CAN" else (pair + "+", pair + "-")
                kind = self.dice.random()
                if kind < 0.7:
                    rows[a], rows[b] = two
                    one, other = self.dice.sample(COLOURS, 2)
                    self.say(3, f"{a}/{b}: {self.spelt(pair)} {one} {other} {self.dice.choice(SIZES)}")
                else:
                    rows[a] = two[0]
                    self.say(3, f"{a}: {two[0]}")
                    if kind < 0.9:
                        rows[b] = two[1]
                        self.say(3, f"{b}: {two[1]} {self.dice.choice(COLOURS)}")
            for cavity in cavities[: self.dice.randint(0, 8)]:
                rows[cavity] = self.dice.choice(SINGLES)
                self.say(3, f"{cavity}: {rows[cavity]}")
            self.plugs[name] = rows

    def _looms(self) -> None:
        self.say(0, "looms:")
        for loom in ["T1", "t2"][: self.dice.randint(1, 2)]:
            plug = self.dice.choice(list(self.plugs))
            rows = self.plugs[plug]
            ends = self.dice.choice([["unit", "car"], ["unit", "car"], ["car"], ["unit"]])
            leads: dict[str, dict[str, str]] = {end: {} for end in ends}
            self.say(1, f"{loom}:")
            self.say(2, f"ends: {{{', '.join(f'{end}: 20-way' for end in ends)}}}")
            free = [*rows, "41", "42"]
            self.dice.shuffle(free)
            straight: list[str] = []
            if len(ends) == 2 and self.chance(0.7):
                straight = [free.pop() for _ in range(min(len(free), self.dice.randint(1, 5)))]
                self._through(straight)
            self.say(2, "leads:")
            named = 0
            done: set[str] = set()
            for cavity in free[: self.dice.randint(2, 12)]:
                function = rows.get(cavity, "unknown")
                if cavity in done or function == "empty":
                    continue
                mate = self._partner(rows, cavity)
                end = self.dice.choice([*ends, "", ""])
                key, two = cavity, [(cavity, function)]
                word = function
                if mate and mate in free and mate not in done and self.chance(0.8):
                    plus, minus = (cavity, mate) if function[-1] in "+H" else (mate, cavity)
                    key, two = f"{plus}/{minus}", [(plus, rows[plus]), (minus, rows[minus])]
                    word = "CAN" if function.startswith("CAN") else function[:-1]
                done |= {each for each, _ in two}
                colours = " ".join(self.dice.sample(COLOURS, len(two)))
                self.say(3, f"{end + '.' if end else ''}{key}: {self.spelt(word)} {colours} {self.dice.choice(SIZES)}")
                for each in [end] if end else ends:
                    leads[each] |= dict(two)
            for cavity in [*straight[:1], *free[-2:]]:
                if self.chance(0.4):
                    named += 1
                    end = self.dice.choice(ends)
                    self.say(3, f"own-{named}: {end}.{cavity} ILL BU")
                    self.own_leads.append(f"{loom}.own-{named}")
            if straight and self.chance(0.4) and straight[-1] not in done:
                self.say(3, f"car.{straight[-1]}: AMP-ON BU/WH 18 AWG")
                leads["car"][straight[-1]] = "AMP-ON"
            self.say(3, "loose: AERIAL BU 18 AWG")
            self.own_leads.append(f"{loom}.loose")
            self.loom_leads[loom] = leads

    def _through(self, pins: list[str]) -> None:
        style = self.dice.random()
        if style < 0.3:
            self.say(2, f"through: {' '.join(pins)}")
        elif style < 0.5:
            self.say(2, f"through: [{', '.join(pins)}]")
        elif style < 0.7:
            first = min(int(pin) for pin in pins)
            self.say(2, f"through: {first}..{first + self.dice.randint(0, 2)}")
        else:
            turned = pins[1:] + pins[:1]
            self.say(2, f"through: {{{', '.join(f'{a}: {b}' for a, b in zip(pins, turned, strict=True))}}}")

    @staticmethod
    def _partner(rows: dict[str, str], cavity: str) -> str:
        function = rows.get(cavity, "")
        twins = {"+": "-", "-": "+", "H": "L", "L": "H"}
        if function == "B+" or function[-1:] not in twins or (function[-1:] in "HL" and "CAN" not in function):
            return ""
        wanted = function[:-1] + twins[function[-1]]
        return next((each for each, has in rows.items() if has == wanted), "")

    def _units(self) -> None:
        self.say(0, "units:")
        self.say(1, "radio: {kind: radio, outputs: {FL FR RL RR: btl 8.5 V}, gives: {AMP-ON: 100 mA}}")
        self.say(1, "dsp:")
        self.say(2, "kind: processor amplifier")
        self.say(2, f"inputs: {{in1..4: 2..20 V {self.dice.choice(['differential', 'grounded'])}}}")
        self.say(2, "outputs: {out1..4: 75 W @ 4 ohm least 2 ohm, rca1: 4 V grounded}")
        self.say(2, "wakes: rem 35 mA")
        if self.chance(0.5):
            self.say(2, "bonds: [in1- in2- in3-, out1- GND]")
        if self.chance(0.6):
            self.say(2, "leads: {in1: WH WH/BK 18 AWG, in2: GY GY/BK, rem: BU}")
        self.say(2, "gives: {rem-out: 500 mA}")
        self.say(1, "bass: {kind: amplifier, inputs: {in1..2: 0.2..4 V grounded}, outputs: {out1..2: 100 W @ 2 ohm}}")
        self.say(1, "block: {kind: fuse block, ways: 3}")
        self.say(1, "change: {kind: relay}")
        self.say(1, "Famp: {kind: factory amplifier, outputs: {FL FR: btl}}")
        if self.chance(0.3):
            self.say(0, "removed: [Famp]")

    def _speakers(self) -> None:
        self.speakers = [f"{name}" for name in self.dice.sample(AUDIO, self.dice.randint(3, 8)) if name != "SUB"]
        self.say(0, "speakers:")
        self.say(1, f"{' '.join(self.speakers)}: {{nominal: 4 ohm}}")
        coils = self.dice.choice(["2 x 2 ohm separate", "2 x 2 ohm series", ""])
        self.say(1, f"SUB: {{{f'coils: {coils}' if coils else 'nominal: 4 ohm'}}}")
        self.coils = ["SUB.c1", "SUB.c2"] if "separate" in coils else ["SUB"]
        self.say(0, "grounds: {G1: {place: left seat crossmember}, G2: {place: boot floor, metal: bare}}")
        self.say(0, "inline: {C204: left pillar, c305: right pillar, C7-1: boot hinge}")

    # -- the plan --------------------------------------------------------------------------------------

    def _mates_and_cuts(self) -> None:
        """Decided before the joints, which must name the halves of what is open."""
        self.mates: list[str] = []
        for loom, leads in self.loom_leads.items():
            closed = [plug for plug in self.plugs if plug not in self.opened]
            if not closed or self.chance(0.1):
                continue
            plug = self.dice.choice(closed)
            self.opened.add(plug)
            style = self.dice.random()
            if style < 0.6 or len(leads) < 2:
                self.mates.append(f"{loom}: {plug}")
            elif style < 0.8:
                self.mates.append(f"{loom}.car: {plug}")
            else:
                self.mates += [f"{loom}.unit: {plug}", f"{loom}.car: {plug}.car"]
        cut = []
        for plug, rows in self.plugs.items():
            for cavity in rows:
                if plug not in self.opened and self.chance(0.12):
                    cut.append(f"{plug}.{self.dice.choice(['', 'car.', 'unit.'])}{cavity}")
                    self.parted.add((plug, cavity))
        self.cut = cut

    def _found(self) -> None:
        chains: list[str] = []
        for plug, rows in self.plugs.items():
            for cavity, function in rows.items():
                if function[-1:] != "+" or function == "B+" or self.chance(0.5):
                    continue
                other = self._partner(rows, cavity)
                base = function[:-1]
                if other and self.chance(0.85):
                    start = self.dice.choice([f"{plug}.{base}", f"{plug}.{cavity}/{other}", f"{plug}.car.{base}"])
                    chains.append(self._chain(start, 2, base))
                else:
                    chains.append(self._chain(f"{plug}.{cavity}", 1, base))
            for cavity, function in rows.items():
                if function == "GND" and self.chance(0.3):
                    chains.append(f"{plug}.{cavity} > 0.5 m 1.5 mm2 > gnd.G1")
                if function == "B+" and self.chance(0.4):
                    chains.append(f"{plug}.{cavity} > fuse 10 A > battery.+")
        if chains:
            self.say(0, "found:")
            for chain in chains:
                self.say(1, f"- {chain}")

    def _chain(self, start: str, width: int, base: str) -> str:
        steps = [start]
        for _ in range(self.dice.randint(0, 3)):
            name = self.dice.choice(list(self.inline_used))
            if width == 1 and self.inline_used[name] and self.chance(0.15):
                cavities = [self.dice.choice(self.inline_used[name])]  # a branch: a wire is there already
            else:
                cavities = [str(self.next_inline + k) for k in range(width)]
                self.next_inline += width
                self.inline_used[name] += cavities
            colours = " ".join(self.dice.sample(COLOURS, width)) if self.chance(0.5) else ""
            turn = " reversed" if width == 2 and self.chance(0.1) and not colours else ""
            steps.append(f"{name}.{'/'.join(cavities)} {colours}".strip() + turn)
            if self.chance(0.2):
                steps.append("2 m 0.5 mm2")
        known = [name for name in self.speakers if name == base] or self.speakers
        ends = self.dice.sample(known, min(len(known), self.dice.randint(1, 2)))
        sign = "+" if width == 1 else ""
        turn = " reversed" if width == 2 and self.chance(0.1) else ""
        steps.append(" ".join(f"spk.{name}{sign}" for name in ends) + turn)
        return " > ".join(steps)

    def _fates(self) -> None:
        cavities = [(plug, cavity) for plug, rows in self.plugs.items() for cavity in rows]
        leads = [f"{loom}.{end}.{c}" for loom, ends in self.loom_leads.items() for end in ends for c in ends[end]]
        leads += self.own_leads
        depinned = self.dice.sample(leads, min(len(leads), self.dice.randint(0, 3)))
        for plug, cavity in self.dice.sample(cavities, self.dice.randint(0, 2)):
            depinned.append(f"{plug}.{self.dice.choice(['car', 'unit'])}.{cavity}")
            self.parted.add((plug, cavity))
        capped = self.dice.sample(leads, self.dice.randint(0, min(len(leads), 4)))
        capped += [f"{plug}.car.{cavity}" for plug, cavity in self.dice.sample(cavities, 1)]
        for heading, contacts in (("cut", self.cut), ("capped", capped), ("depinned", depinned)):
            if contacts and self.chance(0.5):
                self.say(0, f"{heading}: [{', '.join(contacts)}]")
            elif contacts:
                self.say(0, f"{heading}:")
                for contact in contacts:
                    self.say(1, f"- {contact}")
        moving = [lead for lead in leads if lead.count(".") == 2 and lead not in depinned]
        if moving and self.chance(0.3):
            lead = self.dice.choice(moving)
            target = self.dice.choice([cavity for _, cavity in cavities])
            self.say(0, f"moved: {{{lead}: {lead.rpartition('.')[0]}.{target}}}")

    def _halves(self, plug: str, cavity: str) -> list[str]:
        if plug in self.opened or (plug, cavity) in self.parted:
            return ["unit.", "car."]
        return ["", "unit.", "car."]

    def _singles(self) -> list[Named]:
        made = [f"{loom}.{end}.{c}" for loom, ends in self.loom_leads.items() for end in ends for c in ends[end]] * 2
        made += self.own_leads * 2
        made += [f"dsp.{name}" for name in ("in1+", "in2-", "out1+", "out2-", "B+", "GND", "rem", "rem-out", "rca1+")]
        made += ["bass.in1+", "bass.rem", "block.1", "block.3", "change.30", "change.87a", "gnd.G1", "gnd.G2"]
        made += [f"spk.{name}+" for name in self.speakers] + ["spk." + self.coils[0] + "-", "battery.+"]
        made += [f"{name}.car.{c}" for name, cavities in self.inline_used.items() for c in cavities]
        named = [Named(word, frozenset([word])) for word in made]
        for plug, rows in self.plugs.items():
            for c in rows:
                for half in self._halves(plug, c):
                    named.append(Named(f"{plug}.{half}{c}", frozenset([f"{plug}.{half or 'car.'}{c}"])))
        return named

    def _pairs(self) -> list[Named]:
        made: list[Named] = []
        for plug, rows in self.plugs.items():
            for cavity, function in rows.items():
                other = self._partner(rows, cavity)
                if other and function[-1] in "+H":
                    halves = self._halves(plug, cavity)
                    halves = halves if halves == self._halves(plug, other) else ["unit.", "car."]
                    base = "CAN" if function == "CAN-H" else function[:-1]
                    for half in halves:
                        meant = frozenset(f"{plug}.{half or 'car.'}{each}" for each in (cavity, other))
                        words = (self.spelt(base), f"{cavity}/{other}")
                        made += [Named(f"{plug}.{half}{word}", meant) for word in words]
        for loom, ends in self.loom_leads.items():
            for end, rows in ends.items():
                for cavity, function in rows.items():
                    other = self._partner(rows, cavity)
                    if other and function[-1] == "+":
                        meant = frozenset(f"{loom}.{end}.{each}" for each in (cavity, other))
                        words = (function[:-1], f"{cavity}/{other}")
                        made += [Named(f"{loom}.{end}.{word}", meant) for word in words] * 3
        ports = [f"dsp.{port}" for port in ("in1", "in2", "in3", "in4", "out1", "out2", "out3", "rca1")]
        ports += ["bass.in1", "bass.out1", *(f"spk.{name}" for name in (*self.speakers, *self.coils))]
        made += [Named(port, frozenset([port + "+", port + "-"])) for port in ports]
        return [*made, Named("bass.out1+/out2-", frozenset(["bass.out1+", "bass.out2-"]))]

    def _ranges(self) -> list[tuple[str, str]]:
        """Ranges of whole pairs on both sides, and of single contacts."""
        made = [("dsp.in1..2", "bass.in1..2"), ("dsp.out3..4", "dsp.in3..4"), ("block.1..2", "block.2..3")]
        for loom, ends in self.loom_leads.items():
            for end, rows in ends.items():
                for cavity in rows:
                    run = [str(int(cavity) + k) for k in range(4)]
                    if not all(each in rows for each in run[:2]):
                        continue
                    if all(each in rows for each in run) and self._whole(rows, run) and self.chance(0.5):
                        made += [(f"{loom}.{end}.{run[0]}..{run[3]}", "dsp.in2..3")]
                    elif self._whole(rows, run[:2]):
                        made += [(f"{loom}.{end}.{run[0]}..{run[1]}", "dsp.out2")]
                    else:
                        made += [(f"{loom}.{end}.{run[0]}..{run[1]}", "block.2..3")]
        return made

    def _whole(self, rows: dict[str, str], run: list[str]) -> bool:
        partners = [self._partner(rows, cavity) for cavity in run]
        return sorted(partners) == sorted(run)

    def _joints(self) -> None:
        self.say(0, "joints:")
        if self.mates:
            self.say(1, f"mate: {{{', '.join(self.mates)}}}")
        used: set[str] = set()
        for method in ("crimp at the left kick panel with heat shrink", "solder", "screw"):
            self.say(1, f"{method}:")
            for _ in range(self.dice.randint(1, 6)):
                kind = self.dice.random()
                pool = self._pairs() if kind < 0.6 else self._singles()
                chosen = self.dice.sample(pool, self.dice.choice([2, 2, 2, 3]))
                if len(frozenset().union(*(each.meant for each in chosen))) < sum(len(each.meant) for each in chosen):
                    continue  # a contact joined to itself
                key, *targets = (each.word for each in chosen)
                turned = [t + (" reversed" if kind < 0.6 and self.chance(0.1) else "") for t in targets]
                if kind > 0.92:
                    key, target = self.dice.choice(self._ranges())
                    turned = [target]
                if key.lower() in used:
                    continue
                used.add(key.lower())
                value = turned[0] if len(turned) == 1 else f"[{', '.join(turned)}]"
                if self.chance(0.15):
                    value = f"{{to: {value}, cover: tape}}"
                self.say(2, f"{key}: {value}")
            if self.lines[-1].endswith(("solder:", "shrink:", "screw:")):  # nothing came of it
                self.say(2, "gnd.G2: dsp.GND")

    def _runs(self) -> None:
        if self.chance(0.2):
            return
        wire = lambda: self.dice.choice(WIRES)  # noqa: E731
        self.say(0, "runs:")
        self.say(1, f"- battery.+ > {wire()} > fuse 100 A > {wire()} > block.in")
        if self.chance(0.7):
            self.say(1, f"- block.1 > fuse 40 A > {wire()} > dsp.B+")
        if self.chance(0.7):
            self.say(1, f"- dsp.GND > {wire()} > gnd.G1")
        if self.chance(0.5):
            self.say(1, f"- dsp.rca1 > 5 m rca > {self.dice.choice(['bass.in1', 'bass.in2', 'spk.' + self.coils[-1]])}")
        if self.chance(0.4):
            self.say(1, f"- {self.dice.choice(self._pairs()).word} > {wire()} > bass.in2 spk.{self.speakers[0]}")


def random_job(seed: int) -> str:
    """The text of one random job."""
    return RandomJob(seed).text
