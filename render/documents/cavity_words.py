"""What becomes of a cavity, as an order to the hand: one word on the face, a few in the list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from harness.graph import fates
from harness.graph.conductor import PLUGGED
from harness.graph.fates import CavityFate
from harness.model.contact import printed
from render.blocks import Cell, Strong
from render.documents.wording import far_names

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring

_SHORT = 12  # letters of a name that is not broken
LEAD_WORDS = {fates.CAPPED: "CAP", fates.DEPINNED: "DEPIN", fates.LOOSE: "LOOSE"}
_MARKS = {
    fates.TAPPED: "TAP",
    fates.PASSED: "PASS",
    fates.CAPPED: "CAP",
    fates.DEPINNED: "DEPIN",
    fates.ONE_END: "1 END",
    fates.OPEN: "OPEN",
}


# What each word on the face and under "Do" means, for the hand that reads it the first time.
_MEANS = {
    "LOOM": "LOOM (USE BOTH SIDES): the loom parts this wire, and both its sides are joined.",
    "CUT": "CUT: the wire is cut, both its ends are used.",
    "TAP": "TAP: the wire stays whole, one more is joined to it.",
    "PASS": "PASS: straight through the loom.",
    "CROSS": "CROSS: the loom takes it to another cavity.",
    "1 END": "1 END: parted, only the side named is used.",
    "CAP": "CAP: insulate the whole end, join it to nothing.",
    "DEPIN": "DEPIN: take the terminal out of the housing.",
    "OPEN": "OPEN (NOT DECIDED): parted, and nothing is said of it.",
    "LEAVE": "LEAVE: do not touch.",
}


def key(wiring: Wiring, cavities: list[CavityFate]) -> str:
    """One line that explains the words which a plug's sheet uses, and no others."""
    used = {mark(wiring, each) for each in cavities}
    return " ".join(words for word, words in _MEANS.items() if word in used)


def untouched(cavities: list[CavityFate], wiring: Wiring) -> bool:
    """Whether the plan leaves a whole plug as it is: no loom in it, every wire still goes straight across."""
    return all(
        each.fate == fates.EMPTY or (each.fate == fates.PASSED and each.plug not in wiring.opened) for each in cavities
    )


def is_bare(each: CavityFate) -> bool:
    """Whether there is no wire and nothing to do."""
    return each.fate == fates.EMPTY and not each.unit_to and not each.car_to


def mark(wiring: Wiring, each: CavityFate) -> str:
    """One short word for the face; empty where there is nothing to say."""
    if each.fate == fates.INTERCEPTED:
        if _crossed(wiring, each):
            return "CROSS"
        return "LOOM" if each.plug in wiring.opened else "CUT"
    if each.fate == fates.PASSED and each.plug not in wiring.opened:
        return "LEAVE"
    return _MARKS.get(each.fate, "")


def _crossed(wiring: Wiring, each: CavityFate) -> bool:
    """Whether a loom takes both sides of a cavity to other cavities and nowhere else."""
    to = (*each.unit_to, *each.car_to)
    return each.plug in wiring.opened and all(wiring.contact(name).kind == "plug" for name in to)


def what_to_do(wiring: Wiring, each: CavityFate) -> Strong:
    """The fate as an order to the hand, and by what."""
    loom = wiring.opened.get(each.plug)
    by = f"loom\N{NO-BREAK SPACE}{loom}" if loom else ""
    halves = [f"{each.plug}.{half}.{each.row.cavity}" for half in ("unit", "car")]
    cut = "CUT, " if any(name in wiring.job.cut for name in halves) else ""
    if each.fate == fates.PASSED:
        return Strong("PASS", by) if loom else Strong("LEAVE ALONE")
    if each.fate == fates.INTERCEPTED:
        if _crossed(wiring, each):
            return Strong("PASS CROSSED", f"{by}, to another cavity")
        return Strong("USE BOTH SIDES") if loom else Strong("CUT", "use both sides")
    if each.fate == fates.ONE_END:
        return Strong(f"{cut}USE {'UNIT' if each.unit_to else 'CAR'} SIDE ONLY")
    if each.fate == fates.TAPPED:
        return Strong("PASS AND TAP", by) if loom else Strong("TAP", "do not cut")
    if each.fate == fates.CAPPED:
        return Strong(f"{cut}CAP")
    if each.fate == fates.DEPINNED:
        return Strong("DEPIN")
    if each.fate == fates.OPEN:
        return Strong("NOT DECIDED", "opened, and nothing is said")
    return Strong("nothing", "no wire")


def goes_to(wiring: Wiring, each: CavityFate, half: str) -> Cell:
    """Where one side of a cavity goes: contacts, the unit that sits there, or a word."""
    if each.fate == fates.EMPTY:
        return "empty"
    name = f"{each.plug}.{half}.{each.row.cavity}"
    said = [word for word, table in (("CAP", wiring.job.capped), ("DEPIN", wiring.job.depinned)) if name in table]
    to = each.unit_to if half == "unit" else each.car_to
    other = f"{each.plug}.{'car' if half == 'unit' else 'unit'}.{each.row.cavity}"
    pin = _pin_at(wiring, name)
    lead = _lead_at(wiring, pin) if pin else ""
    joined = tuple(contact for contact in to if contact != other)
    if pin and not lead:  # the pin only carries a wire across: what is joined at the far end shows there
        joined = tuple(contact for contact in joined if wiring.contact(contact).kind == "plug")
    if joined:
        far = "\n".join(_held(each) for each in far_names(wiring, name, joined).split("\n"))
        gap = "\n" if "\n" in far else " "
        lines = [f"{printed(lead)} →{gap}{far}" if lead else far]
    else:
        lines = _lead_fate(wiring, each, half, lead)
    if other in to:
        lines.insert(0, "the other side")
    if said:
        lines.insert(0, " and ".join(said))
    if lines:
        return "\n".join(lines)
    return "nothing" if wiring.fates.opened(each.plug, each.row.cavity) else "the other side, not opened"


def _held(name: str) -> str:
    """A short name kept on one line."""
    return name.replace(" ", "\N{NO-BREAK SPACE}") if len(name) <= _SHORT else name


def _lead_fate(wiring: Wiring, each: CavityFate, half: str, lead: str) -> list[str]:
    """What becomes of the loom's lead at a half of a cavity where it is joined to nothing."""
    loom = wiring.opened.get(each.plug, "")
    pulled = f"{loom}.{half}.{each.row.cavity}"
    if pulled in wiring.job.depinned:
        return [f"{printed(pulled)}: DEPIN"]
    if not lead:
        return []
    fate = next(found.fate for found in wiring.fates.leads(loom) if found.lead.name == lead)
    return [] if fate == fates.PASSED else [f"{printed(lead)}: {LEAD_WORDS.get(fate, fate)}"]


def _pin_at(wiring: Wiring, half: str) -> str:
    """The loom's pin that sits in a half of a cavity, or empty."""
    return next((each.other(half) for each in wiring.planned.conductors(half) if each.kind == PLUGGED), "")


def _lead_at(wiring: Wiring, pin: str) -> str:
    """The flying lead at a loom's pin, or empty where the pin only carries a wire to the other end."""
    loom, end, cavity = pin.split(".", 2)
    for lead in wiring.job.parts.looms[loom].leads:
        if lead.name == pin or (lead.own and (lead.end, lead.cavity) == (end, cavity)):
            return lead.name
    return ""
