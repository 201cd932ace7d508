"""Cover, masthead, route pictures; the packet as a whole."""

from __future__ import annotations

import io
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from harness.finding import Counts, Finding, Report, Severity, Spot
from harness.place import Place
from harness.prove import Proof, prove
from render.blocks import Edge, Para, Picture, Sheet
from render.documents import documents, packet
from render.documents.masthead import masthead

Text = Callable[[str, str], str]
Sheets = Callable[[str], tuple[Sheet, ...]]
Proofs = Callable[[str], Proof]
JOBS = Path(__file__).parent / "jobs"


def test_all_kinds_of_sheets() -> None:
    assert [kind.name for kind in documents()] == [
        "cover", "plug-sheet", "lead-list", "work-order", "splice-list", "toning", "route-picture", "levels", "supply",
        "turn-on", "gain-card", "settings", "parts", "cut-list", "also-recorded", "as-built", "photos", "handover",
        "customer", "basis",
    ]  # fmt: skip


def test_the_cover_says_no_more_than_the_evidence(text_of: Text) -> None:
    text = text_of("larch", "cover")

    assert "CONSISTENT, NOT VERIFIED" in text
    assert "nothing here is proved until" in text
    assert text.count("VERIFIED") == text.count("NOT VERIFIED")


def test_the_cover_has_every_finding_and_what_was_not_checked(text_of: Text, proof_of: Proofs) -> None:
    report = proof_of("fir").report
    lines = text_of("fir", "cover").splitlines()
    codes = [line.split()[0] for line in lines if line[:1].isalpha() and line[1:3].isdigit()]

    assert sorted(codes) == sorted(finding.code for finding in report.findings)
    for each in report.unchecked:
        assert any(line.startswith(f"- {each.what[:40]}") for line in lines), each
    assert any("carries SRS: leave it closed" in line for line in lines)
    titles = next(index for index, line in enumerate(lines) if "Comes out of" in line)
    assert lines[titles : titles + 4][-1].rstrip().endswith("famp") or "famp" in " ".join(lines[titles : titles + 4])


def test_the_cover_cautions(text_of: Text) -> None:
    text = text_of("larch", "cover")

    for word in (
        "Local codes and licensed practice come before anything",
        "Restraint",
        "High voltage",
        "Battery",
        "Fuses",
        "Hearing",
    ):
        assert word in text, word


def test_the_preset_stands_with_its_basis(text_of: Text) -> None:
    assert "crimp" in text_of("fir", "cover")
    assert "Preset crimp:" in text_of("fir", "basis")
    assert "seen 2026" in text_of("fir", "basis")


@pytest.mark.parametrize(
    ("verdict", "severity", "words"),
    [
        ("stop", Severity.STOP, "STOP: 1 finding of damage or danger"),
        ("mend", Severity.FIX, "MEND FIRST: 1 finding needs a change"),
        ("consistent-not-verified", Severity.ASK, "CONSISTENT, NOT VERIFIED"),
        ("verified", Severity.NOTE, "VERIFIED"),
    ],
)
def test_the_masthead_says_the_verdict(verdict: str, severity: Severity, words: str, proof_of: Proofs) -> None:
    proof = proof_of("larch")
    finding = Finding("X99", severity, "t", (Spot(Place("f", 1, 1), "n"),), "m", "d")
    report = Report(verdict, "house", Counts(3, 2, 1), (), (finding,))
    head = masthead(Proof(proof.job_path, proof.job, proof.wiring, report))

    assert head.state == words
    assert head.counts == "pairs in use: 3 charted, 2 measured, 1 toned"


def test_the_digest_is_of_the_job_and_its_parts(tmp_path: Path, root: Path) -> None:
    shutil.copytree(root / "samples", tmp_path / "one")
    shutil.copytree(root / "samples", tmp_path / "two")
    name = "hatch-plug-in.yaml"
    first = masthead(prove(tmp_path / "one" / name, mends=False)).digest
    same = masthead(prove(tmp_path / "two" / name, mends=False)).digest
    with (tmp_path / "two" / "parts" / "alder-hatch.yaml").open("a", encoding="utf-8") as part:
        part.write("# one more line\n")
    other = masthead(prove(tmp_path / "two" / name, mends=False)).digest

    assert len(first) == 12
    assert first == same != other


def _edges(sheets: tuple[Sheet, ...]) -> list[Edge]:
    route = next(sheet for sheet in sheets if sheet.name == "route-picture")
    return [edge for block in route.blocks if isinstance(block, Picture) for edge in block.edges]


def test_each_speaker_is_reached_in_the_picture_of_the_whole(sheets_of: Sheets) -> None:
    route = next(sheet for sheet in sheets_of("larch") if sheet.name == "route-picture")
    whole = next(block for block in route.blocks if isinstance(block, Picture))
    reached = {"radio.FL"}
    for _ in whole.edges:
        reached |= {edge.head for edge in whole.edges if edge.tail in reached}

    assert {name for name in reached if name.startswith("spk.")} == {"spk.FL", "spk.FL-TW"}
    heads = {edge.head for edge in whole.edges}
    assert {"spk.FL", "spk.FR", "spk.RL", "spk.RR", "spk.FL-TW", "spk.FR-TW", "spk.SUB"} <= heads


def test_a_reversed_leg_is_said_in_words(sheets_of: Sheets) -> None:
    turned = [edge for edge in _edges(sheets_of("van-odd-but-right")) if "REVERSED, on purpose" in edge.words]

    # FL-TW and FR-TW, in the picture of the whole and on their own legs
    assert len(turned) == 4
    assert {edge.head for edge in turned} == {"spk.FL-TW", "spk.FR-TW", "speaker FL-TW", "speaker FR-TW"}
    assert not [edge for edge in _edges(sheets_of("larch")) if "REVERSED" in edge.words]


def test_a_job_without_signals_says_so(text_of: Text) -> None:
    assert "No signal reaches a speaker in this plan" in text_of("fir", "route-picture")


def test_same_job_same_bytes(tmp_path: Path) -> None:
    written = []
    for folder in ("one", "two"):
        (tmp_path / folder).mkdir()
        job = shutil.copy(JOBS / "larch.yaml", tmp_path / folder / "larch.yaml")
        paths = packet(prove(job, mends=False), tmp_path / folder / "paper")
        written.append({path.name: path.read_bytes() for path in paths})

    assert written[0] == written[1]
    assert {"packet.pdf", "packet.txt"} <= set(written[0])


def test_a_cover_with_a_stop_shouts(text_of: Text, proof_of: Proofs) -> None:
    proof = proof_of("saloon-fifteen-faults")
    text = text_of("saloon-fifteen-faults", "cover")
    stops = [each for each in proof.report.findings if each.severity == Severity.STOP]

    assert masthead(proof).loud
    assert not masthead(proof_of("larch")).loud
    assert f"## STOP: {len(stops)} findings of damage or danger" in text
    first = text.index("STOP: damage or danger")
    assert first < text.index("FIX: won't work") < text.index("ASK: evidence missing") < text.index("Before you touch")
    tally = {severity: sum(each.severity == severity for each in proof.report.findings) for severity in Severity}
    assert "Findings: " + ", ".join(f"{n} {s.name}" for s, n in tally.items() if n) in text


def test_the_smallest_change_stands_with_what_to_do_now() -> None:
    from render.documents import cover

    proof = prove(Path(__file__).resolve().parents[3] / "samples" / "saloon-fifteen-faults.yaml", mends=True)
    mended = [each for each in proof.report.findings if each.mend is not None]
    words = str(list(cover.sheets(proof)))
    assert mended
    for each in mended:
        assert each.mend is not None
        assert f"Smallest change: {each.mend.words}"[:60] in words


def test_without_graphviz_everything_else_prints(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("RINGOUT_DOT", "/no/such/program")
    paths = packet(prove(JOBS / "larch.yaml", mends=False), tmp_path)
    text = (tmp_path / "packet.txt").read_text(encoding="utf-8")

    assert "Pictures: Graphviz was not found, so the route pictures print as lists of connections." in text
    for title in ("Cover", "Plug dash", "Lead list", "Splice list", "Toning checklist", "Route pictures"):
        assert title in text
    assert (tmp_path / "packet.pdf").read_bytes().startswith(b"%PDF")
    assert any("route-picture" in path.name for path in paths)
    assert "/no/such" not in text


def test_no_path_of_this_machine_is_printed(tmp_path: Path, root: Path) -> None:
    printed = []
    for folder in ("one place", "another"):
        shutil.copytree(root / "samples", tmp_path / folder)
        paths = packet(prove(tmp_path / folder / "hatch-plug-in.yaml", mends=False), tmp_path / folder / "paper")
        printed.append({path.name: path.read_bytes() for path in paths})
        for path in paths:
            assert str(tmp_path).encode() not in path.read_bytes()
    assert printed[0] == printed[1]


def test_a_packet_is_short(tmp_path: Path, root: Path) -> None:
    """A page that nobody needs is one that nobody reads.

    Levels take one to two of them; work order, power tree, supply, turn-on chain and parts one each, gain card and
    settings share one, the cut list one, the basis two.
    """
    import pypdf

    for name, most in {"hatch-plug-in": 26, "hatch-solder-in": 26, "estate-bus-amplifier": 33,
                       "van-odd-but-right": 32, "saloon-fifteen-faults": 46}.items():  # fmt: skip
        paths = packet(prove(root / "samples" / f"{name}.yaml", mends=False), tmp_path / name)
        assert len(pypdf.PdfReader(io.BytesIO(paths[0].read_bytes())).pages) <= most, name


def test_signs_are_explained_where_they_are_drawn_and_nowhere_else(sheets_of: Sheets) -> None:
    def legend(job: str) -> str:
        route = next(sheet for sheet in sheets_of(job) if sheet.name == "route-picture")
        return next(block.text for block in route.blocks if isinstance(block, Para))

    signs = {
        "a twisted pair": "estate-bus-amplifier",
        "REVERSED": "van-odd-but-right",
        "“on purpose”": "van-odd-but-right",
        "A dot in a box": "hatch-plug-in",
        "with the loom in it": "hatch-plug-in",
    }
    for words, job in signs.items():
        assert words in legend(job), words
    assert "a twisted pair" not in legend("hatch-plug-in")
    assert "REVERSED" not in legend("hatch-plug-in")
    assert "“factory”" not in legend("van-odd-but-right")
    assert "with the loom in it" not in legend("hatch-solder-in")  # it has none
    assert "a joint of that wire alone" in legend("saloon-fifteen-faults")
    assert "a joint of that wire alone" not in legend("hatch-plug-in")


def test_a_pair_on_a_route_has_a_swatch_for_each_wire(sheets_of: Sheets) -> None:
    edges = {(edge.tail, edge.head): edge for edge in _edges(sheets_of("hatch-plug-in"))}
    edge = next(edge for (_, head), edge in edges.items() if head == "speaker RL")

    # C304 3/4, green with white and green with black behind the pillar's plug
    assert [(each.base, each.stripe) for each in edge.swatches] == [("GN", "WH"), ("GN", "BK")]
    assert [each.words for each in edge.swatches] == ["+\xa0green with white stripe", "−\xa0green with black stripe"]


def test_joints_in_line_are_drawn_to_the_way_back(sheets_of: Sheets) -> None:
    route = next(sheet for sheet in sheets_of("van-odd-but-right") if sheet.name == "route-picture")
    picture = next(
        block for block in route.blocks if isinstance(block, Picture) and block.title == "From bass to speakers"
    )
    titles = {node.name: node.title for node in picture.nodes}
    way = [titles[edge.tail] for edge in picture.edges] + [titles[picture.edges[-1].head]]

    assert way == ["bass out1+/out2−", "J10", "speaker SUB.c1", "J11", "speaker SUB.c2", "J12", "bass out2−"]


def test_twisted_pairs_carry_their_sign(sheets_of: Sheets) -> None:
    edges = _edges(sheets_of("estate-bus-amplifier"))

    # four line pairs from radio to factory amplifier, each in two pieces of the car's wiring
    assert sum(edge.twisted for edge in edges) == 8
    assert not any(edge.twisted for edge in _edges(sheets_of("hatch-plug-in")))


def test_pairs_not_to_tone_stand_with_the_pairs_to_tone(tmp_path: Path, root: Path) -> None:
    """A page with that table alone is one that is left in the van."""
    import pypdf

    paths = packet(prove(root / "samples" / "estate-bus-amplifier.yaml", mends=False), tmp_path)
    texts = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(paths[0].read_bytes())).pages]
    page = next(text for text in texts if "DO NOT TONE" in text)
    assert "(continued)" in page
    assert "Clip on" in page
    assert sum("DO NOT TONE" in text for text in texts) == 1
