"""C11."""

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

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
    that the depth of the holes isn't told. Of what is summed into one input, four signals are looked at.

    Source: equal signals a delay apart cancel at (2k + 1)/(2 delay), any acoustics text.
    """
    signals = wiring.signals
    for driver in signals.drivers:
        route = signals.route(driver)
        if route is None or "/" in driver.name:
            continue
        ways: list[tuple[str, Way]] = []
        for name, receiver in zip(route.inputs, signals.inputs_of(driver), strict=True):
            ways += [(name, way) for way in signals.ways(receiver, _MOST_WAYS)]
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


class _Told(NamedTuple):
    earlier: str
    later: str
    late_s: float
    holes: tuple[float, ...]
    band: tuple[float, float]


def _worst(ways: list[tuple[str, Way]]) -> _Told | None:
    """The pair of inputs with the most holes: the earlier, the later, how late, the holes, the band they share."""
    best: _Told | None = None
    for (one, way), (other, later) in combinations(ways, 2):
        here, there = band_of_way(way), band_of_way(later)
        if one == other or here is None or there is None or (shared := overlap(here, there)) is None:
            continue
        apart = delay_of_way(later) - delay_of_way(way)
        holes = nulls_hz(abs(apart), *shared)
        if holes and (best is None or len(holes) > len(best.holes)):
            first, second = (one, other) if apart > 0 else (other, one)
            best = _Told(first, second, round(abs(apart), 9), holes, shared)
    return best


def _path(wiring: Wiring, ways: list[tuple[str, Way]], name: str) -> tuple[str, ...]:
    """From the source to the later input."""
    way = next(way for each, way in ways if each == name)
    feed = way.hops[-1].feed
    return wiring.way_in_words(feed.driver.plus, wiring.planned.path(feed.driver.plus, feed.entry))
