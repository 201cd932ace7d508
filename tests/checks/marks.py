"""Fixtures and the findings that they must give: `# finds C01 H03` at the end of a line, put there by hand."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import NamedTuple

# What records say by a number that another order gives to something else: a joint of the paper, a line.
_BY_NUMBER = re.compile(r"struck: \d|(?:built|checked): J\d")

FOLDER = Path(__file__).resolve().parent
_MARK = re.compile(r"#\s*finds((?: [A-Z][0-9]{2})+)")
_CODE = re.compile(r"[A-Z][0-9]{2}")


class Mark(NamedTuple):
    """A code that must be told, and the file and line where to look first."""

    code: str
    file: str  # the file's name without its folder
    line: int


def marks_in(text: str, file: str) -> Counter[Mark]:
    """Every mark of one file. A mark that can't be read raises ValueError."""
    made: Counter[Mark] = Counter()
    for number, line in enumerate(text.split("\n"), start=1):
        if line.lstrip().startswith("#"):
            continue  # a remark may speak of marks
        match = _MARK.search(line)
        if match:
            made.update(Mark(code, file, number) for code in match[1].split())
        elif re.search(r"#\s*finds?\b", line):
            raise ValueError(f"{file} line {number}: a mark is written `# finds C01 H03`: {line.strip()!r}")
    return made


def evidence_of(job: Path) -> Path:
    return job.with_name(job.stem + ".evidence.yaml")


def marks_of(job: Path) -> Counter[Mark]:
    """The marks of a job file and of the evidence beside it."""
    made = marks_in(job.read_text(encoding="utf-8"), job.name)
    evidence = evidence_of(job)
    if evidence.is_file():
        made += marks_in(evidence.read_text(encoding="utf-8"), evidence.name)
    return made


def by_steps(job: Path) -> bool:
    """Whether a fixture says its order of work, and so is proved as `ringout check --steps` does."""
    return re.search(r"^steps:", job.read_text(encoding="utf-8"), re.MULTILINE) is not None


def code_folders() -> list[str]:
    return sorted(path.name for path in FOLDER.iterdir() if path.is_dir() and _CODE.fullmatch(path.name))


def fixtures(kind: str) -> list[Path]:
    """All `good_*.yaml` or all `bad_*.yaml`, by code and name, without evidence files."""
    paths = (path for code in code_folders() for path in (FOLDER / code).glob(f"{kind}_*.yaml"))
    return sorted(path for path in paths if not path.name.endswith(".evidence.yaml"))


def named(path: Path) -> str:
    """`C01/bad_plain`, for the name of a test."""
    return f"{path.parent.name}/{path.stem}"


def by_number(path: Path) -> bool:
    """Whether a fixture's records name joints or lines by their numbers, which hold in this one order only."""
    evidence = evidence_of(path)
    return evidence.is_file() and bool(_BY_NUMBER.search(evidence.read_text(encoding="utf-8")))
