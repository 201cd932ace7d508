"""Random orders of work over small random jobs, as text and, beside it, as what each step is meant to do.

The same ones for the same seed. Many are foolish: that is what they are for.
"""

from __future__ import annotations

import random
from typing import Any, NamedTuple

CHANNELS = {"FL": ("1", "2"), "FR": ("5", "6")}
OFF_FOR_GOOD = float("inf")

# (words, seconds waited or None, what it does to battery and key)
_BATTERY_OFF = (
    ("key off, battery negative off, then wait", OFF_FOR_GOOD, {"battery": False, "key": False}),
    ("battery off", None, {"battery": False}),
    ("disconnect the battery; the key stays on", None, {"battery": False, "key": True}),
    ("battery's negative off, wait 30 s", 30.0, {"battery": False}),
    ("battery negative off, then wait 2 minutes", 120.0, {"battery": False}),
    ("off", None, {"battery": False}),
)
_BATTERY_ON = (
    ("battery negative back on; all lamps off", None, {"battery": True}),
    ("battery on, then key on", None, {"battery": True, "key": True}),
    ("connect the battery", None, {"battery": True}),
    ("on", None, {"battery": True}),
)
_KEY_ON = ("on", "key to accessory", "run", "ignition on")
_KEY_OFF = ("off", "key out", "ignition off")


class Act(NamedTuple):
    """One step: its verb and words, and what it is meant to do."""

    verb: str
    words: str
    does: dict[str, Any]


class RandomOrder:
    """One job with an order of work. `text` is the file, `acts` its steps, `first_step` the line of the first."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.loom = self.dice.random() < 0.5
        self.bus = self.dice.random() < 0.6
        self.seat = self.dice.random() < 0.4
        self.spare = self.loom and self.dice.random() < 0.5  # a B+ lead that is to be capped
        # joint -> its links, by contact; in the order of the file
        self.joints: dict[str, list[tuple[str, str]]] = {}
        lines = self._parts()
        self.acts = self._shuffled(self._in_order())
        lines.append("steps:")
        self.first_step = len(lines) + 1
        lines += [f"  - {act.verb}: {act.words}" for act in self.acts]
        self.text = "\n".join(lines) + "\n"

    # -- the job ---------------------------------------------------------------------------------------

    def _parts(self) -> list[str]:
        bus = ", 7/8: CAN YE/GN YE/BN twisted" if self.bus else ""
        lines = [
            "ringout: 1", "title: Random order", "preset: house", "plugs:", "  dash:", "    unit: radio",
            f"    cavities: {{1/2: FL WH WH/BK, 5/6: FR GY GY/BK, 3: AMP-ON BU, 4: B+ YE{bus}}}",
        ]  # fmt: skip
        if self.seat:
            lines += ["  seat:", "    unit: sensor", "    carries: SRS", "    cavities: {1: SRS YE, 2: GND BK}"]
        if self.loom:
            lines += [
                "looms:", "  T1:", "    ends: {unit: 8-way A, car: 8-way A}",
                f"    through: 3..4{' 7..8' if self.bus else ''}", "    leads:", "      1/2: FL WH WH/BK 18 AWG",
                "      5/6: FR GY GY/BK 18 AWG", "      car.3: AMP-ON BU 18 AWG",
            ]  # fmt: skip
            if self.spare:
                lines.append("      car.4: B+ YE 18 AWG")
        lines += [
            "units:", *(["  sensor: {kind: control unit}"] if self.seat else []),
            "  radio: {kind: radio, outputs: {FL FR: btl 8 V}, gives: {AMP-ON: 100 mA}}",
            "  amp:", "    kind: amplifier", "    inputs: {in1..2: 2..20 V differential}",
            "    outputs: {out1..2: 50 W @ 4 ohm}", "    routes: {out1: in1, out2: in2}", "    wakes: rem 20 mA",
            "speakers: {FL FR: {nominal: 4 ohm}}", "grounds: {G1: {place: seat, metal: bare}}",
        ]  # fmt: skip
        if self.spare:
            lines.append("capped: [T1.car.4]")
        if not self.loom:
            lines.append("cut: [dash.FL, dash.FR]")
        lines += ["joints:", *(["  mate: {T1: dash}"] if self.loom else []), "  crimp:"]
        owner = "T1" if self.loom else "dash"
        for number, channel in enumerate(CHANNELS, 1):
            for half, port in (("unit", "in"), ("car", "out")):
                lines.append(f"    {owner}.{half}.{channel}: amp.{port}{number}")
                ends = [f"{owner}.{half}.{cavity}" for cavity in CHANNELS[channel]]
                links = zip(ends, (f"amp.{port}{number}+", f"amp.{port}{number}-"), strict=True)
                self.joints[f"J{len(self.joints) + 1}"] = list(links)
        turn_on = "T1.car.3" if self.loom else "dash.unit.3"
        lines.append(f"    {turn_on}: amp.rem")
        self.joints["J5"] = [(turn_on, "amp.rem")]
        return [
            *lines, "runs:", "  - battery.+ > 12 in 8 AWG > fuse 30 A > 2 m 8 AWG > amp.B+",
            "  - amp.GND > 18 in 8 AWG > gnd.G1",
        ]  # fmt: skip

    # -- the order -------------------------------------------------------------------------------------

    def _one_of(self, verb: str, choices: tuple[tuple[str, float | None, dict[str, bool]], ...]) -> Act:
        words, waits, does = self.dice.choice(choices)
        return Act(verb, words, {**does, **({} if waits is None else {"waits": waits})})

    def _in_order(self) -> list[Act]:
        """A sensible order, steps divided now here, now there."""
        dice = self.dice
        acts = [self._one_of("power", _BATTERY_OFF)]
        if self.seat:
            acts.append(Act("unplug", "seat", {"apart": "seat"}))
        acts.append(Act("unplug", dice.choice(("dash", "dash from the radio")), {"apart": "dash"}))
        if self.loom and dice.random() < 0.4:
            words = "T1 in, every lead insulated, then pull the unit side"
            does = {"mates": ("unit", "car"), "insulates": True, "leaves": ("unit",)}
            acts.append(Act("try", words, does))
        acts.append(Act("tone", dice.choice(("every pair at dash", "dash")), {"tones": True}))
        if not self.loom:
            for channel, (first, second) in CHANNELS.items():
                words = dice.choice((f"dash.{channel}", f"dash.{first}/{second} behind the plug", f"{channel} at dash"))
                acts.append(Act("cut", words, {"cut": channel}))
        joints = list(self.joints)
        while joints:
            some = [joints.pop(0) for _ in range(min(len(joints), dice.choice((1, 2, 3))))]
            acts.append(Act("join", dice.choice((", ", " ")).join(some), {"joints": some}))
        if self.spare:
            acts.append(Act("cap", "T1.car.4", {"capped": True}))
        acts += self._supply()
        if self.loom:
            acts.append(Act("mate", dice.choice(("T1", "T1 into dash", "dash")), {"mates": ("unit", "car")}))
        else:
            acts.append(Act("mate", "dash", {"whole": "dash"}))
        if self.seat:
            acts.append(Act("mate", "seat", {"whole": "seat"}))
        acts.append(self._one_of("power", _BATTERY_ON))
        acts.append(Act("key", dice.choice(_KEY_ON), {"key": True}))
        return acts

    def _supply(self) -> list[Act]:
        """RUN 1 in pieces: `post` the wire at the battery, `fuse`, `far` the wire to the amplifier; RUN 2 whole."""
        way = self.dice.randrange(4)
        ground = Act("lay", "RUN 2", {"pieces": ("ground",)})
        if way == 0:
            return [
                Act("lay", "RUN 1, fuse out, the battery end insulated and not joined yet", {"pieces": ("far",)}),
                ground,
                Act("fuse", "RUN 1 to the battery, then the 30 A fuse in", {"pieces": ("post", "fuse")}),
            ]
        if way == 1:
            return [
                ground, Act("lay", "RUN 1, every fuse out", {"pieces": ("post", "far")}),
                Act("fuse", "RUN 1", {"pieces": ("fuse",)}),
            ]  # fmt: skip
        if way == 2:
            return [
                Act("lay", "RUN 1, its fuse in, the end at the amp not joined yet",
                    {"pieces": ("post", "fuse"), "hangs": True}),
                ground,
                Act("join", "RUN 1 to the amp", {"pieces": ("far",), "hangs": False}),
            ]  # fmt: skip
        return [Act("lay", "RUN 1 and RUN 2", {"pieces": ("post", "fuse", "far", "ground")})]

    def _shuffled(self, acts: list[Act]) -> list[Act]:
        """Some steps moved, and power switched in between; what ends a run stays behind what lays it."""
        dice = self.dice
        if dice.random() < 0.3:
            del acts[0]  # who never takes the battery off
        for _ in range(dice.choice((0, 1, 1, 2, 4, 8))):
            act = acts.pop(dice.randrange(len(acts)))
            acts.insert(dice.randrange(len(acts) + 1), act)
        halves = [
            Act("mate", "T1 radio side", {"mates": ("unit",)}), Act("mate", "T1 car end", {"mates": ("car",)}),
            Act("unplug", "T1 car end", {"pulls": ("car",)}), Act("unplug", "T1", {"pulls": ("unit", "car")}),
        ]  # fmt: skip
        for _ in range(dice.choice((0, 0, 1, 2, 4))):
            more = dice.choice(
                (
                    *(halves if self.loom else ()),
                    Act("key", dice.choice(_KEY_ON), {"key": True}), Act("key", dice.choice(_KEY_OFF), {"key": False}),
                    self._one_of("power", _BATTERY_OFF), self._one_of("power", _BATTERY_ON),
                    Act("power", "battery on, key on, then key off", {"battery": True, "key": True, "key_left": False}),
                    Act("wait", "60 s", {"waits": 60.0}),
                    Act("meter", "ohms across every pair at dash", {"tones": True}),
                    Act("unplug", "dash", {"apart": "dash"}), Act("note", "battery off? key on?", {}),
                )
            )  # fmt: skip
            acts.insert(dice.randrange(len(acts) + 1), more)
        if dice.random() < 0.2:  # cuts last of all, and the radio tried before them
            cuts = [act for act in acts if act.verb == "cut"]
            acts = [*(act for act in acts if act.verb != "cut"), *cuts]
        if dice.random() < 0.2:  # the ground last of all
            acts.sort(key=lambda act: act.does.get("pieces") == ("ground",))
        laid = [at for at, act in enumerate(acts) if "pieces" in act.does]
        first = min(at for at in laid if "RUN 1" in acts[at].words and acts[at].verb == "lay")
        later = [at for at in laid if "RUN 1" in acts[at].words and at < first]
        if later:  # a fuse before its run is no order at all
            acts[first], acts[later[0]] = acts[later[0]], acts[first]
        return acts
