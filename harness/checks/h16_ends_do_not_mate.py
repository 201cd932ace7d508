"""H16."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.job import Coupling, Mate
from harness.place import Place


@check("H16", Severity.FIX, "Ends that do not mate", source="common practice, no source")
def ends_do_not_mate(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a loom's end and the half it is plugged into with the same contacts, or other housings.

    Why it matters: it can't be plugged in; it is the wrong end, or the wrong loom, and the dash is open.

    Example: the loom's car end has pins, and so has the car's half of the plug.

    What to do: turn the loom round, or order the other one.

    Known limits: compared is only what is written: `contacts` of both, housings as text without regard to case.

    Source: common practice, no source.
    """
    made: dict[tuple[Place, str], list[tuple[Mate, str]]] = {}
    for mate in wiring.job.mates:
        for why in _reasons(wiring, mate):
            made.setdefault((mate.place, mate.plug), []).append((mate, why))
    for (place, plug), found in made.items():
        first = found[0][0]
        reasons = "; ".join(dict.fromkeys(why for _, why in found))
        ends = tuple(dict.fromkeys((mate.loom, mate.end, mate.half) for mate, _ in found))
        about = [
            name
            for loom, end, half in ends
            for pin in wiring.board.pins(loom, end)
            for name in (pin.contact, f"{plug}.{half}.{pin.stands}")
        ]
        also = tuple(Spot(wiring.job.parts.looms[loom].ends[end].place, f"{loom} {end} end") for loom, end, _ in ends)
        yield Fault(
            at=Spot(place, f"{first.loom} in {plug}"),
            message=f"{reasons}: it can't be plugged in.",
            do="Take the loom's other end, or the loom made for this plug; two words for one housing: write the same.",
            about=tuple(dict.fromkeys(about)),
            also=also,
        )
    for each in wiring.job.couplings:
        reasons_here = list(_between(wiring, each))
        if reasons_here:
            yield Fault(
                at=Spot(each.place, f"{each.loom} in {each.other}"),
                message=f"{'; '.join(reasons_here)}: it can't be plugged in.",
                do="Take a loom whose end fits the other's; two words for one housing: write the same.",
                about=tuple(
                    pin.contact
                    for loom, end in ((each.loom, each.end), (each.other, each.other_end))
                    for pin in wiring.board.pins(loom, end)
                ),
                also=(Spot(wiring.job.parts.looms[each.other].ends[each.other_end].place, f"{each.other}'s end"),),
            )


def _between(wiring: Wiring, coupling: Coupling) -> Iterator[str]:
    looms = wiring.job.parts.looms
    one, other = looms[coupling.loom].ends[coupling.end], looms[coupling.other].ends[coupling.other_end]
    name, there = f"{coupling.loom}'s {coupling.end} end", f"{coupling.other}'s {coupling.other_end} end"
    if one.contacts and one.contacts == other.contacts:
        yield f"{name} has {one.contacts} and so has {there}"
    if one.housing and other.housing and _plain(one.housing) != _plain(other.housing):
        yield f"{name} is a {one.housing}, {there} a {other.housing}"


def _reasons(wiring: Wiring, mate: Mate) -> Iterator[str]:
    plug = wiring.job.parts.plugs[mate.plug]
    end = wiring.job.parts.looms[mate.loom].ends[mate.end]
    name, half = f"{mate.loom}'s {mate.end} end", f"{mate.plug}'s {mate.half} side"
    if mate.end != mate.half:
        yield f"{name} is made for the {mate.end} side and is written for {half}"
        return
    there = plug.genders.get(mate.half, "")
    if end.contacts and end.contacts == there:
        yield f"{name} has {end.contacts} and so has {half}"
    if end.housing and plug.housing and _plain(end.housing) != _plain(plug.housing):
        yield f"{name} is a {end.housing}, {mate.plug} a {plug.housing}"


def _plain(housing: str) -> str:
    return " ".join(housing.casefold().split())
