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


class Line(NamedTuple):
    """`condition` is what nobody recorded and this line hangs on, and `find_out` how that is found out.

    A line without condition rests on its `basis` alone. `low_ms` and `high_ms` are set for lines of minutes;
    `defaults` says that figures in it are the tool's own.
    """

    kind: str
    words: str
    basis: tuple[Record, ...] = ()
    condition: str = ""
    find_out: str = ""
    low_ms: int = 0
    high_ms: int = 0
    flag: str = ""  # of a risk, its name


def open_line(kind: str, words: str, condition: str, find_out: str, basis: tuple[Record, ...] = ()) -> Line:
    """A line that hangs on what nobody recorded."""
    return Line(kind, words, basis, condition, find_out)
