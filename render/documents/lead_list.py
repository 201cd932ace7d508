"""The lead list: every lead of every loom and unit, once, with what becomes of it; what to depin and cap."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph import fates
from harness.graph.conductor import JOINT
from harness.graph.fates import CavityFate, LeadFate
from harness.graph.pairs import pairs_of
from harness.graph.runs import Cable, cables_at
from harness.model.contact import printed
from harness.planning.markers import Marker, marker
from harness.planning.states import contradicted_at
from render.blocks import Block, Cell, Column, Grid, Heading, Para, Sheet, Strong, Tick
from render.documents import document
from render.documents.wording import (
    NOT_RECORDED,
    far_names,
    function_cell,
    function_words,
    labelled,
    name_and_words,
    size_words,
    swatch,
    wire_name,
)

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.parts import Loom
    from harness.prove import Proof

_HOLD = "\N{NO-BREAK SPACE}"
DO = {
    fates.PASSED: "LEAVE: goes through",
    fates.CAPPED: "CAP",
    fates.DEPINNED: "DEPIN",
    fates.LOOSE: "LOOSE: not decided",
}


@document("lead-list", title="Lead list", order=3)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For the bench: no lead left over, none used twice."""
    if proof.wiring is not None:
        yield Sheet("lead-list", "Lead list", tuple(_blocks(proof.wiring)), shares=True)


def _blocks(wiring: Wiring) -> Iterator[Block]:
    parts = wiring.job.parts
    if not parts.looms and not any(unit.leads for unit in parts.units.values()):
        yield Para("The job has no loom, and no leads are written for any unit.")
    yield from _key(wiring, list(_all_leads(wiring)))
    for loom in parts.looms.values():
        yield from _loom(wiring, loom)
    silent = []
    for unit in parts.units.values():
        if unit.name in wiring.gone:
            continue
        if unit.leads:
            yield Heading(f"Unit {unit.name}: {unit.where or f'place {NOT_RECORDED}'}")
            yield _leads(wiring, wiring.fates.leads(unit.name), "unit")
        else:
            silent.append(unit.name)
    if silent:
        yield Para(f"No leads are written for {', '.join(silent)}: colours and sizes {NOT_RECORDED}.")
    yield from _cut_depin_cap(wiring)
    yield from _markers(wiring)


def _seats(wiring: Wiring, loom: str) -> dict[str, str]:
    """Where each end of a loom goes, in words: into a plug, or into another loom."""
    job = wiring.job
    made = {each.end: f"goes into {each.other}, {each.other_end} end" for each in job.couplings if each.loom == loom}
    made |= {each.other_end: f"takes {each.loom}, {each.end} end" for each in job.couplings if each.other == loom}
    return made | {each.end: f"goes into {each.plug}, {each.half} side" for each in job.mates if each.loom == loom}


def _loom(wiring: Wiring, loom: Loom) -> Iterator[Block]:
    seats = _seats(wiring, loom.name)
    leads = wiring.fates.leads(loom.name)
    for end in loom.ends.values():
        to = seats.get(end.name, "is plugged in nowhere")
        housing = f"{end.housing or f'housing {NOT_RECORDED}'}{f', {end.contacts}' if end.contacts else ''}"
        yield Heading(f"{loom.name}, {end.name} end ({housing}): {to}", 2)
        yield _leads(wiring, [each for each in leads if each.lead.end == end.name], "loom")
    free = [each for each in leads if each.lead.end not in loom.ends]
    if free:
        yield Heading(f"{loom.name}, leads that go to no plug end", 2)
        yield _leads(wiring, free, "loom")
    yield from _pins(wiring, loom)


def _leads(wiring: Wiring, leads: list[LeadFate], owner: str) -> Block:
    if not leads:
        return Para("No flying leads.")
    columns = (
        Column("Lead", 0.1),
        Column("For", 1.4),
        Column("Colour", 4.0),
        Column("Size", 0.1),
        Column("Do", 0.1),
        Column("To", 2.4),
    )
    rows: list[tuple[Cell, ...]] = []
    runs = cables_at(wiring.job)
    for each in leads:
        lead = each.lead
        name = printed(lead.name)
        if lead.own and lead.cavity and owner == "loom":
            name += f"\nat {lead.end} {lead.cavity}"
        do = _joined_by(wiring, runs, lead.name) if each.fate == fates.USED else DO.get(each.fate, each.fate)
        also = [word for word in each.said if word != each.fate]
        if also:
            do += f"\nalso said: {' and '.join(also)}"
        rows.append(
            (
                Strong(name),
                _charted_for(wiring, each),
                swatch(lead.colour),
                size_words(lead.size) if lead.size else NOT_RECORDED,
                Strong(do),
                far_names(wiring, lead.name, each.to) or "nothing",
            )
        )
    return Grid(columns, tuple(rows))


def _charted_for(wiring: Wiring, each: LeadFate) -> Cell:
    """What a lead is for, and that the car says otherwise of the pair that it is on."""
    against = contradicted_at(wiring, each.lead.name)
    said = function_cell(each.lead.function)
    if not against:
        return said
    return (*(said if isinstance(said, tuple) else (said,)), Strong(against))


def _joined_by(wiring: Wiring, runs: dict[str, tuple[Cable, ...]], lead: str) -> str:
    """What a lead is joined by, each by the name under which the splice list has its row: `JOIN J4`, `RUN 3`."""
    joints = [each.name for each in wiring.planned.conductors(lead) if each.kind == JOINT]
    said = [f"JOIN {', '.join(dict.fromkeys(joints))}"] if joints else []
    said += [cable.name for cable in runs.get(lead, ())]
    return "\n".join(said).replace(" ", _HOLD)


def _key(wiring: Wiring, leads: list[LeadFate]) -> Iterator[Block]:
    """What the words under “Do” mean, those that occur."""
    runs = cables_at(wiring.job)
    done = [_joined_by(wiring, runs, each.lead.name) for each in leads if each.fate == fates.USED]
    said = ["JOIN: make that joint of the splice list."] if any("JOIN" in words for words in done) else []
    said += ["RUN: an end of that run, under “Runs to lay”."] if any("RUN" in words for words in done) else []
    said += [words for fate, words in _MEANS.items() if any(each.fate == fate for each in leads)]
    if said:
        yield Para(" ".join(said))


_MEANS = {
    fates.CAPPED: "CAP: insulate its whole end, join it to nothing.",
    fates.DEPINNED: "DEPIN: take its terminal out of the housing.",
    fates.LOOSE: "LOOSE: a bare end; decide before you begin.",
}


def _pins(wiring: Wiring, loom: Loom) -> Iterator[Block]:
    """Wires from end to end, and pins that only the maker's list names."""
    plain, special = [], []
    for through in loom.throughs:
        unit, car = f"{loom.name}.unit.{through.unit_cavity}", f"{loom.name}.car.{through.car_cavity}"
        pulled = [name for name in (unit, car) if name in wiring.job.depinned]
        what = _for(wiring, loom, car)
        if not pulled and through.unit_cavity == through.car_cavity:
            plain.append((Strong(through.unit_cavity), what))
            continue
        crossed = "" if through.unit_cavity == through.car_cavity else ", CROSSES to another number"
        do = f"DEPIN at {' and '.join(pulled)}" if pulled else f"LEAVE: goes through{crossed}"
        special.append((Strong(through.unit_cavity), Strong(through.car_cavity), what, Strong(do)))
    if special:
        columns: tuple[Column, ...] = (
            Column("Unit end pin", 0.1), Column("Car end pin", 0.1), Column("For", 3), Column("Do", 3)
        )  # fmt: skip
        yield Grid(columns, tuple(special), caption=f"{loom.name}: wires from end to end, not as they come")
    if plain:
        half = (len(plain) + 1) // 2
        right = [*plain[half:], *([(Strong(""), "")] * (2 * half - len(plain)))]
        columns = (Column("Pin", 0.1), Column("For", 3)) * 2
        rows = tuple((*left, *other) for left, other in zip(plain[:half], right, strict=True))
        caption = f"{loom.name}: wires from end to end, the same pin at both ends. LEAVE: they go through"
        yield Grid(columns, rows, caption=caption)
    known = {each.unit_cavity for each in loom.throughs} | {each.car_cavity for each in loom.throughs}
    known |= {lead.cavity for lead in loom.leads}
    bare = [row for row in loom.pins if row.cavity not in known]
    if bare:
        without: list[tuple[Cell, ...]] = [
            (Strong(row.cavity), function_words(row.function), swatch(row.colour), "no wire written") for row in bare
        ]
        columns = (Column("Pin", 0.1), Column("For, says its maker", 3), Column("Colour", 3), Column("Wire", 2))
        yield Grid(columns, tuple(without), caption=f"{loom.name}: pins on its maker's list without a wire")


def _for(wiring: Wiring, loom: Loom, pin: str) -> str:
    """What the plug that it sits in says the wire is for; else what the loom's own list says."""
    cavity = pin.rsplit(".", 1)[1]
    for mate in wiring.job.mates:
        if mate.loom == loom.name and mate.end == "car":
            rows = wiring.job.parts.plugs[mate.plug].rows
            row = next((row for row in rows if row.cavity.lower() == cavity.lower()), None)
            if row is not None:
                return name_and_words(row.function)
            return f"cavity {cavity} of {mate.plug} {NOT_RECORDED}"
    return function_words(wiring.contact(pin).function)


def _cut_depin_cap(wiring: Wiring) -> Iterator[Block]:
    job = wiring.job
    if job.cut:
        yield Heading("Cut")
        yield _cuts(wiring)
    rows: list[tuple[Cell, ...]] = []
    tugged = Tick("done", "tugged")
    for verb, table in (("DEPIN", job.depinned), ("CAP", job.capped)):
        for name in table:
            contact = wiring.contact(name)
            rows.append((Strong(verb), Strong(labelled(contact)), swatch(contact.colour), tugged))
    for name, (cavity, _) in job.moved.items():
        contact = wiring.contact(name)
        words = f"{labelled(contact)} to cavity {cavity}"
        rows.append((Strong("MOVE"), Strong(words), swatch(contact.colour), tugged))
    for each in _all_leads(wiring):
        if each.fate == fates.LOOSE:
            contact = wiring.contact(each.lead.name)
            rows.append((Strong("DECIDE"), Strong(labelled(contact)), swatch(contact.colour), Tick("cap", "depin")))
    yield Heading("Depin and cap")
    if not rows:
        cut = "" if job.cut else "cut, "
        yield Para(f"Nothing to {cut}depin, move or cap, and no loose lead.")
        return
    columns = (Column("Do", 0.1), Column("What", 3), Column("Colour", 3), Column("Done", 2))
    yield Grid(columns, tuple(rows))
    yield Para(
        "Depin: open the locks of the housing first, then release with the right tool, no force. "
        "Cap: the whole bare end covered. Tug every one."
    )


def _cuts(wiring: Wiring) -> Grid:
    """Each wire once, whichever half the job names, with what becomes of both its ends."""
    rows: list[tuple[Cell, ...]] = []
    for plug, cavity in dict.fromkeys(
        (wiring.contact(name).owner, wiring.contact(name).last) for name in wiring.job.cut
    ):
        each = wiring.fates.cavity(plug, cavity)
        contact = wiring.contact(f"{plug}.car.{cavity}")
        ends = tuple(_end_of_cut(wiring, each, half) for half in ("unit", "car"))
        rows.append((Strong(wire_name(contact).replace(" ", _HOLD)), swatch(contact.colour), *ends, Tick("cut")))
    columns = (
        Column("Wire", 0.1), Column("Colour", 2.2), Column("Unit side to", 1.6), Column("Car side to", 1.6),
        Column("Done", 0.6),
    )  # fmt: skip
    return Grid(columns, tuple(rows))


def _end_of_cut(wiring: Wiring, each: CavityFate, half: str) -> str:
    """Where one end of a cut wire goes: what it is joined to, CAP, DEPIN, or that nothing is said."""
    name = f"{each.plug}.{half}.{each.row.cavity}"
    said = [word for word, table in (("CAP", wiring.job.capped), ("DEPIN", wiring.job.depinned)) if name in table]
    to = each.unit_to if half == "unit" else each.car_to
    said += [far_names(wiring, name, to)] if to else []
    return "\n".join(said) or "NOT DECIDED: nothing is said"


def _all_leads(wiring: Wiring) -> Iterator[LeadFate]:
    for owner in (*wiring.job.parts.looms, *wiring.job.parts.units):
        if owner not in wiring.gone:
            yield from wiring.fates.leads(owner)


def _markers(wiring: Wiring) -> Iterator[Block]:
    """Corner colours for the pairs of the plugs, so that both ends of a joint carry the same sleeve."""
    at: dict[str, list[str]] = {}
    made: dict[str, Marker | None] = {}
    for plug in wiring.job.parts.plugs.values():
        if plug.inline:
            continue
        for plus, minus in pairs_of(wiring, plug.name):
            base = plus.function.base
            made[base] = marker(plus.function)
            at.setdefault(base, []).append(f"{plug.name} {plus.cavity}/{minus.cavity}")
    rows: list[tuple[Cell, ...]] = []
    for base, colours in made.items():
        if colours is not None:
            # the corner's colour is taken where a driver has a pair of its own
            words = f"{colours.label} written on it" if "-" in base else ""
            plus_wire: Cell = (swatch(colours.plus), words) if words else swatch(colours.plus)
            rows.append((Strong(colours.label), ", ".join(at[base]), plus_wire, swatch(colours.minus)))
    bare = [f"{base} ({', '.join(at[base])})" for base, colours in made.items() if colours is None]
    if rows or bare:
        yield Heading("Marker colours")
        yield Para("Sleeve or tape in the trade's corner colours, whatever the wires' own colours are.")
    if rows:
        yield Grid((Column("Pair", 0.1), Column("At (+/−)", 2), Column("+ wire", 3), Column("− wire", 3)), tuple(rows))
    if bare:
        yield Para(f"No colour of the trade, write the name on it: {', '.join(bare)}.")
