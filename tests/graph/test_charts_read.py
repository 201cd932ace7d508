"""A plug's chart as the patterns know it, what tones and ohms say of it, and which records count: read off by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import misread, wrong_partners
from harness.patterns.chart import Chart, Pair
from harness.patterns.face import Face
from tests.graph.test_contrary_rules import recorded

JOB = """\
ringout: 1
title: Charts of three plugs
car: {name: Bench hatch, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face:
      rows: |
        A1 A2 . A4 05
        B1 B2 B3 B4 06
      view: wire
      latch: top
    cavities:
      {a1/b1: FL WH WH/BK, A2: B+ YE, a4/b4: RL-WF GN GN/BK, 5/6: in1 BN BN/WH, B2: GND BK, b3: empty, B4: SRS YE}
  seat:
    place: under the seat
    carries: SRS
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: FR GY GY/BK, 3: ILL OG}
  bare:
    place: boot
    cavities: {01/2: C OG OG/BK, 3: unknown, 3/4: in1, 5: ACC}
inline: {C9: sill}
units:
  radio: {kind: radio, outputs: {FL: btl 8 V}}
speakers:
  FL RL-WF FR: {nominal: 4 ohm}
  shelf: {nominal: 4 ohm}
found:
  - dash.FL > spk.FL
  - dash.FL > spk.shelf
"""


def test_the_chart_of_a_plug(tmp_path: Path) -> None:
    """Cavities as the face spells them; a tone may go on no feed, ground or restraint, ohms on no restraint."""
    wiring = recorded(tmp_path, job=JOB)
    plugs = wiring.job.parts.plugs
    assert misread.chart_of(wiring, plugs["dash"]) == Chart(
        Face((("A1", "A2", None, "A4", "05"), ("B1", "B2", "B3", "B4", "06"))),
        (Pair("FL", "A1", "B1", frozenset(("FL", "shelf"))), Pair("RL-WF", "A4", "B4", frozenset(("RL-WF",)))),
        {"A2": "B+", "05": "in1+", "06": "in1-", "B2": "GND", "B3": "empty"},
        frozenset(("A2", "B2", "B4")), frozenset(("B4",)),
    )  # fmt: skip
    # all of a plug that carries a restraint wire
    every = frozenset(("1", "2", "3"))
    assert misread.chart_of(wiring, plugs["seat"]) == Chart(
        Face((("1", "2", "3", "4"),)), (Pair("FR", "1", "2", frozenset(("FR",))),), {"3": "ILL"}, every, every
    )
    # without a face, and of a cavity written twice the first counts
    assert misread.chart_of(wiring, plugs["bare"]) == Chart(
        Face(), (Pair("C", "01", "2"),), {"3": "unknown", "4": "in1-", "5": "ACC"}, frozenset("5"), frozenset()
    )
    assert misread.chart_of(wiring, plugs["C9"]) == Chart(Face(), ())


def test_a_cavity_has_one_name_for_all_its_spellings(tmp_path: Path) -> None:
    plugs = recorded(tmp_path, job=JOB).job.parts.plugs
    assert [misread.naming(plugs["dash"])(each) for each in ("a1", "A01", "5", "005", "06", "b9")] == [
        "A1", "A01", "05", "05", "06", "b9",
    ]  # fmt: skip
    assert [misread.naming(plugs["bare"])(each) for each in ("1", "02", "3")] == ["01", "2", "3"]


@pytest.mark.parametrize(
    ("records", "listed"),
    [
        # a word that is none, a + at neither of the two, no word; silence says something, and so does one good word
        (
            (
                "tone: dash.car.a1/b1, heard: shelf", "tone: dash.car.a1/b1, heard: FL hum, plus: 06",
                "tone: dash.car.a4/b4", "tone: dash.car.5/B3, heard: None",
            ),
            [
                (1, "“shelf” is no channel"),
                (2, "“hum” beside it is no channel: what else answered isn't known"),
                (2, "its `plus` is 06, which is neither of the two: + counts as not found"),
                (3, "its record has no `heard`"),
            ],
        ),
        # a port is no channel that one hears; what holds no more is no record
        (("tone: dash.car.a1/b1, heard: in1",), [(1, "“in1” is no channel")]),
        (('tone: dash.car.a1/b1, heard: shelf, fact: ["A1 FL+ GN"]',), []),
        # of cavities without a row
        (("tone: dash.car.B1/B3, heard: shelf",), [(1, "“shelf” is no channel")]),
        # the + that was found last for the pair counts, however it was found; the radio's side says where it sends it
        (("tone: dash.car.a1/b1, heard: FL, plus: 06", "polarity: dash.car.a1/b1, plus: a1"), []),
    ],
)  # fmt: skip
def test_tones_that_say_nothing_of_the_chart(
    records: tuple[str, ...], listed: list[tuple[int, str]], tmp_path: Path
) -> None:
    made = misread.unheard(recorded(tmp_path, *records, job=JOB))
    assert [(each.record.place.line, each.why) for each in made] == listed


ROW = """\
ringout: 1
title: One row
plugs:
  other: {unit: radio, cavities: {9/10: C}}
  dash:
    unit: radio
    face: {rows: ROWS, columns: COLUMNS, view: wire, latch: top, first: top left, count: across}
    cavities: {CAVITIES}
units: {radio: {kind: radio}}
speakers:
  FL FR RL RR FL-TW C: {nominal: 4 ohm}
"""
PLAIN = "1/2: FL, 3/4: FR, 5/6: RL, 7/8: RR"
COLOURS = "1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5/6: RL GN GN/BK, 7/8: RR VT VT/BK"
LIKE = "1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5/6: RL WH WH/BK, 7/8: RR GY GY/BK"
MIRRORED = ("8/7, heard: FL, plus: 8", "6/5, heard: FR, plus: 6", "4/3, heard: RL, plus: 4")
REAR = ("1/2, heard: RL, plus: 1", "3/4, heard: RR, plus: 3", "5/6, heard: FL, plus: 5", "7/8, heard: FR, plus: 7")
SIDES = ("1/2, heard: FR, plus: 1", "3/4, heard: FL, plus: 3", "5/6, heard: RL, plus: 5", "7/8, heard: RR, plus: 7")


def told(folder: Path, cavities: str, tones: tuple[str, ...], rows: int = 1) -> list[tuple[str, list[int], int]]:
    """Code, the lines of the records against the chart, and how many pairs of cavities were toned."""
    job = ROW.replace("ROWS", str(rows)).replace("COLUMNS", str(8 // rows)).replace("CAVITIES", cavities)
    wiring = recorded(folder, *(f"tone: dash.car.{each}" for each in tones), job=job)
    return [(each.code, [record.place.line for record in each.records], each.toned) for each in misread.misread(wiring)]


@pytest.mark.parametrize(
    ("cavities", "tones", "rows", "found"),
    [
        # from the other side, rows and colours and all: no colour can part the ways in which that may be
        (PLAIN, MIRRORED, 1, [("A02", [1, 2, 3], 3)]),
        (COLOURS, MIRRORED, 1, [("A02", [1, 2, 3], 3)]),
        # two pairs of four have changed places; of one toned twice the last counts
        (COLOURS, SIDES, 1, [("A23", [1, 2], 4)]),
        (COLOURS, (*SIDES, SIDES[0]), 1, [("A23", [2, 5], 4)]),
        # the bottom row for the top one, or front for rear: as charted by colours, or without any, one can't say
        (COLOURS, REAR, 2, [("A25", [1, 2, 3, 4], 4)]),
        # as charted
        (COLOURS, ("1/2, heard: FL, plus: 1", "3/4, heard: FR"), 1, []),
        # nothing was heard that is a channel
        (COLOURS, ("1/2, heard: hum",), 1, []),
    ],
)
def test_how_a_chart_is_wrong(
    cavities: str, tones: tuple[str, ...], rows: int, found: list[tuple[str, list[int], int]], tmp_path: Path
) -> None:
    assert told(tmp_path, cavities, tones, rows) == found


@pytest.mark.parametrize(
    ("cavities", "by"),
    [
        # with the rows the colours change places: cavity 1 is then green, not white
        (COLOURS, ("1", "green", "white")),
        # the first cavity of which the colours differ
        (
            "1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5/6: RL WH WH/BK, 7/8: RR VT VT/BK",
            ("3", "violet", "grey"),
        ),
        # alike in both, or not written at all
        (LIKE, None),
        (PLAIN, None),
    ],
)
def test_colours_that_part_two_patterns(cavities: str, by: tuple[str, str, str] | None, tmp_path: Path) -> None:
    job = ROW.replace("ROWS", "2").replace("COLUMNS", "4").replace("CAVITIES", cavities)
    wiring = recorded(tmp_path, *(f"tone: dash.car.{each}" for each in REAR), job=job)
    (made,) = misread.misread(wiring)
    assert made.code == ("A03" if by is None else "A25")
    assert misread.by_colour(made.plug, made.verdict) == by


def test_each_plug_is_told_with_its_own_records(tmp_path: Path) -> None:
    """Pairs of another plug don't count for this one; its one tone alone can't say how its chart is wrong."""
    job = ROW.replace("ROWS", "1").replace("COLUMNS", "8").replace("CAVITIES", COLOURS)
    tones = ("other.car.9/10, heard: FR", *(f"dash.car.{each}" for each in SIDES))
    wiring = recorded(tmp_path, *(f"tone: {each}" for each in tones), job=job)
    assert [(each.plug.name, each.code, each.toned) for each in misread.misread(wiring)] == [
        ("other", "A25", 1), ("dash", "A23", 4),
    ]  # fmt: skip
    assert [each.plug.name for each in misread.told_as(wiring, "A23")] == ["dash"]
    assert misread.told_as(wiring, "A02") == []


def unpaired(
    folder: Path, *records: str, job: str = JOB
) -> list[tuple[str, list[str], list[tuple[str, str]], list[int]]]:
    """Plug, its pairs that are none, each wire with its partner, and the lines of the records that say so."""
    made = wrong_partners.unpaired(recorded(folder, *records, job=job))
    return [
        (
            each.plug.name, [partner.pair.name for partner in each.partners],
            [(leg.kept, leg.partner) for partner in each.partners for leg in partner.legs],
            [reading.record.place.line for reading in each.readings],
        )
        for each in made
    ]  # fmt: skip


OPEN = "ohm: dash.car.a1/b1, reads: open"
WITH_B3 = "ohm: dash.car.A1/B3, reads: 3.5 ohm"
WITH_A4 = "ohm: dash.car.b1/a4, reads: 4 ohm"


@pytest.mark.parametrize(
    ("records", "found"),
    [
        ((OPEN, WITH_B3, WITH_A4), [("dash", ["FL"], [("A1", "B3"), ("B1", "A4")], [1, 2, 3])]),
        ((WITH_A4, OPEN), [("dash", ["FL"], [("B1", "A4")], [2, 1])]),
        # open alone, a partner alone, and a pair that reads its speaker
        ((OPEN,), []),
        ((WITH_B3, WITH_A4), []),
        (("ohm: dash.car.a1/b1, reads: 3.5 ohm", WITH_B3), []),
        # on the radio's half, or from one plug to another, it says nothing of the car's wires
        ((OPEN, "ohm: dash.unit.a1/b3, reads: 4 ohm"), []),
        # two wires that the drawing has on one speaker: of those it is no wrong partner
        ((OPEN, WITH_B3, "ohm: dash.car.A4/B4, reads: 3.5 ohm"), [("dash", ["FL"], [("A1", "B3")], [1, 2])]),
        # both pairs open, each with a wire of the other
        (
            (OPEN, "ohm: dash.car.a4/b4, reads: open", "ohm: dash.car.a1/b4, reads: 4 ohm", WITH_A4),
            [
                (
                    "dash", ["FL", "RL-WF"], [("A1", "B4"), ("B1", "A4"), ("A4", "B1"), ("B4", "A1")], [1, 2, 3, 4],
                )
            ],
        ),
        # what the tones tell is told once, by them
        ((OPEN, WITH_B3, "tone: dash.car.a1/b1, charted: FL, heard: RL-WF"), []),
    ],
)  # fmt: skip
def test_pairs_that_a_meter_shows_to_be_none(
    records: tuple[str, ...], found: list[tuple[str, list[str], list[tuple[str, str]], list[int]]], tmp_path: Path
) -> None:
    assert unpaired(tmp_path, *records) == found


def test_a_pair_behind_a_capacitor_reads_open_as_it_should(tmp_path: Path) -> None:
    job = JOB.replace("FL RL-WF FR: {nominal: 4 ohm}", "FL RL-WF FR: {nominal: 4 ohm, capacitor: 10 uF}")
    job = job.replace("  shelf: {nominal: 4 ohm}\n", "").replace("  - dash.FL > spk.shelf\n", "")
    assert unpaired(tmp_path, OPEN, WITH_B3, job=job) == []
