"""From the job and its evidence file to a told chart: cavities without rows, words for what was heard."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.finding import Finding
from harness.prove import Proof, prove

ROW = "face: {rows: 1, columns: 8, view: wire, latch: top, first: top left, count: across}"
FOUR = "{1/2: FL, 3/4: FR, 5/6: RL, 7/8: RR}"


def proof_of(folder: Path, cavities: str, tones: list[str], face: str = ROW, more: str = "", found: str = "") -> Proof:
    """A job of one plug, and a record for each `1/2 heard: FL, plus: 1`."""
    job = folder / "car.yaml"
    job.write_text(
        f"ringout: 1\ntitle: One plug\nplugs:\n  dash:\n    unit: radio\n    {face}\n    cavities: {cavities}\n{more}"
        f"units: {{radio: {{kind: radio}}}}\nspeakers:\n  FL FR RL RR FL-TW: {{nominal: 4 ohm}}\n{found}",
        encoding="utf-8",
    )
    lines = [
        f"- {{when: 2026-03-02 09:{k:02d}, by: JM, tone: dash.car.{each.replace(' ', ', ', 1)}, unplugged: dash}}\n"
        for k, each in enumerate(tones)
    ]
    (folder / "car.evidence.yaml").write_text("".join(lines), encoding="utf-8")
    return prove(job)


def told(proof: Proof) -> list[Finding]:
    codes = ("A02", "A03", "A04", "A08", "A12", "A20", "A21", "A22", "A23", "A24", "A25")
    assert proof.wiring is not None, proof.report.findings
    return [each for each in proof.report.findings if each.code in codes]


MIRRORED = ["8/7 heard: FL, plus: 8", "6/5 heard: FR, plus: 6", "4/3 heard: RL, plus: 4"]


def test_cavities_without_a_row_are_toned_too(tmp_path: Path) -> None:
    """Of a chart with two rows the mirrored pairs lie at cavities that nobody wrote."""
    (found,) = told(proof_of(tmp_path, "{1/2: FL, 3/4: FR}", MIRRORED[:2]))
    assert found.code == "A02"
    assert [edit.new.strip() for edit in found.mend.edits if found.mend] == ["cavities: {8/7: FL, 6/5: FR}"]  # type: ignore[union-attr]


def test_the_message_says_which_cavities_change_places(tmp_path: Path) -> None:
    """A row of eight: four swaps, each told once. Of twelve the first four are told."""
    (found,) = told(proof_of(tmp_path, FOUR, MIRRORED))
    assert "in the row of 8, 1 and 8, 2 and 7, 3 and 6, 4 and 5 change places" in found.message
    face = ROW.replace("columns: 8", "columns: 12")
    tones = ["12/11 heard: FL, plus: 12", "10/9 heard: FR, plus: 10", "8/7 heard: RL, plus: 8"]
    (found,) = told(proof_of(tmp_path, FOUR, tones, face=face))
    assert "in the row of 12, 1 and 12, 2 and 11, 3 and 10, 4 and 9 … change places" in found.message


def test_cavities_that_the_face_has_not_are_left_aside(tmp_path: Path) -> None:
    proof = proof_of(tmp_path, "{1/2: FL, 3/4: FR}", ["9/10 heard: FL", "8/x heard: FR"])
    assert proof.job is not None
    assert not proof.job.off_chart
    assert not told(proof)


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ("1/2 heard: shelf", "“shelf” is no channel"),
        ("1/2 charted: FL", "its record has no `heard`"),
        ("1/2 heard: FL, plus: 5", "its `plus` is 5, which is neither of the two: + counts as not found"),
    ],
)
def test_what_says_nothing_of_the_chart_is_listed(said: str, why: str, tmp_path: Path) -> None:
    proof = proof_of(tmp_path, FOUR, [said])
    assert not told(proof)
    assert ("what the tone of dash 1/2 says of the chart", why) in [tuple(each) for each in proof.report.unchecked]


def test_silence_is_written_as_none(tmp_path: Path) -> None:
    """Two charted pairs silent and none heard: the chart is in doubt; one silent and three heard: it isn't."""
    two = told(proof_of(tmp_path, FOUR, ["1/2 heard: none", "3/4 heard: none"]))
    assert [each.code for each in two] == ["A25"]
    heard = ["1/2 heard: none", "3/4 heard: FR, plus: 3", "5/6 heard: RL, plus: 5", "7/8 heard: RR, plus: 7"]
    assert not told(proof_of(tmp_path, FOUR, heard))


def test_drivers_of_a_channel_are_the_channel_where_the_chart_has_no_other(tmp_path: Path) -> None:
    """The tweeter heard at the pair of its channel, and a channel's name heard at the pair of its woofer."""
    assert not told(proof_of(tmp_path, FOUR, ["1/2 heard: FL-TW, plus: 1"]))
    assert not told(proof_of(tmp_path, FOUR, ["1/2 heard: FL FL-TW, plus: 1"]))
    assert not told(proof_of(tmp_path, "{1/2: FL-WF, 3/4: FR}", ["1/2 heard: FL, plus: 1"]))
    # but where the tweeter has a pair of its own it was heard at the wrong one
    assert told(proof_of(tmp_path, "{1/2: FL, 3/4: FL-TW, 5/6: FR}", ["1/2 heard: FL-TW", "3/4 heard: FL"]))


# 9 kHz moves tweeters alone, 500 Hz no tweeter need answer (a workshop's tones, quoted in the trade)
def test_silence_at_a_tone_that_nothing_there_must_answer_says_nothing(tmp_path: Path) -> None:
    for signal, codes in (("9 kHz", []), ("500 Hz", ["A25"])):
        silent = [f"{pair} heard: none, signal: {signal}" for pair in ("1/2", "3/4")]
        assert [each.code for each in told(proof_of(tmp_path, FOUR, silent))] == codes


def test_at_cavities_without_a_pair_either(tmp_path: Path) -> None:
    """Mirrored: FL lies at 8/7, which the chart leaves out. That nothing answers 9 kHz there speaks not against it."""
    seen = {}
    for signal in ("9 kHz", "500 Hz", ""):
        silent = f"8/7 heard: none{f', signal: {signal}' if signal else ''}"
        tones = [silent, "6/5 heard: FR, plus: 6", "4/3 heard: RL, plus: 4"]
        seen[signal] = [each.code for each in told(proof_of(tmp_path, "{1/2: FL, 3/4: FR, 5/6: RL}", tones))]
    assert seen["9 kHz"] != seen["500 Hz"] == seen[""]
    without = proof_of(tmp_path, "{1/2: FL, 3/4: FR, 5/6: RL}", ["6/5 heard: FR, plus: 6", "4/3 heard: RL, plus: 4"])
    assert seen["9 kHz"] == [each.code for each in told(without)]


def test_a_silent_tweeter_is_no_wrong_chart(tmp_path: Path) -> None:
    """Both front pairs answer 500 Hz where the chart has them; that their tweeters are dead says nothing of it."""
    both = "found:\n  - dash.FL > spk.FL spk.FL-TW\n  - dash.FR > spk.FR spk.RL\n"
    low = ["1/2 heard: FL, signal: 500 Hz", "3/4 heard: FR RL, signal: 500 Hz"]
    high = ["1/2 heard: none, signal: noise", "3/4 heard: none, signal: noise"]
    tweeter = ["1/2 heard: none, signal: 9 kHz", "3/4 heard: none, signal: 9 kHz"]
    assert not told(proof_of(tmp_path, "{1/2: FL, 3/4: FR}", [*low, *tweeter], found=both))
    # nor does it where noise moves nothing any more: both answered before, so something went since (J30)
    silent = proof_of(tmp_path, "{1/2: FL, 3/4: FR}", [*low, *high], found=both)
    assert not told(silent)
    assert [each.code for each in silent.report.findings if each.code == "J30"] == ["J30", "J30"]
    # silent from the first tone on they speak against the chart
    assert told(proof_of(tmp_path, "{1/2: FL, 3/4: FR}", high, found=both))


def test_a_channel_means_the_driver_that_the_tone_moves(tmp_path: Path) -> None:
    """Woofer and tweeter on pairs of their own: left front heard at 9 kHz is the tweeter, not at the woofer's pair."""
    cavities = "{1/2: FL-WF, 3/4: FL-TW, 5/6: FR}"
    assert not told(proof_of(tmp_path, cavities, ["3/4 heard: FL, signal: 9 kHz", "1/2 heard: FL, signal: 50 Hz"]))
    assert told(proof_of(tmp_path, cavities, ["1/2 heard: FL, signal: 9 kHz", "3/4 heard: FL, signal: 50 Hz"]))


def test_speakers_that_the_car_has_on_a_pair_answer_for_it(tmp_path: Path) -> None:
    """The car's wiring as written has FL's tweeter on the pair RL, an odd car: heard there it is right."""
    cavities = "{1/2: FL, 3/4: FR, 5/6: RL, 7/8: FL-TW}"
    odd = "found:\n  - dash.RL > spk.RL spk.RR\n"
    assert not told(proof_of(tmp_path, cavities, ["5/6 heard: RR, plus: 5"], found=odd))
    assert told(proof_of(tmp_path, cavities, ["5/6 heard: RR, plus: 5"]))


def test_numbers_with_noughts_in_front_are_the_same_cavities(tmp_path: Path) -> None:
    cavities = "{01/02: FL, 03/04: FR, 05/06: RL, 07/08: RR}"
    tones = ["08/07 heard: FL, plus: 08", "06/05 heard: FR, plus: 06", "04/03 heard: RL, plus: 04"]
    (found,) = told(proof_of(tmp_path, cavities, tones))
    assert found.code == "A02"
    assert found.mend is not None
    assert [each.new.strip() for each in found.mend.edits] == ["cavities: {08/07: FL, 06/05: FR, 04/03: RL, 02/01: RR}"]


def test_letters_stay_as_the_face_has_them(tmp_path: Path) -> None:
    """Two rows of four by letters, the chart in small ones: A1 is A4, A2 is A3, B1 is B4, B2 is B3."""
    face = "face:\n      rows: |\n        A1 A2 A3 A4\n        B1 B2 B3 B4\n      view: wire\n      latch: top"
    tones = ["A4/b4 heard: FL, plus: a4", "A3/B3 heard: FR, plus: A3"]
    (found,) = told(proof_of(tmp_path, "{a1/b1: FL, a2/B2: FR}", tones, face=face))
    assert found.code == "A02"
    assert "in rows of 4, A1 and A4, A2 and A3, B1 and B4, B2 and B3 change places" in found.message
    assert found.mend is not None
    assert [each.new.strip() for each in found.mend.edits] == ["cavities: {A4/B4: FL, A3/B3: FR}"]
    assert found.about


def test_a_feed_is_never_offered_for_a_tone(tmp_path: Path) -> None:
    """1/2 answered with RR: mirrored or exchanged, parted at 4/3. With a feed charted at 5, the mirrored chart has it
    at 4, and FR, charted at 3/6, parts them by its +: mirrored, it is at 6/3.
    """
    plain = told(proof_of(tmp_path, FOUR, ["1/2 heard: RR"]))
    fed = told(proof_of(tmp_path, "{1/2: FL, 3: FR+, 6: FR-, 5: B+, 7/8: RR}", ["1/2 heard: RR"]))
    assert "Tone 4/3 next" in plain[0].do
    assert "Tone 6/3 next: FR answers, + at 6, if it is read from the other side" in fed[0].do


def test_what_the_wrong_chart_has_there_is_metered_first(tmp_path: Path) -> None:
    """Mirrored as far as toned, and FR then at 6/5: the chart as written has a feed at 6; none at a restraint wire."""
    (fed,) = told(proof_of(tmp_path, "{1/2: FL, 3/4: FR, 6: B+, 8: ACC}", ["8/7 heard: FL, plus: 8"]))
    assert "The chart as written has B+ at 6: meter to ground first. Tone 6/5 next: FR answers" in fed.do
    (free,) = told(proof_of(tmp_path, "{1/2: FL, 3/4: FR, 6: empty, 8: ACC}", ["8/7 heard: FL, plus: 8"]))
    assert "meter" not in free.do
    assert "Tone 6/5 next" in free.do
    (restraint,) = told(proof_of(tmp_path, "{1/2: FL, 3/4: FR, 6: SRS+, 5: SRS-, 8: ACC}", ["8/7 heard: FL, plus: 8"]))
    assert "Tone" not in restraint.do.replace("no tone", "")


def test_a_restraint_plug_is_never_offered_for_a_tone(tmp_path: Path) -> None:
    face = f"carries: SRS\n    {ROW}"
    for each in told(proof_of(tmp_path, FOUR, ["1/2 heard: RR"], face=face)):
        assert "next:" not in each.do


def test_a_restraint_wire_is_not_metered_either(tmp_path: Path) -> None:
    """Mirrored or left for right, which the other wires part: a feed by a meter, a restraint wire by the page alone."""
    tones = ["1/2 heard: FR, plus: 1", "8/7 heard: FL, plus: 8"]
    (fed,) = told(proof_of(tmp_path, "{1/2: FL, 8/7: FR, 3: B+}", tones))
    assert "Look at cavity 6 and meter it to ground: B+ if it is read from the other side" in fed.do
    (restraint,) = told(proof_of(tmp_path, "{1/2: FL, 8/7: FR, 3/4: SRS}", tones))
    assert "meter" not in restraint.do
    assert "Look at the page" in restraint.do


def test_without_a_face_that_is_said(tmp_path: Path) -> None:
    tones = ["1/2 heard: RR", "3/4 heard: RL", "5/6 heard: FR", "7/8 heard: FL"]
    (found,) = told(proof_of(tmp_path, FOUR, tones, face="ways: 8"))
    assert found.code == "A08"
    assert "Its face isn't written" in found.message
