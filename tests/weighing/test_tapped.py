"""A car with a tap and a data pair, weighed by hand: what a job names by the cavity alone has two ends under a loom."""

from __future__ import annotations

from pathlib import Path

from harness.prove import prove_text
from harness.read.shop import read_shop_text
from harness.read.troubles import Troubles
from harness.weighing.choices import MOST_REFUSED
from harness.weighing.offers import Weighing, agrees, weigh

SAMPLES = Path(__file__).parents[2] / "samples"

JOB = """\
ringout: 1
title: Yew coupe, front amplifier
revision: A
car: {name: Yew coupe, year: 2021, steering: left, audio: base, ownership: leased, lacks: [SUB, C]}
plugs:
  dash:
    place: behind the radio
    housing: 16-way Q
    contacts: {unit: pins, car: sockets}
    unit: radio
    face: {rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}
    source: {chart: shop sheet 31, date: 2026-02-10, by: RK, covers: 2019..2022}
    cavities:
      1/9: FL BN BN/WH 0.75 mm2
      2/10: FR VT VT/WH 0.75 mm2
      12/4: RL GN GN/WH 0.75 mm2
      3/11: RR GY GY/WH 0.75 mm2
      5: ACC RD 0.75 mm2
      6: AMP-ON BU/WH 0.5 mm2
      7: B+ YE 1.5 mm2
      8: GND BK 1.5 mm2
      13/14: CAN OG/GN OG/BN 0.35 mm2 twisted
      15: SWC PK 0.35 mm2
      16: empty
units:
  radio: {kind: radio, outputs: {FL FR RL RR: btl 8 V clean step 31}, gives: {AMP-ON: 100 mA}}
  amp:
    kind: amplifier
    place: under the left seat
    inputs: {in1..2: 2..20 V differential}
    outputs: {out1..2: 60 W @ 4 ohm least 2 ohm}
    routes: {out1: in1, out2: in2}
    wakes: rem 20 mA
    leads: {in1: WH WH/BK 18 AWG, in2: GY GY/BK 18 AWG, rem: BU/WH 18 AWG}
speakers:
  FL FR RL RR: {nominal: 4 ohm}
cut: [dash.FL, dash.FR]
joints:
  crimp at behind the radio with heat shrink:
    dash.unit.FL: amp.in1
    dash.unit.FR: amp.in2
    dash.car.FL: amp.out1
    dash.car.FR: amp.out2
  pierce at behind the radio:
    dash.AMP-ON: amp.rem
grounds: {G1: {place: left seat crossmember, metal: bare}}
runs:
  - battery.+ > 12 in 8 AWG > fuse 30 A > 11 ft 8 AWG via bulkhead grommet > amp.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
"""

SHOP = """\
ringout: 1
title: Yew shop
as of: 2026-03-02
job date: 2026-03-05
dash: [radio]
drawer:
  looms:
    A:   # made for it
      ends: {unit: {housing: 16-way Q, contacts: sockets}, car: {housing: 16-way Q, contacts: pins}}
      through: 3..8 11..15
      leads:
        1/9: FL WH WH/BK 18 AWG
        2/10: FR GY GY/BK 18 AWG
        unit.6: AMP-ON BU/WH 18 AWG
        aerial: AERIAL BU 18 AWG
      price: 41.35 EUR
      stock: 0
      days: 2
    B:   # its data pair isn't passed
      ends: {unit: {housing: 16-way Q, contacts: sockets}, car: {housing: 16-way Q, contacts: pins}}
      through: 3..8 11 12 15
      leads:
        1/9: FL WH WH/BK 18 AWG
        2/10: FR GY GY/BK 18 AWG
        13/14: CAN OG OG/BN 22 AWG
      price: 27.90 EUR
      stock: 1
    C:   # all four channels opened
      ends: {unit: {housing: 16-way Q, contacts: sockets}, car: {housing: 16-way Q, contacts: pins}}
      through: 5..8 13..15
      leads:
        1/9: FL WH WH/BK 18 AWG
        2/10: FR GY GY/BK 18 AWG
        12/4: RL GN GN/BK 18 AWG
        3/11: RR VT VT/BK 18 AWG
      price: 33.05 EUR
      stock: 1
    D:   # of another car: AMP-ON and SWC exchanged
      ends: {unit: {housing: 16-way Q, contacts: sockets}, car: {housing: 16-way Q, contacts: pins}}
      through: 3..8 11..15
      leads:
        1/9: FL WH WH/BK 18 AWG
        2/10: FR GY GY/BK 18 AWG
      pins: {6: SWC, 15: AMP-ON}
      price: 9.99 EUR
      stock: 3
  parts:
    butt joint: {price: 0.37 EUR}
    heat shrink: {price: 0.11 EUR}
    cap: {price: 0.23 EUR}
    tap: {price: 0.90 EUR}
rates:
  labour: 71.30 EUR
  consumables: 0.13 EUR
  joints: {solder at dash: 7 min, solder: 5 min, crimp at dash: 2.5 min, crimp: 1.3 min, pierce: 40 s}
  mate: 3.5 min
  cut end off: 2 min
  pull: 2 min
  move: 1.7 min
  cap: 45 s
  recheck: {position: 20 s, lock: 35 s, tug: 25 s}
"""


def weighed(text: str, shop: str = SHOP) -> Weighing:
    held = read_shop_text(shop, "shop.yaml", Troubles())
    return weigh(prove_text(text, "job.yaml"), text, held)


def test_a_tap_named_by_its_cavity_is_written_anew_under_a_loom() -> None:
    # by hand, minutes: 8 x 2.5 + 2/3; 8 x 1.3 + 2/3 + 2 x 3.5 + 4 x (1.7 + 1/3 + 5/12) + 2 x 7/12;
    #                   10 x 1.3 + 2/3 + 7; 9 x 1.3 + 7 + 0.75
    # money: minutes at 71.30 an hour, and parts; 8 x (0.37 + 0.11) + 0.90 + 9 x 0.13 = 5.91; the same + 9.99;
    #        10 x 0.48 + 0.90 + 11 x 0.13 + 27.90; 9 x 0.48 + 9 x 0.13 + 0.23 + 41.35
    weighing = weighed(JOB)
    assert [(each.figures.time_ms, each.figures.money, each.figures.cuts) for each in weighing.offers] == [
        (1_240_000, 2456 + 591, 4),
        (1_742_000, 3450 + 1590, 0),
        (1_240_000, 2456 + 3503, 0),
        (1_167_000, 2311 + 4707, 0),
    ]
    assert weighing.offers[0].as_planned
    assert weighing.offers[0].text == JOB
    stepped = JOB + "steps:\n  - unplug: dash\n"  # which hold only for the way that the job has
    assert [each.text == stepped for each in weighed(stepped).offers] == [True, False, False, False]
    assert ["\n# steps:" in each.text for each in weighed(stepped).offers] == [False, True, True, True]
    assert not weighing.not_used
    assert all(agrees(each, weighing.rates) for each in weighing.offers)
    for each in weighing.offers[1:]:
        assert "dash.AMP-ON: amp.rem" not in each.text
    for each in weighing.offers:
        again = weighed(each.text)
        assert again.proof.report.verdict == "consistent-not-verified"
        assert [more.figures for more in again.offers if more.as_planned] == [each.figures]


def test_what_no_way_can_be_written_for_comes_to_an_end() -> None:
    """Joints on one line, one of them beside the plug: nothing can be put in by lines, however a loom is re-pinned."""
    text = (SAMPLES / "hatch-solder-in.yaml").read_text(encoding="utf-8").replace("[parts/", f"[{SAMPLES}/parts/")
    start, end = text.index("joints:\n"), text.index("runs:\n")
    rows = [line.strip() for line in text[start:end].splitlines()[2:] if line.strip()]
    one = f"joints: {{solder at behind the radio: {{{', '.join(rows)}}}, screw at boot: {{dsp.rem-out: bass.rem}}}}\n"
    text = text[:start] + one + text[end:].replace("  - dsp.rem-out > 5 m 18 AWG > bass.rem\n", "")
    shop = (SAMPLES / "shop.yaml").read_text(encoding="utf-8").replace("[parts/", f"[{SAMPLES}/parts/")
    weighing = weighed(text, shop.replace("maps: [parts, maps]\n", ""))
    assert not weighing.offers
    let_be = [each.what for each in weighing.not_used if each.why.startswith(f"{MOST_REFUSED} didn't pass")]
    assert "any other plug-in with flying leads at sound with L1" in let_be
    assert all("joints is written in one line" in each.why for each in weighing.not_used if each.what not in let_be)


def test_the_second_of_one_that_lies_there_is_waited_for() -> None:
    """Two plugs of one housing, one loom in stock: the other is nine days away, and the job is in three."""
    plug = (
        "  {}:\n    housing: 4-way Z\n    contacts: {{unit: pins, car: sockets}}\n    unit: radio\n"
        "    source: {{chart: sheet 3, date: 2026-02-10, by: RK, covers: 2019..2022}}\n"
        "    face: {{rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}}\n"
        "    cavities: {{1/2: {} BN BN/WH, 3/4: {} VT VT/WH}}\n"
    )
    text = (
        JOB[: JOB.index("plugs:")] + "plugs:\n" + plug.format("p1", "FL", "FR") + plug.format("p2", "RL", "RR")
        + "units:\n"
        "  radio: {kind: radio, outputs: {FL FR RL RR: btl 8 V clean step 31}}\n"
        "  amp: {kind: amplifier, inputs: {in1..4: 2..20 V differential}, outputs: {out1..4: 60 W @ 4 ohm},\n"
        "    routes: {out1: in1, out2: in2, out3: in3, out4: in4}, wakes: signal}\n"
        "speakers:\n  FL FR RL RR: {nominal: 4 ohm}\n"
        "cut: [p1.FL, p1.FR, p2.RL, p2.RR]\njoints:\n  crimp at boot with heat shrink:\n"
        "    p1.unit.FL: amp.in1\n    p1.unit.FR: amp.in2\n    p1.car.FL: amp.out1\n    p1.car.FR: amp.out2\n"
        "    p2.unit.RL: amp.in3\n    p2.unit.RR: amp.in4\n    p2.car.RL: amp.out3\n    p2.car.RR: amp.out4\n"
    )  # fmt: skip
    shop = (
        "ringout: 1\nas of: 2026-03-02\njob date: 2026-03-05\ndrawer:\n  looms:\n    W:\n"
        "      ends: {unit: {housing: 4-way Z, contacts: sockets}, car: {housing: 4-way Z, contacts: pins}}\n"
        "      leads: {1/2: unknown WH WH/BK, 3/4: unknown GY GY/BK}\n"
        "      price: 1.00 EUR\n      stock: 1\n      days: 9\n"
        "rates: {labour: 60.00 EUR, mate: 1 min, joints: {crimp at p2: 3 min, crimp at boot: 3 min, crimp: 2 min}}\n"
    )
    weighing = weighed(text, shop)
    both = next(each for each in weighing.offers if len(each.looms) == 2)
    assert [(each.late, each.days) for each in both.looms] == [(False, 0), (True, 9)]
    assert both.days == 9
    # 2026-03-02 and nine days
    assert [finding.message for finding in both.proof.report.findings if finding.code == "J09"] == [
        f"{both.looms[1].name} is not in stock and arrives 2026-03-11, the job is on 2026-03-05: 6 days too late."
    ]
