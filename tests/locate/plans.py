"""Random plans that make sense as installations, as text: the same ones for the same seed."""

from __future__ import annotations

import random
from typing import NamedTuple

CHANNELS = ("FL", "FR", "RL", "RR")
PAIRS = {"FL": ("1", "9"), "FR": ("2", "10"), "RL": ("3", "11"), "RR": ("4", "12")}
COLOURS = {"FL": "WH WH/BK", "FR": "GY GY/BK", "RL": "GN GN/BK", "RR": "VT VT/BK"}


class Plan(NamedTuple):
    """A job's text; `odd` says what makes it more than a row: branches, shared plugs, bridged grounds."""

    text: str
    odd: frozenset[str]


def random_plan(seed: int) -> Plan:
    """One plan: a radio, one to three units behind a loom or cut wires, supply, grounds, turn-on."""
    return _Writing(random.Random(seed)).plan(seed)


class _Writing:
    def __init__(self, dice: random.Random) -> None:
        self.dice = dice
        self.odd: set[str] = set()
        self.channels = list(CHANNELS[: dice.choice([2, 2, 4, 4, 4])])
        self.loom = dice.random() < 0.6
        self.plain = dice.random() < 0.35  # a plan that is a row: no branch, no shared plug, no bridge
        self.form = dice.choice(["amp", "amp", "dsp and amp"])
        self.bass = dice.random() < 0.4
        self.twigs = [] if self.plain else [ch for ch in self.channels if dice.random() < 0.35]
        self.next_cavity: dict[str, int] = {}

    def plan(self, seed: int) -> Plan:
        lines = ["ringout: 1", f"title: Random plan {seed}", "car: {name: Test car, steering: left, lacks: [SUB, C]}"]
        lines += self._plugs() + self._looms() + self._units() + self._speakers() + self._found()
        lines += self._joints() + self._runs()
        if len(self.twigs) > 1:
            self.odd.add("branches")
        return Plan("\n".join(lines) + "\n", frozenset(self.odd))

    def _plugs(self) -> list[str]:
        rows = [f"      {'/'.join(PAIRS[ch])}: {ch} {COLOURS[ch]} 0.75 mm2" for ch in self.channels]
        return [
            "plugs:", "  dash:", "    place: behind the radio", "    unit: radio",
            "    face: {rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}",
            "    cavities:", *rows, "      6: AMP-ON BU/WH 0.5 mm2", "      7: B+ YE 1.5 mm2",
            "      8: GND BK 1.5 mm2",
            "      13/14: CAN OG/GN OG/BN 0.35 mm2 twisted", "      15: empty",
        ]  # fmt: skip

    def _looms(self) -> list[str]:
        if not self.loom:
            return []
        leads = [f"      {'/'.join(PAIRS[ch])}: {ch} {COLOURS[ch]} 18 AWG" for ch in self.channels]
        return [
            "looms:", "  T1:", "    ends: {unit: 16-way, car: 16-way}", "    through: 6..8 13..14", "    leads:",
            *leads, "      unit.6: AMP-ON BU/WH 18 AWG",
        ]  # fmt: skip

    @property
    def count(self) -> int:
        return len(self.channels)

    def _units(self) -> list[str]:
        n = self.count
        sub = ", rca1: 4 V grounded" if self.bass else ""
        summed = ", rca1: in1 + in2 ..80 Hz" if self.bass else ""
        straight = ", ".join(f"out{k}: in{k}" for k in range(1, n + 1))
        made = [
            "units:",
            f"  radio: {{kind: radio, outputs: {{{' '.join(self.channels)}: btl 8 V}}, gives: {{AMP-ON: 100 mA}}}}",
        ]
        gives = ", gives: {rem-out: 500 mA}"
        if self.form == "amp":
            made.append(
                "  dsp: {kind: processor amplifier, place: under the seat, "
                f"inputs: {{in1..{n}: 2..20 V differential}}, "
                f"outputs: {{out1..{n}: 60 W @ 4 ohm least 2 ohm{sub}}}, "
                f"routes: {{{straight}{summed}}}, wakes: rem 20 mA{gives}}}"
            )
        else:
            made.append(
                f"  dsp: {{kind: processor, place: under the seat, inputs: {{in1..{n}: 2..20 V differential}}, "
                f"outputs: {{out1..{n}: 4 V grounded{sub}}}, routes: {{{straight}{summed}}}, wakes: rem 20 mA{gives}}}"
            )
            made.append(
                f"  amp: {{kind: amplifier, place: boot, inputs: {{in1..{n}: 0.3..5 V grounded}}, "
                f"outputs: {{out1..{n}: 60 W @ 4 ohm least 2 ohm}}, routes: {{{straight}}}, wakes: rem 20 mA}}"
            )
        if self.bass:
            made.append(
                "  bass: {kind: amplifier, place: boot, inputs: {in1: 0.3..5 V grounded}, "
                "outputs: {out1: 200 W @ 4 ohm least 2 ohm}, routes: {out1: in1}, wakes: rem 20 mA}"
            )
        self.blocked = self.dice.random() < 0.5
        if self.blocked:
            made.append("  block: {kind: fuse block, place: boot, ways: 3}")
        return made

    def _speakers(self) -> list[str]:
        made = ["speakers:", f"  {' '.join(self.channels)}: {{place: doors, nominal: 4 ohm}}"]
        if self.twigs:
            made.append(f"  {' '.join(ch + '-TW' for ch in self.twigs)}: {{place: dash corners, nominal: 4 ohm}}")
        if self.bass:
            made.append("  SUB: {place: boot, nominal: 4 ohm, new: one box}")
        shared = self.dice.random() < 0.5
        self.points = ["G1"] if shared else ["G1", "G2"]
        return [*made, "grounds:", *(f"  {point}: {{place: floor {point}, metal: bare}}" for point in self.points)]

    def _found(self) -> list[str]:
        names = ["C1", "C2", "C3"] if not self.plain else [f"C{k}" for k in range(1, 13)]
        chains = []
        used: dict[str, int] = {}
        for at, channel in enumerate(self.channels):
            stops = self.dice.randint(0, 3)
            passed = names[at * 3 : at * 3 + stops] if self.plain else names[:stops]
            steps = [f"dash.{channel}"]
            for name in passed:
                first = self.next_cavity.get(name, 1)
                self.next_cavity[name] = first + 2
                used[name] = used.get(name, 0) + 1
                steps.append(f"{name}.{first}/{first + 1} {COLOURS[channel]}")
            twig = channel in self.twigs
            ends = f"spk.{channel}"
            if twig and self.dice.random() < 0.5:
                ends += f" spk.{channel}-TW"
                chains.append(" > ".join([*steps, ends]))
            else:
                chains.append(" > ".join([*steps, ends]))
                if twig:
                    chains.append(f"{steps[-1].split()[0]} > spk.{channel}-TW")
        if any(count > 1 for count in used.values()):
            self.odd.add("shared plugs")
        inline = [f"inline: {{{', '.join(f'{name}: place {name}' for name in used)}}}"] if used else []
        return [*inline, "found:", *(f"  - {chain}" for chain in chains)]

    def _joints(self) -> list[str]:
        unit, car = ("T1.unit", "T1.car") if self.loom else ("dash.unit", "dash.car")
        last = "dsp" if self.form == "amp" else "amp"
        made = []
        if not self.loom:
            made.append(f"cut: [{', '.join('dash.' + ch for ch in self.channels)}]")
        made.append("joints:")
        if self.loom:
            made.append("  mate: {T1: dash}")
        made.append(f"  {self.dice.choice(['crimp', 'solder'])} at kick panel with heat shrink:")
        for at, ch in enumerate(self.channels, 1):
            for end, port in ((unit, f"dsp.in{at}"), (car, f"{last}.out{at}")):
                if self.dice.random() < 0.15:  # the two wires of a pair joined apart
                    made += [f"    {end}.{ch}{sign}: {port}{sign}" for sign in "+-"]
                else:
                    made.append(f"    {end}.{ch}: {port}")
        lead = "T1.unit.AMP-ON" if self.loom else "dash.unit.AMP-ON"
        made.append(f"    {lead}: dsp.rem")
        if self.bass:
            made.append("  screw:")
            made.append("    bass.out1: spk.SUB")
        return made

    def _runs(self) -> list[str]:
        units = ["dsp"] + (["amp"] if self.form != "amp" else []) + (["bass"] if self.bass else [])
        made = ["runs:"]
        if self.blocked:
            made.append("  - battery.+ > 30 cm 4 AWG > fuse 100 A > 4 m 4 AWG > block.in")
            made += [f"  - block.{at} > fuse 30 A > 1 m 8 AWG > {unit}.B+" for at, unit in enumerate(units, 1)]
        else:
            made += [f"  - battery.+ > 30 cm 8 AWG > fuse 40 A > 4 m 8 AWG > {unit}.B+" for unit in units]
        for at, unit in enumerate(units):
            made.append(f"  - {unit}.GND > 40 cm 8 AWG > gnd.{self.points[at % len(self.points)]}")
        if len(units) > 1 and not self.plain and self.dice.random() < 0.5:
            made.append(f"  - {units[0]}.GND > 1 m 8 AWG > {units[1]}.GND")
            self.odd.add("bridged grounds")
        if self.form != "amp":
            n = self.count
            made.append(f"  - dsp.out1..{n} > 3 m rca > amp.in1..{n}")
            made.append(f"  - dsp.rem-out > 3 m 18 AWG > {'amp.rem bass.rem' if self.bass else 'amp.rem'}")
        elif self.bass:
            made.append("  - dsp.rem-out > 3 m 18 AWG > bass.rem")
        if self.bass:
            made.append("  - dsp.rca1 > 3 m rca > bass.in1")
        return made
