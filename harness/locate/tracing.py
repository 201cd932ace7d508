"""From the wiring to the circuit: the ways to the speakers asked about, and what their units live on."""

from __future__ import annotations

from collections.abc import Iterable

from harness.graph.grounded_apart import grounded_apart
from harness.graph.signal import Driver, Feed
from harness.graph.wiring import Wiring
from harness.locate import circuit as kinds
from harness.locate.circuit import Circuit, Leg, Loop, Output, Piece, Step
from harness.locate.cutting import Cutting
from harness.locate.lines import Lines
from harness.locate.wires import Pieces, Stretch

_FEW = 24  # speakers that are all looked at, however little they share


def circuit_of(wiring: Wiring, speakers: Iterable[str], units: Iterable[str] = (), *, noise: bool = False) -> Circuit:
    """The circuit for symptoms of these speakers and units (names as the job has them); ground loops where `noise`."""
    return _Tracing(wiring).circuit(tuple(speakers), tuple(units), noise)


class _Tracing:
    def __init__(self, wiring: Wiring) -> None:
        self.wiring = wiring
        self.pieces = Pieces(wiring)
        self.legs: dict[tuple[str, str], Leg] = {}
        self.outputs: dict[str, Output] = {}
        self.cutting = Cutting(wiring, self.pieces)
        self.lines = Lines(wiring, self.pieces, self.cutting)

    def circuit(self, speakers: tuple[str, ...], units: tuple[str, ...], noise: bool) -> Circuit:
        wiring = self.wiring
        beside = self._beside(speakers, units)
        known = wiring.job.parts.speakers
        own = {
            name: self.pieces.add(
                Piece(kinds.SPEAKER, name, frozenset(), f"the speaker {name} itself", known[name].where, False)
            )
            for name in beside
        }
        for receiver in wiring.signals.speaker_receivers:
            if receiver.speaker in own:
                for way in wiring.signals.ways(receiver):
                    for hop in way.hops:
                        self._leg(hop.feed, own)
                        self._output(hop.feed.driver)
        for unit in (*dict.fromkeys(each.unit for each in self.outputs.values()), *units):
            self.lines.add(unit)
        self._wholes()
        loops = tuple(self._loops()) if noise and wiring.job.has_runs else ()
        inputs = self._inputs()
        stages: dict[int, str] = {}  # only what lies between the same two things is ever mixed up
        grounded: set[int] = set()
        for leg in self.legs.values():
            to = "speakers" if leg.speaker else leg.receiver.partition(".")[0]
            for number in (*self.outputs[leg.driver].pieces, *(n for step in leg.steps for n in step.pieces)):
                stages.setdefault(number, f"{self.outputs[leg.driver].unit} > {to}")
                if leg.grounded:
                    grounded.add(number)
        return Circuit(
            tuple(self.pieces.made), tuple(self.legs.values()), self.outputs, inputs, tuple(self.lines.made.values()),
            self.lines.units, own, beside, frozenset(self.lines.unwired), stages, frozenset(grounded), loops,
        )  # fmt: skip

    # -- which speakers matter ---------------------------------------------------------------------------

    def _beside(self, speakers: tuple[str, ...], units: tuple[str, ...]) -> tuple[str, ...]:
        """The speakers named, and all that share a unit or a plug with their ways."""
        signals = self.wiring.signals
        receivers = signals.speaker_receivers
        if len(receivers) <= _FEW:
            return tuple(dict.fromkeys(each.speaker for each in receivers))
        found = dict.fromkeys(speakers)
        passed = set(units)
        plugs: set[str] = set()
        for receiver in receivers:
            if receiver.speaker in found:
                for way in signals.ways(receiver):
                    for hop in way.hops:
                        passed.add(hop.feed.driver.port.unit)
                        plugs |= {
                            self.wiring.contact(step.contact).owner
                            for step in self.wiring.planned.path(hop.feed.driver.plus, hop.feed.entry)
                            if self.wiring.contact(step.contact).kind == "plug"
                        }
        number = self.wiring.planned.net_number
        nets = {
            number(f"{plug}.{half}.{row.cavity}")
            for plug in plugs
            for row in self.wiring.job.parts.plugs[plug].rows
            for half in ("unit", "car")
        }
        row = [each for each in signals.drivers if each.port.unit in passed or number(each.plus) in nets]
        seen = {each.name for each in row}
        for driver in row:
            for feed in signals.feeds_from(driver):
                if feed.receiver.speaker:
                    found[feed.receiver.speaker] = None
                elif feed.receiver.port is not None:
                    port = feed.receiver.port
                    for onward in signals.onward.get((port.unit, port.name), ()):
                        if onward.name not in seen:
                            seen.add(onward.name)
                            row.append(onward)
        order = dict.fromkeys(each.speaker for each in receivers)
        return tuple(name for name in order if name in found)

    # -- signals -----------------------------------------------------------------------------------------

    def _leg(self, feed: Feed, own: dict[str, int]) -> None:
        key = (feed.driver.name, feed.receiver.name)
        if key in self.legs:
            return
        driver, receiver = feed.driver, feed.receiver
        if feed.series:
            self.legs[key] = self._leg_in_line(feed, own)
            return
        planned = self.wiring.planned
        plus_at, plus = self.pieces.stretches(driver.plus, planned.path(driver.plus, feed.entry))
        minus_at, minus = self.pieces.stretches(driver.minus, planned.path(driver.minus, feed.leaving))
        steps = tuple(self._abreast(plus, minus, plus_at, minus_at))
        cuts = self.cutting.cuts
        slack = frozenset(
            number
            for step in steps
            for number in step.pieces
            if not (cuts(driver.plus, feed.entry, number) or cuts(driver.minus, feed.leaving, number))
        )
        ports = [each for each in (driver.port, receiver.port) if each is not None]
        grounded = any(port.signal.form == "grounded" for port in ports)
        start = (plus_at, minus_at)
        self.legs[key] = Leg(driver.name, receiver.name, receiver.speaker, start, steps, slack, grounded=grounded)

    def _leg_in_line(self, feed: Feed, own: dict[str, int]) -> Leg:
        """A speaker in line with others: nothing plays unless the whole loop is closed, so it has no steps of its own.

        The loop is walked from the output's + through each speaker in turn, in at whichever terminal is on this wire.
        """
        number = self.wiring.planned.net_number
        by_name = {each.name: each for each in self.wiring.signals.receivers}
        here, loop = feed.driver.plus, dict[int, None]()
        start = here
        for name in feed.series:
            receiver = by_name[name]
            turned = number(receiver.plus) != number(here)
            near, far = (receiver.minus, receiver.plus) if turned else (receiver.plus, receiver.minus)
            begin, found = self.pieces.stretches(here, self.wiring.planned.path(here, near))
            if here == feed.driver.plus:
                start = begin
            for stretch in found:
                loop.update(dict.fromkeys(self.pieces.of(stretch)))
            if name != feed.receiver.name and receiver.speaker in own:
                loop[own[receiver.speaker]] = None
            here = far
        _, found = self.pieces.stretches(here, self.wiring.planned.path(here, feed.driver.minus))
        for stretch in found:
            loop.update(dict.fromkeys(self.pieces.of(stretch)))
        ends = (start, feed.driver.minus)
        return Leg(feed.driver.name, feed.receiver.name, feed.receiver.speaker, ends, (), loop=tuple(loop))

    def _loops(self) -> Iterable[Loop]:
        """Two units grounded apart: the loop lies on every leg between the two, from its first step on."""
        for each in grounded_apart(self.wiring):
            between = [
                key
                for key, leg in self.legs.items()
                if leg.steps
                and self.outputs[leg.driver].unit == each.giver
                and leg.receiver.partition(".")[0] == each.taker
                and not leg.speaker
            ]
            if not between:
                continue
            one, other = (points[0].removeprefix("gnd.") for points in (each.giver_points, each.taker_points))
            words = f"{each.giver} on ground {one} and {each.taker} on {other}, with the signal cables between"
            where = self.wiring.job.parts.units[each.taker].where
            name = f"{each.giver}>{each.taker}"
            number = self.pieces.add(Piece(kinds.LOOP, name, frozenset(), words, where, True, whole=True))
            for key in between:
                leg = self.legs[key]
                first = leg.steps[0]._replace(pieces=(*leg.steps[0].pieces, number))
                self.legs[key] = leg._replace(steps=(first, *leg.steps[1:]))
            yield Loop(number, each.giver, each.giver_points[0], each.taker, each.taking_ground)

    def _abreast(self, plus: list[Stretch], minus: list[Stretch], plus_at: str, minus_at: str) -> Iterable[Step]:
        """Both wires side by side; where they differ, each stretch is a step of one wire."""
        if len(plus) == len(minus) and all(a.kind == b.kind for a, b in zip(plus, minus, strict=True)):
            for one, other in zip(plus, minus, strict=True):
                yield Step(self.pieces.of(one, other), one.contact, other.contact)
            return
        same = 0
        while same < min(len(plus), len(minus)) and plus[same][:2] == minus[same][:2]:
            one, other = plus[same], minus[same]
            plus_at, minus_at = one.contact, other.contact
            yield Step(self.pieces.of(one, other), plus_at, minus_at)
            same += 1
        # what ends alike is told side by side again; between, one wire after the other
        tail = 0
        while tail < min(len(plus), len(minus)) - same and plus[-1 - tail][:2] == minus[-1 - tail][:2]:
            tail += 1
        for one in plus[same : len(plus) - tail]:
            plus_at = one.contact
            yield Step(self.pieces.of(one), plus_at, minus_at)
        for other in minus[same : len(minus) - tail]:
            minus_at = other.contact
            yield Step(self.pieces.of(other), plus_at, minus_at)
        for one, other in zip(plus[len(plus) - tail :], minus[len(minus) - tail :], strict=True):
            yield Step(self.pieces.of(one, other), one.contact, other.contact)

    def _output(self, driver: Driver) -> None:
        if driver.name in self.outputs:
            return
        wiring = self.wiring
        unit = wiring.job.parts.units[driver.port.unit]
        route = None if unit.is_source else wiring.signals.route(driver)
        inputs = tuple(f"{unit.name}.{name}" for name in route.inputs) if route else ()
        signal = driver.port.signal
        drives = signal.power_w is not None or signal.form == "btl"
        kind = kinds.SOURCE if unit.is_source else kinds.CHANNEL
        through = f" (from {' + '.join(route.inputs)})" if route else ""
        words = f"{unit.name}’s output {driver.name.partition('.')[2]}{through}"
        alike = f"outputs {unit.name} {drives}"
        piece = Piece(kind, driver.name, frozenset(), words, unit.where, not unit.is_source, alike=alike)
        self.outputs[driver.name] = Output(
            driver.name, unit.name, (self.pieces.add(piece),), inputs, driver.port.name, drives, signal.form
        )

    def _inputs(self) -> dict[str, int]:
        """The pieces of inputs that can fail by themselves: more than one output is made from them, or they are one of
        several of an output. Else nothing tells an input from its output, and the output's piece is both.
        """
        used: dict[str, int] = {}  # how many outputs are made from it
        alone: dict[str, bool] = {}  # whether each of them is made from it alone
        for output in self.outputs.values():
            for name in output.inputs:
                used[name] = used.get(name, 0) + 1
                alone[name] = alone.get(name, True) and len(output.inputs) == 1
        return {
            name: self.pieces.add(
                Piece(kinds.INPUT, name, frozenset(), f"{name.replace('.', '’s input ')}",
                      self.wiring.job.parts.units[name.partition(".")[0]].where, True)
            )
            for name, count in used.items()
            if count > 1 or not alone[name]
        }  # fmt: skip

    def _wholes(self) -> None:
        """A plug that isn't home, a joint of several wires: what fails at once though each pair can fail alone."""
        groups: dict[tuple[str, str], list[int]] = {}
        for number, piece in enumerate(self.pieces.made):
            if piece.kind in (kinds.PLUG, kinds.MATED, kinds.JOINT):
                owner = piece.name if piece.kind == kinds.JOINT else piece.name.rpartition(".")[0]
                groups.setdefault((piece.kind, owner), []).append(number)
        inside: dict[int, int] = {}
        for (kind, owner), numbers in groups.items():
            if len(numbers) < 2:
                continue
            first = self.pieces.made[numbers[0]]
            wires = frozenset().union(*(self.pieces.made[number].wires for number in numbers))
            whole = self.pieces.add(
                Piece(
                    kind, f"{owner} whole", wires, "", first.where, first.ours, first.method, whole=True,
                    owner=first.owner, along=first.along,
                )
            )  # fmt: skip
            inside.update(dict.fromkeys(numbers, whole))
        if not inside:
            return

        def grown(steps: tuple[Step, ...]) -> tuple[Step, ...]:
            return tuple(step._replace(pieces=_with(step.pieces, inside)) for step in steps)

        for key, leg in self.legs.items():
            slack = leg.slack | {inside[number] for number in leg.slack if number in inside}
            self.legs[key] = leg._replace(steps=grown(leg.steps), loop=_with(leg.loop, inside), slack=slack)
        for name, line in self.lines.made.items():
            needed = line.needed | {inside[number] for number in line.needed if number in inside}
            self.lines.made[name] = line._replace(steps=grown(line.steps), needed=needed)


def _with(numbers: tuple[int, ...], inside: dict[int, int]) -> tuple[int, ...]:
    return (*numbers, *dict.fromkeys(inside[number] for number in numbers if number in inside))
