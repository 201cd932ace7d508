"""What a finding of supply, data wires and joints says as a whole: places, both sentences, the way, the contacts.

In the line above each row stands the fact of the fixture that decides; lines, contacts and sums were held against that.
The words themselves were chosen with the messages in view: they guard wording, and prove nothing.
"""

from __future__ import annotations

import pytest

from tests.checks.alone import whole_of

# fixture -> places (line and name), message, advice, way, contacts (in any order)
WHOLE: dict[str, tuple[str, str, str, str, str]] = {
    # the run between the two batteries has no fuse
    "F01/bad_second_battery": (
        "9 rear +",
        "The 4 AWG cable from battery + to rear + has no fuse: one rub and it burns along its whole length.",
        "Fit a fuse within 18 in of battery +, no bigger than the thinnest cable behind it takes.",
        "battery.+ > rear.+",
        "rear.+",
    ),
    # 30 in before the fuse, 18 in is the limit
    "F02/bad_plain": (
        "8 battery +",
        "The first fuse is 30 in of cable from battery +, limit 18 in: nothing stops that stretch from burning.",
        "Move the fuse to within 18 in of battery +.",
        "battery.+ > run.battery.+>amp.B+~1",
        "run.battery.+>amp.B+~1",
    ),
    # (300 + 400) W / 13.8 V = 27.2 + 29.0 = 56.2 A; 4 AWG carries 125 A (a guide's chart); 70.3 A: 80 A
    "F04/bad_far": (
        "11 fuse",
        "The fuse of 50 A before amp and sub carries 56.2 A at full power: it opens in a loud passage.",
        "Fit 80 A; the cable behind it carries 125 A.",
        (
            "battery.+ > run.battery.+>block.in~1 > run.battery.+>block.in~2 > C204.unit.5 > C204.car.5 > block.in "
            "> block.1 > amp.B+"
        ),
        "run.battery.+>block.in~1 run.battery.+>block.in~2",
    ),
    # dsp on G1, amp on G2, the line plug by C310
    "F10/bad_through_the_sill_plug": (
        "15 amp GND",
        (
            "dsp is grounded at ground point G1 (left kick panel) and amp, which takes its signal, at ground point "
            "G2 (boot floor left): first suspect if it whines."
        ),
        "If it whines, ground dsp and amp at one point.",
        "dsp.rca1- > C310.unit.2 > C310.car.2 > amp.in1-",
        "dsp.GND amp.GND",
    ),
    # 29 A by the dash's B+; no fuse is written: 15 A, common practice, no source
    "F13/bad_plain": (
        "18 amp B+ (red)",
        (
            "amp draws 29 A from dash cavity 1 (yellow, B+), car side, whose circuit has a fuse, not recorded and "
            "taken as of 15 A: the car's wire gets hot where nobody sees it."
        ),
        "Run a fused cable of its own from the battery.",
        "amp.B+ > dash.car.1",
        "amp.B+ dash.car.1",
    ),
    # the only run to the post goes by C204
    "F16/bad_through_the_bulkhead_plug": (
        "12 battery −",
        (
            "amp GND goes to battery −, behind the car's battery sensor: the car miscounts its battery and stops "
            "charging."
        ),
        "Take amp GND off the post: ground to the body, so that its current comes back by the sensor.",
        "amp.GND > C204.unit.1 > C204.car.1 > battery.-",
        "amp.GND C204.car.1",
    ),
    # amp has no ground run; in1− is bonded to its GND, out1− to that of dsp
    "F17/bad_through_the_sill_plug": (
        "7 amp GND; 13 amp in1−",
        ("amp reaches ground only by the signal at amp in1− and dsp out1−: the supply current burns that shield open."),
        "Lay a ground from amp GND to the body before anything is powered.",
        "amp.GND > amp.in1- > C310.car.2 > C310.unit.2 > dsp.out1- > dsp.GND > gnd.G1",
        "amp.GND",
    ),
    # the loom's B+ and ACC leads are joined crosswise, row by row
    "F19/bad_across_the_loom": (
        "27 radio B+; 26 radio ACC",
        (
            "radio B+ gets dash cavity 2 (red, ACC), car side, and radio ACC gets dash cavity 1 (yellow, B+), car "
            "side: no memory and a flat battery."
        ),
        "Exchange the two wires at radio B+ and radio ACC.",
        "dash.car.2 > T1.car.2 > T1.unit.1 > dash.unit.1 > radio.B+",
        "dash.car.2 T1.car.2 T1.unit.1 dash.unit.1 radio.B+ dash.car.1 T1.car.1 T1.unit.2 dash.unit.2 radio.ACC",
    ),
    # the fuse stands right behind kick 1
    "F21/bad_at_the_kick_panel": (
        "20 kick cavity 1 (red), car side",
        (
            "The fuse at kick cavity 1 (red), car side has no rating: whether the cable behind is protected can't "
            "be told."
        ),
        "Read the number on it and write it, for instance `fuse 60 A`.",
        "battery.+ > C204.unit.1 > C204.car.1 > kick.car.1 > run.kick.1>amp.B+~1",
        "run.kick.1>amp.B+~1",
    ),
    # the row joins T1.car.1 (B+) to T1.car.2 (GND); the car's B+ comes by the plug's unit side
    "F22/bad_yellow_and_black_in_one_splice": (
        "26 T1 car end 1 (yellow, B+)",
        "T1 car end 1 (yellow, B+) reaches T1 car end 2 (black, GND): a short across the battery, it burns.",
        "Part T1 car end 1 (yellow, B+) from T1 car end 2 (black, GND) before anything is powered.",
        "dash.unit.1 > T1.unit.1 > T1.car.1 > T1.car.2",
        "dash.unit.1 radio.B+ T1.unit.1 T1.car.1 dash.car.1 face.B+",
    ),
    # two amplifiers hang on a block whose `in` no run reaches; amp by way of C204
    "F27/bad_block_not_fed": (
        "6 block in; 7 amp; 8 bass",
        "Nothing feeds block in, on which amp and bass hang: it stays dead.",
        "Lay a fused feed to block in and write the run.",
        "amp.B+ > C204.car.1 > C204.unit.1 > block.1 > block.in",
        "amp.B+ bass.B+ block.in",
    ),
    # kick 1 leads to C310 and no further
    "F27/bad_dead_wire": (
        "14 amp B+ (red)",
        "Nothing feeds amp B+ (red): it stays dead.",
        "Lay a fused feed to amp B+ (red) and write the run.",
        "amp.B+ > run.kick.1>amp.B+~1 > kick.car.1 > C204.unit.1 > C204.car.1 > C310.unit.1 > C310.car.1",
        "amp.B+",
    ),
    # both CAN wires of the plug are cut, the cluster lies behind C204
    "G01/bad_pair_cut_while_unit_stays": (
        "27 dash cavity 5 (yellow with green stripe, CAN-H)",
        (
            "dash cavity 5 (yellow with green stripe, CAN-H) and cavity 6 (yellow with brown stripe, CAN-L) are "
            "opened: radio is off the bus."
        ),
        "Pass both wires of the pair through, twisted and untouched.",
        (
            "radio.CAN-H > dash.unit.5 > dash.car.5 > C204.unit.3 > C204.car.3 > seat.car.1 > seat.unit.1 > "
            "cluster.CAN-H"
        ),
        "dash.unit.5 dash.unit.6 dash.car.5 dash.car.6",
    ),
    # the method pierces, and both wires of the pair are taken: the plug's end is named
    "G03/bad_tap_bites_into_can": (
        "17 dash cavity 5 (yellow with green stripe, CAN-H), unit side",
        (
            "dash cavity 5 (yellow with green stripe, CAN-H), unit side is tapped through the insulation at J1: cut "
            "strands stop the bus later."
        ),
        "Take the loom, or solder to the uncut wire and insulate it.",
        "dash.unit.5 > dash.car.5 > face.CAN-H",
        "face.CAN-H dash.car.5 face.CAN-L dash.car.6 dash.unit.5",
    ),
    # famp comes out, nothing joins the two guides
    "G05/bad_amplifier_out_ring_hangs": (
        "17 seat cavity 1 (orange, OPTICAL-IN), car side",
        (
            "famp comes out, and seat cavity 1 (orange, OPTICAL-IN), car side leads nowhere: the ring is open, the "
            "system stays dead."
        ),
        "Close it with a passive link, or pass both light-guides on.",
        "seat.car.1 > seat.unit.1 > famp.OPTICAL-IN > famp.OPTICAL-OUT > seat.unit.2 > seat.car.2",
        "seat.car.1 seat.car.2 seat.unit.1 seat.unit.2",
    ),
    # seat 1 is charted SRS and joined to dsp.rem
    "G07/bad_yellow_wire_at_seat": (
        "17 seat cavity 1 (yellow, SRS+), car side",
        "seat cavity 1 (yellow, SRS+), car side is a restraint wire, and the plan has it joined: not our wire.",
        "Take it out of the plan and leave the wire alone.",
        "seat.car.1 > seat.unit.1",
        "seat.car.1 dsp.rem",
    ),
    # sill 1 is the CAN-H of the dash two inline plugs on, and is joined to amp.rem
    "G12/bad_bus_meets_trigger_behind_inline": (
        "28 dash cavity 5 (yellow with green stripe, CAN-H), car side",
        (
            "dash cavity 5 (yellow with green stripe, CAN-H), car side meets amp rem: not its own bus: data stops "
            "and the other circuit is disturbed."
        ),
        "Part dash cavity 5 (yellow with green stripe, CAN-H), car side from amp rem.",
        "dash.unit.5 > dash.car.5 > C204.unit.3 > C204.car.3 > C310.unit.1 > C310.car.1 > sill.car.1 > amp.rem",
        "dash.unit.5 dash.car.5 amp.rem",
    ),
    # T1.unit.6 stands under `capped` and in a row of joints
    "H02/bad_capped_and_joined": (
        "24 T1 unit end 6 (blue with white stripe, AMP-ON); 31 T1 unit end 6 (blue with white stripe, AMP-ON)",
        (
            "T1 unit end 6 (blue with white stripe, AMP-ON) is capped and also joined to amp rem: only one of the "
            "two can be meant."
        ),
        "Decide, and strike “capped” or what says “joined to amp rem”.",
        "",
        "T1.unit.6",
    ),
    # RL goes to dsp.in1, and the loom's car side is capped
    "H03/bad_taken_and_not_given_back": (
        "26 dsp in1+; 11 dash cavity 1 (green, RL+), car side",
        (
            "dash cavity 1 (green, RL+), unit side is taken to dsp in1+, but nothing drives the other half: speaker "
            "RL+ is silent."
        ),
        "Join dash cavity 1 (green, RL+), car side to an output, or tap instead of opening the pair.",
        "radio.RL+ > dash.unit.1 > T1.unit.1 > dsp.in1+",
        (
            "dash.unit.1 radio.RL+ T1.unit.1 dsp.in1+ dash.unit.2 radio.RL- T1.unit.2 dsp.in1- dash.car.1 spk.RL+ "
            "T1.car.1 dash.car.2 spk.RL- T1.car.2"
        ),
    ),
    # preset house; the piercing tap takes the car's B+
    "H04/bad_tap_bites_into_feed": (
        "21 dsp B+",
        "dsp B+ is tapped through the insulation: preset house does not allow that on the car's own power wires.",
        "Use solder or crimp (FCS 1362:2010 2.6.1.4, as quoted in the trade, seen 2026; revised 2022, not seen).",
        "dsp.B+ > dash.car.5",
        "dsp.B+ dash.car.5",
    ),
    # the maker's list has ACC at 4 and B+ at 6, the plug the other way round
    "H07/bad_list_says_other_feed": (
        "26 T1 in dash; 19 cavity 4; 21 cavity 6",
        "T1 fits dash, its pins don't: 4 is ACC there, B+ here; 6 is B+ there, ACC here.",
        "Do not plug it in. Take this car's loom, or move the terminals of 4, 6 (`moved`).",
        "radio.B+ > dash.unit.4 > T1.unit.4",
        "T1.unit.4 dash.unit.4 T1.car.4 T1.unit.6 dash.unit.6 T1.car.6",
    ),
    # T1 goes through at 1 alone; 2 and 3/4 of the plug are used, 5 is empty
    "H08/bad_no_pin_for_wheel_control": (
        "25 T1 in dash; 12 dash cavity 2; 13 dash cavity 3; 13 dash cavity 4",
        "T1 has no pin for dash cavity 2 (SWC), 3 (C+), 4 (C−): what runs there is lost.",
        "Take a loom that has these pins, or join the wires beside it.",
        "radio.SWC > dash.unit.2 > dash.car.2",
        (
            "dash.unit.2 radio.SWC dash.car.2 dash.unit.3 radio.C+ dash.car.3 spk.C+ dash.unit.4 radio.C- "
            "dash.car.4 spk.C-"
        ),
    ),
    # two soldered taps under a heading without a cover; a ring under a screw wants none
    "H09/bad_bare_taps": (
        "19 solder at behind the radio; 20 box dim (orange); 21 box live (yellow)",
        (
            "Joints J1 and J2 (soldered at behind the radio): no cover recorded, and bare metal shorts to what it "
            "touches."
        ),
        (
            "Write what covers it, for instance `solder at behind the radio with heat shrink`, and slide it on "
            "before you join."
        ),
        "",
        "box.dim dash.car.4 box.live dash.car.5",
    ),
    # the record has the position alone
    "H10/bad_half_checked": (
        "41 T1 unit end 6 (blue with white stripe, AMP-ON), moved to 7",
        (
            "T1 unit end 6 (blue with white stripe, AMP-ON), moved to 7: lock and tug are not recorded as right. "
            "Not locked, it backs out when the plug goes on."
        ),
        (
            "Look where it sits, see the lock closed and tug the wire; then record `checked`, with `found: position "
            "lock tug`."
        ),
        "",
        "T1.unit.6",
    ),
    # the record has position and lock, not the tug
    "H10/bad_no_tug": (
        "21 T1 unit end 3 (blue with white stripe, AMP-ON), moved to 2",
        (
            "T1 unit end 3 (blue with white stripe, AMP-ON), moved to 2: tug is not recorded as right. Not locked, "
            "it backs out when the plug goes on."
        ),
        (
            "Look where it sits, see the lock closed and tug the wire; then record `checked`, with `found: position "
            "lock tug`."
        ),
        "",
        "T1.unit.3",
    ),
    # `dim` is orange/white and unknown; kick 1 leads to sill 2 (IGN)
    "H11/bad_far": (
        "29 T1 lead dim (orange with white stripe)",
        (
            "T1 lead dim (orange with white stripe) is joined to kick cavity 1 (green), car side, which leads to "
            "sill cavity 2 (brown, IGN), car side, and its function isn't entered. Orange with white stripe is "
            "usually a dimmer of 0 to 12 V (some lists: illumination), by habit and not by rule."
        ),
        "Meter cavity to lead on T1, or read its maker's list, and write the function.",
        "T1.dim > kick.car.1 > C204.car.7 > C204.unit.7 > sill.car.2",
        "T1.dim kick.car.1",
    ),
    # T1.car.3 is moved to 2, where FL− stands and goes on to the speaker
    "H14/bad_moved_onto_another_channel": (
        "32 T1 car end 3 (grey, FR+)",
        (
            "T1 car end 3 (grey, FR+) is moved to cavity 2, where T1 car end 2 (white with black stripe, FL−) "
            "stands: two terminals don't fit."
        ),
        "Depin or move T1 car end 2 (white with black stripe, FL−) first, and write it.",
        "dsp.out2+ > T1.car.3 > dash.car.2 > spk.FL-",
        "T1.car.3 T1.car.2 dash.car.2 spk.FL- dsp.out1- dsp.out2+",
    ),
    # two leads are written at unit.2, the second is told
    "H14/bad_two_named_leads_in_one_terminal": (
        "18 T1 unit end cavity 2",
        "T1 unit end cavity 2 has two leads in one terminal: one of them pulls out.",
        "Keep one lead in the terminal and splice the other outside of the plug.",
        "door.rem > T1.door-on > T1.unit.2 > dash.unit.2 > radio.AMP-ON",
        "T1.unit.2 T1.boot-on T1.door-on",
    ),
    # T2 is pushed onto T1's car end: sockets on sockets, 16-way K on 20-way L
    "H16/bad_in_a_row": (
        "26 T2 in T1; 16 T1's end",
        (
            "T2's unit end has sockets and so has T1's car end; T2's unit end is a 16-way K, T1's car end a 20-way "
            "L: it can't be plugged in."
        ),
        "Take a loom whose end fits the other's; two words for one housing: write the same.",
        "",
        "T2.unit.1 T1.car.1",
    ),
    # T1 has 16-way K at both ends, the plug is a 20-way L
    "H16/bad_other_housing_and_other_half": (
        "35 T1 in dash; 21 T1 unit end; 21 T1 car end",
        (
            "T1's unit end is a 16-way K, dash a 20-way L; T1's car end is a 16-way K, dash a 20-way L: it can't be "
            "plugged in."
        ),
        "Take the loom's other end, or the loom made for this plug; two words for one housing: write the same.",
        "",
        "T1.unit.1 dash.unit.1 T1.car.1 dash.car.1",
    ),
    # the lead `mute` is in no row of joints and in no list
    "H17/bad_mute_lead_forgotten": (
        "18 T1 lead mute (brown, MUTE)",
        "T1 lead mute (brown, MUTE) is joined to nothing and has no fate: forgotten, or not wanted?",
        "Join it, or write `capped: [T1.mute]` or `depinned: [T1.mute]`.",
        "",
        "T1.mute",
    ),
}


@pytest.mark.parametrize("fixture", WHOLE)
def test_the_whole_finding(fixture: str) -> None:
    places, message, do, way, about = WHOLE[fixture]
    assert whole_of(fixture) == (places, message, do, way, frozenset(about.split()))
