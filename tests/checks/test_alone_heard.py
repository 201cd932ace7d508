"""What answers, and what was built, as records say it: one check at a time, each message as a whole.

No outside source: the rules are those that `ringout explain` prints of each code.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.checks.alone import recorded
from tests.checks.test_alone_records import JOB

# One output on two speakers, with no unit between.
PLAIN = JOB[: JOB.index("  amp:")] + (
    "speakers: {FL FR RL: {nominal: 4 ohm}}\njoints:\n  crimp with heat shrink:\n    radio.FL: [spk.FL, spk.RL]\n"
)
BY_AMP = "radio.FL+ > dash.unit.1 > amp.in1+ > amp.out1+ > dash.car.1 > spk.FL+"
FULL_BLAST = "The level of radio FL didn't follow the volume, which the plan has on its way: full blast at the first "
FULL_BLAST += "turn-on."
STRAY = "Sound comes from the wrong place, and more may be crossed."


@pytest.mark.parametrize(
    ("job", "record", "message", "way"),
    [
        (JOB, "heard: FL", "", ""),
        (JOB, "heard: FL FR", f"radio FL was played and FL and FR answered; as planned FL must. {STRAY}", BY_AMP),
        (JOB, "heard: nothing", "radio FL was played and nothing answered; as planned FL must. FL stays silent.",
         BY_AMP),
        (JOB, "heard: FL, follows: nothing", FULL_BLAST, BY_AMP),
        (JOB, "heard: FR, follows: nothing",
         f"radio FL was played and FR answered; as planned FL must. {FULL_BLAST}", BY_AMP),
        (PLAIN, "heard: FL RL", "", ""),
        (PLAIN, "heard: nothing",
         "radio FL was played and nothing answered; as planned FL and RL must. FL and RL stay silent.",
         "radio.FL+ > spk.FL+"),
        (PLAIN, "heard: FL", "radio FL was played and FL answered; as planned FL and RL must. RL stays silent.",
         "radio.FL+ > spk.RL+"),
        (PLAIN, "heard: FL RL FR",
         f"radio FL was played and FL and RL and FR answered; as planned FL and RL must. {STRAY}",
         "radio.FL+ > spk.FL+"),
    ],
)  # fmt: skip
def test_what_an_output_made_sound(tmp_path: Path, job: str, record: str, message: str, way: str) -> None:
    """The way passes amp's routes in the one job, and no unit in the other."""
    findings = recorded(tmp_path, "C27", (f"plays: radio.FL, {record}",), job)
    assert [(each.message, " > ".join(each.path)) for each in findings] == ([(message, way)] if message else [])
    routes = " and hold the routes set in amp against the plan" if job is JOB else ""
    for each in findings:
        assert each.do == (
            f"Power off, then follow radio FL from joint to joint{routes}. Put right the car or the plan, play it "
            "again and add a record."
        )
        assert each.about[:2] == ("radio.FL+", "radio.FL-")
        assert set(each.path) <= set(each.about)


def test_a_speaker_that_was_silent_at_the_plug_is_looked_for_in_the_car(tmp_path: Path) -> None:
    """FL answered 500 Hz at the plug and nothing 9 kHz, so FL-TW, which is for that, is dead before any joint of ours;
    where all was toned well the way through the plan is what is left to look at.
    """
    tweeter = "FL-TW: {nominal: 4 ohm, capacitor: 4.7 uF}"
    job = JOB.replace("speakers: {", f"found: [dash.FL > spk.FL spk.FL-TW]\nspeakers: {{{tweeter}, ", 1)
    assert tweeter in job
    low = "tone: dash.car.1/5, charted: FL, heard: FL, plus: 1, signal: 500 Hz"
    high = "tone: dash.car.1/5, charted: FL, signal: 9 kHz, heard: "
    (silent,) = recorded(tmp_path, "C27", (low, f"{high}none", "plays: radio.FL, heard: FL"), job)
    assert silent.do == (
        "FL-TW was silent at 9 kHz at its plug already: power off, look on the car's side, at the speaker, its "
        "capacitor and its wires. Mend it, tone and play it again, and add both records."
    )
    (sound,) = recorded(tmp_path, "C27", (low, f"{high}FL-TW", "plays: radio.FL, heard: FL"), job)
    assert sound.do.startswith("Power off, then follow radio FL from joint to joint")


FOUR = (
    JOB.replace("      3/7: RL GN GN/BK\n", "      3/7: RL GN GN/BK\n      4/8: RR VT VT/BK\n")
    .replace("FL FR RL", "FL FR RL RR").replace("in1..3", "in1..4").replace("out1..3", "out1..4")
    .replace("out3: in3", "out3: in3, out4: in4").replace("dash.RL]", "dash.RL, dash.RR]")
    + "    dash.unit.RR: amp.in4\n    dash.car.RR: amp.out4\n"
)  # fmt: skip
ANEW = "Make the joint as planned, or change the plan and prove it again; then add a record of what is there."
B03 = "B03 Left and right crossed: FL plays right front, crossed between amp out2+ and dash cavity 1 (white, FL+), "
B03 += "car side: left and right change places."
BOTH = "{} and dash cavity 5 (white with black stripe, FL−), car side: planned joined to amp out1+, built "
C01 = "C01 Two outputs on one wire: amp out1+ and amp out2+ meet on one wire at dash cavity 1 (white, FL+), car side: "
C01 += "two amplifiers fight and one or both can fail."


@pytest.mark.parametrize(
    ("code", "records", "line", "message", "do"),
    [
        # a fate alone can't be laid; another output, which is no danger; a second one, which is
        ("J25", ("built: dash.car.1/5, is: capped",), 0, "", ""),
        ("J24", ("built: dash.car.1/5, is: capped",), 0, "", ""),
        ("J25", ("built: dash.car.1/5, is: amp.out2",), 1,
         f"{BOTH}amp.out2. So built: FL gets radio FR, planned radio FL. {B03}", ANEW),
        ("J24", ("built: dash.car.1/5, is: amp.out2",), 0, "", ""),
        ("J24", ('built: dash.car.1/5, is: "amp.out1, amp.out2"',), 1,
         f"{BOTH}amp.out1, amp.out2. So built: {C01}", f"Power nothing. {ANEW}"),
        ("J24", ("built: dash.unit.3/7, is: capped", 'built: dash.car.1/5, is: "amp.out1, amp.out2"'), 2,
         f"{BOTH}amp.out1, amp.out2. So built: {C01}", f"Power nothing. {ANEW}"),
        ("J25", ('built: dash.car.1/5, is: "amp.out1, amp.out2"',), 0, "", ""),
    ],
)  # fmt: skip
def test_a_joint_built_otherwise(
    tmp_path: Path, code: str, records: tuple[str, ...], line: int, message: str, do: str
) -> None:
    """Told at the record, with the joint as planned behind it: the row of dash.car.FL."""
    here = "dash cavity 1 (white, FL+), car side"
    findings = recorded(tmp_path, code, records, JOB)
    assert [(each.message, each.do) for each in findings] == ([(message.format(here), do)] if line else [])
    planned = JOB[: JOB.index("    dash.car.FL: amp.out1")].count("\n") + 1
    for each in findings:
        assert [(spot.place.line, spot.name) for spot in each.places] == [(line, here), (planned, here)]
        assert each.about == ("dash.car.1", "dash.car.5")


def test_three_speakers_are_named_of_four(tmp_path: Path) -> None:
    """Front and rear, left and right: each pair of outputs on the other side."""
    crossed = [
        f"built: dash.car.{at}, is: amp.out{out}" for at, out in (("1/5", 2), ("2/6", 1), ("3/7", 4), ("4/8", 3))
    ]
    first, *_ = recorded(tmp_path, "J25", tuple(crossed), FOUR)
    for words in ("FL gets radio FR, planned", "FR gets radio FL, planned", "RL gets radio RR, planned"):
        assert words in first.message
    assert "RR gets" not in first.message
    assert first.message.endswith(" And 1 more.")
    (two, *_) = recorded(tmp_path, "J25", tuple(crossed[:2]), FOUR)
    assert " more." not in two.message
