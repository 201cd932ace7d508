"""What wakes each unit in the end, the way it comes, and the wakes that nothing gives 12 V to."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.graph.conductor import FUSE, JOINT, RUN, Hop
from harness.graph.kept import kept
from harness.graph.waking import (
    Giver,
    Wake,
    coil_plus,
    givers,
    is_alone,
    passers,
    relay_in_use,
    sources,
    wakes,
    wakes_without_lead,
)
from harness.graph.wiring import Wiring
from harness.model.parts import Unit
from harness.place import Place

_BY_HAND = (JOINT, RUN, FUSE)
# Kinds whose terminals are all known: one that `gives` doesn't name gives nothing.
_KNOWN_THROUGHOUT = ("relay", "diode", "fuse block", "battery")


class Woken(NamedTuple):
    """A terminal that wants 12 V and what gives it in the end, each giver once."""

    wake: Wake
    sources: tuple[Giver, ...]


class Way(NamedTuple):
    """How 12 V comes from a giver to a terminal: contacts in order, through relays and diodes.

    `place` and `at` are where a person joined it, and the contact on the giver's side of that.
    """

    path: tuple[str, ...]
    place: Place
    at: str


class Cause(NamedTuple):
    """One connection by which a giver wakes units: the nearest one first, and those that hang on behind it."""

    giver: Giver
    woken: tuple[Wake, ...]
    way: Way


class DeadEnd(NamedTuple):
    """Terminals that nothing gives 12 V to, for one reason. `end` is where the search stopped: the first terminal
    itself, or the coil of a relay before it. `far` is the last contact that its wire reaches, `way` goes there.
    """

    wakes: tuple[Wake, ...]
    end: str
    far: str
    way: Way


@kept
def woken(wiring: Wiring) -> tuple[Woken, ...]:
    """Every terminal that wants 12 V with its sources, in the order of the job."""
    return tuple(Woken(each, tuple(sources(wiring, each.contact))) for each in wakes(wiring))


def way(wiring: Wiring, giver: Giver, terminal: str, own_joint: bool = False) -> Way:
    """The way from a giver to a terminal that it wakes, through what `giver.through` names.

    Its place is the last thing joined before the first relay or diode: there the giver is chosen. With `own_joint` it
    is what the terminal itself hangs on.
    """
    here, path = terminal, [terminal]
    place: Place | None = None
    at = giver.contact
    for start, goes_on in (*_exits(wiring, giver, terminal), (giver.contact, "")):
        hops = wiring.planned.path(start, here)
        contacts = [start, *(hop.contact for hop in hops)]
        if (made := _by_hand(start, hops)) is not None and (place is None or not own_joint):
            place, at = made
        path[:0] = contacts[:-1]
        if goes_on:
            path.insert(0, goes_on)
            here = goes_on
    return Way(tuple(path), place or wiring.contact(terminal).place, at)


def _exits(wiring: Wiring, giver: Giver, terminal: str) -> Iterable[tuple[str, str]]:
    """(where 12 V leaves, where what wakes it enters) of each relay and diode on the way, from the woken unit back."""
    here = terminal
    for name in giver.through:
        if wiring.job.parts.units[name].kind == "diode":
            leaves, enters = f"{name}.k", f"{name}.a"
        else:
            leaves = f"{name}.87" if wiring.planned.joined(here, f"{name}.87") else f"{name}.30"
            enters = coil_plus(wiring, name)
        yield leaves, enters
        here = enters


def _by_hand(start: str, hops: tuple[Hop, ...]) -> tuple[Place, str] | None:
    """The last thing on a way that a person laid or joined: its line and the contact before it."""
    contacts = (start, *(hop.contact for hop in hops))
    for before, hop in zip(reversed(contacts[:-1]), reversed(hops), strict=True):
        if hop.conductor.kind in _BY_HAND:
            return hop.conductor.place, before
    return None


def causes(wiring: Wiring, which: Iterable[tuple[Giver, Wake]]) -> list[Cause]:
    """The connections behind what is woken wrongly: each told once, by its nearest terminal.

    A terminal belongs to the cause of one that its way passes, or that is joined at the same line.
    """
    ways = [(giver, wake, way(wiring, giver, wake.contact)) for giver, wake in which]
    ways.sort(key=lambda each: len(each[2].path))
    made: list[Cause] = []
    passed: dict[str, int] = {}  # a woken terminal -> its cause
    lines: dict[tuple[str, Place], int] = {}
    for giver, wake, found in ways:
        number = next((passed[name] for name in found.path if name in passed), None)
        if number is None:
            number = lines.get((giver.contact, found.place))
        if number is None:
            number = len(made)
            made.append(Cause(giver, (wake,), found))
            lines[giver.contact, found.place] = number
        else:
            made[number] = made[number]._replace(woken=(*made[number].woken, wake))
        passed.setdefault(wake.contact, number)
    return made


def only_from(wiring: Wiring, kind: str) -> list[tuple[Giver, Wake]]:
    """The units with sound that nothing but givers of one kind wakes, each with each of them.

    An aerial's own amplifier may well wake by the aerial feed, and a camera by the lamps.
    """
    units = wiring.job.parts.units
    return [
        (giver, each.wake)
        for each in woken(wiring)
        if not each.wake.coil and has_sound(units[each.wake.unit]) and all(it.kind == kind for it in each.sources)
        for giver in each.sources
    ]


def has_sound(unit: Unit) -> bool:
    """Whether sound goes through a unit: by its kind, or by inputs or outputs that are written."""
    return bool(unit.ports) or unit.kind == "line converter" or "amplifier" in unit.kind or "processor" in unit.kind


@kept
def dead_ends(wiring: Wiring) -> tuple[DeadEnd, ...]:
    """What nothing gives 12 V to, each reason once; what isn't planned yet and what the bus wakes is left out."""
    by_net: dict[int, list[tuple[Wake, str]]] = {}
    units = wiring.job.parts.units
    for each in woken(wiring):
        wake = each.wake
        if each.sources or wakes_without_lead(units[wake.unit]) or (wake.coil and not relay_in_use(wiring, wake.unit)):
            continue
        end = _end_of(wiring, wake.contact)
        if end and (wiring.job.has_runs or not is_alone(wiring, end)):
            by_net.setdefault(wiring.planned.net_number(end), []).append((wake, end))
    return tuple(_dead_end(wiring, group) for group in by_net.values())


def _end_of(wiring: Wiring, terminal: str) -> str:
    """Where the search for 12 V ends, back through relays and diodes; empty where something may give it after all."""
    row, seen = [terminal], {wiring.planned.net_number(terminal)}
    for here in row:
        if any(_may_give(wiring, name, terminal) for name in wiring.planned.net(here)):
            return ""
        for unit, enters in passers(wiring).get(wiring.planned.net_number(here), ()):
            number = wiring.planned.net_number(enters)
            if number not in seen and (wiring.job.parts.units[unit].kind == "diode" or _switches(wiring, unit, here)):
                seen.add(number)
                row.append(enters)
    return row[-1]


def _switches(wiring: Wiring, relay: str, here: str) -> bool:
    """Whether the other side of a relay's contact has 12 V, so that only its coil is in question."""
    return bool(givers(wiring, f"{relay}.{'30' if wiring.planned.joined(here, f'{relay}.87') else '87'}"))


def _may_give(wiring: Wiring, name: str, terminal: str) -> bool:
    """A hand switch, or another unit's terminal whose sense isn't written: nobody can say that it gives nothing."""
    contact = wiring.contact(name)
    if contact.kind != "unit" or contact.owner in (wiring.contact(terminal).owner, *wiring.gone):
        return False
    unit = wiring.job.parts.units[contact.owner]
    if unit.kind == "switch":
        return contact.function.kind != "ground"
    wanting = {words.partition(" ")[0].lower() for words in unit.wakes} | {"rem"}
    if unit.kind in _KNOWN_THROUGHOUT or contact.last.lower() in wanting or name in wiring.ports:
        return False
    return contact.function.kind in ("terminal", "trigger")


def _dead_end(wiring: Wiring, group: list[tuple[Wake, str]]) -> DeadEnd:
    end = group[0][1]
    owners = {wiring.contact(end).owner}
    reached = wiring.planned.around(end)
    far = end
    for name in reached:
        if wiring.contact(name).kind != "run" and wiring.contact(name).owner not in owners:
            far = name
    found = tuple(wake for wake, _ in group)
    hops = wiring.planned.path(end, far)
    made = _by_hand(end, hops)
    place, at = made if made else (wiring.contact(end).place, end)
    return DeadEnd(found, end, far, Way(wiring.way_in_words(end, hops) if hops else (), place, at))


def nothing_gives(wiring: Wiring) -> bool:
    """Whether some unit wants a lead and the car has none to give: no switched or turn-on wire in any of the plugs
    written, and no unit with a turn-on output that is itself awake.
    """
    ends = dead_ends(wiring)
    if not ends or all(plug.inline for plug in wiring.job.parts.plugs.values()):
        return False
    if any(wiring.contact(name).kind == "plug" for name in wiring.contacts_for("switched", "trigger")):
        return False
    asleep = {wake.unit for each in ends for wake in each.wakes}
    return not any(
        unit.gives_a and unit.name not in asleep and unit.name not in wiring.gone
        for unit in wiring.job.parts.units.values()
    )


def amperes(current_a: float) -> str:
    """`390 mA` below one ampere, else `1.2 A`."""
    return f"{current_a * 1000:.3g} mA" if current_a < 1 else f"{current_a:.3g} A"


def names(units: Iterable[str]) -> str:
    """Names in a message, each once: three at most."""
    known = list(dict.fromkeys(units))
    return " and ".join(known[:3]) + (" and others" if known[3:] else "")


def what_units_do(woken_units: Iterable[Wake], one: str, several: str) -> str:
    """`dsp sleeps`, `dsp and amp sleep`."""
    units = list(dict.fromkeys(wake.unit for wake in woken_units))
    return f"{names(units)} {one if len(units) == 1 else several}"
