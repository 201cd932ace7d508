"""One car, one ticket: the parts, and what is done with them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from harness.model.colour import Colour
from harness.model.contact import Contact
from harness.model.evidence import Record, Struck
from harness.model.parts import Parts
from harness.place import Place
from harness.units import WireSize


class Car(NamedTuple):
    """The car as it came in; `lacks` are channels and functions it never had."""

    name: str
    year: str
    steering: str
    audio: str
    lacks: tuple[str, ...]
    place: Place
    drive: str = ""  # petrol, diesel, gas, hybrid, electric, unknown or not said
    supply: str = ""  # alternator, converter, unknown or not said
    supply_a: float | None = None
    fitted: tuple[str, ...] = ()
    orange: tuple[str, ...] = ()  # places where high-voltage cables lie
    ownership: str = ""  # owned, leased, or not said


class Limit(NamedTuple):
    """A figure of the shop's own, in SI, and as it is written."""

    value: float
    words: str
    place: Place


class Mate(NamedTuple):
    """A loom's end plugged into one half of a plug."""

    loom: str
    end: str
    plug: str
    half: str
    place: Place


class Coupling(NamedTuple):
    """A loom's end plugged into another loom's end: looms in series."""

    loom: str
    end: str
    other: str
    other_end: str
    place: Place


class Link(NamedTuple):
    """Two contacts joined by a joint."""

    a: str
    b: str


class Joint(NamedTuple):
    """A place where conductors are joined. A pair joined to a pair is one joint with two links.

    `turned` is true where the job says `reversed`. `heading` is where its method, and for all of a kind the place and
    the cover, are written. `stagger_m` is how far the next joint beside it lies; `takes` are the thinnest
    and the thickest size that its connector is made for.
    """

    name: str
    method: str
    at: str
    cover: str
    links: tuple[Link, ...]
    stub_m: float | None
    untwist_m: float | None
    turned: bool
    text: str
    place: Place
    heading: Place
    stagger_m: float | None = None
    takes: tuple[WireSize, WireSize] | None = None

    @property
    def ends(self) -> tuple[str, ...]:
        """The contacts that meet in it, each once, in the order written."""
        return tuple(dict.fromkeys(end for link in self.links for end in link))


class Segment(NamedTuple):
    """A piece of a chain between two contacts: the car's own wiring, or what we lay.

    `kind` is wire, fuse, rca, fibre or inline; a fuse with `fuse_a` None has no value written. `bend_m` is the
    smallest radius that a fibre is laid with.
    """

    a: str
    b: str
    kind: str
    laid: bool  # ours (runs) rather than the car's (found)
    length_m: float | None
    size: WireSize | None
    metal: str
    via: str
    grommet: str
    fuse_a: float | None
    colour: Colour | None
    turned: bool
    place: Place
    bend_m: float | None = None


class Feature(NamedTuple):
    """What the car did before: from which unit, heard or felt at which contacts."""

    name: str
    unit: str
    contacts: tuple[str, ...]
    kind: str  # warning | emergency | voice | other
    place: Place
    key: str = ""  # in which state of the key it sounds: out, accessory, run; empty where nobody wrote it


_KINDS = {
    "emergency": ("emergency", "ecall", "e-call", "sos"),
    "voice": ("voice", "phone", "hands-free", "call", "speech"),
    "warning": ("tone", "chime", "warning", "alarm", "belt", "collision", "buzzer"),
}


def kind_by_name(name: str) -> str:
    """What a function of the car is, from its name, where it isn't said: emergency before voice before warning."""
    lower = name.lower()
    return next((kind for kind, words in _KINDS.items() if any(word in lower for word in words)), "other")


class Step(NamedTuple):
    """One line of the order of work."""

    verb: str
    what: str
    place: Place


class Tone(NamedTuple):
    """A toning record, as far as it is read here: which pair answered where, and what the chart said then."""

    contacts: tuple[str, str]
    charted: str
    heard: str  # the speakers that answered; `none` where nothing did; empty where that isn't written
    plus: str  # the cavity found to be +, or empty
    place: Place
    unplugged: tuple[str, ...] = ()  # plugs and units that were parted while it was taken, in small letters
    signal: str = ""  # the tone that was on, as written


@dataclass(frozen=True, slots=True)
class Job:
    """The whole job file with its part files, every name resolved.

    `contacts` holds every contact by its name; `fates` what is said rather than derived.
    """

    file: str
    title: str
    revision: str
    preset: str
    place: Place
    car: Car | None
    limits: dict[str, Limit]
    parts: Parts
    contacts: dict[str, Contact]
    mates: tuple[Mate, ...]
    joints: tuple[Joint, ...]
    segments: tuple[Segment, ...]
    features: tuple[Feature, ...]
    removed: dict[str, Place]
    cut: dict[str, Place]
    capped: dict[str, Place]
    depinned: dict[str, Place]
    moved: dict[str, tuple[str, Place]]
    steps: tuple[Step, ...]
    tones: tuple[Tone, ...]
    has_runs: bool
    part_files: tuple[str, ...] = ()
    read_ohms: frozenset[str] = frozenset()  # pairs read with a meter, by contact
    records: tuple[Record, ...] = ()  # all evidence in the order taken, also what no longer holds
    struck: tuple[Struck, ...] = ()  # evidence that a later record takes back; it proves nothing
    off_chart: tuple[Tone, ...] = ()  # tones at cavities of a plug's face that its chart has no row for
    date: str = ""  # the day of the work, or not said
    couplings: tuple[Coupling, ...] = ()
    shop: str = ""  # the file with the shop's drawer and rates, as written
    # terminals of speakers that have the lead of the other one on them in this car, and the record that says so
    turned_here: Mapping[str, Record] = field(default_factory=dict)
    apart: frozenset[str] = frozenset()  # plugs whose halves are pulled apart in a state between two steps
