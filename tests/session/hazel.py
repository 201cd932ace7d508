"""One job for what is written at the car and printed of it; every expected value beside it is counted in this text."""

from __future__ import annotations

from pathlib import Path

from harness.prove import Proof, prove

JOB = """\
ringout: 1
title: Front doors over an amplifier
revision: C
car: {name: Hazel van, year: 2021, steering: left, lacks: [SUB, C]}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 6, view: wire, latch: top, first: top left, count: across}
    source: {chart: shop sheet 31, date: 2026-02-10, by: RK}
    cavities:
      1/7: FL WH WH/BK 0.75 mm2
      2/8: FR GY GY/BK 0.75 mm2
      3/9: RL GN GN/BK 0.75 mm2
      4: AMP-ON BU/WH 0.5 mm2
      10: SWC PK 0.35 mm2
looms:
  T1:
    ends: {unit: 12-way, car: 12-way}
    through: [3, 9, 10]
    leads:
      1/7: FL WH WH/BK 18 AWG
      2/8: FR GY GY/BK 18 AWG
      unit.4: AMP-ON BU/WH 18 AWG
      aerial: AERIAL BU 18 AWG
units:
  radio: {kind: radio, outputs: {FL FR RL: btl 8 V clean step 31}, gives: {AMP-ON: 100 mA}}
  amp:
    kind: amplifier
    place: under the left seat
    inputs: {in1..2: 2..20 V differential}
    outputs: {out1..2: 60 W @ 4 ohm least 2 ohm}
    routes: {out1: in1, out2: in2}
    wakes: rem 20 mA
speakers:
  FL FR RL: {place: doors, nominal: 4 ohm}
features:
  reverse beep: {from: radio, to: [spk.RL], kind: warning, key: run}
  hands-free: {from: radio, to: [spk.FL], kind: voice}
joints:
  mate: {T1: dash}
  crimp at behind the radio with heat shrink:
    T1.unit.FL: amp.in1
    T1.unit.FR: amp.in2
    T1.car.FL: amp.out1
    T1.car.FR: amp.out2
    T1.unit.AMP-ON: amp.rem
capped: [T1.aerial]
grounds: {G1: {place: left seat crossmember, metal: bare}}
runs:
  - battery.+ > 12 in 8 AWG > fuse 30 A > 11 ft 8 AWG via bulkhead grommet > amp.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
"""


def hazel(folder: Path, *records: str, job: str = JOB) -> Proof:
    """The job proved with these records, each `verb: … , key: …`, taken by JM a minute apart from 09:10 on."""
    path = folder / "hazel.yaml"
    path.write_text(job, encoding="utf-8")
    lines = [f"- {{when: 2026-03-02 09:{at:02}, by: JM, {each}}}\n" for at, each in enumerate(records, 10)]
    path.with_name("hazel.evidence.yaml").write_text("".join(lines), encoding="utf-8")
    proof = prove(path, mends=False)
    assert proof.wiring is not None, [finding.message for finding in proof.report.findings]
    return proof
