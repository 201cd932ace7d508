"""H11."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import JOINT, RUN, Conductor
from harness.graph.whole_wire import along
from harness.graph.wiring import Wiring
from harness.model.colour import Colour

# What makers of aftermarket radios usually mean, as three trade pages list it, seen 2026. Orange and orange/white are
# two things: one page calls orange/white "illumination or dimmer", another keeps it for a dimmer of 0 to 12 V.
USUALLY = {
    "YE": "constant 12 V", "RD": "switched 12 V", "BK": "ground", "BU": "aerial supply", "BU/WH": "amplifier turn-on",
    "OG": "illumination, on or off", "OG/WH": "a dimmer of 0 to 12 V (some lists: illumination)",
    "WH": "left front +", "WH/BK": "left front −", "GY": "right front +", "GY/BK": "right front −",
    "GN": "left rear +", "GN/BK": "left rear −", "VT": "right rear +", "VT/BK": "right rear −",
    "BN": "mute", "LIGHT-GREEN": "parking brake", "PK": "vehicle speed", "BN/BK": "steering-wheel control",
}  # fmt: skip
_NOTHING_SAID = ("unknown", "empty", "terminal", "other", "")


@check(
    "H11",
    Severity.ASK,
    "Lead known by its colour only",
    source="three trade pages of aftermarket lead colours, seen 2026",
    by_joints=False,
    needs="unknown",
)
def lead_known_by_colour(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a lead of a loom whose function isn't entered, joined to a wire or terminal that is for
    something.

    Why it matters: lead colours are a habit of makers and no rule. White is usually left front +, and in this loom it
    may be whatever its maker had on the reel.

    Example: `1: unknown WH` in a loom's leads, joined to the processor's input 1 +.

    What to do: meter from the loom's cavity to the lead, or read its maker's list, and write the function.

    Known limits: a lead whose cavity leads to a charted wire is known by that. Lists of the trade differ: one has
    orange/white as illumination or dimmer, another as a dimmer only and orange as illumination. Leads of a unit are
    named by its maker, so they aren't asked for.

    Source: three trade pages of aftermarket lead colours, seen 2026; all say that the colours are voluntary and that
    factory wiring doesn't follow them.
    """
    joined_ones = [name for name in wiring.contacts_for("unknown") if name in wiring.laid]
    looms = {wiring.contact(name).owner for name in joined_ones if wiring.contact(name).kind == "loom"}
    leads = {lead.name for loom in looms for lead in wiring.job.parts.looms[loom].leads}
    for name in joined_ones:
        contact = wiring.contact(name)
        if name not in leads:
            continue
        made = [each for each in wiring.planned.conductors(name) if each.kind in (JOINT, RUN)]
        if _reaches(wiring, name, [each for each in wiring.planned.conductors(name) if each not in made]):
            continue
        wanted = next((end for each in made if (end := _reaches(wiring, name, [each]))), "")
        if not wanted:
            continue
        joined = made[0].other(name)
        yield Fault(
            at=Spot(contact.place, wiring.words(name)),
            message=f"{wiring.words(name)} is joined to {wiring.words(joined)}, {_for(wiring, wanted, joined)}and its "
            f"function isn't entered. {_usually(contact.colour)}",
            do=f"Meter cavity to lead on {contact.owner}, or read its maker's list, and write the function.",
            about=(name, joined),
            path=along(wiring, wiring.planned, name, wanted),
        )


def _reaches(wiring: Wiring, start: str, first: list[Conductor]) -> str:
    """The nearest contact that is for something, on the ways that begin with these conductors; or empty."""
    others = frozenset(wiring.planned.conductors(start)).difference(first)
    for here in wiring.planned.around(start, without=others):
        contact = wiring.contact(here)
        if here != start and (contact.function.kind not in _NOTHING_SAID or contact.kind == "speaker"):
            return here
    return ""


def _for(wiring: Wiring, wanted: str, joined: str) -> str:
    return "" if wanted == joined else f"which leads to {wiring.words(wanted)}, "


def _usually(colour: Colour | None) -> str:
    if colour is None:
        return "Nothing says what it is."
    usual = USUALLY.get(colour.short)
    if usual is None:
        return f"{colour.words.capitalize()} has no usual meaning."
    return f"{colour.words.capitalize()} is usually {usual}, by habit and not by rule."
