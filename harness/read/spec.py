"""The job file's keys and what may stand behind each: data, read by `conform` and by `schema`."""

from __future__ import annotations

from harness.read import patterns as p
from harness.read.fields import Either, Fields, Listing, Shape, Word

# -- text ---------------------------------------------------------------------------------------------------

_TEXT = Word("a text", example="a few words", most=500)
_NOTE = Word("a text", example="a few words", most=5000, lines=True)
_NAME = Word("a name", p.NAME, "dash", kind="name", most=60)
_NAMES = Word("one name or several", p.NAMES, "FL FR", kind="name")
_CAVITY = Word("a cavity", p.CAVITY, "12", kind="cavity", number=(0, 999_999))
_PAIR_KEY = Word("two cavities", p.PAIR_KEY, "1/11", kind="cavity")
_TERMINAL = Word("a terminal", p.SEGMENT, "rem", kind="terminal", most=60)
_CONTACT = Word("a contact", p.CONTACT, "dash.car.FL+", kind="contact", most=120)
_CONTACTS = Word("one contact or several", p.CONTACTS, "spk.RL spk.RR", kind="contact", most=2000)
_TURNED = Word("a contact", p.TURNED, "dsp.in1", kind="contact", most=120)
_FUNCTION = Word("a function", p.FUNCTION, "ACC", kind="function")
_COUNT = Word("a number", p.COUNT, "20", kind="count", number=(1, 999))
_YEAR = Word("a year", p.YEAR, "2022", kind="year", number=(1000, 2999), unknown=True)


def _quantity(dimension: str, example: str, unknown: bool = False) -> Word:
    return Word(f"a {dimension}", p.quantity(dimension), example, kind=f"quantity {dimension}", unknown=unknown)


_LENGTH = _quantity("length", "12 in")
_CURRENT = _quantity("current", "100 mA")
_OHM = _quantity("resistance", "4 ohm", unknown=True)


def _some(what: str, word: Word, example: str) -> Either:
    """Several of one kind, as words with spaces or as a list."""
    pattern = p.one_or_more(word.pattern)
    text = Word(what, pattern, word.example, kind=word.kind, words=(), most=2000)
    return Either(text=text, listing=Listing(what, word, example=example))


# -- plugs --------------------------------------------------------------------------------------------------

_MARK = Word("a mark", words=("stripe", "ring", "dots"))
_TWISTED = Word("the word `pair`", words=("pair",))
_SIZE = Word("a wire size", p.SIZE, "0.5 mm2", kind="size")


def _long_row(function: Word, colour: Word) -> Fields:
    keys: dict[str, Shape] = {
        "function": function, "colour": colour, "size": _SIZE, "mark": _MARK, "twisted": _TWISTED, "note": _NOTE,
    }  # fmt: skip
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
        Word("a function that comes in pairs", f"{p.PAIR_FUNCTION}|{p.EMPTY}|{p.UNKNOWN}", "FL", kind="pair function"),
        Word("two colours, + first", f"{p.COLOUR} {p.COLOUR}", "WH WH/BK", kind="colours", unknown=True),
    ),
)
_CAVITIES = Fields(
    "a table of cavities", rows=((_CAVITY, _ROW), (_PAIR_KEY, _PAIR_ROW)), example="{1/11: FL WH WH/BK 0.5 mm2}"
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
)  # fmt: skip
_GENDER = Word("pins or sockets", words=("pins", "sockets"), unknown=True)
_COVERS = Word("a year or years", rf"{p.YEAR}(?:\.\.{p.YEAR})?", "2020..2023", kind="years", number=(1000, 2999))
_DATE = Word("a date", p.DATE, "2026-03-02", kind="date")
_FACE = Fields(
    "a table about the face",
    {
        "rows": Word("a number, or the numbers drawn", p.FACE_ROWS, "2", kind="face", most=5000, lines=True,
                     number=(1, 99)),
        "columns": _COUNT,
        "view": Word("a view", words=("wire", "mating"), unknown=True),
        "latch": Word("a side", words=("top", "bottom", "left", "right"), unknown=True),
        "first": Word("a corner", words=("top left", "top right", "bottom left", "bottom right")),
        "count": Word("across or down", words=("across", "down")),
        "keying": _TEXT,
    },
    example="{rows: 2, columns: 10, view: wire, latch: top, first: top left, count: across}",
)  # fmt: skip
_SOURCE = Fields(
    "a table about the chart",
    {"chart": _TEXT, "page": _TEXT, "date": _DATE, "by": _TEXT, "covers": _COVERS},
    example="{chart: shop sheet 207, date: 2026-03-02, by: JM, covers: 2020..2023}",
)
_CARRIED = Word("SRS, HV, optical or digital", "(?i:SRS|HV|optical|digital)", "SRS", kind="carries")
_PLUG = Fields(
    "a table about the plug",
    {
        "part": _NAME, "place": _TEXT, "housing": _TEXT, "unit": _NAME, "car": _NAME, "face": _FACE, "ways": _COUNT,
        "source": _SOURCE, "covers": _COVERS, "carries": _some("what it carries", _CARRIED, "[SRS, HV]"),
        "legend": _LEGEND,
        "contacts": Fields("a table of halves", {"unit": _GENDER, "car": _GENDER}, example="{unit: pins, car: sockets}"),
        "cavities": _CAVITIES, "note": _NOTE,
    },
    other={"pins": "cavities"}, example="{place: behind the radio, cavities: {…}}",
)  # fmt: skip

# -- looms --------------------------------------------------------------------------------------------------

_END = Either(
    Word("a housing", example="20-way L", most=200),
    Fields("a table about the end", {"housing": _TEXT, "contacts": _GENDER}, example="{housing: 20-way L, contacts: pins}"),
)
_LEADS = Fields(
    "a table of leads",
    rows=(
        (
            Word("a cavity, END.cavity or a name", p.LEAD_KEY, "car.18", kind="lead"),
            Either(Word("FUNCTION COLOUR SIZE", p.LEAD_ROW, "AERIAL BU 18 AWG", kind="lead row"), _ROW.table),
        ),
        (Word("two cavities", p.LEAD_PAIR_KEY, "1/11", kind="lead"), _PAIR_ROW),
    ),
    example="{1/11: FL WH WH/BK 18 AWG}",
)  # fmt: skip
_THROUGH = Word(
    "cavities passed straight on", p.one_or_more(rf"{p.CAVITY}(?:\.\.{p.CAVITY})?"), "9..10 18..20", kind="through",
    most=2000, number=(0, 999_999),
)  # fmt: skip
_LOOM = Fields(
    "a table about the loom",
    {
        "part": _NAME,
        "ends": Fields("a table of ends", {"unit": _END, "car": _END}, least=1, example="{unit: 20-way L, car: 20-way L}"),
        "leads": _LEADS,
        "through": Either(
            _THROUGH,
            Fields("a table of cavities", rows=((_CAVITY, _CAVITY),), example="{4: 7}"),
            Listing("a list of cavities", _THROUGH, example="[9..10, 18]"),
        ),
        "pins": _CAVITIES, "legend": _LEGEND, "note": _NOTE,
    },
    one_of=("ends", "part"), example="{ends: {unit: 20-way L, car: 20-way L}, leads: {…}}",
)  # fmt: skip

# -- units --------------------------------------------------------------------------------------------------

UNIT_KINDS = (
    "radio", "processor", "amplifier", "processor amplifier", "factory amplifier", "interface", "line converter",
    "relay", "fuse block", "battery", "cluster", "control unit", "switch",
)  # fmt: skip
_PORTS = Fields(
    "a table of inputs or outputs",
    rows=((_NAMES, Word("words of a signal", p.SIGNAL, "2..20 V differential", kind="signal", unknown=True)),),
    example="{in1..4: 2..20 V differential}",
)
_BRIDGE = Word("two terminals, + first", f"{p.SEGMENT}/{p.SEGMENT}", "out1+/out2-", kind="bridge")
_WAKE = Word(
    "a terminal with its current, bus or signal", rf"{p.SEGMENT}(?: {p.quantity('current')})?", "rem 35 mA", kind="wakes"
)
_UNIT = Fields(
    "a table about the unit",
    {
        "part": _NAME,
        "kind": Word("a kind of unit", words=UNIT_KINDS, other={"head unit": "radio"}),
        "place": _TEXT, "inputs": _PORTS, "outputs": _PORTS,
        "routes": Fields(
            "a table of routes",
            rows=((_NAMES, Word("inputs and what happens to them", p.ROUTE, "in3 + in4 ..80 Hz -3 dB", kind="route")),),
            example="{out5: in3 + in4 ..80 Hz -3 dB}",
        ),
        "bridges": Either(_BRIDGE, listing=Listing("a list of bridges", _BRIDGE, example="[out1+/out2-]")),
        "bonds": Listing(
            "a list of terminals joined inside",
            Word("two terminals or more", rf"{p.SEGMENT}(?: {p.SEGMENT})+", "rca1- GND", kind="bond"),
            example="[rca1- GND]",
        ),
        "wakes": Either(_WAKE, listing=Listing("a list of what wakes it", _WAKE, example="[rem 35 mA, bus]")),
        "gives": Fields("a table of terminals", rows=((_TERMINAL, _CURRENT),), example="{AMP-ON: 100 mA}"),
        "class": Word("an amplifier class", words=("A", "AB", "D", "G", "H"), unknown=True),
        "efficiency": _quantity("share", "75 %", unknown=True),
        "settings": _TEXT,
        "leads": Fields(
            "a table of leads",
            rows=((
                Word("a terminal or two", rf"{p.SEGMENT}(?:/{p.SEGMENT})?", "in1", kind="terminal", most=120),
                Word("COLOUR SIZE", p.UNIT_LEAD, "BU BU/BK 18 AWG", kind="unit lead"),
            ),),
            example="{in1: BU BU/BK 18 AWG}",
        ),
        "ways": _COUNT, "note": _NOTE,
    },
    one_of=("kind", "part"), example="{kind: amplifier}",
)  # fmt: skip

# -- the car ------------------------------------------------------------------------------------------------

_COILS = Word(
    "coils", rf"[1-9] x {p.quantity('resistance')} (?:series|parallel|separate)", "2 x 2 ohm series", kind="coils"
)
_CAPACITOR = _quantity("capacitance", "10 uF", unknown=True)
_SPEAKER = Fields(
    "a table about the speaker",
    {
        "place": _TEXT, "nominal": _OHM, "coils": _COILS, "capacitor": _CAPACITOR,
        "inverted": Word("factory or on purpose", words=("factory", "on purpose")),
        "new": Either(
            _TEXT,
            Fields(
                "a table about the new speaker",
                {"nominal": _OHM, "capacitor": _CAPACITOR, "coils": _COILS, "note": _NOTE},
                example="{nominal: 4 ohm}",
            ),
        ),
        "note": _NOTE,
    },
    example="{place: dash, nominal: 4 ohm}",
)  # fmt: skip
_GROUND = Fields(
    "a table about the ground point",
    {"place": _TEXT, "metal": Word("bare or painted", words=("bare", "painted"), unknown=True), "note": _NOTE},
    example="{place: left seat crossmember, metal: bare}",
)
_CAR = Fields(
    "a table about the car",
    {
        "name": _TEXT, "year": _YEAR, "steering": Word("left or right", words=("left", "right"), unknown=True),
        "audio": _TEXT, "lacks": _some("channels and functions", _FUNCTION, "[ACC, SUB]"),
        "sensor": _TEXT, "supply": _TEXT, "note": _NOTE,
    },
    example="{name: Larch estate, year: 2022, steering: left}",
)  # fmt: skip

# -- the work -----------------------------------------------------------------------------------------------

METHODS = ("mate", "solder", "crimp", "screw", "ring", "push", "pierce")
VERBS = (
    "look", "meter", "unplug", "mate", "join", "cut", "cap", "depin", "power", "key", "tone", "volts", "build",
    "recheck", "close", "note",
)  # fmt: skip
_CHAINS = Listing(
    "a list of chains",
    Word("contacts and wires with > between them", p.CHAIN, "dash.FL > spk.FL spk.FL-TW", kind="chain", most=4000,
         lines=True),
    example="[dash.FL > spk.FL]",
)  # fmt: skip
_UNIT_TO = Word("UNIT, or UNIT > CONTACT", rf"{p.NAME}(?: > {p.CONTACTS})?", "radio > spk.RL spk.RR", kind="feature", most=2000)
_FEATURES = Fields(
    "a table of what the car did before",
    rows=((
        Word("a name", r"[^\s>](?:[^>]*[^\s>])?", "belt tone", most=80),
        Either(
            _UNIT_TO,
            Fields(
                "a table about the function",
                {
                    "from": _NAME,
                    "to": Either(_CONTACTS, listing=Listing("a list of contacts", _CONTACT, example="[spk.RL, spk.RR]")),
                    "kind": Word("a kind", words=("warning", "emergency", "voice", "other")),
                },
                required=("from",), example="{from: radio, to: [spk.RL, spk.RR], kind: warning}",
            ),
        ),
    ),),
    example="{belt tone: cluster > spk.FL}",
)  # fmt: skip
_HALF_OF = rf"{p.NAME}(?:\.{p.HALF})?"
_WHERE = r"(?: (?:at|with) \S+(?: \S+)*)?"
_MATES = Fields(
    "a table of looms and plugs",
    rows=((Word("a loom or its end", _HALF_OF, "T1.unit", kind="half"), Word("a plug or its half", _HALF_OF, "dash.car", kind="half")),),
    example="{T1: dash}",
)  # fmt: skip
_TO = Listing("a list of contacts", _TURNED, least=1, example="[spk.FL, spk.FL-TW]")
_LINKS = Fields(
    "a table of contacts",
    rows=((
        _CONTACT,
        Either(
            _TURNED,
            Fields(
                "a table about the joint",
                {"to": Either(_TURNED, listing=_TO), "name": _NAME, "cover": _TEXT, "at": _TEXT, "stub": _LENGTH,
                 "untwist": _LENGTH},
                required=("to",), example="{to: dsp.in1, at: behind the radio}",
            ),
            _TO,
        ),
    ),),
    example="{T1.unit.FL: dsp.in1}",
)  # fmt: skip
_JOINTS = Fields(
    "a table of joints",
    rows=(
        (Word("a way to join", f"mate{_WHERE}", "mate", kind="method", most=200), _MATES),
        (Word("a way to join", f"(?:{'|'.join(METHODS[1:])}){_WHERE}", "crimp at the kick panel", kind="method", most=200),
         _LINKS),
    ),
    example="{crimp: {T1.unit.FL: dsp.in1}}",
)  # fmt: skip
_STEPS = Listing(
    "a list of steps",
    Fields("one step, VERB: what", dict.fromkeys(VERBS, _NOTE), least=1, most=1, example="- unplug: dash"),
    example="- unplug: dash",
)
LIMITS = ("untwist", "stub", "fuse distance")

# -- the whole ----------------------------------------------------------------------------------------------


def _named(what: str, shape: Shape, key: Word = _NAME, example: str = "") -> Fields:
    return Fields(f"a table of {what}", rows=((key, shape),), example=example or f"{{{key.example}: …}}")


_OTHER = {"connectors": "plugs", "harnesses": "looms"}
_COMMON: dict[str, Shape] = {
    "ringout": Word("the number 1", "1", "1", kind="version", number=(1, 1)),
    "title": _TEXT,
    "parts": Listing("a list of files", Word("a file's name", example="parts/loom.yaml", most=500), example="[parts/loom.yaml]"),
    "plugs": _named("plugs", _PLUG, example="{dash: {place: behind the radio, cavities: {…}}}"),
    "looms": _named("looms", _LOOM, example="{T1: {ends: {…}, leads: {…}}}"),
    "units": _named("units", _UNIT, example="{dsp: {kind: processor amplifier}}"),
}  # fmt: skip

PART_FILE = Fields("a part file", _COMMON, required=("ringout",), other=_OTHER, example="ringout: 1")

JOB = Fields(
    "a job",
    {
        **_COMMON,
        "revision": _TEXT,
        "preset": _NAME,
        "limits": Fields("a table of lengths", dict.fromkeys(LIMITS, _LENGTH), example="{untwist: 50 mm}"),
        "car": _CAR,
        "speakers": _named("speakers", _SPEAKER, _NAMES, "{FL FR: {nominal: 4 ohm}}"),
        "grounds": _named("ground points", _GROUND, example="{G1: {place: left seat crossmember, metal: bare}}"),
        "inline": _named("inline plugs", _TEXT, example="{C204: left front pillar}"),
        "found": _CHAINS,
        "features": _FEATURES,
        "removed": _some("units", _NAME, "[old-amp]"),
        "cut": _some("contacts", _CONTACT, "[dash.FL]"),
        "capped": _some("contacts", _CONTACT, "[T1.aerial]"),
        "depinned": _some("contacts", _CONTACT, "[T1.car.18]"),
        "moved": Fields("a table of contacts", rows=((_CONTACT, _CONTACT),), example="{T1.car.4: T1.car.7}"),
        "joints": _JOINTS,
        "runs": _CHAINS,
        "steps": _STEPS,
    },
    required=("ringout", "title"), other=_OTHER, example="ringout: 1",
)  # fmt: skip
