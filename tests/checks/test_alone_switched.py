"""Relays, and what ACC alone wakes: one check at a time on jobs of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from tests.checks.alone import LINK, alike, found, told
from tests.graph import test_signals as signals
from tests.graph.test_supply import GROUNDS, HEAD
from tests.graph.test_supply import wiring_of as supplied

RELAYS = """\
units:
  k1: {kind: relay}
  k2: {kind: relay}
  amp: {kind: amplifier, draws: 5 A}
runs:
"""
TO_AMP = "k1.87 > fuse 10 A > 3 ft 12 AWG > amp.B+"


@pytest.mark.parametrize(
    ("runs", "contacts", "line"),
    [
        # the fuse behind the relay, before it, and of which no value is written; the run written from either end
        (f"battery.+ > 3 ft 12 AWG > k1.30; {TO_AMP}", "battery.+ k1.30", 1),
        (f"{TO_AMP}; k1.30 > 3 ft 12 AWG > battery.+", "battery.+ k1.30", 2),
        (f"battery.+ > fuse 10 A > 3 ft 12 AWG > k1.30; {TO_AMP}", "", 0),
        (f"battery.+ > fuse unknown > k1.30; {TO_AMP}", "", 0),
        # fed at 87; one that is fused before one that isn't; of two behind each other the first
        ("battery.+ > 3 ft 12 AWG > k1.87; k1.30 > fuse 10 A > amp.B+", "battery.+ k1.87", 1),
        (f"battery.+ > fuse 9 A > k1.30; {TO_AMP}; battery.+ > 1 ft 12 AWG > k2.30", "battery.+ k2.30", 3),
        (
            "battery.+ > 1 ft 12 AWG > k1.30; k1.87 > 1 ft 12 AWG > k2.30; k2.87 > fuse 9 A > amp.B+",
            "battery.+ k1.30",
            1,
        ),
    ],
)
def test_a_relay_without_a_fuse(runs: str, contacts: str, line: int) -> None:
    findings = found("E10", supplied(RELAYS + "".join(f"  - {run}\n" for run in runs.split("; "))))
    assert [" ".join(each.path) for each in findings] == [contacts] * bool(contacts)
    first = (HEAD.lstrip() + GROUNDS + RELAYS).count("\n")
    assert [each.places[0].place.line for each in findings] == [first + line] * bool(line)
    assert all(" ".join(each.about) == contacts.removeprefix("battery.+ ") for each in findings)


@pytest.mark.parametrize(
    ("found_so", "runs", "line"),
    [
        # the car's own wire up to the plug, ours behind it; all of it the car's: then the relay's row
        ("battery.+ > 1 m 8 AWG > C1.1", "C1.1 > 1 m 8 AWG > k1.30", 14), ("battery.+ > 1 m 8 AWG > k1.30", "", 6),
    ],
)  # fmt: skip
def test_a_relay_that_the_cars_wire_feeds(found_so: str, runs: str, line: int) -> None:
    job = RELAYS.replace("runs:\n", f"inline: {{C1: sill}}\nfound:\n  - {found_so}\nruns:\n  - {TO_AMP}\n")
    (finding,) = found("E10", supplied(f"{job}  - {runs}\n" if runs else job))
    assert finding.places[0].place.line == line


SWITCHED = LINK.replace("    CARRIES\n", "").replace(
    "CAVITIES", "1: AMP-ON BU, 2: IGN BN, 3: ACC RD, 4: ILL OG, 5: B+ YE"
)
WOKEN = (
    "amp: {kind: amplifier, outputs: {out1: 50 W}, wakes: rem}; "
    "two: {kind: amplifier, outputs: {out1: 50 W}, wakes: rem}; k1: {kind: relay}; "
    "face: {kind: interface, gives: {rem-out: 100 mA}, wakes: rem}"
)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        # only ACC is dropped in crank; the radio holds its own line, and IGN stays (common practice, no source)
        ("dash.1: amp.rem", []), ("dash.2: amp.rem", []), ("dash.4: amp.rem", []), ("dash.5: amp.rem", []),
        ("dash.3: amp.rem", ["amp rem is woken by dash cavity 3 (red, ACC), car side alone, which drops"]),
        ("dash.3: [amp.rem, two.rem]", ["amp and two cut out and pop."]),
        # with IGN beside it it isn't alone; one that holds before one that doesn't
        ("dash.3: [dash.2, amp.rem]", []), ("dash.2: amp.rem; dash.3: two.rem", ["two cuts out and pops."]),
        # through a unit it is that unit that drops; through a relay what the relay switches
        ("dash.3: face.rem; face.rem-out: amp.rem", ["face rem is woken by"]),
        ("dash.3: k1.86; dash.5: k1.30; k1.87: amp.rem", ["amp rem is woken by dash cavity 3 (red, ACC)"]),
        ("dash.2: k1.86; dash.5: k1.30; k1.87: amp.rem", []),
    ],
)  # fmt: skip
def test_what_drops_in_crank(joints: str, parts: list[str]) -> None:
    head = signals.HEAD.replace("steering: left", "steering: left, fitted: [stop-start]")
    alike(told("E12", signals.wiring_of(joints, WOKEN, SWITCHED, head=head)), parts)
    assert told("E12", signals.wiring_of(joints, WOKEN, SWITCHED)) == []


GATE = SWITCHED.replace("5: B+ YE", "5: B+ YE, 6: AERIAL BU/WH, 7: GND BK")
MORE = f"{WOKEN}; k2: {{kind: relay, coil: 100 mA diode}}; d1: {{kind: diode}}"


@pytest.mark.parametrize(
    ("code", "joints", "parts"),
    [
        # from a constant feed; with a switched one on the same wire it is another's fault; two at one joint
        ("E02", "dash.1: amp.rem", []), ("E02", "dash.5: amp.rem", ["amp rem is woken by dash cavity 5 (yellow, B+)"]),
        ("E02", "dash.5: [dash.3, amp.rem]", []), ("E02", "dash.5: [amp.rem, two.rem]", ["amp and two never sleep"]),
        ("E02", "dash.3: amp.rem; dash.5: two.rem", ["two rem is woken by dash cavity 5 (yellow, B+)"]),
        # from the aerial's feed, and from a lamp's, alone
        ("E03", "dash.6: amp.rem", ["amp rem has its 12 V from dash cavity 6 (blue with white stripe, AERIAL)"]),
        ("E03", "dash.6: [dash.3, amp.rem]", []), ("E03", "dash.4: amp.rem", []),
        ("E03", "dash.1: amp.rem; dash.6: two.rem", ["two rem has its 12 V from dash cavity 6"]),
        ("E04", "dash.4: amp.rem", ["amp rem has its 12 V from dash cavity 4 (orange, ILL)"]),
        ("E04", "dash.4: [dash.1, amp.rem]", []), ("E04", "dash.6: amp.rem", []),
        ("E04", "dash.1: two.rem; dash.4: amp.rem", ["amp rem has its 12 V from dash cavity 4"]),
        # from nothing: two that wait on one wire, and ground
        ("E01", "dash.1: amp.rem", []),
        ("E01", "amp.rem: two.rem", ["amp rem gets no 12 V: its wire goes as far as two rem, and nothing on it gives"]),
        ("E01", "dash.7: amp.rem", ["amp rem gets no 12 V: its wire goes as far as battery −"]),
        ("E01", "dash.1: amp.rem; dash.7: two.rem", ["two rem gets no 12 V"]),
        # a unit's output on what the radio gives, or the key
        ("E07", "face.rem-out: amp.rem", []), ("E07", "face.rem-out: dash.1", ["face rem-out and dash cavity 1 (blue"]),
        ("E07", "face.rem-out: dash.3; dash.3: amp.rem", ["face rem-out and dash cavity 3 (red, ACC), car side are"]),
        # a coil without anything across, with a diode inside, and with one beside it; the second of two
        ("E14", "face.rem-out: k1.86", ["face rem-out drives k1 86"]), ("E14", "face.rem-out: k2.86", []),
        ("E14", "face.rem-out: [k1.86, d1.k]; d1.a: k1.85", []),
        ("E14", "face.rem-out: [k1.86, d1.a]; d1.k: k1.85", ["face rem-out drives k1 86"]),
        ("E14", "face.rem-out: k2.86; dash.1: k1.86; k1.85: dash.7", ["dash cavity 1 (blue, AMP-ON)"]),
    ],
)  # fmt: skip
def test_where_12_volts_to_wake_come_from(code: str, joints: str, parts: list[str]) -> None:
    alike(told(code, signals.wiring_of(joints, MORE, GATE)), parts)


SEATED = "".join(
    LINK.replace("plugs:\n", head).replace("dash:", f"{name}:").replace("unit: radio", f"unit: {unit}")
    for head, name, unit in (("plugs:\n", "dash", "radio"), ("", "boot", "famp"))
)
LINES = SEATED.replace("    CARRIES\n", "").replace("CAVITIES", "1: AMP-ON BU, 2: MUTE BN")
LINES += "found:\n  - dash.1 > boot.1\n  - dash.2 > boot.2\n"
FAMP = (
    "famp: {kind: factory amplifier, outputs: {out1: 50 W}, gives: {rem-out: 100 mA}}; "
    "dsp: {kind: processor, gives: {rem-out: 100 mA}, wakes: rem}"
)


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("", "", []), ("", "cut: [dash.1]\n", ["famp AMP-ON loses its line from radio AMP-ON at dash cavity 1 (blue"]),
        # driven anew by another unit, by another line of the radio, and by the amplifier itself, which wakes nobody
        ("dsp.rem-out: dash.car.1", "cut: [dash.1]\n", []), ("dash.car.1: dash.car.2", "cut: [dash.1]\n", []),
        ("famp.rem-out: dash.car.1", "cut: [dash.1]\n", ["famp AMP-ON loses its line"]),
        ("dsp.rem: dash.car.1", "cut: [dash.1]\n", ["famp AMP-ON loses its line"]),
        # the second of two lines, and both; what gives them comes out, or the amplifier does
        ("", "cut: [dash.2]\n", ["famp MUTE loses its line from radio MUTE at dash cavity 2 (brown"]),
        ("", "cut: [dash.1, dash.2]\n", ["famp AMP-ON loses", "famp MUTE loses"]),
        ("", "removed: [radio]\n", ["from radio AMP-ON, which comes out", "from radio MUTE, which comes out"]),
        ("dsp.rem-out: dash.car.1", "removed: [radio]\n", ["famp MUTE loses"]),
        ("", "removed: [famp]\ncut: [dash.1]\n", []),
    ],
)  # fmt: skip
def test_lines_of_a_factory_amplifier(joints: str, more: str, parts: list[str]) -> None:
    alike(told("C18", signals.wiring_of(joints, FAMP, LINES + more)), parts)
