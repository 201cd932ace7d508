"""A sound piece of another job written into a fixture, before what it says and after it.

What is told of the fixture must stay as it is: nothing of the companion is joined to it. So a check that stops at
the first thing that doesn't concern it, or takes what is somebody else's, is found out.
"""

from __future__ import annotations

from collections.abc import Mapping

import yaml

from tests.checks.nodes_at import composed, edited

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
