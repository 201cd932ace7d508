"""Published figures of loads and levels, written as jobs and read back from what `check` computes and says."""

from __future__ import annotations

import pytest

from harness.planning.channel_levels import OutputLine, output_lines
from harness.prove import prove_text

HEAD = """\
ringout: 1
title: Coils on one output
car: {name: Bench car, steering: left}
"""
ONE = "amp.out1: spk.SUB"
PARALLEL = "amp.out1: [spk.SUB, spk.BOX]"
SERIES = "amp.out1+: spk.SUB+\n    spk.SUB-: spk.BOX+\n    spk.BOX-: amp.out1-"


def load(speakers: str, joints: str, least: str = "1 ohm") -> OutputLine:
    text = (
        f"{HEAD}units:\n  amp: {{kind: amplifier, outputs: {{out1: 300 W @ 4 ohm least {least}}}, wakes: signal}}\n"
        f"speakers:\n  {speakers}\njoints:\n  screw:\n    {joints}\n"
    )
    proof = prove_text(text, "job.yaml", mends=False)
    assert proof.wiring is not None, [finding.message for finding in proof.report.findings]
    (line,) = output_lines(proof.wiring)
    return line


# 11. Double voice coils: a car forum's page (one and two of 4 ohm and of 2 ohm) and a dealer's page, seen 2026; all in
# series by 4 z, which an audio reference page leaves out (E7).
COILS = [
    ("SUB: {coils: 2 x 4 ohm series}", ONE, 8),
    ("SUB: {coils: 2 x 4 ohm parallel}", ONE, 2),
    ("SUB: {coils: 2 x 2 ohm series}", ONE, 4),
    ("SUB: {coils: 2 x 2 ohm parallel}", ONE, 1),
    ("SUB BOX: {coils: 2 x 4 ohm parallel}", PARALLEL, 1),
    ("SUB BOX: {coils: 2 x 4 ohm series}", PARALLEL, 4),
    ("SUB BOX: {coils: 2 x 4 ohm parallel}", SERIES, 4),
    ("SUB BOX: {coils: 2 x 4 ohm series}", SERIES, 16),
    ("SUB BOX: {coils: 2 x 2 ohm parallel}", PARALLEL, 0.5),
    ("SUB BOX: {coils: 2 x 2 ohm series}", PARALLEL, 2),
    ("SUB BOX: {coils: 2 x 2 ohm series}", SERIES, 8),
    ("SUB BOX: {nominal: 4 ohm}", PARALLEL, 2),
    ("SUB BOX: {nominal: 4 ohm}", SERIES, 8),
]


@pytest.mark.parametrize(("speakers", "joints", "ohm"), COILS)
def test_double_coils(speakers: str, joints: str, ohm: float) -> None:
    assert load(speakers, joints).nominal_ohm == pytest.approx(ohm, rel=1e-9)


# IEC 60268-5 as a reference page gives it, seen 2026: the least over the band is 80 % of the nominal at least:
# 6.4 ohm of 8, 3.2 of 4.
@pytest.mark.parametrize(("nominal", "least"), [("8", 6.4), ("4", 3.2)])
def test_the_least_of_a_nominal_speaker(nominal: str, least: float) -> None:
    assert load(f"SUB: {{nominal: {nominal} ohm}}", ONE).least_ohm == pytest.approx(least, rel=1e-9)


@pytest.mark.parametrize(("wired", "stop"), [("parallel", True), ("series", False)])
def test_an_output_of_1_ohm_takes_only_one_of_two_wirings(wired: str, stop: bool) -> None:
    """Two double coils of 2 ohm: 0.5 ohm all parallel, which 1 ohm doesn't allow; 2 ohm with the coils in series."""
    text = (
        f"{HEAD}units:\n  amp: {{kind: amplifier, outputs: {{out1: 300 W @ 2 ohm least 1 ohm}}, wakes: signal}}\n"
        f"speakers:\n  SUB BOX: {{coils: 2 x 2 ohm {wired}}}\njoints:\n  screw:\n    {PARALLEL}\n"
    )
    found = [each for each in prove_text(text, "job.yaml", mends=False).report.findings if each.code == "D01"]
    assert bool(found) is stop
    if stop:
        assert "0.5 ohm" in found[0].message


# 10. A forum on volume meters, seen 2026: a bridged stage on 14 V swings 14 V, (14 x 14 / 4)/2 = 24.5 W on 4 ohm, which
# are sqrt(24.5 x 4) = 9.90 V. An input that takes 9.8 V gets 0.09 dB too much, one that takes 10 V does not.
@pytest.mark.parametrize(("most", "hot"), [("9.8", True), ("10", False)])
def test_the_ceiling_of_a_radio_on_14_v(most: str, hot: bool) -> None:
    text = (
        f"{HEAD}units:\n  radio: {{kind: radio, outputs: {{FL: btl 24.5 W @ 4 ohm clean step 31}}}}\n"
        f"  amp: {{kind: amplifier, inputs: {{in1: 2..{most} V differential}}, outputs: {{out1: 50 W @ 4 ohm}}}}\n"
        "speakers:\n  SUB: {nominal: 4 ohm, new: one}\n"
        "joints:\n  screw:\n    radio.FL: amp.in1\n    amp.out1: spk.SUB\n"
    )
    found = [each for each in prove_text(text, "job.yaml", mends=False).report.findings if each.code == "C06"]
    assert bool(found) is hot
    if hot:
        assert "9.9 V" in found[0].message


def network(branches: list[tuple[str, str, float]], ends: tuple[str, str]) -> OutputLine:
    """Speakers as resistances: (node, node, ohm) each, with the output on two of the nodes."""
    rows = [f"S{at}: {{nominal: {ohm:g} ohm}}" for at, (_, _, ohm) in enumerate(branches)]
    at_node: dict[str, list[str]] = {}
    for at, (a, b, _) in enumerate(branches):
        at_node.setdefault(a, []).append(f"spk.S{at}+")
        at_node.setdefault(b, []).append(f"spk.S{at}-")
    at_node[ends[0]].insert(0, "amp.out1+")
    at_node[ends[1]].insert(0, "amp.out1-")
    joints = [f"{first}: [{', '.join(others)}]" for first, *others in at_node.values() if others]
    return load("\n  ".join(rows), "\n    ".join(joints))


CUBE = [
    (a, b, 1.0)
    for a, b in ("ab", "bc", "cd", "da", "ef", "fg", "gh", "he", "ae", "bf", "cg", "dh")
]  # fmt: skip
# 6. Networks of resistances, each with its source above its value.
NETWORKS = [
    # a teaching sheet on series and parallel circuits, seen 2026: 8 before (5 and 15 in line, beside 30): 20 ohm
    ([("p", "x", 8), ("x", "y", 5), ("y", "m", 15), ("x", "m", 30)], "pm", 20),
    # an exam question's page, seen 2026, for the values; 242/81 by 1 + (3.5 beside 4.6), a hand sum
    ([("p", "l", 5), ("l", "m", 2), ("l", "r", 3), ("p", "r", 2), ("r", "m", 4)], "pm", 242 / 81),
    # the documentation of a graph library for its resistance distance, seen 2026: 0.625 (its node 2 is a dead end)
    ([("p", "2", 1), ("p", "m", 1), ("p", "4", 1), ("m", "4", 1), ("m", "5", 1), ("4", "5", 1)], "pm", 0.625),
    # a school physics page on resistance networks, seen 2026: 7/12, 3/4 and 5/6 of a cube of 1 ohm
    (CUBE, "ab", 7 / 12),
    (CUBE, "ac", 3 / 4),
    (CUBE, "ag", 5 / 6),
]


@pytest.mark.parametrize(("branches", "ends", "ohm"), NETWORKS)
def test_networks_of_speakers(branches: list[tuple[str, str, float]], ends: str, ohm: float) -> None:
    """Nobody wires speakers as a cube; a load that is right for one is right for what people wire."""
    assert network(branches, (ends[0], ends[1])).nominal_ohm == pytest.approx(ohm, rel=1e-9)
