"""Where outputs go, turned or not, by which lines of speakers and through which units: read off small jobs by hand."""

from __future__ import annotations

from itertools import pairwise

import pytest

from harness.graph import loops, polarity
from harness.graph.signal import Receiver
from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

HEAD = """\
ringout: 1
title: Signals on a bench
car: {name: Bench car, steering: left}
units:
  radio: {kind: radio, outputs: {FL FR: btl 8 V}}
"""
SPEAKERS = "speakers: {FL FR RL RR C FL-TW FR-TW FL-WF FR-WF: {nominal: 4 ohm}}\n"


def wiring_of(
    joints: str, units: str = "", more: str = "", speakers: str = SPEAKERS, head: str = "", mate: str = ""
) -> Wiring:
    """Joints and units are given line by line, parted by `; `."""
    troubles = Troubles()
    rows = "".join(f"  {row}\n" for row in units.split("; ") if row)
    made = "".join(f"    {row}\n" for row in joints.split("; ") if row)
    text = f"{head or HEAD}{rows}{speakers}{more}" + ("joints:\n" if made or mate else "")
    text += (f"  mate: {{{mate}}}\n" if mate else "") + (f"  screw:\n{made}" if made else "")
    job = read_job_text(text, "signals.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


def fed(wiring: Wiring) -> list[tuple[str, str, bool, str]]:
    """(output, what takes it, turned, the line that it is in)."""
    feeds = wiring.signals.feeds
    return [(each.driver.name, each.receiver.name, each.turned, " ".join(each.series)) for each in feeds]


def receiver(wiring: Wiring, name: str) -> Receiver:
    return next(each for each in wiring.signals.receivers if each.name == name)


# -- by wire -------------------------------------------------------------------------------------------------------

LINE = "spk.FL spk.FR spk.RL"


@pytest.mark.parametrize(
    ("joints", "feeds"),
    [
        ("radio.FL: spk.FL", [("radio.FL", "spk.FL", False, "")]),
        ("radio.FL: spk.FL reversed", [("radio.FL", "spk.FL", True, "")]),
        ("radio.FL: [spk.FL, spk.C reversed]", [("radio.FL", "spk.FL", False, ""), ("radio.FL", "spk.C", True, "")]),
        # one wire alone brings nothing, nor do two of different outputs
        ("radio.FL+: spk.FL+", []),
        ("radio.FL+: spk.FL+; radio.FR-: spk.FL-", []),
        # an output's two wires put together give nothing; the other output goes on
        ("radio.FL: spk.FL; radio.FL+: radio.FL-; radio.FR: spk.FR", [("radio.FR", "spk.FR", False, "")]),
        # three in one line, the second turned
        (
            "radio.FL+: spk.FL+; spk.FL-: spk.FR-; spk.FR+: spk.RL+; spk.RL-: radio.FL-",
            [("radio.FL", f"spk.{at}", at == "FR", LINE) for at in ("FL", "FR", "RL")],
        ),
        # one alone beside a line of two
        (
            "radio.FL: spk.C; radio.FL+: spk.FL+; spk.FL-: spk.FR+; spk.FR-: radio.FL-",
            [
                ("radio.FL", "spk.C", False, ""), ("radio.FL", "spk.FL", False, "spk.FL spk.FR"),
                ("radio.FL", "spk.FR", False, "spk.FL spk.FR"),
            ],
        ),
        # behind the first the line forks: both lines hold it
        (
            "radio.FL+: spk.FL+; spk.FL-: [spk.FR+, spk.RL+]; radio.FL-: [spk.FR-, spk.RL-]",
            [
                ("radio.FL", "spk.FL", False, "spk.FL spk.FR"), ("radio.FL", "spk.FR", False, "spk.FL spk.FR"),
                ("radio.FL", "spk.FL", False, "spk.FL spk.RL"), ("radio.FL", "spk.RL", False, "spk.FL spk.RL"),
            ],
        ),
        # a speaker whose two wires are one is no part of a line
        (
            "radio.FL+: [spk.FL+, spk.C+, spk.C-]; spk.FL-: spk.FR+; spk.FR-: radio.FL-",
            [("radio.FL", "spk.FL", False, "spk.FL spk.FR"), ("radio.FL", "spk.FR", False, "spk.FL spk.FR")],
        ),
        (
            "radio.FL+: [spk.FL+, spk.FL-, spk.FR+]; spk.FR-: spk.RL+; spk.RL-: radio.FL-",
            [("radio.FL", "spk.FR", False, "spk.FR spk.RL"), ("radio.FL", "spk.RL", False, "spk.FR spk.RL")],
        ),
        # an input in the line is no speaker: nothing goes on through it
        ("radio.FL+: spk.FL+; spk.FL-: amp.in1+; amp.in1-: radio.FL-", []),
        # the line's middle is on the other output: no line
        ("radio.FL+: spk.FL+; spk.FL-: [spk.FR+, radio.FR+]; spk.FR-: radio.FL-", []),
    ],
)  # fmt: skip
def test_which_output_feeds_what(joints: str, feeds: list[tuple[str, str, bool, str]]) -> None:
    assert fed(wiring_of(joints, "amp: {kind: amplifier, inputs: {in1: 1..4 V}}")) == feeds


def test_where_the_plus_comes_in_and_where_it_goes_on() -> None:
    straight, turned = wiring_of("radio.FL: spk.FL; radio.FR: spk.FR reversed").signals.feeds
    assert (straight.entry, straight.leaving) == ("spk.FL+", "spk.FL-")
    assert (turned.entry, turned.leaving) == ("spk.FR-", "spk.FR+")


@pytest.mark.parametrize(("count", "whole"), [(8, True), (9, False)])
def test_a_line_of_so_many_speakers_is_followed(count: int, whole: bool) -> None:
    """Eight is more than anyone hangs on one output (common practice, no source)."""
    names = ("FL", "FR", "RL", "RR", "C", "FL-TW", "FR-TW", "FL-WF", "FR-WF")[:count]
    steps = [f"spk.{one}-: spk.{other}+" for one, other in pairwise(names)]
    joints = "; ".join(["radio.FL+: spk.FL+", *steps, f"spk.{names[-1]}-: radio.FL-"])
    assert len(fed(wiring_of(joints))) == (count if whole else 0)


# -- through units -------------------------------------------------------------------------------------------------

AMP = "amp: {kind: amplifier, inputs: {in1..2: 1..4 V}, outputs: {out1..2: 50 W}%s}"


def ways(wiring: Wiring, name: str) -> list[list[str]]:
    return [[hop.feed.driver.name for hop in way.hops] for way in wiring.signals.ways(receiver(wiring, name))]


def test_a_ring_before_the_radio_at_one_input() -> None:
    """The ring comes back to where it began: it ends there, and the radio beside it is a way of its own."""
    units = (
        "  one: {kind: processor, inputs: {in1: 1..4 V}, outputs: {out1 out2: 4 V}, routes: {out1: in1, out2: in1}}\n"
        "  two: {kind: processor, inputs: {in1: 1..4 V}, outputs: {out1: 4 V}}\n"
    )
    joints = "one.out1: two.in1; two.out1: one.in1; radio.FL: one.in1; one.out2: spk.FL"
    wiring = wiring_of(joints, head=HEAD.replace("  radio:", f"{units}  radio:"))
    assert ways(wiring, "spk.FL") == [
        ["radio.FL", "one.out1", "two.out1", "one.out2"], ["radio.FL", "one.out2"],
    ]  # fmt: skip


def test_a_dead_end_beside_what_plays() -> None:
    """The radio feeds the speaker; the amplifier on the same wires gets nothing."""
    wiring = wiring_of("radio.FL: spk.FL; amp.out1: spk.FL", AMP % "")
    (found,) = wiring.signals.dead_ends(receiver(wiring, "spk.FL"))
    assert (found[0].name, found[1]) == ("amp.out1", "amp in1 gets no signal")


def test_what_is_reached_beside_a_wall() -> None:
    """The first neighbour is the wall: nothing behind it, and all that goes on from the second."""
    wiring = wiring_of("radio.FL+: [spk.FL+, spk.FR+]; spk.FL+: spk.C+; spk.FR+: spk.RL+")
    reached = wiring.planned.around("radio.FL+", wall="spk.FL+".__eq__)
    assert set(reached) == {"radio.FL+", "spk.FL+", "spk.FR+", "spk.RL+"}


@pytest.mark.parametrize(
    ("routes", "heard", "turned"),
    [
        # nothing is written: in1 for out1, by its number
        ("", [["radio.FL", "amp.out1"]], [False]),
        (", routes: {out1: in2}", [["radio.FR", "amp.out1"]], [False]),
        (", routes: {out1: in1 + in2}", [["radio.FL", "amp.out1"], ["radio.FR", "amp.out1"]], [False, False]),
        (", routes: {out1: in1 inverted}", [["radio.FL", "amp.out1"]], [True]),
        # out1 is not among what is written: nothing comes
        (", routes: {out2: in1}", [], []),
    ],
)
def test_the_ways_through_a_unit(routes: str, heard: list[list[str]], turned: list[bool]) -> None:
    wiring = wiring_of("radio.FL: amp.in1; radio.FR: amp.in2; amp.out1: spk.FL", AMP % routes)
    assert ways(wiring, "spk.FL") == heard
    assert [way.turned for way in wiring.signals.ways(receiver(wiring, "spk.FL"))] == turned


def test_two_turns_are_none() -> None:
    """The input is turned, and so is the output; one of them, and the route as well; all three."""
    for inside, before, after, turned in (
        ("", " reversed", " reversed", False), ("", " reversed", "", True), ("", "", " reversed", True),
        (" inverted", " reversed", "", False), (" inverted", " reversed", " reversed", True), ("", "", "", False),
    ):  # fmt: skip
        wiring = wiring_of(
            f"radio.FL: amp.in1{before}; amp.out1: spk.FL{after}", AMP % f", routes: {{out1: in1{inside}}}"
        )
        (way,) = wiring.signals.ways(receiver(wiring, "spk.FL"))
        assert way.turned is turned, (inside, before, after)


RING = (
    "one: {kind: processor, inputs: {in1: 1..4 V}, outputs: {out1: 4 V}}; "
    "two: {kind: processor, inputs: {in1: 1..4 V}, outputs: {out1..2: 4 V}, routes: {out1: in1, out2: in1}}"
)


def test_a_ring_of_units_ends() -> None:
    """Without a source there is no way and no dead end; with one there is the way round nowhere."""
    wiring = wiring_of("one.out1: two.in1; two.out1: one.in1; two.out2: spk.FL", RING)
    assert ways(wiring, "spk.FL") == []
    assert wiring.signals.dead_ends(receiver(wiring, "spk.FL")) == []
    wiring = wiring_of("radio.FL: one.in1; one.out1: two.in1; two.out1: one.in1; two.out2: spk.FL", RING)
    assert ways(wiring, "spk.FL") == [["radio.FL", "one.out1", "two.out2"]]
    assert [(each.output, each.input, each.units) for each in loops.returns(wiring)] == [
        ("two.out1+", "one.in1+", ("one", "two"))
    ]


@pytest.mark.parametrize(
    ("joints", "units", "ends"),
    [
        ("amp.out1: spk.FL", AMP % ", routes: {out2: in2}", [("amp.out1", "nothing is routed to it")]),
        ("amp.out1: spk.FL", AMP % "", [("amp.out1", "amp in1 gets no signal")]),
        # of a sum each input that gets nothing
        (
            "amp.out1: spk.FL; radio.FR: amp.in2", AMP % ", routes: {out1: in1 + in2}",
            [("amp.out1", "amp in1 gets no signal")],
        ),
        (
            "amp.out1: spk.FL", AMP % ", routes: {out1: in1 + in2}",
            [("amp.out1", "amp in1 gets no signal"), ("amp.out1", "amp in2 gets no signal")],
        ),
        # one unit further back
        (
            "amp.out1: spk.FL; pre.out1: amp.in1",
            f"{AMP % ''}; pre: {{kind: processor, inputs: {{in1: 1..4 V}}, outputs: {{out1: 4 V}}}}",
            [("pre.out1", "pre in1 gets no signal")],
        ),
        ("radio.FL: spk.FL", "", []),
        # two outputs on one speaker, the first of which goes nowhere
        (
            "amp.out1: spk.FL; amp.out2: spk.FL", AMP % ", routes: {out2: in2}",
            [("amp.out1", "nothing is routed to it"), ("amp.out2", "amp in2 gets no signal")],
        ),
    ],
)  # fmt: skip
def test_where_a_way_without_a_source_stops(joints: str, units: str, ends: list[tuple[str, str]]) -> None:
    wiring = wiring_of(joints, units)
    made = wiring.signals.dead_ends(receiver(wiring, "spk.FL"))
    assert [(driver.name, why) for driver, why in made] == ends


SUB = "amp: {kind: amplifier, inputs: {in1..2: 1..4 V}, outputs: {line: 4 V}%s}"


@pytest.mark.parametrize(
    ("routes", "feeds"),
    [
        # made from any input, for all that is known: the fault is the return, and no feed
        ("", []),
        (", routes: {line: in1}", []),
        (", routes: {line: in2}", [("amp.line", "amp.in1", False, "")]),
        (", routes: {line: in1 + in2}", []),
    ],
)
def test_an_output_on_what_it_is_made_from_is_no_feed(routes: str, feeds: list[object]) -> None:
    wiring = wiring_of("amp.line: amp.in1", SUB % routes)
    assert fed(wiring) == feeds
    found = [(each.output, each.input, each.units) for each in loops.returns(wiring)]
    assert found == ([] if feeds else [("amp.line+", "amp.in1+", ())])


def test_a_return_is_told_once() -> None:
    """The bridge of two outputs has its + at out1+, as out1 has."""
    for units, joints, told in (
        (SUB.replace("line: 4 V", "out1..2: 4 V") % ", bridges: out1+/out2-, routes: {out1: in1 + in2, out2: in2}",
         "amp.out1+: [amp.in1+, amp.in2+]", [("amp.out1+", "amp.in1+"), ("amp.out1+", "amp.in2+")]),
        # the − of the bridge lies on the second input, the + on the first
        (SUB.replace("line: 4 V", "out1..2: 4 V") % ", bridges: out1+/out2-, routes: {out1: in1 + in2}",
         "amp.out1+: amp.in1+; amp.out2-: amp.in2+", [("amp.out1+", "amp.in1+"), ("amp.out2-", "amp.in2+")]),
        # what meets on the body alone is a short and comes back nowhere
        ("amp: {kind: amplifier, inputs: {in1: 1..4 V grounded}, outputs: {line: 4 V}}",
         "amp.line+: gnd.G1; amp.GND: gnd.G1", []),
    ):  # fmt: skip
        made = loops.returns(wiring_of(joints, units, "grounds: {G1: {place: floor}}\n"))
        assert [(each.output, each.input) for each in made] == told


def test_routes_are_written_and_not_for_this_output() -> None:
    units = "amp: {kind: amplifier, inputs: {in1..2: 1..4 V}, outputs: {out1..2: 4 V}, routes: {out2: in2}}"
    assert fed(wiring_of("amp.out1: amp.in1", units)) == [("amp.out1", "amp.in1", False, "")]


def test_a_unit_that_comes_out_gives_and_takes_nothing() -> None:
    """It stands before the unit that stays."""
    units = f"old: {{kind: amplifier, inputs: {{in1: 1..4 V}}, outputs: {{out1: 50 W}}}}; {AMP % ''}"
    wiring = wiring_of("radio.FL: [old.in1, amp.in1]; old.out1: spk.RL; amp.out1: spk.FL", units, "removed: [old]\n")
    assert [each[:2] for each in fed(wiring)] == [("radio.FL", "amp.in1"), ("amp.out1", "spk.FL")]


def test_what_is_made_from_an_input() -> None:
    """By its routes, of its number without any; all of them where an output has no number to go by."""
    wiring = wiring_of("radio.FL: amp.in1", AMP % ", routes: {out1: in1 + in2, out2: in2}")
    assert [each.name for each in wiring.signals.onward["amp", "in1"]] == ["amp.out1"]
    assert [each.name for each in wiring.signals.onward["amp", "in2"]] == ["amp.out1", "amp.out2"]
    wiring = wiring_of("radio.FL: amp.in1", SUB % "")
    assert [each.name for each in wiring.signals.onward["amp", "in1"]] == ["amp.line"]
    assert [each.name for each in wiring.signals.onward["amp", "in2"]] == ["amp.line"]
    wiring = wiring_of("radio.FL: amp.in1", AMP % ", routes: {out1: in1}")
    assert [each.name for each in wiring.signals.onward["amp", "in1"]] == ["amp.out1"], "out2 is written as silent"


# -- polarity ------------------------------------------------------------------------------------------------------


def turns(wiring: Wiring, name: str) -> list[tuple[str, str, int]]:
    """(contact before, contact after, line of the file) of each turn on the only way to a speaker."""
    (made,) = [each for each in polarity.speaker_polarities(wiring) if each.receiver.name == name]
    return [(turn.before, turn.after, turn.place.line) for turn in made.turns]


def test_a_line_turned_at_its_beginning_and_a_speaker_turned_in_it() -> None:
    """HEAD has 5 lines, the speakers one, `joints:` and `screw:` one each: the first joint stands in line 9."""
    whole = wiring_of("radio.FL-: spk.FL+; spk.FL-: spk.FR+; spk.FR-: radio.FL+")
    assert turns(whole, "spk.FL") == [("radio.FL+", "spk.FR-", 11)]
    assert turns(whole, "spk.FR") == [("radio.FL+", "spk.FR-", 11)]
    second = wiring_of("radio.FL+: spk.FL+; spk.FL-: spk.FR-; spk.FR+: spk.RL+; spk.RL-: radio.FL-")
    assert turns(second, "spk.FL") == []
    assert turns(second, "spk.FR") == [("spk.FL-", "spk.FR-", 10)]
    assert turns(second, "spk.RL") == []
    first = wiring_of("radio.FL+: spk.FL-; spk.FL+: spk.FR+; spk.FR-: radio.FL-")
    assert turns(first, "spk.FL") == [("radio.FL+", "spk.FL-", 9)]
    assert turns(first, "spk.FR") == []


def test_what_is_wrong_of_several() -> None:
    """FL is turned, FL-TW of the same channel is right; FR stands alone. C gets both, one of them turned."""
    more = AMP.replace("amp:", "mix:") % ", routes: {out1: in1 + in2}"
    wiring = wiring_of(
        "radio.FL: [spk.FL reversed, spk.RL, mix.in1]; radio.FR: [spk.FR, mix.in2 reversed]; mix.out1: spk.C", more
    )
    made = {(each.receiver.name, each.way.source.name): each for each in polarity.speaker_polarities(wiring)}
    assert {key: each.wrong for key, each in made.items()} == {
        ("spk.FL", "radio.FL"): True, ("spk.FR", "radio.FR"): False, ("spk.RL", "radio.FL"): False,
        ("spk.C", "radio.FL"): False, ("spk.C", "radio.FR"): True,
    }  # fmt: skip
    assert {key for key, each in made.items() if each.part} == {("spk.C", "radio.FR")}, "a part of what it plays"
    assert not any(each.lone for each in made.values())


def test_inputs_by_either_of_their_wires() -> None:
    """in1's two wires lie on two nets, in2's on one other; a speaker is no input."""
    wiring = wiring_of("radio.FL: [amp.in1, spk.FL]; radio.FR+: amp.in2+", AMP % "")
    at, number = wiring.signals.inputs_at, wiring.planned.net_number
    for contact, name in (
        ("radio.FL+", "amp.in1"), ("radio.FL-", "amp.in1"), ("radio.FR+", "amp.in2"), ("amp.in2-", "amp.in2"),
    ):  # fmt: skip
        assert [each.name for each in at[number(contact)]] == [name], contact
    assert number("radio.FR-") not in at
