"""What a finding says that could be said otherwise: one or several, this end or that, who and by what.

The numbers are test_numbers' business. In the line above each row stands the fact of the fixture that decides.
The words were chosen with the messages in view and then held against that fact: they guard wording, and prove nothing.
"""

from __future__ import annotations

import pytest

from harness.prove import prove
from tests.checks.marks import FOLDER, by_steps

SAID: list[tuple[str, str]] = [
    # the face is drawn without `view`; there is no face at all
    ("A01/bad_face_without_view", "its face has no view"),
    ("A01/bad_no_face", "it has no face"),
    # both wires are GN
    ("A09/bad_pair_in_one_colour", "2 wires in green, cavities 1 (FL+) and 7 (FL−)"),
    # SB and B/SB stand in the rows; L and LG on the leads; elsewhere one code
    ("A11/bad_plug_rows", "(ask about B too)"),
    ("A11/bad_unit_lead", "(ask about LG too)"),
    ("A11/bad_loom_lead", "on another, and T1"),
    # an inline plug has no legend of its own to write
    ("A11/bad_behind_an_inline_plug", "write the colour in IEC letters"),
    ("A11/bad_loom_lead", "`legend: {SB: black}`"),
    # five cavities are used and not toned, one is
    ("A13/bad_older_page", "7 (grey with black stripe, FR−) and 1 more."),
    ("A13/bad_pairs_toned_feed_not", "Used and not toned: 3 (red, ACC)."),
    # two pairs, one pair; a record that contradicts the chart
    ("A14/bad_charted_only", "2 pairs are used and nobody toned them as charted: 1/9 (white, FL), 2/10 (grey, FR)."),
    ("A14/bad_charted_only", "unplugged, tone each at dash"),
    ("A14/bad_read_but_not_toned", "one pair is used and nobody toned it as charted: 1/9 (white, FL)."),
    ("A14/bad_heard_elsewhere", "The car says otherwise at 1/9 charted FL, heard RR: correct the chart first."),
    # C32 is in the left door boot, both wires of the pair lie behind it
    ("A15/bad_tapped_in_the_door", "C32 (left door boot) cavities 4 and 5: blue before the plug"),
    # both seats stand in the rows, the first is told
    ("A16/bad_two_seats", "dash cavity 1 (white, driver-front+) is named by a seat"),
    ("A16/bad_single_wire", "dash cavity 3 (green, passenger-rear+) is named by a seat"),
    # `inverted: on purpose`, and nothing turns it
    ("B01/bad_wish_not_wired", "RL is written as inverted on purpose, but nothing on its way turns the pair"),
    # two speakers on the output, one speaker
    ("B01/bad_input_turned_far_away", "FL and SUB are reversed once, between T1 unit end 1 (white, FL+) and dsp"),
    ("B01/bad_output_turned", "FR is reversed once, between dsp out2+ and T1 car end 10"),
    # the sub plays FL and FR, one of them turned
    ("B01/bad_one_input_of_a_sum", "FR and the FR part of SUB are reversed once"),
    # `out1: in1 inverted`
    ("B01/bad_route_inverted", "inside dsp by its route for out1 (not in the wires)"),
    # input and output are turned; a wire and a route
    ("B02/bad_input_and_output", "reversed twice, between T1 unit end 1 (white, FL+) and dsp in1−, and again"),
    ("B02/bad_wire_and_route", "and again inside dsp by its route for out1"),
    # left for right; for right rear, so that the fader is crossed too
    ("B03/bad_between_two_units", "FL plays right front and FR plays left front"),
    ("B03/bad_between_two_units", "crossed between dsp out1+ and amp in2+ and between dsp out2+ and amp in1+: left"),
    ("B03/bad_between_two_units", "left and right change places."),
    ("B03/bad_front_left_to_rear_right", "left and right change places and the fader acts backwards."),
    ("B04/bad_outputs_exchanged", ": the fader acts backwards."),
    # every speaker that hears it
    ("B03/bad_inputs_exchanged_heard_in_four", "FL and FL-TW play right front and FR and FR-TW play left front"),
    ("B03/bad_inputs_exchanged_heard_in_four", "spk.FL and spk.FL-TW and spk.FR and spk.FR-TW"),
    # the second coil of one speaker; another speaker
    ("B05/bad_coil_against_coil", "SUB coil 2 is reversed once"),
    ("B05/bad_coil_against_coil", "its coils work against each other"),
    ("B05/bad_middle_of_three", "it works against FL, with a hole where both play"),
    # `inverted: factory`
    ("B05/bad_inversion_not_wired", "FL-TW is written as inverted by the factory"),
    ("B08/bad_put_straight_at_the_output", "FL-TW is inverted by the factory, and the plan turns it round between"),
    # `inverted: on purpose`; nothing turns a new wire
    ("B08/bad_far_at_the_input", "FL-TW is inverted on purpose, and the plan turns it round between"),
    ("B08/bad_new_wire_to_the_tweeter", "and the plan joins it without that"),
    ("B08/bad_new_wire_to_the_tweeter", "Join + to − there"),
    # + of one output, − of another; one output over two speakers
    ("B06/bad_minus_wires_exchanged", "speaker FL+ is driven by dsp out1+, but speaker FL− by dsp out2−"),
    ("B06/bad_minus_wires_exchanged", "both wires of spk.FL and of spk.FR"),
    ("B06/bad_one_output_across_two_speakers", "dsp.out1 drives speaker FL+ with its + and speaker FR− with its −"),
    # 10 uF before the tweeter; none
    ("B07/bad_behind_a_capacitor", "FL-TW is behind a capacitor, which stops a battery pulse. Reversed"),
    ("B07/bad_behind_a_capacitor", "by a pulse of sound and a phase checker"),
    ("B07/bad_plus_left_out", "isn't recorded. Reversed"),
    ("B07/bad_plus_left_out", "by a battery pulse and a look at the cone"),
    # `out4: in3` and nothing else; both ways
    ("B09/bad_one_entry_of_four", "RR plays left rear, crossed in the routing of dsp, not in the wires (out4 takes"),
    ("B09/bad_routes_crossed", "(out1 takes in2) and in the routing of dsp"),
    # the tap is at C204 behind the pillar; at the plug
    ("C01/bad_behind_the_pillar", "radio FL+ and amp out1+ meet on one wire at C204 cavity 7, car side"),
    ("C01/bad_two_channels_one_splice", "radio FL+ and radio FR+ meet on one wire"),
    # out of amp, in at loc, and on to amp; straight back
    ("C02/bad_round_two_units", "which it is made from through loc and amp: it"),
    ("C02/bad_tap_and_return", "which it is made from: it amplifies"),
    # `btl`
    ("C03/bad_minus_taken_for_ground", "radio FL− is live at about 6 V and reaches ground point G1, 0 V"),
    ("C04/bad_minus_wires_twisted_together", "radio FL− and radio FR− are joined at dash cavity 2"),
    # in2 of the same amplifier takes it; nothing does
    ("C06/bad_far", "Use amp in2, or a pad"),
    ("C06/bad_plain", "Use a line converter, or a pad"),
    ("C07/bad_far", "Use amp in2."),
    ("C07/bad_plain", "Use a line driver"),
    # one input
    ("C08/bad_plain", "and amp in1 rests on it"),
    # no step; a step that nobody calls clean
    ("C09/bad_plain", "8.5 V at which volume step? The gains"),
    ("C09/bad_plain", "Find the last step without clipping"),
    ("C09/bad_step_not_said_to_be_clean", "8.5 V at volume step 25: is that the last clean one?"),
    ("C09/bad_step_not_said_to_be_clean", "Try the steps around 25, and write `clean`"),
    # nothing is shared with the sub's band; both ends are missing
    ("C10/bad_far", "SUB gets nothing of what its output plays from radio rca1: it stays silent"),
    ("C10/bad_plain", "FL gets 100 to 3000 Hz from radio rca1, and 20 to 100 Hz and 3000 to 20000 Hz is missing"),
    # the one that comes later is named first
    ("C11/bad_plain", "dsp in2 runs 0.9 ms behind in1"),
    ("C11/bad_far", "Undo the delay first: 1.2 ms on in1"),
    # `gives a fixed level`, heard in the sub
    ("C12/bad_far", "SUB plays at full level, whatever the knob says"),
    # out2 has no route
    ("C13/bad_route_missing", "amp out2 drives FR, but nothing is routed to it"),
    ("C13/bad_route_missing", "`out2: in1`"),
    # capped; the amplifier comes out; never fed; two drivers on one wire
    ("C14/bad_centre_capped", "C has no feed after this change: the path reaches as far as dash cavity 5"),
    ("C14/bad_centre_capped", "next would be dash cavity 5 (violet, C+), unit side"),
    ("C14/bad_centre_capped", "Join dash cavity 5 (violet, C+), car side to dash cavity 5 (violet, C+), unit side"),
    ("C14/bad_factory_amplifier_out", "RR has no feed after this change: it came from famp, which comes out."),
    ("C14/bad_factory_amplifier_out", "or keep famp."),
    ("C14/bad_never_fed", "C has no feed as planned, and had none as found: the path reaches as far as speaker C+"),
    ("C14/bad_never_fed", "write how it is fed under `found:`"),
    ("C14/bad_two_drivers_one_wire", "C and C-TW have no feed after this change"),
    # a wire is cut; a unit is taken out, with one warning or two
    ("C15/bad_beeper_cut", "park alarm from cluster no longer reaches speaker C, broken at C204 cavity 7, car side"),
    ("C15/bad_chime_amplifier_out", "famp is taken out, and with it goes what came by way of it (belt chime)"),
    ("C15/bad_two_warnings_one_unit", "(park tone and collision warning)"),
    ("C25/bad_voice_unit_out", "navi is taken out, and with it goes what came by way of it (navigation voice)"),
    ("C25/bad_voice_left_out_of_the_mix", "navigation voice from navi no longer reaches speaker C, broken at C204"),
    # which unit sleeps
    ("C16/bad_second_unit_sleeps", "belt chime to speaker FL must pass amp, which sleeps"),
    ("C16/bad_processor_wakes_with_the_radio", "must pass dsp, which sleeps"),
    # the cut wire is the one behind the pillar
    ("C17/bad_one_wire_cut_behind_the_pillar", "dash cavity 6 (brown, MIC−) is the hands-free microphone"),
    ("C18/bad_mute_capped", "famp MUTE loses its line from radio MUTE at T1 unit end 3 (brown, MUTE)"),
    ("C18/bad_turn_on_cut_behind_the_pillar", "famp AMP-ON loses its line from radio AMP-ON at C204 cavity 5"),
    ("C19/bad_capped", "The radio looks for a speaker on dash 1/2 (FL)"),
    # a digital link at both, tapped for the amplifier
    ("C20/bad_tapped", "dash cavity 5 (green, DIGITAL+), unit side carries digital audio and is tapped for amp in1+"),
    # `unplugged: kick`; no `unplugged`
    ("C21/bad_another_plug", "names another plug as unplugged"),
    ("C21/bad_nothing_said", "doesn't say what was unplugged"),
    # cut at the pillar, by way of the amplifier
    ("C23/bad_cut_behind_the_pillar", "emergency call to speaker C is opened at C204 cavity 7, car side and must"),
    ("C23/bad_through_the_amplifier", "emergency call to speaker FL is opened at T1 unit end 1 (white, FL+)"),
    # where the two meet
    ("C24/bad_bridge_on_one_terminal", "amp out1+ and amp out2− are one wire through speaker SUB+"),
    ("C24/bad_short_behind_the_pillar", "radio FL+ and radio FL− are one wire through C204 cavity 7"),
    # a capacitor whose value nobody knew
    ("D03/bad_unknown_value", "had a capacitor of unknown value in line"),
    # the radio's speaker wires, its line output
    (
        "C28/bad_far",
        "amp in1 gets a speaker signal from radio FL, and its input switch is set to low level: it distorts",
    ),
    ("C28/bad_line_on_high", "gets a line signal from radio rca1, and its input switch is set to high level: hiss"),
    # coil 2
    ("D04/bad_plain", "SUB coil 2 is open though another coil is driven"),
    # `bridges: out1+/out2-`
    ("D07/bad_plain", "SUB is bridged over amp out1+ and out2+; amp bridges out1+ and out2−"),
    ("D07/bad_plain", "Its + to amp out1+, its − to amp out2−."),
    # the switch is off; on for others; on for a single one
    ("D09/bad_far", "FL is bridged over amp out1 and out2, and the bridge switch is off"),
    ("D09/bad_far", "Set the bridge switch of amp on for out1 and out2."),
    ("D09/bad_other_outputs", "the bridge switch is on for out3 and out4"),
    ("D09/bad_single", "FL is on amp out1 alone, and the bridge switch is on for out1 and out2"),
    ("D09/bad_single", "Set the bridge switch of amp off for out1."),
    # a wire that leads somewhere, to two units; a relay's coil; a bare terminal
    ("E01/bad_far", "its wire goes as far as bass rem, and nothing on it gives any. amp and bass will never wake."),
    ("E01/bad_dead_relay", "k1 86 gets no 12 V: nothing is joined to it. amp will never wake."),
    ("E01/bad_plain", "amp rem gets no 12 V: nothing is joined to it. amp will never wake."),
    # one unit, three of them
    ("E02/bad_plain", "dsp never sleeps and"),
    ("E02/bad_coil_on_constant", "k1 and amp and bass never sleep and"),
    ("E03/bad_through_a_relay", "dsp and amp sleep when the tuner"),
    ("E03/bad_plain", "dsp sleeps when the tuner"),
    ("E04/bad_through_a_relay", "dsp and amp wake with the headlights"),
    ("E04/bad_plain", "dsp wakes with the headlights"),
    # one of three writes no current
    ("E05/bad_at_least", "at least 115 mA hangs on it (dsp 35 mA, amp 80 mA)"),
    ("E05/bad_plain", "and 390 mA hangs on it (dsp 20 mA, amp 35 mA, bass 35 mA, fan 300 mA)"),
    # the day without the hour
    ("J07/bad_gone", "kick.car.3/4 (JM, 2026-03-02) can't be counted any more"),
    # the end alone was read; the start as well
    ("E06/bad_only_the_end", "With what switches it on, read at its source as well"),
    ("E06/bad_plain", "Read from joint to joint with the unit joined"),
    ("E08/bad_plain", "Wake amp from dsp rem-out, which is free."),
    ("E10/bad_fed_at_87", "k1 87 hangs on battery + with no fuse before it"),
    ("E12/bad_by_a_coil", "dsp and amp cut out and pop."),
    ("E12/bad_plain", "amp cuts out and pops."),
    ("E13/bad_plain", "dsp and amp wait for each other: dsp is woken by amp rem-out"),
    # 80 A is the next above 58 and 56 A with a quarter to spare; amp alone, both
    ("F04/bad_plain", "before amp carries"),
    ("F04/bad_far", "before amp and sub carries"),
    # one unit is over the limit, or both; which cable
    ("F06/bad_far", "limit 0.5 V (amp too)"),
    ("F06/bad_plain", "limit 0.5 V: less power"),
    ("F06/bad_own_limit", "to ground point G1"),
    ("F09/bad_belt_anchor", "(foot of the centre pillar) is a belt anchor"),
    ("F09/bad_belt_anchor", "never touch the belt anchor"),
    ("F09/bad_painted", "(boot floor left) is painted metal"),
    ("F09/bad_painted", "Bare the metal under the ring"),
    ("F10/bad_plain", "dsp is grounded at ground point G1 (left kick panel) and amp, which takes its signal, at"),
    ("F12/bad_second_battery", "between rear − and the body"),
    ("F12/bad_plain", "between amp GND and the body"),
    # a rating is written; none is
    ("F13/bad_far", "whose circuit has a fuse of 10 A"),
    ("F13/bad_plain", "a fuse, not recorded and taken as of 15 A"),
    # the joint is at the kick panel; a run from the plug itself
    ("F14/bad_at_the_kick_panel", "the supply of gateway, a control unit"),
    ("F14/bad_at_the_kick_panel", "Part kick cavity 1 (red), car side from dsp B+"),
    ("F14/bad_by_a_run", "Part seat cavity 1 (red, B+), car side from dsp B+"),
    # a cable of 8 AWG; an RCA lead without a size
    ("F15/bad_plain", "The 8 AWG cable goes through bulkhead bare"),
    ("F15/bad_signal", "The cable goes through rear bulkhead bare"),
    ("F18/bad_alternator", "The car is electric and `alternator` is written of its supply"),
    ("F18/bad_plain", "The car is electric and nothing is written of its supply"),
    ("F18/bad_unknown", "The car is hybrid and `unknown` is written of its supply"),
    # both are exchanged; one is
    ("F19/bad_plain", "and deck ACC gets dash cavity 1 (yellow, B+), car side: no memory and a flat battery."),
    ("F19/bad_both_on_the_red", "radio B+ gets dash cavity 2 (red, ACC), car side: no memory."),
    ("F19/bad_both_on_the_red", "Take the other feed to radio B+."),
    # one fuse, two
    ("F21/bad_plain", "The fuse at battery + has no rating"),
    ("F21/bad_ways_of_the_block", "The fuses at block 1 and block 2 have no rating"),
    ("F22/bad_feed_found_behind_inline_plug", "reaches ground point G1 through boot cavity 1 (brown), car side: a"),
    ("F22/bad_yellow_and_black_in_one_splice", "(yellow, B+) reaches T1 car end 2 (black, GND): a short"),
    # what the feed meets
    ("F23/bad_battery_onto_aerial_feed", "12 V on an aerial feed, which the radio gives itself"),
    ("F23/bad_feed_on_processor_input", "is joined to dsp in1+: 12 V on a signal input"),
    ("F24/bad_lamp_wire_far_away", "through kick cavity 3 (orange), car side: 12 V on an output that it drives"),
    ("F24/bad_amp_on_to_input_too", "is joined to amp in2+: 12 V on a signal input"),
    # a switched feed; a turn-on wire
    ("F25/bad_battery_and_acc_at_the_kick", "(yellow, B+), car side, the battery feed, is tied to dash cavity 2"),
    ("F25/bad_battery_and_acc_at_the_kick", "unit side, a switched feed: each"),
    ("F25/bad_turn_on_and_battery", "AMP-ON), unit side, a turn-on wire: each"),
    # the block feeds two units; a unit of its own
    ("F27/bad_block_not_fed", "Nothing feeds block in, on which amp and bass hang: it"),
    ("F27/bad_plain", "Nothing feeds dsp B+: it"),
    # the black wire ends in a plug; there is no wire
    ("F28/bad_black_wire", "amp GND ends at C310 cavity 3, car side and reaches no ground"),
    ("F28/bad_plain", "amp GND has no ground"),
    ("F01/bad_second_battery", "The 4 AWG cable from battery + to rear + has no fuse"),
    ("F07/bad_plain", "4 AWG copper-clad cable"),
    ("F08/bad_aluminium", "grounded by 4 AWG CCA (13.7 mm² as copper)"),
    # one wire of the pair; both
    ("G01/bad_loom_passes_one_wire", "dash cavity 6 (yellow with brown stripe, CAN-L) is opened alone, its partner"),
    ("G01/bad_pair_cut_while_unit_stays", "are opened: radio is off the bus"),
    # the unit comes out; a plug is opened
    ("G05/bad_amplifier_out_ring_hangs", "famp comes out, and seat cavity 1"),
    ("G05/bad_link_joins_one_end_only", "seat is opened, and seat cavity 1"),
    # cut, joined; behind two plugs or at the seat itself
    ("G07/bad_restraint_behind_two_inline_plugs", "a restraint wire, and the plan has it cut"),
    ("G07/bad_restraint_behind_two_inline_plugs", "a restraint wire, and the plan has it joined"),
    ("G07/bad_restraint_behind_two_inline_plugs", "kick cavity 1 (green), car side leads to seat cavity 1 (yellow,"),
    ("G07/bad_yellow_wire_at_seat", "seat cavity 1 (yellow, SRS+), car side is a restraint wire"),
    ("G08/bad_ground", "Ground point G1 is at left sill"),
    ("G08/bad_plug", "J1 is made at rear floor"),
    ("G08/bad_route", "goes via tunnel"),
    ("G10/bad_plain", "with battery on, key off: a charge can fire"),
    ("G10/bad_too_soon", "after the battery went off, at least"),
    ("G10/bad_key_on", "the key is on with seat, a restraint plug, open"),
    ("G12/bad_both_wires_on_one_joint", "the bus stops, and the car may not start"),
    ("G12/bad_bus_meets_trigger_behind_inline", "not its own bus"),
    # two open ends of one row; one; the amplifier's own output; a wire of the car
    ("H01/bad_fed_through_two_looms", "amp out1+ (white) (and 1 more of this row) is joined to nothing and a live"),
    ("H01/bad_illumination_lead_open", "T1 car end 4 (orange, ILL) is joined to nothing and live from dash cavity 4"),
    ("H01/bad_fed_through_two_looms", "`depinned: [amp.out1+, amp.out1-]`"),
    # which two fates
    ("H02/bad_capped_and_joined", "is capped and also joined to amp rem"),
    ("H02/bad_capped_and_joined", "T1 car end 5 (yellow, B+) is capped and also depinned"),
    ("H02/bad_capped_at_the_sill_and_passed", "capped and also passed on, as nothing opens it"),
    # the radio's half hangs; the speaker's half is silent
    ("H03/bad_radio_side_left_live", "is live from radio RL+ and left open, while dsp out2+ takes over"),
    ("H03/bad_taken_and_not_given_back", "nothing drives the other half: speaker RL+ is silent"),
    ("H03/bad_taken_from_the_factory_amplifier", "famp in1+ is silent"),
    # preset crimp; preset house
    ("H04/bad_soldered_under_crimp", "is soldered: preset crimp does not allow that on audio leads of a loom"),
    ("H04/bad_soldered_under_crimp", "Use crimp ("),
    ("H04/bad_tap_bites_into_feed", "Use solder or crimp ("),
    # all alike; unlike
    ("H05/bad_plain", "6 splices lie 10 mm apart"),
    ("H05/bad_two_methods", "lie 25.4 mm to 30 mm apart"),
    # six differ, four are told
    ("H07/bad_loom_of_another_car", "2 is FR− there, FL− here; and 2 more."),
    ("H07/bad_list_says_other_feed", "4 is ACC there, B+ here; 6 is B+ there, ACC here."),
    ("H07/bad_wire_lands_on_another_function", "4 (B+) goes to 5 (ILL); 5 (ILL) goes to 4 (B+)."),
    ("H08/bad_no_pin_for_wheel_control", "dash cavity 2 (SWC), 3 (C+), 4 (C−): what runs"),
    # two joints, one; with a cover for the others of the key
    ("H09/bad_bare_taps", "Joints J1 and J2 (soldered at behind the radio)"),
    ("H09/bad_bare_taps", "`solder at behind the radio with heat shrink`"),
    ("H09/bad_one_of_several", "Joint J2 (soldered at behind the radio)"),
    ("H09/bad_one_of_several", "`cover: heat shrink`"),
    ("H09/bad_one_of_several", "`crimp at boot with heat shrink`"),
    # what the wire leads to; what its colour is by habit
    ("H11/bad_far", "joined to kick cavity 1 (green), car side, which leads to sill cavity 2 (brown, IGN), car"),
    ("H11/bad_plain", "joined to amp rem, and its function isn't entered. Blue with white stripe is usually"),
    # a bus; a signal
    ("H12/bad_one_wire_of_an_input", "dsp in1+ is joined and dsp in1− is not: hum or silence"),
    ("H12/bad_one_wire_of_an_input", "face CAN-L (yellow with brown stripe) is joined and face CAN-H"),
    ("H12/bad_one_wire_of_an_input", "is not: it stays off the bus"),
    ("H13/bad_far", "only so that dsp in1+ can listen"),
    # moved onto; two leads
    ("H14/bad_moved_onto_occupied", "is moved to cavity 2, where T1 unit end 2 (blue with white stripe, AMP-ON)"),
    ("H14/bad_two_named_leads_in_one_terminal", "T1 unit end cavity 2 has two leads in one terminal"),
    # housings; half; pins into pins
    ("H16/bad_other_housing_and_other_half", "T1's unit end is a 16-way K, dash a 20-way L"),
    ("H16/bad_other_housing_and_other_half", "is made for the unit side and is written for boot's car side"),
    ("H16/bad_pins_into_pins", "T1's car end has pins and so has dash's car side"),
    ("H17/bad_spare_input_lead", "dsp in1+ (white) (and 1 more of this row) is joined to nothing"),
    ("H17/bad_mute_lead_forgotten", "T1 lead mute (brown, MUTE) is joined to nothing"),
    ("H18/bad_acc_pulled", "radio stays and loses its ACC"),
    # the post itself; what hangs on it
    ("J13/bad_plain", "works on battery +, live by itself, with battery on"),
    ("J13/bad_far", "works on C310 cavity 3, car side, live from battery +"),
    ("J14/bad_run_end", "the open end of the run for amp B+ is bare and live from battery +"),
    ("J14/bad_plain", "T1 car end 4 (yellow, B+) is bare and live from dash cavity 4 (yellow, B+), car side"),
    # our amplifier is on already; the car's radio is on still; the key is on
    ("J18/bad_plain", "with amp out1+ already on it"),
    ("J18/bad_plain", "Do this step before amp is joined."),
    ("J18/bad_radio_still_in", "with radio FL+ still on it"),
    ("J18/bad_radio_still_in", "Pull dash from radio first."),
    ("J18/bad_key_on", "tones with the key on"),
    # what is wanting at the end
    ("J19/bad_far", "dash not plugged together again."),
    ("J19/bad_no_joint_step", "J1 not joined, J2 not joined, J3 not joined."),
    ("J19/bad_plain", "T1 unit end not in dash, T1 car end not in dash."),
]


@pytest.mark.parametrize(("fixture", "words"), SAID, ids=[f"{name}: {words[:24]}" for name, words in SAID])
def test_it_says(fixture: str, words: str) -> None:
    path = FOLDER / f"{fixture}.yaml"
    report = prove(path, mends=False, steps=by_steps(path)).report
    said = [f"{each.message} {each.do}" for each in report.findings if each.code == fixture[:3]]
    assert any(words in text for text in said), said
