"""Levels, loads, volumes and settings: what counts, what isn't known and why. Every value is a hand sum beside it."""

from __future__ import annotations

import pytest

from harness.checks.unchecked import unchecked
from harness.graph import levels, load_words, loads, set_otherwise, volume
from harness.graph.wiring import Wiring
from tests.graph.test_signals import wiring_of

AMP = "amp: {{kind: amplifier, inputs: {{in1..2: {window}}}, outputs: {{out1..2: {out}}}{more}}}"


def amp(window: str = "0.2..4 V", out: str = "50 W @ 4 ohm", more: str = "") -> str:
    return AMP.format(window=window, out=out, more=more)


def gives(wiring: Wiring, name: str) -> tuple[float, float, float] | None:
    """(volts in step, likely volts, gain) of an output."""
    driver = next(each for each in wiring.signals.drivers if each.name == name)
    level = levels.level_of(wiring, driver)
    return None if level is None else (round(level.volts, 4), round(level.likely_v, 4), round(level.gain_db, 4))


CHAIN = "radio.FL: amp.in1; radio.FR: amp.in2; amp.out1: spk.FL"


@pytest.mark.parametrize(
    ("units", "level"),
    [
        # sqrt(50 x 4); a level that is written; half of 8 V is -6.0206 dB; 2 dB of the route and 1 of the output
        (amp(), (14.1421, 14.1421, 0.0)),
        (amp(out="4 V"), (4.0, 4.0, 0.0)),
        (amp(out="4 ohm"), None),
        (amp(out="50 W"), None),
        (amp(out="grounded", more=", routes: {out1: in1 -6.0206 dB}"), (4.0, 4.0, -6.0206)),
        (amp(out="-1 dB", more=", routes: {out1: in1 -2 dB}"), (5.6636, 5.6636, -3.0)),  # 8 x 10^(-3/20)
        (amp(out="-6.0206 dB"), (4.0, 4.0, -6.0206)),
        # both: 8 + 8 in step, sqrt(2) x 8 unrelated, both halved
        (amp(out="grounded", more=", routes: {out1: in1 + in2 -6.0206 dB}"), (8.0, 5.6569, 0.0)),
        # up to what the output gives at most
        (amp(out="3 V", more=", routes: {out1: in1 0 dB}"), (3.0, 3.0, -8.5194)),  # 20 log (3/8)
        (amp(out="20 V", more=", routes: {out1: in1 0 dB}"), (8.0, 8.0, 0.0)),
        # more than 200 dB is a slip of the pen: what is written counts
        (amp(out="3 V", more=", routes: {out1: in1 201 dB}"), (3.0, 3.0, 0.0)),
        (amp(out="3 V", more=", routes: {out1: in1 200 dB}"), (3.0, 3.0, -8.5194)),
        (amp(out="3 V", more=", routes: {out1: in1 -201 dB}"), (3.0, 3.0, 0.0)),
    ],
)  # fmt: skip
def test_what_an_output_gives(units: str, level: tuple[float, float, float] | None) -> None:
    """The radio gives 8 V."""
    assert gives(wiring_of(CHAIN, units), "amp.out1") == level


def test_the_larger_of_two_that_reach_one_input_counts() -> None:
    """8 V and 2 V meet at the input: a fault, and the hotter one decides, whichever comes first."""
    aux = "aux: {kind: interface, outputs: {a: 2 V}}"
    units = amp(out="grounded", more=", routes: {out1: in1 0 dB}")
    for order in (f"{aux}; {units}", f"{units}; {aux}"):
        wiring = wiring_of("radio.FL: amp.in1; aux.a: amp.in1; amp.out1: spk.FL", order)
        assert gives(wiring, "amp.out1") == (8.0, 8.0, 0.0)


def missing(wiring: Wiring, name: str) -> list[tuple[str, bool]]:
    driver = next(each for each in wiring.signals.drivers if each.name == name)
    return [(each.driver.name, each.gain) for each in levels.missing_for(wiring, driver)]


@pytest.mark.parametrize(
    ("joints", "units", "wanting"),
    [
        # nothing is wanting
        (CHAIN, amp(), []),
        # neither level nor gain of it; no level of what comes in; nothing comes in; nothing is routed
        (CHAIN, amp(out="grounded"), [("amp.out1", True)]),
        ("aux.a: amp.in1", "aux: {kind: interface, outputs: {a: grounded}}; " + amp(out="-3 dB"), [("aux.a", False)]),
        ("amp.out1: spk.FL", amp(out="-3 dB"), []),
        (CHAIN, amp(out="grounded", more=", routes: {out2: in1}"), []),
        # a digital link has no volts
        ("aux.a: amp.in1", "aux: {kind: interface, outputs: {a: digital}}; " + amp(out="-3 dB"), [("aux.a", True)]),
        # of a sum what isn't known, each once; its own level stands in for it
        (
            "aux.a: amp.in1; aux.b: amp.in2",
            "aux: {kind: interface, outputs: {a: grounded, b: grounded}}; "
            + amp(out="grounded", more=", routes: {out1: in1 + in2 0 dB}"),
            [("aux.a", False), ("aux.b", False)],
        ),
        (
            "aux.a: amp.in1; aux.b: amp.in2",
            "aux: {kind: interface, outputs: {a: grounded, b: grounded}}; "
            + amp(out="4 V", more=", routes: {out1: in1 + in2 0 dB}"),
            [],
        ),
    ],
)
def test_what_would_have_to_be_written(joints: str, units: str, wanting: list[tuple[str, bool]]) -> None:
    assert missing(wiring_of(joints, units), "amp.out1") == wanting


WINDOWS = [
    ("0.2..4 V", True), ("0.2.. V", True), ("..4 V", True), ("differential", False), ("20..80 Hz", False),
]  # fmt: skip


@pytest.mark.parametrize(("window", "known"), WINDOWS)
def test_whether_an_input_has_a_window(window: str, known: bool) -> None:
    wiring = wiring_of(CHAIN, amp(window=window))
    assert [each.feed.receiver.name for each in levels.arriving(wiring)] == (["amp.in1", "amp.in2"] if known else [])
    assert [each.name for each in levels.without_window(wiring)] == ([] if known else ["amp.in1", "amp.in2"])
    fed = wiring_of("radio.FL: amp.in1; amp.out1: spk.FL", amp(window=window))
    assert [each.name for each in levels.without_window(fed)] == ([] if known else ["amp.in1"]), "what gets a signal"


@pytest.mark.parametrize(
    ("window", "hot", "small"),
    [
        # 8 V: 20 log (8/4) = 6.02, 7 whole decibels; at 8 V it fits; from 16 V on 6.02 dB are wanting
        ("0.2..4 V", 7, 0.0), ("0.2..8 V", 0, 0.0), ("16..40 V", 0, 6.0206), ("..4 V", 7, 0.0), ("16.. V", 0, 6.0206),
    ],
)  # fmt: skip
def test_how_a_level_sits_in_a_window(window: str, hot: int, small: float) -> None:
    each = levels.arriving(wiring_of("radio.FL: amp.in1", amp(window=window)))[0]
    assert (each.hot.pad_db, round(each.small.short_db, 4)) == (hot, small)


def test_the_band_and_the_delay_of_several_ways() -> None:
    """in1 gets 80 Hz and up 1 ms late, in2 up to 3 kHz at once; out1 sums them and passes 20 to 500 Hz 2 ms late."""
    units = (
        "radio2: {kind: radio, outputs: {a: 4 V 80.. Hz 1 ms, b: 4 V ..3000 Hz}}; "
        "mix: {kind: processor, inputs: {in1..2: 1..8 V}, outputs: {out1: 2 V ..500 Hz}, "
        "routes: {out1: in1 + in2 2 ms}}; " + amp()
    )
    wiring = wiring_of("radio2.a: mix.in1; radio2.b: mix.in2; mix.out1: amp.in1", units)
    made = {each.feed.receiver.name: (each.band_hz, each.delay_s) for each in levels.arriving(wiring)}
    assert made["mix.in1"] == ((80.0, 20_000.0), 0.001)
    assert made["mix.in2"] == ((20.0, 3000.0), 0.0)
    assert made["amp.in1"] == ((20.0, 500.0), 0.003)


def test_a_way_that_leaves_nothing_of_the_band() -> None:
    units = "radio2: {kind: radio, outputs: {a: 4 V 500.. Hz}}; " + amp(more=", routes: {out1: in1 ..80 Hz}")
    wiring = wiring_of("radio2.a: amp.in1; amp.out1: spk.FL", units)
    receiver = next(each for each in wiring.signals.receivers if each.name == "spk.FL")
    (way,) = wiring.signals.ways(receiver)
    assert levels.band_of_way(way) is None


# -- what is listed as not judged ------------------------------------------------------------------------------------


def listed(wiring: Wiring, *words: str) -> list[tuple[str, str]]:
    """What wasn't checked, of what holds one of the words."""
    return [(each.what, each.why) for each in unchecked(wiring) if any(word in each.what for word in words)]


NO_WINDOW = "how many volts it takes isn't written"
PRE = "pre: {kind: processor, inputs: {in1: 1..9 V}, outputs: {out1: 4 V}"


@pytest.mark.parametrize(
    ("joints", "units", "said"),
    [
        (CHAIN, amp(window="differential"), [("whether amp in1..2 get a signal of the right level", NO_WINDOW)]),
        ("radio.FL: amp.in1", amp("differential"), [("whether amp in1 gets a signal of the right level", NO_WINDOW)]),
        (
            "aux.a: amp.in1; aux.b: amp.in2", "aux: {kind: interface, outputs: {a: grounded, b: grounded}}; " + amp(),
            [("the level at amp in1..2", "the level of aux a, b isn't written")],
        ),
        (
            "radio.FL: pre.in1; radio.FR: pre.in2; pre.out1: amp.in1; pre.out2: amp.in2",
            "pre: {kind: processor, inputs: {in1..2: 1..9 V}, outputs: {out1..2: grounded}}; " + amp(),
            [("the level at amp in1..2", "neither the level of pre out1..2 nor the gain to it is written")],
        ),
        # our own amplifier in between, with a level and no gain; the car's own one was read
        (
            "radio.FL: pre.in1; pre.out1: amp.in1", PRE + "}; " + amp(),
            [("the gain to pre out1", "not written: the level behind it is taken as the most it gives")],
        ),
        (
            "radio.FL: pre.in1; pre.out1: amp.in1",
            "pre: {kind: factory amplifier, inputs: {in1: 1..9 V}, outputs: {out1: 4 V}}; " + amp(), [],
        ),
        (
            "radio.FL: pre.in1; pre.out1: amp.in1",
            PRE + ", routes: {out1: in1 -3 dB}}; " + amp(), [],
        ),
        ("radio.FL: amp.in1", amp(), []),
    ],
)  # fmt: skip
def test_levels_that_could_not_be_judged(joints: str, units: str, said: list[tuple[str, str]]) -> None:
    assert listed(wiring_of(joints, units), "level", "gain to") == said


def test_names_of_ports_as_the_file_would_write_them() -> None:
    """Numbers in a row as a range, a hole between two ranges, other letters, no number, a leading 0, a bridge."""
    from harness.read.names import spans

    assert spans(["in1", "in2", "in3"]) == ["in1..3"]
    assert spans(["in1", "in2", "in4", "in5"]) == ["in1..2", "in4..5"]
    assert spans(["in1", "rca2", "rca3"]) == ["in1", "rca2..3"]
    assert spans(["aux", "in1", "phono"]) == ["aux", "in1", "phono"]
    assert spans(["in01", "in02"]) == ["in01", "in02"]
    assert spans(["in0", "in1"]) == ["in0..1"]
    assert spans(["out1+/out2-", "out3+/out4-"]) == ["out1+/out2-", "out3+/out4-"]
    assert spans(["out1/out2", "out1/out3"]) == ["out1/out2", "out1/out3"]
    assert spans(["in2", "in1"]) == ["in2", "in1"]
    assert spans([]) == []


@pytest.mark.parametrize(
    ("units", "joints", "said"),
    [
        # the least that it takes isn't written; it is; a source's output is rated by its maker; no ohms of the speaker
        (amp(), "amp.out1: spk.FL", [("the load of amp out1", "the least load that it takes is not written")]),
        (amp(out="50 W @ 4 ohm least 2 ohm"), "amp.out1: spk.FL", []),
        ("", "radio.FL: spk.FL", []),
    ],
)
def test_loads_that_could_not_be_judged(units: str, joints: str, said: list[tuple[str, str]]) -> None:
    assert listed(wiring_of(joints, units), "load of") == said


@pytest.mark.parametrize(
    ("more", "head", "said"),
    [
        ("", "", ["amp"]), (", routes: {out1: in1}", "", []), ("", "removed: [amp]\n", []),
    ],
)  # fmt: skip
def test_routes_that_nobody_wrote(more: str, head: str, said: list[str]) -> None:
    """A radio is a source, and an interface has no outputs."""
    units = "cam: {kind: interface, inputs: {in1: 1..4 V}}; " + amp(more=more)
    made = listed(wiring_of("radio.FL: spk.FL", units, head), "routes inside")
    assert [what.split()[-1] for what, _ in made] == said


# -- loads -----------------------------------------------------------------------------------------------------------


def load_of(wiring: Wiring, name: str) -> loads.Load:
    return next(each for each in loads.loads(wiring) if each.driver.name == name)


BRIDGED = ", bridges: out1+/out2-"


def test_what_a_bridge_and_its_halves_take() -> None:
    """4 ohm over both outputs; a bridge of outputs for 2 ohm takes 4; without a rating it takes nobody knows what."""
    wiring = wiring_of("amp.out1+/out2-: spk.FL", amp(out="50 W @ 4 ohm least 2 ohm", more=BRIDGED))
    bridge = load_of(wiring, "amp.out1+/out2-")
    assert (bridge.bridged, bridge.rated_ohm, bridge.nominal_ohm) == (True, 4.0, 4.0)
    assert [each.driver.name for each in loads.loads(wiring)] == ["amp.out1+/out2-"]
    single = load_of(wiring_of("amp.out1: spk.FL", amp(out="50 W @ 4 ohm least 2 ohm")), "amp.out1")
    assert (single.bridged, single.rated_ohm) == (False, 2.0)
    assert load_of(wiring_of("amp.out1+/out2-: spk.FL", amp(more=BRIDGED)), "amp.out1+/out2-").rated_ohm is None


BANDS = [
    # of route and output the route counts; open ends are the edges of hearing; upside down is empty at its low end
    ("50 W", "", (20.0, 20_000.0)), ("50 W 80.. Hz", "", (80.0, 20_000.0)), ("50 W ..90 Hz", "", (20.0, 90.0)),
    ("50 W 80..900 Hz", ", routes: {out1: in1 100.. Hz}", (100.0, 900.0)),
    ("50 W 900.. Hz", ", routes: {out1: in1 ..100 Hz}", (900.0, 900.0)),
]  # fmt: skip


@pytest.mark.parametrize(("out", "more", "band"), BANDS)
def test_the_band_that_an_output_plays(out: str, more: str, band: tuple[float, float]) -> None:
    assert load_of(wiring_of("amp.out1: spk.FL", amp(out=out, more=more)), "amp.out1").band_hz == band


def test_a_capacitor_counts_by_its_value_where_that_is_known() -> None:
    """10 uF at the middle of 20 Hz to 20 kHz, 632.46 Hz: 1/(2 pi 632.46 x 10e-6) = 25.165 ohm;
    |4 - j25.165| = 25.481.
    """
    for capacitor, ohm in {"": 4.0, ", capacitor: 10 uF": 25.481, ", capacitor: unknown": 4.0}.items():
        speakers = f"speakers: {{FL: {{nominal: 4 ohm{capacitor}}}}}\n"
        load = load_of(wiring_of("amp.out1: spk.FL", amp(), speakers=speakers), "amp.out1")
        assert load.nominal_ohm == pytest.approx(ohm, abs=0.001)
        assert load.arrivals[0].wire_loss == 0.0
        # 1 m of 1.5 mm2 there and back is 2 x 13.3 mohm (IEC 60228, class 5): 0.0266/4.0266 of the volts
        cable = "runs:\n  - amp.out1 > 1 m 1.5 mm2 > spk.FL\n"
        load = load_of(wiring_of("", amp(), cable, speakers), "amp.out1")
        assert load.nominal_ohm == pytest.approx(ohm, abs=0.001), "told without the cable"
        if ohm == 4.0:
            assert load.arrivals[0].wire_loss == pytest.approx(0.0266 / 4.0266, rel=5e-3)
        else:
            # |4.0266 - j25.165| = 25.485, of which the speaker and its capacitor have 25.481
            assert load.arrivals[0].wire_loss == pytest.approx(1 - 25.481 / 25.485, abs=2e-5)


def test_the_middle_of_a_band_is_where_it_counts() -> None:
    """80 to 20,000 Hz: sqrt(80 x 20000) = 1264.9 Hz, where 10 uF are 12.582 ohm; |4 - j12.582| = 13.203."""
    speakers = "speakers: {FL: {nominal: 4 ohm, capacitor: 10 uF}}\n"
    for cable in ("", "runs:\n  - amp.out1 > 1 mm 1.5 mm2 > spk.FL\n"):
        joints = "" if cable else "amp.out1: spk.FL"
        load = load_of(wiring_of(joints, amp(out="50 W @ 4 ohm 80.. Hz"), cable, speakers), "amp.out1")
        assert load.nominal_ohm == pytest.approx(13.203, abs=0.001)
        made = loads.delivery(wiring_of(joints, amp(out="50 W @ 4 ohm 80.. Hz"), cable, speakers), load, 10.0)
        # 10 V over 13.203 ohm are 0.7574 A, in 4 ohm 2.2946 W
        assert [each.power_w for each in made.speakers] == [pytest.approx(2.2946, abs=0.001)]


def test_the_cable_takes_its_share_of_what_is_delivered() -> None:
    """10 m of 1.5 mm2 there and back are 0.266 ohm (IEC 60228, class 5): 10 V over 4.266 ohm, in 4 ohm 21.98 W."""
    wiring = wiring_of("", amp(), "runs:\n  - amp.out1 > 10 m 1.5 mm2 > spk.FL\n")
    (speaker,) = loads.delivery(wiring, load_of(wiring, "amp.out1"), 10.0).speakers
    assert speaker.power_w == pytest.approx(21.98, abs=0.02)


def test_without_ohms_nobody_can_say_how_else_to_wire_them() -> None:
    for speakers, words in (
        ("speakers: {FL RL: {place: doors}}\n", ""),
        # two of 4 ohm: 8 in line, 2 side by side
        ("speakers: {FL RL: {nominal: 4 ohm}}\n", "2 ohm (all in parallel) or 8 ohm (all in series)"),
    ):
        wiring = wiring_of("amp.out1: [spk.FL, spk.RL]", amp(), speakers=speakers)
        assert load_words.legal(wiring, load_of(wiring, "amp.out1"), 2.0) == words


def test_a_speaker_without_ohms_leaves_the_load_unknown() -> None:
    speakers = "speakers: {FL: {place: door}, FR: {nominal: 4 ohm}}\n"
    wiring = wiring_of("amp.out1: [spk.FR, spk.FL]", amp(), speakers=speakers)
    load = load_of(wiring, "amp.out1")
    assert (load.unknown, load.nominal_ohm, load.least) == (("FL",), None, None)
    assert listed(wiring, "load of") == [("the load of amp out1", "the ohms of FL are not written")]


COILS = "speakers: {SUB: {coils: 2 x 2 ohm separate}, FL: {nominal: 4 ohm}}\n"


def test_what_hangs_on_an_output_in_words() -> None:
    both = wiring_of("amp.out1: [spk.SUB.c1, spk.SUB.c2]", amp(), speakers=COILS)
    load = load_of(both, "amp.out1")
    assert load_words.speakers_words(load) == "SUB (2 coils)"
    assert load_words.about_of(both, load) == (
        "amp.out1+", "amp.out1-", "spk.SUB.c1+", "spk.SUB.c1-", "spk.SUB.c2+", "spk.SUB.c2-",
    )  # fmt: skip
    # two coils of 2 ohm: 1 ohm side by side, 4 ohm in line
    assert load_words.legal(both, load, 2.0) == "4 ohm (all in series)"
    assert load_words.legal(both, load, 5.0) == ""
    one = wiring_of("amp.out1: [spk.SUB.c1, spk.FL]", amp(), speakers=COILS)
    assert load_words.speakers_words(load_of(one, "amp.out1")) == "SUB and FL"
    # 2 ohm and 4 ohm are unlike
    assert load_words.legal(one, load_of(one, "amp.out1"), 0.5) == ""


def test_the_successors_coils_count_for_what_else_could_be_made() -> None:
    """Two new coils of 4 ohm in a speaker that had one of 8: 2 side by side or 8 in line. Two are named at most."""
    speakers = "speakers: {SUB: {nominal: 8 ohm, new: {coils: 2 x 4 ohm parallel}}}\n"
    wiring = wiring_of("amp.out1: spk.SUB", amp(), speakers=speakers)
    load = load_of(wiring, "amp.out1")
    assert load.nominal_ohm == 2.0
    assert load_words.legal(wiring, load, 1.0) == "2 ohm (all in parallel) or 8 ohm (all in series)"
    four = wiring_of("amp.out1: [spk.FL, spk.FR, spk.RL, spk.RR]", amp())
    # four of 4 ohm: 1 ohm side by side, two strings of two 4 ohm, all in line 16 ohm: the two lowest are named
    words = load_words.legal(four, load_of(four, "amp.out1"), 0.5)
    assert words == "1 ohm (all in parallel) or 4 ohm (2 strings of 2 in series)"


def test_where_a_load_was_joined() -> None:
    """HEAD has 5 lines, amplifier and speakers one each, `joints:` and `screw:` two: the joints stand in 10 and 11."""
    wiring = wiring_of("amp.out1: spk.FL; amp.out1+: spk.FR+; amp.out1-: spk.FR-", amp())
    load = load_of(wiring, "amp.out1")
    assert load_words.place_of(wiring, load).line == 11, "the last of the speakers"
    assert load_words.way_of(wiring, load) == ("amp.out1+", "spk.FL+")


# -- volume ----------------------------------------------------------------------------------------------------------


def rests(made: list[volume.Rests]) -> list[tuple[list[str], list[str]]]:
    return [([d.name for d in each.drivers], [r.name for r in each.inputs]) for each in made]


@pytest.mark.parametrize(
    ("units", "joints", "level", "step"),
    [
        # the radio of HEAD: 8 V written and no step
        ("", "radio.FL: amp.in1", [], [(["radio.FL"], ["amp.in1"])]),
        ("", "radio.FL: amp.in1; radio.FR: amp.in2", [], [(["radio.FL", "radio.FR"], ["amp.in1", "amp.in2"])]),
        ("aux: {kind: radio, outputs: {a: grounded}}", "aux.a: amp.in1", [(["aux.a"], ["amp.in1"])], []),
        ("aux: {kind: radio, outputs: {a: 2 V clean step 30}}", "aux.a: amp.in1", [], []),
        ("aux: {kind: radio, outputs: {a: 2 V step 30}}", "aux.a: amp.in1", [], [(["aux.a"], ["amp.in1"])]),
        # a fixed level has no step, a cluster no volume; it still has a level
        ("aux: {kind: radio, outputs: {a: 2 V fixed}}", "aux.a: amp.in1", [], []),
        ("aux: {kind: cluster, outputs: {a: 2 V}}", "aux.a: amp.in1", [], []),
        ("aux: {kind: cluster, outputs: {a: grounded}}", "aux.a: amp.in1", [(["aux.a"], ["amp.in1"])], []),
        # the car's own amplifier has to be read, what we add has not
        (
            "aux: {kind: factory amplifier, inputs: {i: 1..9 V}, outputs: {a: grounded}, routes: {a: i}}",
            "radio.FL: aux.i; aux.a: amp.in1", [(["aux.a"], ["amp.in1"])], [],
        ),
        ("aux: {kind: processor, outputs: {a: grounded}}", "aux.a: amp.in1", [], []),
        # into the car's own amplifier nobody sets a gain
        (
            "aux: {kind: factory amplifier, inputs: {i: 1..9 V}, outputs: {a: 4 V}}",
            "radio.FL: aux.i", [], [],
        ),
    ],
)  # fmt: skip
def test_levels_that_have_to_be_read_at_the_car(
    units: str, joints: str, level: list[object], step: list[object]
) -> None:
    wiring = wiring_of(joints, f"{amp()}; {units}" if units else amp())
    assert rests(volume.without_level(wiring)) == level
    assert rests(volume.without_step(wiring)) == step


FIXED = "aux: {kind: radio, outputs: {a: 2 V fixed, b: 2 V}}"


@pytest.mark.parametrize(
    ("units", "joints", "taken"),
    [
        (amp(), "aux.a: amp.in1; amp.out1: spk.FL", [("amp.in1", ("spk.FL",))]),
        (amp(), "aux.b: amp.in1; amp.out1: spk.FL", []),
        # nothing is heard of it; two speakers; through a second unit
        (amp(), "aux.a: amp.in1", []),
        (amp(), "aux.a: amp.in1; amp.out1: [spk.FL, spk.FR]", [("amp.in1", ("spk.FL", "spk.FR"))]),
        (
            amp() + "; pre: {kind: processor, inputs: {in1: 1..4 V}, outputs: {out1: 4 V}}",
            "aux.a: pre.in1; pre.out1: amp.in1; amp.out1: spk.FL", [("pre.in1", ("spk.FL",))],
        ),
        # the volume is made in the output; in the car's own amplifier, which needn't say so; unless it denies it
        (amp(out="50 W @ 4 ohm volume"), "aux.a: amp.in1; amp.out1: spk.FL", []),
        (
            amp() + "; famp: {kind: factory amplifier, inputs: {in1: 1..4 V}, outputs: {out1: 4 V}}",
            "aux.a: amp.in1; amp.out1: famp.in1; famp.out1: spk.FL", [],
        ),
        (
            amp() + "; famp: {kind: factory amplifier, inputs: {in1: 1..4 V}, outputs: {out1: 4 V fixed}}",
            "aux.a: amp.in1; amp.out1: famp.in1; famp.out1: spk.FL", [("amp.in1", ("spk.FL",))],
        ),
        # two outputs, in the first of which the volume is made
        (
            ("amp: {kind: amplifier, inputs: {in1: 1..4 V}, outputs: {out1: 50 W volume, out2: 50 W}, "
             "routes: {out1: in1, out2: in1}}"),
            "aux.a: amp.in1; amp.out1: spk.FR; amp.out2: spk.FL", [("amp.in1", ("spk.FL",))],
        ),
        # beside the car's own amplifier
        (
            "famp: {kind: factory amplifier, inputs: {in1: 1..4 V}, outputs: {out1: 4 V}}; " + amp(),
            "aux.a: [famp.in1, amp.in1]; amp.out1: spk.FL", [("amp.in1", ("spk.FL",))],
        ),
        # the car's own amplifier takes it as its maker meant; it feeds nobody of ours with a fixed level then
        (
            "famp: {kind: factory amplifier, inputs: {in1: 1..4 V}, outputs: {out1: 4 V fixed}}",
            "aux.a: famp.in1; famp.out1: spk.FL", [],
        ),
        # a ring of units ends, and the speaker is told once
        (
            amp(more=", routes: {out1: in1 + in2, out2: in1}"),
            "aux.a: amp.in1; amp.out1: spk.FL; amp.out2: amp.in2", [("amp.in1", ("spk.FL",))],
        ),
    ],
)  # fmt: skip
def test_fixed_levels_that_play_at_full_volume(units: str, joints: str, taken: list[object]) -> None:
    made = volume.taken_fixed(wiring_of(joints, f"{FIXED}; {units}"))
    assert [(each.feed.receiver.name, each.speakers) for each in made] == taken
    for each in made:
        assert (each.path[0], each.path[-1]) == ("aux.a+", "spk.FL+")


def test_an_input_of_ours_behind_one_of_the_car_s() -> None:
    famp = "aux: {kind: factory amplifier, inputs: {i: 1..9 V}, outputs: {a: 4 V}}"
    wiring = wiring_of("radio.FL: aux.i; radio.FR: amp.in1", f"{famp}; {amp()}")
    assert rests(volume.without_step(wiring)) == [(["radio.FR"], ["amp.in1"])]


def test_a_level_in_words() -> None:
    wiring = wiring_of(CHAIN, amp())
    words = {each.name: volume.level_words(each) for each in wiring.signals.drivers}
    assert (words["radio.FL"], words["amp.out1"]) == ("8 V", "50 W at 4 ohm")


# -- settings --------------------------------------------------------------------------------------------------------

SET = ", routes: {{out1: in1 {route}, out2: in2}}, wakes: signal, set: {{{said}}}"


def otherwise(route: str, said: str, joints: str = CHAIN) -> list[tuple[str, str]]:
    wiring = wiring_of(joints, amp(more=SET.format(route=route, said=said)))
    return [(each.setting.what, each.setting.output) for each in set_otherwise.set_otherwise(wiring)]


@pytest.mark.parametrize(
    ("route", "said", "told"),
    [
        ("80.. Hz", "high-pass out1: 80 Hz", []),
        ("80.. Hz", "high-pass out1: 160 Hz", [("high-pass", "out1")]),
        ("80.. Hz", "high-pass out1: off", [("high-pass", "out1")]),
        ("80.. Hz", "high-pass out1: unknown", []),
        ("..80 Hz", "low-pass out1: 160 Hz", [("low-pass", "out1")]),
        ("-6 dB", "gain out1: 0 dB", [("gain", "out1")]),
        # of an output that feeds nothing; of one of which nothing is planned
        ("80.. Hz", "high-pass out2: 160 Hz", []),
        ("", "high-pass out1: 160 Hz", []),
        # the second of two
        ("80..500 Hz", "high-pass out1: 80 Hz, low-pass out1: 90 Hz", [("low-pass", "out1")]),
    ],
)
def test_what_is_set_otherwise_than_routed(route: str, said: str, told: list[tuple[str, str]]) -> None:
    assert otherwise(route, said) == told


@pytest.mark.parametrize(
    ("route", "said", "gone", "told"),
    [
        ("80.. Hz", "gain out1: 0 dB", "", [("amp", "signal sense"), ("amp", "high-pass of out1")]),
        ("80.. Hz -3 dB", "signal sense: used", "", [("amp", "high-pass of out1"), ("amp", "gain of out1")]),
        ("80.. Hz", "high-pass out1: unknown, signal sense: unused", "", [("amp", "high-pass of out1")]),
        ("..80 Hz", "low-pass out1: 80 Hz, signal sense: used", "", []),
        # nothing of it is written: nobody asked
        ("80.. Hz", "", "", []),
        ("80.. Hz", "gain out1: 0 dB", "removed: [amp]\n", []),
    ],
)
def test_what_the_plan_relies_on_and_nobody_wrote(route: str, said: str, gone: str, told: list[object]) -> None:
    more = SET.format(route=route, said=said) if said else f", routes: {{out1: in1 {route}}}, wakes: signal"
    assert list(set_otherwise.unset(wiring_of(CHAIN, amp(more=more), gone))) == told


@pytest.mark.parametrize(
    ("said", "joints", "told", "unset"),
    [
        ("bridge: off", "amp.out1+/out2-: spk.FL", [("out1/out2", "off")], []),
        ("bridge: out1/out2", "amp.out1+/out2-: spk.FL", [], []),
        ("bridge: unknown", "amp.out1+/out2-: spk.FL", [], [("amp", "bridge of out1/out2")]),
        ("gain out1: 0 dB", "amp.out1+/out2-: spk.FL", [], [("amp", "bridge of out1/out2")]),
        ("bridge: out1/out2", "amp.out1: spk.FL", [("out1", "out1/out2")], []),
        ("bridge: off", "amp.out1: spk.FL", [], []),
    ],
)
def test_the_bridge_switch(said: str, joints: str, told: list[tuple[str, str]], unset: list[tuple[str, str]]) -> None:
    wiring = wiring_of(joints, amp(more=f"{BRIDGED}, set: {{{said}}}"))
    made = [
        (each.outputs, each.setting.output or each.setting.words) for each in set_otherwise.bridged_otherwise(wiring)
    ]
    assert made == told
    assert list(set_otherwise.unset(wiring)) == unset


@pytest.mark.parametrize(
    ("out", "said", "speaker", "low"),
    [
        # no tweeter of a car is meant to play below 1 kHz (common practice, no source)
        ("50 W @ 4 ohm", "", "FL-TW", 20.0), ("50 W @ 4 ohm 999.. Hz", "", "FL-TW", 999.0),
        ("50 W @ 4 ohm 1000.. Hz", "", "FL-TW", None),
        ("50 W @ 4 ohm 3000.. Hz", "high-pass out1: 500 Hz", "FL-TW", 500.0),
        ("50 W @ 4 ohm 3000.. Hz", "high-pass out1: off", "FL-TW", 20.0),
        ("50 W @ 4 ohm 500.. Hz", "high-pass out1: 3000 Hz", "FL-TW", None),
        ("50 W @ 4 ohm 500.. Hz", "high-pass out2: 3000 Hz", "FL-TW", 500.0),
        ("50 W @ 4 ohm", "", "FL", None), ("50 W @ 4 ohm", "", "FR-TW", None),
    ],
)  # fmt: skip
def test_tweeters_that_get_too_much(out: str, said: str, speaker: str, low: float | None) -> None:
    """FR-TW has a capacitor. The setting is told where it alone makes it so."""
    speakers = "speakers: {FL FL-TW: {nominal: 4 ohm}, FR-TW: {nominal: 4 ohm, capacitor: 10 uF}}\n"
    more = f", set: {{{said}}}" if said else ""
    made = list(
        set_otherwise.bare_tweeters(wiring_of(f"amp.out1: spk.{speaker}", amp(out=out, more=more), speakers=speakers))
    )
    assert [each.low_hz for each in made] == ([] if low is None else [low])
    for each in made:
        assert (each.setting is not None) == (bool(said) and "3000.. Hz" in out)


def test_whose_tweeters_are_looked_at() -> None:
    """The radio and the car's own amplifier were there before; the amplifier of ours comes after them."""
    units = f"famp: {{kind: factory amplifier, inputs: {{in1: 1..4 V}}, outputs: {{out1: 50 W}}}}; {amp()}"
    joints = "radio.FL: spk.FL-TW; famp.out1: spk.FR-TW; amp.out1: spk.FL-WF; amp.out2: spk.FL"
    assert list(set_otherwise.bare_tweeters(wiring_of(joints, units))) == []
    (one,) = set_otherwise.bare_tweeters(wiring_of(joints.replace("spk.FL-WF", "spk.FL-TW"), units))
    assert one.load.driver.name == "amp.out1"


@pytest.mark.parametrize(
    ("wakes", "sense", "asleep"),
    [
        ("signal", "unused", True),
        ("signal", "used", False),
        ("[signal, bus]", "unused", False),
        ("rem", "unused", False),
    ],
)
def test_who_sleeps_for_ever(wakes: str, sense: str, asleep: bool) -> None:
    """A unit that comes out, and one without any setting, stand before it."""
    units = (
        "out: {kind: amplifier, inputs: {in1: 1..4 V}, wakes: signal, set: {signal sense: unused}}; "
        "plain: {kind: amplifier, inputs: {in1: 1..4 V}, wakes: signal}; "
        + amp(more=f", wakes: {wakes}, set: {{signal sense: {sense}}}")
    )
    made = list(set_otherwise.asleep(wiring_of("radio.FR: amp.in2", units, "removed: [out]\n")))
    assert [each.unit.name for each in made] == (["amp"] if asleep else [])
    assert [each.feed.driver.name for each in made if each.feed] == (["radio.FR"] if asleep else [])
