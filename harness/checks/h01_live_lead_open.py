"""H01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.fates import LOOSE
from harness.graph.wiring import OUTPUT, Wiring

_LIVE_KINDS = ("battery", "switched", "light", "trigger", "aerial")


def live_source(wiring: Wiring, lead: str) -> str:
    """The contact that makes a lead live: a feed of the car or an output; empty where there is none."""
    for name in wiring.planned.around(lead):
        if name == lead:
            continue
        contact = wiring.contact(name)
        if wiring.role(name) == OUTPUT or (
            contact.kind in ("plug", "battery") and contact.function.kind in _LIVE_KINDS
        ):
            return name
    return ""


@check("H01", Severity.STOP, "Live lead left open", source="FCS 1362:2010 4.5.1.2, as quoted in the trade, seen 2026")
def live_lead_open(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a lead joined to nothing, neither capped nor depinned, whose other end is live.

    Why it matters: the bare end finds metal behind the radio; at best a fuse goes, at worst the loom burns
    or an output stage fails.

    Example: a loom's illumination lead is not needed and hangs open beside the radio.

    What to do: cap it (heat shrink or a closed end over the whole end), or depin it at the plug.

    Known limits: what is live is known from the chart's functions and from the units' outputs.

    Source: FCS 1362:2010 section 4.5.1.2 asks for unused connections to be fully insulated.
    """
    owners = [*wiring.job.parts.looms, *wiring.job.parts.units]
    for owner in owners:
        if owner in wiring.gone:
            continue
        for each in wiring.fates.leads(owner):
            if each.fate != LOOSE:
                continue
            source = live_source(wiring, each.lead.name)
            if not source:
                continue
            words = wiring.words(each.lead.name)
            yield Fault(
                at=Spot(each.lead.place, words),
                message=f"{words} is joined to nothing and live from {wiring.words(source)}: a bare end will find metal.",
                do=f"Cap it (`capped: [{each.lead.name}]`) or depin it (`depinned: [{each.lead.name}]`).",
                about=(each.lead.name,),
                path=wiring.way_in_words(source, wiring.planned.path(source, each.lead.name)),
            )
