"""Whatever was toned and heard, true or not: an answer comes, and what is named goes with the tones by the rule."""

from __future__ import annotations

import random

import pytest

from harness.patterns.chart import Tone
from tests.patterns.asked import ask
from tests.patterns.geometry import CHANNELS, Places, heard_at, random_plug


def said_otherwise(places: Places, tone: Tone) -> bool:
    """Whether a chart has another channel there, or one elsewhere, or another + than was found; by its table alone."""
    name, plus = heard_at(places, tone.a, tone.b)
    if name not in tone.heard:
        return bool(name) or bool(tone.heard & places.keys())
    return bool(tone.plus) and tone.plus != plus


@pytest.mark.parametrize("seed", range(400))
def test_an_answer_that_holds(seed: int) -> None:
    dice = random.Random(seed)
    plug = random_plug(dice, others=bool(seed % 2))
    known = [*plug.cavities, "99"]
    tones = []
    for _ in range(dice.randint(1, 9)):
        pairs = [*plug.chart.values(), (dice.choice(known), dice.choice(known))]
        a, b = dice.choice(pairs)
        heard = frozenset(dice.sample(CHANNELS, dice.choice((0, 1, 1, 1, 2))))
        tones.append(Tone(a, b, heard, dice.choice(("", a, b))))
    answer = ask(plug, tones)
    last = list({tone.cavities: tone for tone in tones if tone.a != tone.b}.values())
    against = sum(said_otherwise(plug.chart, tone) for tone in last)
    if answer.kind in ("named", "several"):
        for _, places in answer.left:
            odd = sum(said_otherwise(places, tone) for tone in last)
            assert odd == 0 or (odd == 1 and against >= 3)
    if answer.kind == "several":
        assert len(answer.left) > 1
    if answer.kind == "no pattern":
        # a channel that isn't charted, heard where the chart has other wires, speaks against it too
        wires = {*plug.held, *(each for two in plug.chart.values() for each in two)}
        strange = sum(bool(tone.heard) and bool(wires & tone.cavities) for tone in last)
        assert against + strange >= 2
