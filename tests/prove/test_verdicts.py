"""How far a job is proved: each combination of what was toned, heard, tried, asked and signed.

What each must give follows from the words of the README's table of verdicts and from nothing of `harness`: verified
needs every used pair toned, every output heard as planned, every function that worked before working again, and
nothing asked; a signature with a reason and a person releases, and never verifies.
"""

from __future__ import annotations

import json
from itertools import product
from pathlib import Path

import pdfplumber
import pytest

from harness.cli.group import run
from harness.cli.report_json import text as as_json
from harness.cli.report_text import lines, shortfall
from harness.prove import Proof, prove
from render.documents import packet
from render.documents.masthead import masthead

JOB = """\
ringout: 1
title: Two pairs through a processor
car: {name: Bench hatch, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/9: FL WH WH/BK
      2/10: FR GY GY/BK
units:
  radio: {kind: radio, outputs: {FL FR: btl 8.5 V clean step 31}}
  dsp:
    kind: processor amplifier
    inputs: {in1..2: 2..20 V differential}
    outputs: {out1..2: 75 W @ 4 ohm least 2 ohm}
    routes: {out1: in1, out2: in2}
    wakes: signal
    settings: bench.set
speakers: {FL FR: {place: doors, nominal: 4 ohm}}
inline: {C204: left front pillar, C205: right front pillar}
features: {rear camera picture: camera}
cut: [dash.FL, dash.FR]
joints:
  crimp at behind the radio with heat shrink:
    dash.unit.FL: dsp.in1
    dash.unit.FR: dsp.in2
    dash.car.FL: dsp.out1
    dash.car.FR: dsp.out2
"""
TONES = (
    "- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/9, charted: FL, heard: FL, plus: 1, unplugged: dash}",
    "- {when: 2026-03-02 09:44, by: JM, tone: dash.car.2/10, charted: FR, heard: FR, plus: 2, unplugged: dash}",
)
PLAYS = ("- {by: JM, plays: radio.FL, heard: FL}", "- {by: JM, plays: radio.FR, heard: FR}")
BEFORE, AFTER = (f"- {{by: JM, {verb}: rear camera picture, result: works}}" for verb in ("before", "after"))
TRIED = {"never": (), "before": (BEFORE,), "again": (BEFORE, AFTER), "fails": (BEFORE, AFTER.replace("works", "wrong"))}
ASKED = ("- {by: JM, volts: dash.car.1, reads: 7.1 V}",)  # and nobody wrote in which state of the key
SIGNED = {
    "no": "",
    "reason and person": "- {by: JM, signed: released, who: foreman, name: R. Kern, reason: door panel riveted}",
    "no reason": "- {by: JM, signed: released, who: foreman}",
    "no person": "- {signed: released, reason: door panel riveted}",
}
CASES = list(product((0, 1, 2), (0, 1, 2), TRIED, (False, True), SIGNED))


def proved(folder: Path, records: tuple[str, ...]) -> Proof:
    path = folder / "bench.yaml"
    path.write_text(JOB, encoding="utf-8")
    evidence = "".join(f"{record}\n" for record in records if record)
    (folder / "bench.evidence.yaml").write_text(evidence, encoding="utf-8")
    return prove(path, mends=False)


def verdict_of(toned: int, heard: int, tried: str, asked: bool, signed: str) -> str:
    if tried == "fails" or (tried == "before" and heard):  # trials after the work have begun, and this one is missing
        return "mend"
    if toned == 2 and heard == 2 and tried != "before" and not asked:
        return "verified"
    return "released" if signed == "reason and person" else "consistent-not-verified"


@pytest.mark.parametrize(("toned", "heard", "tried", "asked", "signed"), CASES)
def test_each_combination(toned: int, heard: int, tried: str, asked: bool, signed: str, tmp_path: Path) -> None:
    records = (*TONES[:toned], *PLAYS[:heard], *TRIED[tried], *(ASKED if asked else ()), SIGNED[signed])
    proof = proved(tmp_path, records)
    verdict = verdict_of(toned, heard, tried, asked, signed)
    assert proof.report.verdict == verdict
    # a signature tones nothing
    assert (proof.report.counts.charted, proof.report.counts.toned) == (2 - toned, toned)
    said = json.loads(as_json(proof))["open"]
    assert said["pairs"] == ["dash.1/9", "dash.2/10"][toned:]
    assert said["outputs"] == ["radio.FL", "radio.FR"][heard:]
    assert said["after"] == (["rear camera picture"] if tried in ("before", "fails") else [])
    assert said["before"] == (["rear camera picture"] if tried == "never" else [])


def test_without_any_record_a_plan_is_consistent(tmp_path: Path) -> None:
    assert proved(tmp_path, ()).report.verdict == "consistent-not-verified"


WHOLE = (*TONES, *PLAYS, BEFORE, AFTER)


@pytest.mark.parametrize(
    "instead",
    [
        "- {by: JM, plays: radio.FL}",  # nobody wrote what was heard
        "- {by: JM, plays: radio.FL, heard: faintly FL}",  # a word that names no speaker
        "- {by: JM, plays: radio.FL, heard: FL, car: Alder hatch}",  # the other car's
        "- {by: JM, tone: dash.car.1/9, charted: FL, heard: FL}",  # taken with the radio plugged in
        "- {by: JM, ohm: kick.car.1/2, reads: 3.5 ohm}",  # of what isn't in the job
    ],
)
def test_one_record_less_sure_and_it_is_not_verified(instead: str, tmp_path: Path) -> None:
    assert proved(tmp_path, WHOLE).report.verdict == "verified"
    replaced = tuple(each for each in WHOLE if "plays: radio.FL" not in each or "plays" not in instead)
    assert proved(tmp_path, (*replaced, instead)).report.verdict != "verified"


def test_where_nothing_is_there_to_prove_nothing_was(tmp_path: Path) -> None:
    path = tmp_path / "bare.yaml"
    path.write_text("ringout: 1\ntitle: One unit\nunits: {radio: {kind: radio}}\n", encoding="utf-8")
    (tmp_path / "bare.evidence.yaml").write_text("- {by: JM, seen: the radio}\n", encoding="utf-8")
    assert prove(path, mends=False).report.verdict == "consistent-not-verified"


@pytest.mark.parametrize(("toned", "words"), [(0, "2 PAIRS NOT TONED"), (1, "1 PAIR NOT TONED"), (2, "NOT ALL TRIED")])
def test_a_released_job_says_so_in_text_and_on_every_page(toned: int, words: str, tmp_path: Path) -> None:
    proof = proved(tmp_path, (*TONES[:toned], SIGNED["reason and person"]))
    said = f"RELEASED, {words}"
    assert lines(proof)[0].upper().startswith(said)
    assert masthead(proof).state == said
    signed = "Signed by R. Kern (foreman): door panel riveted"
    assert lines(proof)[1] == signed
    packet(proof, tmp_path / "out")
    with pdfplumber.open(tmp_path / "out" / "packet.pdf") as pages:
        texts = [" ".join(page.extract_text().split()) for page in pages.pages]
    assert len(texts) > 5
    assert [text for text in texts if said not in text] == []
    assert not any("VERIFIED" in text for text in texts)
    assert texts[0].count(said) == 2, "in the masthead, and on the cover itself"
    assert signed in texts[0]


@pytest.mark.parametrize(
    ("records", "toned", "verified"),
    [
        ((TONES[0], SIGNED["reason and person"]), 1, 1),
        ((*TONES, SIGNED["reason and person"]), 0, 1),
        ((*TONES, *PLAYS), 0, 0),
        ((*TONES, *PLAYS, *ASKED), 0, 1),
    ],
)
def test_need(records: tuple[str, ...], toned: int, verified: int, tmp_path: Path) -> None:
    """What a signature lets go is still neither toned nor verified for who demands it."""
    path = proved(tmp_path, records).job_path
    assert run(["check", path, "--need", "toned"]) == toned
    assert run(["check", path, "--need", "verified"]) == verified


def test_what_keeps_it_from_being_verified_is_said(tmp_path: Path) -> None:
    asked = proved(tmp_path, (*WHOLE, *ASKED)).report
    assert "what is asked keeps it from being verified" in shortfall("verified", asked)
    unheard = proved(tmp_path, TONES).report
    assert "what is listed as not checked keeps it from being verified" in shortfall("verified", unheard)


def test_what_was_left_odd_is_named_until_it_is_answered(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The only thing that keeps the job from being verified stands in no list of what was not checked."""
    odd = "- {when: 2026-03-02 15:00, by: JM, handover: paused, done: all, left: none, parts: none, odd: J2 came apart}"
    path = proved(tmp_path, (*TONES, *PLAYS, odd)).job_path
    assert run(["check", path, "--need", "verified"]) == 1
    told = "(the handover: J2 came apart (until a later one says `odd: nothing`)) keeps it from being verified"
    assert told in capsys.readouterr().out
    answered = odd.replace("15:00", "16:00").replace("paused", "closed").replace("J2 came apart", "nothing")
    assert run(["check", proved(tmp_path, (*TONES, *PLAYS, odd, answered)).job_path, "--need", "verified"]) == 0
