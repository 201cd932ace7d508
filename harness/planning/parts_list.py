"""What has to lie on the bench before the work begins: units, cable by size, fuses, grommets, rings, joints."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.cable import fuses, segments
from harness.graph.fitted import OF_THE_CAR
from harness.graph.runs import cables
from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.model.job import Job, Joint, Segment
from harness.model.parts import Loom, Speaker, Unit
from harness.planning.cut_list import cut_list
from harness.units import WireSize

IN_LINE = ""


class CableSum(NamedTuple):
    """All cable of one make: `kind` wire, rca or fibre, `cores` 2 where two wires are laid as a pair. Signal cables and
    fibres, which are bought by the piece, of one length only.

    `length_m` is the sum of the pieces whose length is written, each pair counted once along its way; `unwritten`
    pieces are not in it. `to_cut_m` is the sum of what the cut list cuts, so that nobody brings less than is cut; of
    what is bought by the piece it is as measured. `uses` names the ends of each run once.
    """

    kind: str
    size: WireSize | None
    metal: str
    cores: int
    pieces: int
    length_m: float
    to_cut_m: float
    unwritten: int
    uses: tuple[str, ...]


class FuseCount(NamedTuple):
    """Fuses of one value (None: not recorded), how many, and how each is held: in which fuse block, or IN_LINE."""

    rating_a: float | None
    number: int
    holders: tuple[tuple[str, int], ...]


class Passing(NamedTuple):
    """A hole: the place, what protects the edge (`grommet`, `bare`), the cables through it by size."""

    via: str
    edge: str
    sizes: tuple[tuple[WireSize | None, int], ...]


class RingCount(NamedTuple):
    """Ring terminals at a ground point or a battery's post, by the size of their wire (None: not recorded)."""

    contact: str
    sizes: tuple[tuple[WireSize | None, int], ...]


class JointCount(NamedTuple):
    """Splices of one method under one cover, each wire-to-wire place counted once."""

    method: str
    words: str
    cover: str
    needs_cover: bool
    number: int


class PartsList(NamedTuple):
    """Everything that the job names to be fitted, counted."""

    units: tuple[Unit, ...]
    looms: tuple[Loom, ...]
    speakers: tuple[Speaker, ...]
    cables: tuple[CableSum, ...]
    fuses: tuple[FuseCount, ...]
    passing: tuple[Passing, ...]
    rings: tuple[RingCount, ...]
    joints: tuple[JointCount, ...]
    met: tuple[str, ...]  # contacts at which a run is joined to a cavity or a lead and no row of joints says how
    capped: tuple[str, ...]


def parts_list(wiring: Wiring) -> PartsList:
    """All parts of the plan in the order of the job; what the car has already is left out."""
    job = wiring.job
    return PartsList(
        tuple(
            unit for unit in job.parts.units.values() if unit.kind not in OF_THE_CAR and unit.name not in wiring.gone
        ),
        tuple(job.parts.looms.values()),
        tuple(speaker for speaker in job.parts.speakers.values() if speaker.new),
        _cables(wiring),
        _fuses(wiring),
        _passing(wiring),
        _rings(wiring),
        _joints(job.joints),
        _met(job),
        tuple(job.capped),
    )


def _pieces(wiring: Wiring) -> Iterator[tuple[Segment, int, str]]:
    """Each piece that is laid but the fuses, once a pair, with its wires and what the whole run joins."""
    for cable in cables(wiring.job):
        owners = dict.fromkeys(wiring.contact(end).owner for end in (cable.wires[0].start, cable.wires[0].end))
        for segment in cable.segments:
            if segment.kind != "fuse":
                yield segment, len(cable.wires), " to ".join(owners)


def _cables(wiring: Wiring) -> tuple[CableSum, ...]:
    found: dict[tuple[str, str, str, int, float | None], list[tuple[Segment, float, str]]] = defaultdict(list)
    cut = iter(cut_list(wiring).pieces)  # in the order of the pieces of wire
    for segment, cores, ends in _pieces(wiring):
        cut_m = (next(cut).whole_cm_m if segment.kind == "wire" else segment.length_m) or 0.0
        spelled = segment.size.text if segment.size is not None else ""
        made_up = segment.length_m if segment.kind != "wire" else None  # bought by the piece, not cut from a reel
        found[segment.kind, spelled, segment.metal, cores, made_up].append((segment, cut_m, ends))
    made = []
    for (kind, _, metal, cores, _), parts in found.items():
        lengths = [segment.length_m for segment, _, _ in parts]
        known = [each for each in lengths if each is not None]
        uses = tuple(dict.fromkeys(ends for _, _, ends in parts))
        size = parts[0][0].size
        unwritten = len(lengths) - len(known)
        to_cut_m = sum(cut_m for _, cut_m, _ in parts)
        made.append(CableSum(kind, size, metal, cores, len(parts), sum(known), to_cut_m, unwritten, uses))
    return tuple(sorted(made, key=lambda each: (each.kind != "wire", -(each.size.area_mm2 if each.size else 0.0))))


def _fuses(wiring: Wiring) -> tuple[FuseCount, ...]:
    found: dict[float | None, Counter[str]] = defaultdict(Counter)
    laid = segments(wiring)
    units = wiring.job.parts.units
    for ends, fuse in fuses(wiring).items():
        segment = laid.get(ends)
        if segment is not None and not segment.laid:
            continue
        owners = [wiring.contact(end).owner for end in ends if wiring.contact(end).kind == "unit"]
        block = next((name for name in owners if units[name].kind == "fuse block"), "")
        if segment is None and not block:
            continue  # inside a unit, and it comes with it
        found[fuse.rating_a][block or IN_LINE] += 1
    values = sorted(found, key=lambda value: -(value or 0.0))
    return tuple(FuseCount(value, found[value].total(), tuple(found[value].items())) for value in values)


def _passing(wiring: Wiring) -> tuple[Passing, ...]:
    found: dict[tuple[str, str], list[WireSize | None]] = defaultdict(list)
    for segment, _, _ in _pieces(wiring):
        if segment.via:
            found[segment.via, segment.grommet].append(segment.size)
    return tuple(Passing(via, edge, _by_size(sizes)) for (via, edge), sizes in found.items())


def _rings(wiring: Wiring) -> tuple[RingCount, ...]:
    """One a wire that ends at a point of the body or a battery's post, by runs or by joints."""
    found: dict[str, list[WireSize | None]] = {f"gnd.{name}": [] for name in wiring.job.parts.grounds}

    def count(end: str, size: WireSize | None) -> None:
        contact = wiring.contact(end)
        battery = contact.kind == "unit" and wiring.job.parts.units[contact.owner].kind == "battery"
        if contact.kind in ("ground", "battery") or battery:
            found.setdefault(end, []).append(size)

    for cable in cables(wiring.job):
        for run in cable.wires:
            count(run.start, run.segments[0].size)
            count(run.end, run.segments[-1].size)
    for joint in wiring.job.joints:
        for link in joint.links:
            count(link.a, wiring.contact(link.b).size)
            count(link.b, wiring.contact(link.a).size)
    return tuple(RingCount(name, _by_size(sizes)) for name, sizes in found.items())


def _by_size(sizes: list[WireSize | None]) -> tuple[tuple[WireSize | None, int], ...]:
    """Each size with how often it occurs, the thickest first."""
    counted = Counter(sizes)
    return tuple(sorted(counted.items(), key=lambda each: -(each[0].area_mm2 if each[0] is not None else 0.0)))


def _joints(joints: tuple[Joint, ...]) -> tuple[JointCount, ...]:
    found: Counter[tuple[str, str]] = Counter()
    for joint in joints:
        found[joint.method, joint.cover] += _places(joint)
    known = methods()
    return tuple(
        JointCount(method, known[method].words, cover, known[method].needs_cover, number)
        for (method, cover), number in found.items()
    )


def _met(job: Job) -> tuple[str, ...]:
    """One a place where wires meet: both halves of a cavity are one wire where it is neither cut nor unplugged."""
    opened = {mate.plug for mate in job.mates}
    apart = {(job.contacts[name].owner, job.contacts[name].last) for name in job.cut}

    def place(name: str) -> str:
        about = job.contacts[name]
        if about.kind != "plug" or about.owner in opened or (about.owner, about.last) in apart:
            return name
        return f"{about.owner}.{about.last}"

    told = {place(end) for joint in job.joints for link in joint.links for end in link}
    found: dict[str, str] = {}
    for segment in job.segments:
        for end in (segment.a, segment.b) if segment.laid else ():
            about = job.contacts[end]
            inline = about.owner in job.parts.plugs and job.parts.plugs[about.owner].inline
            if about.kind in ("plug", "loom") and not inline and place(end) not in told:
                found.setdefault(place(end), end)
    return tuple(found.values())


def _places(joint: Joint) -> int:
    """In how many places a joint's wires meet: two for a pair on a pair, one for three wires in one."""
    groups: list[set[str]] = []
    for link in joint.links:
        touched = [group for group in groups if link.a in group or link.b in group]
        groups = [group for group in groups if group not in touched]
        groups.append({link.a, link.b}.union(*touched))
    return len(groups)
