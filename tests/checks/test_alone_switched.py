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
