"""Where a signal comes back to what it was made from."""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from harness.graph.live import outside
from harness.graph.signal import Driver, Feed, Receiver
from harness.graph.wiring import Wiring


class Return(NamedTuple):
    """An output's terminal on an input's wire, and the further units that the signal passes on its round."""

    output: str
    input: str
    units: tuple[str, ...]
    terminals: tuple[str, ...]  # every live terminal of the output and of the input


def returns(wiring: Wiring) -> list[Return]:
    """Each loop once, an output on its own unit's input before loops through several units."""
    direct = _direct(wiring)
    return direct + _through_units(wiring)


def _direct(wiring: Wiring) -> list[Return]:
    signals, number = wiring.signals, wiring.planned.net_number
    receivers = {(r.port.unit, r.port.name): r for r in signals.receivers if r.port is not None}
    made: dict[tuple[str, str], Return] = {}  # a bridge's + is an output's as well
    for driver in signals.drivers:
        unit = wiring.job.parts.units[driver.port.unit]
        route = signals.route(driver)
        inputs = route.inputs if route else () if unit.routes_said else tuple(unit.ports)
        for receiver in (receivers[unit.name, name] for name in inputs if (unit.name, name) in receivers):
            for out, into in _crossed(driver, receiver):
                if number(out) == number(into) and into in outside(wiring, out):
                    ends = (driver.plus, driver.minus, receiver.plus, receiver.minus)
                    made.setdefault((out, into), Return(out, into, (), ends))
                    break
    return list(made.values())


def _crossed(driver: Driver, receiver: Receiver) -> tuple[tuple[str, str], ...]:
    """The − of the output on the − of the input alone returns nothing."""
    return (driver.plus, receiver.plus), (driver.plus, receiver.minus), (driver.minus, receiver.plus)


def _through_units(wiring: Wiring) -> list[Return]:
    """Loops of two or more units, found by walking the feeds once, depth first."""
    signals = wiring.signals
    onward: dict[tuple[str, str], list[Driver]] = defaultdict(list)
    for driver in signals.drivers:
        route = signals.route(driver)
        for name in route.inputs if route else ():
            onward[driver.port.unit, name].append(driver)
    made: list[Return] = []
    seen: set[str] = set()
    for start in signals.drivers:
        if start.name in seen:
            continue
        seen.add(start.name)
        stack = [(start, iter(_next(wiring, start, onward)))]
        line: list[Feed] = []
        while stack:
            step = next(stack[-1][1], None)
            if step is None:
                stack.pop()
                if line:
                    line.pop()
                continue
            feed, other = step
            at = next((k for k, (on, _) in enumerate(stack) if on.name == other.name), None)
            if at is not None:
                made.append(_loop(wiring, [*line[at:], feed]))
            elif other.name not in seen:
                seen.add(other.name)
                line.append(feed)
                stack.append((other, iter(_next(wiring, other, onward))))
    return made


def _next(
    wiring: Wiring, driver: Driver, onward: dict[tuple[str, str], list[Driver]]
) -> list[tuple[Feed, Driver]]:  # fmt: skip
    return [
        (feed, other)
        for feed in wiring.signals.feeds_from(driver)
        if feed.receiver.port is not None
        for other in onward.get((feed.receiver.port.unit, feed.receiver.port.name), ())
    ]


def _loop(wiring: Wiring, feeds: list[Feed]) -> Return:
    """The feed to blame is the one into an input that something else drives too."""
    back = next((f for f in feeds if len(wiring.signals.feeds_into(f.receiver)) > 1), feeds[-1])
    units = tuple(dict.fromkeys(feed.driver.port.unit for feed in feeds))
    terminals = tuple(t for f in feeds for t in (f.driver.plus, f.driver.minus, f.receiver.plus, f.receiver.minus))
    return Return(back.driver.plus, back.entry, units, terminals)
