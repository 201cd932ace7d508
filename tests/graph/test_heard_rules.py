"""What plays where, what is crossed, split or silent, and what no longer arrives: read off small jobs by hand."""

from __future__ import annotations

import pytest

from harness.graph import crossing, heard, muted, silent, splits
from harness.graph.wiring import Wiring
from tests.graph.test_signals import wiring_of

DECK = "deck: {kind: radio, outputs: {FL FR RL RR C: btl 8 V}}"
AMP = "amp: {kind: amplifier, inputs: {in1..4: 2..20 V}, outputs: {out1..4: 50 W}%s}"
HEAD_LINES = 5  # of test_signals: then the units, one line of speakers, `joints:` and `screw:`


def job(joints: str, *units: str, more: str = "") -> Wiring:
    return wiring_of(joints, "; ".join((DECK, *units)), more)


def line(number: int, units: int = 1, more: int = 0) -> int:
    """The line of the joint of that number, the first is 1; one line for each unit."""
    return HEAD_LINES + units + 1 + more + 2 + number


def crossed(wiring: Wiring) -> list[list[tuple[str, str, bool, bool]]]:
    return [
        [(each.own, each.heard, each.by_side, each.by_axle) for each in group] for group in crossing.crossings(wiring)
    ]


def changes(wiring: Wiring) -> list[list[tuple[str, str, int, bool]]]:
    return [
        [(c.before, c.after, c.place.line, c.route is not None) for c in crossing.changes_of(wiring, group)]
        for group in crossing.crossings(wiring)
    ]


FOUR = "deck.FL: spk.FL; deck.FR: spk.FR; deck.RL: spk.RL; deck.RR: spk.RR"


@pytest.mark.parametrize(
    ("joints", "told"),
    [
        (FOUR, []),
        # sides exchanged: one cause; axles exchanged; both at once
        ("deck.FL: spk.FR; deck.FR: spk.FL", [[("FL", "FR", True, False), ("FR", "FL", True, False)]]),
        ("deck.FL: spk.RL; deck.RL: spk.FL", [[("FL", "RL", False, True), ("RL", "FL", False, True)]]),
        ("deck.FL: spk.RR; deck.RR: spk.FL", [[("FL", "RR", True, True), ("RR", "FL", True, True)]]),
        # two exchanges are two causes
        (
            "deck.FL: spk.FR; deck.FR: spk.FL; deck.RL: spk.RR; deck.RR: spk.RL",
            [
                [("FL", "FR", True, False), ("FR", "FL", True, False)],
                [("RL", "RR", True, False), ("RR", "RL", True, False)],
            ],
        ),
        # the centre plays what it gets, and what plays the centre is no corner's
        ("deck.FL: spk.C", []), ("deck.C: spk.FL", []),
        # rear made from front on purpose: the front has its own
        ("deck.FL: [spk.FL, spk.RL]; deck.FR: [spk.FR, spk.RR]", []),
        # rear made from front while the front's own plays nowhere else
        ("deck.FL: spk.RL", [[("RL", "FL", False, True)]]),
        # something was displaced: the rear's own plays in front
        ("deck.FL: [spk.FL, spk.RL]; deck.RL: spk.FR", [[("FR", "RL", True, True), ("RL", "FL", False, True)]]),
        # the other side's, though that has its own
        ("deck.FL: [spk.FL, spk.FR]", [[("FR", "FL", True, False)]]),
        # a speaker that gets its own among others
        ("deck.FL: [spk.FL, mix.in1]; deck.FR: mix.in2; mix.out1: spk.FR", []),
        # nothing comes at all
        ("deck.FL: spk.FL", []),
        # what plays the centre, or beside a corner's own, is not where a mistake would have put it
        ("deck.RL: spk.C; deck.FL: [spk.FL, spk.RL]", []),
        ("deck.FL: [spk.FL, spk.RL]; deck.FR: mix.in1; deck.RL: mix.in2; mix.out1: spk.FR", []),
        # a mixture of which a part is right: the axle of the one, the side of the other
        ("deck.FR: mix.in1; deck.RL: mix.in2; mix.out1: spk.FL", []),
        # FL made from the rear on purpose, and FR from one that doesn't play at home
        ("deck.RL: [spk.RL, spk.FL]; deck.RR: spk.FR", [[("FR", "RR", False, True)]]),
    ],
)  # fmt: skip
def test_speakers_that_play_another_corner(joints: str, told: list[list[tuple[str, str, bool, bool]]]) -> None:
    mix = "mix: {kind: processor, inputs: {in1..2: 2..20 V}, outputs: {out1: 4 V}, routes: {out1: in1 + in2}}"
    assert crossed(job(joints, mix)) == told


INS = "deck.FL: amp.in1; deck.FR: amp.in2; deck.RL: amp.in3; deck.RR: amp.in4"
OUTS = "amp.out1: spk.FL; amp.out2: spk.FR; amp.out3: spk.RL; amp.out4: spk.RR"


@pytest.mark.parametrize(
    ("joints", "more", "where"),
    [
        # before the amplifier: by its numbers in1 is FL and in2 FR; the joints 1 and 2
        (
            f"deck.FL: amp.in2; deck.FR: amp.in1; deck.RL: amp.in3; {OUTS}", "",
            [[("deck.FL+", "amp.in2+", 1, False), ("deck.FR+", "amp.in1+", 2, False)]],
        ),
        # behind it
        (
            f"{INS}; amp.out2: spk.FL; amp.out1: spk.FR", "",
            [[("amp.out2+", "spk.FL+", 5, False), ("amp.out1+", "spk.FR+", 6, False)]],
        ),
        # front for rear, by the same count: in3 is RL
        (
            f"deck.FL: amp.in3; deck.RL: amp.in1; deck.FR: amp.in2; deck.RR: amp.in4; {OUTS}", "",
            [[("deck.FL+", "amp.in3+", 1, False), ("deck.RL+", "amp.in1+", 2, False)]],
        ),
        # from wire to wire, in the order of the speakers' channels and not of the outputs'
        (
            "deck.FL: spk.FR; deck.FR: spk.FL", "",
            [[("deck.FR+", "spk.FL+", 2, False), ("deck.FL+", "spk.FR+", 1, False)]],
        ),
        # inside it, by its routes: the unit's line
        (f"{INS}; {OUTS}", ", routes: {out1: in2, out2: in1, out3: in3, out4: in4}", "route"),
    ],
)  # fmt: skip
def test_where_it_changes_over(joints: str, more: str, where: object) -> None:
    made = changes(job(joints, AMP % more))
    if where == "route":
        unit = HEAD_LINES + 2
        assert made == [[("amp.in2+", "amp.out1+", unit, True), ("amp.in1+", "amp.out2+", unit, True)]]
    else:
        assert isinstance(where, list)
        assert made == [[(a, b, line(number, 2), route) for a, b, number, route in one] for one in where]


def test_three_changes_on_one_way() -> None:
    """Both wires and the route cross over. The input of the output's number has the speaker's own channel: were the
    route straight, all would be well. Without that, the last wire is told.
    """
    turned = AMP % ", routes: {out1: in2, out2: in1}"
    made = changes(job("deck.FL: amp.in2; deck.FR: amp.in1; amp.out1: spk.FR; amp.out2: spk.FL", turned))
    unit = HEAD_LINES + 2
    assert made == [[("amp.in2+", "amp.out1+", unit, True), ("amp.in1+", "amp.out2+", unit, True)]]
    made = changes(job("deck.FR: amp.in1; amp.out2: spk.FL", turned))
    assert made == [[("amp.out2+", "spk.FL+", line(2, 2), False)]]


def test_outputs_called_by_their_channels() -> None:
    """Where the unit's output is marked, it is its routes that cross over, by number or by letter."""
    named = (
        "amp: {kind: amplifier, inputs: {in%s: 2..20 V, in%s: 2..20 V}, outputs: {FL: 50 W, FR: 50 W}, "
        "routes: {FL: in%s, FR: in%s}}"
    )
    unit = HEAD_LINES + 2
    for one, two in ("12", "AB"):
        joints = f"deck.FL: amp.in{one}; deck.FR: amp.in{two}; amp.FL: spk.FL; amp.FR: spk.FR"
        made = changes(job(joints, named % (one, two, two, one)))
        assert made == [[(f"amp.in{two}+", "amp.FL+", unit, True), (f"amp.in{one}+", "amp.FR+", unit, True)]]
        assert changes(job(joints, named % (one, two, one, two))) == []


def test_three_changes_and_no_input_of_the_outputs_number() -> None:
    """As with in1 and in2, but the inputs are called otherwise: what was joined last is told, by the speakers."""
    turned = (
        "amp: {kind: amplifier, inputs: {rca1..2: 2..4 V}, outputs: {out1..2: 50 W}, routes: {out1: rca2, out2: rca1}}"
    )
    made = changes(job("deck.FL: amp.rca2; deck.FR: amp.rca1; amp.out1: spk.FR; amp.out2: spk.FL", turned))
    assert made == [[("amp.out2+", "spk.FL+", line(4, 2), False), ("amp.out1+", "spk.FR+", line(3, 2), False)]]


def test_a_change_between_two_units() -> None:
    """Nothing is marked on the wires between them: in the order of the outputs."""
    two = AMP.replace("amp:", "two:").replace("outputs: {out1..4: 50 W}", "outputs: {out1..4: 4 V}") % ""
    joints = (
        "deck.FL: two.in1; deck.FR: two.in2; two.out2: amp.in1; two.out1: amp.in2; amp.out1: spk.FL; amp.out2: spk.FR"
    )
    made = changes(job(joints, AMP % "", two))
    assert made == [[("two.out1+", "amp.in2+", line(4, 3), False), ("two.out2+", "amp.in1+", line(3, 3), False)]]


def test_ports_without_a_number() -> None:
    """Nothing says which letter is left: what was joined last is told."""
    letters = (
        "amp: {kind: amplifier, inputs: {inA: 2..20 V, inB: 2..20 V}, outputs: {outA: 50 W, outB: 50 W}, "
        "routes: {outA: inB, outB: inA}}"
    )
    made = changes(job("deck.FL: amp.inA; deck.FR: amp.inB; amp.outA: spk.FL; amp.outB: spk.FR", letters))
    assert made == [[("amp.outA+", "spk.FL+", line(3, 2), False), ("amp.outB+", "spk.FR+", line(4, 2), False)]]


PLUG = """\
plugs:
  dash:
    place: behind the radio
    unit: deck
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK}
"""


@pytest.mark.parametrize(
    ("outputs", "joints", "channel"),
    [
        ("FL: btl 8 V", "", "FL"),
        ("LF: btl 8 V", "", "FL"),
        # by the one channel of the plug that it is joined to; of two none; a loom's or the car's side says nothing
        ("one: btl 8 V", "dash.unit.FL: src.one", "FL"),
        ("one: btl 8 V", "dash.unit.FL: src.one; dash.unit.FR: src.one", ""),
        ("one: btl 8 V", "dash.car.FL: src.one", ""),
        ("one: btl 8 V", "spk.FL: src.one", ""),
        ("SUB: btl 8 V", "dash.unit.FL: src.one", "SUB"),
    ],
)
def test_which_channel_a_source_gives(outputs: str, joints: str, channel: str) -> None:
    unit = f"src: {{kind: radio, outputs: {{{outputs}}}}}; deck: {{kind: radio}}"
    cut = "depinned: [dash.unit.1, dash.unit.2, dash.unit.3, dash.unit.4]\n"
    if "src.one" in joints and "one" not in outputs:
        joints = ""
    wiring = wiring_of(joints, unit, PLUG + (cut if joints else ""))
    driver = next(each for each in wiring.signals.drivers if each.name.startswith("src."))
    assert crossing.source_channel(wiring, driver) == channel


def test_a_source_whose_name_is_no_channel() -> None:
    """An output called by a number of its kind is known by the cavity that it is joined to, and by no loom's lead."""
    unit = "src: {kind: radio, outputs: {aux1: btl 8 V}}; deck: {kind: radio}"
    loom = "looms:\n  T1: {ends: {unit: 4-way, car: 4-way}, leads: {1/2: FL WH WH/BK}}\n"
    for joint, more, channel in (
        ("dash.unit.FL: src.aux1", "depinned: [dash.unit.1, dash.unit.2]\n", "FL"),
        ("T1.unit.FL: src.aux1", loom, ""),
        # a further cavity that is charted for no channel says nothing against it
        ("dash.unit.FL: src.aux1; dash.unit.5: src.aux1+", "depinned: [dash.unit.1, dash.unit.2]\n", "FL"),
    ):
        plug = PLUG.replace("columns: 4", "columns: 5").replace("GY/BK}", "GY/BK, 5: unknown PK}")
        wiring = wiring_of(joint, unit, plug + more)
        driver = next(each for each in wiring.signals.drivers if each.name == "src.aux1")
        assert crossing.source_channel(wiring, driver) == channel


# -- split pairs -----------------------------------------------------------------------------------------------------


def split(wiring: Wiring) -> list[list[tuple[str, str, str, bool]]]:
    return [
        [(each.name, each.plus_from, each.minus_from, each.blame_plus) for each in group]
        for group in splits.splits(wiring)
    ]


@pytest.mark.parametrize(
    ("joints", "told"),
    [
        ("deck.FL: spk.FL; deck.FR: spk.FR", []),
        # the − wires are exchanged: one cause, told by the receivers
        (
            "deck.FL+: spk.FL+; deck.FR-: spk.FL-; deck.FR+: spk.FR+; deck.FL-: spk.FR-",
            [[("spk.FL", "deck.FL+", "deck.FR-", False), ("spk.FR", "deck.FR+", "deck.FL-", False)]],
        ),
        # the + wires are: the − of each comes from its own channel
        (
            "deck.FR+: spk.FL+; deck.FL-: spk.FL-; deck.FL+: spk.FR+; deck.FR-: spk.FR-",
            [[("spk.FL", "deck.FR+", "deck.FL-", True), ("spk.FR", "deck.FL+", "deck.FR-", True)]],
        ),
        # neither is its own
        ("deck.FR+: spk.C+; deck.FL-: spk.C-", [[("spk.C", "deck.FR+", "deck.FL-", False)]]),
        # one wire alone; both wires on one; both outputs on both wires
        ("deck.FL+: spk.FL+", []),
        ("deck.FL+: spk.FL+; deck.FR-: spk.FL-; spk.FL+: spk.FL-", []),
        ("deck.FL: spk.FL; deck.FR: spk.FL", []),
        # + on one speaker, − on another, and nothing else on them
        ("deck.FL+: spk.FL+; deck.FL-: spk.FR-", [[("deck.FL", "deck.FL+", "deck.FL-", False)]]),
        ("deck.FL+: spk.FL+; deck.FL-: spk.FR-; deck.FR: spk.RL", [[("deck.FL", "deck.FL+", "deck.FL-", False)]]),
        # both on one speaker's + and nothing on another
        ("deck.FL+: spk.FL+; deck.FL-: deck.FL+", []),
        # its two wires on one, with two speakers on it; − on the other speaker and on ground; an input is no output
        ("deck.FL+: [deck.FL-, spk.FL+, spk.FR+]", []),
        ("deck.FL+: spk.FL+; deck.FL-: [spk.FR-, gnd.G1]", []),
        ("deck.FL+: spk.FL+; spk.FL-: amp.in1+", []),
        # on ground is another fault
        ("deck.FL+: spk.FL+; deck.FR-: [spk.FL-, gnd.G1]", []),
        # an input beside the speaker gets the same two; speakers come before what has no channel
        (
            "deck.FL+: [amp.in1+, spk.FL+]; deck.FR-: [amp.in1-, spk.FL-]",
            [[("spk.FL", "deck.FL+", "deck.FR-", False), ("amp.in1", "deck.FL+", "deck.FR-", False)]],
        ),
    ],
)
def test_pairs_whose_wires_belong_to_two_outputs(joints: str, told: list[object]) -> None:
    assert split(job(joints, AMP % "", more="grounds: {G1: {place: floor, metal: bare}}\n")) == told


def test_a_split_behind_a_unit_and_an_allowed_bridge() -> None:
    """out1 carries FL and out2 FR by their inputs; a bridge that the maker allows is no split, and only that one."""
    joints = "deck.FL: amp.in1; deck.FR: amp.in2; amp.out2+: spk.FL+; amp.out1-: spk.FL-"
    assert split(job(joints, AMP % "")) == [[("spk.FL", "amp.out2+", "amp.out1-", True)]]
    bridged = AMP % ", bridges: out1+/out2-"
    assert split(job("amp.out1+: spk.C+; amp.out2-: spk.C-", bridged)) == []
    assert split(job("amp.out2+: spk.C+; amp.out1-: spk.C-", bridged)) == [[("spk.C", "amp.out2+", "amp.out1-", False)]]
    # one wire each of the two outputs of a bridge on two speakers: neither output is split, each lacks a wire
    assert split(job("amp.out1+: spk.FL+; amp.out2-: spk.FR-", bridged)) == []
    made = split(job("amp.out1+: spk.FL+; amp.out2-: spk.FL-; deck.FR+: spk.C+; deck.FL-: spk.C-", bridged))
    assert made == [[("spk.C", "deck.FR+", "deck.FL-", False)]], "behind the bridge"
    # an output that is called by a channel carries it, where nobody wrote a route
    named = "dsp: {kind: processor, inputs: {in1..2: 2..20 V}, outputs: {FL: 4 V, FR: 4 V}}"
    assert split(job("dsp.FR+: spk.FL+; dsp.FL-: spk.FL-", named)) == [[("spk.FL", "dsp.FR+", "dsp.FL-", True)]]
    assert split(job("dsp.FL+: spk.FL+; dsp.FR-: spk.FL-", named)) == [[("spk.FL", "dsp.FL+", "dsp.FR-", False)]]
    # so does a radio's, whatever else it may play: its own tuner is on it
    deck = "deck: {kind: radio, inputs: {in1..2: 1..2 V}, outputs: {FL FR: btl 8 V}, routes: {FL: in1, FR: in2}}"
    made = split(wiring_of("deck.FR+: spk.FL+; deck.FL-: spk.FL-", deck))
    assert made == [[("spk.FL", "deck.FR+", "deck.FL-", True)]]
    # a sum has no channel of its own
    mixed = AMP % ", routes: {out1: in1 + in2, out2: in2}"
    assert split(job(joints, mixed)) == [[("spk.FL", "amp.out2+", "amp.out1-", False)]]


# -- silent ----------------------------------------------------------------------------------------------------------

FOUND = PLUG
SILENT = "anon: {kind: radio}"  # nobody wrote what it gives


def quiet(wiring: Wiring) -> list[tuple[list[str], bool, str, str, str]]:
    """(speakers, had a feed, why, unit that comes out, next contact) of each reason."""
    return [
        ([r.name.removeprefix("spk.") for r in each.receivers], each.had_feed, each.why, each.removed, each.next)
        for each in silent.silent_speakers(wiring)
    ]


ALL = ["FL", "FR", "RL", "RR", "C", "FL-TW", "FR-TW", "FL-WF", "FR-WF"]
FEW = "speakers: {FL FR RL: {nominal: 4 ohm}}\n"


def few(joints: str, *units: str, more: str = "") -> Wiring:
    return wiring_of(joints, "; ".join((DECK, *units)), more, FEW)


@pytest.mark.parametrize(
    ("joints", "units", "more", "told"),
    [
        ("deck.FL: spk.FL; deck.FR: spk.FR; deck.RL: spk.RL", "", "", []),
        # never fed; two lonely ones are two reasons, two on one wire are one
        ("deck.FL: spk.FL", "", "", [(["FR"], False, "", "", ""), (["RL"], False, "", "", "")]),
        ("deck.FL: spk.FL; spk.FR: spk.RL", "", "", [(["FR", "RL"], False, "", "", "")]),
        # one wire only; the two are one
        ("deck.FL: spk.FL; deck.FR+: spk.FR+; deck.RL: spk.RL", "", "", [(["FR"], False, "", "", "")]),
        ("deck.FL: spk.FL; deck.FR: spk.FR; deck.RL: spk.RL; spk.FR+: spk.FR-", "", "", [(["FR"], False, "", "", "")]),
        # an output that nothing is routed to feeds both: one reason
        (
            "deck.FL: [spk.FL, amp.in1]; amp.out1: [spk.FR, spk.RL]", AMP % ", routes: {out2: in1}", "",
            [(["FR", "RL"], False, "nothing is routed to it", "", "")],
        ),
        (
            "deck.FL: spk.FL; amp.out1: [spk.FR, spk.RL]", AMP % "", "",
            [(["FR", "RL"], False, "amp in1 gets no signal", "", "")],
        ),
        # a unit without routes passes everything on, for all that is known
        (
            "deck.FL: [spk.FL, x.a]; x.b: [spk.FR, spk.RL]",
            "x: {kind: processor, inputs: {a: 2..20 V}, outputs: {b: 4 V}}", "", [],
        ),
        # as found the plug fed FL and FR; cut behind it; the amplifier that they came from is taken out
        ("deck.RL: spk.RL", "", FOUND, []),
        (
            "deck.RL: spk.RL", "", FOUND + "cut: [dash.car.1, dash.car.2]\n",
            [(["FL"], True, "", "", "dash.unit.1")],
        ),
        (
            "deck.RL: spk.RL", "famp: {kind: factory amplifier, outputs: {FL FR: btl}}",
            FOUND.replace("deck", "famp") + "removed: [famp]\n", [(["FL", "FR"], True, "", "famp", "")],
        ),
        # of a unit whose outputs are written those alone play: the plug's RL, which it doesn't give, is no source
        (
            "deck.FL: spk.FL; deck.FR: spk.FR", "tape: {kind: radio, outputs: {C: btl}}",
            PLUG.replace("deck", "tape").replace("FR GY GY/BK", "RL GY GY/BK") + "found: [dash.RL > spk.RL]\n",
            [(["RL"], False, "", "", "")],
        ),
        # nobody wrote what sits on the plug, or what it gives
        ("deck.RL: spk.RL", "", PLUG.replace("    unit: deck\n", ""), []),
        ("deck.RL: spk.RL", SILENT, PLUG.replace("deck", "anon"), []),
    ],
)  # fmt: skip
def test_speakers_that_nothing_reaches(joints: str, units: str, more: str, told: list[object]) -> None:
    made = quiet(few(joints, *([units] if units else []), more=more))
    assert [(*each[:4], each[4] if each[1] and not each[3] else "") for each in made] == told


def test_what_the_car_was_built_without_may_be_silent() -> None:
    """Not where this job fits a speaker there, nor where an output is wired to it."""
    from tests.graph import test_signals

    lacks = test_signals.HEAD.replace("steering: left}", "steering: left, lacks: [RL, FR]}")
    for speakers, joints, told in (
        (FEW, "radio.FL: spk.FL", []),
        ("speakers: {FL FR: {nominal: 4 ohm}, RL: {nominal: 4 ohm, new: one}}\n", "radio.FL: spk.FL", [["RL"]]),
        (FEW, "radio.FL: spk.FL; amp.out1: spk.FR", [["FR"]]),
    ):
        wiring = wiring_of(joints, AMP % "", speakers=speakers, head=lacks)
        assert [each[0] for each in quiet(wiring)] == told


def test_a_plug_without_a_unit_behind_one_whose_unit_says_its_outputs() -> None:
    """What plays on the tailgate's pair nobody wrote: it may be heard. The deck feeds its own two by its plug."""
    gate = PLUG.replace("plugs:\n", "").replace("dash:", "gate:").replace("    unit: deck\n", "")
    gate = gate.replace("1/2: FL WH WH/BK, 3/4: FR GY GY/BK", "1/2: RL GN GN/BK")
    wiring = few("", more=f"{PLUG}{gate}found: [gate.RL > spk.RL]\n")
    assert quiet(wiring) == []


def test_one_coil_of_two() -> None:
    speakers = "speakers: {SUB: {coils: 2 x 2 ohm separate}}\n"
    (each,) = silent.silent_speakers(wiring_of("radio.FL: spk.SUB.c1", speakers=speakers))
    assert each.coil
    assert [r.name for r in each.receivers] == ["spk.SUB.c2"]
    assert not [e for e in silent.silent_speakers(wiring_of("", speakers=speakers)) if e.coil]


def test_how_far_the_way_goes() -> None:
    """The plug fed FL as found; its + wire is cut behind the plug, and − with it."""
    wiring = few("deck.RL: spk.RL; deck.FR: spk.FR", more=FOUND + "cut: [dash.car.1, dash.car.2]\n")
    (each,) = silent.silent_speakers(wiring)
    assert (each.reached, each.next) == ("dash.car.1", "dash.unit.1")
    assert each.path == ("spk.FL+", "dash.car.1", "dash.unit.1")
    assert {"spk.FL+", "spk.FL-", "dash.unit.1"} <= set(each.about)


# -- features --------------------------------------------------------------------------------------------------------

CAR = """\
plugs:
  clu:
    place: dash
    unit: cluster
    face: {rows: 1, columns: 5, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: C OG OG/BK, 3/4: RL BN BN/BK, 5: ACC RD}
  dash:
    place: behind the radio
    unit: deck
    car: famp
    face: {rows: 1, columns: 5, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK}
  out:
    place: behind the seat
    unit: famp
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: FL-WF WH WH/BK, 3/4: FR-WF GY GY/BK}
"""
FAMP = "famp: {kind: factory amplifier, inputs: {FL FR: btl}, outputs: {FL-WF FR-WF: btl}, routes: {%s}}"
UNITS = (
    "cluster: {kind: cluster, outputs: {C RL: btl}}",
    FAMP % "FL-WF: FL, FR-WF: FR",
    AMP % ", wakes: rem",
)


def features(*rows: str) -> str:
    return CAR + "features:\n" + "".join(f"  {row}\n" for row in rows)


def lost(
    wiring: Wiring, *kinds: str, untouched: bool = False
) -> list[tuple[str, tuple[str, ...], str, tuple[str, ...]]]:
    """(feature, where it is missed, the contact or unit to blame, units that it must pass now)."""
    made = heard.lost_features(wiring, frozenset(kinds), untouched=untouched)
    return [(f.feature.name, f.contacts, (f.cause.unit or f.cause.contact) if f.cause else "", f.through) for f in made]


@pytest.mark.parametrize(
    ("rows", "plan", "joints", "told"),
    [
        # nothing is done to it
        (("belt chime: cluster > spk.C",), "", "", []),
        # cut on its way; another is cut
        (("belt chime: cluster > spk.C",), "cut: [clu.car.1]\n", "", [("belt chime", ("spk.C+",), "clu.car.1", ())]),
        (("belt chime: cluster > spk.C",), "cut: [clu.car.3, clu.car.4]\n", "", []),
        # one of two places; the one that is well stands first
        (
            ("belt chime: cluster > spk.C spk.RL",), "cut: [clu.car.3]\n", "",
            [("belt chime", ("spk.RL+",), "clu.car.3", ())],
        ),
        # of another kind; a second one behind it
        (
            ("phone: cluster > spk.C", "belt chime: cluster > spk.C"), "cut: [clu.car.1]\n", "",
            [("belt chime", ("spk.C+",), "clu.car.1", ())],
        ),
        # the unit comes out
        (("belt chime: cluster > spk.C",), "removed: [cluster]\n", "", [("belt chime", ("spk.C+",), "cluster", ())]),
        # a unit on the way comes out
        (("belt chime: deck > spk.FL-WF",), "removed: [famp]\n", "", [("belt chime", ("spk.FL-WF+",), "famp", ())]),
        # it never came there
        (("belt chime: cluster > spk.FL",), "cut: [clu.car.1]\n", "", []),
        # nobody wrote where it is heard
        (("belt chime: cluster",), "cut: [clu.car.1]\n", "", []),
        # by another wire it still comes
        (("belt chime: cluster > spk.C",), "cut: [clu.car.1]\n", "clu.unit.1: spk.C+", []),
        # two of a kind: the first is well, is heard by another unit, or goes with the unit that comes out
        (
            ("belt chime: cluster > spk.RL", "door chime: cluster > spk.C"), "cut: [clu.car.1]\n", "",
            [("door chime", ("spk.C+",), "clu.car.1", ())],
        ),
        (
            ("belt chime: cluster > spk.C", "door chime: deck > spk.FL-WF"), "removed: [cluster]\ncut: [dash.car.1]\n",
            "",
            [("belt chime", ("spk.C+",), "cluster", ()), ("door chime", ("spk.FL-WF+",), "dash.car.1", ())],
        ),
        # one wire before a unit is cut, and nothing passes through it
        (
            ("belt chime: deck > spk.FL-WF",), "cut: [dash.car.1]\n", "",
            [("belt chime", ("spk.FL-WF+", "spk.FL-WF-"), "dash.car.1", ())],
        ),
        (
            ("belt chime: deck > spk.FL-WF",), "cut: [dash.car.2]\n", "",
            [("belt chime", ("spk.FL-WF+", "spk.FL-WF-"), "dash.car.2", ())],
        ),
    ],
)  # fmt: skip
def test_warnings_that_no_longer_arrive(
    rows: tuple[str, ...], plan: str, joints: str, told: list[tuple[str, tuple[str, ...], str, tuple[str, ...]]]
) -> None:
    wiring = job(joints, *UNITS, more=features(*rows) + plan)
    made = lost(wiring, "warning")
    assert [(each[0], each[2], each[3]) for each in made] == [(each[0], each[2], each[3]) for each in told]
    for each, wanted in zip(made, told, strict=True):
        assert set(wanted[1]) <= set(each[1])


@pytest.mark.parametrize(
    "joints",
    [
        "dash.1: amp.in1+",
        "dash.2: amp.in1-",
        "dash.1: amp.in1+; dash.2: amp.in1-",
        "dash.1: amp.in1+; dash.2: amp.in2-",
    ],
)
def test_an_input_beside_that_of_the_way(joints: str) -> None:
    """It stands first in the file, and with one wire or with both it takes nothing from the other; an emergency call
    may not pass it, and needn't.
    """
    units = (AMP % ", wakes: rem", UNITS[0], UNITS[1])
    more = features("belt chime: deck > spk.FL-WF", "call: {from: deck, to: [spk.FL-WF], kind: emergency}")
    wiring = job(joints, *units, more=more)
    assert lost(wiring, "warning") == []
    assert lost(wiring, "emergency", untouched=True) == []


def test_the_way_that_a_function_came_by() -> None:
    """Of a unit that comes out, to where its sound was heard first; none where nobody knows that it was."""
    warning = frozenset(("warning",))
    wiring = job(
        "",
        *UNITS,
        more=features("belt chime: cluster > spk.C", "door chime: cluster > spk.FR") + "removed: [cluster]\n",
    )
    known, unknown = heard.lost_features(wiring, warning)
    assert known.way == ("cluster.C+", "clu.unit.1", "clu.car.1", "spk.C+")
    assert unknown.way == ()
    # of one that is cut, through the units between
    wiring = job("", *UNITS, more=features("belt chime: deck > spk.FL-WF") + "cut: [out.car.1]\n")
    (each,) = heard.lost_features(wiring, warning)
    assert each.way == (
        "deck.FL+", "dash.unit.1", "dash.car.1", "famp.FL+", "famp.FL-WF+", "out.unit.1", "out.car.1", "spk.FL-WF+"
    )  # fmt: skip


def test_a_function_through_a_unit_that_comes_out() -> None:
    """The unit is wired by chains that stay as they are; it alone is missing."""
    chains = "found: [deck.RL+ > x.a+, deck.RL- > x.a-, x.b+ > spk.C+, x.b- > spk.C-]\n"
    unit = "x: {kind: processor, inputs: {a: 2..20 V}, outputs: {b: 4 V}}"
    row = "features:\n  belt chime: deck > spk.C\nremoved: [x]\n"
    (each,) = heard.lost_features(job("", unit, more=chains + row), frozenset(("warning",)))
    assert each.cause is not None
    assert (each.cause.unit, each.cause.about[0]) == ("x", "x.b+")


TAKEN = """\
looms:
  T1:
    ends: {unit: 4-way, car: 4-way}
    leads: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK}
"""


def test_an_emergency_call_that_must_pass_an_amplifier_now() -> None:
    """It came by way of the car's own amplifier; the loom takes it through ours now, and FR not."""
    more = features("emergency call: {from: deck, to: [spk.FR-WF, spk.FL-WF], kind: emergency}") + TAKEN
    joints = "T1.unit.FL: amp.in1; T1.car.FL: amp.out1; T1.unit.FR: T1.car.FR"

    wiring = wiring_of(joints, "; ".join((DECK, *UNITS)), more, mate="T1: dash")
    ((name, contacts, _, through),) = lost(wiring, "emergency", untouched=True)
    assert (name, set(contacts), through) == ("emergency call", {"spk.FL-WF+", "spk.FL-WF-"}, ("amp",))
    assert lost(wiring, "emergency") == [], "it arrives all the same"
    # where − is cut as well behind the car's own, + is what passes it
    one = wiring_of(joints, "; ".join((DECK, *UNITS)), more + "cut: [out.car.2]\n", mate="T1: dash")
    ((name, contacts, _, through),) = lost(one, "emergency", untouched=True)
    assert (name, set(contacts), through) == ("emergency call", {"spk.FL-WF+", "spk.FL-WF-"}, ("amp",))


def test_a_function_of_which_the_other_wire_is_broken() -> None:
    """It is asked for at + alone, whose wire is whole: nothing on its way is to blame, and its way is told."""
    more = features("belt chime: {from: deck, to: [spk.FL-WF+], kind: warning}") + "cut: [dash.car.2]\n"
    (each,) = heard.lost_features(job("", *UNITS, more=more), frozenset(("warning",)))
    assert (each.contacts, each.cause) == (("spk.FL-WF+",), None)
    assert each.way[-1] == "spk.FL-WF+"


@pytest.mark.parametrize(
    ("wake", "kind", "units"),
    [
        ("clu.5: amp.rem", "warning", ("amp",)), ("clu.5: amp.rem", "voice", ("amp",)),
        # an emergency call must pass no added unit at all; awake by the battery, or nobody knows
        ("clu.5: amp.rem", "emergency", ()), ("battery.+: amp.rem", "warning", ()), ("", "warning", ()),
    ],
)  # fmt: skip
def test_features_that_must_pass_a_unit_that_sleeps(wake: str, kind: str, units: tuple[str, ...]) -> None:
    """FR goes on as it was, and stands first; an emergency call is told elsewhere."""
    more = features(
        "call: {from: deck, to: [spk.FL-WF], kind: emergency}",
        f"other: {{from: deck, to: [spk.FR-WF], kind: {kind}}}",
        f"chime: {{from: deck, to: [spk.FR-WF, spk.FL-WF], kind: {kind}}}",
    )
    joints = "T1.unit.FL: amp.in1; T1.car.FL: amp.out1; T1.unit.FR: T1.car.FR" + (f"; {wake}" if wake else "")
    wiring = wiring_of(joints, "; ".join((DECK, *UNITS)), more + TAKEN, mate="T1: dash")
    made = muted.muted(wiring)
    assert [(each.feature.name, each.units) for each in made] == ([("chime", units)] if units else [])
    for each in made:
        assert set(each.contacts) == {"spk.FL-WF+", "spk.FL-WF-"}
        assert each.path[-1] == "spk.FL-WF+"
        assert "amp.in1+" in each.path
        assert each.cause is not None
