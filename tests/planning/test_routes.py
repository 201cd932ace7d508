"""The ways of signals stop by stop, the runs, and the marker colours."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from harness.graph.runs import RunEnds, cables, cables_at, laid_runs
from harness.graph.wiring import Wiring
from harness.model.function import read_function
from harness.planning.markers import marker
from harness.planning.routes import Leg, group_of, legs
from harness.planning.states import PairStates
from harness.prove import prove

Wired = Callable[[str], Wiring]


def _sample(root: Path, name: str) -> dict[tuple[str, str], Leg]:
    wiring = prove(root / "samples" / f"{name}.yaml", mends=False).wiring
    assert wiring is not None
    return {(leg.feed.driver.name, leg.feed.receiver.name): leg for leg in legs(wiring)}


def _said(leg: Leg) -> list[str]:
    return [f"{stop.kind} {stop.owner}" for stop in leg.stops]


def test_from_radio_to_input_and_from_output_to_speaker(root: Path) -> None:
    found = _sample(root, "hatch-plug-in")

    there = found["radio.FL", "dsp.in1"]
    assert _said(there) == ["unit radio", "plug sound", "joint J1", "unit dsp"]
    assert (there.stops[1].plus, there.stops[1].minus) == ("sound.unit.5", "sound.unit.6")
    assert there.stops[1].pins == ("T1.unit.5", "T1.unit.6")
    back = found["dsp.out1", "spk.FL"]
    assert _said(back) == ["unit dsp", "joint J5", "plug sound", "plug C204", "speaker FL"]
    colours = [(w.plus.short if w.plus else "", w.minus.short if w.minus else "") for w in back.wires]
    assert colours == [("", ""), ("WH", "WH/BK"), ("WH", "WH/BK"), ("BU", "BU/BK")]
    assert found["dsp.rca1", "bass.in1"].channels == ("FL", "FR")
    assert found["dsp.rca1", "bass.in1"].speakers == ("SUB",)


def test_a_reversed_leg_is_marked(root: Path) -> None:
    found = _sample(root, "van-odd-but-right")

    assert found["four.out1", "spk.FL-TW"].turned
    assert not found["four.out1", "spk.FL"].turned
    assert found["bass.out1+/out2-", "spk.SUB.c2"].wires[-1].in_line == ("SUB.c1",)


def _joints(leg: Leg) -> list[str]:
    stops = [*leg.stops, *(stop for _, stop in leg.back)]
    return [name for stop in stops if stop.kind == "joint" for name in (stop.owner, stop.other) if name]


def test_speakers_in_line_are_one_way_with_all_its_joints(root: Path) -> None:
    """Bridge, first coil, second coil, and back: written in the job as three screw joints."""
    found = _sample(root, "van-odd-but-right")
    first, second = (found["bass.out1+/out2-", f"spk.SUB.c{coil}"] for coil in (1, 2))

    assert _said(first) == ["unit bass", "joint J10", "speaker SUB"]
    assert _said(second) == ["speaker SUB", "joint J11", "speaker SUB"]
    assert (second.stops[0].plus, second.stops[-1].plus) == ("spk.SUB.c1-", "spk.SUB.c2+")
    assert [f"{stop.kind} {stop.owner}" for _, stop in second.back] == ["joint J12", "unit bass"]
    assert second.back[-1][1].plus == "bass.out2-"
    assert first.back == ()


def test_each_wire_s_own_joint_is_named(root: Path) -> None:
    # T1.car.RR- is joined to out4+ (J13) and T1.car.RR+ to out4- (J14), each in a row of its own
    assert _joints(_sample(root, "saloon-fifteen-faults")["dsp.out4", "spk.RR"]) == ["J13", "J14"]


ONE_WIRE = """\
units:
  radio: {kind: radio, outputs: {FL: btl 8 V}}
  amp: {kind: amplifier, inputs: {in1: 2..20 V differential}, outputs: {out1: 50 W @ 4 ohm}, routes: {out1: in1}}
speakers: {FL: {nominal: 4 ohm}}
joints:
  screw:
    radio.FL: amp.in1
    spk.FL-: {to: amp.out1-, name: Minus}
runs:
  - amp.out1+ > 2 m 14 AWG > spk.FL+
"""


def test_a_joint_of_the_minus_wire_alone_is_on_the_route(wired: Wired) -> None:
    leg = next(leg for leg in legs(wired(ONE_WIRE)) if leg.feed.receiver.name == "spk.FL")

    assert _joints(leg) == ["Minus"]
    stop = next(stop for stop in leg.stops if stop.kind == "joint")
    assert stop.plus == ""
    assert stop.minus


def test_no_joint_of_a_signal_is_missing(root: Path) -> None:
    # by hand: J9 of the van is the turn-on lead, no signal
    for name, others in {"hatch-plug-in": set(), "hatch-solder-in": set(), "estate-bus-amplifier": set(),
                         "van-odd-but-right": {"J9"}}.items():  # fmt: skip
        wiring = prove(root / "samples" / f"{name}.yaml", mends=False).wiring
        assert wiring is not None
        named = {joint for leg in legs(wiring) for joint in _joints(leg)}
        assert {joint.name for joint in wiring.job.joints} - named == others, name


def test_a_pair_is_twisted_where_a_plug_of_the_car_has_it_so(root: Path) -> None:
    found = _sample(root, "estate-bus-amplifier")

    # dash 1/11 and seat 13/29 are twisted in the job, C150 between them has no rows of its own
    assert [wire.twisted for wire in found["radio.FL", "famp.in1"].wires][:3] == [False, True, True]
    # the loom's leads, and the speaker pairs of the same plug, are not
    assert not any(wire.twisted for wire in found["famp.FL", "dsp.in1"].wires)
    assert not any(wire.twisted for wire in found["dsp.out1", "spk.FL"].wires)


def test_groups() -> None:
    assert [group_of(name) for name in ("FL", "FR-TW", "RL", "SUB", "aux")] == [
        "front", "front", "rear", "subwoofer", "aux",
    ]  # fmt: skip


RUNS = """\
units:
  block: {kind: fuse block, ways: 1}
  dsp: {kind: processor, outputs: {out1: 4 V grounded}}
  amp: {kind: amplifier, inputs: {in1: 0.2..4 V grounded}}
runs:
  - battery.+ > 12 in 4 AWG > fuse 100 A > 15 ft 4 AWG via bulkhead grommet > block.in
  - dsp.out1 > 5 m rca > amp.in1
"""


def test_runs_in_order_with_their_pieces(wired: Wired) -> None:
    job = wired(RUNS).job
    runs = laid_runs(job)

    assert [(run.start, run.end) for run in runs] == [
        ("battery.+", "block.in"), ("dsp.out1+", "amp.in1+"), ("dsp.out1-", "amp.in1-"),
    ]  # fmt: skip
    assert [segment.kind for segment in runs[0].segments] == ["wire", "fuse", "wire"]
    assert runs[1].same_make(runs[2])
    assert not runs[0].same_make(runs[1])
    middle = runs[0].segments[1].a
    assert RunEnds(job).far(middle, "battery.+") == "block.in"
    assert RunEnds(job).far(runs[0].segments[1].b, "block.in") == "battery.+"
    assert RunEnds(job).far("amp.in1+", "dsp.out1+") == "amp.in1+"


def test_a_point_of_the_car_s_own_wire_is_no_end_of_a_run(wired: Wired) -> None:
    """Nobody laid it: it is told as it stands."""
    chain = "found: [dash.5 > 3 ft 18 AWG > fuse 5 A > 1 ft 18 AWG > battery.+]\n"
    job = wired(PAIRS + chain).job
    (points,) = [(each.a, each.b) for each in job.segments if each.kind == "fuse"]
    assert all(point.startswith("run.") for point in points)
    assert [RunEnds(job).far(point, "battery.+") for point in points] == list(points)
    assert laid_runs(job) == laid_runs(wired(PAIRS).job)


PAIRS = """\
plugs:
  dash: {unit: radio, cavities: {4/16: RR VT VT/BK, 5: ACC RD}}
units:
  radio: {kind: radio, outputs: {RR: btl 8 V}}
  dsp: {kind: processor, outputs: {out1..2: 4 V grounded}, gives: {rem-out: 100 mA}}
  amp: {kind: amplifier, inputs: {in1..3: 0.2..4 V grounded}, wakes: rem 10 mA}
  bass: {kind: amplifier, inputs: {in1: 0.2..4 V grounded}, wakes: rem 10 mA}
cut: [dash.RR]
runs:
  - dsp.out1..2 > 5 m rca > amp.in1..2
  - dash.unit.RR > 5 m rca > amp.in3
  - dsp.out1 > 5 m rca > bass.in1 reversed
  - dsp.rem-out > 5 m 18 AWG > amp.rem bass.rem
"""


def test_runs_are_numbered_and_a_pair_is_one(wired: Wired) -> None:
    job = wired(PAIRS).job
    made = {cable.name: [(run.start, run.end) for run in cable.wires] for cable in cables(job)}

    assert made == {
        "RUN 1": [("dsp.out1+", "amp.in1+"), ("dsp.out1-", "amp.in1-")],
        "RUN 2": [("dsp.out2+", "amp.in2+"), ("dsp.out2-", "amp.in2-")],
        "RUN 3": [("dash.unit.4", "amp.in3+"), ("dash.unit.16", "amp.in3-")],
        "RUN 4": [("dsp.out1+", "bass.in1-"), ("dsp.out1-", "bass.in1+")],
        "RUN 5": [("dsp.rem-out", "amp.rem")],
        "RUN 6": [("amp.rem", "bass.rem")],
    }
    at = cables_at(job)
    assert [cable.name for cable in at["dsp.out1-"]] == ["RUN 1", "RUN 4"]
    assert [cable.name for cable in at["amp.rem"]] == ["RUN 5", "RUN 6"]
    assert "dash.unit.5" not in at


def test_corner_colours() -> None:
    said = {}
    for channel in ("FL", "FR", "RL", "RR", "FL-TW"):
        function = read_function(channel)
        assert function is not None
        made = marker(function)
        assert made is not None
        said[channel] = (made.plus.words, made.minus.words)

    assert said["FL"] == ("white", "white with black stripe")
    assert said["FR"] == ("grey", "grey with black stripe")
    assert said["RL"] == ("green", "green with black stripe")
    assert said["RR"] == ("violet", "violet with black stripe")
    assert said["FL-TW"] == said["FL"]
    centre = read_function("C")
    assert centre is not None
    assert marker(centre) is None


STATES = """\
plugs:
  dash: {unit: radio, cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5/6: RL GN GN/BK}}
units: {radio: {kind: radio, outputs: {FL FR RL: btl 8 V}}}
speakers: {FL FR RL: {nominal: 4 ohm}}
"""


def test_states_of_pairs_that_are_not_used(wired: Wired, tmp_path: Path) -> None:
    (tmp_path / "job.evidence.yaml").write_text(
        "- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/2, charted: FL, heard: FL}\n"
        "- {when: 2026-03-02 09:41, by: JM, ohm: dash.car.3/4, reads: 3.5 ohm}\n",
        encoding="utf-8",
    )
    states = PairStates(wired(STATES)).by_cavity("dash")

    assert states == {
        "1": "toned", "2": "toned", "3": "measured", "4": "measured", "5": "charted", "6": "charted",
    }  # fmt: skip
