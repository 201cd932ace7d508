"""What isn't known: facts of the car, which map it is, and what each map leaves open."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.model.parts import Plug
from harness.model.scope import Record
from harness.scoping.lines import UNKNOWN, Line, open_line
from harness.scoping.site import Site
from harness.scoping.variants import WHICH, at_plug
from harness.telling_apart import phrases

_FACTS = {
    "name": ("Which car is it?", "read its papers"),
    "year": ("Which model year is it?", "read its papers; the year of the first registration may be another one"),
    "steering": ("On which side is the wheel?", "ask the customer"),
    "audio": ("Which audio option has it?", "ask for the equipment list; look for names on the speaker grilles"),
    "drive": ("Petrol, diesel, hybrid or electric?", "read its papers"),
    "ownership": ("Owned or leased?", "ask the customer"),
}
_NOT_WRITTEN = "it is not written"


def unknowns(site: Site) -> Iterator[Line]:
    """Every gap once, with how it is found out; and the maps that a record strikes out."""
    scope = site.scope
    for key, (question, how) in _FACTS.items():
        if key not in scope.car:
            yield open_line(UNKNOWN, question, _NOT_WRITTEN, how)
    if scope.fitted is None:
        yield open_line(
            UNKNOWN, "Has it stop-start, a battery sensor, noise cancelling, a speaker check?", _NOT_WRITTEN,
            "ask for the equipment list; look at the battery's minus",
        )  # fmt: skip
    if scope.features is None:
        yield open_line(
            UNKNOWN, "Which tones and voices does it make?", _NOT_WRITTEN,
            "try each with the customer: belt, reverse, parking, hands-free, emergency call",
        )  # fmt: skip
    if site.channels and not site.wishes("unit"):
        yield open_line(
            UNKNOWN, f"Which unit is to drive {' '.join(site.channels)}?", "no unit is written under the wishes",
            "agree it with the customer", tuple(dict.fromkeys(wish.record for wish in site.channels.values())),
        )  # fmt: skip
    yield from _which_map(site)
    yield from _of_maps(site)
    for channel, wish in site.channels.items():
        lacking = [variant for variant in site.could if variant.pair(channel) is None]
        if lacking:
            yield open_line(
                UNKNOWN, f"Where are the two wires of {channel}?",
                f"{'map' if len(lacking) == 1 else 'maps'} {' and '.join(each.letter for each in lacking)} "
                f"{'has' if len(lacking) == 1 else 'have'} no pair {channel}", "tone it on the car", (wish.record,),
            )  # fmt: skip


def _which_map(site: Site) -> Iterator[Line]:
    could = site.could
    for variant, why, records in site.sifted.out:
        yield Line(UNKNOWN, f"{variant.file} is left out: {why}.", records)
    if not could:
        yield open_line(
            UNKNOWN, "What is in the plugs?", "no map of this car is in the shop’s folders",
            "get a chart (ringout chart), or tone cavity by cavity",
        )  # fmt: skip
    elif len(could) > 1:
        table = site.session.table()
        cover = table.cover
        tests = ", ".join(phrases.short(table.tests[at_]) for at_ in cover.tests) if cover else ""
        yield open_line(
            UNKNOWN, f"Which map is it: {', '.join(each.letter for each in could)}?", "more than one could fit",
            WHICH + (f": {tests}" if tests else ""), tuple(at_plug(each.plugs[0]) for each in could),
        )  # fmt: skip


class _Gap(NamedTuple):
    question: str
    find_out: str
    basis: tuple[Record, ...]
    unknown: bool = False  # the map itself says that nobody knows


def _of_maps(site: Site) -> Iterator[Line]:
    """What the maps leave open; a gap of several maps once."""
    found: dict[tuple[str, str, bool], tuple[list[str], list[Record]]] = {}
    for variant in site.could:
        for plug in variant.plugs:
            for gap in _gaps(plug):
                letters, records = found.setdefault((gap.question, gap.find_out, gap.unknown), ([], []))
                letters.append(variant.letter)
                records += gap.basis
    for (question, how, unknown), (letters, records) in found.items():
        one = len(letters) == 1
        said = (
            ("has it" if one else "have it") + " as unknown" if unknown else f"{'doesn’t' if one else 'don’t'} say it"
        )
        condition = f"{'map' if one else 'maps'} {' and '.join(letters)} {said}"
        yield open_line(UNKNOWN, question, condition, how, tuple(records))


def _gaps(plug: Plug) -> Iterator[_Gap]:
    """What a map leaves open of a plug."""
    here = (at_plug(plug),)
    for key, said in (("place", plug.where), ("housing", plug.housing)):
        if not said:
            yield _Gap(f"{key.capitalize()} of plug {plug.name}?", f"look, and write {key}: there", here)
    if plug.face is None or not plug.face.view:
        yield _Gap(f"From which side is plug {plug.name} numbered?", "look at the moulded numbers", here)
    dark = [row for row in plug.rows if row.function.kind == "unknown"]
    if dark:
        question = f"What is in cavity {', '.join(row.cavity for row in dark)} of plug {plug.name}?"
        yield _Gap(question, "tone or read volts", tuple(Record("unknown", row.place) for row in dark), unknown=True)
