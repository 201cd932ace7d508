"""A chart's lines put into a plug of a job file, everything else in it as it was; and what was written, read again."""

from __future__ import annotations

import os
from collections.abc import Sequence

from harness.charts.entries import Entry
from harness.charts.told import Refusal, Told
from harness.mend.page import CannotEdit, Page, edited, indent
from harness.model.parts import Row
from harness.place import Place
from harness.read.conform import conform
from harness.read.fields import Fields
from harness.read.nodes import Broken, Table, Text, read_text
from harness.read.parts import read_parts
from harness.read.plugs import read_plug
from harness.read.spec import JOB, PART_FILE
from harness.read.troubles import Troubles

_OURS = ("ways", "source", "covers", "legend", "cavities")


def into_plug(text: str, file: str, name: str, lines: Sequence[str], *, replace: bool) -> str:
    """The job's text with the lines of a chart in the plug `name`; a plug that isn't there is made.

    What the plug holds of the chart's own keys gives way only with `replace`; its comments and other keys stay.
    Raises Refusal with every reason why not, by the job's lines.
    """
    page = Page(file, text.removeprefix("\ufeff"))
    root, plugs, key, plug = _found(page, text, file, name)
    if plug is None:
        _new_plug(page, plugs, name, lines)
    else:
        assert key is not None
        _own(page, file, root, key, plug)
        _old_plug(page, key, plug, list(lines), replace)
    mark = "\ufeff" if text.startswith("\ufeff") else ""
    return mark + edited(text.removeprefix("\ufeff"), page.edits())


def _found(page: Page, text: str, file: str, name: str) -> tuple[Table, Table | None, Text | None, Table | None]:
    troubles = Troubles()
    root = read_text(text, file, troubles)
    if not isinstance(root, Table) or troubles.refused:
        raise Refusal(
            [_at(page, each.places[0].place, each.message, each.do) for each in troubles.findings]
            or [Told("job", 0, 1, "This is no job file.", "Write its first lines first.")],
            file,
        )
    plugs = root.get("plugs")
    if plugs is not None and not isinstance(plugs, Table):
        raise Refusal([_at(page, plugs.place, "Behind `plugs:` stands no table.", "Write a line for each plug.")], file)
    if isinstance(plugs, Table):
        for key, value in plugs.items:
            if key.value.lower() == name.lower():
                if not isinstance(value, Table) or isinstance(key, Broken):
                    raise Refusal(
                        [_at(page, key.place, f"Behind “{key.value}” stands no table.", "Take it away.")], file
                    )
                return root, plugs, key, value
    return root, plugs, None, None


def _own(page: Page, file: str, root: Table, key: Text, plug: Table) -> None:
    """Refuses a plug whose rows stand in a part file: two charts of one plug would be mixed row by row."""
    part = plug.get("part")
    if not isinstance(part, Text):
        return
    found = read_parts(root, Troubles()).parts.get(("plugs", part.value.lower()))
    if found is None:
        do = "Put that right first: ringout check says where."
        message = f"“{key.value}” is the part “{part.value}”, and no part file has it."
    else:
        other = os.path.relpath(found.table.file, os.path.dirname(file) or ".")
        shown = os.path.join(os.path.dirname(file), other)
        shown = f'"{shown}"' if " " in shown else shown
        message = f"The rows of “{key.value}” stand in {other}, as its part “{found.key.value}”."
        do = f"Other jobs may use it too; to change it there: --into {shown} --plug {found.key.value}"
    raise Refusal([_at(page, part.place, message, do)], file)


def _at(page: Page, place: Place, message: str, do: str) -> Told:
    own = page.before[place.line - 1] if 0 < place.line <= len(page.before) else ""
    return Told("job", 0, place.line, message, do, own)


def _new_plug(page: Page, plugs: Table | None, name: str, lines: Sequence[str]) -> None:
    top = page.top("plugs")
    if plugs is None or top is None:
        last = max((n for n in page.numbers if page.before[n - 1].strip()), default=0)
        for line in ("plugs:", f"  {name}:", *(f"    {each}" for each in lines)):
            page.put_in(last + 1, line)
        return
    under = page.under(top)
    if not under or plugs.line == top:
        raise Refusal(
            [_at(page, plugs.place, "`plugs:` is written in one line.", "Write each plug in its own line.")], page.file
        )
    step = indent(page.before[under[0] - 1])
    for line in (f"{' ' * step}{name}:", *(f"{' ' * (step + 2)}{each}" for each in lines)):
        page.put_in(under[-1] + 1, line)


def _old_plug(page: Page, key: Text, plug: Table, lines: list[str], replace: bool) -> None:
    if plug.items and plug.line == key.line:
        raise Refusal(
            [_at(page, key.place, f"“{key.value}” is written in one line.", "Write each key in its own.")], page.file
        )
    there = {each.value: each for each, _ in plug.items}
    if "note" in there:  # the user's own stays; what belongs to no cavity goes beside it
        lines = [f"# chart: {line.removeprefix('note: ')}" if line.startswith("note: ") else line for line in lines]
    ours = [there[word] for word in _OURS if word in there]
    if ours and not replace:
        raise Refusal([
            _at(page, each.place, f"“{key.value}” has `{each.value}:` already.",
                "Look at both; --replace puts the chart in its place.") for each in ours
        ], page.file)  # fmt: skip
    rows = page.under(key.line)
    step = indent(page.before[rows[0] - 1]) if rows else indent(page.before[key.line - 1]) + 2
    last = rows[-1] if rows else key.line
    at = there["cavities"].line if "cavities" in there else last + 1
    try:
        for each in ours:
            for number in (each.line, *page.under(each.line)):
                page.drop(number)
    except CannotEdit as wrong:
        raise Refusal(
            [_at(page, key.place, f"“{key.value}” can't be changed by lines: {wrong}.", "")], page.file
        ) from None
    for line in lines:
        page.put_in(at, " " * step + line)


def misread(text: str, name: str, entries: Sequence[Entry], *, job: bool) -> list[str]:
    """What the reader makes of the text in another way than the chart says: empty where all is well."""
    troubles = Troubles()
    root = read_text(text, name, troubles)
    shape: Fields = JOB if job else PART_FILE
    bad = conform(root, shape, troubles) if root is not None else set()
    plugs = root.get("plugs") if isinstance(root, Table) else None
    found: list[tuple[Text, Table]] = []
    for key, value in plugs.items if isinstance(plugs, Table) else ():
        if key.value.lower() == name.lower() and isinstance(value, Table):
            found.append((key, value))
    if len(found) != 1:
        return ["the plug isn't there"]
    key, table = found[0]
    plug = read_plug(name, key, table, troubles, bad)
    last = max((each.line for each in _lines(table)), default=key.line)
    wrong = [each.message for each in troubles.findings if key.line <= each.places[0].place.line <= last]
    read = {row.cavity.lower(): _of_row(row) for row in plug.rows}
    for entry in entries:
        said = (entry.function.name, entry.colour.upper(), entry.mark if entry.colour else "stripe", entry.size,
                entry.twisted, entry.note)  # fmt: skip
        if read.pop(entry.cavity.lower(), None) != said:
            wrong.append(f"cavity {entry.cavity} is read otherwise")
    return wrong + [f"cavity {cavity} is read and isn't in the chart" for cavity in read]


def _of_row(row: Row) -> tuple[str, str, str, str, bool, str]:
    colour, size = row.colour, row.size
    return (row.function.name, colour.text.upper() if colour else "", colour.mark if colour else "stripe",
            size.text if size else "", row.twisted, row.note)  # fmt: skip


def _lines(table: Table) -> list[Text]:
    made: list[Text] = []
    for key, value in table.items:
        made.append(key)
        if isinstance(value, Table):
            made += _lines(value)
    return made
