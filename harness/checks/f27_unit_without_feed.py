"""F27."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.fitted import is_fed, ours, terminals_for
from harness.graph.meeting import grounded_nets
from harness.graph.whole_wire import along, far_end
from harness.graph.wiring import Wiring


@check("F27", Severity.FIX, "Unit without a feed", source="common practice, no source", by_joints=False, needs="runs")
def unit_without_feed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit of ours, in a job that writes its runs, whose B+ nothing feeds.

    Why it matters: it stays dead, and the dash is closed again by then.

    Example: the processor's ground and signal are laid, and its B+ was forgotten.

    What to do: lay the feed and its fuse and write the run.

    Known limits: units that the car brings (radio, factory amplifier, control unit, cluster) and units on a plug with
    a B+ cavity are fed there. A line converter is asked only where the file says that it draws or is woken by a lead.

    Source: common practice, no source.
    """
    if not wiring.job.has_runs:
        return
    units, grounded = wiring.job.parts.units, grounded_nets(wiring)
    dead: dict[int, list[str]] = {}
    for unit in ours(wiring):
        terminals = terminals_for(wiring, unit.name, "battery")
        if any(wiring.planned.net_number(terminal) in grounded for terminal in terminals):
            continue  # told as a short
        if terminals and not any(is_fed(wiring, terminal) for terminal in terminals):
            dead.setdefault(wiring.planned.net_number(terminals[0]), []).append(terminals[0])
    for number, terminals in dead.items():
        end = far_end(wiring.planned, terminals[0])
        names = [wiring.contact(name).owner for name in terminals]
        block = next((name for name in wiring.planned.nets[number] if _is_entry(wiring, name)), "")
        at = wiring.contact(block).owner if block else names[0]
        lacking = wiring.words(block or terminals[0])
        hang = f", on which {' and '.join(names)} {'hangs' if len(names) == 1 else 'hang'}" if block else ""
        more = f" (nor {' and '.join(names[1:])})" if not block and names[1:] else ""
        yield Fault(
            at=Spot(units[at].place, lacking),
            message=f"Nothing feeds {lacking}{hang}{more}: it stays dead.",
            do=f"Lay a fused feed to {lacking} and write the run.",
            about=(*terminals, *((block,) if block else ())),
            also=tuple(Spot(units[name].place, name) for name in names if name != at),
            path=along(wiring, wiring.planned, terminals[0], block or end),
        )


def _is_entry(wiring: Wiring, name: str) -> bool:
    """Whether a contact is where a fuse block is fed."""
    contact = wiring.contact(name)
    if contact.kind != "unit" or contact.last != "in":
        return False
    return wiring.job.parts.units[contact.owner].kind == "fuse block"
