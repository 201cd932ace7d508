"""What a run can't judge is listed, and what it can is not: two jobs, one of which leaves out what the other writes."""

from __future__ import annotations

import pytest

from harness.prove import prove_text

BARE = """\
ringout: 1
title: Nothing more than needed
car: {name: Hazel van, steering: left}
plugs:
  dash:
    place: behind the radio
    ways: 6
    unit: radio
    face: {rows: 1, columns: 6, view: wire, latch: top, count: across, first: top left}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM, covers: 2018..2020}
    cavities: {1: B+ YE, 3: GND BK}
  full:
    place: kick panel
    ways: 2
    face: {rows: 1, columns: 2, view: wire, latch: top, count: across, first: top left}
    cavities: {1: ILL OG, 2: GND BK}
units:
  radio: {kind: radio, outputs: {FL: btl 8 V}}
  amp: {kind: amplifier, inputs: {in1..2: 2..20 V differential}, outputs: {out1..2: 50 W @ 4 ohm}}
  sub: {kind: amplifier, inputs: {in1: 2..20 V}, outputs: {out1: 50 W @ 4 ohm}, routes: {out1: in1}, wakes: rem}
  k1: {kind: relay}
speakers:
  SUB: {place: boot, new: one}
  C: {place: dash, nominal: 4 ohm, new: one}
joints:
  screw:
    amp.out1: spk.SUB
    sub.out1: spk.C
"""


def listed(text: str, *, steps: bool = False) -> dict[str, str]:
    proof = (
        prove_text(text, "job.yaml", mends=False, steps=steps) if steps else prove_text(text, "job.yaml", mends=False)
    )
    assert proof.wiring is not None, [finding.message for finding in proof.report.findings]
    return {each.what: each.why for each in proof.report.unchecked}


# Each fact that BARE leaves out; four cavities of six are not there, `full` has both of its two.
LEFT_OUT = {
    "the order of work": "--steps",
    "supply and ground": "no `runs:`",
    "what wakes amp": "no `wakes`",
    "the turn-on of sub": "nothing is joined to it",
    "the load of amp out1": "the ohms of SUB are not written",
    "the load of sub out1": "the least load",
    "routes inside amp": "the input of its number",
    "whether the chart of dash is for this car": "the year of the car",
    "4 of 6 cavities of dash": "not recorded",
}


@pytest.mark.parametrize(("what", "why"), LEFT_OUT.items())
def test_what_is_left_out_is_listed(what: str, why: str) -> None:
    assert why in listed(BARE)[what]


def test_what_is_not_wanted_is_not_listed() -> None:
    """A relay without anything on it, a plug with all its cavities, routes that are said, the radio's own outputs."""
    made = listed(BARE)
    for word in ("k1", "full", "wakes sub", "wakes radio", "inside sub", "inside radio", "load of radio", "connector"):
        assert not [what for what in made if word in what], word


@pytest.mark.parametrize(
    ("old", "new", "gone"),
    [
        ("steering: left", "steering: left, year: 2019", "whether the chart of dash is for this car"),
        ("out1..2: 50 W @ 4 ohm}}", "out1..2: 50 W @ 4 ohm}, wakes: signal}", "what wakes amp"),
        ("out1..2: 50 W @ 4 ohm}}", "out1..2: 50 W @ 4 ohm}, routes: {out1: in1}}", "routes inside amp"),
        ("out1: 50 W @ 4 ohm}, routes", "out1: 50 W @ 4 ohm least 2 ohm}, routes", "the load of sub out1"),
        ("wakes: rem}", "wakes: rem bus}", "the turn-on of sub"),
        ("{1: B+ YE, 3: GND BK}", "{1: B+ YE, 2: empty, 3: GND BK, 4: empty, 5: empty, 6: empty}",
         "4 of 6 cavities of dash"),
        ("joints:", "removed: [amp]\njoints:", "routes inside amp"),
    ],
)  # fmt: skip
def test_what_is_written_is_no_more_listed(old: str, new: str, gone: str) -> None:
    text = BARE.replace(old, new) if "rem bus" not in new else BARE.replace("wakes: rem}", "wakes: [rem, bus]}")
    if "removed" in new:
        text = text.replace("    amp.out1: spk.SUB\n", "")
    assert old in BARE
    assert gone in listed(BARE)
    assert gone not in listed(text)


RUNS = """\
runs:
  - battery.+ > 1 ft 8 AWG > fuse 40 A > 2 m 8 AWG > amp.B+
  - amp.GND > 1 ft 8 AWG > gnd.G1
grounds: {G1: {place: floor, metal: bare}}
"""


def test_a_feed_of_which_nothing_is_written() -> None:
    """What it draws is told from its outputs, else from its own fuses, which is said; else it counts as nothing."""
    made = listed(BARE + RUNS)
    assert "supply and ground" not in made
    assert "what amp draws" not in made
    fused = BARE.replace("out1..2: 50 W @ 4 ohm}}", "out1..2: 4 V grounded}, fuses: 25 A}") + RUNS
    assert listed(fused)["what amp really draws"] == "taken from its own fuses, 25 A"
    unsaid = BARE.replace("out1..2: 50 W @ 4 ohm}}", "out1..2: 4 V grounded}}") + RUNS
    assert "counts as nothing" in listed(unsaid)["what amp draws"]
    assert "what amp really draws" not in listed(unsaid)
    assert listed(BARE + RUNS.replace("battery.+", "k1.87"))["volts and amperes of the supply"].startswith(
        "no run leads"
    )


def test_one_of_two_facts_of_a_load() -> None:
    """With its ohms written, what is wanting of the first load is the least that the output takes."""
    assert (
        "least load"
        in listed(BARE.replace("SUB: {place: boot", "SUB: {place: boot, nominal: 4 ohm"))["the load of amp out1"]
    )
