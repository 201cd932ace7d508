"""What a car's owner wants to know: what was fitted, where its fuses are, what was tried, how to go back to stock."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.proven import FAILS, tried, worked
from harness.graph.wiring import Wiring
from harness.joints import methods
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
    """Every fuse that was laid, in the order of the runs."""
    made = []
    runs: dict[object, list[Segment]] = {}
    for segment in wiring.job.segments:
        if segment.laid:
            runs.setdefault(segment.place, []).append(segment)
    for segments in runs.values():
        start, end = (wiring.contact(segments[0].a).owner, wiring.contact(segments[-1].b).owner)
        before_m: float | None = 0.0
        for segment in segments:
            if segment.kind == "fuse":
                made.append(FusePlace(segment.fuse_a, unit_words(wiring, end), _where(wiring, start, before_m)))
            elif before_m is not None:
                before_m = before_m + segment.length_m if segment.length_m is not None else None
    return made


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
            state = "given up, as agreed"
        elif each.after is not None:
            state = each.after.word("result") or "not working"
        elif each.before is not None and each.before.word("result") in FAILS:
            state = f"did not work before either ({each.before.word('result')})"
        else:
            state = "not tried after the work"
        made.append(Function(each.name, state))
    return made


def back_to_stock(wiring: Wiring) -> list[str]:
    """What has to be done to have the car as it was, in its order."""
    job = wiring.job
    lines = []
    if any(segment.laid for segment in job.segments):
        lines.append("Battery: negative off first. Take the new cable off the battery, and its fuse out.")
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
    for name in job.removed:
        lines.append(f"Put {unit_words(wiring, name)} back in and plug it in.")
    if any(speaker.new for speaker in job.parts.speakers.values()):
        lines.append("Put the old speakers back where new ones replaced them.")
    lines.append("Try every lamp, warning, voice and button afterwards.")
    return lines


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
