"""G09."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring

if TYPE_CHECKING:
    from harness.graph.parted import Wire
    from harness.graph.state import State

# Wires that a lamp's current can harm, or fire what hangs on them.
_HARMED = {
    "restraint": "a restraint wire: a lamp's current can fire a charge",
    "high voltage": "a high-voltage wire",
    "data": "a data wire: a lamp pulls it down, and control units store faults or fail",
    "digital": "a digital sound wire: a lamp pulls it down",
}
_SAYS_NOTHING = frozenset(("unknown", "empty"))


@check(
    "G09",
    Severity.STOP,
    "Test lamp on an unidentified, data or restraint wire",
    source="a car-audio guide's page on test lamps, seen 2026; trade exam questions, seen 2026",
    by_joints=False,
    needs="lamp",
)
def lamp_on_an_unknown_wire(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record that was taken with a test lamp (`tool: lamp`) at a wire that nobody has identified,
    or that is, or as found leads to, a data, digital, restraint or high-voltage wire.

    Why it matters: a lamp draws a quarter of an ampere from whatever it touches. That can fire an airbag, and
    stops a bus.

    Example: cavity 5 is charted unknown, and its volts were looked for with a lamp.

    What to do: put the lamp away and take a digital meter. Have the airbag lamp and the fault memory looked at, and
    record that as `checked` at the same contact.

    Known limits: a record without a contact can't be judged. A wire counts as identified when its chart, or
    anything that it leads to, says a function. A later `checked` of the same wire clears it.
    A record is told once, at the first of its wires.

    Source: no test lamp where an airbag may hang on the wire (a car-audio guide's page, seen 2026); test lamps
    aren't for measuring in a car (trade exam questions, seen 2026). What a lamp draws: common practice, no source.
    """
    from harness.graph.parted import wires_of  # few jobs have such records
    from harness.graph.readings import state_of

    checked: dict[str, int] = {}
    for at, record in enumerate(wiring.job.records):
        if record.verb == "checked" and not record.stale:
            checked.update(dict.fromkeys(record.contacts, at))
    last_look: dict[tuple[bool, int], int] = {}
    harmed: dict[tuple[bool, int], list[str]] = {}
    for at, record in enumerate(wiring.job.records):
        if record.stale or "lamp" not in record.word("tool").lower():
            continue
        for name in record.contacts:
            state = state_of(wiring, name)
            wire = wires_of(wiring, state).wire(name)
            key = (state is wiring.found, wire.number)
            if key not in harmed:  # many may have been tried on one wire
                harmed[key] = [other for other in wire.contacts if _kind(wiring, other) in _HARMED]
                last_look[key] = max((checked.get(other, -1) for other in wire.contacts), default=-1)
            if last_look[key] > at or not (harmed[key] or _nobody_knows(wiring, wire)):
                continue
            there = _nearest(state, name, harmed[key])
            why = _HARMED.get(
                _kind(wiring, there), "a wire that nobody has identified: it may be an airbag's or a bus's"
            )
            words = wiring.words(name)
            leads = "" if there == name else f" It leads to {wiring.words(there)}."
            yield Fault(
                at=Spot(record.place, words),
                message=f"A test lamp was used at {words}, {why}.{leads}",
                do="Put the lamp away and use a digital meter. Have the airbag lamp and the fault memory looked at, "
                "and record it as `checked` here.",
                about=(name,),
                path=wiring.way_in_words(name, state.path(name, there)),
            )
            break  # a record is told once


def _kind(wiring: Wiring, name: str) -> str:
    """What a contact is for, as far as a lamp may harm it: a plug of restraint wiring makes all of it that."""
    contact = wiring.contact(name)
    kind = contact.function.kind
    plug = wiring.job.parts.plugs.get(contact.owner)
    if plug is not None and kind not in _HARMED and kind != "ground":
        return next((word for word in ("restraint", "high voltage") if _CARRIED[word] in plug.carries), kind)
    return kind


def _nearest(state: State, name: str, harmed: list[str]) -> str:
    """The nearest of the contacts that a lamp may harm; the one that was tried where there is none."""
    if len(harmed) < 2:
        return harmed[0] if harmed else name
    return state.nearest(name, frozenset(harmed).__contains__)


def _nobody_knows(wiring: Wiring, wire: Wire) -> bool:
    """Whether no contact of a wire says a function, and it leads to nothing that has one."""
    if wire.grounded:
        return False
    contacts = map(wiring.contact, wire.contacts)
    return all(each.function.kind in _SAYS_NOTHING and each.kind in ("plug", "loom") for each in contacts)


_CARRIED = {"restraint": "srs", "high voltage": "hv"}
