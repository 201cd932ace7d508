"""H02."""

from collections.abc import Iterator
from typing import NamedTuple

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import MATED, PLUGGED
from harness.graph.joined import made_at
from harness.graph.wiring import Wiring
from harness.place import Place


class _Clash(NamedTuple):
    """A contact, the two fates in words, and where each is written."""

    contact: str
    first: str
    second: str
    place: Place
    other: Place


@check("H02", Severity.FIX, "Two fates for one lead or cavity", source="common practice, no source")
def two_fates(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a contact that is said to be capped, depinned, cut, moved or empty and has a second fate.

    Why it matters: one of the two is a slip, and whoever holds the sheet will do one of them.

    Example: cavity 7 stands under `capped`, and a joint leads on from it.

    What to do: strike one of the two.

    Known limits: a cut end that is capped or joined has one fate; so has a loom's lead that is capped while
    the wire through its pin stays.

    Source: common practice, no source: a cavity or lead has exactly one fate.
    """
    together: dict[tuple[Place, Place], list[_Clash]] = {}
    for clash in _clashes(wiring):
        together.setdefault((clash.place, clash.other), []).append(clash)
    for clashes in together.values():
        clash = clashes[0]
        words = wiring.words(clash.contact)
        yield Fault(
            at=Spot(clash.place, words),
            message=f"{words} is {clash.first} and also {clash.second}: only one of the two can be meant.",
            do=f"Decide, and strike “{clash.first}” or what says “{clash.second}”.",
            about=tuple(each.contact for each in clashes),
            also=(Spot(clash.other, words),),
        )


def _clashes(wiring: Wiring) -> Iterator[_Clash]:
    job = wiring.job
    for name, place in job.capped.items():
        if name in job.depinned:
            yield _Clash(name, "capped", "depinned", place, job.depinned[name])
        else:
            yield from _joined(wiring, name, "capped", place) or _passed(wiring, name, place)
    for name, place in job.depinned.items():
        yield from _joined(wiring, name, "depinned", place)
        if name in job.cut:
            yield _Clash(name, "depinned", "cut", place, job.cut[name])
        if name in job.moved:
            yield _Clash(name, "depinned", "moved", place, job.moved[name][1])
    for name, place in job.cut.items():
        if name in job.moved:
            yield _Clash(name, "cut", "moved", place, job.moved[name][1])
    for plug in job.parts.plugs.values():
        for row in plug.rows:
            if row.function.kind == "empty":
                for half in ("unit", "car"):
                    yield from _joined(wiring, f"{plug.name}.{half}.{row.cavity}", "empty", row.place)


def _joined(wiring: Wiring, name: str, said: str, place: Place) -> list[_Clash]:
    made = made_at(wiring, name)
    if not made:
        return []
    return [_Clash(name, said, f"joined to {wiring.words(made[0].other(name))}", place, made[0].place)]


def _passed(wiring: Wiring, name: str, place: Place) -> Iterator[_Clash]:
    """A half of a cavity that is capped while it still conducts to what it was capped against."""
    contact = wiring.contact(name)
    if contact.kind != "plug":
        return
    other = f"{contact.owner}.{'car' if contact.half == 'unit' else 'unit'}.{contact.last}"
    if other in wiring.job.capped and wiring.contact(other).half == "car":
        return  # told at the other half
    for conductor in wiring.planned.conductors(name):
        if conductor.kind == MATED:
            yield _Clash(name, "capped", "passed on, as nothing opens it", place, place)
            return
        if conductor.kind == PLUGGED and wiring.planned.joined(name, other):
            yield _Clash(name, "capped", f"passed on by {conductor.name}", place, conductor.place)
            return
