"""C11."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.electrical.levels import nulls_hz, overlap
from harness.finding import Severity, Spot
from harness.graph.levels import band_of_way, delay_of_way
from harness.graph.signal import Way
from harness.graph.wiring import Wiring

_MOST_WAYS = 4


@check(
    "C11",
    Severity.FIX,
    "Signals summed that are a delay apart",
    source="(2k + 1)/(2 delay), any acoustics text",
    by_joints=False,
    needs="sums",
)
def unlike_signals_summed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: inputs that a route sums, whose signals have different delays and play the same band.

    Why it matters: at some frequencies they cancel. No equaliser fills such holes, and the ear hears a comb.

    Example: a factory amplifier's tweeter output, 0.9 ms late, summed with its midrange, both playing at 3 kHz.

    What to do: undo the delay of the earlier signal first, or take one that carries the whole band.

    Known limits: delays and bands are known where they are written at outputs and routes. Levels aren't compared, so
    that the depth of the holes isn't told.

    Source: equal signals a delay apart cancel at (2k + 1)/(2 delay), any acoustics text.
    """
    signals = wiring.signals
    for driver in signals.drivers:
        route = signals.route(driver)
        if route is None or len(route.inputs) < 2 or "/" in driver.name:
            continue
        ways: list[tuple[str, Way]] = []
        for name in route.inputs:
            receiver = signals.receiver(driver.port.unit, name)
            ways += [(name, way) for way in (signals.ways(receiver, _MOST_WAYS) if receiver is not None else ())]
        told = _worst(ways)
        if told is None:
            continue
        one, other, late_s, holes, band = told
        where = " and ".join(f"{hz:.0f}" for hz in holes[:3])
        yield Fault(
            at=Spot(route.place, f"{driver.port.unit} {driver.port.name}"),
            message=f"{driver.port.unit} {other} runs {late_s * 1e3:g} ms behind {one} and both play {band[0]:.0f} to "
            f"{band[1]:.0f} Hz: their sum has holes at {where} Hz.",
            do=f"Undo the delay first: {late_s * 1e3:g} ms on {one}; or take a signal that carries the whole band.",
            about=(driver.plus, driver.minus),
            path=_path(wiring, ways, other),
        )


_Told = tuple[str, str, float, tuple[float, ...], tuple[float, float]]


def _worst(ways: list[tuple[str, Way]]) -> _Told | None:
    """The pair of inputs with the most holes: the earlier, the later, how late, the holes, the band they share."""
    best: _Told | None = None
    for at, (one, way) in enumerate(ways):
        for other, later in ways[at + 1 :]:
            if one == other:
                continue
            bands = band_of_way(way), band_of_way(later)
            apart = delay_of_way(later) - delay_of_way(way)
            if bands[0] is None or bands[1] is None or (shared := overlap(bands[0], bands[1])) is None:
                continue
            holes = nulls_hz(abs(apart), *shared)
            if holes and (best is None or len(holes) > len(best[3])):
                first, second = (one, other) if apart > 0 else (other, one)
                best = (first, second, round(abs(apart), 9), holes, shared)
    return best


def _path(wiring: Wiring, ways: list[tuple[str, Way]], name: str) -> tuple[str, ...]:
    """From the source to the later input."""
    way = next(way for each, way in ways if each == name)
    feed = way.hops[-1].feed
    return wiring.way_in_words(feed.driver.plus, wiring.planned.path(feed.driver.plus, feed.entry))
