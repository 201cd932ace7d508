"""The few shapes a sheet is made of. Content only: every size, font and ink is in `render.style`.

A sheet (`render/documents/*.py`) yields `Sheet`s of these; each writer has one function a block, and a
test fails until every writer knows every block. Text is plain text everywhere: nothing in it is markup,
`<`, `&`, `{` and the like print as they are. A newline in a text starts a new line.

What prints at what size: `Strong` cells, every cell of a `big` grid and cavity numbers at 12 pt; a loud
`Banner` larger; the rest at 10 pt; nothing below 9 pt. Put what the hand needs (cavity number, channel,
lead name, what to do) in `Strong` or in a big grid.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from render.ends.shape import FaceShape, View

Align = Literal["left", "centre", "right"]
CavityState = Literal["plain", "highlighted", "crossed"]
Symbol = Literal["box", "loudspeaker", "splice", "fuse", "ground", "battery"]


# --- pieces of a grid's cell ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Swatch:
    """A wire's colour: drawn as a small outlined field AND said in words beside it.

    `base` and `stripe` are codes as `harness.model.colour` gives them (`WH`, `LIGHT-GREEN`, or an unread
    code as written); `mark` is stripe, ring or dots. `words` is required, since colour alone carries
    nothing: give `Colour.words` (`white with black stripe`). An unknown code draws as an empty field
    with a question mark.
    """

    base: str
    stripe: str
    mark: str
    words: str

    @property
    def code(self) -> str:
        """`WH/BK`, for places too narrow for the words."""
        return f"{self.base}/{self.stripe}" if self.stripe else self.base


@dataclass(frozen=True, slots=True)
class Room:
    """Space to write by hand, with a line to write on; `width_hint` in mm widens its column to that.

    `words` stand before the line, on it: `Room(14, "DC 0 V")`.
    """

    width_hint: float = 0.0
    words: str = ""


@dataclass(frozen=True, slots=True)
class Tick:
    """Boxes to tick, each with its word beside it: `Tick("yes", "no")`, `Tick("done")`, `Tick("")`."""

    words: tuple[str, ...]

    def __init__(self, *words: str) -> None:
        object.__setattr__(self, "words", words or ("",))


@dataclass(frozen=True, slots=True)
class Strong:
    """A main item: bold, 12 pt. `then` follows at 10 pt on the same line, or below where it doesn't fit."""

    text: str
    then: str = ""


Piece = str | Swatch | Room | Tick | Strong
# A cell is one piece, or several set under one another.
Cell = Piece | tuple[Piece, ...]


# --- blocks -----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading inside a sheet, level 1 to 3; the sheet's own title is printed by the masthead.

    It stays with the start of what follows it.
    """

    text: str
    level: int = 1


@dataclass(frozen=True, slots=True)
class Banner:
    """The one thing to see from across the bay: white on black and large where `loud`, else framed."""

    text: str
    loud: bool = False


@dataclass(frozen=True, slots=True)
class Para:
    """A paragraph."""

    text: str


@dataclass(frozen=True, slots=True)
class Caution:
    """Boxed, with the word CAUTION before the text. Not split across pages unless longer than a page."""

    text: str


@dataclass(frozen=True, slots=True)
class Listing:
    """Items with bullets, or with numbers from 1 where the order matters."""

    items: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a grid: `weight` is its share of the width against the other columns' weights.

    A column is never made narrower than the longest word of its title and of its `Strong` cells, as far
    as the page allows.
    """

    title: str
    weight: float = 1.0
    align: Align = "left"


@dataclass(frozen=True, slots=True)
class Grid:
    """A table. Split page by page with its header repeated; a row is never split unless taller than a page.

    Every row has as many cells as there are columns (ValueError if not). `big` sets all cells at 12 pt, `fine` at
    9 pt, for tables to be looked up in, main items as ever.
    `aligned`: the pieces of a row's cells stand level, first beside first, second beside second; use it
    where a row tells of several wires and a wire must be read across.
    """

    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    caption: str = ""
    big: bool = False
    aligned: bool = False
    fine: bool = False

    def __post_init__(self) -> None:
        if not self.columns:
            raise ValueError("a grid needs at least one column")
        for number, row in enumerate(self.rows, 1):
            if len(row) != len(self.columns):
                raise ValueError(
                    f"row {number} of the grid {self.caption!r} has {len(row)} cells, not {len(self.columns)}"
                )


@dataclass(frozen=True, slots=True)
class Cavity:
    """What is known of one cavity of a face.

    `lines`: first its function, short (`FL+`, `empty`); then what to do and the like, shown only where
    the cavity is drawn wide enough (up to eight columns on a portrait page, twelve on landscape), so
    always give these in a `Grid` under the face as well. `mark` is one short word for the fate
    (`CUT`, `TAP`, `CAP`, `PASS`). `crossed` is for an empty cavity, `highlighted` for one to work on.
    """

    number: str
    lines: tuple[str, ...] = ()
    swatch: Swatch | None = None
    mark: str = ""
    state: CavityState = "plain"


@dataclass(frozen=True, slots=True)
class Face:
    """One view of a plug, cavities where they are, the view named in words and the latch drawn and named.

    `shape` says where each number stands and in which view that is meant. A number of the shape without
    a `Cavity` is drawn with its number alone and the words "not recorded"; a cavity that is not on the
    shape is a ValueError, as is one given twice. `keying` are words for ribs and slots.
    Use a landscape sheet above twelve columns.
    """

    title: str
    shape: FaceShape
    cavities: tuple[Cavity, ...]
    keying: str = ""

    def __post_init__(self) -> None:
        on_shape = set(self.shape.numbers)
        seen: set[str] = set()
        for cavity in self.cavities:
            if cavity.number not in on_shape:
                raise ValueError(f"cavity {cavity.number} of {self.title!r} is not on the face")
            if cavity.number in seen:
                raise ValueError(f"cavity {cavity.number} of {self.title!r} is given twice")
            seen.add(cavity.number)


@dataclass(frozen=True, slots=True)
class FacePair:
    """Both views of a plug, the one held first, then its mirror, computed here so that they must agree.

    `held` is the view one has before one's eyes at the bench: `wire` for a plug on its cable held with
    the wires toward you, and for the socket fixed in its unit, which shows the same order; `mating` for looking into
    the plug. `face` may be meant in either view. `brief`:
    the mirror shows numbers and functions only, where it stands below the other.
    """

    face: Face
    held: View = "wire"
    brief: bool = False


@dataclass(frozen=True, slots=True)
class Node:
    """A box of a picture. `name` is its key in edges; `title` and `lines` are printed.

    `stage` puts all nodes of the same number in one column, lower numbers further left; None leaves it
    to the layout. `symbol` draws a loudspeaker, splice dot, fuse, ground or battery beside the title.
    """

    name: str
    title: str
    lines: tuple[str, ...] = ()
    symbol: Symbol = "box"
    stage: int | None = None


@dataclass(frozen=True, slots=True)
class Edge:
    """A connection of a picture, from left to right: one ink, with `words` and swatches in a box on it.

    `swatches`: one for each wire that the line stands for, each drawn beside its own words.

    `group` (a channel, say) is what the picture is split by when it does not fit a page. `twisted` draws
    the twisted-pair sign on the box.
    """

    tail: str
    head: str
    words: str = ""
    swatches: tuple[Swatch, ...] = ()
    twisted: bool = False
    group: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """Routes of signals or supplies as boxes and lines, laid out left to right.

    Text in it is 10.5 pt and is scaled down to 9 pt at most. What does not fit then is split by the
    edges' `group`, one picture a group, and what still does not fit, or finds no Graphviz, prints as a
    list of connections with a note. About 12 boxes down and 4 across fit a portrait page, 8 by 6
    a landscape one (boxes of two lines). An edge to a node that is not there is a ValueError.
    `close`: columns stand nearer to each other, for a picture with many of them.
    """

    title: str
    nodes: tuple[Node, ...]
    edges: tuple[Edge, ...]
    close: bool = False

    def __post_init__(self) -> None:
        names = [node.name for node in self.nodes]
        if len(set(names)) != len(names):
            raise ValueError(f"a node of the picture {self.title!r} stands twice")
        for edge in self.edges:
            for end in (edge.tail, edge.head):
                if end not in names:
                    raise ValueError(f"the picture {self.title!r} has no node {end!r}")


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo with what it shows above it: `title` at 12 pt, `lines` at 10 pt, its file's `name` below.

    `path` is where its file lies, and never printed; the writers read it. Where `why` says that it can't be shown, or
    its file turns out to be broken, the words stand in its place.
    """

    title: str
    lines: tuple[str, ...]
    name: str
    path: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar: what it is about, and its amounts one behind another, in the order of the block's `kinds`.

    `words` stand behind it: the sum with its unit, and whatever else decides.
    """

    label: str
    amounts: tuple[float, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Bars:
    """Bars under one another from a common zero, to be compared by eye; each kind has a ground of its own.

    At most two `kinds`: the first is grey, the second hatched, and both are named below. Every bar has an amount a
    kind, none below 0 (ValueError).
    """

    title: str
    kinds: tuple[str, ...]
    bars: tuple[Bar, ...]

    def __post_init__(self) -> None:
        if not 1 <= len(self.kinds) <= 2:
            raise ValueError(f"the bars {self.title!r} have {len(self.kinds)} kinds, not 1 or 2")
        for bar in self.bars:
            if len(bar.amounts) != len(self.kinds) or min(bar.amounts) < 0:
                raise ValueError(f"the bar {bar.label!r} of {self.title!r} wants {len(self.kinds)} amounts from 0 up")


@dataclass(frozen=True, slots=True)
class Keep:
    """Blocks that stay on one page, as long as one page can hold them."""

    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class PageBreak:
    """What follows starts a new page."""


Block = Heading | Banner | Para | Caution | Listing | Grid | Face | FacePair | Picture | Photo | Bars | Keep | PageBreak

BLOCKS: tuple[type, ...] = (
    Heading, Banner, Para, Caution, Listing, Grid, Face, FacePair, Picture, Photo, Bars, Keep, PageBreak,
)  # fmt: skip
PIECES: tuple[type, ...] = (str, Swatch, Room, Tick, Strong)


# --- sheets -----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Sheet:
    """One printed page or set of pages. `name` becomes part of file names: lower case, digits, hyphens.

    `shares`: printed under the sheet before it, with its own title, where all of it fits there, or where it
    is longer than a page and half of that page is free. `bases` are the keys of the entries of the basis that its
    numbers rest on, `rests_on` the numbers of these entries, which stand at the foot of its pages.
    """

    name: str
    title: str
    blocks: tuple[Block, ...]
    landscape: bool = False
    shares: bool = False
    bases: tuple[str, ...] = ()
    rests_on: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Masthead:
    """What every page of the packet says above its sheet's title and "page x of y".

    `state` are words such as "CONSISTENT, NOT VERIFIED"; `counts` such as "4 pairs charted, 2 toned";
    `digest` of the job's text, so that a page can be matched to its file. Empty fields are left out.
    `loud` prints the state white on black: nobody may work from this page as it is.
    """

    job: str
    revision: str
    car: str
    state: str
    counts: str
    preset: str
    digest: str
    loud: bool = False
