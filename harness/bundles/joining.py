"""The records of two bays that worked on one job: the file here keeps its bytes, the other's records are put behind."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import NamedTuple

from harness.bundles.arrival import NotTaken
from harness.bundles.laying import Laid, lay
from harness.graph.drivers import takes_over
from harness.records.append import mended
from harness.records.flow import is_whole
from harness.records.seal import broken, last_seal, seal_of, sealed, unsealed
from harness.records.shape import odd_line
from harness.records.torn import is_aside, lines_in, whole_characters

_TRIES = 20
_WORKED_ON = frozenset(("job", "part"))  # kinds of file that must be the same here for records to be joined
_BEGUN = re.compile(r"- \{")


# verbs of which the last record of a thing decides
_LAST_COUNTS = (
    "tone", "polarity", "ohm", "volts", "response", "plays", "before", "after", "built", "checked", "seen",
)  # fmt: skip


class Contest(NamedTuple):
    """Two records of the same thing, one from each bay: their lines in the joined file, and which was taken later.

    The one put behind counts, being the last; `older` says that it was taken before the one here.
    """

    what: str
    here: int
    added: int
    older: bool


class Joined(NamedTuple):
    """The joined file, and what came: the lines that both begin with, the records added by number of their lines here,
    how many were here already, and the lines of the bundle's that a crash left half.
    """

    raw: bytes
    shared: int
    added: tuple[int, ...]
    doubled: int
    half: tuple[int, ...]
    contests: tuple[Contest, ...]


def join(here: bytes, comes: bytes, file: str = "the bundle's records") -> Joined:
    """Puts the records of `comes` that `here` hasn't behind it, in their order and each sealed behind the one before.

    A record is the same as another if its words are, its seal left out; the line that a `struck` record names becomes
    the line that this record has here. Raises NotTaken, by line of `file`, for what can't be added record by record.
    """
    between, _ = mended(here)
    mine = _lines(here + between, "the records here")
    theirs = _lines(comes, file)
    shared = _shared(mine, theirs)
    _fit_to_join(mine, theirs, shared, file)
    struck = _struck(theirs, file)
    left = Counter(unsealed(line)[0] for line in mine[shared:] if _is_record(line))
    places: dict[str, list[int]] = {}
    for number, line in enumerate(mine[shared:], shared + 1):
        places.setdefault(unsealed(line)[0], []).append(number)
    at: dict[int, int] = {number: number for number in range(1, shared + 1)}  # where each of theirs stands here
    made: list[str] = []
    added: list[int] = []
    taken_back: set[int] = set()
    seal, doubled, half = last_seal(mine), 0, []
    first = len(mine) + 1  # of the lines put behind
    own = set(mine[shared:])
    for number, line in enumerate(theirs[shared:], shared + 1):
        if not _is_record(line):
            if is_aside(line) or _BEGUN.match(line):  # never acknowledged in the other bay
                half.append(number)
            elif line.strip() and line not in own:
                made.append(line)  # a remark
            continue
        text, was_sealed = unsealed(line)
        if number in struck:
            text = _renumbered(text, struck[number], at, file, number)
            taken_back.add(at[int(struck[number][2])])
        if left[text]:
            left[text] -= 1
            doubled += 1
            at[number] = places[text].pop(0)
            continue
        at[number] = first + len(made)
        added.append(at[number])
        if was_sealed:
            seal = seal_of(seal, text)
            text = sealed(text, seal)
        made.append(text)
    raw = here if not made else here + between + ("\n".join(made) + "\n").encode()
    contests = _contests([*mine, *made], shared, set(added) - taken_back, taken_back)
    return Joined(raw, shared, tuple(added), doubled, tuple(half), tuple(contests))


def lay_joined(
    files: Mapping[str, bytes], kinds: Mapping[str, str], folder: Path, records: str
) -> tuple[Laid, Joined | None]:
    """Lays a bundle's files as `lay` does, its records joined to those here. Raises NotTaken, or OSError.

    Job and part files must be the same here. Whoever records meanwhile is waited for, and what he wrote stays in front.
    """
    told = differing(files, kinds, folder)
    if told:
        raise NotTaken(told)
    there = folder / records
    for _ in range(_TRIES):
        if records not in files or not there.is_file() or there.is_symlink():
            return lay(files, folder, records=records), None
        here = there.read_bytes()
        joined = join(here, files[records], records)
        try:
            return lay({**files, records: joined.raw}, folder, records=records, growing=frozenset((records,))), joined
        except NotTaken:
            if there.read_bytes() == here:
                raise
        except FileExistsError:  # a photo that somebody recorded meanwhile
            if not _all_same(files, folder, records):
                raise
    raise NotTaken([f"{there}: others go on recording there; take the bundle again when they are done"])


def _all_same(files: Mapping[str, bytes], folder: Path, records: str) -> bool:
    """Whether every file of a bundle that is here, its records left out, is here as it is."""
    there = ((folder / path, data) for path, data in files.items() if path != records)
    return all(path.read_bytes() == data for path, data in there if path.is_file())


def differing(files: Mapping[str, bytes], kinds: Mapping[str, str], folder: Path) -> list[str]:
    """Why records can't be joined: each file of the work that isn't the same here, with its first other line."""
    told = []
    for path, data in sorted(files.items()):
        there = folder / path
        if kinds.get(path) not in _WORKED_ON:
            continue
        if not there.is_file():
            told.append(f"{there}: it isn't here, and a job without it is another; nothing can be joined to it")
        elif (held := there.read_bytes()) != data:
            told.append(
                f"{there}: it says something else here from line {_first_other(held, data)} on, and records go with "
                "the job that they were taken for. Take the bundle into another folder, and compare the two there"
            )
    return told


def could_join(files: Mapping[str, bytes], kinds: Mapping[str, str], folder: Path, records: str) -> list[str]:
    """What a take that was refused could do instead: in lines, for the reader of the refusal. None where nothing is."""
    there = folder / records
    if records not in files or not there.is_file():
        return []
    other = differing(files, kinds, folder)
    if other:
        names = ", ".join(sorted(line.partition(": ")[0] for line in other))
        words = f"the job itself differs ({names}), so its records can't be joined. Safe: take it into another folder"
        return [f"{there}: {words}; nothing here changes by that"]
    try:
        joined = join(there.read_bytes(), files[records], records)
    except (NotTaken, OSError):
        return []
    came = len(joined.added)
    if not came:
        return [f"{there}: job and parts are the same, and its records are all here already; --join takes the rest"]
    what = "the 1 record" if came == 1 else f"the {came} records"
    same = "line" if joined.shared == 1 else f"{joined.shared} lines"
    begin = f", both begin with the same {same}" if joined.shared else ""
    both = ""
    if joined.contests:
        more = f" and {len(joined.contests) - 1} more" if len(joined.contests) > 1 else ""
        both = f", and both recorded {joined.contests[0].what}{more}, of which the bundle's would count"
    words = f"job and parts are the same{begin}{both}"
    return [f"{there}: {words}. --join puts {what} that only the bundle has behind those here"]


# -- lines ---------------------------------------------------------------------------------------------------


def _lines(raw: bytes, file: str) -> list[str]:
    """The lines without their ends, no last empty one. Raises NotTaken where they are no UTF-8."""
    try:
        text = whole_characters(raw).decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError:
        raise NotTaken([f"{file}: they aren't UTF-8, so nothing can be joined"]) from None
    lines = lines_in(text)
    return lines[:-1] if lines and not lines[-1] else lines


def _shared(mine: list[str], theirs: list[str]) -> int:
    shared = 0
    while shared < min(len(mine), len(theirs)) and mine[shared] == theirs[shared]:
        shared += 1
    return shared


def _is_record(line: str) -> bool:
    return not is_aside(line) and bool(_BEGUN.match(line)) and is_whole(line)


def _fit_to_join(mine: list[str], theirs: list[str], shared: int, file: str) -> None:
    """Raises NotTaken for what can't be read line by line, and for records of the bundle that were changed."""
    odd = odd_line(mine)
    if odd is not None:
        raise NotTaken([f"the records here: line {odd} is no record on one line; write it so, then take this again"])
    told = []
    for number, line in enumerate(theirs[shared:], shared + 1):
        half = number == len(theirs) and _BEGUN.match(line)
        if (
            line.strip()
            and not line.lstrip().startswith("#")
            and not _is_record(line)
            and not is_aside(line)
            and not half
        ):
            told.append(f"{file}: line {number} is no record on one line; have it written so in the other bay")
    told += [
        f"{file}: line {number} was changed after it was recorded, or one above it; look at it in the other bay"
        for number in broken(theirs)
        if number > shared
    ]
    if told:
        raise NotTaken(told)


# -- records that strike others ------------------------------------------------------------------------------


def _struck(theirs: list[str], file: str) -> dict[int, tuple[int, int, str]]:
    """By line of a record that strikes: where in the line the other's number stands, and the number."""
    if not any("struck" in line for line in theirs):
        return {}
    from harness.read.nodes import Rows, Table, Text, read_text
    from harness.read.troubles import Troubles
    from harness.records.torn import without_torn

    root = read_text(without_torn("\n".join(theirs) + "\n")[0], file, Troubles())
    made = {}
    for table in root.items if isinstance(root, Rows) else ():
        value = table.get("struck") if isinstance(table, Table) else None
        if isinstance(value, Text) and value.exact and value.value.isdigit():
            start = value.column - 1
            made[value.line] = (start, start + len(value.value), value.value)
    return made


def _renumbered(text: str, found: tuple[int, int, str], at: Mapping[int, int], file: str, number: int) -> str:
    start, end, said = found
    if text[start:end] != said or int(said) not in at:
        raise NotTaken([f"{file}: line {number} strikes line {said}, which is no record above it"])
    return f"{text[:start]}{at[int(said)]}{text[end:]}"


# -- both bays of the same thing -----------------------------------------------------------------------------


def _contests(lines: list[str], shared: int, added: Collection[int], struck: Collection[int]) -> list[Contest]:
    """What both recorded, by verb, thing, key, fader and balance; of tones those for the same drivers."""
    said = re.compile(rf"[{{,] ?({'|'.join(_LAST_COUNTS)}): ([^,}}]+)")
    words = ("when", "key", "faded", "balanced", "signal")
    when, *rest, signal = (re.compile(rf"[{{,] ?{word}: \"?([^,\"}}]+)") for word in words)
    mine: dict[tuple[str, ...], tuple[int, str, str]] = {}
    made = []
    for number, line in enumerate(lines, 1):
        found = said.search(line)
        if number <= shared or number in struck or not found or not _is_record(line):
            continue
        taken = when.search(line)
        state = (each.search(line) for each in rest)
        about = (found[1], found[2].strip().lower(), *(each[1] if each else "" for each in state))
        tone = signal.search(line)
        played = tone[1] if tone and found[1] == "tone" else ""
        time = taken[1].strip() if taken else ""
        if number not in added:
            mine[about] = (number, time, played)
        elif about in mine and takes_over(played, mine[about][2]):
            other, before, _ = mine[about]
            made.append(Contest(f"{found[1]} {found[2].strip()}", other, number, bool(time) and time < before))
    return made


def _first_other(one: bytes, other: bytes) -> int:
    lines = [raw.splitlines() for raw in (one, other)]
    pairs = zip(*lines, strict=False)
    return next((number for number, (a, b) in enumerate(pairs, 1) if a != b), min(map(len, lines)) + 1)
