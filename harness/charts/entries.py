"""The rows of a chart as entries, one a cavity. What isn't understood goes into the entry's note, word for word."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from harness.charts.cells import SheetRow
from harness.charts.headings import Column
from harness.charts.hues import Hue, NotRead, hue, size_of, two_hues
from harness.charts.spoken import function_of
from harness.charts.told import Told
from harness.model.function import EMPTY, UNKNOWN, Function, comes_in_pairs, pair_of

_CAVITY = re.compile(
    r"(?:(?:pin|cavity|cav|no|nr|terminal|way|pos)[. ]*)?#?([A-Za-z]{0,3}[0-9]{1,9}|[A-Za-z])\.?", re.I
)
_MOST_IN_ROW = 1500  # so that the note of two rows of one cavity fits into the job file
_MOST_IN_NOTE = 4500
_YES = frozenset(("yes", "y", "x", "true", "twisted", "pair", "tp"))
_NO = frozenset(("", "no", "n", "-", "--", "false"))


class Entry(NamedTuple):
    """What a chart says of one cavity, in the words of the job file; empty where it says nothing."""

    cavity: str
    function: Function
    colour: str
    mark: str
    size: str
    twisted: bool
    note: str
    row: SheetRow


class Found(NamedTuple):
    """The entries in the order of the chart, and what there is to say; `unread` are codes with the rows they are in."""

    entries: tuple[Entry, ...]
    loose: tuple[str, ...]
    told: tuple[Told, ...]
    unread: dict[str, tuple[int, ...]]
    used_codes: frozenset[str]
    used_headings: dict[str, int]


def same_cavity(cavity: str) -> str:
    """What spellings of one cavity share: `A1` and `a1`, `1` and `01`."""
    return re.sub(r"(?<![0-9])0+(?=[0-9])", "", cavity.lower())


def entries_of(rows: Iterable[SheetRow], columns: Sequence[Column], legend: Mapping[str, str], size_unit: str) -> Found:
    """Reads every row. A cavity that stands in several rows is one entry, unknown where they differ."""
    reader = _Rows(columns, legend, size_unit)
    for row in rows:
        reader.read(row)
    return Found(
        tuple(reader.merged()),
        tuple(reader.loose),
        tuple(reader.told),
        {code: tuple(dict.fromkeys(at)) for code, at in reader.unread.items()},
        frozenset(reader.used),
        reader.headings,
    )


class _Rows:
    def __init__(self, columns: Sequence[Column], legend: Mapping[str, str], size_unit: str) -> None:
        self.columns, self.legend, self.size_unit = columns, legend, size_unit
        self.made: list[Entry] = []
        self.loose: list[str] = []
        self.told: list[Told] = []
        self.unread: dict[str, list[int]] = {}
        self.used: set[str] = set()
        self.headings: dict[str, int] = {}

    def say(self, kind: str, row: SheetRow, message: str, do: str) -> None:
        self.told.append(Told(kind, row.number, row.line, message, do, row.own))

    def cell(self, row: SheetRow, field: str) -> str:
        for at, column in enumerate(self.columns):
            if column.field == field and at < len(row.cells):
                return row.cells[at]
        return ""

    def read(self, row: SheetRow) -> None:
        cavities = self._cavities(row)
        if not cavities:
            self.loose.append(f"row {row.number}: {self._all(row)}")
            self.say("not understood", row, f"{self._no_cavity(row)}; the row is kept as the plug's note.",
                     "Correct its number, or leave it as it is.")  # fmt: skip
            return
        notes, wrong = self._notes(row), []
        size, text = "", self.cell(row, "size")
        wired = bool(self._colour_text(row))
        try:
            size = size_of(text, self._unit() or self.size_unit)
            wired = wired or bool(size)
        except NotRead as told:
            wired = True
            wrong.append((str(told), "Give --size-unit mm2 or AWG." if "unit" in str(told) else ""))
            notes.append(f"size {text}")
        said = [row.cells[at] for at, column in enumerate(self.columns)
                if column.field == "function" and at < len(row.cells) and row.cells[at]]  # fmt: skip
        sign = self.cell(row, "sign")
        functions = self._functions(row, said, sign, cavities, wired)
        if functions is None:
            shown = " ".join([*said, *([sign] if sign else [])])
            if function_of(said, sign) is EMPTY:
                wrong.append((f"“{shown}”, and the row has a wire", "Look at the plug whether there is one."))
            else:
                wrong.append((f"“{shown}” is no function known here", "Write one of the job file's in its place."))
            notes.append(f"chart says {shown}")
            functions = [UNKNOWN] * len(cavities)
        hues = self._hues(row, len(cavities), wrong, notes)
        twist = self.cell(row, "twisted").lower()
        if twist not in _YES | _NO:
            notes.append(f"twisted {twist}")
            wrong.append((f"“{twist}” under twisted is neither yes nor no", ""))
        for message, do in wrong:
            where = "/".join(cavities)
            self.say("not understood", row, f"Cavity {where}: {message}; kept as its note.", do)
        if len(self._all(row)) > _MOST_IN_ROW:
            self.say("refused", row, f"The row holds more than {_MOST_IN_ROW} characters.", "Make its texts shorter.")
            return
        for cavity, function, colour in zip(cavities, functions, hues, strict=True):
            for code in colour.unread:
                self.unread.setdefault(code, []).append(row.number)
            self.used.update(colour.used)
            self.made.append(
                Entry(cavity, function, colour.text, colour.mark, size, twist in _YES, "; ".join(notes), row)
            )

    # -- the pieces of a row ---------------------------------------------------------------------------

    def _cavities(self, row: SheetRow) -> list[str]:
        """One cavity, or two with + first; none where they can't be read."""
        plus, minus = self.cell(row, "cavity+"), self.cell(row, "cavity-")
        texts = [plus, minus] if plus or minus else re.split(r"\s*[/,;&+]\s*|\s+and\s+", self.cell(row, "cavity"))
        found = [_CAVITY.fullmatch(text) for text in texts]
        if len(found) > 2 or not all(found):
            return []
        names = [match[1] for match in found if match]
        return names if len({same_cavity(name) for name in names}) == len(names) else []

    def _no_cavity(self, row: SheetRow) -> str:
        text = " ".join(filter(None, (self.cell(row, field) for field in ("cavity", "cavity+", "cavity-"))))
        return f"“{text}” is no cavity" if text else "The row has no cavity"

    def _functions(
        self, row: SheetRow, said: list[str], sign: str, cavities: list[str], wired: bool
    ) -> list[Function] | None:
        if not said and sign.strip(" -") == "":
            self._silent(row, cavities, wired)
            return [UNKNOWN] * len(cavities)
        function = function_of(said, sign)
        if function is None or (function is EMPTY and wired):
            return None
        if len(cavities) == 1 or function in (EMPTY, UNKNOWN):
            return [function] * len(cavities)
        if not comes_in_pairs(function):
            return [function] * len(cavities)  # two grounds in one row, say
        both = pair_of(function)
        return list(both) if both else None

    def _silent(self, row: SheetRow, cavities: list[str], wired: bool) -> None:
        which = "/".join(cavities)
        what = "a wire and no function" if wired else "nothing"
        self.say("not understood", row, f"Cavity {which}: the chart says {what}; written as unknown.",
                 "Empty cavities are written as empty, not left out.")  # fmt: skip

    def _colour_text(self, row: SheetRow) -> str:
        texts = (self.cell(row, field) for field in ("colour", "stripe", "colour+", "colour-"))
        return " ".join(text for text in texts if text.strip(" -"))

    def _hues(self, row: SheetRow, count: int, wrong: list[tuple[str, str]], notes: list[str]) -> Sequence[Hue]:
        text, stripe = self.cell(row, "colour"), self.cell(row, "stripe")
        sided = self.cell(row, "colour+"), self.cell(row, "colour-")
        try:
            if count == 2 and any(sided):
                return hue(sided[0], "", self.legend), hue(sided[1], "", self.legend)
            if count == 2:
                if stripe:
                    raise NotRead(f"“{text}” and “{stripe}” aren't two colours, + first")
                return two_hues(text, self.legend)
            if any(sided):
                raise NotRead(f"“{' '.join(filter(None, sided))}” is the colour of a pair, and the row is one cavity")
            return (hue(text, stripe, self.legend),)
        except NotRead as told:
            wrong.append((str(told), "Give its legend (--legend), or write it as IEC letters or a word."))
            notes.append(f"colour {self._colour_text(row)}")
            return (Hue(""),) * count

    def _unit(self) -> str:
        return next((column.unit for column in self.columns if column.field == "size"), "")

    def _notes(self, row: SheetRow) -> list[str]:
        made = []
        many = sum(column.field == "note" for column in self.columns) > 1
        for at, text in enumerate(row.cells):
            column = self.columns[at] if at < len(self.columns) else Column("", "")
            if not text or column.field not in ("", "note"):
                continue
            if not column.field:
                self.headings[column.heading] = self.headings.get(column.heading, 0) + 1
            named = column.heading and (many or not column.field)
            made.append(f"{column.heading}: {text}" if named else text)
        return made

    def _all(self, row: SheetRow) -> str:
        made = []
        for at, text in enumerate(row.cells):
            heading = self.columns[at].heading if at < len(self.columns) else ""
            if text:
                made.append(f"{heading} {text}" if heading else text)
        return ", ".join(made)

    # -- one cavity, several rows ----------------------------------------------------------------------

    def merged(self) -> list[Entry]:
        """Each cavity once, in the order of its first row."""
        held: dict[str, list[Entry]] = {}
        for entry in self.made:
            held.setdefault(same_cavity(entry.cavity), []).append(entry)
        return [entries[0] if len(entries) == 1 else self._one(entries) for entries in held.values()]

    def _one(self, entries: list[Entry]) -> Entry:
        first, *others = entries
        rows = ", ".join(str(entry.row.number) for entry in entries)
        told = "; ".join(f"row {entry.row.number}: {self._all(entry.row)}" for entry in entries)
        notes = "; ".join(dict.fromkeys(entry.note for entry in entries if entry.note))
        if max(len(told), len(notes)) > _MOST_IN_NOTE:
            last = others[-1].row
            self.say("refused", last, f"Cavity {first.cavity} stands in rows {rows}: more than a note can hold.",
                     "Is the right column taken for the cavity?")  # fmt: skip
        # of what isn't understood the words are the facts
        facts = {(entry[1:6], entry.note if entry.function is UNKNOWN else "") for entry in entries}
        if len(facts) == 1:
            for other in others:
                self.say("twice", other.row, f"Cavity {first.cavity} stands in rows {rows}, with the same said of it.",
                         "Is one of them meant for another cavity?")  # fmt: skip
            return first._replace(note=notes)
        for other in others:
            said = f"Cavity {first.cavity} stands in rows {rows}, each with something else"
            self.say("twice", other.row, f"{said}; what differs is not written, and its note has both.",
                     "Meter or tone it, then correct the chart.")  # fmt: skip
        function = first.function if len({entry.function for entry in entries}) == 1 else UNKNOWN
        coloured = len({(entry.colour, entry.mark) for entry in entries}) == 1
        colour, mark = (first.colour, first.mark) if coloured else ("", "stripe")
        size = first.size if len({entry.size for entry in entries}) == 1 else ""
        twisted = all(entry.twisted for entry in entries)
        return Entry(first.cavity, function, colour, mark, size, twisted, f"chart says both: {told}", first.row)
