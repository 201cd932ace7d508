"""Which further lines a finding shows: the other half of what is exchanged, the wire that it meets, the feature lost.

Each row was held against its fixture's own text by hand: the line begins with what stands here. A fixture that is not
here shows no other line.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove
from tests.checks.marks import by_steps, evidence_of, fixtures, named

# Jobs with evidence show the record and the row that it is about, which no table here holds yet.
WITHOUT_EVIDENCE = [path for path in fixtures("bad") if not evidence_of(path).is_file()]

FURTHER: dict[str, tuple[str, ...]] = {
    "A05/bad_beyond_inline_plugs": ("3/4: FL BU BU/BK",),
    "A05/bad_empty_and_not_empty": ("4: MUTE BN",),
    "A05/bad_pair_written_both_ways": ("3/11: RL GN GN/BK",),
    "A05/bad_speaker_and_accessory": ("1/9: FL WH WH/BK",),
    "A06/bad_accessory_twice": ("5: ACC RD",),
    "A06/bad_beyond_inline_plugs": ("3/4: FL BU BU/BK",),
    "A06/bad_pair_twice_two_spellings": ("1/9: FL WH WH/BK",),
    "A06/bad_seat_and_channel_are_one": ("1/9: FL WH WH/BK",),
    "A09/bad_pair_in_one_colour": ("1/7: FL GN GN",),
    "A09/bad_two_green_wires": ("dash.ACC: amp.rem", "1/7: FL GN GN/BK", "3: ACC GN",),
    "A11/bad_plug_rows": ("3: ILL B/SB",),
    "A16/bad_two_seats": ("2/10: passenger-front GY GY/BK",),
    "B02/bad_input_and_output": ("T1.car.FL: dsp.out1 reversed",),
    "B02/bad_output_and_door": ("- dash.FL > C204.7/8 BU BU/BK > C206.1/2 GN",),
    "B02/bad_wire_and_route": ("out1: in1 inverted",),
    "B03/bad_between_two_units": ("dsp.out2: amp.in1",),
    "B03/bad_front_left_to_rear_right": ("T1.car.RR: dsp.out1",),
    "B03/bad_in_the_door_looms": ("- dash.FR > C100.3/4 BU BU/BK > C205.7/8 BU",),
    "B03/bad_inputs_exchanged_heard_in_four": ("T1.unit.FR: dsp.in1",),
    "B03/bad_outputs_exchanged": ("T1.car.FR: dsp.out1",),
    "B04/bad_inputs_exchanged_far": ("T1.unit.RR: dsp.in2",),
    "B04/bad_outputs_exchanged": ("T1.car.RL: dsp.out1",),
    "B04/bad_routes_crossed": ("out3: in1",),
    "B06/bad_input_across_two_pairs": ("T1.unit.9: dsp.in2-",),
    "B06/bad_minus_wires_exchanged": ("T1.car.10: dsp.out1-",),
    "B06/bad_plus_wires_exchanged_far": ("T1.car.2: dsp.out1+",),
    "B09/bad_routes_crossed": ("out2: in1",),
    "C02/bad_return_behind_the_pillar": ("T1.unit.FL: amp.in1",),
    "C02/bad_round_two_units": ("dash.1/2: loc.in1",),
    "C14/bad_two_drivers_one_wire": ("C-TW: {nominal: 4 ohm, capacitor: 10 uF}",),
    "C15/bad_beeper_capped_at_the_cluster": ("park alarm: cluster > spk.C",),
    "C15/bad_beeper_cut": ("park alarm: cluster > spk.C",),
    "C15/bad_chime_amplifier_out": ("belt chime: famp > spk.C",),
    "C15/bad_two_warnings_one_unit": ("park tone: park", "collision warning: park",),
    "C16/bad_processor_wakes_with_the_radio": ("belt chime: {from: radio, to: [spk.FL],",),
    "C16/bad_second_unit_sleeps": ("belt chime: {from: radio, to: [spk.FL],",),
    "C23/bad_cut_behind_the_pillar": ("emergency call: tcu > spk.C",),
    "C23/bad_taken_in_the_boot": ("emergency call: tcu > spk.C",),
    "C23/bad_through_the_amplifier": ("emergency call: radio > spk.FL",),
    "C25/bad_voice_capped_at_its_unit": ("navigation voice: navi > spk.C",),
    "C25/bad_voice_left_out_of_the_mix": ("navigation voice: navi > spk.C",),
    "C25/bad_voice_unit_out": ("navigation voice: navi > spk.C",),
    "F11/bad_two_cables_from_the_post": ("- battery.+ > 12 in 8 AWG > fuse 50 A > 9",),
    "F17/bad_plain": ("- dsp.rca1 > 5 m rca > amp.in1",),
    "F17/bad_through_the_sill_plug": ("- dsp.out1 > 2 m rca > C310.1/2 > 3 m rca >",),
    "F19/bad_across_the_loom": ("T1.car.1: T1.unit.2",),
    "F19/bad_at_the_kick_panel": ("kick.2: deck.ACC",),
    "F19/bad_plain": ("dash.B+: deck.ACC",),
    "F27/bad_block_not_fed": ("amp: {kind: amplifier, wakes: signal,", "bass: {kind: amplifier, wakes: signal}",),
    "G11/bad_loom_crosses_the_pair": ("6: 5",),
    "H02/bad_capped_and_joined": ("T1.unit.6: amp.rem", "- T1.car.5",),
    "H03/bad_taken_and_not_given_back": ("1/2: RL GN GN/BK",),
    "H03/bad_taken_far_from_the_speaker": ("1/2: RL GN GN/BK",),
    "H03/bad_taken_from_the_factory_amplifier": ("1/2: in1 GN GN/BK",),
    "H05/bad_plain": ("dash.FR: {to: dsp.in2, stagger: 10 mm}", "dash.RL: {to: dsp.in3, stagger: 10 mm}",),
    "H05/bad_two_methods": ("dash.FR: {to: dsp.in2, stagger: 3 cm}", "dash.RL: {to: dsp.in3, stagger: 30 mm, at:",),
    "H07/bad_feed_behind_the_bulkhead": ("4: ILL OG",),
    "H07/bad_list_says_other_feed": ("4: ACC RD", "6: B+ YE",),
    "H07/bad_loom_of_another_car": (
        "3/4: FL WH WH/BK", "3/4: FL WH WH/BK", "1/2: FR GY GY/BK", "1/2: FR GY GY/BK", "car.6: B+ YE",
        "car.5: GND BK",
    ),
    "H07/bad_wire_lands_on_another_function": ("4: 5", "5: 4",),
    "H08/bad_moved_away_and_speaker_far": ("3/4: RL GN GN/BK", "3/4: RL GN GN/BK",),
    "H08/bad_no_pin_for_wheel_control": ("2: SWC BN", "3/4: C WH WH/BK", "3/4: C WH WH/BK",),
    "H09/bad_bare_taps": ("box.dim: dash.4", "box.live: dash.5",),
    "H09/bad_one_of_several": ("box.out: lamp.in",),
    "H16/bad_other_housing_and_other_half": (
        "ends: {unit: 16-way K, car: 16-way K}", "ends: {unit: 16-way K, car: 16-way K}",
        "ends: {unit: 4-way B}",
    ),
    "H16/bad_pins_into_pins": ("ends: {unit: {contacts: pins}, car:",),
    "J14/bad_run_end": ("- battery.+ > 12 in 8 AWG > fuse 10 A > 12",),
    "J15/bad_far": ("C310.car.1/2: amp.out1",),
    "J15/bad_plain": ("dash.car.FL: amp.out1",),
    "J16/bad_far": ("mate: {T1: dash}",),
    "J16/bad_plain": ("5/6: CAN YE/GN YE/BN twisted",),
}  # fmt: skip


@pytest.mark.parametrize("path", WITHOUT_EVIDENCE, ids=named)
def test_the_further_places_of_a_finding(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").splitlines()
    report = prove(path, mends=False, steps=by_steps(path)).report
    own = [finding for finding in report.findings if finding.code == path.parent.name]
    shown = [lines[spot.place.line - 1].strip() for finding in own for spot in finding.places[1:]]
    wanted = FURTHER.get(named(path), ())
    assert len(shown) == len(wanted), shown
    for line, begins in zip(shown, wanted, strict=True):
        assert line.startswith(begins), (line, begins)


def test_every_row_has_its_fixture() -> None:
    assert set(FURTHER) <= {named(path) for path in fixtures("bad")}
