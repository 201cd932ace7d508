"""Faces, cavities, colours, and what was read of pairs: what is fine ends nothing, on jobs of a few lines, by hand.

No outside source: the rules are those that `ringout explain` prints of each code.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.checks.alone import LINK, alike, recorded, told
from tests.checks.test_alone_records import JOB, READ
from tests.graph import test_signals as signals

FACE = "    face: {rows: 1, columns: 8, view: wire, latch: top, first: top left, count: across}\n"
NO_VIEW = FACE.replace("view: wire, ", "")
PLAIN = LINK.replace("    CARRIES\n", "").replace(FACE, "    FACE\n")
UNSEEN = "cavity and its face has no view"
FACELESS = "cavity and it has no face"


def _plugs(one: str, other: str, cavities: str = "1: ACC RD") -> str:
    """Two plugs, the second without a unit."""
    first = PLAIN.replace("    FACE\n", one).replace("CAVITIES", "1: ACC RD")
    second = PLAIN.replace("plugs:\n", "").replace("dash:", "gate:").replace("    unit: radio\n", "")
    return first + second.replace("    FACE\n", other).replace("CAVITIES", cavities)


@pytest.mark.parametrize(
    ("one", "other", "parts"),
    [
        (FACE, FACE, []), (FACE, NO_VIEW, [f"gate has 1 numbered {UNSEEN}"]),
        (NO_VIEW, FACE, [f"dash has 1 numbered {UNSEEN}"]),
        (NO_VIEW, NO_VIEW, ["dash has", "gate has"]), (FACE, "", [f"gate has 1 numbered {FACELESS}"]),
        # a single cavity can't be mistaken; one of four can
        ("    ways: 1\n", NO_VIEW, ["gate has"]), (FACE, "    ways: 1\n", []),
        (FACE, "    ways: 4\n", [f"gate has 1 numbered {FACELESS}"]),
    ],
)  # fmt: skip
def test_a_face_without_its_view(one: str, other: str, parts: list[str]) -> None:
    alike(told("A01", signals.wiring_of("", more=_plugs(one, other))), parts)


@pytest.mark.parametrize(
    ("face", "cavities", "parts"),
    [
        # by its number of ways, and by its rows and columns
        ("    ways: 4\n", "4: ACC RD", []), ("    ways: 4\n", "5: ACC RD", ["gate has 4 cavities; the chart uses 5"]),
        (FACE, "8: ACC RD", []), (FACE, "9: ACC RD", ["gate has 8 cavities, 1 to 8; the chart uses 9 (gate cavity 9"]),
        (FACE, "8: ACC RD, 10: ILL OG, 9: GND BK", ["the chart uses 10, 9 (gate cavity 10 (orange, ILL))"]),
    ],
)  # fmt: skip
def test_a_cavity_that_the_housing_lacks(face: str, cavities: str, parts: list[str]) -> None:
    alike(told("A07", signals.wiring_of("", more=_plugs(FACE, face, cavities))), parts)


@pytest.mark.parametrize(
    ("legend", "cavities", "parts"),
    [
        # letters that every legend reads alike, that two read otherwise, that a legend of the plug settles
        ("", "1: ACC RD", []), ("", "1: ACC B", ["gate cavity 1: “B” is black on one legend and blue on another"]),
        ("    legend: {B: black}\n", "1: ACC B", []),
        ("", "1: ACC SB, 2: GND B", ["“SB” is black on one legend and sky blue on another (ask about B too)"]),
    ],
)  # fmt: skip
def test_a_colour_that_two_legends_read_otherwise(legend: str, cavities: str, parts: list[str]) -> None:
    alike(told("A11", signals.wiring_of("", more=_plugs(FACE, FACE + legend, cavities))), parts)


SPEAKERS = """\
speakers:
  FL: {nominal: 4 ohm}
  FR: {nominal: 4 ohm, capacitor: 47 uF, new: {nominal: 4 ohm}}
  RL: {nominal: 4 ohm, capacitor: 47 uF}
  RR: {nominal: 4 ohm, capacitor: 47 uF, new: {nominal: 4 ohm, capacitor: 47 uF}}
  C: {nominal: 4 ohm, capacitor: unknown, new: {nominal: 4 ohm}}
"""


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        # two of 4 ohm are 2; alone on its output it has a filter there; one that keeps its own, one with a new one
        ("amp.out1: [spk.FL, spk.FR]", ["FR had 47 uF in line and the new one has none: amp out1 sees 2 ohm"]),
        ("amp.out1: spk.FR", []), ("amp.out1: [spk.FL, spk.RL]", []), ("amp.out1: [spk.FL, spk.RR]", []),
        # what is fine before it, on the same output and on another
        ("amp.out1: [spk.RL, spk.FR]", ["FR had 47 uF"]),
        ("amp.out1: [spk.FL, spk.RR, spk.FR]", ["amp out1 sees 1.33 ohm"]),
        ("amp.out1: spk.RL; amp.out2: [spk.FL, spk.FR]", ["FR had 47 uF in line and the new one has none: amp out2"]),
        ("amp.out1: [spk.FL, spk.C]", ["C had a capacitor of unknown value in line and the new one has none"]),
        ("amp.out1: [spk.FR, spk.C]", ["FR had 47 uF", "C had a capacitor of unknown value"]),
    ],
)  # fmt: skip
def test_a_new_speaker_without_its_capacitor(joints: str, parts: list[str]) -> None:
    amp = "amp: {kind: amplifier, inputs: {in1..2: 1..9 V}, outputs: {out1..3: 50 W @ 4 ohm least 1 ohm}}"
    alike(told("D03", signals.wiring_of(joints, amp, speakers=SPEAKERS)), parts)


FL, FR = "tone: dash.car.1/5, charted: FL, heard: FL", "tone: dash.car.2/6, charted: FR, heard: FR"


@pytest.mark.parametrize(
    ("records", "parts"),
    [
        ((FL,), ["dash 1/5 (white, FL) answered, but which wire is + isn't recorded."]),
        ((f"{FL}, plus: 1",), []), ((FL, "polarity: dash.car.1/5, plus: 1"), []),
        # found for one, never toned, and heard elsewhere: each before one of which it isn't known
        ((f"{FL}, plus: 1", FR), ["dash 2/6 (grey, FR) answered"]), ((FR,), ["dash 2/6 (grey, FR) answered"]),
        (("tone: dash.car.1/5, charted: FL, heard: FR", FR), ["dash 2/6 (grey, FR) answered"]),
        ((FL, FR), ["dash 1/5", "dash 2/6"]),
    ],
)  # fmt: skip
def test_a_pair_whose_plus_nobody_looked_for(tmp_path: Path, records: tuple[str, ...], parts: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, "B07", records, JOB)], parts)


TO_BODY = "ohm: dash.car.%s, reads: %s, unplugged: dash"


@pytest.mark.parametrize(
    ("records", "parts"),
    [
        # outputs must be clear of the body; a feed, and a wire that nobody knows, may hang on anything
        ((TO_BODY % (1, "0.3 ohm"),), ["dash cavity 1 (white, FL+), car side reads 0.3 ohm to the car's body"]),
        ((TO_BODY % (9, "0.3 ohm"),), []),
        ((TO_BODY % (4, "0.3 ohm"),), []),
        ((TO_BODY % (1, "open"),), []),
        # what reads right, and what isn't judged, before one that touches; two; read again since
        ((TO_BODY % (1, "open"), TO_BODY % (2, "0.3 ohm")), ["dash cavity 2"]),
        ((TO_BODY % (4, "0.3 ohm"), TO_BODY % (2, "0.3 ohm")), ["dash cavity 2"]),
        ((TO_BODY % (3, "0.3 ohm"), TO_BODY % (8, "0.9 ohm")), ["dash cavity 8 (grey with black stripe, FR−)"]),
        ((TO_BODY % (1, "0.3 ohm"), TO_BODY % (2, "0.3 ohm")), ["dash cavity 1", "dash cavity 2"]),
        ((TO_BODY % (1, "0.3 ohm"), TO_BODY % (1, "open")), []),
        (("ohm: radio.FL+, reads: 0.3 ohm", TO_BODY % (2, "0.3 ohm")), ["dash cavity 2"]),
    ],
)
def test_a_wire_that_touches_the_body(tmp_path: Path, records: tuple[str, ...], parts: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, "A18", records, READ)], parts)


@pytest.mark.parametrize(
    ("records", "parts"),
    [
        (("built: dash.car.1/5, is: as planned",), []),
        (
            ("built: dash.car.2/6, is: capped",),
            ["FR−), car side: planned joined to amp out2+, built capped (JM 2026-03-02)."],
        ),
        # as planned, or not made at all, before one that is otherwise
        (("built: dash.car.1/5, is: as planned", "built: dash.car.2/6, is: capped"), ["dash cavity 2"]),
        (("built: J1, result: not tried", "built: dash.car.2/6, is: capped"), ["joint J1", "dash cavity 2"]),
        (("built: dash.car.2/6, is: capped", "built: dash.car.2/6, is: as planned"), []),
    ],
)
def test_what_was_built_otherwise(tmp_path: Path, records: tuple[str, ...], parts: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, "J26", records, JOB)], parts)
