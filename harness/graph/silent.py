"""Speakers that no signal reaches as planned, each reason once, with how far the way goes."""

from __future__ import annotations

from collections.abc import Hashable
from typing import NamedTuple

from harness.graph.heard import Heard
from harness.graph.kept import kept
from harness.graph.signal import Receiver, Signals
from harness.graph.whole_wire import along
from harness.graph.wiring import Wiring


class Silent(NamedTuple):
    """Speakers (or coils) silent for one reason.

    `reached` is the contact that the wire from the speaker reaches, `next` the one beyond it as found; `why`
    the reason where an output is wired to the speaker; `removed` the unit whose leaving is the reason. `path` leads
    from the first speaker to where its way ends, and one contact on as found, or to the unit that leaves.
    """

    receivers: tuple[Receiver, ...]
    had_feed: bool
    coil: bool  # the other coil of the same speaker is fed
    reached: str
    next: str
    why: str
    removed: str
    about: tuple[str, ...]
    path: tuple[str, ...] = ()


@kept
def silent_speakers(wiring: Wiring) -> list[Silent]:
    """Every speaker without feed as planned, in the file's order, without the channels that the car lacks."""
    signals = wiring.signals
    unfed = [receiver for receiver in signals.speaker_receivers if not signals.ways(receiver)]
    if unfed:
        perhaps = _sources(wiring, signals, wiring.gone)
        unfed = [receiver for receiver in unfed if not _heard(perhaps, receiver)]
    if not unfed:
        return []
    before = _sources(wiring, wiring.found_signals, frozenset())
    deaf = {receiver.name for receiver in unfed}
    fed = {r.speaker for r in signals.speaker_receivers if r.name not in deaf}
    lacks = set(wiring.job.car.lacks) if wiring.job.car else set()
    groups: dict[Hashable, list[tuple[Receiver, Silent]]] = {}
    for receiver in unfed:
        one = _one(wiring, receiver, before, receiver.speaker in fed)
        speaker = wiring.job.parts.speakers[receiver.speaker]
        # what the car was built without may be silent; what this job fits may not
        if {speaker.function.channel, speaker.function.base} & lacks and not one.why and not speaker.new:
            continue
        groups.setdefault(_reason(wiring, receiver, one), []).append((receiver, one))
    made = []
    for group in groups.values():
        about = tuple(dict.fromkeys(name for _, one in group for name in one.about))
        made.append(group[0][1]._replace(receivers=tuple(r for r, _ in group), about=about))
    return made


def _sources(wiring: Wiring, signals: Signals, gone: frozenset[str]) -> Heard:
    """Where programme arrives, what nobody wrote taken for the best.

    Sources are the outputs of units that have no inputs, speaker wires of a plug whose unit is not written or
    has no outputs written; a unit without written routes passes everything on.
    """
    units = wiring.job.parts.units
    starts = [t for d in signals.drivers if units[d.port.unit].is_source for t in (d.plus, d.minus)]
    for plug in wiring.job.parts.plugs.values():
        unit = units.get(plug.unit)
        if plug.unit in gone or (unit and any(p.way == "out" for p in unit.ports.values())):
            continue
        starts += [f"{plug.name}.unit.{row.cavity}" for row in plug.rows if row.function.kind in ("audio", "port")]
    return Heard(signals, starts)


def _heard(where: Heard, receiver: Receiver) -> bool:
    """Whether both its wires bring something, and are not one."""
    both = where.at(receiver.plus) and where.at(receiver.minus)
    return both and not where.state.joined(receiver.plus, receiver.minus)


def _reason(wiring: Wiring, receiver: Receiver, one: Silent) -> Hashable:
    if one.removed:
        return ("removed", one.removed)
    if one.why:
        return ("why", one.why)
    number = wiring.planned.net_number
    nets = frozenset((number(receiver.plus), number(receiver.minus)))
    lonely = all(len(wiring.planned.nets[net]) == 1 for net in nets)
    return ("speaker", receiver.speaker) if lonely else ("nets", nets)


def _one(wiring: Wiring, receiver: Receiver, before: Heard, coil: bool) -> Silent:
    signals = wiring.signals
    had = _heard(before, receiver)
    removed, reached, after, why = "", "", "", ""
    if had:
        removed = _removed_on_way(wiring, receiver, before)
        reached, after = _end_of_way(wiring, receiver, before)
    about = [name for t in (receiver.plus, receiver.minus) for name in wiring.planned.net(t)[:200]]
    ends = signals.dead_ends(receiver)
    for driver, _ in ends:
        about += [driver.plus, driver.minus]
        route = signals.route(driver)
        unit = driver.port.unit
        about += [f"{unit}.{name}{sign}" for name in (route.inputs if route else ()) for sign in "+-"]
    if ends:
        why, reached, removed = ends[0][1], ends[0][0].plus, ""
    if after:
        about.append(after)
    reached = reached or list(wiring.planned.around(receiver.plus))[-1]
    had = had or bool(wiring.found_signals.ways(receiver))
    path = _path(wiring, receiver, reached, after, before if removed else None)
    return Silent((receiver,), had, coil, reached, after, why, removed, tuple(dict.fromkeys(about)), path)


def _path(wiring: Wiring, receiver: Receiver, reached: str, after: str, removed_in: Heard | None) -> tuple[str, ...]:
    """From the speaker to where its way ends; where a unit leaves, the way as found back to it."""
    if removed_in is not None:
        back: list[str] = []
        for stage in reversed(removed_in.stages(receiver.plus)):
            back += along(wiring, wiring.found, stage.end, stage.start)
            if _unit_at(wiring, stage.start) in wiring.gone:
                break
        return tuple(back)
    ends = (receiver.plus, receiver.minus)
    start = next((end for end in ends if wiring.planned.joined(end, reached)), receiver.plus)
    path = (*along(wiring, wiring.planned, start, reached), *((after,) if after else ()))
    return path if len(path) > 1 else ()


def _removed_on_way(wiring: Wiring, receiver: Receiver, before: Heard) -> str:
    """The unit on the way as found that comes out, or empty."""
    for stage in before.stages(receiver.plus):
        unit = _unit_at(wiring, stage.start)
        if unit in wiring.gone:
            return unit
    return ""


def _unit_at(wiring: Wiring, name: str) -> str:
    contact = wiring.contact(name)
    return wiring.job.parts.plugs[contact.owner].unit if contact.kind == "plug" else contact.owner


def _end_of_way(wiring: Wiring, receiver: Receiver, before: Heard) -> tuple[str, str]:
    """The last contact that still conducts to the speaker and the first beyond it, on the way as found."""
    for end in (receiver.plus, receiver.minus):
        here = end
        for hop in wiring.found.path(end, before.stages(end)[-1].start):
            if not wiring.planned.joined(end, hop.contact):
                return here, hop.contact
            here = hop.contact
    return "", ""
