"""G07."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.meeting import is_ground
from harness.graph.touched import touches
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS


@check(
    "G07", Severity.STOP, "Restraint circuit in the plan", source="workshop manual, maker withheld", needs="restraint"
)
def restraint_touched(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: anything that the plan does to a wire that conducts, as found, to a restraint circuit.

    Why it matters: a charge can fire, or not fire when it must. It is not our wire.

    Example: a yellow wire at the sill is taken for B+, and it leads through an inline plug to the seat's airbag.

    What to do: leave it alone and choose another wire. There is no right way to do it.

    Known limits: a restraint circuit is known by the function SRS or by `carries: SRS` on its plug; the
    ground that such a plug shares with the body is no restraint circuit.

    Source: workshop manual, maker withheld: no probing, no joints on restraint circuits.
    """
    plugs = wiring.job.parts.plugs
    carrying = {plug.name for plug in plugs.values() if "srs" in plug.carries}
    seeds = [
        name
        for name in (wiring.job.contacts if carrying else wiring.contacts_for("restraint"))
        if _is_restraint(wiring, name, carrying)
    ]
    if not seeds:
        return
    body = wiring.found.net_number(CHASSIS)
    nets = {wiring.found.net_number(name): name for name in reversed(seeds)}
    nets.pop(body, None)
    direct = set(seeds)
    for touch in touches(wiring):
        for name in touch.contacts:
            contact = wiring.contact(name)
            seed = nets.get(wiring.found.net_number(name))
            if seed is None and (name in direct or (contact.kind == "plug" and contact.owner in carrying)):
                seed = name
            if seed is None:
                continue
            here, there = wiring.words(name), wiring.words(seed)
            same = wiring.contact(seed).owner == contact.owner and wiring.contact(seed).last == contact.last
            leads = "is a restraint wire" if same else f"leads to {there}, a restraint wire"
            yield Fault(
                at=Spot(touch.place, here),
                message=f"{here} {leads}, and the plan has it {touch.words}: not our wire.",
                do="Take it out of the plan and leave the wire alone.",
                about=touch.contacts,
                path=wiring.way_in_words(name, wiring.found.path(name, seed)),
            )
            break


def _is_restraint(wiring: Wiring, name: str, carrying: set[str]) -> bool:
    """A restraint wire by its function, or any wire but ground of a plug that carries the restraint circuit."""
    contact = wiring.contact(name)
    if contact.function.kind == "restraint" and contact.kind in ("plug", "unit"):
        return True
    return contact.owner in carrying and contact.kind == "plug" and not is_ground(wiring, name)
