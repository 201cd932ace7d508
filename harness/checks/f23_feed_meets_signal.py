"""F23."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.meeting import is_feed, meeting, place_of
from harness.graph.wiring import INPUT, OUTPUT, SPEAKER, Wiring

_WORDS = {
    OUTPUT: "an output that it drives against",
    INPUT: "a signal input",
    SPEAKER: "a speaker, whose coil burns",
    "audio": "a signal wire",
    "data": "a data wire, and the bus stops",
    "mic": "a microphone wire",
    "aerial": "an aerial feed, which the radio gives itself",
    "digital": "a digital audio wire",
}


@check(
    "F23",
    Severity.STOP,
    "Battery, ACC or IGN feed in one net with a signal",
    source="common practice, no source",
)
def feed_meets_signal(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a battery or switched feed in one net with an audio, data, microphone or aerial contact.

    Why it matters: 12 V on an input, an output or a bus destroys what is behind it at the first key-on.

    Example: the loom's yellow B+ lead is joined to the processor's input 1 +.

    What to do: undo the joint named.

    Known limits: a feed on a trigger, mute or illumination wire is not told here.

    Source: common practice, no source.
    """
    looked: set[int] = set()
    for name, contact in wiring.job.contacts.items():
        if not is_feed(wiring, contact):
            continue
        number = wiring.planned.net_number(name)
        if number in looked:
            continue
        looked.add(number)
        net = wiring.planned.nets[number]
        signals = [other for other in net if _is_signal(wiring, other)]
        if not signals:
            continue
        feeds = [other for other in net if is_feed(wiring, wiring.contact(other))]
        start = next((f for f in feeds if wiring.contact(f).kind in ("plug", "battery")), feeds[0])
        wanted = set(signals)
        far = next(other for other in wiring.planned.around(start) if other in wanted)
        met = meeting(wiring, start, far, lambda other: is_feed(wiring, wiring.contact(other)))
        through = f" through {wiring.words(met.at)}" if met.at != met.near else ""
        what = _WORDS[wiring.role(far)]
        yield Fault(
            at=Spot(place_of(wiring, met.conductor, met.near), wiring.words(met.at)),
            message=f"{wiring.words(met.near)} is joined to {wiring.words(far)}{through}: 12 V on {what}.",
            do=f"Part {wiring.words(met.at)} from {wiring.words(far)} before anything is powered.",
            about=(*feeds, *signals),
            path=wiring.way_in_words(start, met.hops),
        )


def _is_signal(wiring: Wiring, name: str) -> bool:
    return wiring.role(name) in _WORDS and wiring.contact(name).kind != "run"
