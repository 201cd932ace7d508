"""The job's text with another car in it, every other line as it was."""

from __future__ import annotations

from collections.abc import Mapping

from harness.again.refused import NotChanged
from harness.mend.elsewhere import moved_paths, paths_moved
from harness.mend.page import Page, edited, indent
from harness.mend.values import Splice, depths, in_brackets, net, replace, spliced
from harness.read.nodes import Node, Rows, Table, Text, read_text
from harness.read.troubles import Troubles

_HEAD = ("ringout", "title", "revision", "preset")


def with_car(text: str, file: str, new_file: str, fields: Mapping[str, str]) -> str:
    """The text of `file` as that of `new_file`, with these fields of `car:` in place of its own or added.

    The day of the job is the first car's, and left out. Where the new file lies in another folder, the paths under
    `parts:` and `shop:` are written from there. Comments, order and line ends stay. Raises NotChanged where the car is
    written in a way that can't be changed by lines.
    """
    bare = text.removeprefix("\ufeff")
    page = Page(file, bare)
    root = read_text(bare, file, Troubles())
    if not isinstance(root, Table):
        raise NotChanged([f"{file} is no job"])
    wrong: list[str] = []
    splices: list[Splice] = []
    _change_car(page, root, fields, splices, wrong)
    _without_day(page, root, wrong)
    parts = moved_paths(root, file, new_file)
    paths_moved(page, root, parts, splices, wrong)
    if wrong:
        raise NotChanged(wrong)
    spliced(page, splices)
    made = edited(bare, page.edits())
    wanted = _facts(root, fields, {id(n): p for n, p in parts})
    assert isinstance(wanted, dict)
    wanted.pop("date", None)
    if _facts(read_text(made, new_file, Troubles()), {}, {}) != wanted:
        raise NotChanged([f"{file}: the car is written in a way that can't be changed here; copy the file by hand"])
    return text[: len(text) - len(bare)] + made


def _without_day(page: Page, root: Table, wrong: list[str]) -> None:
    key, day = root.key("date"), root.get("date")
    if key is None or day is None:
        return
    if in_brackets(page, root) or day.line != key.line or not isinstance(day, Text):
        wrong.append(f"{page.file}:{key.line}: take `date:` away by hand, the next car comes on another day")
    else:
        page.drop(key.line)


# -- the car --------------------------------------------------------------------------------------------------


def _change_car(page: Page, root: Table, fields: Mapping[str, str], splices: list[Splice], wrong: list[str]) -> None:
    car, key = root.get("car"), root.key("car")
    if car is None or key is None:
        heads = [each.line for each, _ in root.items if each.value in _HEAD]
        last = max(heads)
        below = (page.under(last) or [last])[-1] + 1
        page.put_in(below, f"car: {{{', '.join(f'{name}: {value}' for name, value in fields.items())}}}")
        return
    if not isinstance(car, Table) or not len(car):
        wrong.append(f"{page.file}:{key.line}: `car:` is no table")
        return
    flow = in_brackets(page, car)
    for name, value in fields.items():
        node = car.get(name)
        if node is not None:
            replace(page, node, value, splices, wrong, flow=flow)
    words = [f"{name}: {value}" for name, value in fields.items() if car.get(name) is None]
    if not words:
        return
    if flow:
        _add_in_flow(page, car, ", ".join(words), splices, wrong)
        return
    first, _ = car.items[0]
    for word in words:
        page.put_in(page.under(key.line)[-1] + 1, " " * indent(page.before[first.line - 1]) + word)


def _add_in_flow(page: Page, car: Table, words: str, splices: list[Splice], wrong: list[str]) -> None:
    """Before the bracket that closes the car's table, on whichever line that stands."""
    depth, number, start = 0, car.line, car.column - 1
    while number <= len(page.before):
        line = page.before[number - 1]
        for at, inside in depths(line, start):
            if depth + inside == 0:
                before = line[:at].rstrip()
                comma = "" if before.endswith((",", "{")) else ","
                if not before:  # the bracket stands alone: the line above may end in a comma, or in a remark
                    above = page.before[number - 2].split(" #")[0].rstrip()
                    splices.append(Splice(number, at, at, f"{'' if above.endswith((',', '{')) else ','} {words}"))
                    return
                gap = line[len(before) : at]
                splices.append(Splice(number, len(before), at, f"{comma} {words}{gap}"))
                return
        depth += net(line, start)
        number, start = number + 1, 0
    wrong.append(f"{page.file}:{car.line}: the brackets of `car:` can't be told apart")


# -- what it says ---------------------------------------------------------------------------------------------


def _facts(node: Node | None, car: Mapping[str, str], moved: Mapping[int, str], within: str = "") -> object:
    """All that a file says, without places; with `car` for its fields and `moved` for paths."""
    if isinstance(node, Text):
        return moved.get(id(node), node.value)
    if isinstance(node, Rows):
        return [_facts(each, {}, moved) for each in node.items]
    if not isinstance(node, Table):
        return None
    made = {key.value: _facts(value, car if key.value == "car" else {}, moved, key.value) for key, value in node.items}
    if within == "" and car and "car" not in made:
        made["car"] = _asked(car)
    if within == "car" and car:
        made |= _asked(car)
    return made


def _asked(fields: Mapping[str, str]) -> dict[str, object]:
    written = f"{{{', '.join(f'{name}: {value}' for name, value in fields.items())}}}"
    read = _facts(read_text(f"car: {written}\n", "--car", Troubles()), {}, {})
    assert isinstance(read, dict)
    return read["car"]  # type: ignore[no-any-return]
