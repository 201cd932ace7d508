"""H01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.feeding import live_source
from harness.graph.loose import loose_ends
from harness.graph.wiring import OUTPUT, Wiring


@check("H01", Severity.STOP, "Live lead left open", source="FCS 1362:2010 4.5.1.2, as quoted in the trade, seen 2026")
def live_lead_open(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a lead or a cut end joined to nothing, neither capped nor depinned, that is live.

    Why it matters: the bare end finds metal behind the radio; at best a fuse goes, at worst the loom burns
    or an output stage fails.

    Example: a loom's illumination lead is not needed and hangs open beside the radio.

    What to do: cap it (heat shrink or a closed end over the whole end), or depin it at the plug.

    Known limits: what is live is known from the chart's functions, from which unit sits on which half of the
    plug, and from the units' outputs.

    Source: FCS 1362:2010 section 4.5.1.2 asks for unused connections to be fully insulated.
    """
    for end in loose_ends(wiring):
        sources = {name: live_source(wiring, name) for name in end.contacts}
        live = [name for name, source in sources.items() if source]
        if not live:
            continue
        words, source = wiring.words(live[0]), sources[live[0]]
        others = f" (and {len(live) - 1} more of this row)" if len(live) > 1 else ""
        own = "a live output" if wiring.role(source) == OUTPUT else "live of itself"
        live_from = own if source == live[0] else f"live from {wiring.words(source)}"
        depin = "" if end.cut else f" or depin it (`depinned: [{', '.join(live)}]`)"
        yield Fault(
            at=Spot(end.place, words),
            message=f"{words}{others} is joined to nothing and {live_from}: a bare end finds metal.",
            do=f"Cap it (`capped: [{', '.join(live)}]`){depin}.",
            about=tuple(live),
            path=wiring.way_in_words(source, wiring.planned.path(source, live[0])),
        )
