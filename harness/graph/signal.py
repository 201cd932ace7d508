"""The signal graph: from an output through joints, looms and units to a speaker, with polarity on the way."""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from harness.graph.bonded import passed_on
from harness.graph.once import once
from harness.graph.state import State
from harness.model.job import Job
from harness.model.parts import Port, Route, Signal


class Receiver(NamedTuple):
    """Two contacts that take a signal: a unit's input, or a speaker (or one coil of it)."""

    name: str  # dsp.in1, spk.FL, spk.SUB.c1
    plus: str
    minus: str
    port: Port | None  # None for a speaker
    speaker: str = ""


class Driver(NamedTuple):
    """Two contacts that give a signal: a unit's output, or a bridge of two outputs."""

    name: str  # radio.FL, bass.out1+/out2-
    plus: str
    minus: str
    port: Port


class Feed(NamedTuple):
    """A driver that reaches a receiver by wire. `turned`: its + comes to the receiver's −."""

    driver: Driver
    receiver: Receiver
    turned: bool
    series: tuple[str, ...] = ()  # other speakers in line

    @property
    def entry(self) -> str:
        """The receiver's contact that the driver's + comes to."""
        return self.receiver.minus if self.turned else self.receiver.plus

    @property
    def leaving(self) -> str:
        """The receiver's other contact: in a series line the next speaker hangs on it."""
        return self.receiver.plus if self.turned else self.receiver.minus


class Hop(NamedTuple):
    """One stage of a way: the feed by wire, then the route inside the unit that takes it (None at a speaker)."""

    feed: Feed
    route: Route | None


class Way(NamedTuple):
    """How a source reaches a receiver: all its hops, source first."""

    hops: tuple[Hop, ...]

    @property
    def source(self) -> Driver:
        return self.hops[0].feed.driver

    @property
    def turned(self) -> bool:
        """Whether + arrives on −, routes that turn the signal round counted."""
        wires = sum(hop.feed.turned for hop in self.hops)
        return (wires + sum(hop.route is not None and hop.route.inverted for hop in self.hops)) % 2 == 1


_MOST_WAYS = 32
_MOST_IN_LINE = 8


class Signals:
    """The signal graph of one state of a job."""

    def __init__(self, job: Job, state: State, gone: frozenset[str]) -> None:
        self.job, self.state = job, state
        self.drivers: list[Driver] = []
        self.receivers: list[Receiver] = []
        self.by_plus: dict[str, Driver] = {}
        self._routes: dict[tuple[str, str], Route] = {}
        self._receiver_of_port: dict[tuple[str, str], Receiver] = {}
        self._ways: dict[str, list[Way]] = {}
        for unit in job.parts.units.values():
            if unit.name in gone:
                continue
            passed = passed_on(unit)
            for port in unit.ports.values():
                if port.name in passed:
                    continue  # what drives the input drives what hangs on it
                if port.way == "out":
                    driver = Driver(f"{unit.name}.{port.name}", port.plus, port.minus, port)
                    self.drivers.append(driver)
                    self.by_plus[port.plus] = driver
                else:
                    receiver = Receiver(f"{unit.name}.{port.name}", port.plus, port.minus, port)
                    self.receivers.append(receiver)
                    self._receiver_of_port[unit.name, port.name] = receiver
            for plus, minus in unit.bridges:
                lead = unit.ports[plus.rstrip("+-")]
                self.drivers.append(
                    Driver(f"{unit.name}.{plus}/{minus}", f"{unit.name}.{plus}", f"{unit.name}.{minus}", lead)
                )
            for route in routes_of(unit.name, job):
                self._routes[unit.name, route.output] = route
        for speaker in job.parts.speakers.values():
            terminals = speaker.terminals()
            for at in range(0, len(terminals), 2):
                plus, minus = terminals[at], terminals[at + 1]
                self.receivers.append(Receiver(plus.rstrip("+"), plus, minus, None, speaker.name))

    def route(self, driver: Driver) -> Route | None:
        """What the unit sends to this output inside; None where nothing is routed to it."""
        return self._routes.get((driver.port.unit, driver.port.name))

    def inputs_of(self, driver: Driver) -> list[Receiver]:
        """The inputs that an output is made from inside its unit."""
        route = self.route(driver)
        return [self._receiver_of_port[driver.port.unit, name] for name in route.inputs] if route is not None else []

    def receiver(self, unit: str, port: str) -> Receiver | None:
        """The input of a unit by its name, or None where it has none of that name or is gone."""
        return self._receiver_of_port.get((unit, port))

    def _returns(self, driver: Driver, receiver: Receiver) -> bool:
        """An output on an input that it is made from is a fault of its own, not a feed."""
        if receiver.port is None or receiver.port.unit != driver.port.unit:
            return False
        route = self.route(driver)
        if route is None:
            return not self.job.parts.units[driver.port.unit].routes_said
        return receiver.port.name in route.inputs

    @once
    def feeds(self) -> list[Feed]:
        """Every driver-receiver connection by wire that has both its wires."""
        number = self.state.net_number
        at: dict[tuple[int, int], list[Receiver]] = defaultdict(list)
        touching: dict[int, list[Receiver]] = defaultdict(list)
        for receiver in self.receivers:
            plus, minus = number(receiver.plus), number(receiver.minus)
            at[plus, minus].append(receiver)
            touching[plus].append(receiver)
            touching[minus].append(receiver)
        feeds: list[Feed] = []
        for driver in self.drivers:
            plus, minus = number(driver.plus), number(driver.minus)
            if plus == minus:
                continue  # its own two wires meet: nothing goes out
            straight, turned = at.get((plus, minus), ()), at.get((minus, plus), ())
            feeds += [Feed(driver, receiver, False) for receiver in straight if not self._returns(driver, receiver)]
            feeds += [Feed(driver, receiver, True) for receiver in turned if not self._returns(driver, receiver)]
            feeds += self._in_series(driver, plus, minus, touching)
        return feeds

    def _in_series(
        self, driver: Driver, plus: int, minus: int, touching: dict[int, list[Receiver]]
    ) -> list[Feed]:  # fmt: skip
        """Speakers in line between the driver's two nets, found by walking speaker by speaker."""
        number = self.state.net_number
        found: list[Feed] = []

        def walk(net: int, line: tuple[tuple[Receiver, bool], ...]) -> None:
            for receiver in touching.get(net, ()):
                if receiver.port is not None or any(receiver == done for done, _ in line):
                    continue
                a, b = number(receiver.plus), number(receiver.minus)
                if a == b:
                    continue
                turned = a != net
                far = a if turned else b
                grown = (*line, (receiver, turned))
                if far == minus:
                    if line:  # one alone is no line
                        names = tuple(r.name for r, _ in grown)
                        found.extend(Feed(driver, r, each, names) for r, each in grown)
                elif far not in self._driven and len(grown) < _MOST_IN_LINE:
                    walk(far, grown)

        walk(plus, ())
        return found

    @once
    def inputs_at(self) -> dict[int, list[Receiver]]:
        """Units' inputs by the nets of their two wires."""
        number = self.state.net_number
        at: dict[int, list[Receiver]] = defaultdict(list)
        for receiver in self.receivers:
            if receiver.port is not None:
                at[number(receiver.plus)].append(receiver)
                at[number(receiver.minus)].append(receiver)
        return at

    @once
    def onward(self) -> dict[tuple[str, str], list[Driver]]:
        """(unit, input) -> the outputs made from it; from all inputs where no route is written at all."""
        made: dict[tuple[str, str], list[Driver]] = defaultdict(list)
        for driver in self.drivers:
            unit = self.job.parts.units[driver.port.unit]
            route = self.route(driver)
            for name in route.inputs if route else () if unit.routes_said else tuple(unit.ports):
                made[unit.name, name].append(driver)
        return made

    @once
    def _driven(self) -> set[int]:
        """The nets of all outputs."""
        number = self.state.net_number
        return {number(d.plus) for d in self.drivers} | {number(d.minus) for d in self.drivers}

    @once
    def _into(self) -> dict[str, list[Feed]]:
        into: dict[str, list[Feed]] = defaultdict(list)
        for feed in self.feeds:
            into[feed.receiver.name].append(feed)
        return into

    @once
    def _out_of(self) -> dict[str, list[Feed]]:
        out: dict[str, list[Feed]] = defaultdict(list)
        for feed in self.feeds:
            out[feed.driver.name].append(feed)
        return out

    def feeds_into(self, receiver: Receiver) -> list[Feed]:
        return self._into.get(receiver.name, [])

    def feeds_from(self, driver: Driver) -> list[Feed]:
        return self._out_of.get(driver.name, [])

    def ways(self, receiver: Receiver, most: int = _MOST_WAYS) -> list[Way]:
        """Every way from a source to a receiver, at most `most` of 32; a loop through units is walked once."""
        ways = self._ways.get(receiver.name)
        if ways is None:
            ways = self._ways[receiver.name] = []
            self._back(ways, receiver, None, (), frozenset())
        return ways[:most]

    def _back(
        self, ways: list[Way], at: Receiver, through: Route | None, tail: tuple[Hop, ...], seen: frozenset[str]
    ) -> None:
        """Adds the ways from a source to `at`, which the signal leaves `through` a unit on the way `tail`."""
        for feed in self.feeds_into(at):
            if len(ways) >= _MOST_WAYS or feed.driver.name in seen:
                continue
            hops = (Hop(feed, through), *tail)
            unit = self.job.parts.units[feed.driver.port.unit]
            if unit.is_source:
                ways.append(Way(hops))
                continue
            route = self.route(feed.driver)
            for source in self.inputs_of(feed.driver):
                self._back(ways, source, route, hops, seen | {feed.driver.name})

    def dead_ends(self, receiver: Receiver) -> list[tuple[Driver, str]]:
        """Drivers that lead to a receiver without any source behind them, and why the way stops there."""
        ends: list[tuple[Driver, str]] = []

        def back(at: Receiver, seen: frozenset[str]) -> None:
            for feed in self.feeds_into(at):
                unit = self.job.parts.units[feed.driver.port.unit]
                if unit.is_source or feed.driver.name in seen:
                    continue
                route = self.route(feed.driver)
                if route is None:
                    ends.append((feed.driver, "nothing is routed to it"))
                    continue
                for source in self.inputs_of(feed.driver):
                    if self.feeds_into(source):
                        back(source, seen | {feed.driver.name})
                    else:
                        ends.append((feed.driver, f"{source.name.replace('.', ' ')} gets no signal"))

        back(receiver, frozenset())
        return ends

    @once
    def speaker_receivers(self) -> list[Receiver]:
        return [receiver for receiver in self.receivers if receiver.port is None]


def _numbered(name: str, number: str) -> bool:
    """Whether a port's name is letters and exactly this number: in1, rca1."""
    return name.endswith(number) and not name[: -len(number)][-1:].isdigit()


def routes_of(unit_name: str, job: Job) -> list[Route]:
    """A unit's routes as said; where none are said, each output is taken from the input of its number."""
    unit = job.parts.units[unit_name]
    if unit.routes_said:
        return list(unit.routes)
    made = []
    inputs = [port.name for port in unit.ports.values() if port.way == "in"]
    if not inputs:
        return []
    for port in unit.ports.values():
        if port.way != "out":
            continue
        number = port.name.lstrip("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ-_")
        twins = [name for name in inputs if number and _numbered(name, number)]
        if len(twins) == 1:
            made.append(Route(port.name, (twins[0],), False, Signal(), port.place))
    return made
