"""The gain card against hand sums: V = sqrt(P R), the tone inside the band, what isn't written said as such."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.planning.gain_card import GainLine, gain_card
from harness.prove import prove
from tests.conftest import Wired

SAMPLES = Path(__file__).parents[2] / "samples"

JOB = """
units:
  radio: {{kind: radio, outputs: {{FL: {source}}}}}
  amp:
    kind: amplifier
    inputs: {{in1: 0.2..8 V}}
    outputs: {{out1: {output}}}
    routes: {{out1: "in1{band}"}}
speakers: {{FL: {{place: door, nominal: {nominal}}}}}
joints:
  solder at the seat with heat shrink:
    radio.FL: amp.in1
    amp.out1: spk.FL
"""


def line(
    wired: Wired, source: str = "4 V", output: str = "50 W @ 4 ohm", band: str = "", nominal: str = "4 ohm"
) -> GainLine:
    (made,) = gain_card(wired(JOB.format(source=source, output=output, band=band and f" {band}", nominal=nominal)))
    return made


# sqrt(50 * 4) = 14.14; sqrt(110 * 4) = 20.98, a trade page's example of 110 W at 4 ohm; sqrt(18 * 4) = 8.485, a
# workshop manual's 8.5 V; 50 W at 4 ohm into 2 ohm: sqrt(50 * 2) = 10; into 8 ohm no more than at 4
@pytest.mark.parametrize(
    ("output", "nominal", "volts"),
    [
        ("50 W @ 4 ohm", "4 ohm", 14.142), ("110 W @ 4 ohm", "4 ohm", 20.976), ("18 W @ 4 ohm", "4 ohm", 8.485),
        ("50 W @ 4 ohm", "2 ohm", 10.0), ("50 W @ 4 ohm", "8 ohm", 14.142),
    ],
)  # fmt: skip
def test_the_volts_to_read(wired: Wired, output: str, nominal: str, volts: float) -> None:
    assert line(wired, output=output, nominal=nominal).target_v == pytest.approx(volts, abs=1e-3)


# 1 kHz lies inside 80 to 20,000 Hz; 50 Hz inside 20 to 80; 5 kHz inside 3 to 20 kHz; common practice, no source
@pytest.mark.parametrize(("band", "hz"), [("80..20000 Hz", 1000), ("..80 Hz", 50), ("3000..20000 Hz", 5000)])
def test_the_tone_lies_in_the_band(wired: Wired, band: str, hz: float) -> None:
    assert line(wired, band=band).tone_hz == hz


def test_the_source_stands_with_its_last_clean_step(wired: Wired) -> None:
    (clean,) = line(wired, source="4 V step 31 of 40 clean").sources
    assert (clean.name, clean.clean_step, clean.steps) == ("radio.FL", 31, 40)
    (read,) = line(wired, source="4 V step 25 of 40").sources
    assert (read.clean_step, read.read_step) == (None, 25)
    (fixed,) = line(wired, source="4 V fixed").sources
    assert fixed.fixed


@pytest.mark.parametrize(("output", "nominal", "word"), [("8 V", "4 ohm", "watts"), ("50 W @ 4 ohm", "unknown", "FL")])
def test_no_target_where_the_rating_or_the_ohms_are_not_written(
    wired: Wired, output: str, nominal: str, word: str
) -> None:
    made = line(wired, output=output, nominal=nominal)
    assert made.target_v is None
    assert word in made.missing


def test_a_bridge_reads_twice_the_volts_of_one_half() -> None:
    """The van: 180 W at 2 ohm a half, 360 W at 4 bridged: sqrt(360 * 4) = 37.95 V."""
    wiring = prove(SAMPLES / "van-odd-but-right.yaml", mends=False).wiring
    assert wiring is not None
    bass = next(each for each in gain_card(wiring) if each.load.bridged)
    assert bass.target_v == pytest.approx(37.947, abs=1e-3)
    assert bass.rated is not None
    assert bass.rated.power_w == pytest.approx(360)


def test_a_radio_has_no_gain_to_set(wired: Wired) -> None:
    text = """
units: {radio: {kind: radio, outputs: {FL: 18 W @ 4 ohm btl}}}
speakers: {FL: {place: door, nominal: 4 ohm}}
joints:
  solder at the seat with heat shrink: {radio.FL: spk.FL}
"""
    assert gain_card(wired(text)) == ()
