"""The cable to a speaker, there and back. 18 AWG has 20.95 mohm a metre at 20 °C (ASTM B258), 16 AWG 13.17."""

from __future__ import annotations

import pytest

from harness.graph.loads import loads
from harness.graph.speaker_cable import speaker_cable
from tests.graph.test_signals import wiring_of

R18, R16 = 20.95e-3, 13.17e-3
UNITS = "amp: {kind: amplifier, outputs: {out1: 50 W @ 4 ohm}}"


@pytest.mark.parametrize(
    ("runs", "piece_ohm", "ohm"),
    [
        (("amp.out1 > 3 m 18 AWG > spk.FL",), 6 * R18, 6 * R18),
        # turned, so that its + comes to the speaker's −
        (("amp.out1 > 3 m 18 AWG > spk.FL reversed",), 6 * R18, 6 * R18),
        (("amp.out1+ > 3 m 18 AWG > spk.FL-", "amp.out1- > 2 m 16 AWG > spk.FL+"), 3 * R18, 3 * R18 + 2 * R16),
        (("amp.out1+ > 3 m 18 AWG > spk.FL+", "amp.out1- > 2 m 16 AWG > spk.FL-"), 3 * R18, 3 * R18 + 2 * R16),
    ],
)
def test_there_and_back(runs: tuple[str, ...], piece_ohm: float, ohm: float) -> None:
    """The piece with most ohms and its like, both wires of one line, and all of them."""
    wiring = wiring_of("", UNITS, "runs:\n" + "".join(f"  - {run}\n" for run in runs))
    (load,) = loads(wiring)
    (feed,) = wiring.signals.feeds_from(load.driver)
    made = speaker_cable(wiring, load, feed.receiver)
    assert made is not None
    assert made.piece_ohm == pytest.approx(piece_ohm, rel=2e-3)
    assert made.ohm == pytest.approx(ohm, rel=2e-3)
    assert (made.way[0][:8], made.way[-1][:6]) == ("amp.out1", "spk.FL")


def test_a_joint_alone_is_no_cable() -> None:
    wiring = wiring_of("amp.out1: spk.FL", UNITS)
    (load,) = loads(wiring)
    assert speaker_cable(wiring, load, wiring.signals.feeds_from(load.driver)[0].receiver) is None
