"""What a check of supply or settings offers clears its finding: the offer is applied to the file and proved again.

Each row: fixture, the words of the offer, what they mean for the file's text. The values are computed beside it from
the published figures: charts of 125 A for 4 AWG, 80 A for 6 AWG, 50 A for 8 AWG, 30 A for 10 AWG and 250 A for 1 AWG
(a car-audio guide's page, seen 2026), and 1.25 times the current for a fuse.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from harness.finding import Severity
from harness.prove import prove_text

HERE = Path(__file__).parent

OFFERS = (
    # 40 A x 1.25 = 50 A, and 8 AWG carries 50 A
    ("F03/bad_plain", "F03", "a fuse of 50 A", {"fuse 100 A": "fuse 50 A"}),
    # the other offer: the thinnest size for 100 A is 4 AWG (125 A)
    ("F03/bad_plain", "F03", "lay 4 AWG", {"8 AWG": "4 AWG"}),
    # 20 A x 1.25 = 25 A
    ("F03/bad_before_a_plug", "F03", "a fuse of 25 A", {"fuse 40 A": "fuse 25 A"}),
    # 90 A x 1.25 = 112.5 A: the next value is 125 A, which is what 4 AWG carries
    ("F03/bad_between_two_charts", "F03", "a fuse of 125 A", {"fuse 130 A": "fuse 125 A"}),
    # 40 A x 1.25 = 50 A where the 8 AWG begins
    ("F05/bad_plain", "F05", "a fuse of 50 A", {"block.in > 4 ft": "block.in > fuse 50 A > 4 ft"}),
    ("F05/bad_plain", "F05", "lay 4 AWG", {
        "block.in > 4 ft 8": "block.in > 4 ft 4", "amp.GND > 18 in 8": "amp.GND > 18 in 4",
    }),
    # 4 AWG CCA counts as 6 AWG, 80 A at most; 60 A x 1.25 = 75 A
    ("F07/bad_far", "F07", "a fuse of 80 A", {"fuse 100 A": "fuse 80 A"}),
    # 58 A x 1.25 = 72.5 A, and 4 AWG carries 125 A: 80 A
    ("F04/bad_plain", "F04", "Fit 80 A", {"fuse 40 A": "fuse 80 A"}),
    # (300 + 400) W / 13.8 V = 27.2 A + 29.0 A = 56.2 A; x 1.25 = 70.2 A: 80 A
    ("F04/bad_far", "F04", "Fit 80 A", {"fuse 50 A": "fuse 80 A"}),
    # 19 ft of 6 AWG: 58 x 5.79 m x 1.296 mohm/m = 0.44 V in place of 0.69 V
    ("F06/bad_plain", "F06", "Lay 6 AWG", {"19 ft 8 AWG": "19 ft 6 AWG"}),
    # 18 ft of 2 AWG: 70 x 5.49 m x 0.513 mohm/m = 0.20 V in place of 0.50 V
    ("F06/bad_far", "F06", "Lay 2 AWG", {"18 ft 6 AWG": "18 ft 2 AWG"}),
    # set as the job's own joints, routes and `wakes` say
    ("E15/bad_far", "E15", "signal sensing of amp on", {"signal sense: unused": "signal sense: used"}),
    ("D09/bad_far", "D09", "switch of amp on for out1 and out2", {"bridge: unused": "bridge: out1/out2"}),
    ("D09/bad_single", "D09", "switch of amp off for out1", {"bridge: out1/out2": "bridge: unused"}),
    ("C28/bad_far", "C28", "input of amp to high level", {"input: low level": "input: high level"}),
    ("C28/bad_line_on_high", "C28", "input of amp to low level", {"input: high level": "input: low level"}),
    ("C26/bad_far", "C26", "Set it to 80 Hz", {"high-pass out1: 250 Hz": "high-pass out1: 80 Hz"}),
    ("C26/bad_gain", "C26", "Set it to -12 dB", {"gain out1: 0 dB": "gain out1: -12 dB"}),
    ("D08/bad_high_pass_set_off", "D08", "to 3000 Hz as routed", {"high-pass out1: unused": "high-pass out1: 3 kHz"}),
    # 14 m of 35 mm2: 30 x 14 m x 0.554 mohm/m = 0.23 V in place of 0.33 V
    ("F06/bad_own_limit", "F06", "Lay 35 mm2", {"14 m 25 mm2": "14 m 35 mm2"}),
)  # fmt: skip


@pytest.mark.parametrize(("fixture", "code", "words", "edits"), OFFERS, ids=[f"{row[0]}-{row[2]}" for row in OFFERS])
def test_the_offer_clears_the_finding(fixture: str, code: str, words: str, edits: dict[str, str]) -> None:
    text = (HERE / f"{fixture}.yaml").read_text(encoding="utf-8")
    before = prove_text(text, "before.yaml", mends=False).report.findings
    assert any(words in finding.do for finding in before if finding.code == code)
    for old, new in edits.items():
        assert old in text
        text = text.replace(old, new)
    after = prove_text(text, "after.yaml", mends=False).report.findings
    assert code not in {finding.code for finding in after}
    worse = Counter(f.code for f in after if f.severity <= Severity.FIX) - Counter(f.code for f in before)
    assert not worse, worse
