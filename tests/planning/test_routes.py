"""The ways of signals stop by stop, the runs, and the marker colours."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from harness.graph.wiring import Wiring
from harness.model.function import read_function
from harness.planning.markers import marker
from harness.planning.routes import Leg, group_of, legs
from harness.planning.runs import RunEnds, laid_runs
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
