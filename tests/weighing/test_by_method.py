"""A quicker method that is dearer, by hand sums: an offer of its own, taken, proved elsewhere, counted again."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from harness.graph.wiring import Wiring
from harness.prove import prove
from harness.read.shop import read_shop
from harness.read.troubles import Troubles
from harness.weighing.offers import agrees
from harness.weighing.rates import Rates
from harness.weighing.recount import recount
from harness.weighing.wording import title
from tests.weighing.test_samples import run
from tests.weighing.test_tapped import JOB, weighed

SHOP = """\
ringout: 1
dash: [radio]
drawer:
  parts:
    butt joint: {price: 2.00 EUR}
    heat shrink: {price: 0.10 EUR}
    cap: {price: 0.20 EUR}
    tap: {price: 3.00 EUR}
rates:
  labour: 60.00 EUR
  consumables: 0.10 EUR
  joints: {crimp: 2 min, solder: 3 min, pierce: 1 min}
  cap: 1 min
"""
# A minute is 1.00. One crimp: 2 min, 2.00 + 2.00 + 0.10 + 0.10 = 4.20; soldered: 3 min, 3.00 + 0.10 + 0.10 = 3.20;
# pierced: 1 min, 1.00 + 3.00 + 0.10 = 4.10. The eight cut wires are crimped or soldered, the tap of AMP-ON is soldered
# or pierced: the crimp there takes longer than the tap and costs more.
BY_HAND = [
    (27, 2880, ("solder",)),  # 8 x 3 + 3; 8 x 3.20 + 3.20
    (25, 2970, ("pierce", "solder")),  # 24 + 1; 25.60 + 4.10
    (19, 3680, ("crimp", "solder")),  # 8 x 2 + 3; 8 x 4.20 + 3.20
    (17, 3770, ("crimp", "pierce")),  # 16 + 1; 33.60 + 4.10
]


def test_each_choice_of_methods_that_none_beats_is_an_offer() -> None:
    weighing = weighed(JOB, SHOP)
    assert [(o.figures.time_ms / 60_000, o.figures.money, o.methods) for o in weighing.offers] == BY_HAND
    assert [title(o) for o in weighing.offers][:2] == [
        "full solder-in, by solder",
        "full solder-in, by pierce and solder",
    ]
    assert all(agrees(each, weighing.rates) for each in weighing.offers)
    assert [each.as_planned for each in weighing.offers] == [False, False, False, True]
    assert (
        "by pierce, where another method is quicker or cheaper: signal on whole factory wires at behind the radio"
    ) in weighing.offers[1].reasons
    # all by hand, against which a loom has to pay, is by the cheapest
    assert weighing.by_hand is not None
    assert weighing.by_hand.money == 2880


def test_each_is_taken_with_its_methods_clean_and_counts_up(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    (tmp_path / "shop.yaml").write_text(SHOP, encoding="utf-8")
    offers = json.loads(run("weigh", "job.yaml", "--json", where=tmp_path).stdout)["offers"]
    for number, (minutes, money, methods) in enumerate(BY_HAND, 1):
        assert offers[number - 1]["methods_chosen"] == list(methods)
        made = run("weigh", "job.yaml", "--take", str(number), where=tmp_path)
        assert made.returncode == 0, made.stderr
        checked = run("check", f"job-{number}.yaml", where=tmp_path)
        assert checked.returncode == 0, checked.stdout
        proof = prove(tmp_path / f"job-{number}.yaml", mends=False)
        assert proof.job is not None
        assert isinstance(proof.wiring, Wiring)
        assert {joint.method for joint in proof.job.joints} == set(methods)
        counted = recount(proof.wiring, Rates(read_shop(tmp_path / "shop.yaml", Troubles())))
        assert (counted.time_ms / 60_000, counted.money, counted.joints) == (minutes, money, 9)


def test_of_two_that_come_to_the_same_the_one_that_the_preset_names_first() -> None:
    """House names solder before crimp; here both take 2 minutes, and a butt joint costs nothing."""
    shop = SHOP.replace("solder: 3 min", "solder: 2 min").replace("joint: {price: 2.00", "joint: {price: 0.00")
    weighing = weighed(JOB, shop)
    audio = [{joint.method for joint in each.joints if joint.what == "audio"} for each in weighing.offers]
    assert audio == [{"solder"}] * len(audio)
    assert all("crimp" not in each.methods for each in weighing.offers)


def test_a_preset_that_allows_one_method_has_one_offer() -> None:
    weighing = weighed(JOB.replace("revision: A\n", "revision: A\npreset: crimp\n").replace("pierce", "crimp"), SHOP)
    # 9 x 2; 9 x 4.20
    assert [(o.figures.time_ms / 60_000, o.figures.money, o.methods) for o in weighing.offers] == [(18, 3780, ())]


_PLUG = (
    "  {}:\n    place: {}\n    unit: radio\n"
    "    source: {{chart: sheet 3, date: 2026-02-10, by: RK, covers: 2019..2022}}\n"
    "    face: {{rows: 1, columns: 2, view: wire, latch: top, first: top left, count: across}}\n"
    "    cavities: {{1/2: {} BN BN/WH}}\n"
)


@pytest.mark.parametrize(
    ("second", "sums"),
    [
        # eight joints of one kind: all crimped, 8 x 2 and 8 x 4.20, or all soldered, 8 x 3 and 8 x 3.20
        ("boot", [(24, 2560), (16, 3360)]),
        # two places, four joints at each: at one crimped and at the other soldered is 12 + 8 and 12.80 + 16.80 as well
        ("tunnel", [(24, 2560), (20, 2960), (16, 3360)]),
    ],
)
def test_one_kind_of_joint_is_made_by_one_method_at_all_plugs(second: str, sums: list[tuple[int, int]]) -> None:
    text = (
        JOB[: JOB.index("plugs:")] + "plugs:\n" + _PLUG.format("p1", "boot", "FL") + _PLUG.format("p2", second, "FR")
        + "units:\n"
        "  radio: {kind: radio, outputs: {FL FR: btl 8 V clean step 31}}\n"
        "  amp: {kind: amplifier, inputs: {in1..2: 2..20 V differential}, outputs: {out1..2: 60 W @ 4 ohm},\n"
        "    routes: {out1: in1, out2: in2}, wakes: signal}\n"
        "speakers:\n  FL FR: {nominal: 4 ohm}\n"
        "cut: [p1.FL, p2.FR]\njoints:\n  crimp at boot with heat shrink:\n"
        "    p1.unit.FL: amp.in1\n    p1.car.FL: amp.out1\n    p2.unit.FR: amp.in2\n    p2.car.FR: amp.out2\n"
    )  # fmt: skip
    weighing = weighed(text, SHOP)
    assert [(o.figures.time_ms / 60_000, o.figures.money) for o in weighing.offers] == sums
    assert all(agrees(each, weighing.rates) for each in weighing.offers)


def test_where_a_run_begins_at_one_contact_the_cheapest_way_is_counted() -> None:
    """No row of `joints:` could name another one: soldered, 3 min and 3.20, whatever the cut wires are joined by."""
    text = JOB.replace("  pierce at behind the radio:\n    dash.AMP-ON: amp.rem\n", "")
    weighing = weighed(text.replace("runs:\n", "runs:\n  - dash.AMP-ON > 5 m 18 AWG > amp.rem\n"), SHOP)
    assert [(o.figures.time_ms / 60_000, o.figures.money) for o in weighing.offers] == [(27, 2880), (19, 3680)]
    assert all(agrees(each, weighing.rates) for each in weighing.offers)
