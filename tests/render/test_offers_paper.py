"""What a weighing prints, for the sample's car: the figures by hand from samples/shop.yaml.

Full solder-in: 16 crimps behind the radio at 2.5 min are 40 min, at 84.00 EUR an hour 56.00; 16 butt joints at 0.35,
16 pieces of heat shrink at 0.15 and 16 times 0.10 consumables are 9.60; together 65.60. The loom T1: 16 crimps at
1.5 min and two times 3 min to plug in are 30 min, 42.00; 58.00 for the loom and 9.60 make 109.60.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from harness.prove import prove, prove_text
from harness.read.shop import read_shop
from harness.read.troubles import Troubles
from harness.weighing.offers import Weighing, weigh
from render.blocks import Bars, Masthead
from render.offers import comparison, quote
from render.offers.paper import paper
from render.writers.text import write_text
from tests.weighing.test_begun import BARE
from tests.weighing.test_tapped import weighed as weighed_text

ROOT = Path(__file__).resolve().parents[2]
JOB = ROOT / "samples" / "hatch-plug-in.yaml"
HEAD = Masthead("Job", "", "", "", "", "", "")


@cache
def weighed() -> Weighing:
    troubles = Troubles()
    shop = read_shop(JOB.with_name("shop.yaml"), troubles)
    assert not troubles.findings
    return weigh(prove(JOB, mends=False), JOB.read_text(encoding="utf-8"), shop)


def number_of(name: str) -> int:
    return next(at for at, offer in enumerate(weighed().offers) if offer.name == name)


def plain(text: str) -> str:
    return " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())


def test_every_offer_has_its_bar_and_its_row() -> None:
    first = comparison.sheets(weighed())[0]
    (bars,) = (block for block in first.blocks if isinstance(block, Bars))
    assert len(bars.bars) == len(weighed().offers)
    solder = bars.bars[number_of("full solder-in")]
    assert solder.amounts == (56.0, 9.6)
    assert plain(solder.words) == "65.60 EUR, 40 min, 8 wires cut"
    loom = next(bar for bar, offer in zip(bars.bars, weighed().offers, strict=True) if offer.as_planned)
    assert plain(loom.words) == "109.60 EUR, 30 min, 0 wires cut"
    text = plain(write_text([first], HEAD))
    assert "as the job has it" in text
    # all by hand costs 65.60; with the loom's work and parts at 51.60 without it, it pays up to 14.00
    assert "14.00 EUR" in text
    assert "The choice is yours." in text


def test_the_comparison_is_one_page(tmp_path: Path) -> None:
    import pypdf

    paper(weighed(), tmp_path)
    pages = [page.extract_text() for page in pypdf.PdfReader(tmp_path / "packet.pdf").pages]
    assert sum("Plug in or solder in" in page for page in pages) == 1
    assert (tmp_path / "comparison-1.svg").is_file()


def test_a_quote_adds_up_and_says_what_is_not_in_it() -> None:
    offer = weighed().offers[number_of("full solder-in")]
    text = plain(write_text([quote.sheet(weighed(), offer)], HEAD))
    for words in (
        "crimp at behind the radio, brown block 16 40 min", "labour 40 min", "butt joint 16 5.60 EUR",
        "heat shrink 16 2.40 EUR", "consumables 16 1.60 EUR", "labour 56.00 EUR", "parts 9.60 EUR", "sum 65.60 EUR",
        "8 factory wires are cut for it", "The units dsp, bass, block", "The speakers SUB", "The 8 runs of the plan",
    ):  # fmt: skip
        assert words in text, words


def test_no_wire_cut_no_caution() -> None:
    offer = next(offer for offer in weighed().offers if not offer.figures.cuts)
    assert "CAUTION" not in write_text([quote.sheet(weighed(), offer)], HEAD)


def test_without_a_shop_defaults_are_named_as_such() -> None:
    made = weigh(prove(JOB, mends=False), JOB.read_text(encoding="utf-8"), None)
    text = plain(write_text(comparison.sheets(made), HEAD))
    assert "Defaults, not this shop's figures" in text
    # a survey of about fifty installers, trade press 2013: 77.50 dollars an hour
    assert "77.50 USD an hour" in text
    assert "no shop file" in text


def test_the_same_bytes_twice(tmp_path: Path) -> None:
    for name in ("one", "two"):
        paper(weighed(), tmp_path / name, 1)
    names = sorted(path.name for path in (tmp_path / "one").iterdir())
    assert names
    for name in names:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


@pytest.mark.parametrize("number", [1, 2])
def test_an_offer_taken_brings_quote_parts_and_cut_list(tmp_path: Path, number: int) -> None:
    paper(weighed(), tmp_path, number)
    text = (tmp_path / "packet.txt").read_text(encoding="utf-8")
    for title in ("Plug in or solder in", "Reasons, mix by mix", "Quote", "Parts check-off", "Cut list", "Basis"):
        assert f"\n{title}" in text, title
    words = " ".join(text.split())  # the usual cautions, as on the cover of a job's packet
    for caution in ("Restraint wiring", "High voltage", "Battery: negative off", "Fuses: out until", "Hearing: every"):
        assert caution in words, caution


def weighed_sample(name: str, old: str = "", new: str = "") -> Weighing:
    job = ROOT / "samples" / name
    text = job.read_text(encoding="utf-8").replace(old, new, 1) if old else job.read_text(encoding="utf-8")
    return weigh(prove_text(text, str(job)), text, read_shop(job.with_name("shop.yaml"), Troubles()))


def test_a_loom_without_a_price_is_not_said_to_cost_nothing() -> None:
    """The estate's T2 has no price in the file: 48 min at 84.00 an hour are 67.20, the rest is for 28 joints."""
    text = plain(write_text(comparison.sheets(weighed_sample("estate-bus-amplifier.yaml")), HEAD))
    assert "costs 0.00" not in text
    assert "84.00 EUR and loom T2 without a price" in text


def test_why_nothing_is_offered() -> None:
    """The van's one plug that the plan uses, where a cable of ours begins at two leads at once, is left as it is."""
    step = ("  - T7.car.B+ >", "  - T7.car.B+ T7.car.8 >")
    text = plain(write_text(comparison.sheets(weighed_sample("van-odd-but-right.yaml", *step)), HEAD))
    assert "There is no factory plug to weigh" in text
    assert "Left as it is: bulkhead;" in text
    assert "passes the checks" not in text


def test_a_loom_of_the_job_is_named_as_the_drawer_has_it_too() -> None:
    """The job's own T1 is the drawer's L1; the table says L1, the job T1."""
    text = plain(write_text(comparison.sheets(weighed()), HEAD))
    assert "T1 (L1 of the drawer): unit and car end at sound" in text


def test_the_parts_have_the_joint_of_a_run_as_the_quote_counts_it(tmp_path: Path) -> None:
    """The tapped car, its turn-on wire a run: by hand eight crimps and a tap; with loom A, the last, nine crimps of
    which one joins the run to its lead.
    """
    job = BARE.replace("runs:\n", "runs:\n  - dash.AMP-ON > 3 m 18 AWG > amp.rem\n")
    made = weighed_text(job)
    for number, quoted, listed in (
        (1, "heat shrink 8", ("heat shrink: 8", "1 no cover wanted; where a run is joined")),
        (len(made.offers), "heat shrink 9", ("heat shrink: 8", "heat shrink: 1; where a run is joined")),
    ):
        paper(made, tmp_path / str(number), number)
        text = plain((tmp_path / str(number) / "packet.txt").read_text(encoding="utf-8"))
        assert quoted in text
        for words in listed:
            assert words in text, words
