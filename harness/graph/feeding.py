"""Which contacts are live: what the car feeds, what a unit gives, and from which half of a plug."""

from __future__ import annotations

from harness.graph.kept import kept
from harness.graph.wiring import OUTPUT, Wiring
from harness.model.contact import Contact

_FROM_CAR = ("battery", "switched", "light")
_FROM_UNIT = ("trigger", "aerial")
_FEEDING_UNITS = ("fuse block", "battery", "relay", "switch", "control unit")


def is_live(wiring: Wiring, name: str) -> bool:
    """Whether a contact has volts of its own: an output, the battery's post, or a feed on the half that gives it.

    Where the job doesn't say which unit sits on a half, a feed there counts as live.
    """
    if wiring.role(name) == OUTPUT:
        return True
    contact = wiring.contact(name)
    if contact.kind == "battery":
        return contact.function.kind == "battery"
    if contact.kind == "unit":
        return contact.owner not in wiring.gone and contact.last in wiring.job.parts.units[contact.owner].gives_a
    return contact.kind == "plug" and _gives(wiring, contact, contact.half)


def _gives(wiring: Wiring, contact: Contact, half: str) -> bool:
    """Whether a half of a plug gives this function rather than takes it."""
    plug = wiring.job.parts.plugs[contact.owner]
    name = plug.unit if half == "unit" else plug.car
    kind = contact.function.kind
    if kind not in _FROM_CAR and kind not in _FROM_UNIT:
        return False
    if name in wiring.gone:
        return False
    unit = wiring.job.parts.units.get(name)
    if kind in _FROM_CAR:
        return unit is None or unit.kind in _FEEDING_UNITS
    if unit is not None:
        return unit.kind == "radio" or contact.function.name in unit.gives_a
    if half == "unit":
        return True
    across = wiring.job.parts.units.get(plug.unit)  # what gives it, maybe taken out: then nothing does
    return across is not None and across.kind != "radio" and contact.function.name not in across.gives_a


def live_source(wiring: Wiring, lead: str) -> str:
    """The nearest contact that makes a lead live, maybe the lead itself; empty where there is none."""
    if not _net_is_live(wiring, wiring.planned.net_number(lead)):
        return ""
    return wiring.planned.nearest(lead, lambda name: is_live(wiring, name))


def _net_is_live(wiring: Wiring, number: int) -> bool:
    """Looked at once a net: the car's body holds the whole job's grounds, and many leads may hang on it."""
    known = _nets_known(wiring)
    if number not in known:
        known[number] = any(is_live(wiring, name) for name in wiring.planned.nets[number])
    return known[number]


@kept
def _nets_known(wiring: Wiring) -> dict[int, bool]:
    """Whether a net is live, for those that were asked for; filled by `_net_is_live` alone."""
    return {}
