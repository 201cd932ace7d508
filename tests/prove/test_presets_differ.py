"""Each choice in which two presets differ has a job on which their findings differ.

The pairs and the disputed choices are read from the presets, so one that is added without its job here fails. What each
preset must find is worked out by hand from the figures in `harness/presets.py`, whose bases are trade pages, workshop
manuals and common practice; the line above each job says the sum.
"""

from __future__ import annotations

from itertools import combinations

import pytest

from harness import presets
from harness.prove import prove_text

DASH = """
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 6, view: wire, latch: top, count: across, first: top left}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities: {1/2: FL WH WH/BK, 3: B+ YE, 5/6: CAN YE/GN YE/BN twisted}
"""
CABLE = """
units:
  amp: {kind: amplifier, draws: 90 A, wakes: signal, leads: {B+: RD, GND: BK}}
grounds: {G1: {place: left seat crossmember, metal: bare}}
runs:
  - battery.+ > FIRST 4 AWG > fuse RATING > 5 ft 4 AWG > amp.B+
  - amp.GND > 18 in 4 AWG > gnd.G1
"""
SUB = """
units:
  amp: {kind: amplifier, outputs: {out1: 100 W @ 2 ohm least 2 ohm}, wakes: signal, class: D}
speakers: {SUB: {place: boot, nominal: 4 ohm, new: 10 inch}}
grounds: {G1: {place: boot floor, metal: bare}}
runs:
  - amp.GND > 18 in 8 AWG > gnd.G1
  - amp.out1 > 28 ft 16 AWG > spk.SUB
"""

# choice -> the job, the code, and the presets under which it is told
JOBS: dict[str, tuple[str, str, set[str]]] = {
    # 75 mm lie between the 50 mm and the 100 mm of two makers' manuals
    "untwist": (
        DASH
        + "units: {radio: {kind: radio}, face: {kind: interface, leads: {CAN: YE/GN YE/BN}}}\n"
        + "joints:\n  solder with tape:\n    face.CAN: {to: dash.CAN, untwist: 75 mm}\n",
        "G02", {"crimp"},
    ),
    # 15 in lie between 12 in and 18 in; 100 A is within either chart for 4 AWG
    "fuse distance": (CABLE.replace("FIRST", "15 in").replace("RATING", "100 A"), "F02", {"crimp"}),
    # one chart has 125 A for 4 AWG, the other 135 A
    "fuse chart": (CABLE.replace("FIRST", "12 in").replace("RATING", "130 A"), "F03", {"house"}),
    # 2 x 28 ft x 4.016 ohm / 1000 ft = 0.225 ohm; 0.225 / 4.225 = 5.3 %, between 5 %
    # and 0.5 dB, which is 1 - 10^(-0.5/20) = 5.6 %
    "speaker wire": (SUB, "D06", {"house"}),
    # one camp solders the car's own wires and looms, the other crimps them
    "joints on factory wires": (
        DASH
        + "units: {radio: {kind: radio}, box: {kind: interface}}\njoints:\n  solder with tape: {dash.3: box.B+}\n",
        "H04", {"crimp"},
    ),
    "joints on loom wires": (
        DASH
        + "looms:\n  T1:\n    ends: {unit: 6-way A, car: 6-way A}\n    through: 1..2 5..6\n    leads: {unit.3: B+ YE}\n"
        + "units: {radio: {kind: radio}, box: {kind: interface, leads: {B+: YE}}}\n"
        + "joints:\n  mate: {T1: dash}\n  solder with tape: {T1.unit.3: box.B+}\n",
        "H04", {"crimp"},
    ),
    # a soldered supply between two units' terminals
    "joints on terminal wires": (
        "\nunits: {one: {kind: interface}, two: {kind: interface}}\njoints:\n  solder with tape: {one.B+: two.B+}\n",
        "H04", {"crimp"},
    ),
}  # fmt: skip


def disputed(one: str, other: str) -> set[str]:
    """The choices in which two presets differ: figures, the chart, and the methods by where they are used."""
    a, b = presets.preset(one), presets.preset(other)
    made = {name for name in a.figures.keys() | b.figures.keys() if a.figures.get(name) != b.figures.get(name)}
    made |= {"fuse chart"} if a.fuse_chart != b.fuse_chart else set()
    classes = [key for key in a.joints.keys() | b.joints.keys() if a.joints.get(key) != b.joints.get(key)]
    unlike = {where for where, what in classes if a.allowed(where, what).methods != b.allowed(where, what).methods}
    return made | {f"joints on {where} wires" for where in unlike}


PAIRS = [(*pair, choice) for pair in combinations(presets.names(), 2) for choice in sorted(disputed(*pair))]


def codes(choice: str, preset: str) -> set[str]:
    job = f"ringout: 1\ntitle: {choice}\npreset: {preset}\ncar: {{name: Bench car, steering: left}}\n{JOBS[choice][0]}"
    return {finding.code for finding in prove_text(job, "job.yaml", mends=False).report.findings}


def test_there_is_a_pair_and_each_of_them_disputes_something() -> None:
    assert {pair[:2] for pair in PAIRS} == set(combinations(presets.names(), 2)) != set()


@pytest.mark.parametrize(("one", "other", "choice"), PAIRS)
def test_two_presets_find_different_things(one: str, other: str, choice: str) -> None:
    assert choice in JOBS, f"{one} and {other} differ in {choice}, and no job here shows it"
    code, told_under = JOBS[choice][1:]
    found = {preset for preset in (one, other) if code in codes(choice, preset)}
    assert found == told_under & {one, other}
    assert len(found) == 1, "both presets say the same"
    assert codes(choice, one) ^ codes(choice, other) == {code}


def test_no_job_is_about_something_that_nobody_disputes() -> None:
    assert set(JOBS) == {choice for _, _, choice in PAIRS}
