"""Plugs, looms, units, speakers: what stands in a job or in a part file, one frozen value each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from harness.model.colour import Colour
from harness.model.function import Function
from harness.model.money import Money
from harness.place import Place
from harness.units import WireSize

HALVES = ("unit", "car")


class Row(NamedTuple):
    """One cavity of a plug, one pin of a loom's list, or one lead: what is written about it.

    `partner` is the other cavity where two were written as one row; `twisted` says the pair is.
    """

    cavity: str
    function: Function
    colour: Colour | None
    size: WireSize | None
    place: Place
    partner: str = ""
    twisted: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class Face:
    """How a plug's numbers stand, as seen in `view`. `drawn` are the rows with None for a gap."""

    drawn: tuple[tuple[str | None, ...], ...]
    view: str  # wire | mating | '' (not said)
    latch: str
    keying: str
    place: Place


class Source(NamedTuple):
    """Who says what a plug holds: the chart, its date and person, the years it covers, the side of the wheel."""

    chart: str
    date: str
    by: str
    covers: str
    place: Place
    steering: str = ""
    steering_at: Place | None = None


@dataclass(frozen=True, slots=True)
class Plug:
    """A factory connector as found; once opened it has a unit side and a car side."""

    name: str
    place: Place
    where: str
    housing: str
    unit: str  # the unit on the unit side, or empty
    car: str  # the unit on the car side; empty: the car's own wiring
    face: Face | None
    ways: int | None
    source: Source | None
    carries: tuple[str, ...]
    genders: dict[str, str]  # half -> pins | sockets
    rows: tuple[Row, ...]
    inline: bool = False  # a plug in the car's own wiring, known only by the chains through it

    @property
    def cavities(self) -> tuple[str, ...]:
        return tuple(row.cavity for row in self.rows)


class LoomEnd(NamedTuple):
    """One plug end of a loom, named for the half that it plugs into."""

    name: str
    housing: str
    contacts: str  # pins | sockets | ''
    place: Place


class Lead(NamedTuple):
    """A flying lead of a loom: `cavity` empty where it goes to no cavity; `own` where it has its own name."""

    name: str  # the contact: T1.unit.1, T1.aerial
    end: str
    cavity: str
    function: Function
    colour: Colour | None
    size: WireSize | None
    place: Place
    own: str = ""


class Through(NamedTuple):
    """A wire of a loom from the unit end's cavity to the car end's."""

    unit_cavity: str
    car_cavity: str
    place: Place


class Store(NamedTuple):
    """What the store says of a part: its price, how many lie there, the day when one that doesn't is here.

    `stock` is None and `arrives` empty where nobody wrote it.
    """

    price: Money | None = None
    stock: int | None = None
    arrives: str = ""


NOWHERE = Store()


@dataclass(frozen=True, slots=True)
class Loom:
    """An adapter: plug ends, wires passed through, flying leads."""

    name: str
    place: Place
    ends: dict[str, LoomEnd]
    leads: tuple[Lead, ...]
    throughs: tuple[Through, ...]
    pins: tuple[Row, ...]  # what its maker says each cavity is for
    store: Store = NOWHERE
    cut_off: str = ""  # the end that was cut off: what went through it hangs loose


class Signal(NamedTuple):
    """What an input takes or an output gives, in SI; None where not said."""

    text: str = ""
    form: str = ""  # btl | differential | grounded | transformer | digital | ''
    level_v: float | None = None
    least_v: float | None = None
    most_v: float | None = None
    power_w: float | None = None
    load_ohm: float | None = None
    least_ohm: float | None = None
    low_hz: float | None = None
    high_hz: float | None = None
    gain_db: float | None = None
    delay_s: float | None = None
    step: int | None = None  # the volume step that an output's level was read at, of `steps`
    steps: int | None = None
    clean: bool = False  # that step is the last one without clipping
    volume: str = ""  # of an output: fixed (made somewhere behind it) | here | ''


class Port(NamedTuple):
    """A pair of terminals that carries one signal, + and −, of a unit."""

    unit: str
    name: str
    way: str  # in | out
    signal: Signal
    place: Place

    @property
    def plus(self) -> str:
        return f"{self.unit}.{self.name}+"

    @property
    def minus(self) -> str:
        return f"{self.unit}.{self.name}-"

    @property
    def clean_step(self) -> int | None:
        """The last volume step without clipping, at which the level was read; None where nobody wrote it."""
        return self.signal.step if self.signal.clean else None

    @property
    def steps(self) -> int | None:
        """How many volume steps there are."""
        return self.signal.steps


class Route(NamedTuple):
    """What a unit sends to one output inside: the inputs summed, and whether it turns them round."""

    output: str
    inputs: tuple[str, ...]
    inverted: bool
    signal: Signal
    place: Place


class Bond(NamedTuple):
    """Terminals joined inside a unit; `fuse_a` where a fuse joins them."""

    terminals: tuple[str, ...]
    place: Place
    fuse: bool = False


class Power(NamedTuple):
    """What is written of a unit's supply; None and empty where it isn't.

    `draws_a` is a constant current, `draws_w` a constant power; `fuses_a` are the fuses in its own case, `ways_a`
    those of a fuse block by way (None: looked for, not known). A relay's coil draws `coil_a`, with `coil_across` it.
    """

    amp_class: str = ""
    efficiency: float | None = None
    draws_a: float | None = None
    draws_w: float | None = None
    fuses_a: tuple[float, ...] = ()
    ways_a: dict[str, float | None] = {}  # noqa: RUF012 - a default that nobody writes to
    coil_a: float | None = None
    coil_across: str = ""


class Setting(NamedTuple):
    """A switch or control as it is set: `what` is input, signal sense, bridge, high-pass, low-pass or gain.

    `output` is the output that it is of, for a bridge its two (`out1/out2`), else empty. `words` as written; `value`
    in SI where it is a number, None where it is off, a word, or unknown.
    """

    what: str
    output: str
    words: str
    value: float | None
    place: Place


@dataclass(frozen=True, slots=True)
class Unit:
    """Radio, factory amplifier, interface, processor, amplifier, relay, fuse block, battery …"""

    name: str
    place: Place
    kind: str
    where: str
    ports: dict[str, Port]
    routes: tuple[Route, ...]
    routes_said: bool
    bridges: tuple[tuple[str, str], ...]  # terminals, + first
    bonds: tuple[Bond, ...]
    wakes: tuple[str, ...]
    gives_a: dict[str, float]
    settings: str
    switches: tuple[Setting, ...]
    leads: tuple[Lead, ...]
    terminals: dict[str, Place]
    power: Power

    @property
    def is_source(self) -> bool:
        """Whether its outputs carry programme of its own rather than what comes in."""
        return self.kind == "radio" or not any(p.way == "in" for p in self.ports.values())


class Successor(NamedTuple):
    """What is written of the new speaker that replaces one: None and empty where it isn't."""

    nominal_ohm: float | None
    coils: int
    coil_ohm: float | None
    coil_wiring: str
    capacitor: str


@dataclass(frozen=True, slots=True)
class Speaker:
    """A loudspeaker of the car, or a new one in its place."""

    name: str
    place: Place
    where: str
    function: Function  # channel and driver, no sign
    nominal_ohm: float | None
    coils: int  # 1 for a plain speaker
    coil_ohm: float | None
    coil_wiring: str  # series | parallel | separate | ''
    capacitor: str
    inverted: str  # factory | on purpose | ''
    new: str
    successor: Successor | None = None

    def terminals(self) -> tuple[str, ...]:
        """Contacts, + before −: `spk.FL+`, or for separate coils `spk.SUB.c1+`."""
        if self.coil_wiring == "separate":
            return tuple(f"spk.{self.name}.c{k}{sign}" for k in range(1, self.coils + 1) for sign in "+-")
        return (f"spk.{self.name}+", f"spk.{self.name}-")


class GroundPoint(NamedTuple):
    """A place of the body where a ground is fixed; `metal` is bare, painted, unknown or not said."""

    name: str
    where: str
    metal: str
    place: Place
    fixed: str = ""  # stud, bolt, screw, weld nut, belt anchor, unknown or not said


@dataclass(frozen=True, slots=True)
class Parts:
    """Everything with a name, by name as written."""

    plugs: dict[str, Plug]
    looms: dict[str, Loom]
    units: dict[str, Unit]
    speakers: dict[str, Speaker]
    grounds: dict[str, GroundPoint]
