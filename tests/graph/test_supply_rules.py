"""From the battery to the loads: fuses, cables, what comes before a first fuse, relays; read off the runs by hand.

Greatest fuses: 10, 8, 6, 4 AWG 30, 50, 80, 125 A (a car-audio guide's page, seen 2026). Ohm a metre as in test_supply.
"""

from __future__ import annotations

import math

import pytest

from harness.graph import cable, charging, first_fuse, overfused, relays, supply, thicker, unrated
from tests.graph.test_supply import AWG4, AWG8, FT, wiring_of

UNITS = """\
units:
  amp: {kind: amplifier, draws: 20 A}
  two: {kind: amplifier, draws: 10 A}
  gone: {kind: amplifier, draws: 50 A}
  spare: {kind: battery}
  taken: {kind: battery}
  block: {kind: fuse block, ways: 4, fuses: {1: 40 A, 4: 5 A}}
  old: {kind: fuse block, ways: 1}
  k1: {kind: relay}
  k2: {kind: relay}
  k3: {kind: relay}
removed: [gone, old, taken, k3]
"""


def runs(*rows: str, found: tuple[str, ...] = (), plugs: str = "") -> str:
    text = plugs + UNITS + "runs:\n" + "".join(f"  - {row}\n" for row in rows)
    return text + ("found:\n" + "".join(f"  - {row}\n" for row in found) if found else "")


PLUG = """\
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 2, view: wire, latch: top, first: top left, count: across}
    cavities: {1: B+ YE, 2: GND BK}
"""
RADIO = UNITS.replace("units:\n", "units:\n  radio: {kind: radio}\n")
GROUND = "amp.GND > 1 ft 8 AWG > gnd.G1"
CUT = "depinned: [dash.unit.1]\n"


# -- fuses ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rows", "fuses"),
    [
        (("battery.+ > 1 ft 8 AWG > fuse 40 A > 1 ft 8 AWG > amp.B+",), [("run", 40.0)]),
        (("battery.+ > 1 ft 8 AWG > fuse unknown > 1 ft 8 AWG > amp.B+",), [("run", None)]),
        # ways 1 and 4 have a value written, 2 and 3 have none; a way with nothing on it is no fuse
        (("battery.+ > 1 ft 8 AWG > block.in", "block.1 > 1 ft 8 AWG > amp.B+"), [("block", 40.0)]),
        (("battery.+ > 1 ft 8 AWG > block.in", "block.2 > 1 ft 8 AWG > amp.B+"), [("block", None)]),
        # the fuse that follows stands in way 2; in way 1 there are two then
        (("battery.+ > 1 ft 8 AWG > block.in", "block.2 > fuse 30 A > 1 ft 8 AWG > amp.B+"), [("block", 30.0)]),
        (
            ("battery.+ > 1 ft 8 AWG > block.in", "block.1 > fuse 30 A > 1 ft 8 AWG > amp.B+"),
            [("block", 30.0), ("block", 40.0)],
        ),
        # a fuse further on is another one
        (
            ("battery.+ > 1 ft 8 AWG > block.in", "block.2 > 1 ft 8 AWG > fuse 30 A > 1 ft 8 AWG > amp.B+"),
            [("run", 30.0), ("block", None)],
        ),
        # a block that comes out
        (("battery.+ > 1 ft 8 AWG > old.in", "old.1 > 1 ft 8 AWG > amp.B+"), []),
    ],
)
def test_the_fuses_of_a_plan(rows: tuple[str, ...], fuses: list[tuple[str, float | None]]) -> None:
    made = cable.fuses(wiring_of(runs(*rows)))
    assert [(a.split(".")[0], fuse.rating_a) for (a, _), fuse in made.items()] == fuses


def test_the_cars_own_fuse_counts_with_its_rating() -> None:
    text = PLUG + RADIO + "found:\n  - dash.B+ > fuse 15 A > battery.+\nruns:\n  - dash.car.1 > 1 ft 8 AWG > amp.B+\n"
    wiring = wiring_of(text)
    assert [fuse.rating_a for fuse in cable.fuses(wiring).values()] == [15.0]
    assert cable.let_through(wiring)["amp.B+"] == 15.0


def test_which_fuses_have_no_rating() -> None:
    """Ours, and the car's own only before a run of ours."""
    found = ("dash.B+ > fuse unknown > battery.+",)
    own = PLUG + RADIO + "found:\n  - dash.B+ > fuse unknown > battery.+\nruns:\n"
    assert list(unrated.unrated(wiring_of(own + "  - battery.+ > fuse 5 A > 1 ft 8 AWG > amp.B+\n"))) == []
    (fuse,) = unrated.unrated(wiring_of(own + "  - dash.car.1 > 1 ft 8 AWG > amp.B+\n"))
    assert fuse.rating_a is None
    assert unrated.way_to(wiring_of(own + "  - dash.car.1 > 1 ft 8 AWG > amp.B+\n"), fuse)[0] == "battery.+"
    ours = list(unrated.unrated(wiring_of(runs("battery.+ > 1 ft 8 AWG > fuse unknown > 1 ft 8 AWG > amp.B+"))))
    assert len(ours) == len(found)


@pytest.mark.parametrize("sizes", [(8, 4), (4, 8), (8, 8)])
def test_two_cables_between_the_same_two_are_two(sizes: tuple[int, int]) -> None:
    """Side by side their conductances add up (Ohm's law), in either order; the amplifier draws 20 A."""
    rows = [f"amp.GND > 1 ft {size} AWG > gnd.G1" for size in sizes]
    made = supply.supply(wiring_of(runs("battery.+ > fuse 40 A > 1 ft 8 AWG > amp.B+", *rows)))
    assert made is not None
    ohm = 1 / sum(1 / ({8: AWG8, 4: AWG4}[size] * FT) for size in sizes)
    assert made.fed[0].ground_drop_v == pytest.approx(20 * ohm, rel=1e-3)  # sizes of the table are rounded


# -- what gets through -----------------------------------------------------------------------------------------------


def through(*rows: str) -> dict[str, float]:
    """By contact with a name of its own."""
    made = cable.let_through(wiring_of(runs(*rows)))
    return {name: most for name, most in made.items() if not name.startswith("run.")}


FUSED = "battery.+ > 1 ft 8 AWG > fuse {} A > 1 ft 8 AWG > amp.B+"


@pytest.mark.parametrize(
    ("rows", "name", "most"),
    [
        ((FUSED.format(40),), "amp.B+", 40.0),
        # of two behind each other the smaller, of two side by side the greater
        (("battery.+ > fuse 40 A > 1 ft 8 AWG > fuse 30 A > 1 ft 8 AWG > amp.B+",), "amp.B+", 30.0),
        (("battery.+ > fuse 30 A > 1 ft 8 AWG > fuse 40 A > 1 ft 8 AWG > amp.B+",), "amp.B+", 30.0),
        ((FUSED.format(30), FUSED.format(60), FUSED.format(40)), "amp.B+", 60.0),
        # of two equal ones the same
        (("battery.+ > fuse 30 A > 1 ft 8 AWG > fuse 30 A > 1 ft 8 AWG > amp.B+",), "amp.B+", 30.0),
        (("battery.+ > 1 ft 8 AWG > amp.B+",), "amp.B+", math.inf),
        # a fuse of which nobody knows the value stops nothing for sure
        (("battery.+ > fuse unknown > 1 ft 8 AWG > amp.B+",), "amp.B+", math.inf),
        # a further battery is a source too, one that comes out is none
        (("spare.+ > 1 ft 8 AWG > amp.B+",), "amp.B+", math.inf),
        (("taken.+ > 1 ft 8 AWG > amp.B+",), "amp.B+", None),
        # over a relay's contact either way, and not to its coil
        (("battery.+ > fuse 30 A > 1 ft 8 AWG > k1.30", "k1.87 > 1 ft 8 AWG > amp.B+"), "amp.B+", 30.0),
        (("battery.+ > fuse 30 A > 1 ft 8 AWG > k1.87", "k1.30 > 1 ft 8 AWG > amp.B+"), "amp.B+", 30.0),
        (("battery.+ > fuse 30 A > 1 ft 8 AWG > k1.30", "k1.86 > 1 ft 8 AWG > amp.B+"), "amp.B+", None),
        # ground is not gone into, nor through a unit
        (("battery.+ > fuse 30 A > 1 ft 8 AWG > gnd.G1", "gnd.G1 > 1 ft 8 AWG > amp.B+"), "amp.B+", None),
        (("battery.+ > fuse 30 A > 1 ft 8 AWG > amp.B+", "two.B+ > 1 ft 8 AWG > amp.GND"), "two.B+", None),
    ],
)  # fmt: skip
def test_the_greatest_current_that_no_fuse_stops(rows: tuple[str, ...], name: str, most: float | None) -> None:
    assert through(*rows).get(name) == most


def test_the_way_that_lets_most_through() -> None:
    wiring = wiring_of(
        runs("battery.+ > fuse 60 A > block.in", "block.1 > 1 ft 8 AWG > amp.B+", "spare.+ > fuse 20 A > amp.B+")
    )
    way = cable.way_from_source(wiring, "amp.B+")
    assert [name for name in way if not name.startswith("run.")] == ["battery.+", "block.in", "block.1", "amp.B+"]
    assert cable.way_from_source(wiring, "two.B+") == ("two.B+",)


def test_the_cables_of_the_feed_side_from_their_fed_end() -> None:
    """Written from the load to the post, and beside them what isn't of the feed: a ground cable and an RCA cable."""
    units = UNITS.replace(
        "amp: {kind: amplifier,", "amp: {kind: amplifier, inputs: {in1: 1..4 V}, outputs: {out1: 4 V},"
    )
    wiring = wiring_of(
        units + "runs:\n  - amp.B+ > 9 ft 8 AWG > fuse 40 A > 1 ft 4 AWG > battery.+\n"
        f"  - {GROUND}\n  - amp.out1 > 5 m rca > amp.in1\n"
    )
    made = [(each.far, each.through_a, each.segment.size.text) for each in cable.cables(wiring) if each.segment.size]
    assert [(most, size) for _, most, size in made] == [(40.0, "8 AWG"), (math.inf, "4 AWG")]
    assert made[0][0] == "amp.B+"
    assert cable.cables(wiring_of(PLUG + RADIO + "found: [dash.B+ > 1 m 1.5 mm2 > fuse 15 A > battery.+]\n")) == []


# -- before the first fuse -------------------------------------------------------------------------------------------


def bare(*rows: str) -> list[tuple[str, str, list[str]]]:
    wiring = wiring_of(runs(*rows))
    return [
        (each.source, each.load, [piece.size.text for piece in each.cables if piece.size])
        for each in first_fuse.bare_ways(wiring)
    ]


@pytest.mark.parametrize(
    ("rows", "ways"),
    [
        ((FUSED.format(40),), []),
        (("battery.+ > 1 ft 8 AWG > amp.B+",), [("battery.+", "amp.B+", ["8 AWG"])]),
        (
            ("battery.+ > 1 ft 4 AWG > k1.30", "k1.87 > 1 ft 8 AWG > amp.B+"),
            [("battery.+", "amp.B+", ["4 AWG", "8 AWG"])],
        ),
        # a fuse behind the load, or beside it, is none before it; the cable behind isn't the load's
        (
            ("battery.+ > 1 ft 8 AWG > amp.B+", "amp.B+ > 1 ft 10 AWG > fuse 10 A > 1 ft 10 AWG > two.B+"),
            [("battery.+", "amp.B+", ["8 AWG"])],
        ),
        # the load sits on the post
        (("battery.+ > amp.B+", "amp.B+ > 1 ft 10 AWG > two.B+"), [("battery.+", "amp.B+", [])]),
        # a cable to nowhere ends where it ends
        (("battery.+ > 1 ft 8 AWG > k1.30",), [("battery.+", "k1.87", ["8 AWG"])]),
        # between two batteries once, from the first
        (("battery.+ > 1 ft 8 AWG > spare.+",), [("battery.+", "spare.+", ["8 AWG"])]),
        (("spare.+ > 1 ft 8 AWG > battery.+",), [("battery.+", "spare.+", ["8 AWG"])]),
        # a post on ground is another fault
        (("battery.+ > 1 ft 8 AWG > gnd.G1",), []),
        (("battery.+ > 1 ft 8 AWG > gnd.G1", "spare.+ > 1 ft 8 AWG > amp.B+"), [("spare.+", "amp.B+", ["8 AWG"])]),
        # behind a splice that leads back first; beside a block's way with nothing on it, and beside a fuse
        (
            ("block.in > 1 ft 8 AWG > amp.B+", "battery.+ > 1 ft 4 AWG > block.in"),
            [("battery.+", "amp.B+", ["4 AWG", "8 AWG"])],
        ),
        (
            ("amp.B+ > 1 ft 8 AWG > block.in", "battery.+ > 1 ft 4 AWG > block.in", "block.1 > 1 ft 8 AWG > two.B+"),
            [("battery.+", "amp.B+", ["4 AWG", "8 AWG"])],
        ),
        # behind a way that has its fuse, by a cable and right on the post
        (
            (FUSED.format(40), "battery.+ > 1 ft 10 AWG > two.B+"),
            [("battery.+", "two.B+", ["10 AWG"])],
        ),
        (
            ("battery.+ > fuse 40 A > amp.B+", "battery.+ > 1 ft 10 AWG > two.B+"),
            [("battery.+", "two.B+", ["10 AWG"])],
        ),
        # two loads, two ways
        (
            ("battery.+ > 1 ft 8 AWG > amp.B+", "battery.+ > 1 ft 10 AWG > two.B+"),
            [("battery.+", "amp.B+", ["8 AWG"]), ("battery.+", "two.B+", ["10 AWG"])],
        ),
    ],
)
def test_loads_that_no_fuse_stands_before(rows: tuple[str, ...], ways: list[tuple[str, str, list[str]]]) -> None:
    assert bare(*rows) == ways


def test_a_block_of_which_the_last_way_is_used() -> None:
    """The ways with nothing on them come first, and are no fuse; the used one ends the stretch at the block."""
    made = cable.stretches(wiring_of(runs("battery.+ > 5 ft 8 AWG > block.in", "block.4 > 1 ft 8 AWG > amp.B+")))
    assert [(each.source, each.end, each.fused, each.path) for each in made if each.source == "battery.+"] == [
        ("battery.+", "block.in", True, ("battery.+", "block.in"))
    ]


def test_the_car_feeds_a_load_by_its_own_wire() -> None:
    """No cable of ours leads to the amplifier; the one that goes on from it has no fuse before it either."""
    own = "found:\n  - dash.B+ > battery.+\njoints:\n  solder:\n    dash.car.1: amp.B+\n"
    wiring = wiring_of(PLUG + RADIO + own)
    assert first_fuse.bare_ways(wiring) == []
    wiring = wiring_of(PLUG + RADIO + own + "runs:\n  - amp.B+ > 1 ft 10 AWG > two.B+\n")
    (way,) = first_fuse.bare_ways(wiring)
    assert (way.load, [each.size.text for each in way.cables if each.size]) == ("amp.B+", ["10 AWG"])


@pytest.mark.parametrize(
    ("rows", "far"),
    [
        # 18 in is the house's figure (common practice as a car-audio guide's page has it, seen 2026)
        (("battery.+ > 18 in 8 AWG > fuse 40 A > 9 ft 8 AWG > amp.B+",), []),
        (("battery.+ > 18.1 in 8 AWG > fuse 40 A > 9 ft 8 AWG > amp.B+",), [18.1]),
        # two pieces, through a relay; written from the load
        (("battery.+ > 10 in 8 AWG > k1.30", "k1.87 > 9 in 8 AWG > fuse 40 A > 9 ft 8 AWG > amp.B+"), [19]),
        (("amp.B+ > 9 ft 8 AWG > fuse 40 A > 19 in 8 AWG > battery.+",), [19]),
        # two stretches side by side, the first short; up to the fuse block, whose ways are the fuses
        (
            ("battery.+ > 1 in 8 AWG > fuse 40 A > 9 ft 8 AWG > amp.B+", "battery.+ > 20 in 8 AWG > fuse 9 A > two.B+"),
            [20],
        ),
        (("battery.+ > 20 in 8 AWG > block.in", "block.1 > 9 ft 8 AWG > amp.B+"), [20]),
        # a load stands before the fuse: that is told as a load without fuse
        (("battery.+ > 19 in 8 AWG > amp.B+", "amp.B+ > 1 in 8 AWG > fuse 40 A > 1 ft 8 AWG > two.B+"), []),
    ],
)
def test_fuses_too_far_from_the_post(rows: tuple[str, ...], far: list[float]) -> None:
    made = first_fuse.far_fuses(wiring_of(runs(*rows)))
    assert [round(length_m / 0.0254, 6) for _, length_m in made] == far


def test_the_sizes_of_some_cables_in_words() -> None:
    wiring = wiring_of(runs("battery.+ > 1 ft 8 AWG CCA > fuse 40 A > 1 ft 4 AWG > fuse 30 A > 1 ft 4 AWG > amp.B+"))
    assert first_fuse.sizes_words(tuple(each.segment for each in cable.cables(wiring))) == "8 AWG CCA and 4 AWG"


# -- relays --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        (("battery.+ > 1 ft 8 AWG > k1.30",), [("k1", "k1.30")]),
        (("battery.+ > 1 ft 8 AWG > k1.87",), [("k1", "k1.87")]),
        (("battery.+ > 1 ft 8 AWG > fuse 40 A > k1.30",), []),
        # a fuse without a value is one
        (("battery.+ > 1 ft 8 AWG > fuse unknown > k1.30",), []),
        (("k1.30 > 1 ft 8 AWG > fuse unknown > battery.+",), []),
        # the second is fed by the first
        (("battery.+ > 1 ft 8 AWG > k1.30", "k1.87 > 1 ft 8 AWG > k2.30"), [("k1", "k1.30")]),
        # the first of the job is fused, the second isn't; one that comes out doesn't count
        (("battery.+ > fuse 40 A > 1 ft 8 AWG > k1.30", "battery.+ > 1 ft 8 AWG > k2.30"), [("k2", "k2.30")]),
        (("battery.+ > 1 ft 8 AWG > k3.30",), []),
        # not fed at all
        (("k1.30 > 1 ft 8 AWG > amp.B+",), []),
    ],
)
def test_relays_that_a_post_feeds_without_a_fuse(rows: tuple[str, ...], told: list[tuple[str, str]]) -> None:
    assert [(each.relay, each.contact) for each in relays.unfused_contacts(wiring_of(runs(*rows)))] == told


# -- overfused -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        # 8 AWG takes 50 A, 4 AWG 125 A
        (("battery.+ > 1 ft 4 AWG > fuse 50 A > 9 ft 8 AWG > amp.B+",), []),
        (("battery.+ > 1 ft 4 AWG > fuse 60 A > 9 ft 8 AWG > amp.B+",), [("amp.B+", "behind its fuse", 60.0)]),
        # thick cable between the fuse and the thin one
        (
            ("battery.+ > fuse 100 A > 9 ft 4 AWG > k1.30", "k1.87 > 3 ft 8 AWG > amp.B+"),
            [("amp.B+", "step-down", 100.0)],
        ),
        # copper would do: 4 AWG CCA counts as 13.66 mm², 82 A; 4 AWG takes 125 A
        (("battery.+ > fuse 100 A > 9 ft 4 AWG CCA > amp.B+",), [("amp.B+", "copper-clad", 100.0)]),
        # two pieces of one size behind each other are one branch
        (
            ("battery.+ > fuse 60 A > 1 ft 8 AWG > k1.30", "k1.87 > 3 ft 8 AWG > amp.B+"),
            [("k1.30", "behind its fuse", 60.0)],
        ),
        # thinner still further on: another size, told for itself
        (
            ("battery.+ > fuse 60 A > 1 ft 8 AWG > k1.30", "k1.87 > 3 ft 10 AWG > amp.B+"),
            [("k1.30", "behind its fuse", 60.0), ("amp.B+", "step-down", 60.0)],
        ),
        # no fuse at all is another fault
        (("battery.+ > 9 ft 8 AWG > amp.B+",), []),
        # a fuse further on begins anew
        (
            ("battery.+ > fuse 60 A > 1 ft 8 AWG > fuse 55 A > 3 ft 8 AWG > amp.B+",),
            [("run", "behind its fuse", 60.0), ("amp.B+", "behind its fuse", 55.0)],
        ),
        # written from the load to the battery
        (("amp.B+ > 9 ft 8 AWG > fuse 60 A > 1 ft 4 AWG > battery.+",), [("amp.B+", "behind its fuse", 60.0)]),
    ],
)  # fmt: skip
def test_cables_behind_too_great_a_fuse(rows: tuple[str, ...], told: list[tuple[str, str, float]]) -> None:
    made = overfused.overfused(wiring_of(runs(*rows)))
    names = [each.cable.far if not each.cable.far.startswith("run.") else "run" for each in made]
    assert list(zip(names, [each.kind for each in made], [each.cable.through_a for each in made], strict=True)) == told


def test_the_fuse_and_the_size_that_would_do() -> None:
    """20 A x 1.25 = 25 A; nothing drawn: the greatest up to 50 A. 100 A want 4 AWG (125 A)."""
    wiring = wiring_of(runs("battery.+ > fuse 100 A > 9 ft 8 AWG > amp.B+", GROUND))
    (each,) = overfused.overfused(wiring)
    assert (each.limit_a, each.fuse_a, each.size and each.size.text) == (50.0, 25.0, "4 AWG")
    (each,) = overfused.overfused(wiring_of(runs("battery.+ > fuse 100 A > 9 ft 8 AWG > k1.30")))
    assert (each.fuse_a, each.size and each.size.text) == (50.0, "4 AWG")
    (each,) = overfused.overfused(wiring_of(runs("battery.+ > fuse 5000 A > 9 ft 8 AWG > amp.B+", GROUND)))
    assert each.size is None


@pytest.mark.parametrize("turned", [False, True], ids=["from the post", "from the load"])
def test_a_piece_by_what_hangs_at_its_end(turned: bool) -> None:
    """The piece before the fuse ends inside the run: the next contact with a name is the amplifier's."""
    steps = ["battery.+", "1 ft 4 AWG CCA", "fuse 40 A", "9 ft 8 AWG", "fuse 30 A", "1 ft 8 AWG", "amp.B+"]
    wiring = wiring_of(runs(" > ".join(steps[::-1] if turned else steps)))
    words = [overfused.piece_words(wiring, each) for each in cable.cables(wiring)]
    assert (words[::-1] if turned else words) == [
        "the 4 AWG copper-clad cable to amp B+",
        "the 8 AWG cable to amp B+",
        "the 8 AWG cable to amp B+",
    ]


# -- solved ----------------------------------------------------------------------------------------------------------


def test_two_pieces_must_be_thicker() -> None:
    """20 A over 15 + 15 ft of 8 AWG each way of a relay and back over 1 ft: no single piece is enough for 0.12 V.

    20 x 0.3048 x (15 x AWG8 + 15 x AWG8 + AWG8) = 0.3895 V. One piece as 4 AWG leaves 20 x 0.3048 x (15 x AWG4 + 16 x
    AWG8) = 0.2756 V; the table of sizes goes on to 4/0 AWG, 0.0490 ohm/1000 ft (from memory: 0.1608 mohm/m): 0.2157 V.
    """
    wiring = wiring_of(runs("battery.+ > fuse 40 A > 15 ft 8 AWG > k1.30", "k1.87 > 15 ft 8 AWG > amp.B+", GROUND))
    solved = supply.supply(wiring)
    assert solved is not None
    (fed,) = solved.fed
    whole = 20 * FT * 31 * AWG8
    assert fed.drop_v == pytest.approx(whole, rel=1e-3)
    pieces = thicker.pieces(wiring, solved, fed)
    assert [piece.drop_v for piece in pieces] == [
        pytest.approx(20 * FT * feet * AWG8, rel=1e-3) for feet in (15, 15, 1)
    ]
    assert {round(piece.current_a, 3) for piece in pieces} == {20.0}
    one = thicker.thicker(wiring, solved, fed, 0.3)
    assert [size.text for _, size in one.changes] == ["4 AWG"]
    assert one.drop_v == pytest.approx(20 * FT * (15 * AWG4 + 16 * AWG8), rel=1e-3)
    two = thicker.thicker(wiring, solved, fed, 0.12)
    largest, second = (size.text for _, size in two.changes)
    assert largest == "4/0 AWG"
    # 20 x 0.3048 x (15 x 0.1608e-3 + 15 x x + AWG8) <= 0.12: x <= 1.014 mohm/m, so 4 AWG (0.815) and not 6 AWG (1.296)
    assert second == "4 AWG"
    assert two.drop_v == pytest.approx(20 * FT * (15 * 0.1608e-3 + 15 * AWG4 + AWG8), rel=2e-3)
    assert thicker.thicker(wiring, solved, fed, 0.01) == thicker.Thicker((), fed.drop_v)


def test_the_thickest_there_is_is_not_laid_anew() -> None:
    """200 ft of 4/0 AWG lose most, 20 x 0.3048 x 200 x 0.1608e-3 = 0.196 V; two pieces of 15 ft of 8 AWG 0.188 V each.

    One of these as 4/0 leaves 0.196 + 0.015 + 0.188 + 0.013 = 0.412 V, the other as 4 AWG then 0.298 V, as 6 AWG 0.342.
    """
    thick = "battery.+ > fuse 40 A > 200 ft 4/0 AWG > k1.30"
    wiring = wiring_of(runs(thick, "k1.87 > 15 ft 8 AWG > fuse 40 A > 15 ft 8 AWG > amp.B+", GROUND))
    solved = supply.supply(wiring)
    assert solved is not None
    made = thicker.thicker(wiring, solved, solved.fed[0], 0.3)
    assert [(segment.size and segment.size.text, size.text) for segment, size in made.changes] == [
        ("8 AWG", "4/0 AWG"), ("8 AWG", "4 AWG"),
    ]  # fmt: skip
    assert made.drop_v == pytest.approx(0.298, abs=2e-3)


def test_what_the_supply_knows_nothing_of() -> None:
    """A unit whose draw can't be told, one that comes out, and a battery that is charged draw nothing."""
    text = runs(
        FUSED.format(40), "battery.+ > fuse 30 A > 1 ft 8 AWG > gone.B+", GROUND, "battery.+ > fuse 9 A > spare.+"
    )
    solved = supply.supply(
        wiring_of(text.replace("  amp:", "  dumb: {kind: interface}\n  amp:") + "  - battery.+ > fuse 1 A > dumb.B+\n")
    )
    assert solved is not None
    assert (solved.unknown, [each.unit for each in solved.fed]) == (("dumb",), ["amp"])
    assert charging.added_a(wiring_of(text)) == 20.0
    assert charging.added_a(wiring_of(UNITS)) == 0.0


def test_a_load_that_can_not_be_fed() -> None:
    """500 W over 200 ft of 8 AWG: 13.8²/(4 x 0.1256) = 379 W at most could arrive."""
    text = runs("battery.+ > fuse 40 A > 200 ft 8 AWG > amp.B+", GROUND).replace("draws: 20 A", "draws: 500 W")
    solved = supply.supply(wiring_of(text))
    assert solved is not None
    assert solved.collapsed == ("amp",)
    assert charging.added_a(wiring_of(text)) == 0.0


def test_a_cut_feed_carries_nothing() -> None:
    """As found the radio's B+ is a wire from the post; its terminal is pulled, and the amplifier hangs before it."""
    found = "found:\n  - dash.B+ > 3 ft 8 AWG > fuse 30 A > battery.+\n"
    wiring = wiring_of(PLUG + RADIO + found + CUT + f"runs:\n  - dash.car.1 > 1 ft 8 AWG > amp.B+\n  - {GROUND}\n")
    assert "dash.unit.1" not in cable.let_through(wiring)
    solved = supply.supply(wiring)
    assert solved is not None
    assert [each.unit for each in solved.fed] == ["amp"]
