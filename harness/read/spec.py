"""The job file's keys and what may stand behind each: data, read by `conform` and by `schema`."""

from __future__ import annotations

from harness.read import patterns as p
from harness.read.fields import Either, Fields, Listing, Shape, Word
from harness.read.spec_parts import LOOM, PLUG, UNIT
from harness.read.spec_words import (
    CONTACT,
    CONTACTS,
    DATE,
    FUNCTION,
    LENGTH,
    NAME,
    NAMES,
    NOTE,
    OHM,
    TEXT,
    TURNED,
    YEAR,
    quantity_of,
    some,
)

# -- the car ------------------------------------------------------------------------------------------------

_COILS = Word(
    "coils",
    rf"[1-9] x {p.quantity('resistance')} (?:series|parallel|separate)",
    "2 x 2 ohm series",
    kind="coils",
)
_CAPACITOR = quantity_of("capacitance", "10 uF", unknown=True)
_SPEAKER = Fields(
    "a table about the speaker",
    {
        "place": TEXT,
        "nominal": OHM,
        "coils": _COILS,
        "capacitor": _CAPACITOR,
        "inverted": Word("factory or on purpose", words=("factory", "on purpose")),
        "new": Either(
            TEXT,
            Fields(
                "a table about the new speaker",
                {"nominal": OHM, "capacitor": _CAPACITOR, "coils": _COILS, "note": NOTE},
                example="{nominal: 4 ohm}",
            ),
        ),
        "note": NOTE,
    },
    example="{place: dash, nominal: 4 ohm}",
)
_GROUND = Fields(
    "a table about the ground point",
    {
        "place": TEXT,
        "metal": Word("bare or painted", words=("bare", "painted"), unknown=True),
        "fixed": Word("how it is fixed", words=("stud", "bolt", "screw", "weld nut", "belt anchor"), unknown=True),
        "note": NOTE,
    },
    example="{place: left seat crossmember, metal: bare}",
)
# what a car may have that a plan must mind
FITTED = ("battery sensor", "stop-start", "noise cancelling", "speaker check")
_CAR = Fields(
    "a table about the car",
    {
        "name": TEXT,
        "year": YEAR,
        "steering": Word("left or right", words=("left", "right"), unknown=True),
        "audio": TEXT,
        "lacks": some("channels and functions", FUNCTION, "[ACC, SUB]"),
        "drive": Word("a drive", words=("petrol", "diesel", "gas", "hybrid", "electric"), unknown=True),
        "supply": Word(
            "an alternator or converter with its current",
            rf"(?:alternator|converter)(?: {p.quantity('current')})?",
            "alternator 120 A",
            kind="supply",
            unknown=True,
        ),
        "fitted": Listing(
            "a list of what the car has",
            Word("something fitted", words=FITTED),
            example="[battery sensor, stop-start]",
        ),
        "orange": Listing("a list of places", TEXT, example="[left sill, tunnel]"),
        "ownership": Word("owned or leased", words=("owned", "leased"), unknown=True, other={"lease": "leased"}),
        "note": NOTE,
    },
    example="{name: Larch estate, year: 2022, steering: left}",
)

# -- the work -----------------------------------------------------------------------------------------------

METHODS = ("mate", "solder", "crimp", "screw", "ring", "push", "pierce")
VERBS = (
    "look",
    "meter",
    "unplug",
    "try",
    "mate",
    "join",
    "cut",
    "lay",
    "cap",
    "depin",
    "power",
    "fuse",
    "wait",
    "key",
    "tone",
    "volts",
    "build",
    "recheck",
    "close",
    "note",
)
_CHAINS = Listing(
    "a list of chains",
    Word(
        "contacts and wires with > between them",
        p.CHAIN,
        "dash.FL > spk.FL spk.FL-TW",
        kind="chain",
        most=4000,
        lines=True,
    ),
    example="[dash.FL > spk.FL]",
)
_UNIT_TO = Word(
    "UNIT, or UNIT > CONTACT",
    rf"{p.NAME}(?: > {p.CONTACTS})?",
    "radio > spk.RL spk.RR",
    kind="feature",
    most=2000,
)
_FEATURES = Fields(
    "a table of what the car did before",
    rows=(
        (
            Word("a name", r"[^\s>](?:[^>]*[^\s>])?", "belt tone", most=80),
            Either(
                _UNIT_TO,
                Fields(
                    "a table about the function",
                    {
                        "from": NAME,
                        "to": Either(
                            CONTACTS,
                            listing=Listing("a list of contacts", CONTACT, example="[spk.RL, spk.RR]"),
                        ),
                        "kind": Word("a kind", words=("warning", "emergency", "voice", "other")),
                        "key": Word("a state of the key", words=("out", "accessory", "run"), other={"off": "out"}),
                    },
                    required=("from",),
                    example="{from: radio, to: [spk.RL, spk.RR], kind: warning}",
                ),
            ),
        ),
    ),
    example="{belt tone: cluster > spk.FL}",
)
_HALF_OF = rf"{p.NAME}(?:\.{p.HALF})?"
_WHERE = r"(?: (?:at|with) \S+(?: \S+)*)?"
_MATES = Fields(
    "a table of looms and plugs",
    rows=(
        (
            Word("a loom or its end", _HALF_OF, "T1.unit", kind="half"),
            Word("a plug or its half", _HALF_OF, "dash.car", kind="half"),
        ),
    ),
    example="{T1: dash}",
)
_TO = Listing("a list of contacts", TURNED, least=1, example="[spk.FL, spk.FL-TW]")
_LINKS = Fields(
    "a table of contacts",
    rows=(
        (
            CONTACT,
            Either(
                TURNED,
                Fields(
                    "a table about the joint",
                    {
                        "to": Either(TURNED, listing=_TO),
                        "name": NAME,
                        "cover": TEXT,
                        "at": TEXT,
                        "stub": LENGTH,
                        "untwist": LENGTH,
                        "stagger": LENGTH,
                        "takes": Word("a range of wire sizes", p.TAKES, "22..18 AWG", kind="takes"),
                    },
                    required=("to",),
                    example="{to: dsp.in1, at: behind the radio}",
                ),
                _TO,
            ),
        ),
    ),
    example="{T1.unit.FL: dsp.in1}",
)
_JOINTS = Fields(
    "a table of joints",
    rows=(
        (Word("a way to join", f"mate{_WHERE}", "mate", kind="method", most=200), _MATES),
        (
            Word(
                "a way to join",
                f"(?:{'|'.join(METHODS[1:])}){_WHERE}",
                "crimp at the kick panel",
                kind="method",
                most=200,
            ),
            _LINKS,
        ),
    ),
    example="{crimp: {T1.unit.FL: dsp.in1}}",
)
_STEPS = Listing(
    "a list of steps",
    Fields("one step, VERB: what", dict.fromkeys(VERBS, NOTE), least=1, most=1, example="- unplug: dash"),
    example="- unplug: dash",
)
LENGTHS = ("untwist", "stub", "fuse distance", "ground length", "slack")
LIMITS: dict[str, Word] = {
    **dict.fromkeys(LENGTHS, LENGTH),
    "drop": quantity_of("voltage", "0.5 V"),
    "supply": quantity_of("voltage", "13.8 V"),
    "temperature": quantity_of("temperature", "20 C"),
}

# -- the whole ----------------------------------------------------------------------------------------------


def _named(what: str, shape: Shape, key: Word = NAME, example: str = "") -> Fields:
    return Fields(f"a table of {what}", rows=((key, shape),), example=example or f"{{{key.example}: …}}")


VERSION = Word("the number 1", "1", "1", kind="version", number=(1, 1))
_OTHER = {"connectors": "plugs", "harnesses": "looms"}
_COMMON: dict[str, Shape] = {
    "ringout": VERSION,
    "title": TEXT,
    "parts": Listing(
        "a list of files",
        Word("a file's name", example="parts/loom.yaml", most=500),
        example="[parts/loom.yaml]",
    ),
    "plugs": _named("plugs", PLUG, example="{dash: {place: behind the radio, cavities: {…}}}"),
    "looms": _named("looms", LOOM, example="{T1: {ends: {…}, leads: {…}}}"),
    "units": _named("units", UNIT, example="{dsp: {kind: processor amplifier}}"),
}

PART_FILE = Fields("a part file", _COMMON, required=("ringout",), other=_OTHER, example="ringout: 1")

JOB = Fields(
    "a job",
    {
        **_COMMON,
        "revision": TEXT,
        "date": DATE,
        "shop": Word("a file's name", example="shop.yaml", most=500),
        "preset": NAME,
        "limits": Fields("a table of the shop's figures", dict(LIMITS), example="{untwist: 50 mm}"),
        "car": _CAR,
        "speakers": _named("speakers", _SPEAKER, NAMES, "{FL FR: {nominal: 4 ohm}}"),
        "grounds": _named("ground points", _GROUND, example=("{G1: {place: left seat crossmember, metal: bare}}")),
        "inline": _named("inline plugs", TEXT, example="{C204: left front pillar}"),
        "found": _CHAINS,
        "features": _FEATURES,
        "removed": some("units", NAME, "[old-amp]"),
        "cut": some("contacts", CONTACT, "[dash.FL]"),
        "capped": some("contacts", CONTACT, "[T1.aerial]"),
        "depinned": some("contacts", CONTACT, "[T1.car.18]"),
        "moved": Fields("a table of contacts", rows=((CONTACT, CONTACT),), example="{T1.car.4: T1.car.7}"),
        "joints": _JOINTS,
        "runs": _CHAINS,
        "steps": _STEPS,
    },
    required=("ringout", "title"),
    other=_OTHER,
    example="ringout: 1",
)
