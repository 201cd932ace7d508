"""C10."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.electrical.bands import Band, overlap
from harness.finding import Severity, Spot
from harness.graph.levels import AUDIBLE, band_of_way
from harness.graph.signal import Receiver, Signals, Way
from harness.graph.volume import ours
from harness.graph.wiring import Wiring
from harness.model.contact import printed

# An octave: what a crossover moved a little may miss.
_OCTAVE = 2.0


@check("C10", Severity.FIX, "Band-limited signal used for more", source="common practice, no source", by_joints=False)
def band_limited_as_full_range(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker whose output plays a band that the signal behind it doesn't carry, by more than an
    octave, though it got that band as found or is new.

    Why it matters: what isn't in the signal can't be turned up. The tweeter or the bass is simply missing.

    Example: a factory amplifier's midrange output of 100 Hz to 3 kHz feeds a new full-range door speaker.

    What to do: sum the outputs that make the whole band, or take the signal before the crossover.

    Known limits: bands are known where they are written at outputs and routes. What a speaker wants is the band of
    the output that drives it, and of the crossovers that units of ours have on the way to it; for a tweeter nothing
    below 2 kHz is asked for, for a subwoofer nothing above 80 Hz.

    Source: common practice, no source.
    """
    signals = wiring.signals
    for receiver in signals.speaker_receivers:
        ways = signals.ways(receiver)
        if not ways:
            continue
        got = _union([band for way in ways if (band := band_of_way(way)) is not None])
        wanted = _wanted(wiring, receiver, ways)
        before = _union(
            [band for way in _found_ways(wiring.found_signals, receiver) if (band := band_of_way(way)) is not None]
        )
        speaker = wiring.job.parts.speakers[receiver.speaker]
        if before is not None and not speaker.new:
            wanted = max(wanted[0], before[0]), min(wanted[1], before[1])
        if got is None:
            yield _fault(wiring, receiver, ways[0], "nothing of what its output plays")
            continue
        low, high = got[0] > wanted[0] * _OCTAVE, got[1] < wanted[1] / _OCTAVE
        if not (low or high):
            continue
        below, above = min(got[0], wanted[1]), max(got[1], wanted[0])
        missing = " and ".join([f"{wanted[0]:g} to {below:g} Hz"] * low + [f"{above:g} to {wanted[1]:g} Hz"] * high)
        yield _fault(wiring, receiver, ways[0], f"{got[0]:g} to {got[1]:g} Hz", missing)


def _fault(wiring: Wiring, receiver: Receiver, way: Way, got: str, missing: str = "") -> Fault:
    source = way.source
    name = printed(receiver.speaker)
    return Fault(
        at=Spot(way.hops[-1].feed.driver.port.place, f"speaker {name}"),
        message=f"{name} gets {got} from {source.name.replace('.', ' ')}"
        + (f", and {missing} is missing." if missing else ": it stays silent."),
        do="Sum the outputs that make the whole band, or take the signal before the crossover.",
        about=(receiver.plus, receiver.minus, source.plus, source.minus),
        path=_path(wiring, way),
    )


def _wanted(wiring: Wiring, receiver: Receiver, ways: list[Way]) -> Band:
    """The band that the speaker is meant to play: that of the last output and of our crossovers before it, within what
    its driver is for.
    """
    last = ways[0].hops[-1].feed.driver
    route = wiring.signals.route(last)
    signals = [last.port.signal, *([route.signal] if route is not None else [])]
    low = max(signal.low_hz or AUDIBLE[0] for signal in signals)
    high = min(signal.high_hz or AUDIBLE[1] for signal in signals)
    function = wiring.job.parts.speakers[receiver.speaker].function
    if function.driver == "TW":
        low = max(low, 2000.0)
    if function.driver in ("MID", "WF"):
        low, high = max(low, 100.0), min(high, 3000.0)
    if function.channel == "SUB":
        high = min(high, 80.0)
    wanted = low, max(high, low)
    # A high-pass in a processor of ours is meant, also where another amplifier stands behind it. One that leaves
    # nothing of what the driver is for is a slip, and takes nothing off what is wanted.
    meant = _union([band for way in ways if (band := _crossed_over(wiring, way)) is not None])
    return (overlap(wanted, meant) if meant is not None else None) or wanted


def _crossed_over(wiring: Wiring, way: Way) -> Band | None:
    """What the routes in units of ours are set to let through on a way; the car's own are nobody's choice."""
    left: Band | None = AUDIBLE
    for hop in way.hops:
        if hop.route is not None and ours(wiring, hop.feed.receiver) and left is not None:
            left = overlap(left, (hop.route.signal.low_hz or AUDIBLE[0], hop.route.signal.high_hz or AUDIBLE[1]))
    return left


def _found_ways(signals: Signals, receiver: Receiver) -> list[Way]:
    return signals.ways(receiver)


def _union(bands: list[Band]) -> Band | None:
    return (min(low for low, _ in bands), max(high for _, high in bands)) if bands else None


def _path(wiring: Wiring, way: Way) -> tuple[str, ...]:
    """The longest stretch by wire on the way."""
    wires = [(hop.feed.driver.plus, hop.feed.entry) for hop in way.hops]
    return max((wiring.way_in_words(start, wiring.planned.path(start, end)) for start, end in wires), key=len)
