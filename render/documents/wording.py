"""Names, colours and numbers as the sheets print them. Every sheet says them the same way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from harness.graph.runs import RunEnds
from harness.model.colour import Colour, read_colour
from harness.model.contact import Contact, printed
from harness.units import UNITS
from render.blocks import Cell, Piece, Strong, Swatch

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.evidence import Record
    from harness.model.function import Function
    from harness.model.job import Segment
    from harness.units import WireSize

NOT_RECORDED = "not recorded"
# keeps a number and its unit, or a sign and its word, on one line
_HOLD = "\N{NO-BREAK SPACE}"
SIDES = {"unit": "unit side", "car": "car side"}


def or_not_recorded(text: str) -> str:
    """The text, or the words for nothing written."""
    return text or NOT_RECORDED


def swatch(colour: Colour | None) -> Piece:
    """A wire's colour as a swatch with words; "colour not recorded" where none is written."""
    if colour is None:
        return f"colour {NOT_RECORDED}"
    return Swatch(colour.base, colour.stripe, colour.mark, colour.words)


def bare_swatch(colour: Colour | None) -> Swatch | None:
    """The swatch alone, for faces and pictures."""
    return None if colour is None else Swatch(colour.base, colour.stripe, colour.mark, colour.words)


def name_of(contact: Contact) -> str:
    """A contact as the hand looks for it: `dash 14, car side`; `T1.unit.1`; `dsp in1+`; `speaker FL+`."""
    if contact.kind == "plug":
        return f"{contact.owner} {contact.last}, {SIDES[contact.half]}"
    if contact.kind == "loom":
        return printed(contact.name)
    if contact.kind == "speaker":
        return f"speaker {printed(contact.name.removeprefix('spk.'))}"
    if contact.kind == "ground":
        return f"ground {contact.last}"
    if contact.kind == "battery":
        return f"battery {printed(contact.last)}"
    if contact.kind == "chassis":
        return "the car's body"
    return f"{contact.owner} {printed(contact.last)}"


def as_held(contact: Contact) -> str:
    """The name with its end in words, for a table that stands far from the lists: `T1 car-side lead 5`."""
    if contact.kind == "loom":
        return f"{contact.owner} {f'{contact.half}-side ' if contact.half else ''}lead {contact.last}"
    return name_of(contact)


def pair_name(plus: Contact, minus: Contact) -> str:
    """Two contacts of one pair as one: `dsp in1 ±`, `dash 3/11, car side`, `T1.unit.4/16`."""
    one, other = name_of(plus), name_of(minus)
    if one.endswith("+") and other.endswith("−") and one[:-1] == other[:-1]:
        return f"{one[:-1]}{_HOLD}±"
    if plus.owner == minus.owner and plus.half == minus.half:
        return one.replace(printed(plus.last), f"{printed(plus.last)}/{printed(minus.last)}", 1)
    return f"{one} and {other}"


def labelled(contact: Contact) -> str:
    """The name with what the contact is for, where the name doesn't say it: `T1.unit.1 (FL+)`."""
    if contact.kind in ("plug", "loom") and contact.function.kind not in ("unknown", "empty"):
        return f"{name_of(contact)} ({printed(contact.function.name)})"
    return name_of(contact)


def wire_name(contact: Contact) -> str:
    """A wire of the car by its cavity, whichever side is meant, with what it is for: `dash 14 (RR−)`."""
    if contact.kind != "plug":
        return labelled(contact)
    about = "" if contact.function.kind in ("unknown", "empty") else f" ({printed(contact.function.name)})"
    return f"{contact.owner} {contact.last}{about}"


def names(wiring: Wiring, contacts: tuple[str, ...]) -> str:
    """Several contacts, one a line."""
    return "\n".join(name_of(wiring.contact(name)) for name in contacts)


def far_names(wiring: Wiring, near: str, contacts: tuple[str, ...]) -> str:
    """What a contact is joined to, one a line; a run that we lay is followed to its other end."""
    ends = RunEnds(wiring.job)
    return names(wiring, tuple(dict.fromkeys(ends.far(name, near) for name in contacts)))


def function_words(function: Function) -> str:
    """What a contact is for, in words; unknown and empty are said as such."""
    if function.kind == "unknown":
        return "looked for, not known"
    if function.kind == "empty":
        return "empty"
    words = function.words if function.channel else _FUNCTIONS.get(function.kind, "")
    return words or printed(function.name)


def name_and_words(function: Function) -> str:
    """`GND (ground)`, and the name alone where there are no other words for it."""
    name, words = printed(function.name), function_words(function)
    return name if words == name else f"{name} ({words})"


def function_cell(function: Function) -> Cell:
    """A function in big print with its words after it, once where both are the same."""
    name = "unknown" if function.kind == "unknown" else printed(function.name)
    words = function_words(function._replace(sign=""))  # the sign stands in the name
    return Strong(name) if words in (name, function.base) else Strong(name, words)


# The kinds of harness.model.function in words, for people who don't read the short names.
_FUNCTIONS = {
    "battery": "battery feed, always live",
    "switched": "switched feed",
    "ground": "ground",
    "light": "illumination",
    "trigger": "amplifier turn-on",
    "aerial": "aerial supply",
    "mute": "mute line",
    "control": "steering wheel controls",
    "shield": "shield",
    "restraint": "restraint system: do not touch",
    "high voltage": "high voltage: do not touch",
    "optical": "optical link",
    "data": "data line",
    "mic": "microphone",
    "digital": "digital audio",
}


def size_words(size: WireSize | None) -> str:
    """`0.5 mm²`, `18 AWG`; "size not recorded" where none is written."""
    return f"size {NOT_RECORDED}" if size is None else size.text.replace("mm2", "mm²").replace(" ", _HOLD)


def speaker_words(wiring: Wiring, name: str) -> str:
    """Where a speaker is, in words: `left front tweeter, dash`."""
    speaker = wiring.job.parts.speakers[name]
    about = [speaker.function.words] if speaker.function.channel else []
    about += [speaker.where] if speaker.where else [f"place {NOT_RECORDED}"]
    return ", ".join(about)


def as_read(text: str, fits: bool | None = None) -> tuple[Piece, ...]:
    """What a meter read at the car, said to be that; and where it isn't what was expected (`fits` False), that.

    Two wires that read differently (`1: open, 9: 2 ohm`) stand under one another.
    """
    *more, last = (each.replace(" ", _HOLD).replace("ohm", "Ω") for each in text.split(", "))
    read = (*map(Strong, more), Strong(last, "read"))
    return (*read, Strong("OTHER")) if fits is False else read


def count(number: int, one: str, many: str = "") -> str:
    """`1 pair`, `2 pairs`."""
    return f"{number} {one}" if number == 1 else f"{number} {many or one + 's'}"


def ohms(low: float | None, high: float | None) -> str:
    """`2.5 to 4.0 Ω`, to a tenth."""
    return "" if low is None or high is None else f"{low:.1f} to {high:.1f}{_HOLD}Ω"


def length(length_m: float) -> str:
    """In both measures, since the tape in the bay has one of them: `30.5 cm (12 in)`, `4.57 m (15 ft)`."""
    if length_m < 1:
        return f"{length_m * 100:.3g}{_HOLD}cm ({length_m / UNITS['length']['in']:.3g}{_HOLD}in)"
    return f"{length_m:.3g}{_HOLD}m ({length_m / UNITS['length']['ft']:.3g}{_HOLD}ft)"


def hertz(value: float) -> str:
    """`80 Hz`, `20 kHz`."""
    return f"{value / 1000:g}{_HOLD}kHz" if value >= 1000 else f"{value:g}{_HOLD}Hz"


def piece_words(segment: Segment) -> str:
    """What a piece of a run is made of: `4.57 m (15 ft) 4 AWG`, `fuse 40 A`."""
    if segment.kind == "fuse":
        return f"fuse {segment.fuse_a:g} A" if segment.fuse_a is not None else f"fuse, value {NOT_RECORDED}"
    said = ["signal cable"] if segment.kind == "rca" else []
    said.append(length(segment.length_m) if segment.length_m is not None else f"length {NOT_RECORDED}")
    if segment.kind != "rca":
        said[-1] += "" if segment.size is not None and segment.length_m is not None else ","
        said.append(size_words(segment.size))
    said += [segment.metal] if segment.metal else []
    said += [f"through {segment.via} ({segment.grommet})"] if segment.via else []
    return " ".join(said)


def level(volts: float) -> str:
    """`8.5 V`, `0.035 V`."""
    return f"{volts:.3g}{_HOLD}V"


def power(watts: float) -> str:
    """`75 W`, `2.62 W`."""
    return f"{watts:.3g}{_HOLD}W"


def load_ohms(ohm: float) -> str:
    """`3.86 Ω`."""
    return f"{ohm:.3g}{_HOLD}Ω"


def db(value: float) -> str:
    """`−3 dB`, with a minus for a hyphen."""
    return f"{'−' if value < 0 else ''}{abs(value):g}{_HOLD}dB"


_NOT_SAID = ("photo", "fact", "seal", "car", "replaces")


def recorded_words(record: Record) -> str:
    """`reads: 12.4 V; key: accessory`: what a record says, a colour in words; empty where it says nothing."""
    return "; ".join(said_words(key, value) for key, value in record.said if key not in _NOT_SAID)


def said_words(key: str, value: str) -> str:
    """`reads: 12.4 V`: one word of a record behind its key, a colour in words."""
    return f"{key}: {_colours(value) if key == 'colour' else value}"


def _colours(value: str) -> str:
    colours = [read_colour(word) for word in value.split()]
    return " and ".join(each.words for each in colours if each is not None) or value
