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
        # FL alone has its + at the other wire, and RL beside it
        ("A24/bad_one_pair", "All 4 tones agree; 1 speaks against it", "(FL 9/1; + first)"),
        ("A24/bad_two_pairs", "All 4 tones agree; 2 speak against it", "(FL 2/1, RL 6/5; + first)"),
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
    assert finding.message.endswith("Or it has a pair at the wrong place, which is the same here.")
    assert "Then correct the chart (FR 1/5, FL 2/6; + first), tone the used pairs" in finding.do


OR = "the tones speak against its chart ({}), which may be wrong in more than one way: {}; or {}.".format
MIRRORED = "it is read from the other side (in {} of 8, 1 and 8, 2 and 7, 3 and 6, 4 and 5{} change places)".format
LEAVE = "Cut and plug in nothing at dash before."


@pytest.mark.parametrize(
    ("fixture", "message", "do"),
    [
        # charted: FL white at 1, RL green at 9 below it. Where the rows are exchanged green stands at 1; where front is
        # written for rear the wires are where they were, and 1 is white
        ("bad_parted_by_colours",
         OR("1/2 charted FL, heard RL; 3/4 charted FR, heard RR; 9/10 charted RL, heard FL; 1 more",
            "two of its rows are exchanged (the two rows change places: 1 and 9, 2 and 10, 3 and 11, 4 and 12 …)",
            "it has front for rear (FL and RL, FR and RR change places)"),
         ("No tone parts them, the colours do. Look at cavity 1: green if two of its rows are exchanged, white if it "
          f"has front for rear. {LEAVE}")),
        # charted: B+ at 3 of 8 and GND at 4, nothing at 5 and 6. From the other side 3 is 6
        ("bad_parted_by_a_feed",
         OR("1/2 charted FL, heard FR; 8/7 charted FR, heard FL", MIRRORED("the row", ""),
            "it has left for right (FL and FR change places)"),
         ("No tone that may be put on these wires parts them. Look at cavity 6 and meter it to ground: B+ if it is "
          f"read from the other side, nothing charted if it has left for right. {LEAVE}")),
        # FR is charted at 3/4 and RL at 5/6: from the other side 5/6 is 4/3
        ("bad_one_tone",
         OR("1/2 charted FL, heard RR", MIRRORED("the row", ""),
            "it has a pair at the wrong place (RR and FL change places)"),
         ("Tone 4/3 next: RL answers if it is read from the other side; FR answers if it has a pair at the wrong "
          f"place. If one of these is right, at most 3 more tones tell which. {LEAVE}")),
        # RL is charted at 12/4, + first: 13/5 from the other side of each row, 5/13 (17 less each) half turned
        ("bad_silence_only",
         OR("1/9 charted FL, nothing heard; 2/10 charted FR, nothing heard", MIRRORED("rows", " …"),
            "it is turned half round (1 and 16, 2 and 15, 3 and 14, 4 and 13 … change places)"),
         ("See that the tone reaches these wires. Tone 13/5 next: RL answers, + at 13, if it is read from the other "
          "side; RL answers, + at 5, if it is turned half round. If one of these is right, at most 2 more tones tell "
          f"which. {LEAVE}")),
    ],
)  # fmt: skip
def test_what_parts_two_readings(fixture: str, message: str, do: str) -> None:
    report = prove(FOLDER / f"A25/{fixture}.yaml", mends=False).report
    (finding,) = (each for each in report.findings if each.code == "A25")
    assert finding.message == f"dash: {message}"
    assert finding.do == do


@pytest.mark.parametrize(
    ("fixture", "cavities"),
    [
        # the pairs that the tones move, from where to where; where nothing explains the tones every pair
        ("A23/bad_two_of_four", "1 9 3 11"), ("A24/bad_one_pair", "1 9"), ("A08/bad_another_order", "1 2 3 4 5 6 7 8"),
    ],
)  # fmt: skip
def test_which_wires_a_wrong_chart_is_about(fixture: str, cavities: str) -> None:
    report = prove(FOLDER / f"{fixture}.yaml", mends=False).report
    (finding,) = (each for each in report.findings if each.code == fixture[:3])
    assert set(finding.about) == {f"dash.{half}.{at}" for half in ("unit", "car") for at in cavities.split()}
