"""Who gives 12 V to what: every expected source read off the joints by hand."""

from __future__ import annotations

from harness.graph import waking
from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

HEAD = """
ringout: 1
title: Turn-on
car: {name: Hazel van, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 5, view: wire, latch: top, first: top left, count: across}
    cavities:
      1: AMP-ON BU
      2: ACC RD
      3: B+ YE
      4: ILL OG
      5: GND BK
units:
  radio: {kind: radio, gives: {AMP-ON: 100 mA}}
  dsp: {kind: processor, wakes: rem 35 mA, gives: {rem-out: 500 mA}}
  amp: {kind: amplifier, wakes: rem 300 mA, gives: {rem-out: 200 mA}}
  k1: {kind: relay, coil: 150 mA}
  d1: {kind: diode}
grounds: {G1: {place: floor, metal: bare}}
joints:
  solder at the dash:
"""


def wiring_of(joints: str) -> Wiring:
    troubles = Troubles()
    text = HEAD.lstrip() + "".join(f"    {line}\n" for line in joints.split("\n"))
    job = read_job_text(text, "turn-on.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


def sources(wiring: Wiring, contact: str) -> list[tuple[str, str, str]]:
    return sorted((each.unit, each.kind, " ".join(each.through)) for each in waking.sources(wiring, contact))


def test_the_radio_gives_what_its_cavity_carries() -> None:
    wiring = wiring_of("dash.AMP-ON: dsp.rem\ndsp.rem-out: amp.rem")
    assert [each._replace(contact="") for each in waking.givers(wiring, "dsp.rem")] == [
        waking.Giver("", "trigger", "radio", 0.1)
    ]
    assert sources(wiring, "amp.rem") == [("dsp", "control", "")]


def test_the_cars_own_feeds_have_no_unit() -> None:
    wiring = wiring_of("dash.ACC: dsp.rem\ndash.B+: amp.rem")
    assert sources(wiring, "dsp.rem") == [("", "switched", "")]
    assert sources(wiring, "amp.rem") == [("", "constant", "")]


def test_a_relay_is_woken_by_its_coil_and_not_by_what_it_switches() -> None:
    """The coil's end that isn't on ground counts, here 85; constant 12 V on 30 makes it no constant source."""
    wiring = wiring_of("dash.AMP-ON: k1.85\nk1.86: gnd.G1\ndash.B+: k1.30\nk1.87: amp.rem")
    assert sources(wiring, "amp.rem") == [("radio", "trigger", "k1")]
    assert [(each.contact, each.draws_a, each.coil) for each in waking.wakes(wiring) if each.coil] == [
        ("k1.85", 0.15, True)
    ]


def test_a_relay_with_nothing_to_switch_gives_nothing() -> None:
    wiring = wiring_of("dash.AMP-ON: k1.86\nk1.85: gnd.G1\nk1.87: amp.rem")
    assert sources(wiring, "amp.rem") == []


def test_a_diode_passes_from_a_to_k_only() -> None:
    assert sources(wiring_of("dash.ACC: d1.a\nd1.k: amp.rem"), "amp.rem") == [("", "switched", "d1")]
    assert sources(wiring_of("dash.ACC: d1.k\nd1.a: amp.rem"), "amp.rem") == []


def test_units_that_wait_for_each_other_are_a_loop_that_the_car_does_not_reach() -> None:
    graph = waking.who_wakes_whom(wiring_of("dsp.rem-out: amp.rem\namp.rem-out: dsp.rem"))
    assert set(graph.edges) >= {("dsp", "amp"), ("amp", "dsp"), (waking.CAR, "radio")}
    assert not {"dsp", "amp"} & set(graph[waking.CAR])


def test_a_radio_that_is_taken_out_gives_nothing() -> None:
    troubles = Troubles()
    text = HEAD.lstrip() + "    dash.AMP-ON: dsp.rem\nremoved: [radio]\n"
    job = read_job_text(text, "turn-on.yaml", troubles)
    assert job is not None
    assert sources(Wiring(job), "dsp.rem") == []


def test_a_relay_that_gives_nothing_hides_no_diode_beside_it() -> None:
    """k1 has no 12 V to switch; d1 beside it passes the ignition on. Two diodes from one net are one way."""
    coil = "dash.AMP-ON: k1.86\nk1.85: gnd.G1\nk1.87: amp.rem\n"
    assert sources(wiring_of(coil + "dash.ACC: d1.a\nd1.k: amp.rem"), "amp.rem") == [("", "switched", "d1")]


def test_a_source_of_one_s_own_net_is_not_told_again_through_a_diode() -> None:
    assert sources(wiring_of("dash.ACC: [d1.a, amp.rem]\nd1.k: amp.rem"), "amp.rem") == [("", "switched", "")]
