"""What is left to do after a row of records, told by hand: handing over, older records, signatures, what was built.

No outside source: the rules are those that `ringout explain J04`, `J05`, `J07`, `J12`, `J26` print.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove

JOB = """\
ringout: 1
title: One pair
car: {name: Bench hatch, year: 2021, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 4, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/2: FL WH WH/BK
      3: AMP-ON BU
      4: ACC RD
      5: ILL OG
units:
  radio: {kind: radio, outputs: {FL: btl 8.5 V clean step 31}, gives: {AMP-ON: 100 mA}}
  amp:
    kind: amplifier
    inputs: {in1: 2..20 V differential}
    outputs: {out1: 50 W @ 4 ohm least 2 ohm}
    wakes: rem 20 mA
speakers: {FL: {nominal: 4 ohm}}
features: {rear voice: radio > spk.FL}
cut: [dash.FL]
capped: [dash.car.5]
joints:
  crimp with heat shrink:
    dash.unit.FL: amp.in1
    dash.car.FL: amp.out1
    dash.3: amp.rem
"""
WHOLE = "done: a, left: b, parts: c, odd: nothing"
OLD = "fact: [1 FL+ VT]"  # it was violet then
NOW = "fact: [1 FL+ WH]"


def told(records: tuple[str, ...], folder: Path) -> list[tuple[str, int]]:
    """The codes that records decide, with the number of the record that they stand at (0: in the job)."""
    job = folder / "job.yaml"
    job.write_text(JOB, encoding="utf-8")
    (folder / "job.evidence.yaml").write_text("".join(f"- {{{each}}}\n" for each in records), encoding="utf-8")
    report = prove(job, mends=False).report
    assert report.verdict != "unreadable", [finding.message for finding in report.findings]
    places = [(each.code, each.places[0].place) for each in report.findings if each.code[0] == "J"]
    return [(code, place.line if place.file.endswith("evidence.yaml") else 0) for code, place in places]


HANDED_OVER = (
    ((f"by: A, handover: paused, {WHOLE}",), []),
    (("by: A, handover: paused, done: a, left: b, parts: c",), [("J05", 1)]),
    # the last pause counts, whichever it is
    ((f"by: A, handover: paused, {WHOLE}", "by: A, handover: paused, done: a"), [("J05", 2)]),
    (("by: A, handover: paused, done: a", f"by: A, handover: paused, {WHOLE}"), []),
    # somebody else goes on: only once, at the first record, and not for one that was read
    ((f"by: A, handover: paused, {WHOLE}", "by: B, seen: x", "by: C, seen: y"), [("J05", 2)]),
    ((f"by: A, handover: paused, {WHOLE}", "by: B, seen: x", "by: B, handover: taken"), []),
    ((f"by: A, handover: paused, {WHOLE}", "by: B, handover: taken", "by: B, seen: x", "by: C, seen: y"), []),
    ((f"by: A, handover: paused, {WHOLE}", "by: a, seen: x"), []),
    ((f"by: A, handover: paused, {WHOLE}", "seen: x"), []),
    ((f"handover: paused, {WHOLE}", "by: B, seen: x"), []),
    # a print and a signature are no work
    ((f"by: A, handover: paused, {WHOLE}", "by: B, printed: all", "by: C, signed: released, reason: r"), []),
    # what nobody paused can't be taken over unread
    (("by: A, seen: x", "by: B, seen: y"), []),
    (("by: A, handover: taken", "by: B, seen: y"), []),
    (("by: A, handover: paused", "by: A, handover: closed"), []),
    # the other car's pause is not this one's
    (("by: A, car: Hazel van, handover: paused", "by: B, seen: y"), [("J11", 1)]),
)
OLDER = (
    ((f"tone: dash.car.1/2, {OLD}",), [("J07", 1)]),
    ((f"tone: dash.car.1/2, {NOW}",), []),
    # a later one that holds stands in for it: the other half, either way round, another name of the same
    ((f"tone: dash.car.1/2, {OLD}", f"tone: dash.unit.2/1, {NOW}"), []),
    ((f"tone: dash.car.1/2, {OLD}", "tone: dash.FL"), []),
    # of another kind it doesn't, and an earlier one doesn't
    ((f"tone: dash.car.1/2, {OLD}", f"ohm: dash.car.1/2, {NOW}"), [("J07", 1)]),
    ((f"tone: dash.car.1/2, {NOW}", f"tone: dash.car.1/2, {OLD}"), [("J07", 2)]),
    # two older ones of the same are asked for once
    ((f"tone: dash.car.1/2, {OLD}", f"tone: dash.car.1/2, {OLD}"), [("J07", 2)]),
    # volts in another state of the key are another reading
    ((f"volts: dash.car.1, key: run, reads: 7 V, {OLD}", "volts: dash.car.1, key: out, reads: 0 V"), [("J07", 1)]),
    ((f"volts: dash.car.1, key: run, reads: 7 V, {OLD}", "volts: dash.car.1, key: run, reads: 7 V"), []),
    # gone, and replaced by name
    (("ohm: kick.car.1/2",), [("J07", 1)]),
    (("ohm: kick.car.1/2", "ohm: dash.car.1/2, replaces: KICK.car.1/2"), []),
    (("ohm: dash.car.1/2, replaces: kick.car.1/2", "ohm: kick.car.1/2"), [("J07", 2)]),
)
SIGNED = (
    (("by: A, signed: lost, lost: [rear voice]",), [("J12", 1)]),
    (("by: A, signed: lost, lost: [rear voice], who: foreman, name: R. Kern",), [("J12", 1)]),
    (("by: A, signed: lost, lost: [rear voice], who: the customer",), []),
    (("by: A, signed: lost, lost: [x, Rear voice]", "by: A, signed: lost, lost: [rear voice], who: owner"), []),
    # nothing of the kind is in the job, and nobody tried it
    (("by: A, signed: lost, lost: [fog horn]",), []),
    (("by: A, before: fog horn, result: works", "by: A, signed: lost, lost: [fog horn]"), [("J12", 2)]),
    # a warning by its name: no signature, no note, it is tried again
    (("before: belt tone, result: works", "signed: lost, lost: [belt tone]", "handover: closed"), [("J06", 1)]),
)
BUILT = (
    (("built: dash.car.5, is: capped",), []),
    (("built: dash.car.5, is: CAP",), []),
    (("built: dash.car.5, is: loose",), [("J04", 1)]),
    (("built: dash.car.FL, is: amp.out1",), []),
    (("built: dash.car.FL, is: amp.in1",), [("J04", 1)]),
    (("built: dash.car.1, is: amp.out1-",), [("J24", 1)]),  # both wires of the pair on one terminal: C24, a STOP
    (("built: dash.car.1, is: amp.out1",), []),  # + to +
    (("built: dash.unit.3, is: tapped",), []),
    (("built: dash.car.4, is: passed",), []),
    (("built: dash.car.4, is: depinned",), [("J04", 1)]),
    (("built: amp.rem, is: used",), []),
    # the plan joins a wire there, and it is on nothing: the joint isn't there
    (("built: amp.rem, is: loose",), [("J26", 1)]),
    (("built: amp.rem, is: capped",), [("J26", 1)]),
    (("built: dash.car.1, is: passed",), [("J26", 1)]),  # cut by the plan, and so not cut
    (("built: dash.3, is: passed",), [("J04", 1)]),  # a tap leaves the wire passed on: which of the two isn't told
    (('built: amp.rem, is: "capped, used"',), [("J04", 1)]),  # says both
    (('built: dash.car.FL, is: "intercepted, amp.out1"',), []),
    (('built: dash.car.FL, is: "intercepted, amp.in1"',), [("J04", 1)]),
    # what a later record says of one of the two is past for that one only
    (("built: dash.car.FL, is: capped", "built: dash.car.1, is: used"), [("J26", 1)]),
    (("built: dash.car.FL, is: capped", "built: dash.car.1, is: used", "built: dash.car.2, is: used"), []),
)


@pytest.mark.parametrize(("records", "expected"), [*HANDED_OVER, *OLDER, *SIGNED, *BUILT])
def test_what_is_left_to_do(records: tuple[str, ...], expected: list[tuple[str, int]], tmp_path: Path) -> None:
    assert told(records, tmp_path) == expected
