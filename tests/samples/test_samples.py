"""Every shipped sample finds exactly what it says it finds, and what it borrows from the trade is right."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml

from harness.finding import Finding, Severity
from harness.prove import prove
from tests.checks.marks import Mark, marks_in, marks_of

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
JOBS = sorted(path for path in SAMPLES.glob("*-*.yaml") if not path.name.endswith(".evidence.yaml"))
FAULTY = SAMPLES / "saloon-fifteen-faults.yaml"
MUST_MEND = (Severity.STOP, Severity.FIX)

# The causes seeded in the faulty sample, each with what a person writes instead: (text, replacement) pairs.
_CAPPED = "  - T1.car.C\n"
ASKED_FOR = {"C01", "C03", "C05", "B01", "B03", "B06", "F22", "F23", "G01", "G12", "H01", "H03", "H07"}
CAUSES: dict[str, tuple[tuple[str, str], ...]] = {
    "B01": (
        ("T1.car.RR-: dsp.out4+    # finds B01", "T1.car.RR-: dsp.out4-"),
        ("T1.car.RR+: dsp.out4-", "T1.car.RR+: dsp.out4+"),
    ),
    "B03": (
        ("T1.car.FL-TW: dsp.out6    # finds B03", "T1.car.FL-TW: dsp.out5"),
        ("T1.car.FR-TW: dsp.out5", "T1.car.FR-TW: dsp.out6"),
    ),
    "B05": (("spk.RL-TW reversed    # finds B05", "spk.RL-TW"),),
    "B06": (
        ("T1.car.FL-: dsp.out2-    # finds B06", "T1.car.FL-: dsp.out1-"),
        ("T1.car.FR-: dsp.out1-", "T1.car.FR-: dsp.out2-"),
    ),
    "C01": (("through: 1..3 5..7", "through: 2..3 6..7"), ("bass.out1    # finds C01", "bass.out1")),
    "C03": (("    T1.unit.FR-: gnd.G1    # finds C03\n", ""),),
    "C04": (("    T1.unit.FL-: T1.unit.RL-    # finds C04\n", ""),),
    "C05": (("  - T1.unit.RR > 5 m rca > bass.in2    # finds C05\n", ""),),
    "F22": (
        ("gnd.G1: [T1.car.GND, T1.car.B+]    # finds F22", "gnd.G1: T1.car.GND"),
        (_CAPPED, _CAPPED + "  - T1.car.B+\n"),
    ),
    "F23": (
        ("dsp.rem: [T1.car.ACC, T1.car.AERIAL]    # finds F23", "dsp.rem: T1.car.ACC"),
        (_CAPPED, _CAPPED + "  - T1.car.AERIAL\n"),
    ),
    "G01": (("through: 8..11 20..21 24", "through: 8..11 20..22 24"), ("T1.unit.22    # finds G01", "T1.unit.22")),
    "G12": (
        ("bass.rem: T2.car.3    # finds G12", "bass.rem: dsp.rem-out"),
        (_CAPPED, _CAPPED + "  - T2.car.3\n"),
    ),
    "H01": (("AMP-ON YE 18 AWG    # finds H01", "AMP-ON YE 18 AWG"), (_CAPPED, _CAPPED + "  - T1.unit.12\n")),
    "H03": ((_CAPPED, ""), ("T1.unit.C: dsp.in7    # finds H03\n", "T1.unit.C: dsp.in7\n    T1.car.C: dsp.out7\n")),
    "H07": (("      2: ILL\n", "      2: ACC\n"), ("T2: boot    # finds H07", "T2: boot")),
}


def findings(path: Path, *, steps: bool = False) -> tuple[Finding, ...]:
    return prove(path, mends=False, steps=steps).report.findings


def told(path: Path, *, steps: bool = False) -> Counter[Mark]:
    places = [(finding.code, finding.places[0].place) for finding in findings(path, steps=steps)]
    return Counter(Mark(code, Path(place.file).name, place.line) for code, place in places)


def without(code: str) -> str:
    """The faulty sample with one cause put right by hand."""
    text = FAULTY.read_text(encoding="utf-8")
    for old, new in CAUSES[code]:
        assert text.count(old) == 1, f"{code}: {old!r} stands {text.count(old)} times in the sample"
        text = text.replace(old, new)
    return text


def test_there_are_five_samples() -> None:
    assert len(JOBS) == 5


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_sample_finds_exactly_what_it_says(path: Path) -> None:
    assert told(path) == marks_of(path)


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_nothing_more_is_at_risk_between_the_steps(path: Path) -> None:
    """Neither in a sample's own order nor in the proposed one; and every word of it is understood."""
    assert told(path, steps=True) == marks_of(path)
    report = prove(path, mends=False, steps=True).report
    assert not [each for each in report.unchecked if "step" in each.what or "order of work" in each.what]


def test_two_samples_say_their_own_order() -> None:
    own = [path.stem for path in JOBS if "\nsteps:\n" in path.read_text(encoding="utf-8")]
    assert own == ["estate-bus-amplifier", "hatch-solder-in"]


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_sample_says_that_it_states_its_findings_and_reads_clean(path: Path) -> None:
    opening = path.read_text(encoding="utf-8").partition("ringout: 1")[0]
    assert "must find exactly" in " ".join(opening.replace("#", " ").split())
    report = prove(path, mends=False).report
    assert report.verdict != "unreadable"
    assert [finding for finding in report.findings if finding.code.startswith("R")] == []


@pytest.mark.parametrize("path", [path for path in JOBS if path != FAULTY], ids=lambda path: path.stem)
def test_a_whole_sample_needs_no_mending(path: Path) -> None:
    assert [finding.code for finding in findings(path) if finding.severity in MUST_MEND] == []


def test_fifteen_causes_give_fifteen_findings() -> None:
    must_mend = [finding.code for finding in findings(FAULTY) if finding.severity in MUST_MEND]
    assert len(CAUSES) == 15
    assert sorted(must_mend) == sorted(CAUSES)
    assert set(CAUSES) >= ASKED_FOR


def _plug_names(text: str) -> tuple[set[str], set[str]]:
    """Names of the plugs, body plugs with them, and names of the looms, as the file writes them."""
    job = yaml.load(text, Loader=yaml.BaseLoader)
    return {*job["plugs"], *job["inline"]}, set(job["looms"])


def _crossed(path: tuple[str, ...], plugs: set[str], looms: set[str]) -> set[str]:
    """Plugs by their name and loom ends by loom and end: `kick`, `C204`, `T1.car`."""
    made = set()
    for contact in path:
        owner, _, rest = contact.partition(".")
        if owner in plugs:
            made.add(owner)
        elif owner in looms:
            made.add(f"{owner}.{rest.partition('.')[0]}")
    return made


@pytest.mark.parametrize("code", CAUSES)
def test_a_cause_is_told_with_a_path_over_three_plugs(code: str) -> None:
    plugs, looms = _plug_names(FAULTY.read_text(encoding="utf-8"))
    paths = [finding.path for finding in findings(FAULTY) if finding.code == code]
    assert len(paths) == 1
    assert len(_crossed(paths[0], plugs, looms)) >= 3, f"{code}: {' > '.join(paths[0]) or 'no path at all'}"


@pytest.mark.parametrize("code", CAUSES)
def test_a_cause_put_right_takes_its_own_finding_away_and_no_other(code: str, tmp_path: Path) -> None:
    text = without(code)
    mended = tmp_path / FAULTY.name
    mended.write_text(text, encoding="utf-8")
    expected = marks_in(text, FAULTY.name)
    as_shipped = Counter(mark.code for mark in marks_of(FAULTY))
    assert Counter(mark.code for mark in expected) == as_shipped - Counter([code])
    assert told(mended) == expected


def test_with_all_causes_put_right_nothing_must_be_mended(tmp_path: Path) -> None:
    text = FAULTY.read_text(encoding="utf-8")
    for code, pairs in CAUSES.items():
        for old, new in pairs:
            if old == _CAPPED:
                continue
            assert text.count(old) == 1, f"{code}: {old!r}"
            text = text.replace(old, new)
    # the caps of all the causes together; the centre's leads are joined again
    text = text.replace(_CAPPED, "  - T1.car.B+\n  - T1.car.AERIAL\n  - T2.car.3\n  - T1.unit.12\n")
    mended = tmp_path / FAULTY.name
    mended.write_text(text, encoding="utf-8")
    assert told(mended) == marks_in(text, FAULTY.name)
    assert {mark.code for mark in told(mended)} == {"A14"}


def _rows(plug: dict[str, Any]) -> dict[str, str]:
    """Cavity to function with its sign: `1/2: RR VT VT/BK` gives 1 RR+ and 2 RR-."""
    made = {}
    for key, row in plug["cavities"].items():
        function = row.split()[0]
        signs = ("H", "L") if function == "CAN" else ("+", "-")
        cavities = key.split("/")
        if len(cavities) == 1:
            made[key] = function
        else:
            made |= {cavity: f"{function}{sign}" for cavity, sign in zip(cavities, signs, strict=True)}
    return made


def _plug(file: str, name: str) -> dict[str, Any]:
    text = (SAMPLES / file).read_text(encoding="utf-8")
    plug: dict[str, Any] = yaml.load(text, Loader=yaml.BaseLoader)["plugs"][name]
    return plug


def test_loudspeaker_block_as_it_is_commonly_pinned() -> None:
    """ISO 10487 fixes the shape of the block only. The assignment is common practice, as public copies of
    encyclopaedias give it (seen 2026): B1 and B2 right rear, then right front, left front, left rear, + first.
    """
    plug = _plug("parts/alder-hatch.yaml", "block-b")
    assert _rows(plug) == {
        "1": "RR+", "2": "RR-", "3": "FR+", "4": "FR-", "5": "FL+", "6": "FL-", "7": "RL+", "8": "RL-",
    }  # fmt: skip
    assert plug["face"]["rows"].split("\n")[:2] == ["1 3 5 7", "2 4 6 8"]
    assert (plug["face"]["view"], plug["face"]["latch"]) == ("wire", "left")


def test_power_block_as_it_is_commonly_pinned() -> None:
    """ISO 10487, block A; common practice from the same copies (seen 2026). Optional ones may be left out."""
    common = {
        "1": "speed", "2": "MUTE", "3": "", "4": "B+", "5": "AERIAL", "6": "ILL", "7": "ACC", "8": "GND",
    }  # fmt: skip
    optional = {"1", "2", "3", "6"}
    plug = _plug("parts/alder-hatch.yaml", "block-a")
    rows = _rows(plug)
    assert set(rows) == set(common)
    for cavity, function in rows.items():
        assert function == common[cavity] or (function == "empty" and cavity in optional), cavity
    assert plug["face"]["rows"].split("\n")[:2] == ["1 3 5 7", "2 4 6 8"]
    assert (plug["face"]["view"], plug["face"]["latch"]) == ("wire", "left")


def test_diagnostic_plug_as_its_standard_has_it() -> None:
    """SAE J1962: 4 chassis ground, 5 signal ground, 6 CAN high, 14 CAN low, 16 battery; 1 to 8 over 9 to 16."""
    plug = _plug("estate-bus-amplifier.yaml", "service")
    assert _rows(plug) == {"4": "GND", "5": "GND", "6": "CANH", "14": "CANL", "16": "B+"}
    face = plug["face"]
    assert (face["rows"], face["columns"], face["first"], face["count"]) == ("2", "8", "top left", "across")
