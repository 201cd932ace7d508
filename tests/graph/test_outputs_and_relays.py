"""What hangs on turn-on outputs, and relays: each expected row read off the joints by hand."""

from __future__ import annotations

import pytest

from harness.graph.relays import bare_coils, unfused_contacts
from harness.graph.turn_on_load import loaded, outputs
from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles
from tests.graph.test_waking import HEAD

# One more diode and two more relays, one of them with a diode built in across its coil.
MORE = HEAD.replace(
    "  d1: {kind: diode}",
    "  d1: {kind: diode}\n  d2: {kind: diode}\n  k2: {kind: relay, coil: 100 mA}\n"
    "  k3: {kind: relay, coil: 160 mA diode}",
)


def wiring_of(joints: str, then: str = "") -> Wiring:
    troubles = Troubles()
    text = MORE.lstrip() + "".join(f"    {line}\n" for line in joints.split("\n")) + then
    job = read_job_text(text, "outputs.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


def hanging(wiring: Wiring) -> dict[str, tuple[list[str], float]]:
    return {each.giver.contact: ([it.contact for it in each.wakes], each.sum_a) for each in loaded(wiring)}


def test_currents_add_up_through_diodes_and_not_against_them() -> None:
    """35 mA + 300 mA behind two diodes; a third way back to the first net ends there. 100 mA of coil on the other."""
    wiring = wiring_of("dash.AMP-ON: [dsp.rem, d1.a]\nd1.k: d2.a\nd2.k: amp.rem\ndsp.rem-out: [k2.86]\nk2.85: gnd.G1")
    assert hanging(wiring) == {
        "radio.AMP-ON": (["dsp.rem", "amp.rem"], pytest.approx(0.335)),
        "dsp.rem-out": (["k2.86"], pytest.approx(0.1)),
    }
    against = wiring_of("dash.AMP-ON: [dsp.rem, d1.k]\nd1.a: amp.rem")
    assert hanging(against) == {"radio.AMP-ON": (["dsp.rem"], pytest.approx(0.035))}
    ring = wiring_of("dash.AMP-ON: [dsp.rem, d1.a, d2.k]\nd1.k: [amp.rem, d2.a]")
    assert hanging(ring) == {"radio.AMP-ON": (["dsp.rem", "amp.rem"], pytest.approx(0.335))}


def test_the_way_goes_to_what_draws_most() -> None:
    """300 mA behind both diodes, 35 mA before them: the way runs through the diodes to the amplifier."""
    (made,) = loaded(wiring_of("dash.AMP-ON: [dsp.rem, d1.a]\nd1.k: d2.a\nd2.k: amp.rem"))
    assert made.way.path[0] == "radio.AMP-ON"
    assert made.way.path[-5:] == ("d1.a", "d1.k", "d2.a", "d2.k", "amp.rem")
    assert made.gives_a == pytest.approx(0.1)
    (plain,) = loaded(wiring_of("dash.AMP-ON: [k2.86, k1.86]\nk1.85: gnd.G1\nk2.85: gnd.G1"))
    assert plain.way.path[-1] == "k1.86"


def test_an_output_with_nothing_on_it_is_passed_over_and_its_own_input_is_no_load() -> None:
    assert hanging(wiring_of("amp.rem-out: amp.rem\ndsp.rem-out: k1.86\nk1.85: gnd.G1")) == {
        "dsp.rem-out": (["k1.86"], pytest.approx(0.15))
    }
    assert hanging(wiring_of("dash.ACC: [dsp.rem, amp.rem]")) == {}


def test_every_output_once() -> None:
    """Of the radio, the processor and the amplifier, in the order of the job, joined or not."""
    wiring = wiring_of("dash.AMP-ON: dsp.rem")
    assert [each.contact for each in outputs(wiring)] == ["radio.AMP-ON", "dsp.rem-out", "amp.rem-out"]
    joined = wiring_of("dash.AMP-ON: dsp.rem-out\ndash.ACC: amp.rem")
    assert sorted(each.contact for each in outputs(joined)) == ["amp.rem-out", "dsp.rem-out", "radio.AMP-ON"]


def bare(wiring: Wiring) -> list[tuple[str, str, str]]:
    return [(each.relay, each.coil, each.giver.unit) for each in bare_coils(wiring)]


def test_coils_with_nothing_across() -> None:
    """k3 has its own diode; k1 has d1 across, cathode to the driven side; k2 alone is bare, on whichever end."""
    protected = "dash.AMP-ON: [k3.86, k1.86, d1.k]\nk3.85: gnd.G1\nk1.85: [gnd.G1, d1.a]\n"
    assert bare(wiring_of(protected + "dsp.rem-out: k2.86\nk2.85: gnd.G1")) == [("k2", "k2.86", "dsp")]
    assert bare(wiring_of(protected + "dsp.rem-out: k2.85\nk2.86: gnd.G1")) == [("k2", "k2.85", "dsp")]


def test_a_diode_the_wrong_way_round_protects_nothing() -> None:
    wiring = wiring_of("dash.AMP-ON: [k1.86, d1.a]\nk1.85: [gnd.G1, d1.k]")
    assert bare(wiring) == [("k1", "k1.86", "radio")]


def test_a_coil_on_the_car_s_own_feed_hurts_no_output() -> None:
    """Ignition on k1, the radio on k2: only the second has a driver that may die."""
    wiring = wiring_of("dash.ACC: k1.86\nk1.85: gnd.G1\ndash.AMP-ON: k2.86\nk2.85: gnd.G1")
    assert bare(wiring) == [("k2", "k2.86", "radio")]


def test_relays_fed_before_any_fuse() -> None:
    """k1 is fused, k2 isn't on its 30, k3 not on its 87; what hangs behind k2 is told with it."""
    joints = "dash.AMP-ON: [k1.86, k2.86, k3.86]\nk1.85: gnd.G1\nk2.85: gnd.G1\nk3.85: gnd.G1"
    wiring = wiring_of(joints, """runs:
  - battery.+ > 12 in 8 AWG > fuse 30 A > 1 ft 8 AWG > k1.30
  - k1.87 > 1 ft 8 AWG > amp.B+
  - battery.+ > 12 in 8 AWG > k2.30
  - k2.87 > 1 ft 8 AWG > fuse 20 A > 1 ft 8 AWG > dsp.B+
  - battery.+ > 12 in 8 AWG > k3.87
""")  # fmt: skip
    assert [(each.relay, each.contact, each.path) for each in unfused_contacts(wiring)] == [
        ("k2", "k2.30", ("battery.+", "k2.30")),
        ("k3", "k3.87", ("battery.+", "k3.87")),
    ]


def test_of_relays_behind_each_other_the_first() -> None:
    joints = "dash.AMP-ON: [k1.86, k2.86]\nk1.85: gnd.G1\nk2.85: gnd.G1"
    wiring = wiring_of(joints, "runs:\n  - battery.+ > 12 in 8 AWG > k2.30\n  - k2.87 > 1 ft 8 AWG > k1.30\n")
    assert [(each.relay, each.contact) for each in unfused_contacts(wiring)] == [("k2", "k2.30")]
