"""Where the search for 12 V ends, what hangs on an output, what isn't planned yet: read off the joints by hand."""

from __future__ import annotations

import pytest

from harness.checks.registry import run_checks
from harness.graph import turn_on_load, waking, woken
from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles
from tests.graph.test_waking import HEAD, wiring_of

FED = "runs:\n  - battery.+ > 12 in 8 AWG > fuse 30 A > 9 ft 8 AWG > amp.B+\n"


def wiring_with(joints: str, then: str) -> Wiring:
    troubles = Troubles()
    text = HEAD.lstrip() + "".join(f"    {line}\n" for line in joints.split("\n")) + then
    job = read_job_text(text, "turn-on.yaml", troubles)
    assert job is not None, troubles.findings
    return Wiring(job)


def test_without_runs_what_nothing_is_joined_to_is_not_planned_yet() -> None:
    wiring = wiring_of("dash.AMP-ON: dsp.rem")
    assert [each.contact for each in waking.unplanned_wakes(wiring)] == ["amp.rem"]  # k1 switches nothing
    assert woken.dead_ends(wiring) == ()


def test_the_coil_of_a_relay_in_use_is_not_planned_yet_either() -> None:
    wiring = wiring_of("dash.AMP-ON: dsp.rem\ndash.ACC: k1.30\nk1.87: amp.rem")
    assert [each.contact for each in waking.unplanned_wakes(wiring)] == ["k1.86"]
    assert woken.dead_ends(wiring) == ()


def test_with_runs_it_is_a_dead_end() -> None:
    wiring = wiring_with("dash.AMP-ON: dsp.rem", FED)
    assert waking.unplanned_wakes(wiring) == []
    assert [(each.end, each.far) for each in woken.dead_ends(wiring)] == [("amp.rem", "amp.rem")]


def test_a_dead_end_behind_a_relay_is_told_at_its_coil_with_all_that_it_wakes() -> None:
    wiring = wiring_with("dash.ACC: k1.30\nk1.87: [amp.rem, dsp.rem]", FED)
    (end,) = woken.dead_ends(wiring)
    assert end.end == "k1.86"
    assert sorted(wake.unit for wake in end.wakes) == ["amp", "dsp", "k1"]


def test_a_turn_on_wire_that_comes_from_another_plug_is_no_source_of_its_own() -> None:
    """The factory amplifier's cavity got its 12 V from the radio; the wire is cut at the radio."""
    head = HEAD.replace("units:", KICK + "units:\n  famp: {kind: factory amplifier, wakes: AMP-ON 20 mA}", 1)
    troubles = Troubles()
    text = head.split("joints:")[0].lstrip() + "found:\n  - dash.AMP-ON > kick.1\ncut: [dash.AMP-ON]\n"
    job = read_job_text(text, "turn-on.yaml", troubles)
    assert job is not None, troubles.findings
    assert waking.givers(Wiring(job), "famp.AMP-ON") == []


KICK = """  kick:
    place: left kick panel
    unit: famp
    face: {rows: 1, columns: 2, view: wire, latch: top, first: top left, count: across}
    cavities: {1: AMP-ON BU}
"""


def test_what_hangs_on_an_output_is_summed_behind_diodes_and_not_behind_relays() -> None:
    """35 mA of the processor and 150 mA of the coil behind the diode; the amplifier's 300 mA come through 30."""
    wiring = wiring_of("dash.AMP-ON: [dsp.rem, d1.a]\nd1.k: k1.86\nk1.85: gnd.G1\ndash.ACC: k1.30\nk1.87: amp.rem")
    (each,) = turn_on_load.loaded(wiring)
    assert each.gives_a == 0.1
    assert each.sum_a == pytest.approx(0.185)
    assert [wake.unit for wake in each.wakes] == ["dsp", "k1"]


@pytest.mark.parametrize(("current_a", "words"), [(0.39, "390 mA"), (0.035, "35 mA"), (1.2, "1.2 A"), (1.0, "1 A")])
def test_amperes(current_a: float, words: str) -> None:
    assert woken.amperes(current_a) == words


def test_a_message_says_at_least_where_a_current_is_missing() -> None:
    head = HEAD.replace("rem 300 mA", "rem 80 mA").replace("  d1:", "  bass: {kind: amplifier, wakes: rem}\n  d1:")
    troubles = Troubles()
    job = read_job_text(head.lstrip() + "    dash.AMP-ON: [dsp.rem, amp.rem, bass.rem]\n", "turn-on.yaml", troubles)
    assert job is not None, troubles.findings
    (told,) = [each for each in run_checks(Wiring(job))[0] if each.code == "E05"]
    assert "gives 100 mA and at least 115 mA hangs" in told.message
