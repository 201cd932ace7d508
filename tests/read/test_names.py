"""Names that refer to nothing, to two things, or that can't be joined so: code, line and column, all in one pass.

Lines and columns are counted by hand in the texts below: `^` stands under the first character meant.
"""

from __future__ import annotations

import re

import pytest

from harness.read.job import read_job_text
from harness.read.troubles import Troubles

CAR = """\
ringout: 1
title: Names
plugs:
  dash:
    unit: radio
    cavities:
      1/2: FL WH WH/BK
      3/4: FR GY GY/BK
      5: GND BK
      6: GND BK
looms:
  T1: {ends: {unit: 8-way, car: 8-way}, leads: {1/2: FL WH WH/BK, aerial: AERIAL BU}}
units:
  radio: {kind: radio, outputs: {FL FR: btl 8 V}}
  amp: {kind: amplifier, inputs: {in1..2: 2..20 V}, outputs: {out1..2: 50 W}}
speakers: {FL FR: {nominal: 4 ohm}, SUB: {coils: 2 x 2 ohm separate}}
"""

CASES = {
    "no such plug, with the name meant": (
        """\
joints:
  crimp:
    dahs.1: amp.in1+
#   ^R20 dash
""",
    ),
    "no such terminal, and the second of two faults told too": (
        """\
joints:
  crimp:
    amp.in9: dash.FL
#   ^R20 amp
    amp.in1: spk.RL
#            ^R20 spk
""",
    ),
    "a function that two cavities have": (
        """\
joints:
  crimp:
    dash.GND: amp.GND
#   ^R21 dash.car.5
""",
    ),
    "a speaker with separate coils": (
        """\
joints:
  crimp:
    amp.out1: spk.SUB
#             ^R21 coil
""",
    ),
    "a pair to a single contact": (
        """\
joints:
  crimp:
    dash.FL: amp.in1+
#            ^R23 pair
""",
    ),
    "two pairs to one": (
        """\
joints:
  crimp:
    amp.in1..2: dash.FL
#               ^R23 pairs
""",
    ),
    "a plug that a loom opens, named without a side": (
        """\
joints:
  mate: {T1: dash}
  crimp:
    dash.FL: amp.in1
#   ^R24 dash.unit.FL
""",
    ),
    "a pair that is cut, named without a side": (
        """\
cut: [dash.FL]
joints:
  crimp:
    dash.1/2: amp.in1
#   ^R24 the cut
    dash.FR: amp.in2
""",
    ),
    "a joint called as another one is by its number": (
        """\
joints:
  crimp:
    amp.in1: dash.FL
    amp.in2: {to: dash.FR, name: j1}
#                                ^R22 by its number
""",
    ),
    "two joints of one name, a word of records, a unit's name and a speaker's": (
        """\
joints:
  crimp:
    amp.in1+: {to: dash.1, name: kick}
    amp.in1-: {to: dash.2, name: Kick}
#                                ^R22 another joint
    amp.in2+: {to: dash.3, name: last}
#                                ^R22 word of jobs
    amp.in2-: {to: dash.4, name: dash}
#                                ^R22 a plug
    amp.out1: {to: spk.FL, name: fr}
#                                ^R22 a speaker
    amp.out2: {to: spk.FR, name: J6}
""",
    ),
    "a contact joined to itself": (
        """\
joints:
  crimp:
    amp.in1: amp.in1
#            ^R25 itself
""",
    ),
    "a lead that has no cavity to be moved from": (
        """\
moved:
  T1.aerial: T1.car.3
# ^R25 terminal
""",
    ),
    "a name taken twice, a word of the file as a name": (
        """\
inline:
  amp: left pillar
# ^R22 unit
  spk: right pillar
# ^R22 word
""",
    ),
    "a loom plugged into a unit, an end that it has not, no such loom": (
        """\
joints:
  mate:
    T1: amp
#       ^R20 unit
    T9: dash
#   ^R20 T1
""",
    ),
    "removed and features name units": (
        """\
removed: [ampp]
#         ^R20 amp
features:
  reverse tone: radoi > spk.FL
#               ^R20 radio
""",
    ),
    "a preset that is none": (
        """\
preset: hose
#       ^R20 house
""",
    ),
    "a chain of a pair and a single wire, and one through nothing": (
        """\
found:
  - dash.FL > spk.FL+
#   ^R09 pair
  - dash.FR > C9.1/2 > spk.FR
#   ^R20 C9
""",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_each_name_error_is_told_at_its_place(name: str) -> None:
    (text,) = CASES[name]
    lines: list[str] = CAR.splitlines()
    expected: list[tuple[str, int, int]] = []
    words: dict[tuple[str, int, int], str] = {}
    for line in text.splitlines():
        mark = re.match(r"#( *)\^(R\d\d) (.+)", line)
        if mark is None:
            lines.append(line)
            continue
        key = (mark[2], len(lines), len(mark[1]) + 2)
        expected.append(key)
        words[key] = mark[3]
    troubles = Troubles()
    read_job_text("\n".join(lines) + "\n", "job.yaml", troubles)
    got = {(f.code, f.places[0].place.line, f.places[0].place.column): f for f in troubles.findings}

    assert sorted(got) == sorted(expected)
    for key, word in words.items():
        assert word in f"{got[key].message} {got[key].do}", got[key]


def test_a_joint_s_name_that_is_taken_names_the_other_place() -> None:
    """The name on line 22, the joint that has it by its number on line 20; line 23's own number is nobody else's."""
    rows = "joints:\n  crimp:\n    amp.in1: dash.FL\n    amp.in2: {to: dash.FR, name: J1}\n"
    own = rows.replace("name: J1", "name: J2")
    troubles, none = Troubles(), Troubles()
    read_job_text(CAR + rows, "job.yaml", troubles)
    read_job_text(CAR + own, "job.yaml", none)

    assert not none.findings
    (told,) = troubles.findings
    at = CAR.count("\n") + 1
    assert [(each.place.line, each.place.column) for each in told.places] == [(at + 3, 34), (at + 2, 5)]


def test_what_is_told_once_is_not_told_again_where_it_is_used() -> None:
    """A plug with a fault of its own: the joint on its missing row adds nothing."""
    text = CAR.replace("1/2: FL WH WH/BK\n", "1/2: FL WH\n", 1) + "joints:\n  crimp:\n    dash.FL: amp.in1\n"
    troubles = Troubles()
    read_job_text(text, "job.yaml", troubles)

    assert [(f.places[0].place.line, f.code[0]) for f in troubles.findings] == [(7, "R")]


def test_a_terminal_is_the_same_in_capitals() -> None:
    """Names are matched without case: `REM` is the amplifier's own `rem`, and the wire to it wakes it."""
    text = CAR.replace(
        "amp: {kind: amplifier,", "amp: {kind: amplifier, wakes: REM 35 mA, gives: {Rem-Out: 1 A}, bonds: [gnd in1-],"
    )
    job = read_job_text(text, "job.yaml", Troubles())
    assert job is not None
    own = [name.removeprefix("amp.") for name in job.contacts if name.startswith("amp.")]
    assert len({name.lower() for name in own}) == len(own)
    assert {"rem", "GND", "Rem-Out"} <= set(own)
    assert [each.terminals for each in job.parts.units["amp"].bonds] == [("GND", "in1-")]
