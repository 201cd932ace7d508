"""One line of a scope: what it says, and the records that it rests on, or how what it hangs on is found out."""

from __future__ import annotations

from typing import NamedTuple

from harness.model.scope import Record

UNKNOWN, ACCESS, PART, JOINT, TIME, RISK = "unknown", "access", "part", "joint", "time", "risk"
TITLES = {
    UNKNOWN: "To find out",
    RISK: "Risks",
    ACCESS: "Access",
    PART: "Parts",
    JOINT: "Joints",
    TIME: "Minutes",
}


class Rate(NamedTuple):
    """A figure that minutes were counted with: what once takes so long, and whether that is the tool's own."""

    what: str
    words: str
    default: bool


class Line(NamedTuple):
    """`condition` is what nobody recorded and this line hangs on, and `find_out` how that is found out.

    A line without condition rests on its `basis` alone. `least` and `most` are how many of a part, or how often a
    work is done; `low_ms`, `high_ms` and `rates` are set for lines of minutes.
    """

    kind: str
    words: str
    basis: tuple[Record, ...] = ()
    condition: str = ""
    find_out: str = ""
    low_ms: int = 0
    high_ms: int = 0
    flag: str = ""  # of a risk, its name
    least: int = 0
    most: int = 0
    rates: tuple[Rate, ...] = ()


def open_line(kind: str, words: str, condition: str, find_out: str, basis: tuple[Record, ...] = ()) -> Line:
    """A line that hangs on what nobody recorded."""
    return Line(kind, words, basis, condition, find_out)


def both(*said: str) -> str:
    """Conditions that must all hold, as one; those that are empty left out."""
    return " and ".join(filter(None, said))


def ways(*said: str) -> str:
    """How to find out several things, as one; those that are empty left out."""
    return "; ".join(filter(None, said))


def span(least: int, most: int) -> str:
    """`3`, `1 to 3` or `up to 3`."""
    return str(most) if least == most else f"{least} to {most}" if least else f"up to {most}"


def several(least: int, most: int, word: str) -> str:
    """`1 plug`, `2 plugs`, `up to 1 plug`."""
    return f"{span(least, most)} {word}{'' if most == 1 else 's'}"
