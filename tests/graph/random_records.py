"""Random rows of records about one small job, each as text and as plain data with what is known to hold of it."""

from __future__ import annotations

import random
from typing import NamedTuple

JOB = """\
ringout: 1
title: Records at random
car: {name: Bench hatch, year: 2021, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 6, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/2: FL WH WH/BK
      3/4: FR GY GY/BK
      5/6: RL GN GN/BK
      7/8: RR VT VT/BK
      9: ACC RD
      10: AMP-ON BU
units:
  radio: {kind: radio, outputs: {FL FR RL RR: btl 8 V}, gives: {AMP-ON: 100 mA}}
  amp:
    kind: amplifier
    inputs: {in1..2: 2..20 V differential}
    outputs: {out1..2: 50 W @ 4 ohm least 2 ohm}
    routes: {out1: in1 100.. Hz, out2: in2}
    wakes: rem 20 mA
  loc: {kind: line converter, inputs: {in1: 2..20 V differential}}
speakers:
  FL RL RR: {nominal: 4 ohm}
  FR: {nominal: 4 ohm, capacitor: 47 uF}
features:
  reverse beep: {from: radio, to: [spk.RL], kind: warning}
  rear voice: {from: radio, to: [spk.RL], kind: voice}
cut: [dash.FL, dash.FR]
joints:
  crimp with heat shrink:
    dash.unit.FL: amp.in1
    dash.unit.FR: amp.in2
    dash.car.FL: amp.out1
    dash.car.FR: amp.out2
    dash.car.RL: loc.in1
    dash.car.10: amp.rem
"""
PAIRS = {"FL": ("1", "2"), "FR": ("3", "4"), "RL": ("5", "6"), "RR": ("7", "8")}
FACTS = {"FL": ("1 FL+ WH", "1 FL+ BN"), "FR": ("3 FR+ GY", "3 FR+ BN"), "RL": ("5 RL+ GN", "5 RL+ BN"),
         "RR": ("7 RR+ VT", "7 RR+ BN")}  # fmt: skip
# of this car; of another one
CARS = {"Bench hatch": False, "bench  Hatch 2021": False, "Bench hatch 2019": True, "Larch van": True}


class Said(NamedTuple):
    """One record: its line in the file, whether it holds no more, and whether it is another car's."""

    line: int
    verb: str
    what: str
    contacts: tuple[str, ...]
    words: dict[str, str]
    stale: bool
    foreign: bool

    def word(self, key: str) -> str:
        return self.words.get(key, "")


def random_records(seed: int) -> tuple[str, list[Said]]:
    """The evidence file's text, and its records as data."""
    dice = random.Random(seed)
    rows, said = [], []
    for line in range(1, dice.randint(4, 30)):
        verb, what, contacts, words = _one(dice)
        words.setdefault("by", dice.choice(["", "JM", "JM", "jm", "RK"]))
        words = {key: value for key, value in words.items() if value}
        stale, foreign = what == "amp.out9", False  # the job has no such output
        if dice.random() < 0.12:
            words["car"] = dice.choice(list(CARS))
            foreign = CARS[words["car"]]
            stale = stale or foreign
        if contacts and contacts[0].split(".")[0] == "dash" and dice.random() < 0.2:
            last = contacts[0].rpartition(".")[2]
            pair = next((name for name, cavities in PAIRS.items() if last in cavities), "FL")
            old = dice.random() < 0.6
            words["fact"] = f"[{FACTS[pair][old]}]"
            at_plus = contacts[0].endswith(f".{PAIRS[pair][0]}") or len(contacts) > 1
            stale = stale or (old and at_plus)
            if not at_plus:
                del words["fact"]  # it says nothing of this contact
        cells = (
            f'{key}: "{value}"' if "," in value and value[0] != "[" else f"{key}: {value}"
            for key, value in words.items()
        )
        rows.append(f"- {{{', '.join([f'{verb}: {what}', *cells])}}}")
        said.append(Said(line, verb, what, contacts, words, stale, foreign))
    return "\n".join(rows) + "\n", said


def _one(dice: random.Random) -> tuple[str, str, tuple[str, ...], dict[str, str]]:
    kind = dice.choice(
        [
            "tone",
            "tone",
            "polarity",
            "ohm",
            "ohm",
            "volts",
            "volts",
            "plays",
            "plays",
            "name",
            "name",
            "wake",
            "wake",
            "built",
        ]
    )
    if kind == "wake":
        what = dice.choice(["amp.rem", "amp.rem", "dash.car.10", "dash.unit.10"])
        key = dice.choice(["out", "out", "locked", "accessory", "run", "run", "engine", "crank"])
        reads = dice.choice(["12.4 V", "11.4 V", "-11.3 V", "9.9 V", "10 V", "0.9 V", "1 V", "15.2 V", "19 V", "open"])
        waited = dice.choice(["", "", "5 min", "630 s", "11 min"]) if key in ("out", "locked") else ""
        return "volts", what, (what,), {"reads": reads, "key": key, "waited": waited}
    if kind == "built":
        what, contacts = dice.choice(
            [("dash.car.1/2", ("dash.car.1", "dash.car.2")), ("dash.car.1", ("dash.car.1",)),
             ("dash.unit.3/4", ("dash.unit.3", "dash.unit.4")), ("dash.car.5/6", ("dash.car.5", "dash.car.6")),
             ("dash.car.7/8", ("dash.car.7", "dash.car.8")), ("amp.rem", ("amp.rem",)), ("dash.car.9", ("dash.car.9",))]
        )  # fmt: skip
        words = [
            "as planned",
            "capped",
            "cap",
            "intercepted",
            "tap",
            "passed",
            "used",
            "joined",
            "loose",
            "amp.out1",
            "AMP.in2",
        ]
        words += ["amp.out1, used", "intercepted, capped", "loc.in1", "no idea"]
        return "built", what, contacts, {"is": dice.choice(words)}
    if kind == "plays":
        what = dice.choice(["radio.FL", "radio.FR", "Radio.RL", "radio.RR", "amp.out1", "AMP.out2", "amp.out9", "horn"])
        heard = dice.choice(["FL", "FR", "RL", "fr", "FL RL", "FL, FR", "none", "FL horn", "", "RR"])
        words = {"heard": heard}
        words["signal"] = dice.choice(["", "", "1 kHz", "50 Hz", "pink noise", "100 Hz"])
        words["follows"] = dice.choice(["", "both", "nothing", "fader", "volume"])
        known = {"radio.FL", "radio.FR", "radio.RL", "radio.RR", "amp.out1", "amp.out2"}
        name = next((each for each in known if each.lower() == what.lower()), "")
        return "plays", what, (f"{name}+", f"{name}-") if name else (), words
    if kind == "name":
        return _named(dice)
    pair = dice.choice(list(PAIRS))
    half = dice.choice(["car", "car", "car", "unit"]) if kind in ("tone", "polarity") else "car"
    cavities = PAIRS[pair][::-1] if dice.random() < 0.1 and kind in ("ohm", "volts") else PAIRS[pair]
    words: dict[str, str] = {}
    if kind in ("ohm", "volts") and dice.random() < 0.25:
        cavities = cavities[:1]
    if kind == "tone":
        words = {"charted": pair, "heard": dice.choice([pair, pair, pair, "RL", f"{pair} RR", "none"])}
    if kind in ("tone", "polarity"):
        words["plus"] = dice.choice(["", cavities[0], cavities[0], cavities[1]])
        words["how"] = dice.choice(["", "9 V battery", "tone box", "a cell"])
    if kind == "tone" and dice.random() < 0.3 and half == "car":
        words["reads"] = dice.choice(["3.3 ohm", "open"])
    if kind == "ohm":
        words["reads"] = dice.choice(["3.3 ohm", "3.3 ohm", "open", "8 ohm", "0.1 ohm", "7 V", "5 kohm", "200 kohm"])
        words["body"] = dice.choice(["", "", "open", "5 kohm", "150 kohm"]) if len(cavities) > 1 else ""
    if kind in ("ohm", "tone") and len(cavities) > 1 and half == "car":
        words["dc"] = dice.choice(["", "", "", "0 V", "4 V", "-2 V"])
    if kind == "volts":
        words["reads"] = dice.choice(["0 V", "0.05 V", "0.4 V", "-0.4 V", "11 V", "18 V", "19 V", "3 ohm", "open"])
        words["key"] = dice.choice(["out", "run", ""])
        words["step"] = dice.choice(["", "", "", "20"])
        words["signal"] = dice.choice(["", "", "", "1 kHz"])
    return kind, f"dash.{half}.{'/'.join(cavities)}", tuple(f"dash.{half}.{each}" for each in cavities), words


def _named(dice: random.Random) -> tuple[str, str, tuple[str, ...], dict[str, str]]:
    verb = dice.choice(
        ["before", "after", "before", "after", "signed", "signed", "seen", "seen", "handover", "printed"]
    )
    words: dict[str, str] = {}
    if verb in ("before", "after"):
        what = dice.choice(["reverse beep", "rear voice", "Rear Voice", "fog horn"])
        words["result"] = dice.choice(["works", "works", "silent", "wrong", "not tried", ""])
    elif verb == "signed":
        what = dice.choice(["released", "lost", "lost"])
        words["by"] = dice.choice(["", "JM", "RK"])
        if what == "lost":
            words["lost"] = dice.choice(["[rear voice]", "[Rear voice, fog horn]", "[reverse beep]", "[fog horn]"])
        else:
            words["reason"] = dice.choice(["", "no time", "customer leaves"])
            words["who"], words["name"] = dice.choice(["", "foreman"]), dice.choice(["", "R. Kern"])
    elif verb == "seen":
        what = dice.choice(["amp", "AMP", "radio", "horn"])
        words["shows"] = dice.choice(["", "blinks", "green", "Red, then green", "dark", "steady red"])
    elif verb == "handover":
        what = dice.choice(["paused", "paused", "paused", "taken", "closed"])
        if what == "paused":
            words = {key: dice.choice(["", "all", "all", "none"]) for key in ("done", "left", "parts", "odd")}
    else:
        what = "all"
    return verb, what, (), words
