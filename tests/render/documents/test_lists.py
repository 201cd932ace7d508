"""Lead list, plug sheets and splice list: everything of the job once, nothing twice, nothing invented."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable

import pytest

from harness.model.contact import printed
from harness.prove import Proof
from render.blocks import Banner, Caution, FacePair, Grid, Para, Sheet, Strong
from render.documents.plug_sheet import in_number_order

ALL = ["hatch-plug-in", "hatch-solder-in", "estate-bus-amplifier", "van-odd-but-right", "larch", "fir", "forty-ways"]
Text = Callable[[str, str], str]
Sheets = Callable[[str], tuple[Sheet, ...]]
Proofs = Callable[[str], Proof]


def _rows(text: str, names: list[str]) -> Counter[str]:
    """How often each name stands at the start of a line, alone in its column."""
    return Counter({name: len(re.findall(rf"^{re.escape(name)}(?=  |$)", text, flags=re.MULTILINE)) for name in names})


@pytest.mark.parametrize("job", ALL)
def test_each_lead_once(job: str, proof_of: Proofs, text_of: Text) -> None:
    parts = proof_of(job).job.parts  # type: ignore[union-attr]
    names = [printed(lead.name) for owner in (*parts.looms.values(), *parts.units.values()) for lead in owner.leads]

    assert _rows(text_of(job, "lead-list"), names) == Counter(dict.fromkeys(names, 1))


def test_the_leads_of_one_job_counted_by_hand(text_of: Text) -> None:
    text = text_of("larch", "lead-list")

    # four pairs at two ends, the branch at car 18, the aerial lead
    assert len(re.findall(r"^T1\.\S+", text, flags=re.MULTILINE)) == 4 * 2 * 2 + 1 + 1
    assert re.search(r"^T1\.aerial .* CAP +nothing$", text, flags=re.MULTILINE)
    assert re.search(r"^T1\.car\.18 .* JOIN.J9 +dsp rem$", text, flags=re.MULTILINE)
    assert re.search(r"^CAP +T1\.aerial \(AERIAL\) +blue +\[ \] done", text, flags=re.MULTILINE)
    # wires through: 9, 10, 18, 19, 20
    through = text.split("wires from end to end")[1].split("No leads")[0]
    assert "the same pin at both ends" in through
    found = re.findall(r"(?:^|  )(\d+) {2,}(?=[A-Z])", through, flags=re.MULTILINE)
    assert sorted(int(n) for n in found) == [9, 10, 18, 19, 20]


def test_each_fate_is_said(text_of: Text) -> None:
    text = text_of("fir", "lead-list")

    for name, fate in {
        "L1.unit.1": "CAP", "L1.unit.5": "DEPIN", "L1.unit.6": "LOOSE: not decided", "L1.car.1": "JOIN",
        "new.rem": "LOOSE: not decided",
    }.items():  # fmt: skip
        assert re.search(rf"^{re.escape(name)} .*{fate}", text, flags=re.MULTILINE), name
    assert "CROSSES to another number" in text
    for name, verb in {"L1.spare": "CAP", "L1.unit.5": "DEPIN", "L1.unit.6": "DECIDE", "new rem": "DECIDE"}.items():
        assert len(re.findall(rf"^{verb} +{re.escape(name)} ", text, flags=re.MULTILINE)) == 1, name


def _leads(sheets: tuple[Sheet, ...]) -> list[tuple[str, str]]:
    """Lead and what to do with it, of each row of the lead list."""
    sheet = next(each for each in sheets if each.name == "lead-list")
    made = []
    for block in sheet.blocks:
        if isinstance(block, Grid) and block.columns[0].title == "Lead":
            for row in block.rows:
                lead, do = row[0], row[4]
                assert isinstance(lead, Strong)
                assert isinstance(do, Strong)
                made.append((lead.text, do.text.replace("\N{NO-BREAK SPACE}", " ")))
    return made


@pytest.mark.parametrize("job", [*ALL, "saloon-fifteen-faults"])
def test_what_a_lead_is_joined_by_has_a_row_of_that_name(job: str, sheets_of: Sheets) -> None:
    sheet = next(each for each in sheets_of(job) if each.name == "splice-list")
    rows = {
        row[0].text.replace("\N{NO-BREAK SPACE}", " ")
        for block in sheet.blocks
        if isinstance(block, Grid) and block.columns[0].title in ("Joint", "Run")
        for row in block.rows
        if isinstance(row[0], Strong)
    }
    for lead, do in _leads(sheets_of(job)):
        for line in do.split("\n"):
            verb, _, names = line.partition(" ")
            assert verb in ("JOIN", "RUN", "CAP", "DEPIN", "LEAVE:", "LOOSE:", "also"), (lead, do)
            wanted = names.split(", ") if verb == "JOIN" else [line] if verb == "RUN" else []
            assert set(wanted) <= rows, (lead, do)


def test_a_run_s_lead_says_its_run_and_no_joint(sheets_of: Sheets, text_of: Text) -> None:
    assert dict(_leads(sheets_of("van-odd-but-right")))["T7.car.5"] == "RUN 3"  # the third line of its runs
    assert dict(_leads(sheets_of("hatch-plug-in")))["dsp.rem-out"] == "RUN 7"
    text = text_of("van-odd-but-right", "splice-list")
    assert re.search(r"^RUN.3 +T7\.car\.5 +dsp B\+ +fuse 5 A", text, flags=re.MULTILINE)
    # a lead with both: the saloon's rear pair goes into the processor and on a run of its own as well
    both = dict(_leads(sheets_of("saloon-fifteen-faults")))["T1.unit.4"]
    assert both == "JOIN J4\nRUN 7"


def test_a_cut_wire_says_where_both_its_ends_go(text_of: Text) -> None:
    text = text_of("hatch-solder-in", "lead-list")

    assert re.search(r"^sound.5.\(FL\+\) +white +dsp in1\+ +dsp out1\+ +\[ \] cut$", text, flags=re.MULTILINE)
    assert len(re.findall(r"\[ \] cut$", text, flags=re.MULTILINE)) == 8
    assert "Nothing to depin, move or cap, and no loose lead." in text
    assert "Nothing to cut, depin, move or cap, and no loose lead." in text_of("hatch-plug-in", "lead-list")


def test_the_words_of_a_plug_sheet_are_explained_and_no_others(sheets_of: Sheets) -> None:
    """Each word that stands on the face has its sentence on the same sheet."""
    seen = set()
    for job in (*ALL, "saloon-fifteen-faults"):
        for sheet in sheets_of(job):
            faces = [block for block in sheet.blocks if isinstance(block, FacePair)]
            used = {cavity.mark for pair in faces for cavity in pair.face.cavities} - {""}
            said = " ".join(block.text for block in sheet.blocks if isinstance(block, Para))
            explained = {word for word in WORDS if f"{word}: " in said or f"{word} (" in said}
            if faces:
                assert explained == used, (job, sheet.name)
            seen |= used
    assert seen >= {"LOOM", "CUT", "TAP", "PASS", "1 END", "OPEN", "CROSS"}


WORDS = ("LOOM", "CUT", "TAP", "PASS", "CROSS", "1 END", "CAP", "DEPIN", "OPEN", "LEAVE")


def test_the_words_of_the_lead_list_are_explained(text_of: Text) -> None:
    van, fir = (" ".join(text_of(job, "lead-list").split()) for job in ("van-odd-but-right", "fir"))

    assert "JOIN: make that joint" in van
    assert "RUN: an end of that run" in van
    assert "CAP: insulate" in van
    assert "LOOSE: a" not in van
    assert "LOOSE: a bare end" in fir
    assert "DEPIN: take" in fir
    assert "RUN: an" not in fir


def test_a_housing_says_its_ways_once_and_without_contradiction(text_of: Text) -> None:
    drawn = " ".join(text_of("hatch-plug-in", "plug-sheet-sound").split())
    assert "Housing: 8-way block B, unit side pins" in drawn
    assert "8 ways" not in drawn
    bare = " ".join(text_of("fir", "plug-sheet-noview").replace("|", " ").split())
    assert "The housing says 4-way; its cavities are not drawn." in bare
    assert "The housing says" not in text_of("fir", "plug-sheet-bag")  # its housing is not written at all


def test_no_function_is_said_twice(text_of: Text) -> None:
    text = text_of("estate-bus-amplifier", "lead-list") + text_of("estate-bus-amplifier", "plug-sheet-seat")

    assert "in1+ (in1+)" not in text
    assert not re.search(r"^in1 +in1", text, flags=re.MULTILINE)


def test_marker_colours_are_the_trades(text_of: Text) -> None:
    text = text_of("van-odd-but-right", "lead-list").split("Marker colours")[1]

    for channel, colour in {"FL": "white", "FR": "grey", "RL": "green", "RR": "violet"}.items():
        assert re.search(rf"^{channel} +\S+ \S+ +{colour} +{colour} with black stripe$", text, flags=re.MULTILINE)


def _cavities(sheet: Sheet) -> tuple[list[str], list[str], list[str]]:
    """The numbers in the sheet's lists of cavities, in its line of empty ones, in its line of unrecorded ones."""
    listed = []
    for block in sheet.blocks:
        if isinstance(block, Grid):
            at = [index for index, column in enumerate(block.columns) if column.title == "Cavity"]
            listed += [row[index].text for row in block.rows for index in at if row[index]]  # type: ignore[union-attr]
    said = [line for block in sheet.blocks if isinstance(block, Para) for line in block.text.split("\n")]
    lines = []
    for start in ("Empty, no wire", "Not recorded"):
        found = [text.partition(": cavity ")[2].rstrip(".") for text in said if text.startswith(start)]
        lines.append(found[0].split(", ") if found else [])
    return listed, lines[0], lines[1]


@pytest.mark.parametrize("job", ALL)
def test_each_cavity_once(job: str, proof_of: Proofs, sheets_of: Sheets) -> None:
    sheets = {sheet.name: sheet for sheet in sheets_of(job)}
    for plug in proof_of(job).job.parts.plugs.values():  # type: ignore[union-attr]
        if plug.inline:
            continue
        listed, empty, missing = _cavities(sheets[f"plug-sheet-{plug.name}"])
        cavities = list(dict.fromkeys(plug.cavities))
        if plug.face is not None:
            cavities += [n for line in plug.face.drawn for n in line if n is not None and n not in cavities]

        assert Counter([*listed, *empty, *missing]) == Counter(cavities), plug.name
        down = listed if len(listed) < 2 or listed[1:2] == sorted(listed, key=in_number_order)[1:2] else listed[::2]
        assert down == sorted(down, key=in_number_order), plug.name
        bare = {row.cavity for row in plug.rows if row.function.kind == "empty"}
        assert set(empty) <= bare
        assert not set(missing) & {row.cavity for row in plug.rows}


def test_empty_unknown_and_not_recorded_are_three_things(text_of: Text, sheets_of: Sheets) -> None:
    sheets = {sheet.name: sheet for sheet in sheets_of("fir")}
    amp, noview = sheets["plug-sheet-amp"], sheets["plug-sheet-noview"]

    assert _cavities(amp)[1:] == (["11"], ["12"])
    assert _cavities(noview)[1:] == ([], ["4"])
    text = " ".join(text_of("fir", "plug-sheet-noview").split())
    assert "1 unknown green" in text
    assert "unknown: looked for, not known" in text


def test_a_plug_that_the_plan_leaves_alone_says_so_first(sheets_of: Sheets, text_of: Text) -> None:
    sheets = {sheet.name: sheet for sheet in sheets_of("estate-bus-amplifier")}
    for name, alone in {"dash": True, "service": True, "seat": False}.items():
        first = sheets[f"plug-sheet-{name}"].blocks[0]
        assert (isinstance(first, Banner) and "LEAVE ALONE" in first.text) == alone, name
        pair = next(block for block in sheets[f"plug-sheet-{name}"].blocks if isinstance(block, FacePair))
        assert any(cavity.mark for cavity in pair.face.cavities) != alone, name
    # hand count from the job: dash has ten twisted wires, and MUTE is the only lone signal
    text = " ".join(text_of("estate-bus-amplifier", "plug-sheet-dash").split())
    assert "Twisted: 1 to 4, 6, 10 to 14, 16, 20." in text
    assert "Speaker pairs, + / −, none in use, all charted: FL 1/11, FR 2/12, RL 3/13, RR 4/14." in text
    assert "Empty, no wire: cavity 7, 8, 15, 17, 18." in text


def test_no_face_without_a_view(sheets_of: Sheets) -> None:
    sheets = {sheet.name: sheet for sheet in sheets_of("fir")}

    for name, drawn in {"amp": 1, "noview": 0, "bag": 0}.items():
        blocks = sheets[f"plug-sheet-{name}"].blocks
        assert sum(isinstance(block, FacePair) for block in blocks) == drawn
        why = [block.text for block in blocks if isinstance(block, Caution) and "No face is drawn" in block.text]
        assert len(why) == 1 - drawn
    assert "wire side or from the mating side" in str(sheets["plug-sheet-noview"].blocks)


def test_the_face_is_the_one_in_the_job(sheets_of: Sheets) -> None:
    pair = next(
        block for sheet in sheets_of("fir") for block in sheet.blocks if isinstance(block, FacePair)
    )  # only amp has one
    shape = pair.face.shape

    assert (pair.held, shape.view, shape.latch) == ("wire", "mating", "bottom")
    assert shape.rows == (("1", "3", "5", "7", "9", "11"), ("2", "4", "6", "8", "10", "12"))  # counted down
    assert {c.number: (c.state, c.mark) for c in pair.face.cavities if c.number in ("1", "7", "11")} == {
        "1": ("highlighted", "1 END"), "7": ("highlighted", "CROSS"), "11": ("crossed", ""),
    }  # fmt: skip


def test_where_each_half_goes(text_of: Text) -> None:
    text = text_of("larch", "plug-sheet-dash").split("cavity by cavity")[1]

    assert re.search(r"^13 +RL\+ +green .*USE BOTH +T1\.unit\.13 → +T1\.car\.13 →", text, flags=re.MULTILINE)
    assert re.search(r"^18 +AMP-ON .*PASS AND", text, flags=re.MULTILINE)
    assert re.search(r"^Empty, no wire: cavity .*\b8\b", text, flags=re.MULTILINE)
    # + on the higher number, and both colours
    assert re.search(r"^RL left rear +13 \+ +green +3 − +green with black stripe +in", text, flags=re.MULTILINE)


def test_inline_plugs_show_both_colours(text_of: Text) -> None:
    text = text_of("larch", "plug-sheet--inline")

    assert "C204, left front pillar" in text
    assert re.search(r"^C204 7 +green +blue +dash 13 car +speaker RL\+$", text, flags=re.MULTILINE)
    assert re.search(r"^C204 8 +green with black stripe +blue with black stripe", text, flags=re.MULTILINE)


@pytest.mark.parametrize("job", ALL)
def test_each_joint_once(job: str, proof_of: Proofs, text_of: Text) -> None:
    names = [joint.name for joint in proof_of(job).job.joints]  # type: ignore[union-attr]
    text = text_of(job, "splice-list").split("\nJoints\n")[1].split("Plugs to mate")[0].split("Runs to lay")[0]

    assert _rows(text, names) == Counter(dict.fromkeys(names, 1))


def test_a_joint_says_all_that_the_job_says(text_of: Text) -> None:
    text = text_of("fir", "splice-list")

    for words in ("stub 4 cm", "seat frame", "cover: heat", "REVERSED", "cover: not", "place not recorded"):
        assert words in text, words


def test_joints_stand_in_the_order_of_the_jobs_steps(text_of: Text, proof_of: Proofs) -> None:
    text = text_of("hatch-solder-in", "splice-list")
    job = proof_of("hatch-solder-in").job
    assert job is not None
    given = [step.verb for step in job.steps]

    order = text_of("hatch-solder-in", "work-order")
    assert re.findall(r"^\d+ +(\S+)", order, flags=re.MULTILINE) == given
    grids = text.split("\nJoints\n")[1]
    assert grids.index("dsp in1+") < grids.index("dsp out1+")


def test_forty_ways_lie_across_the_paper(sheets_of: Sheets) -> None:
    sheet = next(each for each in sheets_of("forty-ways") if each.name == "plug-sheet-seat")
    listed, empty, missing = _cavities(sheet)

    assert sheet.landscape
    assert empty == ["19"]
    assert missing == ["13", "14", "21", "22", "23", "24", "25", "26", "27", "40"]
    assert sorted(int(n) for n in (*listed, *empty, *missing)) == list(range(1, 41))
