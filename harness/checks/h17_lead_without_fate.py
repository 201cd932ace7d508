"""H17."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.feeding import live_source
from harness.graph.loose import loose_ends
from harness.graph.whole_wire import along, far_end
from harness.graph.wiring import Wiring

_OWN_CHECKS = ("battery", "ground", "trigger")


@check("H17", Severity.FIX, "Lead with no fate", source="common practice, no source")
def lead_without_fate(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a lead joined to nothing, neither capped nor depinned, and not live.

    Why it matters: nobody knows whether it was forgotten. A dead lead today is live after the next change,
    and a forgotten one is a function that is missing.

    Example: the loom's microphone lead is written and nothing is said of it.

    What to do: join it, or write it under `capped` or `depinned`.

    Known limits: live leads are H01. A loom that is neither plugged in nor joined to anything is left alone;
    so are a unit's supply, ground and turn-on leads, which have checks of their own.

    Source: common practice, no source: every lead has one fate.
    """
    used = _used_looms(wiring)
    for end in loose_ends(wiring):
        if end.cut or (end.owner in wiring.job.parts.looms and end.owner not in used):
            continue
        dead = [name for name in end.contacts if not live_source(wiring, name) and not _own_check(wiring, name)]
        if not dead:
            continue
        words = wiring.words(dead[0])
        others = f" (and {len(dead) - 1} more of this row)" if len(dead) > 1 else ""
        yield Fault(
            at=Spot(end.place, words),
            message=f"{words}{others} is joined to nothing and has no fate: forgotten, or not wanted?",
            do=f"Join it, or write `capped: [{', '.join(dead)}]` or `depinned: [{', '.join(dead)}]`.",
            about=tuple(dead),
            path=_way(wiring, dead[0]),
        )


def _way(wiring: Wiring, lead: str) -> tuple[str, ...]:
    """From the lead to the end of the wire that it would go on with; empty for a lead that nothing hangs on."""
    end = far_end(wiring.planned, lead)
    return along(wiring, wiring.planned, lead, end) if end != lead else ()


def _used_looms(wiring: Wiring) -> set[str]:
    used = {mate.loom for mate in wiring.job.mates}
    for joint in wiring.job.joints:
        used.update(wiring.contact(end).owner for link in joint.links for end in link)
    return used


def _own_check(wiring: Wiring, name: str) -> bool:
    contact = wiring.contact(name)
    return contact.kind == "unit" and contact.function.kind in _OWN_CHECKS
