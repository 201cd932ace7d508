"""What is told about a chart's rows, and that nothing of it is dropped or guessed.

Trade facts: common practice, no source, unless a line says otherwise.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from harness.charts.cells import rows_of
from harness.charts.decoding import NotText, decode
from harness.charts.headings import columns_of, field_of, read_fields
from harness.charts.hues import NotRead, hue, read_legend, size_of
from harness.charts.reading import Chart, Wanted, read_chart
from harness.charts.spoken import function_of
from harness.charts.told import Refusal
from harness.charts.writing import Source, part_file


def chart(text: str, **wanted: object) -> Chart:
    return read_chart(text.encode(), Wanted(**wanted))  # type: ignore[arg-type]


def told(read: Chart) -> list[tuple[str, int]]:
    return [(each.kind, each.row) for each in read.told]


def refused(text: str | bytes, **wanted: object) -> list[tuple[int, str]]:
    with pytest.raises(Refusal) as wrong:
        read_chart(text if isinstance(text, bytes) else text.encode(), Wanted(**wanted))  # type: ignore[arg-type]
    return [(each.line, each.message) for each in wrong.value.told]


# -- rows -----------------------------------------------------------------------------------------------------


def test_a_cavity_in_two_rows() -> None:
    """Two functions: neither is written, both stand in its note; what they agree on stays."""
    read = chart("pin,function,colour\n1,FL+,WH\n2,ACC,RD\n1,B+,WH\n")
    entry = read.entries[0]

    assert told(read) == [("twice", 4)]
    assert (entry.cavity, entry.function.name, entry.colour) == ("1", "unknown", "WH")
    assert "FL+" in entry.note
    assert "B+" in entry.note
    assert "rows 2, 4" in read.told[0].message
    assert read.told[0].own == "1,B+,WH"


@pytest.mark.parametrize("second", ["1", "01", "001"])
def test_the_same_said_twice(second: str) -> None:
    """Told, and written once; leading zeros make no other cavity (the reader's own rule)."""
    read = chart(f"pin,function\n1,FL+\n2,FL-\n{second},FL+\n")

    assert told(read) == [("twice", 4)]
    assert [entry.function.name for entry in read.entries] == ["FL+", "FL-"]


def test_two_rows_that_are_not_understood_are_not_the_same() -> None:
    read = chart("pin,function\n1,mystery\n1,riddle\n")

    assert "each with something else" in read.told[-1].message
    assert "mystery" in read.entries[0].note
    assert "riddle" in read.entries[0].note


def test_gaps_by_row() -> None:
    """1, 2, 5, 9 of 12: gaps of 3..4 behind row 3, 6..8 behind row 4, 10..12 behind row 5."""
    read = chart("pin,function\n1,ACC\n2,GND\n5,ILL\n9,B+\n", ways=12)

    assert [(each.row, each.message.split(" have")[0]) for each in read.told] == [
        (3, "Cavities 3 to 4"), (4, "Cavities 6 to 8"), (5, "Cavities 10 to 12"),
    ]  # fmt: skip
    assert [each.message for each in chart("pin,function\n2,GND\n1,ACC\n").told] == []


def test_gap_before_the_first_and_of_one() -> None:
    read = chart("pin,function\nA3,ACC\nA2,GND\n")

    assert [each.message[:24] for each in read.told] == ["Cavity A1 has no row (be"]


def test_outside_by_row() -> None:
    read = chart("pin,function\n1,ACC\n2,GND\n3,ILL\n17,B+\n0,MUTE\n", ways=3)

    assert [pair for pair in told(read) if pair[0] == "outside"] == [("outside", 5), ("outside", 6)]
    assert {entry.cavity for entry in read.entries} == {"0", "1", "2", "3", "17"}


def test_not_understood_is_kept_and_told() -> None:
    """Function, colour, size and twist that mean nothing stand in the note word for word, and each is told."""
    read = chart("pin,function,colour,size,twisted\n1,mystery line,GNYE,20,perhaps\n2,GND,BK,0.5,\n")
    entry = read.entries[0]

    assert told(read) == [("not understood", 2)] * 4
    assert (entry.function.name, entry.colour, entry.size, entry.twisted) == ("unknown", "", "", False)
    for word in ("mystery line", "GNYE", "20", "perhaps"):
        assert word in entry.note


def test_rows_without_cavity_are_kept() -> None:
    """In the plug's note, with their row."""
    read = chart("Chart of the dash plug\npin,function\n1,ACC\n,see page 4\n2-3,FL\n2,GND\n")
    text = part_file("dash", read, Source("x"), None)

    assert told(read) == [("kept", 1), ("not understood", 4), ("not understood", 5)]
    for words in ("Chart of the dash plug", "see page 4", "2-3"):
        assert words in text


def test_a_column_that_is_not_known_is_kept() -> None:
    read = chart("pin,function,Fuse\n1,ACC,10 A\n2,GND,\n")

    assert [entry.note for entry in read.entries] == ["Fuse: 10 A", ""]
    assert told(read) == [("kept", 1)]


@pytest.mark.parametrize(("function", "colour", "says"), [("", "", "nothing"), ("", "WH", "a wire and no function")])
def test_silence_is_not_empty(function: str, colour: str, says: str) -> None:
    """Not written, empty and unknown are three things (README, rules of writing)."""
    read = chart(f"pin,function,colour\n1,ACC,RD\n2,{function},{colour}\n")

    assert read.entries[1].function.name == "unknown"
    assert says in read.told[0].message


@pytest.mark.parametrize("wire", ["WH,", ",0.5", ",20"])
def test_empty_with_a_wire_is_not_empty(wire: str) -> None:
    """A colour, a size, or a size without its unit: something is there."""
    read = chart(f"pin,function,colour,size\n1,not used,{wire}\n2,not used,-,-\n3,-,,\n")

    assert [entry.function.name for entry in read.entries] == ["unknown", "empty", "empty"]
    assert "not used" in read.entries[0].note
    assert "the row has a wire" in read.told[-1].message


def test_channel_without_sign_is_not_guessed() -> None:
    read = chart("pin,function\n1,FL\n2,FL\n")

    assert [entry.function.name for entry in read.entries] == ["FL", "FL"]
    assert "doesn't say which is +" in read.told[0].message


def test_one_function_at_two_cavities() -> None:
    """Told for what comes in pairs; two grounds are common."""
    assert told(chart("pin,function\n1,FL+\n2,FL-\n3,FL+\n")) == [("twice", 4)]
    assert told(chart("pin,function\n1,GND\n2,GND\n")) == []


def test_a_row_for_each_pair() -> None:
    """Two columns of cavities, or two cavities and two colours in a cell: + first."""
    by_columns = chart("Channel,Pin +,Pin -,Colour +,Colour -\nFL,1,11,WH,WH/BK\nFR,12,2,GY,GY/BK\n")
    in_a_cell = chart("pin;signal;colour\n1/11;FL;WH, WH/BK\n12/2;FR;GY GY/BK\n4, 5;ground;BK BK\n")
    wanted = [("1", "FL+", "WH"), ("11", "FL-", "WH/BK"), ("12", "FR+", "GY"), ("2", "FR-", "GY/BK")]

    assert [(e.cavity, e.function.name, e.colour) for e in by_columns.entries] == wanted
    assert [(e.cavity, e.function.name, e.colour) for e in in_a_cell.entries[:4]] == wanted
    assert [(e.cavity, e.function.name) for e in in_a_cell.entries[4:]] == [("4", "GND"), ("5", "GND")]


def test_sign_and_stripe_in_columns_of_their_own() -> None:
    read = chart("No.,Channel,+/-,Base,Stripe\n1,FL,+,WH,\n2,FL,-,WH,BK\n3,Ground,-,BK,-\n4,Battery,+,YE,\n")

    assert [(e.function.name, e.colour) for e in read.entries] == [
        ("FL+", "WH"), ("FL-", "WH/BK"), ("GND", "BK"), ("B+", "YE"),
    ]  # fmt: skip


# -- legends --------------------------------------------------------------------------------------------------


def test_codes_want_a_legend() -> None:
    """SB is black on one legend and sky blue on another (makers' legends as quoted in the trade)."""
    text = "pin,function,colour\n1,ACC,SB\n2,ILL,SB/L\n3,GND,BK\n"
    asked = chart(text)
    settled = chart(text, legend=read_legend("SB=light blue; L: blue, V=violet"))

    assert asked.unread == {"SB": (2, 3), "L": (3,)}
    assert [entry.colour for entry in asked.entries] == ["SB", "SB/L", "BK"]
    assert settled.unread == {}
    assert settled.legend == {"L": "blue", "SB": "light blue"}
    assert "legend: {L: blue, SB: light blue}" in part_file("dash", settled, Source("x"), None)


def test_a_legend_beats_the_letters() -> None:
    """On a page whose legend says so, GN is no green."""
    read = chart("pin,function,colour\n1,ACC,GN\n2,GND,BK\n", legend=read_legend("GN=grey"))

    assert (read.entries[0].colour, read.legend) == ("GN", {"GN": "grey"})


@pytest.mark.parametrize("text", ["SB", "SB=", "=blue", "SB=sky", "S B=blue", "SB=blue, SB=black", "123=blue"])
def test_legends_that_are_none(text: str) -> None:
    with pytest.raises(ValueError):
        read_legend(text)


# -- words ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    ["12V", "Remote", "30", "30A", "15", "1853", "Speaker +", "Left +", "Front", "FL SUB", "ground +", "battery -",
     "left right front", "FL+ and FR+", "dimmer", "R", "driver +", "TW", "FL++", "+",
     "FL - door", "FL+ left front -", "left front mystery",
     "FL mystery +", "left front tweeter woofer"],
)  # fmt: skip
def test_functions_that_are_not_guessed(text: str) -> None:
    """Two readings, or none."""
    assert function_of([text]) is None


@pytest.mark.parametrize(
    ("text", "name"),
    [("terminal 30", "30"), ("KL. 15", "15"), ("driver front +", "driver-front+"), ("Sub -", "SUB-"),
     ("Centre speaker (+)", "C+"), ("LF - speaker +", "FL+"),
     ("RCA1+", "rca1+"), ("LF-TW-", "FL-TW-"), ("rear passenger neg", "passenger-rear-"),
     ("Telephone mute", "MUTE"), ("drain wire", "SHIELD"), ("---", "empty"), ("?", "unknown")],
)  # fmt: skip
def test_functions(text: str, name: str) -> None:
    found = function_of([text])

    assert found is not None
    assert found.name == name


def test_columns_that_contradict() -> None:
    """Two columns that agree are one function; two that don't are none."""
    agreed = function_of(["FL+", "left front speaker"]), function_of(["FL-", "left front", "door"])

    assert [found.name if found else None for found in agreed] == ["FL+", "FL-"]
    assert function_of(["FL+", "right front speaker +"]) is None
    assert function_of(["FL+"], "-") is None
    assert function_of(["FL"], "x") is None


@pytest.mark.parametrize("text", ["GNYE", "dark blue", "a/b/c", "brown with two rings", "12", "WH/"])
def test_colours_that_are_none(text: str) -> None:
    """The joined letters of IEC 60757 lose which one is the stripe, so they are not read."""
    with pytest.raises(NotRead):
        hue(text, "", {})


def test_marks() -> None:
    """Rings and dots are no stripes."""
    assert [hue(f"grey with {mark}", "", {}).mark for mark in ("red rings", "a red stripe", "red dots")] == [
        "ring", "stripe", "dots",
    ]  # fmt: skip
    assert "mark: ring" in part_file("d", chart("pin,function,colour\n1,ACC,grey with red rings\n2,GND,\n"),
                                     Source("x"), None)  # fmt: skip


@pytest.mark.parametrize(
    ("text", "unit", "size"),
    [("0,5", "", "0.5 mm2"), ("20", "AWG", "20 AWG"), ("20", "mm2", "20 mm2"), ("08", "AWG", "8 AWG"),
     ("1/0", "AWG", "1/0 AWG"),
     ("8 SAE", "", "8 SAE"), ("2.5 sqmm", "AWG", "2.5 mm2"), ("n/a", "", "")],
)  # fmt: skip
def test_sizes(text: str, unit: str, size: str) -> None:
    assert size_of(text, unit) == size


@pytest.mark.parametrize(
    ("text", "unit"), [("20", ""), ("0", "mm2"), ("41", "AWG"), ("0.5", "AWG"), ("thin", "mm2"), ("7", "SAE")]
)
def test_sizes_that_are_none(text: str, unit: str) -> None:
    """AWG runs to 40 here, and no gauge has a decimal (ASTM B258)."""
    with pytest.raises(NotRead):
        size_of(text, unit)


def test_unit_in_the_heading() -> None:
    assert chart("pin,function,AWG\n1,ACC,20\n2,GND,18\n").entries[0].size == "20 AWG"
    assert chart("pin,function,Size (mm²)\n1,ACC,2\n2,GND,1\n").entries[0].size == "2 mm2"
    assert chart("pin,function,Size\n1,ACC,20\n2,GND,18\n", size_unit="AWG").entries[0].size == "20 AWG"


# -- headings -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("heading", "field"),
    [("Cavity", "cavity"), ("pin", "cavity"), ("No.", "cavity"), ("PIN #", "cavity"), ("Function", "function"),
     ("signal", "function"), ("Channel", "function"), ("CIRCUIT", "function"),
     ("Colour", "colour"), ("color", "colour"),
     ("Wire Color", "colour"), ("size", "size"), ("Gauge", "size"), ("Notes", "note"),
     ("Circuit no.", ""), ("Wire", ""),
     ("Fuse", ""), ("Pin (+)", "cavity+")],
)  # fmt: skip
def test_headings(heading: str, field: str) -> None:
    assert field_of(heading) == field


def test_a_second_column_of_a_kind_is_kept_as_a_note() -> None:
    assert [column.field for column in columns_of(["Pin", "Cavity", "Signal", "Channel"], {})] == [
        "cavity", "", "function", "function",
    ]  # fmt: skip


def test_without_headings() -> None:
    """Refused with the first row; by `columns` it is read."""
    text = "1;FL+;WH;x\n11;FL-;WH/BK;y\n"

    assert refused(text)[0][0] == 1
    read = chart(text, columns=tuple(read_fields("cavity function colour -")))
    assert [(e.cavity, e.function.name, e.note) for e in read.entries] == [("1", "FL+", "x"), ("11", "FL-", "y")]


def test_one_heading_missing() -> None:
    text = "Wire,Signal,Slot\n1,FL+,1\n"

    assert refused(text + "")[0][1] == "No row has headings that are known."
    assert refused("50 %s,Size,Colour\nx,1,WH\n") == [
        (1, "No column is headed as the cavity."), (1, "No column is headed as the function."),
    ]  # fmt: skip
    assert refused("Slot,Signal,Colour\nx,FL+,WH\n") == [(1, "No column is headed as the cavity.")]
    assert chart("Slot,Signal,Colour\n4,FL+,WH\n", headings={"slot": "cavity"}).entries[0].cavity == "4"
    assert refused("Pin,Signal\n4,FL+\n", headings={"slot": "note"}) == [(1, "No column is headed “slot”.")]


def test_cells_beside_the_columns_are_kept() -> None:
    """A row longer than the headings, and one that has no cavity."""
    read = chart("pin,function\n1,ACC,over there\n,lost,and found\n2,GND\n")

    assert [entry.note for entry in read.entries] == ["over there", ""]
    assert read.loose == ("row 3: function lost, and found",)


def test_asked_for_columns() -> None:
    """The first row is shown where there are no headings, else the headings; what is left over is kept as a note."""
    shown = []

    def answer(row: object) -> str:
        shown.append(row.cells)  # type: ignore[attr-defined]
        return "cavity function - size"

    headed = read_chart(b"Slot;Signal;Maker;AWG;Fuse\n1;ACC;x;20;10 A\n", Wanted(), answer)
    bare = read_chart(b"1;ACC;x;0.5\n", Wanted(), answer)

    assert shown == [("Slot", "Signal", "Maker", "AWG", "Fuse"), ("1", "ACC", "x", "0.5")]
    assert [(e.cavity, e.function.name, e.size, e.note) for e in (*headed.entries, *bare.entries)] == [
        ("1", "ACC", "20 AWG", "Maker: x; Fuse: 10 A"), ("1", "ACC", "0.5 mm2", "x"),
    ]  # fmt: skip
    with pytest.raises(Refusal):
        read_chart(b"1;ACC;x;0.5\n", Wanted(), lambda _: "")


def test_more_than_a_note_can_hold() -> None:
    """The job file's notes have at most 5000 characters; a row, or the rows of one cavity, beyond that are refused."""
    row = "pin,function," + ",".join("note" for _ in range(4)) + "\n"
    long = ",".join("x" * 900 for _ in range(4))
    many = "".join(f"1,mystery {n},{'y' * 900},,,\n" for n in range(8))

    assert refused(f"{row}1,ACC,{long}\n2,GND,,,,\n") == [(2, "The row holds more than 1500 characters.")]
    assert "more than a note can hold" in refused(row + many)[0][1]
    same = "".join(f"1,ACC,{n}{'y' * 900},,,\n" for n in range(8))
    assert "more than a note can hold" in refused(row + same)[0][1]


@pytest.mark.parametrize("words", ["function colour", "cavity", "cavity function hue", "cavity cavity function"])
def test_columns_that_are_none(words: str) -> None:
    with pytest.raises(ValueError):
        read_fields(words)


# -- the file -------------------------------------------------------------------------------------------------

TEXT = "pin;function;note\n1;ACC;Größe – 5 µF\n2;GND;\n"


@pytest.mark.parametrize(
    ("encoding", "said"),
    [("utf-8", "UTF-8"), ("utf-8-sig", "UTF-8 with a mark"), ("utf-16", "UTF-16"),
     ("utf-16-le", "UTF-16 without a mark"),
     ("utf-16-be", "UTF-16 without a mark"), ("cp1252", "Windows (cp1252)")],
)  # fmt: skip
def test_encodings(encoding: str, said: str) -> None:
    decoded = decode(TEXT.encode(encoding))

    assert decoded == (TEXT, said)


@pytest.mark.parametrize(
    ("raw", "line"),
    [
        (b"pin,function\n1,\x8d\n", 2),  # cp1252 has no character there
        (b"\xef\xbb\xbfpin\n1\n\xe4\n", 3),  # a UTF-8 mark, then no UTF-8
        (b"pin,function\r\n1,\x01\r\n", 2),
        (b"PK\x03\x04 and more", 0),
        (b"\xff\xfe\x00\x00p\x00\x00\x00", 0),
        (b"\xff\xfep\x00\x00\xd8p\x00", 0),  # a lone surrogate
        (b"a" * 4_000_001, 0),
    ],
)
def test_not_text(raw: bytes, line: int) -> None:
    with pytest.raises(NotText) as wrong:
        decode(raw)
    assert wrong.value.line == line


def test_encoding_asked_for() -> None:
    """What was asked for is not tried otherwise."""
    with pytest.raises(NotText):
        decode("ä".encode("cp1252"), "utf-8")
    assert decode("ä".encode(), "cp1252").text == "Ã¤"
    for encoding in ("utf-16", "utf-16-le", "utf-16-be"):
        assert decode("pin;function".encode(encoding), "utf-16").text == "pin;function"


def test_separator_said_in_the_first_line() -> None:
    """As spreadsheets write it; that line is no row."""
    read = chart("sep=;\npin;function\n1;ACC\n1;GND\n")

    assert read.told[0].where == "row 3 (line 4)"


def test_a_quote_left_open_is_told_where_it_opens() -> None:
    assert refused('pin,function\n1,ACC\n2,"GND\n3,ILL\n') == [(3, "A quote is opened here and never closed.")]


def test_lines_in_a_cell_keep_rows_and_lines_apart() -> None:
    read = chart('pin,function,note\n1,ACC,"a\nb"\n1,GND,\n')

    assert read.told[0].where == "row 3 (line 4)"
    assert read.told[0].own == "1,GND,"


@pytest.mark.parametrize("text", ["", "\n\n", ",,,\n", "sep=;\n"])
def test_nothing_there(text: str) -> None:
    assert refused(text) == [(0, "There is nothing in the file.")]


def test_too_much() -> None:
    """All of it in one pass."""
    wide = "pin,function" + "," * 300 + "\n1," + "x" * 1001 + "\n"

    assert [line for line, _ in refused(wide, separator="comma")] == [1, 2]
    assert "2000 rows" in refused("pin,function\n" + "1,ACC\n" * 2001)[0][1]


@settings(max_examples=300, deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(raw: bytes) -> None:
    try:
        read_chart(raw, Wanted())
    except Refusal as refusal:
        messages = [each.message for each in refusal.told]
    else:
        messages = ["read"]
    assert all(messages)


_CELLS = st.sampled_from(["1", "2", "a9", "FL+", "FL-", "x" * 50, "", "-", "WH", "SB/L", "0.5", "'", '"',
                          "{a: b}", "# c",
                          "on", "30", "\u2028", "&x", "1/2", "WH WH/BK", "\ufeff", "FL", "twisted", "’"])  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(st.lists(st.lists(_CELLS, min_size=1, max_size=5), min_size=1, max_size=8))
def test_what_is_written_is_read_the_same(table: list[list[str]]) -> None:
    """By the reader of the job file, whatever stood in the cells; and every cell's text is somewhere."""
    from harness.charts.placing import misread

    held = "pin;function;colour;note;size\n" + "\n".join(
        ";".join('"' + cell.replace('"', '""') + '"' for cell in row) for row in table
    )
    try:
        read = read_chart(held.encode(), Wanted(separator="semicolon"))
    except Refusal as refusal:
        read, reason = None, refusal.told[0].message
    if read is None:
        assert reason.startswith("No row has a cavity")
        return
    text = part_file("dash", read, Source("x"), None)

    assert misread(text, "dash", read.entries, job=False) == []


def test_rows_as_the_csv_module_has_them() -> None:
    """Quotes, doubled quotes, quotes inside, empty last cells, every line end."""
    import csv
    import io

    text = 'a,"b ""c""",d"e\r\n"x\ny",,\n"",1\r2,"3"4,\n'
    expected = [tuple(" ".join(cell.split()) for cell in row) for row in csv.reader(io.StringIO(text, newline=""))]

    assert [row.cells for row in rows_of(text, ",")[0]] == [row for row in expected if any(row)]


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ("1,FL+\n2,FR+\n3,FR-\n", ["FL+ at cavity 1: no row has FL-, its other wire."]),
        ("1,CAN-L\n2,GND\n", ["CAN-L at cavity 1: no row has CAN-H, its other wire."]),
        ("1,FL-\n2,RL+\n", ["FL- at cavity 1: no row has FL+, its other wire.",
                            "RL+ at cavity 2: no row has RL-, its other wire."]),
        ("1,FL+\n2,FL-\n3,CAN-H\n4,CAN-L\n5,B+\n6,ACC\n", []),
    ],
)  # fmt: skip
def test_half_a_pair_names_the_half_that_is_missing(rows: str, said: list[str]) -> None:
    assert [each.message for each in chart("pin,function\n" + rows).told] == said


def test_a_spreadsheets_own_file_says_that_it_cannot_be_read_yet() -> None:
    (told,) = refused(b"PK\x03\x04 and more")
    assert ".xlsx" in told[1]
    assert "yet" in told[1]
