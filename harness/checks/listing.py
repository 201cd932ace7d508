"""What each code is called and means, read from the checks' own files without importing them.

`ringout explain` needs a title and a docstring, and none of what the checks need: importing them would cost more
than the command itself. A test compares this with what the files declare when they are imported.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from typing import NamedTuple

from harness.finding import Severity


class Entry(NamedTuple):
    """One line of the catalogue."""

    code: str
    severity: Severity
    title: str
    doc: str


def check_modules() -> list[str]:
    """The files of this folder that are checks: a letter, two digits, a name."""
    names = {name.partition(".")[0] for name in os.listdir(os.path.dirname(__file__)) if name.endswith(".py")}
    return sorted(filter(re.compile(r"[a-z]\d\d_").match, names))


def catalogue(code: str = "") -> tuple[Entry, ...]:
    """Every check and reading error, sorted by code; with a `code` that one only (or none)."""
    from harness.read.refusals import REFUSALS

    wanted = code.upper()
    modules = [name for name in check_modules() if wanted in ("", name[:3].upper())]
    found = [entry for name in modules for entry in _of(name)]
    found += [Entry(r.code, r.severity, r.title, r.doc) for r in REFUSALS.values() if wanted in ("", r.code)]
    return tuple(sorted(found, key=lambda entry: entry.code))


# A check as this folder's files write it; parsing them as Python would take longer than all the rest.
_DECLARED = re.compile(
    r'@check\(\s*"(?P<code>\w+)",\s*Severity\.(?P<severity>\w+),\s*"(?P<title>[^"]+)".*?'
    r'^def \w+\([^\n]*:\n    """(?P<doc>.*?)"""',
    re.DOTALL | re.MULTILINE,
)


def _of(module: str) -> Iterator[Entry]:
    """What one file declares: the words of its decorator and its function's docstring."""
    with open(os.path.join(os.path.dirname(__file__), f"{module}.py"), encoding="utf-8") as stream:
        for each in _DECLARED.finditer(stream.read()):
            yield Entry(each["code"], Severity[each["severity"]], each["title"], each["doc"])
