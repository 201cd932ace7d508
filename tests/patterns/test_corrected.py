"""The corrected chart, put into the files: read back with YAML alone, every channel is where the car has it."""

from __future__ import annotations

import json
import random
from collections import Counter
from pathlib import Path

import pytest
import yaml

from harness.cli import report_json
from harness.finding import Finding, Severity
from harness.mend.chart import apply
from harness.mend.page import CannotEdit
from harness.prove import prove
from tests.checks.marks import evidence_of, fixtures, named
from tests.mend.applying import applied, beside
from tests.patterns.geometry import Places, Plug, pair_faults, random_plug, whole_faults
from tests.patterns.jobs import chart_in, evidence_text, job_text, plug_text

NAMES = ("A02", "A03", "A04", "A12", "A20", "A21", "A22", "A23", "A24")
TOLD = (*NAMES, "A08", "A25")
CARRIED = ("A02", "A03", "A04", "A20")


def offered(path: Path, codes: tuple[str, ...] = NAMES) -> Finding | None:
    return next((each for each in prove(path).report.findings if each.code in codes), None)


def toned(code: str) -> list[Path]:
    """The fixtures of a code that tones decide; a meter alone doesn't say which speaker is where, and a + on the other
    wire says nothing of the chart before the radio's side was looked at.
    """
    found = [path for path in fixtures("bad") if path.parent.name == code and not path.name.startswith("bad_speaker")]
    return [path for path in found if "tone:" in evidence_of(path).read_text(encoding="utf-8")]


@pytest.mark.parametrize("path", [path for code in NAMES for path in toned(code)], ids=named)
def test_every_fixture_is_put_right(path: Path, tmp_path: Path) -> None:
    """By the words of the evidence: after it each tone finds the channel that it heard, and its + where it found it."""
    job = beside(path, tmp_path)
    finding = offered(job)
    assert finding is not None
    assert finding.mend is not None
    text, _ = applied(job.read_text(encoding="utf-8"), finding.mend.edits)
    job.write_text(text, encoding="utf-8")
    places, _ = chart_in(job)
    for record in yaml.load(evidence_of(job).read_text(encoding="utf-8"), Loader=yaml.BaseLoader):
        if "tone" not in record:
            continue
        cavities = record["tone"].rsplit(".", 1)[1].split("/")
        there = [name for name, two in places.items() if set(two) == set(cavities)]
        assert there == ([] if record["heard"] == "none" else [record["heard"]]), record
        if "plus" in record:
            assert places[record["heard"]][0] == record["plus"]
    assert not [each.code for each in prove(job).report.findings if each.code in TOLD]


def test_the_report_for_scripts_has_the_edits(tmp_path: Path) -> None:
    path = next(p for p in fixtures("bad") if named(p) == "A02/bad_row_of_eight")
    (told,) = [each for each in json.loads(report_json.text(prove(path)))["findings"] if each["code"] == "A02"]
    # 1 and 8 change places, 2 and 7: by hand
    assert [edit["new"].strip() for edit in told["mend"]] == [
        "8/7: FL WH WH/BK 0.5 mm2", "6/5: FR GY GY/BK 0.5 mm2", "4/3: RL GN GN/BK 0.5 mm2", "2/1: RR VT VT/BK 0.5 mm2",
    ]  # fmt: skip
    assert told["mend_words"] == "Correct the chart of dash: FL 8/7, FR 6/5, RL 4/3, RR 2/1."


# -- charts at random -------------------------------------------------------------------------------------


def written(folder: Path, plug: Plug, real: Places, seed: int) -> tuple[Path, Path]:
    """A job with its evidence; the plug stands in it or in a part file. Returns the job and the file of the rows."""
    dice = random.Random(seed)
    rows = plug_text(plug, dice, flow=seed % 3 == 0)
    places = [*plug.chart.values(), *(two for two in real.values() if two not in plug.chart.values())]
    job, part = folder / "car.yaml", folder / "parts" / "radio.yaml"
    # the radio's + lies where the car's does, so that no speaker is turned
    turned = [real[name] for name, two in plug.chart.items() if real.get(name) == two[::-1]]
    radio = [f"- {{by: JM, polarity: dash.unit.{a}/{b}, plus: {a}}}\n" for a, b in turned]
    (folder / "car.evidence.yaml").write_text(evidence_text(real, places) + "".join(radio), encoding="utf-8")
    head = "ringout: 1\ntitle: A chart at random\n"
    if seed % 2:
        job.write_text(head + rows + job_text(plug), encoding="utf-8")
        return job, job
    part.parent.mkdir()
    part.write_text(head + rows, encoding="utf-8")
    own = "parts: [parts/radio.yaml]\nplugs:\n  dash: {part: dash, unit: radio}\n"
    job.write_text(head + own + job_text(plug), encoding="utf-8")
    return job, part


def fault_of(seed: int) -> tuple[str, Plug, Places]:
    dice = random.Random(seed)
    plug = random_plug(dice, others=True)
    faults = list(whole_faults(plug))
    for kind in ("+ and − exchanged", "pairs exchanged", "wrong partner"):
        faults += dice.sample([each for each in pair_faults(plug) if each[0] == kind], 1)
    name, real = dice.choice(faults)
    return name, plug, real


SEEDS = range(160)


@pytest.mark.parametrize("seed", SEEDS)
def test_applied_the_chart_says_what_the_car_says(seed: int, tmp_path: Path) -> None:
    _, plug, real = fault_of(seed)
    job, rows = written(tmp_path, plug, real, seed)
    before = rows.read_text(encoding="utf-8")
    _, colours = chart_in(rows)
    finding = offered(job)
    if finding is None or finding.mend is None:
        assert "A25" in {each.code for each in prove(job, mends=False).report.findings}, "more than one chart is left"
        return  # counted below
    assert apply(finding.mend.edits) == [str(rows)]
    places, after = chart_in(rows)
    assert places == {name: two for name, two in real.items() if name in places}
    assert places.keys() == real.keys()
    if finding.code not in CARRIED:
        assert {cavity: after[cavity] for cavity in colours} == colours, "colours stay at their cavities"
    else:
        wires = [
            (cavity, there) for name, two in plug.chart.items() for cavity, there in zip(two, real[name], strict=True)
        ]
        assert [after[there] for _, there in wires] == [colours[cavity] for cavity, _ in wires], (
            "colours go with the row"
        )
    told = prove(job).report
    assert not [each.code for each in told.findings if each.code in TOLD]
    assert told.verdict != "unreadable"
    changed = sum(
        a != b for a, b in zip(before.split("\n"), rows.read_text(encoding="utf-8").split("\n"), strict=False)
    )
    assert changed >= 1


def test_nearly_all_are_offered(tmp_path: Path) -> None:
    kinds: Counter[bool] = Counter()
    for seed in SEEDS:
        _, plug, real = fault_of(seed)
        folder = tmp_path / str(seed)
        folder.mkdir()
        finding = offered(written(folder, plug, real, seed)[0])
        kinds[finding is not None and finding.mend is not None] += 1
    assert kinds[True] >= 0.9 * kinds.total(), kinds


# -- written into files -----------------------------------------------------------------------------------


def mended(folder: Path, change: tuple[str, str] = ("", "")) -> tuple[Path, Finding]:
    path = beside(next(p for p in fixtures("bad") if named(p) == "A02/bad_row_of_eight"), folder)
    path.write_bytes(path.read_bytes().replace(*(each.encode() for each in change)) if change[0] else path.read_bytes())
    finding = offered(path)
    assert finding is not None
    assert finding.mend is not None
    return path, finding


def test_line_ends_and_mark_stay(tmp_path: Path) -> None:
    path, _ = mended(tmp_path)
    raw = b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n")
    path.write_bytes(raw)
    finding = offered(path)
    assert finding is not None
    assert finding.mend is not None
    apply(finding.mend.edits)
    after = path.read_bytes()
    assert after == raw.replace(b" 1/2: FL", b" 8/7: FL").replace(b" 3/4: FR", b" 6/5: FR").replace(
        b" 5/6: RL", b" 4/3: RL"
    ).replace(b" 7/8: RR", b" 2/1: RR")


def test_nothing_is_written_into_a_file_that_changed_meanwhile(tmp_path: Path) -> None:
    path, finding = mended(tmp_path)
    assert finding.mend is not None
    path.write_text(path.read_text(encoding="utf-8").replace("5/6: RL GN", "5/6: RL BN"), encoding="utf-8")
    before = path.read_bytes()
    with pytest.raises(CannotEdit):
        apply(finding.mend.edits)
    assert path.read_bytes() == before
    assert sorted(each.name for each in tmp_path.iterdir()) == [
        "bad_row_of_eight.evidence.yaml",
        "bad_row_of_eight.yaml",
    ]


def test_a_file_grown_shorter_is_left_too(tmp_path: Path) -> None:
    path, finding = mended(tmp_path)
    assert finding.mend is not None
    path.write_text("ringout: 1\n", encoding="utf-8")
    with pytest.raises(CannotEdit):
        apply(finding.mend.edits)


def test_what_the_plan_then_does_wrongly_is_named(tmp_path: Path) -> None:
    """A loom's leads by cavity were written for the wrong chart: corrected, the plan crosses channels, and says so."""
    path = tmp_path / "loom.yaml"
    path.write_text(LOOM, encoding="utf-8")
    (tmp_path / "loom.evidence.yaml").write_text(
        evidence_text(
            {"FL": ("8", "7"), "FR": ("6", "5"), "RL": ("4", "3"), "RR": ("2", "1")},
            [("1", "2"), ("3", "4"), ("5", "6"), ("7", "8")],
        ),
        encoding="utf-8",
    )
    finding = offered(path)
    assert finding is not None
    assert finding.mend is not None
    before = {each.code for each in prove(path).report.findings}
    apply(finding.mend.edits)
    after = [each for each in prove(path, mends=False).report.findings if each.severity <= Severity.ASK]
    new = {each.code for each in after} - before
    # the loom's list has the channels where the wrong chart had them: its housing fits, its pins don't
    assert "H07" in new
    assert all(code in finding.mend.words for code in new)


LOOM = """\
ringout: 1
title: A loom for a row of eight
car: {name: Bench hatch, steering: left}
plugs:
  dash:
    unit: radio
    face: {rows: 1, columns: 8, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5/6: RL GN GN/BK, 7/8: RR VT VT/BK}
looms:
  T1:
    ends: {unit: 8-way, car: 8-way}
    leads: {1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5/6: RL GN GN/BK, 7/8: RR VT VT/BK}
units:
  radio: {kind: radio, outputs: {FL FR RL RR: btl 8.5 V clean step 31}}
  dsp:
    kind: processor amplifier
    inputs: {in1..4: 2..20 V differential}
    outputs: {out1..4: 75 W @ 4 ohm least 2 ohm}
    routes: {out1: in1, out2: in2, out3: in3, out4: in4}
    wakes: signal
speakers:
  FL FR RL RR: {nominal: 4 ohm}
joints:
  mate: {T1: dash}
  crimp at dash with heat shrink:
    T1.unit.FL: dsp.in1
    T1.unit.FR: dsp.in2
    T1.unit.RL: dsp.in3
    T1.unit.RR: dsp.in4
    T1.car.FL: dsp.out1
    T1.car.FR: dsp.out2
    T1.car.RL: dsp.out3
    T1.car.RR: dsp.out4
"""
