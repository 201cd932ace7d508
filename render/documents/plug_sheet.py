"""The plug sheets: one a plug, its face for the side you hold, and every cavity with what to do."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, cast, get_args

from harness.graph import fates
from harness.graph.fates import CavityFate
from harness.graph.pairs import pairs_of
from harness.model.contact import printed
from harness.planning.states import PairStates
from render.blocks import (
    Banner,
    Block,
    Caution,
    Cavity,
    Cell,
    Column,
    Face,
    FacePair,
    Grid,
    Heading,
    Para,
    Sheet,
    Strong,
)
from render.documents import document
from render.documents.cavity_words import goes_to, is_bare, key, mark, untouched, what_to_do
from render.documents.inline_plugs import inline_blocks
from render.documents.wording import (
    NOT_RECORDED,
    bare_swatch,
    function_words,
    or_not_recorded,
    size_words,
    swatch,
)
from render.ends.shape import FaceShape, Latch, View

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.model.parts import Plug, Row
    from harness.prove import Proof

# Above this many columns a face needs the long side of the paper.
MOST_COLUMNS_UPRIGHT = 12
_MOST_PAIRS_IN_ONE = 4
_WORK = (fates.INTERCEPTED, fates.TAPPED, fates.ONE_END, fates.CAPPED, fates.DEPINNED, fates.OPEN)


@document("plug-sheet", title="Plug sheets, one a plug", order=2)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For the hand at the plug: which side you hold, which cavity, which colour, what to do."""
    wiring = proof.wiring
    if wiring is None:
        return
    states = PairStates(wiring)
    plugs = wiring.job.parts.plugs.values()
    # the first one begins a page, since the cover goes its own way
    for number, plug in enumerate(plug for plug in plugs if not plug.inline):
        yield _sheet(wiring, states, plug, shares=number > 0)
    inline = [plug for plug in plugs if plug.inline]
    if inline:
        blocks = tuple(inline_blocks(wiring, inline))
        yield Sheet("plug-sheet--inline", "Inline plugs", blocks, shares=len(inline) < len(plugs))


def _sheet(wiring: Wiring, states: PairStates, plug: Plug, shares: bool) -> Sheet:
    return Sheet(
        f"plug-sheet-{plug.name}",
        f"Plug {plug.name}: {plug.where or f'place {NOT_RECORDED}'}",
        tuple(_blocks(wiring, states, plug)),
        landscape=_lies_across(plug),
        shares=shares,
    )


def _lies_across(plug: Plug) -> bool:
    columns = max((len(line) for line in plug.face.drawn), default=0) if plug.face else 0
    return columns > MOST_COLUMNS_UPRIGHT


def _blocks(wiring: Wiring, states: PairStates, plug: Plug) -> Iterator[Block]:
    carried = sorted({each.upper() for each in plug.carries} & {"SRS", "HV"})
    if carried:
        yield Caution(f"This plug carries {' and '.join(carried)}: leave it closed, do not probe it.")
    cavities = {each.row.cavity: each for each in wiring.fates.cavities(plug.name)}
    left_alone = untouched(list(cavities.values()), wiring)
    if left_alone:
        yield Banner("LEAVE ALONE: this plan does not touch this plug")
    shape, why = face_shape(plug)
    if shape is None:
        ways = housing_ways(plug)
        housing = f" The housing says {ways}-way; its cavities are not drawn." if ways else ""
        yield Caution(f"No face is drawn: {why}.{housing} Look at the plug, write it in the job, then print again.")
    else:
        drawn = tuple(_cavity(wiring, cavities[n], left_alone) for n in shape.numbers if n in cavities)
        keying = plug.face.keying if plug.face and plug.face.keying else NOT_RECORDED
        yield FacePair(Face(f"Plug {plug.name}", shape, drawn, keying), brief=left_alone)
        off = [number for number in cavities if number not in shape.numbers]
        if off:
            yield Caution(f"Not on the face: cavity {', '.join(off)}. The chart and the housing don't agree.")
    words = "" if left_alone else key(wiring, list(cavities.values()))
    yield Para("\n".join(filter(None, (words, _about(wiring, plug)))))
    shown = sorted((each for each in cavities.values() if not is_bare(each)), key=_in_order)
    if shown:
        yield _short_list(plug, shown) if left_alone else _grid(wiring, states, plug, shown)
    said = []
    bare = [each.row.cavity for each in sorted(cavities.values(), key=_in_order) if is_bare(each)]
    if bare:
        said.append(f"Empty, no wire: cavity {', '.join(bare)}.")
    missing = _missing(plug, cavities, shape)
    if missing:
        said.append(f"Not recorded (nobody has looked, or nobody wrote it), leave alone: cavity {', '.join(missing)}.")
    if left_alone:
        said += _in_short(wiring, states, plug)
    if said:
        yield Para("\n".join(said))
    if not left_alone:
        yield from _pairs(wiring, states, plug, _lies_across(plug))


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
    mates = [mate for mate in wiring.job.mates if mate.plug == plug.name]
    looms = [f"loom {mate.loom}, {mate.end} end, goes into its {mate.half} side" for mate in mates]
    if mates and [(mate.loom, mate.end) for mate in mates] == [(mates[0].loom, half) for half in ("unit", "car")]:
        looms = [f"loom {mates[0].loom} goes between its two sides"]
    # said once: "8-way block B, 8 ways" would make two facts of one
    ways = [f"{plug.ways} ways"] if plug.ways is not None and plug.ways != housing_ways(plug) else []
    genders = [f"{half} side {plug.genders[half]}" for half in ("unit", "car") if half in plug.genders]
    housing = ", ".join([or_not_recorded(plug.housing), *ways, *genders])
    sides = (
        f"Unit side: {plug.unit or NOT_RECORDED}. Car side: {plug.car or 'the car’s own wiring'}. Housing: {housing}."
    )
    here = f" In this job: {'; '.join(looms)}." if looms else ""
    return f"{sides}\nChart: {chart}.{here}"


def housing_ways(plug: Plug) -> int | None:
    """The number of ways that the housing's own words say: 16 of `16-way, three rows`; None where they say none."""
    said = re.search(r"\b([0-9]+)[ -]?ways?\b", plug.housing, re.IGNORECASE)
    return int(said[1]) if said else None


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


def _cavity(wiring: Wiring, each: CavityFate, left_alone: bool) -> Cavity:
    row = each.row
    if each.fate == fates.EMPTY:
        return Cavity(row.cavity, ("empty",), state="crossed")
    state = "highlighted" if each.fate in _WORK else "plain"
    said = "" if left_alone else mark(wiring, each)
    function = "unknown" if row.function.kind == "unknown" else printed(row.function.name)
    return Cavity(row.cavity, (function,), bare_swatch(row.colour), said, state)  # type: ignore[arg-type]


def _grid(wiring: Wiring, states: PairStates, plug: Plug, shown: list[CavityFate]) -> Block:
    """Cavity by cavity; how well each is known in a column only where they differ."""
    by_cavity = states.by_cavity(plug.name)
    known = {each.row.cavity: by_cavity.get(each.row.cavity, _charted(each)) for each in shown}
    same = set(known.values()) - {""}
    columns = [
        Column("Cavity", 0.1),
        Column("For", 2.2),
        Column("Colour", 3.2),
        Column("Size", 2.0),
        Column("Do", 2.4),
        Column("Unit side to", 2.45),
        Column("Car side to", 2.45),
        *((Column("State", 0.1),) if len(same) > 1 else ()),
    ]
    rows: list[tuple[Cell, ...]] = []
    for each in shown:
        row = each.row
        rows.append(
            (
                Strong(row.cavity),
                _for(row),
                (swatch(row.colour), row.note) if row.note else swatch(row.colour),
                _size(row),
                what_to_do(wiring, each),
                goes_to(wiring, each, "unit"),
                goes_to(wiring, each, "car"),
                *((known[row.cavity],) if len(same) > 1 else ()),
            )
        )
    state = f"; every known one {next(iter(same))}" if len(same) == 1 else ""
    return Grid(tuple(columns), tuple(rows), caption=f"Plug {plug.name}, cavity by cavity{state}")


def _for(row: Row) -> Strong:
    """The function; in words too where it is no channel, whose words stand in the table of pairs."""
    name, words = _function_name(row), function_words(row.function)
    return Strong(name, "" if row.function.channel or words == name else words)


def _function_name(row: Row) -> str:
    return "unknown" if row.function.kind == "unknown" else printed(row.function.name)


def _size(row: Row) -> str:
    said = NOT_RECORDED if row.size is None else size_words(row.size)
    return f"{said} twisted" if row.twisted else said


def _charted(each: CavityFate) -> str:
    return "" if each.row.function.kind in ("empty", "unknown") else "charted"


def _short_list(plug: Plug, shown: list[CavityFate]) -> Block:
    """Of a plug that is left alone: what is where, two cavities a row, down the left half first."""
    half = (len(shown) + 1) // 2
    cells: list[tuple[Cell, ...]] = []
    for each in shown:
        row = each.row
        colour: Cell = (swatch(row.colour), row.note) if row.note else swatch(row.colour)
        cells.append((Strong(row.cavity), Strong(_function_name(row)), colour))
    right = [*cells[half:], *([("", "", "")] * (2 * half - len(cells)))]
    rows = tuple((*left, *other) for left, other in zip(cells[:half], right, strict=True))
    columns = (Column("Cavity", 0.1), Column("For", 0.8), Column("Colour", 2.4))
    return Grid((*columns, *columns), rows, caption=f"Plug {plug.name}, what is charted for each cavity")


def _in_short(wiring: Wiring, states: PairStates, plug: Plug) -> Iterator[str]:
    """What else is known of a plug that is left alone, a line each."""
    pairs = pairs_of(wiring, plug.name)
    if pairs:
        known = [states.state(plug.name, plus, minus) for plus, minus in pairs]
        alike = len(set(known)) == 1
        said = [
            f"{plus.function.base} {plus.cavity}/{minus.cavity}{'' if alike else f' ({state})'}"
            for (plus, minus), state in zip(pairs, known, strict=True)
        ]
        yield f"Speaker pairs, + / −, none in use{f', all {known[0]}' if alike else ''}: {', '.join(said)}."
    named: dict[str, list[str]] = {}
    for row in plug.rows:
        name, words = _function_name(row), function_words(row.function)
        if not row.function.channel and words not in (name, "empty", "ground"):
            named.setdefault(words, []).append(name)
    if named:
        yield f"In words: {'; '.join(_list(names, ': ', words) for words, names in named.items())}."
    about: list[str] = []
    sizes: dict[str, list[str]] = {}
    for row in plug.rows:
        if row.size is not None:
            sizes.setdefault(size_words(row.size), []).append(row.cavity)
    if sizes:
        about.append(f"Sizes: {'; '.join(_list([size], ' at ', _ranges(at)) for size, at in sizes.items())}.")
    twisted = [row.cavity for row in plug.rows if row.twisted]
    if twisted:
        about.append(f"Twisted: {_ranges(twisted)}.")
    if about:
        yield " ".join(about)


def _list(names: list[str], between: str, words: str) -> str:
    return f"{', '.join(dict.fromkeys(names))}{between}{words}"


def _ranges(cavities: list[str]) -> str:
    """Numbers in their order, three and more in a row as one: `1 to 4, 6, 10`."""
    row: list[list[str]] = []
    for cavity in sorted(cavities, key=in_number_order):
        plain = cavity.isdecimal() and not cavity.startswith("0")
        if row and plain and row[-1][-1].isdecimal() and int(cavity) == int(row[-1][-1]) + 1:
            row[-1].append(cavity)
        else:
            row.append([cavity])
    return ", ".join(f"{each[0]} to {each[-1]}" if len(each) > 2 else ", ".join(each) for each in row)


def _in_order(each: CavityFate) -> tuple[tuple[int, int, str], ...]:
    return in_number_order(each.row.cavity)


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


def _pairs(wiring: Wiring, states: PairStates, plug: Plug, across: bool) -> Iterator[Block]:
    """The speaker pairs of a plug, both wires of each with their colours."""
    rows: list[tuple[Cell, ...]] = []
    for plus, minus in pairs_of(wiring, plug.name):
        used = f"{plug.name}.{plus.cavity}/{minus.cavity}" in states.used
        words = function_words(plus.function._replace(sign=""))
        rows.append(
            (
                Strong(plus.function.base, "" if words in (plus.function.base, plus.function.name) else words),
                Strong(f"{plus.cavity}\N{NO-BREAK SPACE}+"),
                swatch(plus.colour),
                Strong(f"{minus.cavity}\N{NO-BREAK SPACE}−"),
                swatch(minus.colour),
                f"{'in use' if used else 'not in use'}, {states.state(plug.name, plus, minus)}",
            )
        )
    if not rows:
        return
    columns: tuple[Column, ...] = (
        Column("Pair", 1.6), Column("+", 0.1), Column("Colour", 2.2), Column("−", 0.1), Column("Colour", 2.2),
        Column("State", 1.2),
    )  # fmt: skip
    if across and len(rows) > _MOST_PAIRS_IN_ONE:
        # two pairs a row where the paper lies across; each wire's colour stands in the table above
        columns = tuple(column for column in columns if column.title != "Colour") * 2
        cells = [(row[0], row[1], row[3], row[5]) for row in rows]
        half = (len(cells) + 1) // 2
        right = [*cells[half:], *([("", "", "", "")] * (2 * half - len(cells)))]
        rows = [(*left, *other) for left, other in zip(cells[:half], right, strict=True)]
    yield Heading("Speaker pairs, + and − cavity", 2)
    yield Grid(columns, tuple(rows))
