"""What the first car's tones say against its chart, by the tone that was on; by hand from the job's text."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.again.contradicted import contradictions
from tests.graph.test_drivers import BESIDE, tone
from tests.session.hazel import hazel


@pytest.mark.parametrize(
    ("record", "said"),
    [
        # the tweeter beside the door speaker is on that pair, so it is no other one; a channel over there is
        (tone("FL-TW", "9 kHz"), 0), (tone("FL", "500 Hz"), 0), (tone("RL", "9 kHz"), 1),
        # no speaker but a tweeter must answer 9 kHz; 500 Hz moves the door speaker
        (tone("none", "9 kHz").replace("1/7", "2/8"), 0), (tone("none", "500 Hz").replace("1/7", "2/8"), 1),
        (tone("none").replace("1/7", "2/8"), 1),
    ],
)  # fmt: skip
def test_only_what_the_tone_can_say(record: str, said: int, tmp_path: Path) -> None:
    proof = hazel(tmp_path, record.replace("charted: FL, ", ""), job=BESIDE)
    assert proof.wiring is not None
    assert len(contradictions(proof.wiring, ())) == said
