"""Runs that begin or end at a plug's cavity or a loom's lead, weighed by hand: the turn-on wire of the tapped car."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.cli.weigh_text import _must_connect
from harness.weighing.offers import Weighing, agrees
from tests.weighing.test_samples import run
from tests.weighing.test_tapped import JOB, SHOP, weighed

# The tap of AMP-ON as a wire that is laid, and not as a row of `joints:`.
BARE = JOB.replace("  pierce at behind the radio:\n    dash.AMP-ON: amp.rem\n", "")
LOOM = """\
looms:
  T1:
    ends: {unit: {housing: 16-way Q, contacts: sockets}, car: {housing: 16-way Q, contacts: pins}}
    through: 3..8 11..15
    leads:
      1/9: FL WH WH/BK 18 AWG
      2/10: FR GY GY/BK 18 AWG
      unit.6: AMP-ON BU/WH 18 AWG
"""
ON_LOOM = (
    BARE.replace("units:\n  radio", LOOM + "units:\n  radio")
    .replace("cut: [dash.FL, dash.FR]\n", "")
    .replace("joints:\n", "joints:\n  mate: {T1: dash}\n")
    .replace("dash.unit", "T1.unit")
    .replace("dash.car", "T1.car")
)
BOTH_SIDES = (
    ON_LOOM.replace("through: 3..8 11..15", "through: 3..5 7..8 11..15")
    .replace("      unit.6: AMP-ON", "      6: AMP-ON")
    .replace("heat shrink:\n", "heat shrink:\n    T1.unit.AMP-ON: T1.car.AMP-ON\n")
)
# As in the tapped car, minutes: 8 x 2.5 + 2/3; 8 x 1.3 + 2/3 + 2 x 3.5 + 4 x (1.7 + 1/3 + 5/12) + 2 x 7/12;
#                                10 x 1.3 + 2/3 + 7; 9 x 1.3 + 7 + 0.75
# money: minutes at 71.30 an hour, and parts; 8 x (0.37 + 0.11) + 0.90 + 9 x 0.13 = 5.91; the same + 9.99;
#        10 x 0.48 + 0.90 + 11 x 0.13 + 27.90; 9 x 0.48 + 9 x 0.13 + 0.23 + 41.35; joints 8 + 1, 10 + 1, 9
TAPPED = [
    (1_240_000, 2456 + 591, 4, 9),
    (1_742_000, 3450 + 1590, 0, 9),
    (1_240_000, 2456 + 3503, 0, 11),
    (1_167_000, 2311 + 4707, 0, 9),
]


def _with_run(text: str, *chains: str) -> str:
    return text.replace("runs:\n", "runs:\n" + "".join(f"  - {chain}\n" for chain in chains))


def _figures(weighing: Weighing) -> list[tuple[int, int, int, int]]:
    return [
        (each.figures.time_ms, each.figures.money, each.figures.cuts, each.figures.joints) for each in weighing.offers
    ]


def _chains(weighing: Weighing, after: str) -> list[str]:
    """What stands in the lines of `runs:` with this in them, offer by offer."""
    return [line[4:] for each in weighing.offers for line in each.text.splitlines() if after in line]


def _all_right(weighing: Weighing) -> None:
    assert weighing.offers
    for each in weighing.offers:
        assert agrees(each, weighing.rates)
        again = weighed(each.text)
        assert again.now == each.figures
        assert [more.figures for more in again.offers if more.as_planned] == [each.figures]


CHAINS = {
    "begins": ("{} > 5 m 18 AWG > amp.rem  # violet", "dash.AMP-ON"),
    "begins at a fuse": ("{} > fuse 1 A > 5 m 18 AWG > amp.rem", "dash.6"),
    "ends": ("amp.rem > 5 m 18 AWG > {}  # violet", "dash.AMP-ON"),
    "in quotes": ('"{} > 5 m 18 AWG > amp.rem"', "dash.AMP-ON"),
    "without a length": ("{} > amp.rem", "dash.AMP-ON"),
}


@pytest.mark.parametrize("name", CHAINS)
def test_a_run_at_a_cavity_is_a_joint_like_the_tap_that_it_is(name: str) -> None:
    chain, contact = CHAINS[name]
    text = _with_run(BARE, chain.format(contact))
    weighing = weighed(text)
    assert not weighing.site.alone
    assert _figures(weighing) == TAPPED
    assert weighing.offers[0].text == text
    assert weighing.now == weighing.offers[0].figures
    # the loom that passes AMP-ON leaves its wire behind the plug whole; the one that has a lead for it gives that
    goes = ["dash.car.6", "dash.car.6", "A.unit.6"]
    assert [line in each.text for line, each in zip(map(chain.format, goes), weighing.offers[1:], strict=True)] == [
        True, True, True,
    ]  # fmt: skip
    # nothing else of `runs:` is another
    for each in weighing.offers:
        kept = [line for line in text.splitlines() if line.startswith("  - ") and "rem" not in line]
        assert [line for line in each.text.splitlines() if line.startswith("  - ") and "rem" not in line] == kept
    _all_right(weighing)


def test_a_run_in_a_list_in_brackets() -> None:
    start = BARE.index("runs:\n")
    chains = [line.removeprefix("  - ") for line in BARE[start:].splitlines()[1:]]
    text = f"{BARE[:start]}runs: [{chains[0]}, amp.rem > 5 m 18 AWG > dash.AMP-ON, {chains[1]}]  # all\n"
    weighing = weighed(text)
    assert _figures(weighing) == TAPPED
    for each, contact in zip(weighing.offers[1:], ("dash.car.6", "dash.car.6", "A.unit.6"), strict=True):
        line = f"runs: [{chains[0]}, amp.rem > 5 m 18 AWG > {contact}, {chains[1]}]  # all\n"
        assert f"\n{line}" in each.text
    _all_right(weighing)


def test_a_cut_wire_is_not_pierced() -> None:
    # AMP-ON is cut too, its radio side capped: by hand 9 x 2.5 + 0.75 minutes at 71.30, 9 x (0.48 + 0.13) + 0.23
    text = _with_run(BARE, "dash.car.6 > 5 m 18 AWG > amp.rem").replace("cut: [", "cut: [dash.6, ")
    weighing = weighed(text.replace("joints:\n", "capped: [dash.unit.6]\njoints:\n"))
    assert _figures(weighing)[0] == (1_395_000, 2763 + 572, 5, 9)
    _all_right(weighing)


def test_a_run_at_a_lead_of_a_loom() -> None:
    text = _with_run(ON_LOOM, "T1.unit.AMP-ON > 5 m 18 AWG > amp.rem  # violet")
    weighing = weighed(text)
    # as it is: 8 x 2.5 at the radio as written, 1.3 at the bench, 2 x 3.5 plugged in; 28.3 at 71.30, 9 x 0.61
    now = weighing.now
    assert (now.time_ms, now.money, now.cuts, now.joints, now.dash) == (1_698_000, 3363 + 549, 0, 9, 8)
    assert _chains(weighing, "amp.rem") == [
        "dash.6 > 5 m 18 AWG > amp.rem  # violet",
        "T1.unit.AMP-ON > 5 m 18 AWG > amp.rem  # violet",
        "dash.car.6 > 5 m 18 AWG > amp.rem  # violet",
        "dash.car.6 > 5 m 18 AWG > amp.rem  # violet",
        "A.unit.6 > 5 m 18 AWG > amp.rem  # violet",
    ]
    assert _figures(weighing)[:2] == [TAPPED[0], (1_698_000, 3363 + 549, 0, 9)]
    assert [each.as_planned for each in weighing.offers] == [False, True, False, False, False]
    # the joint is told with what the run leads to
    assert ("A.unit.6", "amp.rem") in [each.members for each in weighing.offers[4].joints]
    _all_right(weighing)


def test_a_lead_at_each_side_and_a_run_are_one_joint_with_a_row() -> None:
    weighing = weighed(_with_run(BOTH_SIDES, "T1.car.AMP-ON > 5 m 18 AWG > amp.rem"))
    # as it is: 9 x 2.5 at the radio, 2 x 3.5; the run counts in the joint at whose lead it begins; 29.5 min, 9 x 0.61
    assert (weighing.now.time_ms, weighing.now.money, weighing.now.joints) == (1_770_000, 3506 + 549, 9)
    same = weighing.offers[1]  # with AMP-ON joined at the bench: 8 x 2.5 + 1.3 + 7
    assert (same.figures.time_ms, same.figures.money, same.figures.joints) == (1_698_000, 3363 + 549, 9)
    assert "  - T1.car.AMP-ON > 5 m 18 AWG > amp.rem\n" in same.text
    assert "\n  crimp at the bench with heat shrink:\n    T1.unit.6: T1.car.6\n" in same.text
    assert "T1.unit.AMP-ON: T1.car.AMP-ON" not in same.text
    _all_right(weighing)


AMP2 = (
    "  amp2: {kind: amplifier, inputs: {in1: 2..20 V differential}, outputs: {out1: 60 W @ 4 ohm}, "
    "wakes: rem 20 mA}\nspeakers:\n"
)


def test_two_runs_and_a_row_at_one_wire_are_one_joint() -> None:
    text = BARE.replace("speakers:\n", AMP2)
    both = weighed(_with_run(text, "dash.AMP-ON > 5 m 18 AWG > amp.rem", "dash.6 > 3 m 18 AWG > amp2.rem"))
    assert _figures(both) == TAPPED
    assert _chains(both, "rem")[-2:] == ["A.unit.6 > 5 m 18 AWG > amp.rem", "A.unit.6 > 3 m 18 AWG > amp2.rem"]
    _all_right(both)
    row = text.replace("  crimp at", "  pierce at behind the radio:\n    dash.6: amp2.rem\n  crimp at")
    beside = weighed(_with_run(row, "dash.AMP-ON > 5 m 18 AWG > amp.rem"))
    assert _figures(beside)[:3] == TAPPED[:3]
    # a lead is joined where the job has none yet: at the bench
    assert _figures(beside)[3] == TAPPED[3]
    assert "    A.unit.6: amp2.rem\n" in beside.offers[3].text
    _all_right(beside)


WAYS = ("amp.rem > 5 m 18 AWG > {} > 3 m 18 AWG > amp2.rem  # both",
        "amp.rem > 2 m 18 AWG > fuse 1 A > 3 m 18 AWG > {} > fuse 1 A > 3 m 18 AWG > amp2.rem")  # fmt: skip


@pytest.mark.parametrize("chain", WAYS)
def test_a_run_that_goes_on_beyond_a_cavity_is_one_joint_on_its_way(chain: str) -> None:
    """Its two wires and the factory wire meet in the tap that the tapped car has: the same minutes and money."""
    text = _with_run(BARE.replace("speakers:\n", AMP2), chain.format("dash.AMP-ON"))
    weighing = weighed(text)
    assert not weighing.site.alone
    assert _figures(weighing) == TAPPED
    assert weighing.offers[0].text == text
    assert weighing.now == weighing.offers[0].figures
    for each, contact in zip(weighing.offers[1:], ("dash.car.6", "dash.car.6", "A.unit.6"), strict=True):
        assert f"  - {chain.format(contact)}\n" in each.text
    # what it leads to at both of its ends
    assert ("A.unit.6", "amp.rem", "amp2.rem") in [each.members for each in weighing.offers[3].joints]
    _all_right(weighing)


def test_a_run_from_one_plug_over_another_is_joined_at_both() -> None:
    """As from plug to plug, and on to the box: taken with two looms, each step of the chain is at its own."""
    text = FROM_PLUG_TO_PLUG.replace("terminals: [a]", "terminals: [a, b]")
    text = text.replace("p1.2 > 3 m 18 AWG > p2.1  # back", "p1.2 > 3 m 18 AWG > p2.1 > 2 m 18 AWG > box.b  # back")
    weighing = weighed(text, FEW_RATES)
    assert not weighing.site.alone
    # two looms: 4 x 1 plugged in, 3 x 2 at the bench, 3 of 6 leads capped; 13 at 60.00, 2 x 1.00, 3 x 0.50
    best = weighing.offers[0]
    assert (best.figures.time_ms, best.figures.money, best.figures.joints) == (780_000, 1650, 3)
    assert "\nruns:\n  - W.lead-2 > 3 m 18 AWG > W-2.unit.1 > 2 m 18 AWG > box.b  # back\n" in best.text
    assert all(agrees(each, weighing.rates) for each in weighing.offers)


@pytest.mark.parametrize("last", [False, True])
def test_a_run_of_a_pair_begins_at_a_pair(last: bool) -> None:
    """FL is laid from the plug to the amplifier, by the same crimps as in the row that it replaces."""
    old, new = ("dash.car.FL", "amp.out1") if last else ("dash.unit.FL", "amp.in1")
    chain = "amp.out1 > 5 m 18 AWG > {}  # long" if last else "{} > 5 m 18 AWG > amp.in1  # long"
    text = _with_run(JOB.replace(f"    {old}: {new}\n", ""), chain.format(old))
    weighing = weighed(text)
    assert _figures(weighing) == TAPPED
    side = "car" if last else "unit"
    for each, loom in zip(weighing.offers[1:], "DBA", strict=True):
        assert chain.format(f"{loom}.{side}.FL") in each.text
    _all_right(weighing)


LEFT_ALONE = {
    "amp.rem > dash.8 > 1 m 18 AWG > gnd.G1": "a run (line 45) joins dash cavity 8 (black, GND), car side with others",
    "amp.out1 > 1 m 18 AWG > dash.car.FL > 1 m 18 AWG > spk.FL": "a run (line 45) goes on beyond dash cavity 1 (brown",
    "dash.6 > 5 m 18 AWG > amp.rem dash.15": "a run (line 45) joins dash cavity 15 (pink, SWC), car side with others",
    "amp.out1 > 1 m 18 AWG > dash.car.FL reversed": "a run (line 45) is turned round at dash cavity 1 (brown, FL+)",
}


@pytest.mark.parametrize("chain", LEFT_ALONE)
def test_what_can_not_be_put_elsewhere_is_left_alone(chain: str) -> None:
    weighing = weighed(_with_run(BARE.replace("    dash.car.FL: amp.out1\n", ""), chain))
    assert [each.plug for each in weighing.site.alone] == ["dash"]
    assert weighing.site.alone[0].why.startswith(LEFT_ALONE[chain])
    assert not weighing.offers


# Two cavities that become one net, in one row or with their sides written out. By hand, minutes: 8 x 2.5, and 2.5 for a
# crimp on two wires that stay whole, which nothing can pierce at once; with A 8 x 1.3, the plug-ins, its wire from 6
# tapped onto the car's wire at 15 (2/3), a cap. Money: at 71.30 an hour, and parts 9 x (0.48 + 0.13);
# 41.35 + 8 x 0.48 + 0.90 + 9 x 0.13 + 0.23.
@pytest.mark.parametrize("row", ["dash.6: dash.15", "dash.car.6: dash.car.15"])
def test_two_cavities_of_a_side_meet_in_one_joint(row: str) -> None:
    weighing = weighed(BARE.replace("    dash.car.FR: amp.out2\n", f"    dash.car.FR: amp.out2\n    {row}\n"))
    first, last = weighing.offers[0], weighing.offers[-1]
    assert _figures(weighing)[0] == (1_350_000, 2674 + 549, 4, 9)
    assert _figures(weighing)[-1] == (1_129_000, 2236 + 4749, 0, 9)
    assert first.joints[-1].members == ("dash.6", "dash.15")
    assert last.joints[-1].members == ("dash.car.15", "A.unit.6")
    assert all(agrees(each, weighing.rates) for each in weighing.offers)
    assert "4 to open; one net of 6 and 15." in next(_must_connect(weighing))


def test_a_half_of_one_cavity_with_a_half_of_another() -> None:
    """Both are cut; the radio's 6 goes to the car's 15, and the other two ends are capped."""
    text = BARE.replace(
        "cut: [dash.FL, dash.FR]", "cut: [dash.FL, dash.FR, dash.6, dash.15]\ncapped: [dash.car.6, dash.unit.15]"
    )
    text = text.replace("    dash.car.FR: amp.out2\n", "    dash.car.FR: amp.out2\n    dash.unit.6: dash.car.15\n")
    weighing = weighed(text)
    assert next(_must_connect(weighing)).endswith("one net of unit 6 and car 15.")
    assert weighing.offers[0].joints[-1].members == ("dash.unit.6", "dash.car.15")


@pytest.mark.parametrize("chain", ["", "T1.unit.16 > 2 m 18 AWG > amp.rem"])
def test_a_cavity_charted_empty_that_the_plan_joins(chain: str) -> None:
    """By hand there is nothing to solder to, and no loom's lead may go missing without a word."""
    text = ON_LOOM.replace("      unit.6: AMP-ON", "      unit.16: AMP-ON")
    text = (
        _with_run(text, chain) if chain else text.replace("heat shrink:\n", "heat shrink:\n    T1.unit.16: amp.rem\n")
    )
    weighing = weighed(text)
    ((plug, why),) = weighing.site.alone
    assert (plug, weighing.offers) == ("dash", ())
    assert why == "dash cavity 16, unit side is charted empty, and the plan joins it: write what is there"


def test_a_net_of_two_plugs_is_left_alone() -> None:
    """No joint of one plug's mix is there to be chosen for it."""
    boot = "  boot:\n    place: boot floor\n    unit: radio\n    cavities: {1: AMP-ON BU/WH 0.5 mm2}\nunits:\n"
    text = BARE.replace("units:\n", boot, 1)
    weighing = weighed(text.replace("    dash.car.FR: amp.out2\n", "    dash.car.FR: amp.out2\n    dash.6: boot.1\n"))
    assert [each.plug for each in weighing.site.alone] == ["dash", "boot"]
    told = weighing.site.alone[0].why
    assert told.startswith("dash cavity 6 (blue with white stripe, AMP-ON), unit side and boot cavity 1"), told
    assert told.endswith("are one net, and a joint that serves two plugs isn't weighed")


def test_a_run_that_ends_in_another_line_is_told() -> None:
    weighing = weighed(_with_run(BARE, "amp.rem > 5 m 18 AWG\n    > dash.AMP-ON"))
    assert [each.as_planned for each in weighing.offers] == [True]
    assert any("a run goes on in other lines" in each.why for each in weighing.not_used)


def test_each_taken_is_as_clean_as_the_job_in_another_process(tmp_path: Path) -> None:
    text = _with_run(ON_LOOM, "T1.unit.AMP-ON > 5 m 18 AWG > amp.rem")
    (tmp_path / "job.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "shop.yaml").write_text(SHOP, encoding="utf-8")
    before = run("check", "job.yaml", where=tmp_path)
    for number in range(1, 6):
        name = f"taken-{number}.yaml"
        assert run("weigh", "job.yaml", "--take", str(number), "-o", name, where=tmp_path).returncode == 0
        after = run("check", name, where=tmp_path)
        assert after.returncode == before.returncode
        told = [line for line in after.stdout.splitlines() if line.startswith(("STOP", "FIX", "ASK"))]
        assert told == [line for line in before.stdout.splitlines() if line.startswith(("STOP", "FIX", "ASK"))]


PLUG = """\
  {}:
    place: {}
    housing: 4-way Z
    contacts: {{unit: pins, car: sockets}}
    unit: radio
    cavities: {{1: {} BN, 2: {} VT, 3: MUTE GN, 4: SWC RD}}
"""
FROM_PLUG_TO_PLUG = (
    JOB[: JOB.index("plugs:")]
    + "plugs:\n"
    + PLUG.format("p1", "behind the radio", "ILL", "AMP-ON")
    + PLUG.format("p2", "boot", "AMP-ON", "ILL")
    + "units:\n  radio: {kind: radio}\n  box: {kind: interface, terminals: [a]}\n"
    + "joints:\n  solder at boot:\n    p1.3: box.a\n"
    + "runs:\n  - p1.2 > 3 m 18 AWG > p2.1  # back\n"
)
FEW_RATES = """\
ringout: 1
dash: [radio]
drawer:
  looms:
    W:
      ends: {unit: {housing: 4-way Z, contacts: sockets}, car: {housing: 4-way Z, contacts: pins}}
      through: 1..4
      leads: {unit.1: unknown BU, lead-2: unit.2 unknown WH, unit.3: unknown GN}
      price: 1.00 EUR
rates:
  labour: 60.00 EUR
  consumables: 0.50 EUR
  mate: 1 min
  cap: 1 min
  joints: {crimp at boot: 12 min, crimp at dash: 13 min, crimp: 2 min, solder: 15 min, pierce: 14 min}
"""


def test_a_run_from_one_plug_to_another_is_joined_at_both() -> None:
    weighing = weighed(FROM_PLUG_TO_PLUG, FEW_RATES)
    assert not weighing.site.alone
    # as it is: soldered in 15 as written, crimped in the dash 13 and at the boot 12; 40 at 60.00, 3 x 0.50
    assert (weighing.now.time_ms, weighing.now.money, weighing.now.joints) == (2_400_000, 4150, 3)
    # two looms: 4 x 1 plugged in, 3 x 2 at the bench, 3 of 6 leads capped; 13 at 60.00, 2 x 1.00, 3 x 0.50
    best = weighing.offers[0]
    assert (best.figures.time_ms, best.figures.money, best.figures.joints) == (780_000, 1650, 3)
    assert "\nruns:\n  - W.lead-2 > 3 m 18 AWG > W-2.unit.1  # back\n" in best.text
    assert agrees(best, weighing.rates)
    again = weighed(best.text, FEW_RATES)
    assert again.now == best.figures
    assert [more.text for more in again.offers if more.as_planned] == [best.text]
