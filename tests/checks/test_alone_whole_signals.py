"""What a finding of charts, signals, loads and turn-on says as a whole: places, both sentences, the way, the contacts.

In the line above each row stands the fact of the fixture that decides; lines, contacts and sums were held against that.
The words themselves were chosen with the messages in view: they guard wording, and prove nothing.
"""

from __future__ import annotations

import pytest

from tests.checks.alone import whole_of

# fixture -> places (line and name), message, advice, way, contacts (in any order)
WHOLE: dict[str, tuple[str, str, str, str, str]] = {
    # the chart covers 2022; both pairs have their tones, ACC is used
    "A13/bad_pairs_toned_feed_not": (
        "9 dash",
        (
            "The chart of dash is for 2022, the car is of 2021: functions and colours may have moved. Used and not "
            "toned: 3 (red, ACC)."
        ),
        (
            "Find the chart for this year, or take this one as a hint: tone each used pair and meter the other "
            "wires first."
        ),
        "",
        "dash.unit.3 dash.car.3",
    ),
    # 47 ohm is more than two of 16 ohm in line
    "A17/bad_behind_two_plugs": (
        "1 dash cavities 3 and 4 (white and white with black stripe, FL)",
        (
            "dash cavities 3 and 4 (white and white with black stripe, FL) read 47 ohm: no bare speaker, none reads "
            "more than 32 ohm. An amplifier or a network sits between."
        ),
        "Follow both wires to what they end in, and chart that, before you design on this pair.",
        "dash.car.3 > C204.unit.7 > C204.car.7 > C206.unit.1 > C206.car.1 > spk.FL+",
        "dash.car.3 dash.car.4",
    ),
    # the car's own door wires are reversed, and so is the joint at T1.car
    "B02/bad_output_and_door": (
        "40 T1 car end 9 (white with black stripe, FL−); 34 speaker FL+",
        (
            "FL: reversed twice, between dsp out1+ and T1 car end 9 (white with black stripe, FL−), and again "
            "between dash cavity 9 (white with black stripe, FL−), car side and speaker FL+; it cancels, until "
            "somebody undoes one."
        ),
        "Put both places right, or write on the sheet that they belong together.",
        (
            "radio.FL+ > dash.unit.1 > T1.unit.1 > dsp.in1+ > dsp.out1+ > T1.car.9 > dash.car.9 > C204.unit.8 > "
            "C204.car.8 > C206.unit.2 > C206.car.2 > spk.FL+"
        ),
        "spk.FL+ spk.FL-",
    ),
    # out2 goes to FL and out1 to FR
    "B03/bad_outputs_exchanged": (
        "45 T1 car end 1 (white, FL+); 46 T1 car end 2 (grey, FR+)",
        (
            "FL plays right front and FR plays left front, crossed between dsp out2+ and T1 car end 1 (white, FL+) "
            "and between dsp out1+ and T1 car end 2 (grey, FR+): left and right change places."
        ),
        "Exchange the pairs there, so that each channel stays on its own contacts up to spk.FL and spk.FR.",
        (
            "radio.FR+ > dash.unit.2 > T1.unit.2 > dsp.in2+ > dsp.out2+ > T1.car.1 > dash.car.1 > C204.unit.7 > "
            "C204.car.7 > spk.FL+"
        ),
        "spk.FL+ spk.FL- spk.FR+ spk.FR-",
    ),
    # the car's own wires are reversed, and dsp.in2 is once more
    "B08/bad_far_at_the_input": (
        "44 dsp in2−",
        (
            "FL-TW is inverted on purpose, and the plan turns it round between T1 unit end 2 (grey, FL-TW+) and dsp "
            "in2−: + comes to +, and it works against its neighbours if they still count on the inversion. Is that "
            "meant?"
        ),
        (
            "Swap the two wires between T1 unit end 2 (grey, FL-TW+) and dsp in2−, or take `inverted` off the "
            "speaker if the new crossover wants it straight."
        ),
        (
            "radio.FL-TW+ > dash.unit.2 > T1.unit.2 > dsp.in2- > dsp.out2+ > T1.car.2 > dash.car.2 > C206.unit.1 > "
            "C206.car.1 > spk.FL-TW-"
        ),
        "spk.FL-TW+ spk.FL-TW-",
    ),
    # one row joins four wires of two radios: one fault about all eight terminals
    "C01/bad_range_on_one_line": (
        "20 dash cavity 1 (white, FL+), car side",
        (
            "radio FL+ and new out1+ meet on one wire at dash cavity 1 (white, FL+), car side: two amplifiers fight "
            "and one or both can fail."
        ),
        "Open the wire toward radio, or undo the joint at dash cavity 1 (white, FL+), car side.",
        "radio.FL+ > dash.unit.1 > dash.car.1 > new.out1+",
        "radio.FL+ new.out1+ radio.FL- new.out1- radio.FR+ new.out2+ radio.FR- new.out2-",
    ),
    # 20 log(2/0.4) = 14.0 dB; in2 takes 0.2 to 4 V
    "C07/bad_far": (
        "24 amp in1+",
        (
            "radio FL gives 0.4 V, as written, into amp in1 that wants 2 V at least, 14 dB more: hiss, and no full "
            "power."
        ),
        "Use amp in2.",
        "radio.FL+ > dash.unit.1 > dash.car.1 > C204.unit.7 > C204.car.7 > amp.in1+",
        "radio.FL+ radio.FL- amp.in1+ amp.in1-",
    ),
    # no volts are written for the radio; the converter passes them on to amp
    "C08/bad_through_a_converter_at_the_door": (
        "14 radio FL+",
        "No level is written for radio FL, and amp in1 rests on it: nobody can say whether it clips or hisses.",
        (
            "Play a tone, turn up to the last clean step, read the volts, and write both: for instance `8.5 V clean "
            "step 31`."
        ),
        "radio.FL+ > dash.unit.1 > dash.car.1 > C204.unit.7 > C204.car.7 > loc.in1+",
        "radio.FL+ radio.FL- amp.in1+ amp.in1-",
    ),
    # 100 to 3000 Hz of 20 to 20000
    "C10/bad_plain": (
        "16 speaker FL",
        "FL gets 100 to 3000 Hz from radio rca1, and 20 to 100 Hz and 3000 to 20000 Hz is missing.",
        "Sum the outputs that make the whole band, or take the signal before the crossover.",
        "famp.FL-MID+ > seat.unit.1 > seat.car.1 > dsp.in1+",
        "spk.FL+ spk.FL- radio.rca1+ radio.rca1-",
    ),
    # famp's tweeter output runs 1.2 ms behind; (2k + 1)/2.4 ms in 2 to 4 kHz: 5, 7 and 9 of them
    "C11/bad_far": (
        "16 dsp out1",
        (
            "dsp in2 runs 1.2 ms behind in1 and both play 2000 to 4000 Hz: their sum has holes at 2083 and 2917 and "
            "3750 Hz."
        ),
        "Undo the delay first: 1.2 ms on in1; or take a signal that carries the whole band.",
        "famp.FL-TW+ > seat.unit.3 > seat.car.3 > C204.unit.5 > C204.car.5 > dsp.in2+",
        "dsp.out1+ dsp.out1-",
    ),
    # C and C-TW hang on C204, whose two wires are cut and capped on both sides
    "C14/bad_two_drivers_one_wire": (
        "19 speaker C; 20 speaker C-TW",
        (
            "C and C-TW have no feed after this change: the path reaches as far as C204 cavity 1, car side; next "
            "would be C204 cavity 1, unit side."
        ),
        "Join C204 cavity 1, car side to C204 cavity 1, unit side or to an amplifier's output.",
        "spk.C+ > C204.car.1 > C204.unit.1",
        "spk.C+ C204.car.1 spk.C-TW+ spk.C- C204.car.2 spk.C-TW- C204.unit.1",
    ),
    # `key: out`; dsp wakes by the radio's AMP-ON; FL is taken at the row marked
    "C16/bad_processor_wakes_with_the_radio": (
        "42 T1 unit end 1 (white, FL+); 38 belt chime",
        "belt chime to speaker FL must pass dsp, which sleeps while the key is out: it is silent then.",
        (
            "Pass this pair on as it was, or let dsp wake by signal or by bus too; test with the key out and a door "
            "open."
        ),
        (
            "radio.FL+ > dash.unit.1 > T1.unit.1 > dsp.in1+ > dsp.out1+ > T1.car.1 > dash.car.1 > C204.unit.7 > "
            "C204.car.7 > spk.FL+"
        ),
        "spk.FL+ spk.FL- dash.unit.1 dash.car.1 T1.unit.1",
    ),
    # the loom's microphone leads are capped at both ends, 5 written first
    "C17/bad_microphone_capped": (
        "25 T1 unit end 5 (orange, MIC+)",
        ("dash cavity 5 (orange, MIC+) is the hands-free microphone, opened and not passed on: the phone goes deaf."),
        "Pass both microphone wires on, untouched.",
        "dash.car.5 > dash.unit.5",
        "dash.unit.5 dash.car.5 T1.unit.5 dash.unit.5 dash.car.5 dash.unit.6 dash.car.6",
    ),
    # C204.5 is cut and capped on both sides; the radio's side is the unit half
    "C18/bad_turn_on_cut_behind_the_pillar": (
        "33 C204 cavity 5, car side",
        (
            "famp AMP-ON loses its line from radio AMP-ON at C204 cavity 5, car side, and famp stays: it may stay "
            "silent or pop."
        ),
        "Pass the line on to famp, or drive it from another unit's turn-on output.",
        ("radio.AMP-ON > dash.unit.3 > dash.car.3 > C204.unit.5 > C204.car.5 > kick.car.5 > kick.unit.5 > famp.AMP-ON"),
        "famp.AMP-ON radio.AMP-ON C204.unit.5 C204.car.5",
    ),
    # FL is cut at the plug, capped on the radio's side, and had C204 and spk.FL behind it
    "C19/bad_capped": (
        "11 dash cavity 1 (white, FL+), unit side",
        "The radio looks for a speaker on dash 1/2 (FL) and finds none: it drops the channel or stores a fault.",
        "Fit a load of some tens of ohms, made for the power, across the radio's side.",
        "dash.unit.1 > dash.car.1 > C204.unit.7 > C204.car.7 > spk.FL+",
        "dash.unit.1 dash.unit.2",
    ),
    # the call's pair is taken at T1's unit end; its speaker lies behind C204 and C310
    "C23/bad_taken_in_the_boot": (
        "44 T1 unit end 1 (violet, C+); 39 emergency call",
        (
            "emergency call to speaker C is opened at T1 unit end 1 (violet, C+) and must pass amp: it must work "
            "with all else off."
        ),
        "Pass this pair untouched from its unit to its speaker, and take another speaker into the plan.",
        "tcu.C+ > boot.unit.1 > boot.car.1 > C204.unit.7 > C204.car.7 > C310.unit.1 > C310.car.1 > spk.C+",
        "spk.C+ spk.C- boot.unit.1 boot.car.1 T1.unit.1",
    ),
    # one row joins C204.7 to C204.8, behind which the speaker hangs
    "C24/bad_short_behind_the_pillar": (
        "27 C204 cavity 7, car side",
        "radio FL+ and radio FL− are one wire through C204 cavity 7, car side: the output works into a short.",
        "Part + and − at C204 cavity 7, car side, and meter the pair before it is powered.",
        "spk.FL+ > C204.car.7 > C204.car.8 > spk.FL-",
        "radio.FL+ radio.FL- spk.FL+ spk.FL- dash.unit.1 dash.unit.2 dash.car.1 dash.car.2",
    ),
    # the chain ends at FL and FL-TW, side by side; the record heard FL; dsp has the only routes on the way
    "C27/bad_tweeter_silent": (
        "3 radio.FL",
        "radio FL was played and FL answered; as planned FL and FL-TW must. FL-TW stays silent.",
        (
            "Power off, then follow radio FL from joint to joint and hold the routes set in dsp against the plan. "
            "Put right the car or the plan, play it again and add a record."
        ),
        (
            "radio.FL+ > dash.unit.1 > T1.unit.1 > dsp.in1+ > dsp.out1+ > T1.car.1 > dash.car.1 > C204.unit.7 > "
            "C204.car.7 > spk.FL+ > spk.FL-TW+"
        ),
        (
            "radio.FL+ radio.FL- dash.unit.1 T1.unit.1 dsp.in1+ dsp.out1+ T1.car.1 dash.car.1 C204.unit.7 "
            "C204.car.7 spk.FL+ spk.FL-TW+"
        ),
    ),
    # two subs of two 2-ohm coils side by side: 2/4 = 0.5; two strings of two 2; all in line 8
    "D01/bad_plain": (
        "25 amp out1+",
        "amp out1 sees 0.5 ohm with SUB and SUB2, rated for 1 ohm: it shuts down or burns.",
        "Legal with these speakers: 2 ohm (2 strings of 2 in series) or 8 ohm (all in series).",
        "amp.out1+ > spk.SUB+",
        "amp.out1+ amp.out1- spk.SUB+ spk.SUB- spk.SUB2+ spk.SUB2-",
    ),
    # a 2-ohm sub halves to 1 ohm; 2 ohm least a channel is 4 ohm bridged; one coil has one way of wiring
    "D02/bad_plain": (
        "24 amp out1+",
        "Bridged, each half of amp out1+/out2- sees 1 ohm with SUB, rated for 2 ohm: it shuts down or burns.",
        "Needs 4 ohm or more: drive them from one channel.",
        "amp.out1+ > spk.SUB+",
        "amp.out1+ amp.out2- spk.SUB+ spk.SUB-",
    ),
    # a capacitor reads open; 3.5 ohm lies in 2.48 to 4 (0.62 to 1.0 of 4)
    "D05/bad_not_behind_its_capacitor": (
        "1 dash cavities 3 and 4 (white and white with black stripe, FL-TW)",
        (
            "dash cavities 3 and 4 (white and white with black stripe, FL-TW) read 3.5 ohm; FL-TW would read open, "
            "behind its capacitor. It would fit one 4-ohm speaker."
        ),
        (
            "Find which it is, by tone and by the mark on the speaker, and write it under `speakers` or `found`: "
            "the load is summed from it."
        ),
        "dash.car.3 > spk.FL-TW+",
        "dash.car.3 dash.car.4 spk.FL-TW+ spk.FL-TW-",
    ),
    # 11.9 V are read at C310, fed from the dash's AMP-ON; behind it hangs amp rem
    "E11/bad_beyond_the_sill_plug": (
        "1 C310 cavity 5, car side",
        (
            "C310 cavity 5, car side reads 11.9 V after 11 min with the key out, limit 1 V: no retained power lasts "
            "so long. amp stays awake and the battery runs flat."
        ),
        (
            "Lift the turn-on from dash cavity 4 (blue with white stripe, AMP-ON), unit side and read both ends: "
            "find which side feeds it. Mend that, wait 15 min after locking, and add a record of the new reading."
        ),
        "dash.unit.4 > dash.car.4 > C310.unit.5 > C310.car.5",
        "C310.car.5 dash.unit.4 amp.rem",
    ),
    # ACC pulls the relay whose contact wakes dsp and amp
    "E12/bad_by_a_coil": (
        "22 dsp rem",
        (
            "dsp rem is woken by dash cavity 2 (red, ACC), car side alone, which drops at every start: dsp and amp "
            "cut out and pop."
        ),
        "Measure it while cranking; take the radio's turn-on lead or a feed that holds.",
        "dash.car.2 > k1.86 > k1.87 > dsp.rem",
        "dsp.rem amp.rem dash.car.2",
    ),
    # signal sense is unused, and no run or row reaches a `rem`
    "E15/bad_far": (
        "28 amp signal sense",
        ("amp is to wake by its signal, its signal sensing is off, and no lead with 12 V comes to it: it never wakes."),
        "Set the signal sensing of amp on, or wake it by a lead and write that under `wakes`.",
        "radio.FL+ > dash.unit.1 > dash.car.1 > C204.unit.7 > C204.car.7 > boot.unit.1 > amp.in1+",
        "radio.FL+ radio.FL- amp.in1+ amp.in1-",
    ),
}


@pytest.mark.parametrize("fixture", WHOLE)
def test_the_whole_finding(fixture: str) -> None:
    places, message, do, way, about = WHOLE[fixture]
    assert whole_of(fixture) == (places, message, do, way, frozenset(about.split()))
