"""What is to be done again on the next car, against a list made by hand from the job's own lines."""

from __future__ import annotations

from harness.again.recheck import Recheck, rechecks
from harness.model.job import Car
from harness.place import Place
from tests.conftest import Wired

BODY = """\
car: {name: Fir, year: 2024, steering: left, audio: base, lacks: [SUB]}
plugs:
  dash:
    unit: radio
    ways: 14
    face: {rows: 2, columns: 7, view: wire, first: top left, count: across}
    source: {chart: sheet 1, covers: 2020..2023}
    cavities:
      1/8: FL WH WH/BK
      2/9: FR GY GY/BK
      3: ACC RD
      4: B+ YE
      5: GND BK
      6: AMP-ON BU/WH
      7: empty
      10/11: CAN OG/GN OG/BN
      12: unknown
  seat: {place: left seat, cavities: {1: ILL OG}}
units:
  radio: {kind: radio, outputs: {FL FR: btl 8.5 V clean step 31}}
  amp: {kind: amplifier, inputs: {in1: 2..20 V differential}, outputs: {out1: 50 W @ 4 ohm}, settings: a.set}
speakers:
  FL FR: {nominal: 4 ohm}
  FL-TW: {nominal: 4 ohm, capacitor: 4.7 uF}
found: [dash.FL > spk.FL spk.FL-TW]
features: {reverse tone: radio > spk.FL}
cut: [dash.FL]
joints:
  crimp: {dash.unit.FL: amp.in1, dash.car.FL: amp.out1, dash.6: amp.rem}
"""


def listed(wired: Wired, body: str = BODY, before: Car | None = None) -> list[Recheck]:
    return rechecks(wired(body), before)


def test_by_hand(wired: Wired) -> None:
    """Used: the pair FL (cut) and cavity 6 (tapped). Not charted: 12 and, of 14, 13 and 14. FR is only passed on."""
    made = [(each.kind, each.what) for each in listed(wired)]

    assert made == [
        ("car", "audio"), ("car", "lacks"),
        ("chart", "dash"), ("chart", "dash"), ("chart", "seat"), ("chart", "seat"),
        ("before", "reverse tone"),
        ("tone", "dash.1/8"),
        ("cut", "dash.1"), ("cut", "dash.8"),
        ("other", "dash.6"),
        ("volts", "radio.FL"), ("volts", "radio.FR"),
        ("settings", "amp"),
    ]  # fmt: skip


def test_words(wired: Wired) -> None:
    by_what = {(each.kind, each.what): each for each in listed(wired)}
    charts = [each for each in listed(wired) if each.what == "dash" and each.kind == "chart"]
    tone = by_what["tone", "dash.1/8"]

    assert charts[0].known == "the chart covers 2020 to 2023, and this car is of 2024"
    assert charts[1].known == "nothing is known of cavity 12, 13, 14"
    assert tone.known == "FL, + at 1, white and white with black stripe"
    # the tweeter behind its capacitor answers only its own tone
    assert "FL (500 Hz) and FL-TW (8.5 to 9.5 kHz) must answer" in tone.do
    assert by_what["cut", "dash.8"].known == "white with black stripe, FL−"
    assert "radio off and on" in by_what["other", "dash.6"].do
    assert by_what["volts", "radio.FL"].known == "8.5 V at step 31"
    # the line of `1/8:` in the job: 3 lines of head and 8 of the body before it, then itself
    assert tone.place.line == 3 + 9


def test_a_car_of_the_charted_years(wired: Wired) -> None:
    """Both ends count (A13); no year of the car is said as such."""
    inside = listed(wired, BODY.replace("year: 2024", "year: 2023"))
    silent = listed(wired, BODY.replace("year: 2024, ", ""))

    assert not any("covers" in each.known for each in inside)
    assert [each.known for each in silent if "covers" in each.known] == [
        "the chart covers 2020 to 2023, and the car's year isn't written"
    ]


def test_another_variant_is_told_first(wired: Wired) -> None:
    before = Car("Larch", "2022", "right", "eight-speaker", ("SUB",), Place("x", 1, 1))
    made = listed(wired, before=before)

    assert (made[0].kind, made[0].what, made[0].known) == ("car", "steering", "was right, is left")
    assert [(each.what, each.known) for each in made if each.kind == "car"][1:] == [
        ("audio", "was eight-speaker, is base"),
        ("lacks", "SUB"),
    ]


def test_ways_without_a_face(wired: Wired) -> None:
    """Of 14 ways 12 (unknown), 13 and 14 are silent; an output without a level has none to read again."""
    face = "    face: {rows: 2, columns: 7, view: wire, first: top left, count: across}\n"
    body = BODY.replace(face, "").replace("FL FR: btl 8.5 V clean step 31", "FL: btl 8.5 V clean step 31, FR: btl")
    made = listed(wired, body)

    assert "nothing is known of cavity 12, 13, 14" in [each.known for each in made if each.what == "dash"]
    assert [each.what for each in made if each.kind == "volts"] == ["radio.FL"]


def test_data_is_not_probed(wired: Wired) -> None:
    """A CAN pair that the plan taps: looked at and nothing else (trade notes: a pierced wire corrodes)."""
    body = BODY.replace("dash.6: amp.rem", "dash.6: amp.rem, dash.10: amp.CAN-H, dash.11: amp.CAN-L").replace(
        "settings: a.set", "settings: a.set, terminals: CAN"
    )
    made = {each.what: each.do for each in listed(wired, body) if each.kind == "other"}

    assert {"dash.10", "dash.11", "dash.6"} == set(made)
    assert "nothing pierced" in made["dash.10"]
    assert "olts" not in made["dash.11"]


def test_what_is_passed_on_is_left_out(wired: Wired) -> None:
    """ACC, B+ and GND of the plug are not touched by this plan."""
    made = {each.what for each in listed(wired)}

    assert made & {"dash.3", "dash.4", "dash.5", "dash.7", "dash.2/9"} == set()
