"""What may be written about a plug, a loom and a unit: data."""

from __future__ import annotations

from harness.read import patterns as p
from harness.read.fields import Either, Fields, Listing, Shape, Word
from harness.read.spec_words import (
    CAVITY,
    COUNT,
    CURRENT,
    DATE,
    NAME,
    NAMES,
    NOTE,
    PAIR_KEY,
    PRICE,
    STOCK,
    TERMINAL,
    TEXT,
    quantity_of,
    some,
)

_MARK = Word("a mark", words=("stripe", "ring", "dots"))
_TWISTED = Word("the word `pair`", words=("pair",))
_SIZE = Word("a wire size", p.SIZE, "0.5 mm2", kind="size")


def _long_row(function: Word, colour: Word) -> Fields:
    keys: dict[str, Shape] = {
        "function": function,
        "colour": colour,
        "size": _SIZE,
        "mark": _MARK,
        "twisted": _TWISTED,
        "note": NOTE,
    }
    return Fields("a row", keys, required=("function",), example="{function: FL+, colour: WH/BK, size: 0.5 mm2}")


_ROW = Either(
    Word("FUNCTION COLOUR SIZE", p.ROW, "FL+ WH/BK 0.5 mm2", kind="row"),
    _long_row(
        Word("a function", f"{p.FUNCTION}|{p.EMPTY}|{p.UNKNOWN}", "FL+", kind="function"),
        Word("a colour", p.COLOUR, "WH/BK", kind="colour", unknown=True),
    ),
)
_PAIR_ROW = Either(
    Word("FUNCTION COLOUR+ COLOUR- SIZE", p.PAIR_ROW, "FL WH WH/BK 0.5 mm2", kind="pair row"),
    _long_row(
        Word(
            "a function that comes in pairs",
            f"{p.PAIR_FUNCTION}|{p.EMPTY}|{p.UNKNOWN}",
            "FL",
            kind="pair function",
        ),
        Word("two colours, + first", f"{p.COLOUR} {p.COLOUR}", "WH WH/BK", kind="colours", unknown=True),
    ),
)
_CAVITIES = Fields(
    "a table of cavities",
    rows=((CAVITY, _ROW), (PAIR_KEY, _PAIR_ROW)),
    example="{1/11: FL WH WH/BK 0.5 mm2}",
)
_LEGEND = Fields(
    "a table of colour codes",
    rows=(
        (
            Word("a colour code", "[A-Za-z]{1,3}", "SB", kind="code"),
            Word("a colour word", p.COLOUR_WORD, "light blue", kind="colour word"),
        ),
    ),
    example="{SB: light blue}",
)
_GENDER = Word("pins or sockets", words=("pins", "sockets"), unknown=True)
_COVERS = Word("a year or years", rf"{p.YEAR}(?:\.\.{p.YEAR})?", "2020..2023", kind="years", number=(1000, 2999))
_FACE = Fields(
    "a table about the face",
    {
        "rows": Word(
            "a number, or the numbers drawn",
            p.FACE_ROWS,
            "2",
            kind="face",
            most=5000,
            lines=True,
            number=(1, 99),
        ),
        "columns": COUNT,
        "view": Word("a view", words=("wire", "mating"), unknown=True),
        "latch": Word("a side", words=("top", "bottom", "left", "right"), unknown=True),
        "first": Word("a corner", words=("top left", "top right", "bottom left", "bottom right")),
        "count": Word("across or down", words=("across", "down")),
        "keying": TEXT,
    },
    example="{rows: 2, columns: 10, view: wire, latch: top, first: top left, count: across}",
)
_STEERING = Word("left or right", words=("left", "right"))
_SOURCE = Fields(
    "a table about the chart",
    {"chart": TEXT, "page": TEXT, "date": DATE, "by": TEXT, "covers": _COVERS, "steering": _STEERING},
    example="{chart: shop sheet 207, date: 2026-03-02, by: JM, covers: 2020..2023}",
)
_CARRIED = Word("SRS, HV, optical or digital", "(?i:SRS|HV|optical|digital)", "SRS", kind="carries")
PLUG = Fields(
    "a table about the plug",
    {
        "part": NAME,
        "place": TEXT,
        "housing": TEXT,
        "unit": NAME,
        "car": NAME,
        "face": _FACE,
        "ways": COUNT,
        "source": _SOURCE,
        "covers": _COVERS,
        "carries": some("what it carries", _CARRIED, "[SRS, HV]"),
        "legend": _LEGEND,
        "contacts": Fields(
            "a table of halves", {"unit": _GENDER, "car": _GENDER}, example=("{unit: pins, car: sockets}")
        ),
        "cavities": _CAVITIES,
        "note": NOTE,
    },
    other={"pins": "cavities"},
    example="{place: behind the radio, cavities: {…}}",
)

# -- looms --------------------------------------------------------------------------------------------------

_END = Either(
    Word("a housing", example="20-way L", most=200),
    Fields(
        "a table about the end",
        {"housing": TEXT, "contacts": _GENDER},
        example="{housing: 20-way L, contacts: pins}",
    ),
)
_LEADS = Fields(
    "a table of leads",
    rows=(
        (
            Word("a cavity or a name", p.NAME, "aerial", kind="lead"),
            Either(Word("FUNCTION COLOUR SIZE", p.LEAD_ROW, "AERIAL BU 18 AWG", kind="lead row"), _ROW.table),
        ),
        (Word("a cavity of an end", p.LEAD_KEY, "car.18", kind="lead"), _ROW),
        (Word("two cavities", p.LEAD_PAIR_KEY, "1/11", kind="lead"), _PAIR_ROW),
    ),
    example="{1/11: FL WH WH/BK 18 AWG}",
)
_THROUGH = Word(
    "cavities passed straight on",
    p.one_or_more(rf"{p.CAVITY}(?:\.\.{p.CAVITY})?"),
    "9..10 18..20",
    kind="through",
    most=2000,
    number=(0, 999_999),
)
_SPAN = Word("a cavity, or first..last", rf"{p.CAVITY}(?:\.\.{p.CAVITY})?", "9..12", number=(0, 999_999))
LOOM = Fields(
    "a table about the loom",
    {
        "part": NAME,
        "ends": Fields(
            "a table of ends",
            {"unit": _END, "car": _END},
            least=1,
            example=("{unit: 20-way L, car: 20-way L}"),
        ),
        "leads": _LEADS,
        "through": Either(
            _THROUGH,
            Fields("a table of cavities", rows=((_SPAN, _SPAN),), example="{4: 7, 9..12: 9..12}"),
            Listing("a list of cavities", _THROUGH, example="[9..10, 18]"),
        ),
        "pins": _CAVITIES,
        "legend": _LEGEND,
        "cut off": Word("the end that is cut off", words=("unit", "car")),
        "price": PRICE,
        "stock": STOCK,
        "arrives": DATE,
        "note": NOTE,
    },
    one_of=("ends", "part"),
    example="{ends: {unit: 20-way L, car: 20-way L}, leads: {…}}",
)

# -- units --------------------------------------------------------------------------------------------------

UNIT_KINDS = (
    "radio",
    "processor",
    "amplifier",
    "processor amplifier",
    "factory amplifier",
    "interface",
    "line converter",
    "relay",
    "fuse block",
    "battery",
    "cluster",
    "control unit",
    "switch",
    "diode",
)
_INPUTS = Fields(
    "a table of inputs",
    rows=((NAMES, Word("words of a signal", p.SIGNAL, "2..20 V differential", kind="signal", unknown=True)),),
    example="{in1..4: 2..20 V differential}",
)
_OUTPUTS = Fields(
    "a table of outputs",
    rows=((NAMES, Word("words of an output", p.OUTPUT, "btl 8.5 V clean step 31 of 40", kind="output", unknown=True)),),
    example="{out1..4: 75 W @ 4 ohm least 2 ohm}",
)
_BRIDGE = Word("two terminals, + first", f"{p.SEGMENT}/{p.SEGMENT}", "out1+/out2-", kind="bridge")
_WAKE = Word(
    "a terminal with its current, bus or signal",
    rf"{p.SEGMENT}(?: {p.quantity('current')})?",
    "rem 35 mA",
    kind="wakes",
)
_FUSE_OF_ITS_OWN = Word(
    "the fuses in the unit's own case",
    rf"(?:[1-9] x )?{p.quantity('current')}",
    "2 x 30 A",
    kind="fuses",
    unknown=True,
)
_DRAW = Word(
    "a current, or a power that stays the same",
    f"{p.quantity('current')}|{p.quantity('power')}",
    "58 A",
    kind="draws",
    unknown=True,
)
_COIL = Word(
    "a coil's current and what lies across it",
    rf"{p.quantity('current')}(?: diode| resistor)?",
    "150 mA diode",
    kind="coil",
    unknown=True,
)
# on, off, yes and no are no words of ours: other readers of YAML take them for something else
_BRIDGED = Word(
    "two outputs, or unused", f"{p.NAME}/{p.NAME}|unused|off", "out1/out2", kind="bridge switch", unknown=True
)
_SET = Fields(
    "a table of switches and controls as they are set",
    {
        "input": Word("a kind of input", words=("high level", "low level"), unknown=True),
        "signal sense": Word(
            "used or unused", words=("used", "unused"), other={"on": "used", "off": "unused"}, unknown=True
        ),
        "bridge": Either(
            _BRIDGED, listing=Listing("a list of outputs that are bridged", _BRIDGED, example="[out1/out2]")
        ),
    },
    rows=(
        (
            Word(
                "high-pass or low-pass with its outputs", f"(?:high|low)-pass {p.NAMES}", "high-pass out1", kind="set"
            ),
            Word(
                "a frequency, or unused",
                f"{p.quantity('frequency')}|unused|off",
                "80 Hz",
                kind="crossover",
                unknown=True,
            ),
        ),
        (
            Word("gain with its outputs", f"gain {p.NAMES}", "gain out1", kind="set"),
            Word("decibels", f"-?{p.quantity('gain')}", "-6 dB", kind="gain", unknown=True),
        ),
    ),
    example="{signal sense: used, high-pass out1..2: 80 Hz, gain out1: -6 dB}",
)
UNIT = Fields(
    "a table about the unit",
    {
        "part": NAME,
        "kind": Word("a kind of unit", words=UNIT_KINDS, other={"head unit": "radio"}),
        "place": TEXT,
        "inputs": _INPUTS,
        "outputs": _OUTPUTS,
        "routes": Fields(
            "a table of routes",
            rows=(
                (
                    NAMES,
                    Word("inputs and what happens to them", p.ROUTE, ("in3 + in4 ..80 Hz -3 dB"), kind="route"),
                ),
            ),
            example="{out5: in3 + in4 ..80 Hz -3 dB}",
        ),
        "bridges": Either(_BRIDGE, listing=Listing("a list of bridges", _BRIDGE, example="[out1+/out2-]")),
        "bonds": Listing(
            "a list of terminals joined inside",
            Word("two terminals or more", rf"{p.SEGMENT}(?: {p.SEGMENT})+", "rca1- GND", kind="bond"),
            example="[rca1- GND]",
        ),
        "wakes": Either(_WAKE, listing=Listing("a list of what wakes it", _WAKE, example="[rem 35 mA, bus]")),
        "gives": Fields("a table of terminals", rows=((TERMINAL, CURRENT),), example="{AMP-ON: 100 mA}"),
        "class": Word("an amplifier class", words=("A", "AB", "D", "G", "H"), unknown=True),
        "efficiency": quantity_of("share", "75 %", unknown=True),
        "draws": _DRAW,
        "fuses": Either(
            text=_FUSE_OF_ITS_OWN,
            table=Fields(
                "a table of a fuse block's ways",
                rows=((COUNT, quantity_of("current", "40 A", unknown=True)),),
                example="{1: 40 A, 2: 50 A}",
            ),
        ),
        "coil": _COIL,
        "settings": TEXT,
        "set": _SET,
        "terminals": some("other terminals", TERMINAL, "CAN MIC"),
        "leads": Fields(
            "a table of leads",
            rows=(
                (
                    Word(
                        "a terminal or two",
                        rf"{p.SEGMENT}(?:/{p.SEGMENT})?",
                        "in1",
                        kind="terminal",
                        most=120,
                    ),
                    Word("COLOUR SIZE", p.UNIT_LEAD, "BU BU/BK 18 AWG", kind="unit lead"),
                ),
            ),
            example="{in1: BU BU/BK 18 AWG}",
        ),
        "ways": COUNT,
        "note": NOTE,
    },
    one_of=("kind", "part"),
    example="{kind: amplifier}",
)
