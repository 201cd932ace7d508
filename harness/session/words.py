"""Words that several kinds of work share."""

from __future__ import annotations

from collections.abc import Generator, Iterable

from harness.graph.resistance import Expected
from harness.graph.wiring import Wiring
from harness.model.contact import listed as in_a_row
from harness.model.contact import printed
from harness.model.parts import Row
from harness.session.talk import LEFT_OUT, Choice, Question

_SIDES = {"FL": "left front", "FR": "right front", "RL": "left rear", "RR": "right rear", "C": "centre", "SUB": "sub"}

NOTHING = "none"


def wire(row: Row) -> str:
    """`1 (white, FL +)`."""
    colour = [row.colour.words] if row.colour is not None else []
    return f"{row.cavity} ({', '.join([*colour, printed(row.function.name)])})"


def speaker(wiring: Wiring, name: str) -> str:
    """`FL, left front, front doors`."""
    about = wiring.job.parts.speakers.get(name)
    if about is None:
        return name
    side = _SIDES.get(about.function.channel, "")
    return ", ".join(dict.fromkeys(filter(None, (name, side, about.where))))


def listed(names: Iterable[str]) -> str:
    """`FL and FL-TW`, or `nothing`."""
    known = list(dict.fromkeys(names))
    if not known:
        return "nothing"
    return in_a_row(known)


def speakers_of(wiring: Wiring) -> tuple[Choice, ...]:
    """Every speaker of the job, and one that the job doesn't know."""
    known = wiring.job.parts.speakers
    return (
        *(Choice(speaker(wiring, name), name) for name in known),
        Choice("a place that isn't in the job", "elsewhere"),
    )


def band(expected: Expected) -> str:
    """`2.5 to 4.0 ohm`, `open (behind a capacitor)` or empty where nothing can be said."""
    if expected.open_to_dc:
        return "open: a capacitor is in line"
    if expected.low_ohm is None or expected.high_ohm is None:
        return ""
    return f"{expected.low_ohm:.1f} to {expected.high_ohm:.1f} ohm"


def heard_of(
    wiring: Wiring, text: str, expected: tuple[str, ...], may: tuple[str, ...] = (), silent: tuple[str, ...] = ()
) -> Generator[Question, str, str]:
    """The speakers that answered, as words; `none`; or left out. Several are asked one after the other. `may` are those
    that answer it perhaps, and needn't; `silent` those that must, and were heard to be silent before.
    """
    others = tuple(name for name in expected if name not in silent)
    rows = [expected, *([(*expected, *may)] if may else []), *([others] if silent else [])]
    as_charted = [
        Choice(listed(speaker(wiring, name) for name in each), " ".join(each)) for each in rows if each
    ]  # fmt: skip
    told = listed(expected) if expected or not may else f"{listed(may)} may, and need not"
    first = yield Question(
        text,
        (
            *as_charted,
            Choice("nothing answers" if as_charted else "nothing", NOTHING),
            Choice("something else", "else"),
        ),
        expected=told,
    )
    if first != "else":
        return first
    every = speakers_of(wiring)
    made: list[str] = []
    while True:
        left = tuple(each for each in every if each.value not in made)
        text = "Which one answers?"
        if made:
            text = f"{listed(made)}, and which one more?"
            left = (*left, Choice("no more, that's all", LEFT_OUT))
        given = yield Question(text, left, must=not made)
        if given == LEFT_OUT:
            return " ".join(made)
        made.append(given)
