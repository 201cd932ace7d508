"""Which units sleep with the key out, by what wakes them: read off the joints by hand."""

from __future__ import annotations

import pytest

from harness.graph import muted
from tests.graph.test_turn_on_rules import COIL, wiring_of


@pytest.mark.parametrize(
    ("joints", "asleep"),
    [
        ("dash.ACC: amp.rem", {"amp"}), ("dash.AMP-ON: amp.rem", {"amp"}), ("dash.B+: amp.rem", set()),
        # awake by one of two; what another unit switches sleeps with it, and else is awake
        ("dash.ACC: amp.rem; dash.B+: amp.rem", set()),
        ("dash.ACC: dsp.rem; dsp.rem-out: amp.rem", {"dsp", "amp"}),
        ("dash.B+: dsp.rem; dsp.rem-out: amp.rem", set()),
        ("dash.ACC: sleepy.rem", set()),
        # what a relay's coil hangs on wakes the unit behind its contact, and a relay is no unit that sleeps
        (f"dash.ACC: k1.86; {COIL}; dash.B+: k1.30; k1.87: amp.rem", {"amp"}),
        (f"dash.B+: [k1.86, k1.30]; {COIL}; k1.87: amp.rem", set()),
        # nothing wakes it: nobody knows
        ("amp.rem: bass.rem", set()),
    ],
)  # fmt: skip
def test_what_sleeps_with_the_key_out(joints: str, asleep: set[str]) -> None:
    assert muted.asleep(wiring_of(joints)) == asleep
