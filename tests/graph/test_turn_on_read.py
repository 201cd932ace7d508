"""Readings on turn-on wires, judged by hand.

Good is 11 to 15 V, and power is retained for 5 to 10 min (a trade guide's page, seen 2026). Less than 10 V, more than
1 V lost on the way, and 1 V or more half a minute after that are faults: common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove

JOB = """\
ringout: 1
title: Two units woken by two wires
car: {name: Hazel van, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 4, view: wire, latch: top, count: across, first: top left}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      2: ACC RD
      3: AMP-ON BU
inline: {C310: left sill}
units:
  radio: {kind: radio, gives: {AMP-ON: 100 mA}}
  box: {kind: interface, wakes: on 5 mA}
  amp: {kind: amplifier, draws: 20 A, wakes: rem 35 mA}
grounds: {G1: {place: left seat crossmember, metal: bare}}
joints:
  solder at behind the radio with tape: {dash.2: box.on}
runs:
  - battery.+ > 12 in 8 AWG > fuse 30 A > 12 ft 8 AWG via bulkhead grommet > amp.B+
  - dash.AMP-ON > 1 m 18 AWG > C310.5 > 1 m 18 AWG > amp.rem
  - amp.GND > 18 in 8 AWG > gnd.G1
"""
SOURCE, SILL, END = "dash.unit.3", "C310.unit.5", "amp.rem"
Told = list[tuple[str, int, tuple[str, ...]]]


def volts(contact: str, reads_v: float, key: str = "run", more: str = "") -> str:
    return f"volts: {contact}, reads: {reads_v} V, key: {key}{more}"


def asleep(contact: str, reads_v: float, waited: str = "", key: str = "locked") -> str:
    return volts(contact, reads_v, key, f", waited: {waited}" if waited else "")


def told(records: tuple[str, ...], folder: Path) -> Told:
    """Code, number of the record, and the two ends of the path of each finding."""
    job = folder / "job.yaml"
    job.write_text(JOB, encoding="utf-8")
    (folder / "job.evidence.yaml").write_text("".join(f"- {{by: JM, {each}}}\n" for each in records), encoding="utf-8")
    report = prove(job, mends=False).report
    assert report.verdict != "unreadable", [finding.message for finding in report.findings]
    found = [each for each in report.findings if each.code in ("E06", "E11")]
    return [(each.code, each.places[0].place.line, (*each.path[:1], *each.path[-1:])) for each in found]


CASES: tuple[tuple[tuple[str, ...], Told], ...] = (
    # 12.0 - 11.0 is the limit, 12.0 - 10.9 more
    ((volts(SOURCE, 12.0), volts(END, 11.0)), []),
    ((volts(SOURCE, 12.0), volts(END, 10.9)), [("E06", 2, (SOURCE, END))]),
    # 0.5 V and 1.1 V; 1.5 V and 0.3 V; 0.8 V and 0.8 V are told once, at the first
    ((volts(SOURCE, 13.0), volts(SILL, 12.5), volts(END, 11.4)), [("E06", 3, (SILL, END))]),
    ((volts(SOURCE, 13.0), volts(SILL, 11.5), volts(END, 11.2)), [("E06", 2, (SOURCE, SILL))]),
    ((volts(SOURCE, 12.0), volts(SILL, 11.2), volts(END, 10.4)), [("E06", 2, (SOURCE, SILL))]),
    # 0.6 V in all, though volts on the way seem to rise and fall
    ((volts(SOURCE, 12.0), volts(SILL, 12.6), volts(END, 11.4)), []),
    # alone: 10 V is enough, less isn't; a unit that is asleep in accessory may be right
    ((volts(END, 10.0),), []),
    ((volts(END, 9.9),), [("E06", 1, (SOURCE, END))]),
    ((volts(SOURCE, 9.9, "engine"),), [("E06", 1, ())]),
    ((volts(END, 0.1, "accessory"),), []),
    # both low: nothing is lost between them, and the end is told
    ((volts(SOURCE, 9.5), volts(END, 9.4)), [("E06", 2, (SOURCE, END))]),
    # other records before it, and the other unit's wire: the car gives ACC, on its half of the plug
    (("seen: the boot", volts("box.on", 12.0), volts(END, 9.0)), [("E06", 3, (SOURCE, END))]),
    (("seen: the boot", volts("box.on", 9.0), volts(END, 12.0)), [("E06", 2, ("dash.car.2", "box.on"))]),
    # levels of a signal, ohms, words, another key, what no longer holds
    ((volts(END, 2.0, more=", signal: 1 kHz"),), []),
    ((volts(END, 2.0, more=", step: 31"),), []),
    (("ohm: amp.rem, reads: 9 ohm, key: run", "volts: amp.rem, reads: over, key: run"), []),
    (("ohm: amp.rem, reads: 9 V, key: run",), []),
    ((volts(SOURCE, 14.4, "engine"), volts(END, 11.9)), []),
    ((volts(SOURCE, 14.4, more=", fact: [3 AMP-ON RD]"), volts(END, 11.9)), []),
    ((volts(SOURCE, 14.4, more=", fact: [3 AMP-ON BU]"), volts(END, 11.9)), [("E06", 2, (SOURCE, END))]),
    # the last reading of a contact counts
    ((volts(END, 9.0), volts(END, 11.9)), []),
    # asleep: 1 V is too much, 10 min and 30 s are not enough, nor is what nobody timed
    ((asleep(END, 1.0, "15 min"),), [("E11", 1, (SOURCE, END))]),
    ((asleep(END, 0.99, "15 min"),), []),
    ((asleep(END, 3.1, "630 s"),), []),
    ((asleep(END, 3.1, "631 s"),), [("E11", 1, (SOURCE, END))]),
    ((asleep(END, 3.1),), []),
    ((asleep(END, 3.1, "15 min", "out"),), [("E11", 1, (SOURCE, END))]),
    ((asleep(END, 3.1, "15 min", "accessory"),), []),
    # read at the source itself there is no way to show, one step beyond it there is
    ((asleep(SOURCE, 3.1, "15 min"),), [("E11", 1, ())]),
    ((asleep("dash.car.3", 3.1, "15 min"),), [("E11", 1, (SOURCE, "dash.car.3"))]),
    # of a wire the last reading that says something: hardly any volts do, at once; volts do after the wait
    ((asleep(END, 3.1, "15 min"), asleep(SILL, 0.2)), []),
    ((asleep(SILL, 0.2), asleep(END, 3.1, "15 min")), [("E11", 2, (SOURCE, END))]),
    ((asleep(END, 3.1, "15 min"), asleep(END, 3.1, "2 min", "out")), [("E11", 1, (SOURCE, END))]),
    # the wire of the other unit, and one that wakes nobody
    ((asleep("box.on", 0.1, "15 min"), asleep(END, 4.0, "15 min")), [("E11", 2, (SOURCE, END))]),
    ((asleep("amp.B+", 12.6, "15 min"),), []),
)


@pytest.mark.parametrize(("records", "expected"), CASES)
def test_what_a_meter_read(records: tuple[str, ...], expected: Told, tmp_path: Path) -> None:
    assert told(records, tmp_path) == expected


def test_a_wire_that_nothing_gives_volts(tmp_path: Path) -> None:
    """Nothing is joined to it at the radio: it is told at the terminal, and there is no way to show."""
    text = JOB.replace("dash.AMP-ON > 1 m 18 AWG > C310.5", "C310.5")
    (tmp_path / "job.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "job.evidence.yaml").write_text(f"- {{{asleep(END, 3.1, '15 min')}}}\n", encoding="utf-8")
    (found,) = (each for each in prove(tmp_path / "job.yaml", mends=False).report.findings if each.code == "E11")
    assert found.path == ()
