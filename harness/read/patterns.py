"""What words of the job file look like, as regular expressions that Python and JSON Schema both understand.

A plain space stands for any run of spaces; `(?i:…)` for letters of either case; everything is matched whole.
"""

from __future__ import annotations

from harness.model.colour import IEC, OWN, PLAIN
from harness.model.function import CHANNEL_SPELLINGS, CHANNELS, DIN, DRIVERS, KINDS
from harness.units import NUMBER, UNITS


def _any(words: object) -> str:
    """Longest first, so that no word hides a longer one; + escaped."""
    return "|".join(sorted((str(word).replace("+", r"\+") for word in words), key=lambda w: (-len(w), w)))  # type: ignore[attr-defined]


def one_or_more(piece: str, between: str = " ") -> str:
    """The pattern of a piece repeated, with a space or `between` in between."""
    return f"(?:{piece})(?:{between}(?:{piece}))*"


NAME = r"[A-Za-z0-9](?:[A-Za-z0-9_-]*[A-Za-z0-9_])?"
_STEM = r"(?:[A-Za-z0-9][A-Za-z0-9_-]*)?"
RANGE = rf"{_STEM}[0-9]\.\.{_STEM}[0-9]"
NAMES = one_or_more(f"{NAME}|{RANGE}")
CAVITY = r"[A-Za-z0-9]{1,12}"
HALF = r"(?i:unit|car)"

# a cavity, a function or a terminal as the last word of a contact
SEGMENT = r"[A-Za-z0-9][A-Za-z0-9_+-]*"
CONTACT = rf"{NAME}(?:\.{SEGMENT})?\.(?:{SEGMENT}(?:/{SEGMENT})?|{RANGE}|[+-])"
TURNED = f"{CONTACT}(?: reversed)?"
CONTACTS = one_or_more(CONTACT)

# functions: any letter case
_CHANNEL = f"(?:{_any((*CHANNELS, *CHANNEL_SPELLINGS))})(?:-(?:{_any(DRIVERS)}))?"
_PAIRED = f"{_CHANNEL}|(?:DRIVER|PASSENGER)-(?:FRONT|REAR)|(?:IN|OUT|RCA|LINE|AUX)[0-9]{{1,2}}|MIC|DIGITAL|SRS"
PAIR_FUNCTION = f"(?i:{_PAIRED}|CAN)"
FUNCTION = f"(?i:(?:{_PAIRED})[+-]?|CAN(?:-[HL])?|{_any((*KINDS, *DIN))})"
CHANNEL = f"(?i:{_CHANNEL})"

# colours: what a word surely means, or a code of at most three letters that a legend may explain
_SINGLE_WORDS = [word for word in (*IEC.values(), *OWN.values(), *OWN) if " " not in word]
_HUE = f"(?i:{_any(_SINGLE_WORDS)}|[A-Z]{{1,3}})"
COLOUR = f"{_HUE}(?:/{_HUE})?"
COLOUR_WORD = f"(?i:{_any((*IEC.values(), *OWN.values(), *IEC, *OWN, *PLAIN))})"

_AREA = r"(?:0\.[0-9]*[1-9][0-9]*|[1-9][0-9]*(?:\.[0-9]+)?)"
_AWG = r"(?:[1-4]/0|[0-9]|[1-3][0-9]|40)"
SIZE = rf"(?:{_AWG} AWG|(?:[1-4]/0|[12468]|1[02468]) SAE|{_AREA} mm2)"
TAKES = rf"(?:{_AWG}\.\.{_AWG} AWG|{_AREA}\.\.{_AREA} mm2|{SIZE})"  # what a connector is made for

_TAIL = f"(?: {SIZE})?(?: twisted)?"
UNKNOWN, EMPTY = "(?i:unknown)", "(?i:empty)"
ROW = f"(?:{FUNCTION}|{UNKNOWN})(?: {COLOUR})?{_TAIL}|{EMPTY}"
PAIR_ROW = f"(?:{PAIR_FUNCTION}|{UNKNOWN})(?: {COLOUR} {COLOUR})?{_TAIL}|{EMPTY}"
LEAD_ROW = rf"(?:{HALF}\.{CAVITY} )?(?:{ROW})"
PAIR_KEY = f"{CAVITY}/{CAVITY}"
LEAD_PAIR_KEY = rf"(?:{HALF}\.)?{PAIR_KEY}"
LEAD_KEY = rf"{HALF}\.{CAVITY}"
UNIT_LEAD = f"{COLOUR}(?: {COLOUR})?(?: {SIZE})?|{SIZE}"


def quantity(dimension: str) -> str:
    """The pattern of a number, a space and a unit of `dimension`."""
    return rf"{_PLAIN_NUMBER} (?:{'|'.join(UNITS[dimension])})"


_PLAIN_NUMBER = NUMBER.replace("(", "(?:")
_SPAN = rf"(?:{_PLAIN_NUMBER}\.\.(?:{_PLAIN_NUMBER})?|\.\.{_PLAIN_NUMBER})"
_BAND = rf"{_SPAN} k?Hz"
TIME_SPAN = rf"{_PLAIN_NUMBER}(?:\.\.{_PLAIN_NUMBER})? (?:ms|s|min)"
_SET = rf"{_BAND}|-?{_PLAIN_NUMBER} dB|{quantity('time')}"
_FORM = "(?i:btl|differential|grounded|transformer|digital)"
_SIGNAL_WORD = (
    rf"{_SET}|{_FORM}|{_SPAN} m?V|{quantity('voltage')}|{quantity('power')}|(?:(?:@|least) "
    rf")?{quantity('resistance')}"
)
_STEP_NUMBER = "[1-9][0-9]{0,2}"
SIGNAL = one_or_more(_SIGNAL_WORD)
# what only an output has: the volume step of its level, whether that is the last clean one, where its volume is made
OUTPUT = one_or_more(rf"{_SIGNAL_WORD}|step {_STEP_NUMBER}(?: of {_STEP_NUMBER})?|clean|fixed|volume")
# an input's name begins with a letter here, or it could be a number of what follows
_SOURCE = rf"[A-Za-z](?:[A-Za-z0-9_-]*[A-Za-z0-9_])?|[A-Za-z][A-Za-z0-9_-]*[0-9]\.\.{_STEM}[0-9]"
ROUTE = rf"(?:{_SOURCE})(?: \+ (?:{_SOURCE}))*(?: (?:{_SET}|inverted))*"

# chains: a step has no > in it, so that nothing is tried twice
_VIA = r"(?: via [^>\s]+(?: [^>\s]+)*)?"
_WIRE = rf"{quantity('length')} (?:{SIZE}(?: (?:copper|CCA))?|rca|fibre(?: bend {quantity('length')})?){_VIA}"
_FUSE = rf"fuse (?:{_PLAIN_NUMBER} A|unknown)"
_INLINE = rf"{NAME}\.{SEGMENT}"
_COLOURED = f"{_INLINE} {COLOUR}(?: {COLOUR})?|{_INLINE}/{SEGMENT} {COLOUR} {COLOUR}"
STEP = f"{CONTACTS}(?: reversed)?|{_COLOURED}|{_WIRE}|{_FUSE}"
CHAIN = rf"{CONTACTS}(?: reversed)?(?: > (?:{STEP}))* > {CONTACTS}(?: reversed)?"

YEAR = "[12][0-9]{3}"
DATE = rf"{YEAR}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])"
COUNT = "[1-9][0-9]{0,2}"
PRICE = r"(?:0|[1-9][0-9]{0,6})(?:\.[0-9]{1,2})? [A-Z]{3}"
FACE_ROWS = rf"(?:{CAVITY}|\.)(?:\s+(?:{CAVITY}|\.))*"
