"""The plug sheets: one a plug, its face for the side you hold, and every cavity with what to do."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, cast, get_args

from harness.graph import fates
from harness.graph.conductor import PLUGGED
from harness.graph.fates import CavityFate
from harness.graph.pairs import pairs_of
from harness.model.colour import Colour
from harness.model.contact import printed
from harness.planning.states import PairStates
from render.blocks import (
    Block,
    Caution,
    Cavity,
    Cell,
    Column,
    Face,
    FacePair,
    Grid,
    Heading,
    Keep,
    Para,
    Sheet,
    Strong,
)
from render.documents import document
from render.documents.wording import (
    NOT_RECORDED,
    bare_swatch,
    far_names,
    function_cell,
    name_of,
    or_not_recorded,
    size_words,
    swatch,
)
from render.ends.shape import FaceShape, Latch, View

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.parts import Plug
    from harness.prove import Proof

# Above this many columns a face needs the long side of the paper.
MOST_COLUMNS_UPRIGHT = 12
_WORK = (fates.INTERCEPTED, fates.TAPPED, fates.ONE_END, fates.CAPPED, fates.DEPINNED, fates.OPEN)
LEAD_WORDS = {fates.CAPPED: "CAP", fates.DEPINNED: "DEPIN", fates.LOOSE: "LOOSE"}
_MARKS = {
    fates.TAPPED: "TAP",
    fates.PASSED: "PASS",
    fates.CAPPED: "CAP",
    fates.DEPINNED: "DEPIN",
    fates.ONE_END: "1 END",
    fates.OPEN: "OPEN",
}


@document("plug-sheet", title="Plug sheets, one a plug", order=2)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For the hand at the plug: which side you hold, which cavity, which colour, what to do."""
    wiring = proof.wiring
    if wiring is None:
        return
    states = PairStates(wiring)
    plugs = wiring.job.parts.plugs.values()
    for plug in plugs:
        if not plug.inline:
            yield _sheet(wiring, states, plug)
    inline = [plug for plug in plugs if plug.inline]
    if inline:
        yield Sheet("plug-sheet--inline", "Inline plugs", tuple(_inline(wiring, inline)))


def _sheet(wiring: Wiring, states: PairStates, plug: Plug) -> Sheet:
    columns = max((len(line) for line in plug.face.drawn), default=0) if plug.face else 0
    return Sheet(
        f"plug-sheet-{plug.name}",
        f"Plug {plug.name}: {plug.where or f'place {NOT_RECORDED}'}",
        tuple(_blocks(wiring, states, plug)),
        landscape=columns > MOST_COLUMNS_UPRIGHT,
    )


def _blocks(wiring: Wiring, states: PairStates, plug: Plug) -> Iterator[Block]:
    carried = sorted({each.upper() for each in plug.carries} & {"SRS", "HV"})
    if carried:
        yield Caution(f"This plug carries {' and '.join(carried)}: leave it closed, do not probe it.")
    cavities = {each.row.cavity: each for each in wiring.fates.cavities(plug.name)}
    shape, why = face_shape(plug)
    if shape is None:
        yield Caution(f"No face is drawn: {why}. Look at the plug, write it in the job, then print again.")
    else:
        drawn = tuple(_cavity(wiring, cavities[n]) for n in shape.numbers if n in cavities)
        keying = plug.face.keying if plug.face and plug.face.keying else NOT_RECORDED
        yield FacePair(Face(f"Plug {plug.name}", shape, drawn, keying))
        off = [number for number in cavities if number not in shape.numbers]
        if off:
            yield Caution(f"Not on the face: cavity {', '.join(off)}. The chart and the housing don't agree.")
    yield Para(_about(wiring, plug))
    yield _grid(wiring, states, plug, cavities, shape)
    missing = _missing(plug, cavities, shape)
    if missing:
        yield Para(f"Not recorded (nobody has looked, or nobody wrote it): cavity {', '.join(missing)}.")
    yield from _pairs(wiring, states, plug)


def _about(wiring: Wiring, plug: Plug) -> str:
    source = plug.source
    chart = NOT_RECORDED
    if source is not None:
        chart = ", ".join(
            (
                or_not_recorded(source.chart),
                source.date or f"date {NOT_RECORDED}",
                f"by {source.by}" if source.by else f"by whom {NOT_RECORDED}",
                f"covers {source.covers}" if source.covers else f"years covered {NOT_RECORDED}",
            )
        )
    looms = [
        f"loom {mate.loom}, {mate.end} end, goes into its {mate.half} side"
        for mate in wiring.job.mates
        if mate.plug == plug.name
    ]
    ways = f"{plug.ways} ways" if plug.ways is not None else f"number of ways {NOT_RECORDED}"
    genders = [f"{plug.genders[half]} on the {half} side" for half in ("unit", "car") if half in plug.genders]
    housing = ", ".join([or_not_recorded(plug.housing), ways, *genders])
    sides = (
        f"Unit side: {plug.unit or NOT_RECORDED}. Car side: {plug.car or 'the car’s own wiring'}. Housing: {housing}."
    )
    here = "; ".join(looms) if looms else "no loom is plugged in here"
    return f"{sides}\nChart: {chart}.\nIn this job: {here}."


def face_shape(plug: Plug) -> tuple[FaceShape | None, str]:
    """The face to draw, or None and why there is none. A side that isn't stated is never assumed."""
    face = plug.face
    if face is None or not face.drawn:
        return None, "the job doesn't say how the numbers stand"
    if face.view not in get_args(View):
        return None, "the job doesn't say whether the numbers are meant from the wire side or from the mating side"
    if face.latch not in get_args(Latch):
        return None, "the job doesn't say where the latch is"
    try:
        return FaceShape(face.drawn, cast(View, face.view), cast(Latch, face.latch)), ""
    except ValueError as wrong:
        return None, str(wrong)


def _cavity(wiring: Wiring, each: CavityFate) -> Cavity:
    row = each.row
    if each.fate == fates.EMPTY:
        return Cavity(row.cavity, ("empty",), state="crossed")
    state = "highlighted" if each.fate in _WORK else "plain"
    function = "unknown" if row.function.kind == "unknown" else printed(row.function.name)
    return Cavity(row.cavity, (function,), bare_swatch(row.colour), _mark(wiring, each), state)  # type: ignore[arg-type]


def _mark(wiring: Wiring, each: CavityFate) -> str:
    if each.fate == fates.INTERCEPTED:
        if _crossed(wiring, each):
            return "CROSS"
        return "LOOM" if each.plug in wiring.opened else "CUT"
    if each.fate == fates.PASSED and each.plug not in wiring.opened:
        return "LEAVE"
    return _MARKS.get(each.fate, "")


def _crossed(wiring: Wiring, each: CavityFate) -> bool:
    """Whether a loom takes both sides of a cavity to other cavities and nowhere else."""
    to = (*each.unit_to, *each.car_to)
    return each.plug in wiring.opened and all(wiring.contact(name).kind == "plug" for name in to)


def what_to_do(wiring: Wiring, each: CavityFate) -> tuple[str, str]:
    """The fate as an order to the hand, and by what."""
    loom = wiring.opened.get(each.plug)
    job = wiring.job
    halves = [f"{each.plug}.{half}.{each.row.cavity}" for half in ("unit", "car")]
    cut = "CUT" if any(name in job.cut for name in halves) else ""
    if each.fate == fates.PASSED:
        return ("PASS", f"loom {loom} carries it on") if loom else ("LEAVE ALONE", "")
    if each.fate == fates.INTERCEPTED:
        if _crossed(wiring, each):
            return "PASS CROSSED", f"loom {loom} carries it to another cavity"
        return ("USE BOTH SIDES", f"by loom {loom}") if loom else ("CUT", "use both sides")
    if each.fate == fates.ONE_END:
        side = "UNIT SIDE" if each.unit_to else "CAR SIDE"
        return f"{'CUT, ' if cut else ''}USE {side} ONLY", ""
    if each.fate == fates.TAPPED:
        return ("PASS AND TAP", f"loom {loom}, a branch joined on") if loom else ("TAP", "do not cut")
    if each.fate == fates.CAPPED:
        return f"{'CUT, ' if cut else ''}CAP", ""
    if each.fate == fates.DEPINNED:
        return "DEPIN", ""
    if each.fate == fates.OPEN:
        return "NOT DECIDED", "opened, and nothing is said"
    return "nothing", "no wire"


def _to(wiring: Wiring, each: CavityFate, half: str) -> Cell:
    """Where one side of a cavity goes: contacts, the unit that sits there, or a word."""
    if each.fate == fates.EMPTY:
        return "empty"
    name = f"{each.plug}.{half}.{each.row.cavity}"
    said = [word for word, table in (("CAP", wiring.job.capped), ("DEPIN", wiring.job.depinned)) if name in table]
    to = each.unit_to if half == "unit" else each.car_to
    other = f"{each.plug}.{'car' if half == 'unit' else 'unit'}.{each.row.cavity}"
    pin = _pin_at(wiring, name)
    lead = _lead_at(wiring, pin) if pin else ""
    joined = tuple(contact for contact in to if contact != other)
    if pin and not lead:  # the pin only carries a wire across: what is joined at the far end shows there
        joined = tuple(contact for contact in joined if wiring.contact(contact).kind == "plug")
    lines = [f"{printed(lead)} →"] if lead and joined else []
    lines += [far_names(wiring, name, joined)] if joined else _lead_fate(wiring, each, half, lead)
    if other in to:
        lines.insert(0, "the other side")
    if said:
        lines.insert(0, " and ".join(said))
    if lines:
        return "\n".join(lines)
    return "nothing" if wiring.fates.opened(each.plug, each.row.cavity) else "the other side, not opened"


def _lead_fate(wiring: Wiring, each: CavityFate, half: str, lead: str) -> list[str]:
    """What becomes of the loom's lead at a half of a cavity where it is joined to nothing."""
    loom = wiring.opened.get(each.plug, "")
    pulled = f"{loom}.{half}.{each.row.cavity}"
    if pulled in wiring.job.depinned:
        return [f"{printed(pulled)}: DEPIN"]
    if not lead:
        return []
    fate = next(found.fate for found in wiring.fates.leads(loom) if found.lead.name == lead)
    return [] if fate == fates.PASSED else [f"{printed(lead)}: {LEAD_WORDS.get(fate, fate)}"]


def _pin_at(wiring: Wiring, half: str) -> str:
    """The loom's pin that sits in a half of a cavity, or empty."""
    return next((each.other(half) for each in wiring.planned.conductors(half) if each.kind == PLUGGED), "")


def _lead_at(wiring: Wiring, pin: str) -> str:
    """The flying lead at a loom's pin, or empty where the pin only carries a wire to the other end."""
    loom, end, cavity = pin.split(".", 2)
    for lead in wiring.job.parts.looms[loom].leads:
        if lead.name == pin or (lead.own and (lead.end, lead.cavity) == (end, cavity)):
            return lead.name
    return ""


def _grid(
    wiring: Wiring, states: PairStates, plug: Plug, cavities: dict[str, CavityFate], shape: FaceShape | None
) -> Block:
    by_cavity = states.by_cavity(plug.name)
    columns = (
        Column("Cavity"),
        Column("For", 2.4),
        Column("Colour", 3.8),
        Column("Do", 2.8),
        Column("Unit side to", 2.8),
        Column("Car side to", 2.8),
        Column("State", 2),
    )
    rows: list[tuple[Cell, ...]] = []
    for number in sorted([*cavities, *_missing(plug, cavities, shape)], key=in_number_order):
        each = cavities.get(number)
        if each is None:
            rows.append((Strong(number), NOT_RECORDED, NOT_RECORDED, Strong("LEAVE ALONE"), "", "", NOT_RECORDED))
            continue
        row = each.row
        known = row.function.kind not in ("empty", "unknown")
        colour = swatch(row.colour) if each.fate != fates.EMPTY else "no wire"
        size = "" if each.fate == fates.EMPTY else size_words(row.size)
        twisted = "twisted" if row.twisted else ""
        notes = "; ".join(filter(None, (size, twisted, row.note)))
        do, by = what_to_do(wiring, each)
        state = by_cavity.get(number, "" if not known else "charted")
        rows.append(
            (
                Strong(number),
                function_cell(row.function),
                (colour, notes) if notes else colour,
                (Strong(do), by) if by else Strong(do),
                _to(wiring, each, "unit"),
                _to(wiring, each, "car"),
                state,
            )
        )
    return Grid(columns, tuple(rows), caption=f"Plug {plug.name}, cavity by cavity")


def _missing(plug: Plug, cavities: dict[str, CavityFate], shape: FaceShape | None) -> list[str]:
    """Numbers of the face, or of the count of ways, for which the job has no row."""
    known = {number.lower() for number in cavities}
    numbers = list(shape.numbers) if shape is not None else []
    if not numbers and plug.face is not None:
        numbers = [number for line in plug.face.drawn for number in line if number is not None]
    if not numbers and plug.ways is not None:
        numbers = [str(number) for number in range(1, plug.ways + 1)]
    missing = [number for number in dict.fromkeys(numbers) if number.lower() not in known]
    return sorted(missing, key=in_number_order)


def in_number_order(cavity: str) -> tuple[tuple[int, int, str], ...]:
    """Sorts 2 before 10 and A2 before A10."""
    pieces = re.findall(r"[0-9]+|[^0-9]+", cavity)
    return tuple((0, int(piece), piece) if piece.isdigit() else (1, 0, piece.lower()) for piece in pieces)


def _pairs(wiring: Wiring, states: PairStates, plug: Plug) -> Iterator[Block]:
    rows: list[tuple[Cell, ...]] = []
    for plus, minus in pairs_of(wiring, plug.name):
        used = f"{plug.name}.{plus.cavity}/{minus.cavity}" in states.used
        rows.append(
            (
                Strong(plus.function.base),
                plus.function._replace(sign="").words,
                Strong(f"{plus.cavity} +"),
                Strong(f"{minus.cavity} −"),
                "yes" if used else "no",
                Strong(states.state(plug.name, plus, minus)),
            )
        )
    if rows:
        columns = (
            Column("Pair"),
            Column("In words", 2),
            Column("+ cavity"),
            Column("− cavity"),
            Column("In use"),
            Column("State", 2),
        )
        yield Keep((Heading("Speaker pairs", 2), Grid(columns, tuple(rows))))


# -- inline plugs --------------------------------------------------------------------------------------


def _inline(wiring: Wiring, plugs: list[Plug]) -> Iterator[Block]:
    yield Para("Plugs in the car's own wiring. The colour changes here: look for the colour of the side you are on.")
    colours = _colours_at(wiring)
    for plug in plugs:
        columns = (
            Column("Cavity"),
            Column("Colour on the side of the radio", 3),
            Column("Colour on the far side", 3),
            Column("Comes from", 3),
            Column("Goes to", 3),
        )
        rows: list[tuple[Cell, ...]] = []
        for row in plug.rows:
            near, far = f"{plug.name}.unit.{row.cavity}", f"{plug.name}.car.{row.cavity}"
            rows.append(
                (
                    Strong(row.cavity),
                    swatch(colours.get(near, (None, ""))[0]),
                    swatch(colours.get(far, (None, ""))[0]),
                    _far_end(wiring, colours, near),
                    _far_end(wiring, colours, far),
                )
            )
        yield Keep(
            (
                Heading(f"{plug.name}: {or_not_recorded(plug.where)}", 2),
                Grid(columns, tuple(rows)) if rows else Para("No chain in the job runs through it."),
            )
        )


def _colours_at(wiring: Wiring) -> dict[str, tuple[Colour | None, str]]:
    """Contact -> colour of the car's wire that ends there, and the contact at that wire's other end."""
    made: dict[str, tuple[Colour | None, str]] = {}
    for segment in wiring.job.segments:
        if segment.laid:
            continue
        for here, there in ((segment.a, segment.b), (segment.b, segment.a)):
            colour = segment.colour or wiring.contact(there).colour or wiring.contact(here).colour
            made.setdefault(here, (colour, there))
    return made


def _far_end(wiring: Wiring, colours: dict[str, tuple[Colour | None, str]], contact: str) -> str:
    there = colours.get(contact, (None, ""))[1]
    return name_of(wiring.contact(there)) if there else NOT_RECORDED
