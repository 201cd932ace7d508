"""What a car's owner wants to know: what was fitted, where its fuses are, what was tried, how to go back to stock."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.answering import lacked_by_name
from harness.graph.cable import Fuse, fuses, way_from_source
from harness.graph.proven import signatures, tried, worked
from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.model.evidence import FAILS, Record
from harness.model.job import Segment
from harness.planning.parts_list import parts_list

# Plain words for kinds of units; a kind that isn't here is said as it is written.
_PLAIN = {
    "processor amplifier": "amplifier with sound processor", "amplifier": "amplifier", "fuse block": "fuse block",
    "processor": "sound processor", "line converter": "signal converter", "relay": "relay",
    "factory amplifier": "the car's own amplifier",
}  # fmt: skip


class Fitted(NamedTuple):
    """A thing that was fitted, in plain words, and where it is; empty where nobody wrote that."""

    what: str
    where: str


class FusePlace(NamedTuple):
    """One fuse of ours: amperes (None: not recorded), what it protects, and where it sits."""

    rating_a: float | None
    protects: str
    where: str


class Function(NamedTuple):
    """A function of the car and how it was left: works, silent, wrong, not tried again, lost as agreed."""

    name: str
    state: str


def fitted(wiring: Wiring) -> list[Fitted]:
    """Units, looms and new speakers."""
    parts = parts_list(wiring)
    made = [Fitted(unit_words(wiring, unit.name), unit.where) for unit in parts.units]
    made += [Fitted(f"new speaker: {each.new}", each.where) for each in parts.speakers]
    places = [wiring.job.parts.plugs[mate.plug].where for mate in wiring.job.mates]
    if parts.looms:
        several = "s" if len(parts.looms) > 1 else ""
        made.append(Fitted(f"plug-in adapter cable{several}", ", ".join(dict.fromkeys(places))))
    return made


def unit_words(wiring: Wiring, name: str) -> str:
    """`amplifier with sound processor`; with its name where there are several of the kind; `the battery`."""
    unit = wiring.job.parts.units.get(name)
    if unit is None:
        return f"the {name}" if name == "battery" else name
    plain = _PLAIN.get(unit.kind, unit.kind)
    alone = sum(each.kind == unit.kind for each in wiring.job.parts.units.values()) == 1
    return plain if plain and alone else f"{plain} ({name})" if plain else name


def fuse_places(wiring: Wiring) -> list[FusePlace]:
    """Every fuse of the plan, in the order of the job: in laid cables, in fuse blocks, in the cases of units."""
    made = []
    chains: dict[object, list[Segment]] = {}
    by_ends: dict[tuple[str, str], list[Segment]] = {}  # the chain that a piece is in
    for segment in wiring.job.segments:
        if segment.laid:
            chain = chains.setdefault(segment.place, [])
            chain.append(segment)
            by_ends.setdefault((segment.a, segment.b), chain)
    for fuse in fuses(wiring).values():
        own = by_ends.get((fuse.a, fuse.b))
        made.append(_in_a_chain(wiring, own, fuse) if own is not None else _in_a_block(wiring, chains, fuse))
    for unit in parts_list(wiring).units:
        for rating_a in unit.power.fuses_a:
            where = f"in its own case{f', {unit.where}' if unit.where else ''}"
            made.append(FusePlace(rating_a, unit_words(wiring, unit.name), where))
    return made


def _in_a_chain(wiring: Wiring, chain: list[Segment], fuse: Fuse) -> FusePlace:
    """A chain may be written from its load to the battery: its place is told from the end that feeds it."""
    ends = [chain[0].a, chain[-1].b]
    at = next(number for number, each in enumerate(chain) if each.a == fuse.a)
    before = [0.0 if each.kind == "fuse" else each.length_m for each in chain[:at]]
    if fuse.b in way_from_source(wiring, fuse.a):
        ends.reverse()
        before = [0.0 if each.kind == "fuse" else each.length_m for each in chain[at + 1 :]]
    start, end = (wiring.contact(name).owner for name in ends)
    known = [each for each in before if each is not None]
    before_m = sum(known) if len(known) == len(before) else None
    return FusePlace(fuse.rating_a, unit_words(wiring, end), _where(wiring, start, before_m))


def _in_a_block(wiring: Wiring, chains: dict[object, list[Segment]], fuse: Fuse) -> FusePlace:
    block, way = wiring.contact(fuse.b).owner, wiring.contact(fuse.b).last
    ends = [(c[0].a, c[-1].b) for c in chains.values()]
    fed = [far for a, b in ends for near, far in ((a, b), (b, a)) if near == fuse.b]
    protects = ", ".join(dict.fromkeys(unit_words(wiring, wiring.contact(name).owner) for name in fed))
    where = wiring.job.parts.units[block].where
    return FusePlace(
        fuse.rating_a, protects or f"what hangs on way {way}",
        f"way {way} of the {unit_words(wiring, block)}{f', {where}' if where else ''}",
    )  # fmt: skip


def _where(wiring: Wiring, start: str, before_m: float | None) -> str:
    unit = wiring.job.parts.units.get(start)
    place = f", {unit.where}" if unit is not None and unit.where else ""
    words = f"{unit_words(wiring, start)}{place}"
    if before_m is None:
        return f"in the cable from {words}"
    return f"at {words}" if before_m == 0.0 else f"{before_m * 100:.0f} cm from {words}"


def functions(wiring: Wiring) -> list[Function]:
    """The car's functions, those of the job first, and how they were left. Nobody can sign for a warning's loss."""
    made = []
    for each in tried(wiring):
        if worked(each.after):
            state = "works"
        elif each.signed:
            state = _given_up(signatures(wiring)[each.name.lower()][-1])
        elif each.after is not None:
            state = each.after.word("result") or "not working"
        elif each.before is not None and each.before.word("result") in FAILS:
            state = f"did not work before either ({each.before.word('result')})"
        else:
            state = "not tried after the work"
        made.append(Function(each.name, state))
    return made


def _given_up(record: Record) -> str:
    """Whoever signed for the loss of a function: an agreement only where the record says that the owner agreed."""
    who = record.word("who")
    reason = f": {record.word('reason')}" if record.word("reason") else ""
    if not {"customer", "owner", "keeper", "driver"}.isdisjoint(who.lower().replace(",", " ").split()):
        return f"given up, agreed by {who}{reason}"
    return f"given up; {who or record.by or 'nobody named'} signed for it{reason}"


def back_to_stock(wiring: Wiring) -> list[str]:
    """What has to be done to have the car as it was, in its order."""
    job = wiring.job
    lines = list(_power_off(wiring))
    units = [unit_words(wiring, unit.name) for unit in parts_list(wiring).units]
    if units:
        lines.append(f"Unplug and take out what was fitted: {', '.join(units)}.")
    for plug in dict.fromkeys(mate.plug for mate in job.mates):
        where = job.parts.plugs[plug].where
        lines.append(f"Unplug the adapter ({where or plug}) and put the car's own plug back together.")
    cut: dict[str, int] = {}
    for name in job.cut:
        place = job.parts.plugs[wiring.contact(name).owner].where if wiring.contact(name).kind == "plug" else ""
        cut[place] = cut.get(place, 0) + 1
    for place, number in cut.items():
        wires = "1 wire of the car was" if number == 1 else f"{number} wires of the car were"
        lines.append(f"{wires} cut {place or 'at the plug'}: each has two ends, to be joined again and covered.")
    taps = _taps(wiring)
    if taps:
        come = "1 joint on the car's own wires comes" if taps == 1 else f"{taps} joints on the car's own wires come"
        lines.append(f"{come} off; cover the bare places.")
    pulled = [name for name in (*job.depinned, *job.moved) if wiring.contact(name).kind == "plug"]
    for plug in dict.fromkeys(wiring.contact(name).owner for name in pulled):
        here = dict.fromkeys(wiring.contact(name).last for name in pulled if wiring.contact(name).owner == plug)
        where = job.parts.plugs[plug].where or plug
        lines.append(f"Terminals back into their cavities in the car's plug ({where}): {', '.join(here)}.")
    for name in job.removed:
        lines.append(f"Put {unit_words(wiring, name)} back in and plug it in.")
    never = lacked_by_name(wiring)
    new = [speaker for speaker in job.parts.speakers.values() if speaker.new]
    if any(speaker.name not in never for speaker in new):
        lines.append("Put the old speakers back where new ones replaced them.")
    if added := [speaker.where or speaker.name for speaker in new if speaker.name in never]:
        lines.append(f"Take out the speakers that the car did not have: {', '.join(dict.fromkeys(added))}.")
    lines.append("Try every lamp, warning, voice and button afterwards.")
    return lines


def _power_off(wiring: Wiring) -> Iterator[str]:
    """What is laid comes off the battery first; only where something is on it."""
    laid = [segment for segment in wiring.job.segments if segment.laid]
    if not laid:
        return
    posts = {name for segment in laid for name in (segment.a, segment.b) if wiring.contact(name).kind == "battery"}
    fused = any(segment.kind == "fuse" for segment in laid)
    if any(name.endswith("+") for name in posts):
        yield f"Battery: negative off first. Take the new cable off the battery{', and its fuse out' if fused else ''}."
    else:
        yield "Battery: negative off first. Take off the cables that were laid."


def _taps(wiring: Wiring) -> int:
    """Joints made on wires of the car that were not cut."""
    known = methods()
    cut = {name.replace(".unit.", ".car.", 1) for name in wiring.job.cut}
    return sum(
        1
        for joint in wiring.job.joints
        for link in joint.links
        if not known[joint.method].at_terminal
        and any(wiring.contact(end).kind == "plug" for end in link)
        and not any(end.replace(".unit.", ".car.", 1) in cut for end in link)
    )
