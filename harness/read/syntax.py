"""The parser's first error in plain words: where, what was meant, and what to type instead."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from harness.finding import Spot
from harness.place import Place
from harness.read.troubles import Troubles

_NO_SPACE = re.compile(r"^([ -]*[^\s:{}\[\]\"',]+):(?=[^\s:])")
_OPENED = {"[": "]", "{": "}"}
_BEGINNERS = "?>|@%`*&!"


class Said(NamedTuple):
    """What to tell: the place to look at first, a further place with its word, message and advice."""

    at: tuple[int, int]
    also: tuple[tuple[int, int], str] | None
    message: str
    do: str
    code: str = "R01"


def tell(wrong: Any, last: Any, lines: list[str], file: str, troubles: Troubles) -> None:
    """Report the parser's error as R01; a text behind the document's end as R05, endless brackets as R12.

    `wrong` is PyYAML's error, `last` the last event before it, `lines` the text it was given.
    """
    said = _said(wrong, last, lines)
    at = _inside(said.at, lines)
    line = lines[at[0]]
    curly = re.search("[“”„‘’]", line)
    do = said.do
    if curly:
        do = f"{curly[0]} is no quote here: use straight ones. {do}"
    also = []
    if said.also:
        second = _inside(said.also[0], lines)
        also.append(Spot(Place(file, second[0] + 1, second[1] + 1), said.also[1]))
    name = line[at[1] :].strip()[:40] or "end of the line"
    troubles.add(said.code, Place(file, at[0] + 1, at[1] + 1), name, said.message, do, also)


def _inside(at: tuple[int, int], lines: list[str]) -> tuple[int, int]:
    """The end of a file that ends in a line feed is told at the end of its last line with text."""
    number, column = at
    number = min(number, len(lines) - 1)
    if number == at[0] and lines[number].strip():
        return number, column
    if number >= len(lines) - 1:
        while number > 0 and not lines[number].strip():
            number -= 1
        return number, len(lines[number].rstrip())
    return number, column


def _said(wrong: Any, last: Any, lines: list[str]) -> Said:
    problem = str(getattr(wrong, "problem", "") or "")
    context = str(getattr(wrong, "context", "") or "")
    mark = getattr(wrong, "problem_mark", None)
    opened = getattr(wrong, "context_mark", None)
    if mark is None:
        return Said((0, 0), None, "The file can't be read as text.", "Save it again as UTF-8 text.")
    at = (mark.line, mark.column)
    since = (opened.line, opened.column) if opened is not None else None
    char = _char(lines, at)
    if "nesting depth" in problem:
        return Said(at, None, "Brackets stand in each other far too deep here.", "Look for brackets too many.", "R12")
    if "cannot start any token" in problem:
        return _beginner(lines, at)
    if "mapping keys are not allowed" in problem:
        return _beginner(lines, at)
    if since and _char(lines, since) in _BEGINNERS and re.search("alias|anchor|block scalar|tag", context + problem):
        return _beginner(lines, since)
    if "tag" in context + problem and char:
        return _beginner(lines, since or at)
    if "quoted scalar" in context:
        return _quoted(problem, lines, at, since or at)
    if "sequence entries are not allowed" in problem:
        return Said(
            at,
            None,
            "A list can't begin on the line of its key.",
            (f"Put each entry on a line of its own below the key, or write [a, b]; for a text, {_quotes(lines, at)}"),
        )
    if "mapping values are not allowed" in problem:
        return _second_colon(lines, at)
    if "could not find expected ':'" in problem:
        return _no_colon(lines, at, since or at)
    if "flow" in context and since and _char(lines, since) in _OPENED:
        return _bracket(lines, at, since)
    if "node content" in problem:
        return _nothing_there(lines, at, char)
    if "directive" in context + problem or "YAML document" in problem or (char == "%" and at[1] == 0):
        line = since or at
        return Said(
            (line[0], 0),
            None,
            "A line can't begin with %.",
            "Take the line away, or put the value in quotes behind its key.",
        )
    if "document start" in problem:
        return _behind_the_end(lines, at)
    if "block" in context:
        return _misplaced(lines, at, since, last, "collection" in context)
    return Said(
        at,
        (since, "begun here") if since else None,
        "From here on the text can't be understood.",
        "Look at this line and the one above for a bracket, quote or colon too many or too few.",
    )


def _char(lines: list[str], at: tuple[int, int]) -> str:
    number, column = at
    return lines[number][column : column + 1] if number < len(lines) else ""


def _value_at(lines: list[str], at: tuple[int, int]) -> str:
    """The value from a place to the end of its line, without a remark; inside brackets up to , ] or }."""
    line = lines[at[0]]
    value = re.split(r"\s#", line[at[1] :], maxsplit=1)[0].strip()
    if re.search(r"[\[{]", line[: at[1]]):
        value = re.split(r"[,\]}]|:\s", value, maxsplit=1)[0].strip()
    return value[:60]


def _quotes(lines: list[str], at: tuple[int, int]) -> str:
    value = _value_at(lines, at)
    mark = "'" if '"' in value else '"'
    return f"put it in quotes: {mark}{value}{mark}."


def _beginner(lines: list[str], at: tuple[int, int]) -> Said:
    char = _char(lines, at)
    if char == "%" and at[1] == 0:
        return Said(at, None, "A line can't begin with %.", "Take the line away, or put the value behind its key.")
    advice = _quotes(lines, at)
    return Said(at, None, f"A value can't begin with {char}.", advice[0].upper() + advice[1:])


def _quoted(problem: str, lines: list[str], at: tuple[int, int], since: tuple[int, int]) -> Said:
    quote = _char(lines, since) or '"'
    if "escape" in problem or "hexdecimal" in problem or "hexadecimal" in problem:
        line = lines[at[0]]
        column = line.rfind("\\", 0, at[1] + 1)
        here = (at[0], column) if column >= 0 else at
        return Said(
            here,
            (since, "the quote that opened"),
            "Between double quotes \\ begins a sign of its own.",
            "Use single quotes instead: '…', or write \\\\ where one \\ is meant.",
        )
    return Said(
        at,
        (since, "the quote that opened"),
        f"The quote {quote} opened on line {since[0] + 1} is never closed.",
        f"Type {quote} at the end of the value on line {since[0] + 1}, or take the first one away.",
    )


def _second_colon(lines: list[str], at: tuple[int, int]) -> Said:
    line = lines[at[0]]
    before = line[: at[1]]
    words = before.strip()
    first = re.search(r":\s", before)
    if first:
        value_at = first.end() + len(before[first.end() :]) - len(before[first.end() :].lstrip())
        value = _value_at(lines, (at[0], value_at))
        if re.match(r"[\"']", value):
            advice = "Put one pair of quotes round all of it."
        else:
            advice = f'Put the value in quotes, {before[: first.start()].strip()}: "{value}", or take the colon away.'
        return Said(at, None, "A second colon in one line: a value can't hold a colon followed by a space.", advice)
    number = at[0] - 1
    while number > 0 and (not lines[number].strip() or lines[number].lstrip().startswith("#")):
        number -= 1
    if number < 0 or number == at[0]:
        return Said(at, None, "A colon where none can be.", "Write the key in front of it, or take it away.")
    above = lines[number]
    start = len(above) - len(above.lstrip())
    noticed = (at, "noticed here")
    missing = _NO_SPACE.match(above)
    if missing and not re.search(r":(\s|$)", above):
        key, rest = above[start : missing.end() - 1], above[missing.end() :].strip()
        return Said(
            (number, missing.end() - 1),
            noticed,
            "No space follows the colon, so there is no key here.",
            f"Put a space behind the colon: {key.lstrip('- ')}: {rest[:40]}",
        )
    if not re.search(r":(\s|$)", above):
        return Said(
            (number, start),
            noticed,
            f"“{above.strip()[:40]}” has no colon.",
            "Put a colon and a space behind its key.",
        )
    indent = len(line) - len(line.lstrip())
    if indent > start:
        return Said(
            (at[0], indent),
            ((number, start), "the line above"),
            f"“{words[:40]}” stands deeper than the line above, whose value is written already.",
            f"Begin it in column {start + 1} like the line above, or take that line's value away.",
        )
    return Said(
        at,
        ((number, start), "the line above"),
        "A colon where none can be.",
        "Look at this line and the one above for a quote, bracket or colon too many or too few.",
    )


def _no_colon(lines: list[str], at: tuple[int, int], since: tuple[int, int]) -> Said:
    line = lines[since[0]]
    words = line[since[1] :].split(" #")[0].strip()
    missing = _NO_SPACE.match(line)
    elsewhere = since[0] < at[0] < len(lines) and lines[at[0]].strip()
    noticed = (at, "noticed here") if elsewhere else None
    if missing:
        key, rest = line[: missing.end() - 1].strip(), line[missing.end() :].strip()
        return Said(
            (since[0], missing.end() - 1),
            noticed,
            "No space follows the colon, so there is no key here.",
            f"Put a space behind the colon: {key.lstrip('- ')}: {rest[:40]}",
        )
    if len(words) > 200:
        return Said(since, noticed, "This key is too long.", "Look for a quote or bracket that is never closed.")
    return Said(
        since,
        noticed,
        f"“{words[:40]}” has no colon.",
        "Put a colon and a space behind its key, or take the line away.",
    )


def _bracket(lines: list[str], at: tuple[int, int], since: tuple[int, int]) -> Said:
    opened = _char(lines, since)
    close = _OPENED[opened]
    char = _char(lines, at)
    also = (since, "the bracket that opened")
    where = f"line {since[0] + 1}"
    if char in ("]", "}") and char != close:
        return Said(at, also, f"The bracket {opened} opened on {where} is closed with {char}.", f"Type {close} here.")
    later = at[0] > since[0]
    if later or not char:
        return Said(
            at,
            also,
            f"The bracket {opened} opened on {where} is never closed.",
            (f"Type {close} at the end of the value on {where}, or a comma where one is missing inside the brackets."),
        )
    before = lines[at[0]][: at[1]].rstrip()
    if before.endswith(('"', "'")):
        return Said(at, also, "Text follows the closing quote.", "Put one pair of quotes round all of the value.")
    return Said(
        at,
        also,
        f"A comma is missing here, inside the {opened} opened on {where}.",
        f"Put a comma between the two; if the value itself holds {char} or a bracket, put it in quotes.",
    )


def _nothing_there(lines: list[str], at: tuple[int, int], char: str) -> Said:
    if char == ",":
        before = lines[at[0]][: at[1]].rstrip()
        if before.endswith((",", "[", "{")):
            return Said(
                at,
                None,
                "There is nothing in front of this comma.",
                "Take the comma away, or write the value.",
            )
        return Said(at, None, "A value can't begin with a comma.", "Take the comma away, or put the value in quotes.")
    if char in ("]", "}"):
        return Said(
            at,
            None,
            f"{char} closes a bracket that was not opened.",
            f"Take it away, or type {'[' if char == ']' else '{'} where it opens.",
        )
    return Said(at, None, "A value is missing here.", "Write it, or take the sign in front away.")


def _behind_the_end(lines: list[str], at: tuple[int, int]) -> Said:
    directive = next((number for number, line in enumerate(lines[: at[0]]) if line.startswith("%")), None)
    if directive is not None:
        return _beginner(lines, (directive, 0))
    ended = any(line.startswith("...") for line in lines[: at[0] + 1])
    if ended:
        return Said(
            at,
            None,
            "The document has ended with a line “...” above; one file is one job.",
            "Take that line away, or move what follows into a file of its own.",
            "R05",
        )
    return Said(
        at,
        None,
        "The text was complete before this line, so it belongs to nothing.",
        "Begin every key of the job in column 1, without brackets or quotes round the whole.",
    )


def _misplaced(lines: list[str], at: tuple[int, int], since: tuple[int, int] | None, last: Any, in_list: bool) -> Said:
    char = _char(lines, at)
    line = lines[at[0]] if at[0] < len(lines) else ""
    before = line[: at[1]].rstrip()
    if last is not None and getattr(last, "style", "") in ('"', "'"):
        start, end = last.start_mark, last.end_mark
        opened = (start.line, start.column)
        if end.line > start.line:
            return Said(
                at,
                (opened, "the quote that opened"),
                (f"The quote {last.style} opened on line {start.line + 1} is closed only on line {end.line + 1}."),
                (f"Type {last.style} at the end of the value on line {start.line + 1}, or take the first one away."),
            )
        if end.line == at[0]:
            value = _value_at(lines, opened)
            other = "'" if last.style == '"' else '"'
            whole = f"{other}{value}{other}" if other not in value else value.replace(last.style, "")
            return Said(
                at,
                (opened, "the quote that opened"),
                "Text follows the closing quote.",
                f"Put quotes of the other kind round all of the value, or none: {whole}",
            )
    if char in ("]", "}"):
        return Said(
            at,
            None,
            f"{char} closes a bracket that was not opened.",
            f"Take it away, or type {'[' if char == ']' else '{'} where it opens.",
        )
    if before.endswith(("]", "}")):
        return Said(
            at,
            None,
            "Text follows the closing bracket.",
            ("Take it away or move it inside the brackets; if the brackets belong to a text, put all of it in quotes."),
        )
    also = (since, "what it should line up with") if since and since[0] != at[0] else None
    if not before:
        if char == "-" and line[at[1] : at[1] + 2] in ("-", "- "):
            return Said(
                at,
                also,
                "A list entry stands where a key belongs.",
                "Move it in, below the key it belongs to, or write a key in front of it.",
            )
        if char == ":":
            return Said(at, None, "There is nothing in front of the colon.", "Write the key, or take the colon away.")
        if in_list and since and at[1] == since[1]:
            return Said(
                at,
                also,
                "A key stands in line with a list's entries.",
                "Move the list in, below the key it belongs to, or write this line as an entry (- …).",
            )
        columns = f" Lines of that table begin in column {since[1] + 1}." if since else ""
        return Said(
            at,
            also,
            f"This line begins in column {at[1] + 1}, where no line above begins.",
            f"Move it left or right until it lines up with the lines that it belongs to.{columns}",
        )
    return Said(
        at,
        also,
        "What stands here doesn't belong to the line.",
        "Look for a quote, bracket or colon too many or too few.",
    )
