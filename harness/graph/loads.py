"""What each output sees as it is wired: speakers, their capacitors, and the cable to them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from harness.electrical.impedance import Branch, Delivery, Least, delivered, impedance, least_modulus, volts
from harness.electrical.joined import Joined
from harness.graph.cable import ohms, segment_of
from harness.graph.kept import kept
from harness.graph.shop import figure
from harness.graph.signal import Driver, Receiver
from harness.graph.wiring import Wiring
from harness.model.parts import Speaker, Successor
from harness.units import quantity

if TYPE_CHECKING:
    from harness.graph.resistance import Part

AUDIBLE_HZ = (20.0, 20_000.0)


class Coil(NamedTuple):
    """A speaker, or one coil of it, as planned: nominal ohms (None: not known) and the capacitor in line with it.

    `capacitor` is None where there is none; infinite where one is there whose value nobody knows.
    """

    ohm: float | None
    capacitor: float | None


class Arrival(NamedTuple):
    """What reaches one speaker: the share of the volts lost in the wire, at mid band."""

    name: str
    speaker: str
    wire_loss: float


class Load(NamedTuple):
    """The load of one output. `nominal_ohm` at mid band; `least` is the least over the band with nominal coils.

    `rated_ohm` is the least that the output takes: for a bridge twice what one channel takes, since each half sees
    half the load. `unknown` are speakers without ohms: then the numbers are None.
    """

    driver: Driver
    arrivals: tuple[Arrival, ...]
    nominal_ohm: float | None
    least: Least | None
    rated_ohm: float | None
    bridged: bool
    band_hz: tuple[float, float]
    unknown: tuple[str, ...]


def coil_of(speaker: Speaker) -> Coil:
    """The whole speaker as planned, or one of its coils where they are separate."""
    each = counted(speaker)
    return Coil(_ohms(each.nominal_ohm, each.coils, each.coil_ohm, each.coil_wiring), _farad(each.capacitor))


def counted(speaker: Speaker) -> Speaker | Successor:
    """What counts of a speaker: the new one in its place where that one's ohms are written, else the old one."""
    new = speaker.successor
    return new if new is not None and (new.nominal_ohm or new.coil_ohm) else speaker


def part_of(speaker: Speaker) -> Part:
    """As `coil_of`, as a meter reads it."""
    from harness.graph.resistance import Part  # asked for by readings only

    coil = coil_of(speaker)
    return Part(speaker.name, coil.ohm, coil.capacitor is not None)


def _ohms(nominal: float | None, coils: int, coil: float | None, how: str) -> float | None:
    if coil is None:
        return nominal or None
    return {"series": coil * coils, "parallel": coil / coils}.get(how, coil)


def _farad(text: str) -> float | None:
    if not text:
        return None
    return math.inf if text == "unknown" else quantity(text, "capacitance")


@kept
def loads(wiring: Wiring) -> list[Load]:
    """The load of each output that drives a speaker by wire, in the order of the job.

    An output with a bridge over it is left to the bridge where both drive the same speaker.
    """
    signals = wiring.signals
    made = []
    for driver in signals.drivers:
        # once each: a speaker before a fork stands in every line that goes on from it
        speakers = dict.fromkeys(feed.receiver for feed in signals.feeds_from(driver) if feed.receiver.port is None)
        if speakers:
            made.append(_load(wiring, driver, list(speakers)))
    return made


def band_of(wiring: Wiring, driver: Driver) -> tuple[float, float]:
    """The band of an output by its route, else by what is written of it; open ends at the edge of hearing."""
    route = wiring.signals.route(driver)
    signals = [route.signal] if route is not None else []
    signals.append(driver.port.signal)
    low = next((s.low_hz for s in signals if s.low_hz), AUDIBLE_HZ[0])
    high = next((s.high_hz for s in signals if s.high_hz), AUDIBLE_HZ[1])
    return low, max(high, low)


def _load(wiring: Wiring, driver: Driver, receivers: list[Receiver]) -> Load:
    parts = wiring.job.parts.speakers
    coils = {each.name: coil_of(parts[each.speaker]) for each in receivers}
    bridged = "/" in driver.name
    rated = driver.port.signal.least_ohm
    rated = rated * 2 if rated is not None and bridged else rated
    band = band_of(wiring, driver)
    unknown = tuple(each.speaker for each in receivers if not coils[each.name].ohm)
    if unknown:
        return Load(driver, (), None, None, rated, bridged, band, unknown)
    number = wiring.planned.net_number
    ends = [driver.plus, driver.minus, *(end for each in receivers for end in (each.plus, each.minus))]
    if not any(number(end) in _with_cable(wiring) for end in ends):
        return _without_cable(wiring, driver, receivers, coils, Load(driver, (), None, None, rated, bridged, band, ()))
    with_wire = _branches(wiring, driver, receivers, coils, warm=True)
    middle = math.sqrt(band[0] * band[1])
    plus, minus = _ends(with_wire, driver)
    bare = _branches(wiring, driver, receivers, coils, warm=False)
    bare_plus, bare_minus = _ends(bare, driver)
    here, lossless = (
        volts(with_wire.branches, plus, minus, middle),
        volts(bare.branches, bare_plus, bare_minus, middle),
    )
    arrivals = []
    for each in receivers:
        got, whole = _across(with_wire, here, each), _across(bare, lossless, each)
        arrivals.append(Arrival(each.name, each.speaker, 1 - got / whole if whole else 0.0))
    nominal = abs(impedance(bare.branches, bare_plus, bare_minus, middle))
    least = least_modulus(bare.branches, bare_plus, bare_minus, *band)
    return Load(driver, tuple(arrivals), nominal, least, rated, bridged, band, ())


def delivery(wiring: Wiring, load: Load, level_v: float) -> Delivery:
    """Watts and volts at each speaker of a load whose ohms are known, at `level_v` of its output and mid band."""
    receivers = [feed.receiver for feed in wiring.signals.feeds_from(load.driver) if feed.receiver.port is None]
    coils = {each.name: coil_of(wiring.job.parts.speakers[each.speaker]) for each in receivers}
    net = _branches(wiring, load.driver, receivers, coils, warm=True)
    count = len(receivers)
    names = [each.name for each in receivers]
    speakers = dict(zip(names, net.branches[-count:], strict=True))
    middle = math.sqrt(load.band_hz[0] * load.band_hz[1])
    return delivered(speakers, net.branches[:-count], *_ends(net, load.driver), middle, level_v)


@kept
def _with_cable(wiring: Wiring) -> frozenset[int]:
    """The nets in which a piece of cable has a length and a size."""
    number = wiring.planned.net_number
    return frozenset(number(each.a) for each in wiring.job.segments if each.size is not None)


def _without_cable(
    wiring: Wiring, driver: Driver, receivers: list[Receiver], coils: dict[str, Coil], load: Load
) -> Load:
    """No cable to reckon with: each net is one node, and one plain speaker is its own ohms."""
    number = wiring.planned.net_number
    branches = []
    for each in receivers:
        coil = coils[each.name]
        assert coil.ohm is not None
        farad = coil.capacitor if coil.capacitor is not None and math.isfinite(coil.capacitor) else None
        branches.append(Branch(str(number(each.plus)), str(number(each.minus)), coil.ohm, farad))
    plus, minus = str(number(driver.plus)), str(number(driver.minus))
    middle = math.sqrt(load.band_hz[0] * load.band_hz[1])
    if len(branches) == 1 and branches[0].farad is None:
        nominal, least = branches[0].ohm, Least(branches[0].ohm, middle)
    else:
        nominal = abs(impedance(branches, plus, minus, middle))
        least = least_modulus(branches, plus, minus, *load.band_hz)
    arrivals = tuple(Arrival(each.name, each.speaker, 0.0) for each in receivers)
    return load._replace(arrivals=arrivals, nominal_ohm=nominal, least=least)


class _Net(NamedTuple):
    branches: list[Branch]
    one: Joined


def _ends(net: _Net, driver: Driver) -> tuple[str, str]:
    return str(net.one.root(driver.plus)), str(net.one.root(driver.minus))


def _across(net: _Net, here: dict[str, complex], receiver: Receiver) -> float:
    plus, minus = (here.get(str(net.one.root(end)), 0j) for end in (receiver.plus, receiver.minus))
    return abs(plus - minus)


def _branches(wiring: Wiring, driver: Driver, receivers: list[Receiver], coils: dict[str, Coil], *, warm: bool) -> _Net:
    """Coils between their terminals, and the pieces of cable on the ways to them; all else is one node.

    With `warm` False the cable counts as nothing.
    """
    one = Joined()
    ends = [driver.plus, driver.minus, *(end for each in receivers for end in (each.plus, each.minus))]
    for end in ends:
        one.add(end)
    pieces: dict[tuple[str, str], float] = {}
    temperature = figure(wiring, "temperature").value
    first: dict[int, str] = {}
    for end in ends:
        start = first.setdefault(wiring.planned.net_number(end), end)
        if start == end:
            continue
        here = start
        for hop in wiring.planned.path(start, end):
            segment = segment_of(wiring, hop.conductor)
            one.add(hop.contact)
            ohm = ohms(segment, temperature) if warm and segment is not None else 0.0
            if ohm:
                pieces[hop.conductor.a, hop.conductor.b] = ohm
            else:
                one.join(here, hop.contact)
            here = hop.contact
    branches = [Branch(str(one.root(a)), str(one.root(b)), ohm) for (a, b), ohm in pieces.items()]
    for each in receivers:
        coil = coils[each.name]
        assert coil.ohm is not None
        farad = coil.capacitor if coil.capacitor is not None and math.isfinite(coil.capacitor) else None
        branches.append(Branch(str(one.root(each.plus)), str(one.root(each.minus)), coil.ohm, farad))
    return _Net(branches, one)
