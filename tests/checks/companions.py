"""A sound piece of another job written into a fixture, before what it says and after it.

What is told of the fixture must stay as it is: nothing of the companion is joined to it. So a check that stops at
the first thing that doesn't concern it, or takes what is somebody else's, is found out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache

import yaml

from tests.checks.nodes_at import composed, edited
from tests.checks.transform import Written, renamed

# Every process that collects the tests reads all fixtures: by the C loader, where PyYAML was built with it.
_QUICK = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

Sections = Mapping[str, Mapping[str, str] | tuple[str, ...]]

# Feeds, grounds and a turn-on wire: a battery's cable over a fuse and a fuse block to two units, each on a ground of
# its own, the second woken by the first.
SUPPLY: Sections = {
    "units": {
        "zz-one": "{kind: interface, draws: 1 A, wakes: bus, gives: {rem-out: 200 mA}, leads: {B+: RD, GND: BK}}",
        "zz-two": "{kind: interface, draws: 1 A, wakes: rem 10 mA}",
        "zz-block": "{kind: fuse block, ways: 3, fuses: {1: 2 A, 2: 2 A}}",
        "zz-switch": "{kind: switch}",
    },
    "grounds": {"ZZ1": "{place: tailgate left, metal: bare}", "ZZ2": "{place: tailgate right, metal: bare}"},
    "inline": {"ZZ400": "tailgate hinge"},
    "runs": (
        "battery.+ > 10 in 8 AWG > fuse 20 A > 6 ft 8 AWG > zz-block.in",
        "zz-block.1 > 2 ft 16 AWG > ZZ400.1 > 2 ft 16 AWG > zz-one.B+",
        "zz-block.2 > 4 ft 16 AWG > zz-two.B+",
        "zz-one.GND > 1 ft 14 AWG > gnd.ZZ1",
        "zz-two.GND > 1 ft 14 AWG > gnd.ZZ2",
        "zz-one.rem-out > 2 ft 18 AWG > zz-two.rem",
    ),
}

# A plug in the tailgate with constant and switched feed, ground and lamps; the switched one drives a relay, and that
# over a diode a second one.
TAILGATE: Sections = {
    "plugs": {
        "zz-gate": "{place: tailgate, face: {rows: 1, columns: 9, view: wire, latch: top, count: across,"
        " first: top left}, source: {chart: bench sheet 77, date: 2026-03-02, by: JM},"
        " cavities: {1: B+ YE 1.5 mm2, 2: GND BK 1.5 mm2, 3: ACC RD 1 mm2, 4: ILL OG, 5: empty, 6: AMP-ON BU/WH}}",
    },
    "units": {
        "zz-relay": "{kind: relay, coil: 100 mA diode}",
        "zz-second": "{kind: relay, coil: 100 mA diode}",
        "zz-diode": "{kind: diode}",
    },
    "grounds": {"ZZ3": "{place: tailgate middle, metal: bare}"},
    "joints": {
        "crimp at tailgate with heat shrink": "{zz-gate.ACC: [zz-relay.86, zz-relay.30], zz-relay.85: gnd.ZZ3,"
        " zz-relay.87: zz-diode.a, zz-diode.k: zz-second.86, zz-second.85: gnd.ZZ3}",
    },
}

# A camera's plug with a bus, a loom plugged into it that passes everything and has an end left over, and a wire in
# another plug that is cut and capped.
CAMERA: Sections = {
    "plugs": {
        "zz-cam": "{place: tailgate, unit: zz-eye, face: {rows: 2, columns: 4, view: wire, latch: top, count: across,"
        " first: top left}, source: {chart: bench sheet 78, date: 2026-03-02, by: JM},"
        " cavities: {1: B+ YE 1 mm2, 2: GND BK 1 mm2, 3/4: CAN YE/GN YE/BN twisted, 5: ILL OG, 6: empty}}",
        "zz-lamp": "{place: tailgate lamp, face: {rows: 1, columns: 3, view: wire, latch: top, count: across,"
        " first: top left}, source: {chart: bench sheet 79, date: 2026-03-02, by: JM},"
        " cavities: {1: ILL OG, 2: GND BK}}",
    },
    "looms": {
        "zz-T": "{ends: {unit: 8-way Z, car: 8-way Z}, through: 1..5, leads: {car.5: ILL OG}}",
    },
    "units": {"zz-eye": "{kind: control unit}"},
    "inline": {"ZZ402": "tailgate hinge", "ZZ403": "roof lining"},
    "found": ("zz-cam.CAN > ZZ402.1/2 YE/GN YE/BN > ZZ403.1/2 YE/GN YE/BN > zz-eye.CAN",),
    "capped": ("zz-T.car.ILL", "zz-lamp.unit.1", "zz-lamp.car.1"),
    "cut": ("zz-lamp.1",),
    "joints": {"mate at tailgate": "{zz-T: zz-cam}"},
}

# A centre speaker on an amplifier of ours, which a processor feeds that has a source of its own.
CENTRE: Sections = {
    "units": {
        "zz-tuner": "{kind: interface, outputs: {out1: 2 V grounded clean step 20}, wakes: bus}",
        "zz-dsp": "{kind: processor, inputs: {in1: 0.3..4 V grounded}, outputs: {out1: 2 V grounded}, settings: zz.set,"
        " routes: {out1: in1 0 dB}, wakes: signal}",
        "zz-amp": "{kind: amplifier, inputs: {in1: 0.2..5 V differential},"
        " outputs: {out1: 50 W @ 4 ohm least 2 ohm}, routes: {out1: in1}, wakes: signal}",
    },
    "speakers": {"C": "{place: dash top, nominal: 4 ohm}"},
    "joints": {"screw at dash top": "{zz-tuner.out1: zz-dsp.in1, zz-dsp.out1: zz-amp.in1, zz-amp.out1: spk.C}"},
}
COMPANIONS = {"supply": SUPPLY, "tailgate": TAILGATE, "camera": CAMERA, "centre": CENTRE}


def beside(text: str, companion: Sections, *, first: bool) -> str:
    """The job with the companion's entries in each of its sections, before its own or after them."""
    changes: list[tuple[int, int, str]] = []
    behind: list[str] = []
    top = {key.value: value for key, value in composed(text).value}
    for section, entries in companion.items():
        rows = [f"{key}: {value}" for key, value in entries.items()] if isinstance(entries, Mapping) else [*entries]
        node = top.get(section)
        listed = not isinstance(entries, Mapping)
        if node is None or not getattr(node, "value", None) or not isinstance(node, yaml.CollectionNode):
            behind += [f"{section}:", *(f"  - {row}" if listed else f"  {row}" for row in rows)]
        elif node.flow_style:
            at = node.start_mark.index + 1 if first else node.end_mark.index - 1
            changes.append((at, at, f"{', '.join(rows)}, " if first else f", {', '.join(rows)}"))
        else:
            head = node.value[0] if listed else node.value[0][0]
            pad = " " * (node.start_mark.column if listed else head.start_mark.column)
            lines = "".join(f"{pad}{'- ' if listed else ''}{row}\n" for row in rows)
            at = _line_start(text, head.start_mark.line) if first else _end(text, node)
            changes.append((at, at, lines))
    return edited(text, changes).rstrip("\n") + "\n" + "".join(f"{line}\n" for line in behind)


def _line_start(text: str, line: int) -> int:
    return sum(len(each) for each in text.splitlines(keepends=True)[:line])


def _end(text: str, node: yaml.CollectionNode) -> int:
    """Where the line after a block's last word begins, remarks of that line included."""
    last: yaml.Node = node
    while isinstance(last, yaml.CollectionNode) and not last.flow_style and last.value:
        final = last.value[-1]
        last = final[1] if isinstance(final, tuple) else final
    end = last.end_mark
    line = end.line if end.column == 0 and end.line > last.start_mark.line else end.line + 1
    return _line_start(text, line)


# What is of the car as a whole, and what other files add: two jobs that differ in it can't be one.
_WHOLE = ("ringout", "title", "revision", "date", "shop", "car", "preset", "limits", "parts", "steps")
_OF_THE_CAR = ("date", "car", "preset", "limits")


@cache
def sections_of(text: str) -> Sections:
    """A job's own entries under new names, each on one line, to be written beside another job."""
    job = yaml.load(renamed(Written(text, None)).job.replace("spot-", "place-"), Loader=_QUICK)
    made: dict[str, Mapping[str, str] | tuple[str, ...]] = {}
    for section, entries in job.items():
        if section in _WHOLE:
            continue
        if section == "joints":
            made[section] = {_elsewhere(key, at): _line(value) for at, (key, value) in enumerate(entries.items())}
        elif isinstance(entries, list):
            made[section] = tuple(_line(each) for each in entries)
        else:
            made[section] = {_line(key): _line(value) for key, value in entries.items()}
    return made


@cache
def records_of(text: str, evidence: str) -> str:
    """The records of such a job under the same new names, one on a line, without the marks behind them."""
    named = renamed(Written(text, evidence)).evidence or ""
    return "".join(f"- {_line(each)}\n" for each in yaml.load(named.replace("spot-", "place-"), Loader=_QUICK))


def _elsewhere(method: str, number: int) -> str:
    """`solder at behind the radio with tape` made at another place, since no key may stand twice."""
    said = re.fullmatch(r"(\S+)(?: at .*?)?( with .*)?", method)
    assert said is not None, method
    return f"{said[1]} at the far end {number}{said[2] or ''}"


def _line(written: object) -> str:
    return yaml.safe_dump(written, default_flow_style=True, width=10_000).removesuffix("\n...\n").rstrip("\n")


@cache
def _loaded(text: str) -> dict[str, object]:
    made = yaml.load(text, Loader=_QUICK)
    assert isinstance(made, dict)
    return made


def go_together(one: str, other: str) -> bool:
    """Whether two jobs can be one: of the same car, both with runs or both without, no channel in both."""
    first, second = _loaded(one), _loaded(other)
    if any(name in each for each in (first, second) for name in ("parts", "steps")):
        return False
    if _kinds(first) & _kinds(second):
        return False
    if any(first.get(name) != second.get(name) for name in _OF_THE_CAR) or ("runs" in first) != ("runs" in second):
        return False
    if "|\n" in other:  # a face drawn over several lines
        return False
    return not _channels(one) & _channels(other)


def _channels(text: str) -> set[str]:
    return set(re.findall(r"\b(?:FL|FR|RL|RR|C|SUB2?|LF|RF|LR|driver|passenger)\b", text))


def _kinds(job: Mapping[str, object]) -> set[str]:
    """The car's functions that a job says something of."""
    features = job.get("features")
    return {str(kind) for kind in features} if isinstance(features, dict) else set()


def to_the_rear(text: str) -> str:
    """A job of the front speakers alone as one of the rear ones."""
    return re.sub(r"\bF([LR])\b", r"R\1", text) if _channels(text) <= {"FL", "FR", "C", "SUB", "SUB2"} else text


def to_the_middle(text: str) -> str:
    """A job of a sub as one of the centre speaker."""
    return text if {"C", "SUB2"} & _channels(text) else re.sub(r"\bSUB\b", "C", text)


# How another job may be told apart from one with the same speakers.
TURNS: tuple[Callable[[str], str], ...] = (
    str, to_the_rear, to_the_middle, lambda text: to_the_middle(to_the_rear(text)),
)  # fmt: skip
