"""What the checks of the order of work share: live nets of a state, a fault at a step, looks at a state."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from harness.checks.registry import Fault, Look
from harness.finding import Spot
from harness.graph.feeding import is_live
from harness.graph.wiring import Wiring
from harness.work.replay import Moment, replay
from harness.work.situation import Work, planned_work, wiring_at


def spot(moment: Moment) -> Spot:
    """A step as a place: the line of the file that says it, or the job where the order is proposed."""
    return Spot(moment.place, moment.words)


def live_from(laid: Wiring, contact: str, *, key: bool) -> str:
    """What makes a contact live in a state of the car, nearest first; empty where nothing does.

    With the key off that is the battery and what hangs on it; with it on also switched feeds, turn-ons and outputs.
    """

    def gives(name: str) -> bool:
        return is_live(laid, name) and (key or _always(laid, name))

    number = laid.planned.net_number(contact)
    if not any(gives(name) for name in laid.planned.nets[number]):
        return ""
    return laid.planned.nearest(contact, gives)


def _always(laid: Wiring, name: str) -> bool:
    contact = laid.contact(name)
    return contact.kind == "battery" or contact.function.kind == "battery"


def newly_powered(wiring: Wiring) -> Iterator[tuple[Moment, Wiring]]:
    """Each moment at which the battery is on and the car is not as before or as planned: what to look at anew."""
    seen: set[tuple[Work, bool]] = {(Work(), False), (Work(), True)}
    planned = planned_work(wiring.job)
    for moment in replay(wiring).moments:
        for there in (moment.during, moment.after):
            state = (there.work, there.power.key)
            if not there.power.battery or state in seen:
                continue
            seen.add(state)
            if there.work != planned:
                yield moment, wiring_at(wiring, there.work)


def new_faults(wiring: Wiring, laid: Wiring, looks: Iterable[Look]) -> Iterator[Fault]:
    """What a look finds in a state and doesn't find in the plan, nor in the car as it came."""
    before, planned = wiring_at(wiring, Work()), wiring_at(wiring, planned_work(wiring.job))
    for look in looks:
        found = _faults(laid, look)
        if found:
            known = {name for state in (before, planned) for fault in _faults(state, look) for name in fault.about}
            yield from (fault for fault in found if known.isdisjoint(fault.about))


def _faults(laid: Wiring, look: Look) -> tuple[Fault, ...]:
    """What a look finds in a state, kept with it: trials of other orders share their states."""
    made = laid.answers.get((_faults, look))
    if made is None:
        made = laid.answers[_faults, look] = tuple(look(laid))
    assert isinstance(made, tuple)
    return made


def told_with_key_on(wiring: Wiring, looks: Iterable[Look], opening: str, do: str) -> Iterator[Fault]:
    """What the looks find in states that have the key on, each contact once; `opening` names the `{step}`."""
    told: set[str] = set()
    for moment, laid in newly_powered(wiring):
        if not moment.during.power.on:
            continue
        for fault in new_faults(wiring, laid, looks):
            if not told.isdisjoint(fault.about):
                continue
            told.update(fault.about)
            yield Fault(
                at=spot(moment),
                message=opening.format(step=moment.words) + fault.message,
                do=do,
                about=fault.about,
                also=(fault.at,),
                path=fault.path,
            )
