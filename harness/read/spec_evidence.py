"""The keys of a record of the evidence file and what may stand behind each: data, read by `conform`."""

from __future__ import annotations

from harness.read import patterns as p
from harness.read.fields import Either, Fields, Listing, Word
from harness.read.spec_words import CONTACT, CONTACTS, NOTE, TEXT, quantity_of

_CLOCK = "(?:[01][0-9]|2[0-3]):[0-5][0-9](?::[0-5][0-9])?"
_DATE = "[12][0-9]{3}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])"
# what the splice list prints and ticks without a contact of its own: a run, and a loom's end that is plugged in
PRINTED = rf"[Rr][Uu][Nn] [1-9][0-9]{{0,2}}|{p.NAME} {p.NAME} [Ee][Nn][Dd]"
_JOINT = Word(
    "a contact, or a joint, a run or a plug end by its printed name", f"{p.CONTACT}|{p.NAME}|{PRINTED}", "T1.car.7",
    kind="contact", most=120,
)  # fmt: skip
WHEN = Word("a date, with the time behind it", rf"{_DATE}(?: {_CLOCK})?", "2026-03-02 09:40")
_OHM = p.quantity("resistance")
_READS = Word(
    "a reading", rf"(?:-?{p.quantity('voltage')}|{_OHM}|open|over|unknown|[A-Za-z][A-Za-z -]*)", "3.5 ohm", most=60
)
_DC = Word("volts DC", rf"-?{p.quantity('voltage')}", "0 V")
_BODY = Word("open, or the ohms to the car's body", rf"{_OHM}|open|unknown", "open")
_SEEN = Word("a colour, of a pair two", rf"{p.COLOUR}(?: {p.COLOUR})?", "GN/YE", unknown=True)
_LEVEL = r"-?[0-9]+(?:\.[0-9]+)?"
_LEVELS = Word("levels in dB, one a third of an octave", rf"{_LEVEL}(?: {_LEVEL})*", "-3 0 0 -1")
_SEVERAL = Either(text=TEXT, listing=Listing("a list of texts", TEXT, example="[radio, amp]"))
_RESULT = Word(
    "works, silent, wrong or not tried", words=("works", "silent", "wrong", "not tried"),
    other={"work": "works", "ok": "works", "fine": "works"},
)  # fmt: skip
_KEY = Word(
    "a state of the key", words=("out", "accessory", "run", "crank", "engine", "locked"),
    other={"off": "out", "acc": "accessory", "start": "crank", "running": "engine"},
)  # fmt: skip

RECORD = Fields(
    "a record",
    {
        "when": WHEN, "by": TEXT,
        # what was done, and to what
        "tone": CONTACT, "polarity": CONTACT, "ohm": CONTACT, "volts": CONTACT, "response": CONTACT,
        "built": _JOINT, "checked": _JOINT, "seen": TEXT, "plays": TEXT, "before": TEXT, "after": TEXT,
        "printed": TEXT,
        "handover": Word("paused, taken or closed", words=("paused", "taken", "closed")),
        "signed": Word("released or lost", words=("released", "lost")),
        "struck": Word("the line of an earlier record", "[1-9][0-9]{0,6}", "3"),
        # what it rests on, and what came out
        "charted": TEXT, "fact": _SEVERAL, "heard": TEXT, "plus": Word("a cavity", p.SEGMENT, "1"), "reads": _READS,
        "dc": _DC, "body": _BODY, "how": TEXT, "result": _RESULT, "is": TEXT, "colour": _SEEN,
        "shows": TEXT, "levels": _LEVELS, "from": quantity_of("frequency", "25 Hz"), "found": TEXT,
        "faded": Word("front or rear", words=("front", "rear")),
        "balanced": Word("left or right", words=("left", "right")),
        "follows": Word("volume, fader, both or nothing", words=("volume", "fader", "both", "nothing")),
        # under which condition
        "unplugged": _SEVERAL, "key": _KEY, "signal": TEXT, "step": Word("a volume step", "[0-9]{1,3}", "31"),
        "clean": Word("last, or the step", "last|[0-9]{1,3}", "last"), "tool": TEXT, "door": TEXT,
        "waited": quantity_of("time", "15 min"),
        # handing over, signing, printing
        "done": TEXT, "left": TEXT, "parts": TEXT, "odd": TEXT, "reason": TEXT, "lost": _SEVERAL, "who": TEXT,
        "revision": TEXT, "sheet": TEXT, "name": TEXT,
        "note": NOTE, "photo": _SEVERAL, "seal": Word("sixteen hex digits", "[0-9a-f]{16}", "0123456789abcdef"),
        "car": TEXT, "contacts": CONTACTS, "replaces": TEXT, "was": TEXT,
    },
    one_of=(
        "tone", "polarity", "ohm", "volts", "response", "built", "checked", "seen", "plays", "before", "after",
        "printed", "handover", "signed", "struck",
    ),
    example="{when: 2026-03-02 09:40, by: JM, tone: dash.car.1/11, heard: FL}",
)  # fmt: skip

EVIDENCE = Listing("a list of records", RECORD, example="- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/11}")
