"""The order of work: proposed, or the job's own; each joint in exactly one step."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from harness.graph.wiring import Wiring
from harness.prove import prove
from harness.work.order import order_of_work
from harness.work.replay import replay

Wired = Callable[[str], Wiring]

JOB = """\
plugs:
  dash:
    unit: radio
    cavities: {1/2: FL WH WH/BK, 3: B+ YE, 4: AMP-ON BU}
units:
  radio: {kind: radio, outputs: {FL: btl 8 V}}
  amp:
    kind: amplifier
    inputs: {in1: 2..20 V differential}
    outputs: {out1: 50 W @ 4 ohm least 2 ohm}
    wakes: rem 10 mA
speakers: {FL: {nominal: 4 ohm}}
cut: [dash.FL]
joints:
  solder at dash:
    dash.car.3: amp.B+
    dash.unit.FL: amp.in1
    dash.car.FL: amp.out1
  crimp at left kick panel:
    dash.unit.4: amp.rem
"""


def _placed(wiring: Wiring) -> dict[str, int]:
    order = order_of_work(wiring)
    return {name: number for number, step in enumerate(order.steps) for name in step.joints}


def test_proposed_order_and_supply_last(wired: Wired) -> None:
    wiring = wired(JOB)
    order = order_of_work(wiring)

    assert order.proposed
    assert [step.verb for step in order.steps] == [
        "look", "power", "meter", "tone", "cut", "build", "build", "build", "recheck", "mate", "power", "close",
    ]  # fmt: skip
    assert [step.joints for step in order.steps if step.verb == "build"] == [("J2", "J3"), ("J4",), ("J1",)]


def test_dead_car_first_and_power_last(root: Path) -> None:
    """Battery negative off before anything is opened, back on after everything; fuses in as the last before it."""
    for name in ("hatch-plug-in", "van-odd-but-right", "saloon-fifteen-faults"):
        wiring = prove(root / "samples" / f"{name}.yaml", mends=False).wiring
        assert wiring is not None
        steps = order_of_work(wiring).steps
        verbs = [step.verb for step in steps]
        off, on = (number for number, verb in enumerate(verbs) if verb == "power")

        assert "negative off first" in steps[off].what
        assert "negative back on, last of all" in steps[on].what
        assert off < min(verbs.index(verb) for verb in ("meter", "try", "tone", "lay", "build"))
        assert verbs.index("lay") < verbs.index("build")
        assert verbs[-5:] == ["recheck", "mate", "fuse", "power", "close"]
        for words in ("car maker's", "restraint", "local codes"):
            assert words in steps[off].what


def test_fuses_are_named_by_their_runs(root: Path, wired: Wired) -> None:
    sample = prove(root / "samples" / "hatch-plug-in.yaml", mends=False).wiring
    assert sample is not None
    said = {step.verb: step.what for step in order_of_work(sample).steps}

    # the job's first three runs have a fuse each, eight are written
    assert said["lay"].startswith("RUN 1 to RUN 8")
    assert said["fuse"].replace("\N{NO-BREAK SPACE}", " ") == (
        "RUN 1 joined to the battery +, then fuses in, last before power: 100 A in RUN 1, 40 A in RUN 2, 50 A in RUN 3."
    )
    assert not {"lay", "fuse"} & {step.verb for step in order_of_work(wired(JOB)).steps}  # no runs written
    unknown = wired(JOB + "runs:\n  - battery.+ > fuse unknown > 2 m 8 AWG > amp.B+\n")
    assert "value not recorded in RUN 1" in {step.verb: step.what for step in order_of_work(unknown).steps}["fuse"]


def test_try_plugged_in_only_where_a_loom_is(wired: Wired, root: Path) -> None:
    sample = prove(root / "samples" / "hatch-plug-in.yaml", mends=False).wiring
    assert sample is not None

    assert "try" in [step.verb for step in order_of_work(sample).steps]
    assert "try" not in [step.verb for step in order_of_work(wired(JOB)).steps]


STEPS = """\
steps:
  - look: everything
  - cut: dash.FL
  - join: radio ends to amp inputs
  - join: car ends to amp outputs
  - build: crimp at the left kick panel
  - join: supply
  - close: dash
"""


def test_the_jobs_own_steps_take_their_joints(wired: Wired) -> None:
    wiring = wired(JOB + STEPS)
    order = order_of_work(wiring)

    assert not order.proposed
    assert order.unplaced == ()
    assert _placed(wiring) == {"J2": 2, "J3": 3, "J4": 4, "J1": 5}


def test_a_joint_that_no_step_names_is_left_over(wired: Wired) -> None:
    order = order_of_work(wired(JOB + "steps:\n  - look: all\n  - join: J2\n  - close: dash\n"))

    assert [step.joints for step in order.steps] == [(), ("J2",), ()]
    assert order.unplaced == ("J1", "J3", "J4")


@pytest.mark.parametrize(
    ("steps", "placed", "unplaced"),
    [
        # only one of the two ends is named: the other stands apart, though the amplifier's name fits both
        (["radio ends to amp inputs"], {"J2": 0}, ("J1", "J3", "J4")),
        # two steps that say as much: neither is taken
        (["crimp", "crimp"], {}, ("J1", "J2", "J3", "J4")),
        (["everything"], {"J1": 0, "J2": 0, "J3": 0, "J4": 0}, ()),
        # "all" takes what nothing else names
        (["supply", "all"], {"J1": 0, "J2": 1, "J3": 1, "J4": 1}, ()),
        (["the speakers"], {}, ("J1", "J2", "J3", "J4")),
    ],
)
def test_no_joint_under_a_wrong_step(
    steps: list[str], placed: dict[str, int], unplaced: tuple[str, ...], wired: Wired
) -> None:
    wiring = wired(JOB + "steps:\n" + "".join(f"  - join: {step}\n" for step in steps))

    assert _placed(wiring) == placed
    assert order_of_work(wiring).unplaced == unplaced


@pytest.mark.parametrize("sample", ["hatch-plug-in", "hatch-solder-in", "estate-bus-amplifier", "van-odd-but-right"])
def test_each_joint_of_a_sample_once(sample: str, root: Path) -> None:
    wiring = prove(root / "samples" / f"{sample}.yaml", mends=False).wiring
    assert wiring is not None
    order = order_of_work(wiring)
    placed = Counter([*order.unplaced, *(name for step in order.steps for name in step.joints)])

    assert placed == Counter(joint.name for joint in wiring.job.joints)
    assert order.unplaced == ()


SEATED = JOB.replace(
    "units:\n",
    "  seat: {place: 'under the left seat, grey block', unit: sensor, carries: SRS, cavities: {1: SRS YE, 2: GND BK}}\n"
    "units:\n  sensor: {kind: control unit}\n",
    1,
)


@pytest.mark.parametrize(
    ("step", "apart", "unsure"),
    [
        ("unplug: dash", {"dash"}, False),
        ("unplug: the grey block", {"seat"}, False),  # by a part of its place
        ("unplug: what sits under the left seat", {"seat"}, False),
        ("unplug: sensor", {"seat"}, False),  # by its unit
        ("unplug: radio", {"dash"}, False),
        ("unplug: the yellow one", {"dash"}, True),  # names nothing: as the plan needs it, and said
        ("unplug: all plugs", {"dash"}, False),
    ],
)
def test_which_plug_a_step_means(step: str, apart: set[str], unsure: bool, wired: Wired) -> None:
    played = replay(wired(SEATED + f"steps:\n  - {step}\n"))
    assert played.last.work.apart == apart
    assert bool(played.unsure) == unsure


def test_all_plugs_go_together_again(wired: Wired) -> None:
    """Also one that the plan doesn't open, and that a step pulled to reach something."""
    played = replay(wired(SEATED + "steps:\n  - unplug: seat\n  - unplug: dash\n  - mate: all plugs\n"))
    assert played.last.work.apart == set()


def test_each_cut_in_the_step_that_names_it(wired: Wired) -> None:
    job = JOB.replace("1/2: FL WH WH/BK,", "1/2: FL WH WH/BK, 5/6: FR GY GY/BK,").replace(
        "[dash.FL]", "[dash.FL, dash.FR]"
    )
    both = {"1", "2", "5", "6"}
    for steps, cut in (
        (["cut: dash.FL", "cut: dash.FR"], [{"1", "2"}, both]),
        (["cut: FR at dash", "cut: dash.1/2"], [{"5", "6"}, both]),
        (["cut: dash.FL", "cut: the rest"], [{"1", "2"}, both]),
        (["cut: both pairs", "look: all"], [both, both]),
        (["cut: dash.FL", "look: all"], [{"1", "2"}, {"1", "2"}]),  # the other is cut by no step: J19
    ):
        moments = replay(wired(job + "steps:\n" + "".join(f"  - {step}\n" for step in steps))).moments
        assert [{name.rsplit(".", 1)[1] for name in each.after.work.cut} for each in moments] == cut
