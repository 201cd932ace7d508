"""Which feeds go where: constant and switched exchanged, and which units want one; read off a job of a few lines."""

from __future__ import annotations

import pytest

from harness.graph import exchanged, fitted
from tests.graph.test_supply import wiring_of

PLUG = """\
plugs:
  dash:
    place: behind the radio
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1: B+ YE, 2: ACC RD, 3: GND BK, 4: ILL OG}
"""
DECK = "  deck: {kind: radio, leads: {B+: YE, ACC: RD, GND: BK}}\n"


def job(units: str, joints: str, more: str = "") -> str:
    made = "".join(f"    {each}\n" for each in joints.split("; "))
    return f"{PLUG}units:\n{units}{more}joints:\n  crimp:\n{made}"


def told(text: str) -> list[list[tuple[str, str]]]:
    """By unit the wrong terminals, and the cavity by which each gets the other's feed."""
    return [[(each.terminal, each.giver[-1]) for each in unit] for unit in exchanged.exchanged(wiring_of(text))]


RIGHT = "dash.1: deck.B+; dash.2: deck.ACC; dash.3: deck.GND"
BOTH = [("deck.B+", "2"), ("deck.ACC", "1")]
SWAPPED = "dash.2: deck.B+; dash.1: deck.ACC"


@pytest.mark.parametrize(
    ("joints", "wrong"),
    [
        (RIGHT, []),
        (SWAPPED, [BOTH]),
        # both on the switched wire: B+ loses its memory; both on the constant one, where a car has no switched wire
        ("dash.2: [deck.B+, deck.ACC]", [[("deck.B+", "2")]]),
        ("dash.1: [deck.B+, deck.ACC]", []),
        # ACC alone on the constant one, and nothing on B+; B+ on the battery by a wire of its own
        ("dash.1: deck.ACC", [[("deck.ACC", "1")]]),
        ("dash.1: deck.ACC; battery.+: deck.B+", []),
        # B+ on both at once is a feed meeting another, and none of the other kind alone
        ("dash.1: deck.B+; dash.2: deck.B+", []),
        ("dash.2: deck.B+", [[("deck.B+", "2")]]),
        ("dash.4: deck.ACC", []),
    ],
)
def test_constant_and_switched_exchanged(joints: str, wrong: list[list[tuple[str, str]]]) -> None:
    assert told(job(DECK, joints)) == wrong


@pytest.mark.parametrize(
    ("units", "joints"),
    [
        # a unit before it that has no ACC, no B+, comes out, or is as it should be
        ("  cam: {kind: interface, leads: {B+: YE, GND: BK}}\n", "dash.2: [cam.B+, deck.B+]; dash.1: deck.ACC"),
        (
            "  cam: {kind: interface, leads: {ACC: RD, GND: BK}, terminals: [ACC]}\n",
            "dash.2: deck.B+; dash.1: [cam.ACC, deck.ACC]",
        ),
        ("  cam: {kind: interface, leads: {B+: YE, ACC: RD}}\nremoved: [cam]\n", f"dash.4: cam.GND; {SWAPPED}"),
        (
            "  cam: {kind: interface, leads: {B+: YE, ACC: RD}}\n",
            "battery.+: cam.B+; dash.2: deck.B+; dash.1: [cam.ACC, deck.ACC]",
        ),
    ],
)
def test_an_exchange_behind_another_unit(units: str, joints: str) -> None:
    cam, _, more = units.partition("removed")
    text = job(cam + DECK, joints, more and f"removed{more}")
    assert [each for each in told(text) if each[0][0].startswith("deck")] == [BOTH]


@pytest.mark.parametrize("kind", ["switch", "fuse block", "diode"])
def test_what_current_only_passes_has_no_feed_of_its_own(kind: str) -> None:
    """A switch may well be called by what it switches: its wires are no feeds that it takes."""
    unit = f"  way: {{kind: {kind}, leads: {{B+: YE, ACC: RD}}}}\n"
    assert told(job(unit + DECK, "dash.2: way.B+; dash.1: way.ACC")) == []


def test_the_first_of_several_feeds_of_one_kind_is_told() -> None:
    """Both 30 and B+ are constant, both ACC and IGN switched: one wire of each says it."""
    deck = "  deck: {kind: radio, leads: {B+: YE, 30: YE, ACC: RD, IGN: RD, GND: BK}}\n"
    made = told(job(deck, "dash.2: [deck.B+, deck.30]; dash.1: [deck.ACC, deck.IGN]"))
    assert made == [BOTH]


def test_what_comes_out_is_exchanged_with_nothing() -> None:
    assert told(job(DECK, SWAPPED, "removed: [deck]\n")) == []


@pytest.mark.parametrize(
    ("unit", "wants"),
    [
        ("kind: amplifier", True), ("kind: processor", True), ("kind: interface", True),
        ("kind: radio", False), ("kind: cluster", False), ("kind: relay", False), ("kind: diode", False),
        # what may be passive wants one where the file says that it draws or wakes
        ("kind: line converter", False), ("kind: line converter, draws: 1 A", True),
        ("kind: line converter, draws: 5 W", True), ("kind: line converter, fuses: 2 A", True),
        ("kind: line converter, wakes: rem", True), ("kind: line converter, wakes: signal", False),
    ],
)  # fmt: skip
def test_which_units_want_a_feed_laid(unit: str, wants: bool) -> None:
    wiring = wiring_of(f"units:\n  u: {{{unit}}}\n")
    assert [each.name for each in fitted.ours(wiring)] == (["u"] if wants else [])


def test_a_unit_on_a_plug_or_taken_out_wants_none() -> None:
    """One that sits on a plug with a feed or a ground has its own; on a plug of another kind it has none."""
    unit = "units:\n  cam: {kind: interface}\n  out: {kind: interface}\nremoved: [out]\n"
    for cavities, names in (("1: B+ YE", []), ("1: GND BK", []), ("1: ILL OG", ["cam"])):
        plug = f"plugs:\n  p: {{place: roof, unit: cam, cavities: {{{cavities}}}}}\n"
        assert [each.name for each in fitted.ours(wiring_of(plug + unit))] == names


FED = (
    PLUG
    + """\
units:
  k: {kind: relay}
  d: {kind: diode, terminals: [A, K, GND]}
  s: {kind: switch, terminals: [a, b]}
  cam: {kind: interface, leads: {B+: YE, GND: BK}}
"""
)


@pytest.mark.parametrize(
    ("joints", "fed"),
    [
        ("dash.3: cam.GND", False), ("dash.1: cam.B+", True), ("battery.+: cam.B+", True), ("dash.3: cam.B+", False),
        # through a relay's contact, either way, and not its coil; through a diode, a switch, one behind another
        ("dash.1: k.30; k.87: cam.B+", True), ("dash.1: k.87; k.30: cam.B+", True),
        ("dash.1: k.86; k.85: cam.B+", False),
        ("dash.1: k.86; k.87: cam.B+", False), ("dash.1: d.A; d.K: cam.B+", True),
        ("dash.1: d.A; d.GND: cam.B+", False),
        ("dash.1: s.a; s.b: cam.B+", True), ("dash.1: s.a; s.b: k.30; k.87: d.A; d.K: cam.B+", True),
        ("s.a: d.A; s.b: k.30; k.87: cam.B+", False),
    ],
)  # fmt: skip
def test_what_gets_current(joints: str, fed: bool) -> None:
    made = "".join(f"    {each}\n" for each in joints.split("; "))
    assert fitted.is_fed(wiring_of(f"{FED}joints:\n  crimp:\n{made}"), "cam.B+") is fed
