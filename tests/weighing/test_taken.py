"""Offers of random cases, written out: each counts up to what was weighed; and files written in other ways."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.finding import Severity
from harness.graph.wiring import Wiring
from harness.prove import prove, prove_text
from harness.read.shop import read_shop, read_shop_text
from harness.read.troubles import Troubles
from harness.weighing.offers import Weighing, agrees, weigh
from tests.weighing.brute import Car
from tests.weighing.cases import case

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
CASES = 60


@pytest.mark.parametrize("methods", [False, True])
@pytest.mark.parametrize("runs", [False, True])
@pytest.mark.parametrize("first", range(0, CASES, 20))
def test_the_jobs_taken_connect_what_must_connect_and_count_up(first: int, runs: bool, methods: bool) -> None:
    """What a job taken connects is flooded by the brute force's own code."""
    seen = 0
    for seed in range(first, first + 20):
        text, shop_text = case(seed, runs=runs, methods=methods)
        proof = prove_text(text, "job.yaml")
        shop = read_shop_text(shop_text, "shop.yaml", Troubles())
        weighing = weigh(proof, text, shop)
        for offer in weighing.offers:
            assert agrees(offer, weighing.rates), (seed, offer.name)
            assert isinstance(offer.proof.wiring, Wiring)
            if any(len(mix.looms) > 1 or mix.pulled or mix.moved for mix in offer.point.mixes):
                continue  # the flood knows neither rows of looms nor terminals that were moved
            seen += 1
            assert _joined(offer.proof.job, shop) == _joined(proof.job, shop), (seed, offer.name)
    assert seen > 10


@pytest.mark.parametrize("runs", [False, True])
@pytest.mark.parametrize("seed", [198, 235, 273, 314])
def test_the_jobs_own_loom_at_another_price_than_the_drawers_twin(seed: int, runs: bool) -> None:
    """The shop's own figure holds: the loom taken stands in the job at the drawer's price."""
    text, shop_text = case(seed, runs=runs)
    weighing = weigh(prove_text(text, "job.yaml"), text, read_shop_text(shop_text, "shop.yaml", Troubles()))
    assert weighing.offers
    assert all(agrees(offer, weighing.rates) for offer in weighing.offers)


def _joined(job: object, shop: object) -> set[frozenset[str]]:
    car = Car(job, shop)
    return {frozenset(members) for members in car.members.values() if len(members) > 1}


def _weighed(text: str) -> Weighing:
    file = str(SAMPLES / "written-otherwise.yaml")
    return weigh(prove_text(text, file), text, read_shop(SAMPLES / "shop.yaml", Troubles()))


SOLDER_IN = (SAMPLES / "hatch-solder-in.yaml").read_text(encoding="utf-8")
PLUG_IN = (SAMPLES / "hatch-plug-in.yaml").read_text(encoding="utf-8")
OTHERWISE = {
    "windows line ends": SOLDER_IN.replace("\n", "\r\n"),
    "a list in lines": SOLDER_IN.replace("cut: [sound.FL, sound.FR, sound.RL, sound.RR]",
                                         "cut:\n  - sound.FL\n  - sound.FR\n  - sound.RL\n  - sound.RR"),
    "a remark at a joint": SOLDER_IN.replace("    sound.unit.FL: dsp.in1\n", "    sound.unit.FL: dsp.in1  # white\n"),
    "mates in lines": PLUG_IN.replace("  mate: {T1: sound}", "  mate:\n    T1.unit: sound.unit\n    T1.car: sound.car"),
    "looms in one line": PLUG_IN.replace("looms:\n  T1: {part: block-b-loom}", "looms: {T1: {part: block-b-loom}}"),
    "a second loom that stays": PLUG_IN.replace(
        "  T1: {part: block-b-loom}", "  T1: {part: block-b-loom}\n  spare: {part: block-b-loom}"),
    "other joints beside": PLUG_IN.replace("    T1.unit.FR: dsp.in2", "    T1.unit.FR: {to: dsp.in2, name: J9}"),
}  # fmt: skip


@pytest.mark.parametrize("name", OTHERWISE)
def test_files_that_are_written_in_other_ways(name: str) -> None:
    text = OTHERWISE[name]
    assert text not in (SOLDER_IN, PLUG_IN)
    weighing = _weighed(text)
    # the six of the samples, in whatever way the file is written
    assert [(offer.figures.money, offer.figures.cuts) for offer in weighing.offers] == [
        (6560, 8), (7760, 0), (7890, 0), (8260, 0), (9080, 0), (10960, 0),
    ]  # fmt: skip
    assert all(agrees(offer, weighing.rates) for offer in weighing.offers)
    if "windows" in name:
        assert all("\n" not in offer.text.replace("\r\n", "") for offer in weighing.offers)


def test_a_plug_at_which_a_run_begins_is_weighed() -> None:
    """`T7.car.B+ > fuse 5 A > 2 m 18 AWG > dsp.B+`: by hand it is a crimp, for no supply is pierced."""
    path = SAMPLES / "van-odd-but-right.yaml"
    text = path.read_text(encoding="utf-8")
    weighing = weigh(prove(path, mends=False), text, read_shop(SAMPLES / "shop.yaml", Troubles()))
    # as it is, minutes: 17 x 2.5 in the dash, 1 x 1.5 at the bench, 2 x 3 plugged in, 2 x 0.5 capped = 51;
    # money: 51 at 84.00 an hour = 71.40, and 18 x (0.35 + 0.15 + 0.10) + 2 x 0.20
    assert not weighing.site.alone
    assert (weighing.now.time_ms, weighing.now.money, weighing.now.joints) == (3_060_000, 7140 + 1080 + 40, 18)
    # by hand: 8 pairs opened are 16 crimps and the supply is one more, 17 x 2.5; the turn-on wire is pierced in 1;
    # 43.5 at 84.00 = 60.90, and 17 x 0.60 + 0.10, the tap without a price
    first = weighing.offers[0]
    assert (first.figures.time_ms, first.figures.money, first.figures.cuts) == (2_610_000, 6090 + 1030, 8)
    assert "\n  - bulkhead.5 > fuse 5 A > 2 m 18 AWG > dsp.B+\n" in first.text


def test_a_way_that_a_check_forbids_is_not_offered_and_told() -> None:
    """Among the cases are mixes after which the radio would lose its ACC (H18)."""
    told = []
    for seed in range(CASES):
        text, shop_text = case(seed)
        shop = read_shop_text(shop_text, "shop.yaml", Troubles())
        weighing = weigh(prove_text(text, "job.yaml"), text, shop)
        before = {f.code for f in weighing.proof.report.findings if f.severity <= Severity.FIX}
        told += [each.why for each in weighing.not_used if each.why.startswith("H18")]
        for offer in weighing.offers:
            assert {f.code for f in offer.proof.report.findings if f.severity <= Severity.FIX} <= before
    assert told


def test_where_all_goes_through_nothing_need_be_done() -> None:
    """The plan plugs in a loom that only passes what the car has: left out, the plug is as it was found."""
    path = Path(__file__).parents[1] / "checks" / "A14" / "good_only_passed.yaml"
    weighing = weigh(prove(path, mends=False), path.read_text(encoding="utf-8"), None)
    first = weighing.offers[0]
    assert (first.name, first.figures.time_ms, first.figures.money, first.figures.cuts) == (
        "left as it was found",
        0,
        0,
        0,
    )
    assert first.proof.job is not None
    assert first.proof.job.mates == ()
