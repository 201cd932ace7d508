"""The table `set:` of a unit: what is read, and what is refused with its place."""

from __future__ import annotations

import pytest

from harness.prove import prove_text

JOB = """\
ringout: 1
title: T
preset: house
units:
  amp:
    kind: amplifier
    outputs: {out1..4: 50 W @ 4 ohm}
    set:
      %s
"""


def test_each_setting_is_read_by_itself() -> None:
    text = JOB % "\n      ".join(
        (
            "input: high level", "signal sense: unused", "bridge: [out1/out2, OUT3/out4]",
            "high-pass out1..2 out4: 0.08 kHz",
            "low-pass out1: unused", "gain out1: -6.5 dB", "gain out2: unknown",
        )
    )  # fmt: skip
    job = prove_text(text, "job.yaml", mends=False).job
    assert job is not None
    # by hand: 0.08 kHz is 80 Hz
    assert [(s.what, s.output, s.words, s.value, s.place.line) for s in job.parts.units["amp"].switches] == [
        ("input", "", "high level", None, 9),
        ("signal sense", "", "off", None, 10),
        ("bridge", "out1/out2", "out1/out2", None, 11),
        ("bridge", "out3/out4", "OUT3/out4", None, 11),
        ("high-pass", "out1", "0.08 kHz", 80.0, 12),
        ("high-pass", "out2", "0.08 kHz", 80.0, 12),
        ("high-pass", "out4", "0.08 kHz", 80.0, 12),
        ("low-pass", "out1", "off", None, 13),
        ("gain", "out1", "-6.5 dB", -6.5, 14),
        ("gain", "out2", "unknown", None, 15),
    ]


@pytest.mark.parametrize(
    ("row", "code", "word"),
    [
        ("input: hi", "R09", "hi"), ("signal sense: maybe", "R09", "maybe"), ("bridge: out1", "R09", "out1"),
        ("bridge: out1/out9", "R20", "out9"), ("high-pass out9: 80 Hz", "R20", "out9"),
        ("high-pass out1: 80 dB", "R09", "80 dB"), ("gain out1: 3 Hz", "R09", "3 Hz"),
        ("treble out1: 3 dB", "R07", "treble"),
        ("gain out1..2: 3 dB\n      gain out2: 4 dB", "R22", "out2"), ("high-pass out4..1: 80 Hz", "R23", "out4..1"),
        ("high-pass out1: [80 Hz]", "R08", "list"), ("bridge: {a: b}", "R08", "table"),
    ],
)  # fmt: skip
def test_what_is_refused(row: str, code: str, word: str) -> None:
    report = prove_text(JOB % row, "job.yaml", mends=False).report
    found = [each for each in report.findings if each.code == code]
    assert found, [(each.code, each.message) for each in report.findings]
    assert word in found[0].message + found[0].places[0].name
    assert found[0].places[0].place.line in (9, 10)
    assert report.verdict == "unreadable"
