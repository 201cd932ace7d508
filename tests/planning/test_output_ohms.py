"""What a meter reads at the leads of each output, all beyond joined."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph.output_ohms import at_outputs
from harness.prove import prove
from tests.checks.alone import LINK
from tests.graph.test_signals import wiring_of

SAMPLES = Path(__file__).parents[2] / "samples"


def test_each_output_of_ours_is_there_with_what_hangs_on_it() -> None:
    wiring = prove(SAMPLES / "van-odd-but-right.yaml", mends=False).wiring
    assert wiring is not None
    found = {each.driver.name: each for each in at_outputs(wiring)}
    # the file: four out1..4 to the doors and sides, bass bridged over two 2 ohm coils that J11 puts in line
    assert {name: each.lines for name, each in found.items()} == {
        "four.out1": (("FL",), ("FL-TW",)),
        "four.out2": (("FR",), ("FR-TW",)),
        "four.out3": (("RL",), ("RL-TW",), ("RL-MID",)),
        "four.out4": (("RR",),),
        "bass.out1+/out2-": (("SUB.c1", "SUB.c2"),),
    }
    sub = found["bass.out1+/out2-"]
    # 2 ohm + 2 ohm = 4 ohm; a coil reads 0.62 to 1.0 of its nominal (two retailers' guides, seen 2026): 2.48 to 4
    assert sub.nominal_ohm == pytest.approx(4.0)
    assert (sub.expected.low_ohm, sub.expected.high_ohm) == (pytest.approx(2.48), pytest.approx(4.0))
    # RR is written as 8 ohm: 0.62 * 8 = 4.96
    rear = found["four.out4"].expected
    assert (rear.low_ohm, rear.high_ohm) == (pytest.approx(4.96), pytest.approx(8.0))
    # RL and RL-MID side by side; RL-TW sits behind a capacitor and is open to DC
    assert found["four.out3"].expected.blocked == ("RL-TW",)


def test_outputs_whose_leads_cannot_come_off_are_left_out() -> None:
    """The radio's own outputs sit in the plug; its pairs are read on the toning checklist."""
    for sample in sorted(SAMPLES.glob("*.yaml")):
        wiring = prove(sample, mends=False).wiring
        if wiring is not None:
            assert not [each for each in at_outputs(wiring) if each.driver.port.unit == "radio"], sample.name


@pytest.mark.parametrize(
    ("cavities", "outputs"),
    [
        # + or − of an output of ours is joined by hand and the other wire comes out of its plug, or both are by hand
        ("1: out1+, 2: out2+, 3: out2-", []),
        ("1: out1-, 2: out2+, 3: out2-", []),
        ("1: ACC RD", ["amp.out1"]),
    ],
)
def test_an_output_of_which_one_wire_sits_in_a_plug(cavities: str, outputs: list[str]) -> None:
    """Its leads can't come off both."""
    plug = LINK.replace("    CARRIES\n", "").replace("unit: radio", "unit: amp").replace("CAVITIES", cavities)
    amp = "amp: {kind: amplifier, inputs: {in1..2: 1..9 V}, outputs: {out1..2: 50 W @ 4 ohm}}"
    seated, by_hand = ("+", "-") if "out1+" in cavities else ("-", "+")
    chain = f"found: [dash.1 > spk.FL{seated}]\n" if outputs == [] else ""
    joints = f"amp.out1{by_hand}: spk.FL{by_hand}" + ("" if outputs == [] else f"; amp.out1{seated}: spk.FL{seated}")
    assert [each.driver.name for each in at_outputs(wiring_of(joints, amp, plug + chain))] == outputs
