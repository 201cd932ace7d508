"""H08."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.joined import made_at
from harness.graph.whole_wire import through_cavity
from harness.graph.wiring import Wiring
from harness.model.contact import printed
from harness.model.parts import Row

_NOT_ASKED = frozenset(("empty", "unknown", "data", "optical"))  # data and optical wires have checks of their own
_MOST_TOLD = 6


@check("H08", Severity.FIX, "Function not carried by the loom", source="common practice, no source")
def function_not_carried(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a used cavity of an opened plug for which the plugged loom has no pin at either end.

    Why it matters: the function ends at the plug: no steering-wheel control, a silent speaker, a dark display.

    Example: cavity 14 is the steering-wheel control and the loom has a hole there.

    What to do: take a loom that has the pin, add a terminal, or join that wire beside the loom.

    Known limits: a cavity for which the plan says something (joined, cut, capped, depinned) is left alone. Data
    and optical wires are told as G01 and G05.

    Source: common practice, no source.
    """
    job = wiring.job
    board = wiring.board
    for plug, there in wiring.mates_of.items():
        pinned = {pin.stands.lower() for mate in there for pin in board.pins(mate.loom, mate.end)}
        missing: dict[str, Row] = {}
        for row in job.parts.plugs[plug].rows:
            if row.function.kind in _NOT_ASKED or row.cavity.lower() in pinned:
                continue
            if not _spoken_for(wiring, plug, row.cavity):
                missing.setdefault(row.cavity, row)
        if not missing:
            continue
        rows = list(missing.values())
        told = ", ".join(f"{row.cavity} ({printed(row.function.name)})" for row in rows[:_MOST_TOLD])
        more = f" and {len(rows) - _MOST_TOLD} more" if len(rows) > _MOST_TOLD else ""
        looms = " and ".join(dict.fromkeys(mate.loom for mate in there))
        yield Fault(
            at=Spot(there[0].place, f"{looms} in {plug}"),
            message=f"{looms} has no pin for {plug} cavity {told}{more}: what runs there is lost.",
            do="Take a loom that has these pins, or join the wires beside it.",
            about=tuple(name for row in rows for name in _hangs_on(wiring, plug, row.cavity)),
            also=tuple(Spot(row.place, f"{plug} cavity {row.cavity}") for row in rows),
            path=through_cavity(wiring, plug, rows[0].cavity),
        )


def _hangs_on(wiring: Wiring, plug: str, cavity: str) -> Iterator[str]:
    """Both halves, and the speakers and terminals that lie behind them."""
    for half in ("unit", "car"):
        name = f"{plug}.{half}.{cavity}"
        yield name
        for other in wiring.planned.net(name):
            if wiring.contact(other).kind in ("speaker", "unit"):
                yield other


def _spoken_for(wiring: Wiring, plug: str, cavity: str) -> bool:
    """Whether the plan says something else of this cavity."""
    job = wiring.job
    halves = (f"{plug}.unit.{cavity}", f"{plug}.car.{cavity}")
    return any(
        name in job.cut or name in job.capped or name in job.depinned or made_at(wiring, name) for name in halves
    )
