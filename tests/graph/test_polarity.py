"""Turns on the way to speakers, what they make wrong and what they cancel: read off small jobs by hand."""

from __future__ import annotations

import pytest

from harness.graph import polarity
from harness.graph.wiring import Wiring
from tests.graph.test_signals import wiring_of

AMP = "amp: {kind: amplifier, inputs: {in1..2: 1..9 V}, outputs: {out1..2: 50 W}, routes: {ROUTES}}"
PLAIN = "out1: in1, out2: in2"


def of(joints: str, routes: str = PLAIN, wish: str = "") -> Wiring:
    speakers = f"speakers:\n  FL: {{nominal: 4 ohm{wish}}}\n  FR FL-TW C RR: {{nominal: 4 ohm}}\n"
    return wiring_of(joints, AMP.replace("ROUTES", routes), speakers=speakers)


def causes(wiring: Wiring) -> list[tuple[list[str], int, bool]]:
    """What is wrong by each thing to change, how many turns there are, and whether only single drivers are."""
    return [([turned.speaker for turned in each.wrong], len(each.turns), each.lone) for each in polarity.causes(wiring)]


def cancelled(wiring: Wiring) -> list[tuple[list[str], int]]:
    return [([turned.speaker for turned in each.wrong], len(each.turns)) for each in polarity.cancelling(wiring)]


WISH = ", inverted: on purpose"


@pytest.mark.parametrize(
    ("joints", "routes", "wish", "wrong", "even"),
    [
        ("radio.FL: amp.in1; amp.out1: spk.FL", PLAIN, "", [], []),
        ("radio.FL: amp.in1 reversed; amp.out1: spk.FL", PLAIN, "", [(["FL"], 1, False)], []),
        # twice is right and is told for itself, also where one of them is the route's
        ("radio.FL: amp.in1 reversed; amp.out1: spk.FL reversed", PLAIN, "", [], [(["FL"], 2)]),
        ("radio.FL: amp.in1 reversed; amp.out1: spk.FL", "out1: in1 inverted", "", [], [(["FL"], 2)]),
        # an inversion that is asked for: once is right, not at all and twice are wrong
        ("radio.FL: amp.in1 reversed; amp.out1: spk.FL", PLAIN, WISH, [], []),
        ("radio.FL: amp.in1; amp.out1: spk.FL", PLAIN, WISH, [(["FL"], 0, False)], []),
        ("radio.FL: amp.in1 reversed; amp.out1: spk.FL reversed", PLAIN, WISH, [(["FL"], 2, False)], []),
        # one joint at an input turns all that plays from it: one cause; one of a set alone is another thing
        (
            "radio.FL: amp.in1 reversed; amp.out1: [spk.FL, spk.FL-TW]", PLAIN, "", [(["FL", "FL-TW"], 1, False)], [],
        ),
        ("radio.FL: amp.in1; amp.out1: [spk.FL, spk.FL-TW reversed]", PLAIN, "", [(["FL-TW"], 1, True)], []),
        # two joints are two causes, in the order of the channels, wherever they stand
        (
            "radio.FR: amp.in2; radio.FL: amp.in1; amp.out2: spk.C reversed; amp.out1: spk.FL reversed", PLAIN, "",
            [(["FL"], 1, False), (["C"], 1, False)], [],
        ),
        # two that cancel by the same two joints are told together
        (
            "radio.FL: amp.in1 reversed; amp.out1: [spk.FL reversed, spk.FR reversed]", PLAIN, "", [],
            [(["FL", "FR"], 2)],
        ),
    ],
)  # fmt: skip
def test_what_is_turned(
    joints: str, routes: str, wish: str, wrong: list[tuple[list[str], int, bool]], even: list[tuple[list[str], int]]
) -> None:
    wiring = of(joints, routes, wish)
    assert causes(wiring) == wrong
    assert cancelled(wiring) == even


def test_which_of_a_channel_are_right_beside_one_that_is_wrong() -> None:
    """FL is wrong beside its tweeter; FR, of another channel, is right and not among those of FL."""
    wiring = of("radio.FL: [spk.FL reversed, spk.FL-TW]; radio.FR: spk.FR")
    made = {each.speaker: (each.wrong, each.lone, each.among) for each in polarity.speaker_polarities(wiring)}
    assert made == {"FL": (True, True, ("spk.FL-TW",)), "FL-TW": (False, False, ()), "FR": (False, False, ())}
    both = of("radio.FL: [spk.FL reversed, spk.FL-TW reversed]; radio.FR: spk.FR")
    assert [each.lone for each in polarity.speaker_polarities(both)] == [False, False, False]


def test_one_coil_of_a_speaker_without_a_channel() -> None:
    """Beside the other one it is alone in being wrong; a speaker of another name has nothing to do with it."""
    speakers = "speakers:\n  box: {coils: 2 x 2 ohm separate}\n  shelf: {nominal: 4 ohm}\n"
    wiring = wiring_of("radio.FL: [spk.box.c1, spk.box.c2 reversed]; radio.FR: spk.shelf", speakers=speakers)
    made = {each.receiver.name: (each.wrong, each.lone, each.among) for each in polarity.speaker_polarities(wiring)}
    assert made == {
        "spk.box.c1": (False, False, ()), "spk.box.c2": (True, True, ("spk.box.c1",)), "spk.shelf": (False, False, ()),
    }  # fmt: skip


def test_a_turn_behind_a_lead_that_says_no_sign() -> None:
    """Of T1 nobody wrote what it carries: between the radio's + and the speaker's − the pair is turned once."""
    loom = "looms:\n  T1:\n    ends: {unit: 4-way, car: 4-way}\n    through: 1..2\n    leads: {unit.1: unknown WH}\n"
    joints = "radio.FL+: T1.unit.1; T1.car.1: spk.FL-; radio.FL-: spk.FL+"
    wiring = wiring_of(joints, more=loom, speakers="speakers: {FL: {nominal: 4 ohm}}\n")
    (cause,) = polarity.causes(wiring)
    assert [(turn.before, turn.after) for turn in cause.turns] == [("radio.FL+", "spk.FL-")]


def test_where_a_turn_that_nothing_makes_is_written() -> None:
    """An inversion that is asked for and not wired: the speaker's own row, the second behind the amplifier's."""
    wiring = of("radio.FL: amp.in1; amp.out1: spk.FL", wish=WISH)
    (cause,) = polarity.causes(wiring)
    assert (cause.turns, cause.place) == ((), wiring.contact("spk.FL+").place)


def test_the_order_is_that_of_the_channels() -> None:
    wiring = of("radio.FL: [spk.RR, spk.C, spk.FR, spk.FL-TW, spk.FL]")
    assert [each.speaker for each in polarity.speaker_polarities(wiring)] == ["FL", "FL-TW", "FR", "RR", "C"]
