"""F25."""

from collections.abc import Callable, Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.meeting import meeting, place_of
from harness.graph.wiring import Wiring

_FEEDS = {
    "battery": "the battery feed",
    "switched": "a switched feed",
    "trigger": "a turn-on wire",
    "light": "a lamp wire",
    "aerial": "an aerial feed",
}


# DIN 72552 numbers for what has a word as well
_ONE_FEED = {"30": "B+", "30a": "B+", "15": "IGN", "15a": "IGN", "75": "ACC", "58": "ILL", "58l": "ILL", "58r": "ILL"}


@check("F25", Severity.STOP, "Two feeds tied together", source="common practice, no source")
def feeds_tied(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: two different feeds of the car (B+, ACC or IGN, AMP-ON, ILL, AERIAL) in one net as planned
    that were not joined as found.

    Why it matters: each keeps the other alive. The radio's small output carries what it was not made for, the car
    does not go to sleep, and pulling a fuse no longer makes the circuit dead.

    Example: the loom's yellow and red leads are twisted together to wake an amplifier.

    What to do: part them; take the one that is wanted, by a relay or a diode where two are needed.

    Known limits: feeds are known by the functions of plugs' cavities; two cavities of one function are no fault.
    A diode can't be written, so two feeds behind diodes are told as well.

    Source: common practice, no source.
    """
    by_net: dict[int, dict[str, str]] = {}
    for name in wiring.contacts_for(*_FEEDS):
        contact = wiring.contact(name)
        if contact.kind == "plug":
            feed = _ONE_FEED.get(contact.function.name.lower(), contact.function.name)
            by_net.setdefault(wiring.planned.net_number(name), {}).setdefault(feed, name)
    for feeds in by_net.values():
        if len(feeds) < 2:
            continue
        start, *others = feeds.values()
        as_found = wiring.found.around(start)
        far = next((other for other in others if other not in as_found), "")
        if not far:
            continue
        met = meeting(wiring, start, far, _same_feed(wiring, start))
        kinds = [_FEEDS.get(wiring.contact(name).function.kind, "a feed") for name in (met.near, far)]
        yield Fault(
            at=Spot(place_of(wiring, met.conductor, met.near), wiring.words(met.at)),
            message=f"{wiring.words(met.near)}, {kinds[0]}, is tied to {wiring.words(far)}, {kinds[1]}: "
            "each keeps the other alive, and neither is dead when its fuse is out.",
            do="Part them; take the one that is wanted.",
            about=(*feeds.values(), *(hop.contact for hop in met.hops)),
            path=wiring.way_in_words(start, met.hops),
        )


def _same_feed(wiring: Wiring, start: str) -> Callable[[str], bool]:
    """Whether a contact is of the feed that `start` is of."""
    function = wiring.contact(start).function.name
    return lambda name: wiring.contact(name).function.name == function
