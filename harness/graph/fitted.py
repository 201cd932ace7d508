"""The units that we fit: which of them want a feed and a ground, their terminals, and what reaches them."""

from __future__ import annotations

from collections.abc import Iterator

from harness.graph.cable import posts
from harness.graph.feeding import is_live
from harness.graph.kept import kept
from harness.graph.waking import wake_words
from harness.graph.wiring import Wiring
from harness.model.parts import Unit

# What the car brings itself, with its own feed and ground.
OF_THE_CAR = ("radio", "factory amplifier", "control unit", "cluster")
_ALWAYS_FED = ("processor", "amplifier", "processor amplifier", "interface")
# What current goes through on its way; none of these takes a feed for itself.
PASSED = ("relay", "fuse block", "battery", "diode", "switch")


@kept
def seated(wiring: Wiring) -> frozenset[str]:
    """The units that sit on a plug which feeds or grounds them."""
    return frozenset(
        name
        for plug in wiring.job.parts.plugs.values()
        if any(row.function.kind in ("battery", "ground") for row in plug.rows)
        for name in (plug.unit, plug.car)
        if name
    )


@kept
def ours(wiring: Wiring) -> tuple[Unit, ...]:
    """The units of the plan that want a feed and a ground laid for them, in the order of the job.

    A line converter, or a unit whose kind is not said, wants them where the file says that it draws or is woken by
    a lead: many converters are passive.
    """
    return tuple(
        unit
        for unit in wiring.job.parts.units.values()
        if unit.kind not in (*OF_THE_CAR, *PASSED)
        and unit.name not in wiring.gone
        and unit.name not in seated(wiring)
        and (unit.kind in _ALWAYS_FED or _draws(unit))
    )


def _draws(unit: Unit) -> bool:
    power = unit.power
    return bool(power.draws_a or power.draws_w or power.fuses_a or wake_words(unit))


def terminals_for(wiring: Wiring, unit: str, *kinds: str) -> list[str]:
    """The terminals of a unit whose function is of one of these kinds: battery for B+, ground for GND."""
    return [name for name in wiring.of_unit.get(unit, ()) if wiring.contact(name).function.kind in kinds]


def takes_feed(wiring: Wiring, name: str) -> bool:
    """Whether a contact is where a unit takes its current, B+ of an amplifier say."""
    contact = wiring.contact(name)
    return (
        contact.kind == "unit"
        and contact.function.kind == "battery"
        and wiring.job.parts.units[contact.owner].kind not in PASSED
    )


def is_fed(wiring: Wiring, contact: str) -> bool:
    """Whether something gives a contact current as planned: by wire and fuse, a relay, a diode or a switch."""
    known = _fed(wiring)
    first = wiring.planned.net_number(contact)
    if first not in known:
        row, seen = [first], {first}
        for number in row:
            if _gives(wiring, number):
                known[first] = True
                break
            for name in wiring.planned.nets[number]:
                for other in _across(wiring, name):
                    far = wiring.planned.net_number(other)
                    if far not in seen:
                        seen.add(far)
                        row.append(far)
        else:
            known.update(dict.fromkeys(seen, False))
    return known[first]


@kept
def _fed(wiring: Wiring) -> dict[int, bool]:
    """Whether a net is fed, for those that were asked for; filled by `is_fed` alone."""
    return {}


def _gives(wiring: Wiring, number: int) -> bool:
    sources = posts(wiring)
    return any(name in sources or is_live(wiring, name) for name in wiring.planned.nets[number])


def _across(wiring: Wiring, name: str) -> Iterator[str]:
    """The terminals to which current goes from this one inside a relay, a diode or a switch."""
    contact = wiring.contact(name)
    if contact.kind != "unit" or contact.owner in wiring.gone:
        return
    kind = wiring.job.parts.units[contact.owner].kind
    if kind == "relay":
        if contact.last in ("30", "87", "87a"):
            yield from (f"{contact.owner}.{other}" for other in ("30", "87", "87a") if other != contact.last)
    elif kind in ("diode", "switch") and contact.function.kind != "ground":
        for other in wiring.of_unit[contact.owner]:
            if other != name and wiring.contact(other).function.kind != "ground":
                yield other
