"""How units are set, against what the plan relies on: read off a chain of one radio and one or two amplifiers."""

from __future__ import annotations

import pytest

from harness.graph import set_otherwise
from tests.graph.test_level_rules import AMP, CHAIN
from tests.graph.test_signals import HEAD, wiring_of


def amp(more: str, out: str = "50 W @ 4 ohm", name: str = "amp") -> str:
    return AMP.format(window="0.2..4 V", out=out, more=more).replace("amp:", f"{name}:", 1)


@pytest.mark.parametrize(
    ("gives", "level"),
    [
        ("btl 8 V", "high level"), ("btl", "high level"), ("18 W @ 4 ohm", "high level"),
        ("grounded 18 W @ 4 ohm", "high level"), ("4 V grounded", "low level"), ("4 V differential", "low level"),
        ("4 V transformer", "low level"), ("4 V", ""), ("digital", ""),
    ],
)  # fmt: skip
def test_the_level_of_an_output(gives: str, level: str) -> None:
    """A speaker output has a high level: a bridged one, or one with watts; what isn't said is not guessed."""
    head = HEAD.replace("outputs: {FL FR: btl 8 V}", f"outputs: {{FL FR: {gives}}}")
    wiring = wiring_of(CHAIN, amp(", set: {input: low level}"), head=head)
    drivers = {each.name: each for each in wiring.signals.drivers}
    assert set_otherwise.level_of_output(drivers["radio.FL"]) == level
    for switch in ("low level", "high level"):
        made = set_otherwise.inputs_otherwise(wiring_of(CHAIN, amp(f", set: {{input: {switch}}}"), head=head))
        told = [(each.feed.receiver.name, each.level) for each in made]
        both = [("amp.in1", level), ("amp.in2", level)]
        assert told == (both if level not in ("", switch) else []), switch


def test_an_input_switch_that_nobody_wrote_or_knows() -> None:
    for said in ("", ", set: {input: unknown}", ", set: {gain out1: 0 dB}"):
        assert list(set_otherwise.inputs_otherwise(wiring_of(CHAIN, amp(said)))) == [], said


SENSE = "set: {signal sense: unused}"


@pytest.mark.parametrize(
    ("more", "joints", "told"),
    [
        (f"wakes: signal, {SENSE}", "", ["two"]), (f"wakes: Signal, {SENSE}", "", ["two"]),
        ("wakes: signal, set: {gain out1: 0 dB}", "", []), ("wakes: signal, set: {signal sense: unknown}", "", []),
        # a lead that could wake it too: with 12 V on it, with none
        (f"wakes: [signal, rem], {SENSE}", "", ["two"]),
        (f"wakes: [signal, rem], {SENSE}", "radio.AMP-ON: two.rem", []),
        # 12 V on another unit's lead wakes that unit alone
        (f"wakes: [signal, rem], {SENSE}", "radio.AMP-ON: amp.rem", ["two"]),
        (f"wakes: [signal, Bus], {SENSE}", "", []),
    ],
)  # fmt: skip
def test_units_that_sleep_for_ever(more: str, joints: str, told: list[str]) -> None:
    """The first is set and wakes by its lead: it is passed over, and the second is looked at."""
    head = HEAD.replace("outputs:", "gives: {AMP-ON: 100 mA}, outputs:")
    units = amp(f", wakes: rem, {SENSE}") + "; " + amp(f", {more}", name="two")
    wiring = wiring_of(f"radio.FL: two.in1; {joints}", units, head=head)
    assert [each.unit.name for each in set_otherwise.asleep(wiring)] == told


def test_a_unit_woken_by_its_lead_hides_no_other() -> None:
    head = HEAD.replace("outputs:", "gives: {AMP-ON: 100 mA}, outputs:")
    units = amp(f", wakes: [signal, rem], {SENSE}") + "; " + amp(f", wakes: signal, {SENSE}", name="two")
    made = list(set_otherwise.asleep(wiring_of("radio.AMP-ON: amp.rem", units, head=head)))
    assert [(each.unit.name, each.feed) for each in made] == [("two", None)]


TWEETERS = "amp.out1: spk.FL-TW; amp.out2: spk.FR-TW"


@pytest.mark.parametrize(
    ("routes", "said", "told"),
    [
        # the first is as it must be, by its route or by how it is set; the second isn't
        ("out1: in1 3000.. Hz, out2: in2", "", ["amp.out2"]),
        ("out1: in1, out2: in2 3000.. Hz", "", ["amp.out1"]),
        ("out1: in1, out2: in2", "high-pass out1: 3000 Hz", ["amp.out2"]),
        ("out1: in1, out2: in2", "", ["amp.out1", "amp.out2"]),
        ("out1: in1 3000.. Hz, out2: in2 3000.. Hz", "high-pass out2: off", ["amp.out2"]),
    ],
)
def test_each_tweeter_by_its_own_output(routes: str, said: str, told: list[str]) -> None:
    more = f", routes: {{{routes}}}" + (f", set: {{{said}}}" if said else "")
    wiring = wiring_of(f"radio.FL: amp.in1; radio.FR: amp.in2; {TWEETERS}", amp(more))
    assert [each.load.driver.name for each in set_otherwise.bare_tweeters(wiring)] == told


def test_what_hangs_on_a_tweeter_s_output_beside_it() -> None:
    """An input and a woofer are no tweeter; and a tweeter beside them is one."""
    units = amp("") + "; " + amp("", name="two")
    for joints, told in (
        ("amp.out1: [two.in1, spk.FL]", []), ("amp.out1: [two.in1, spk.FL, spk.FL-TW]", ["spk.FL-TW"]),
        ("amp.out1: [spk.FL-TW, spk.FR-TW]", ["spk.FL-TW", "spk.FR-TW"]),
    ):  # fmt: skip
        made = list(set_otherwise.bare_tweeters(wiring_of(joints, units)))
        assert [each.receiver.name for each in made] == told, joints


def otherwise(joints: str, *units: str) -> list[tuple[str, str, str, float]]:
    made = set_otherwise.set_otherwise(wiring_of(joints, "; ".join(units)))
    return [(each.feed.driver.name, each.setting.what, each.setting.words, each.planned) for each in made]


def test_a_tweeter_s_high_pass_is_told_once() -> None:
    """3 kHz planned, 500 Hz set: of a tweeter that is another fault; its low-pass is told here all the same."""
    more = ", routes: {out1: in1 3000..9000 Hz}, set: {high-pass out1: 500 Hz, low-pass out1: 4000 Hz}"
    assert [each[1] for each in otherwise("radio.FL: amp.in1; amp.out1: spk.FL", amp(more))] == [
        "high-pass", "low-pass",
    ]  # fmt: skip
    assert [each[1] for each in otherwise("radio.FL: amp.in1; amp.out1: spk.FL-TW", amp(more))] == ["low-pass"]


def test_only_of_units_of_which_something_is_set() -> None:
    """The first amplifier has no setting; both outputs of the second are looked at, each by its own words."""
    two = amp(", routes: {out1: in1 80.. Hz, out2: in2 80.. Hz}, set: {high-pass out2: 200 Hz}", name="two")
    joints = "radio.FL: [amp.in1, two.in1]; radio.FR: two.in2; amp.out1: spk.C; two.out1: spk.FL; two.out2: spk.FR"
    assert otherwise(joints, amp(", routes: {out1: in1 80.. Hz}"), two) == [("two.out2", "high-pass", "200 Hz", 80.0)]


@pytest.mark.parametrize(
    ("route", "out", "what", "planned"),
    [
        # of two the route's word counts; what it leaves out the output says
        ("in1 80.. Hz", "50 W 100.. Hz", "high-pass", 80.0), ("in1", "50 W 100.. Hz", "high-pass", 100.0),
        ("in1 ..80 Hz", "50 W ..100 Hz", "low-pass", 80.0), ("in1", "50 W ..100 Hz", "low-pass", 100.0),
        # decibels add up
        ("in1 -2 dB", "50 W -1 dB", "gain", -3.0), ("in1", "50 W -1 dB", "gain", -1.0),
    ],
)  # fmt: skip
def test_route_and_output_together(route: str, out: str, what: str, planned: float) -> None:
    wiring = wiring_of(CHAIN, amp(f", routes: {{out1: {route}}}", out=out))
    driver = next(each for each in wiring.signals.drivers if each.name == "amp.out1")
    assert set_otherwise.planned_of(wiring, driver, what) == planned
    # of an output that nothing is routed to its own word
    other = next(each for each in wiring.signals.drivers if each.name == "amp.out2")
    own = {"high-pass": 100.0, "low-pass": 100.0, "gain": -1.0} if "100" in out or "dB" in out else {}
    assert set_otherwise.planned_of(wiring, other, what) == own.get(what)


def test_what_is_relied_on_and_not_written() -> None:
    """Of outputs in use alone, and of units of which some setting is written; the radio's own band is its own."""
    head = HEAD.replace("btl 8 V", "btl 8 V 100..5000 Hz")
    more = ", routes: {out1: in1 80.. Hz, out2: in2 90.. Hz}, wakes: [rem, Signal], set: {gain out1: 0 dB}"
    for joints, told in (
        ("radio.FL: amp.in1; amp.out1: spk.FL", [("amp", "signal sense"), ("amp", "high-pass of out1")]),
        ("radio.FL: amp.in1; amp.out2: spk.FL", [("amp", "signal sense"), ("amp", "high-pass of out2")]),
        ("radio.FL: amp.in1", [("amp", "signal sense")]),
    ):  # fmt: skip
        assert list(set_otherwise.unset(wiring_of(joints, amp(more), head=head))) == told, joints
    bridged = amp(", bridges: out1+/out2-") + "; " + amp(", bridges: out1+/out2-, set: {gain out1: 0 dB}", name="two")
    joints = "amp.out1+/out2-: spk.FL; two.out1+/out2-: spk.FR"
    assert list(set_otherwise.unset(wiring_of(joints, bridged))) == [("two", "bridge of out1/out2")]


def bridging(joints: str, *units: str) -> list[tuple[str, str, str]]:
    made = set_otherwise.bridged_otherwise(wiring_of(joints, "; ".join(units)))
    return [(each.load.driver.port.unit, each.outputs, each.setting.output or each.setting.words) for each in made]


def test_each_bridge_by_its_own_switch() -> None:
    """The first amplifier's isn't written; the order in which a switch names its outputs is no matter."""
    plain = amp(", bridges: out1+/out2-")
    joints = "amp.out1+/out2-: spk.FL; two.out1+/out2-: spk.FR"
    for said, told in (
        ("bridge: off", [("two", "out1/out2", "off")]), ("bridge: out2/out1", []), ("bridge: out1/out2", []),
    ):  # fmt: skip
        two = amp(f", bridges: out1+/out2-, set: {{{said}}}", name="two")
        assert bridging(joints, plain, two) == told, said
    assert bridging(joints, plain, amp(", bridges: out1+/out2-", name="two")) == []
