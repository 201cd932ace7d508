"""Charts that tones speak for or against: one check at a time on a small job and its records, read off by hand.

No outside source: the rules are those that `ringout explain` prints of each code.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove
from tests.checks.alone import recorded
from tests.checks.marks import FOLDER
from tests.checks.test_alone_records import FL, FR, JOB, RL

AGAIN = " Radio unplugged, tone it at dash and record which speaker answers."


@pytest.mark.parametrize(
    ("records", "do"),
    [
        ((FR, RL), AGAIN.strip()),
        # it answered once, and the last tone doesn't say what did; where it says that nothing does, J30 tells it
        ((FL, FR, RL, "tone: dash.car.1/5, charted: FL"),
         f"1/5 no speaker answered: write down which speaker answers, `none` where none does.{AGAIN}"),
        # it never did: nobody had toned it, or FL answered another pair then
        ((FR, RL, "tone: dash.car.1/5, charted: FL, heard: nothing"),
         f"1/5 charted FL, heard nothing: correct the chart first.{AGAIN}"),
        (("tone: dash.car.2/6, charted: FR, heard: FL", FR, RL, "tone: dash.car.1/5, charted: FL, heard: nothing"),
         f"1/5 charted FL, heard nothing: correct the chart first.{AGAIN}"),
        # another answers now
        ((FL, FR, RL, "tone: dash.car.1/5, charted: FL, heard: RR"),
         f"1/5 charted FL, heard RR: correct the chart first.{AGAIN}"),
        # it answers, and another beside it; it answers with its + on the other wire
        ((FR, RL, "tone: dash.car.1/5, charted: FL, heard: FL RR"),
         ("1/5 charted FL, heard FL RR: find first what joins these pairs, a joint of the car or wires that touch, and "
         f"write it under `found`.{AGAIN}")),
        ((FR, RL, "tone: dash.car.1/5, charted: FL, heard: FL, plus: 5"),
         ("1/5 charted + 1, found + 5: find out first whether the speaker is turned or the chart is wrong."
         f"{AGAIN}")),
        # two that say different things: the chart comes first
        ((RL, "tone: dash.car.1/5, charted: FL, heard: none", "tone: dash.car.2/6, charted: FR, heard: RR"),
         ("1/5 charted FL, heard none; 2/6 charted FR, heard RR: correct the chart first."
         f"{AGAIN.replace('tone it', 'tone each')}")),
        ((RL, "tone: dash.car.1/5, charted: FL, heard: FL, plus: 5", "tone: dash.car.2/6, charted: FR, heard: FR RR"),
         ("1/5 charted + 1, found + 5; 2/6 charted FR, heard FR RR: find first what joins these pairs, a joint of the "
         f"car or wires that touch, and write it under `found`.{AGAIN.replace('tone it', 'tone each')}")),
    ],
)  # fmt: skip
def test_what_comes_before_the_next_tone(tmp_path: Path, records: tuple[str, ...], do: str) -> None:
    (finding,) = recorded(tmp_path, "A14", records, JOB)
    assert finding.do == (f"The car says otherwise at {do}" if len(records) > 2 else do)


ONE_TONE = (FOLDER / "A25/bad_one_tone.yaml").read_text(encoding="utf-8")
TWO_READINGS = "it is read from the other side"


@pytest.mark.parametrize(
    ("tones", "start", "do"),
    [
        # + where RR has it, as the two pairs are exchanged, or the row mirrored: told by who answered, not by its +
        (("1/2, heard: RR, plus: 1",), "(1/2 charted FL, heard RR). One way alone explains them, it has a pair at",
         ""),
        (("1/2, heard: RR, plus: 2",), f"(1/2 charted FL, heard RR). One way alone explains them, {TWO_READINGS}", ""),
        # two wires of two pairs; all silent, of which three are said
        (("1/3, heard: RR",), "(1/3 charted as no pair, heard RR), and they are too few",
         "Tone 1/3 once more, then other pairs of dash"),
        (("1/2, heard: none", "3/4, heard: none", "5/6, heard: none"),
         "(1/2 charted FL, nothing heard; 3/4 charted FR, nothing heard; 5/6 charted RL, nothing heard), and",
         "See that the tone reaches these wires. Tone 1/2 and 3/4 and 5/6 once more, then"),
        (("1/2, heard: none", "3/4, heard: none", "5/6, heard: none", "7/8, heard: none"),
         "(1/2 charted FL, nothing heard; 3/4 charted FR, nothing heard; 5/6 charted RL, nothing heard; 1 more), and",
         "See that the tone reaches these wires. Tone 1/2 and 3/4 and 5/6 once more, then"),
    ],
)  # fmt: skip
def test_tones_that_are_too_few(tmp_path: Path, tones: tuple[str, ...], start: str, do: str) -> None:
    records = tuple(f"tone: dash.car.{tone}, unplugged: dash" for tone in tones)
    (finding,) = recorded(tmp_path, "A25", records, ONE_TONE)
    assert finding.message.startswith(f"dash: the tones speak against its chart {start}")
    assert finding.do.startswith(do)
    assert [spot.place.line for spot in finding.places[1:]] == list(range(1, len(tones) + 1))


@pytest.mark.parametrize(
    ("fixture", "agree", "rows"),
    [
        # FL and RR answer at each other's cavities; FL alone answers elsewhere, at 5/13; all stand half a turn away
        ("A23/bad_two_of_four", "All 4 tones agree; 2 speak against it", "(FL 3/11, RR 1/9; + first)"),
        ("A23/bad_at_free_cavities", "All 5 tones agree; 2 speak against it", "(FL 5/13; + first)"),
        ("A20/bad_two_rows", "All 4 tones agree; 4 speak against it", "(FL 16/15, FR 14/13, RL 8/7, RR 6/5; + first)"),
    ],
)
def test_which_rows_of_a_chart_are_corrected(fixture: str, agree: str, rows: str) -> None:
    """Those that the tones move, and no others; how many tones there are is counted in the evidence beside it."""
    report = prove(FOLDER / f"{fixture}.yaml", mends=False).report
    (finding,) = (each for each in report.findings if each.code == fixture[:3])
    assert f". {agree} as written" in finding.message
    assert f"Then correct the chart {rows}, tone the used pairs" in finding.do


def test_two_pairs_at_each_others_place(tmp_path: Path) -> None:
    """A chart of two pairs, both toned: FL answers where FR is charted and the other way round."""
    job = JOB.replace("      3/7: RL GN GN/BK\n", "").replace("FL FR RL", "FL FR").replace(", dash.RL]", "]")
    job = job.replace(", out3: in3", "").replace("    dash.unit.RL: amp.in3\n", "").replace(
        "    dash.car.RL: amp.out3\n", "")  # fmt: skip
    tones = (
        "tone: dash.car.1/5, charted: FL, heard: FR, plus: 1",
        "tone: dash.car.2/6, charted: FR, heard: FL, plus: 2",
    )
    (finding,) = recorded(tmp_path, "A21", tones, job)
    assert "(FL and FR change places). Both tones agree; 2 speak against it as written, and" in finding.message
    assert "Then correct the chart (FR 1/5, FL 2/6; + first), tone the used pairs" in finding.do


def test_colours_part_two_readings() -> None:
    """Charted: FL white at 1, RL green at 9 below it. Where the rows are exchanged green stands at 1; where front is
    written for rear the wires are where they were, and 1 is white.
    """
    report = prove(FOLDER / "A25/bad_parted_by_colours.yaml", mends=False).report
    (finding,) = (each for each in report.findings if each.code == "A25")
    assert finding.do == (
        "No tone parts them, the colours do. Look at cavity 1: green if two of its rows are exchanged, white if it has "
        "front for rear. Cut and plug in nothing at dash before."
    )
