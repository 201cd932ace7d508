"""C18."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.broken import first_break
from harness.graph.wiring import Wiring

_KINDS = ("mute", "trigger")


@check(
    "C18", Severity.FIX, "Mute or turn-on line dropped", source="common practice, no source", needs="factory amplifier"
)
def turn_on_line_dropped(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a MUTE or AMP-ON line into a factory amplifier that stays, which the plan leaves
    open, or whose driver comes out.

    Why it matters: the factory amplifier may stay silent or asleep, or pop at every start.

    Example: the factory amplifier is kept for the rear speakers, and the loom's mute lead is capped.

    What to do: pass the line on, or drive it from a unit that gives the same signal.

    Known limits: only amplifiers of kind `factory amplifier` are looked at. A line that another unit's
    output (written under `gives`) or a switched feed drives instead counts as kept.

    Source: common practice, no source.
    """
    for unit in wiring.job.parts.units.values():
        if unit.kind != "factory amplifier" or unit.name in wiring.gone:
            continue
        lines = [name for name in wiring.of_unit.get(unit.name, ()) if wiring.contact(name).function.kind in _KINDS]
        for line in lines:
            before = [name for name in wiring.found.around(line) if _drives(wiring, name, unit.name)]
            if not before or any(_stays(wiring, name, unit.name) for name in wiring.planned.net(line)):
                continue
            hops = wiring.found.path(before[0], line)
            found = first_break(wiring, before[0], hops)
            place = found.place if found else wiring.contact(line).place
            at = wiring.words(found.contact) if found else wiring.words(line)
            gone = wiring.contact(before[0]).owner in wiring.gone
            where = ", which comes out" if gone else f" at {at}"
            yield Fault(
                at=Spot(place, at),
                message=(
                    f"{wiring.words(line)} loses its line from {wiring.words(before[0])}{where}, and {unit.name} "
                    "stays: it may stay silent or pop."
                ),
                do=f"Pass the line on to {unit.name}, or drive it from another unit's turn-on output.",
                about=(line, before[0], *(found.about if found else ())),
                path=wiring.way_in_words(before[0], hops),
            )


def _stays(wiring: Wiring, name: str, amplifier: str) -> bool:
    """Whether a contact can drive the line and its unit does not come out."""
    return _drives(wiring, name, amplifier) and wiring.contact(name).owner not in wiring.gone


def _drives(wiring: Wiring, name: str, amplifier: str) -> bool:
    """Whether a contact can drive the line: another unit's turn-on or mute output, or a feed of the car."""
    contact = wiring.contact(name)
    if contact.kind == "plug":
        return contact.function.kind == "switched"
    if contact.kind != "unit" or contact.owner == amplifier:
        return False
    unit = wiring.job.parts.units[contact.owner]
    if contact.last in unit.gives_a:
        return True
    woken = {words.split()[0].lower() for words in unit.wakes} | {"rem"}
    if unit.kind == "factory amplifier" or contact.last.lower() in woken:
        return False
    return contact.function.kind in _KINDS
