"""Every test that may be made for some symptoms on some circuit, the forbidden ones left out."""

from __future__ import annotations

from collections.abc import Iterator

from harness.graph.wiring import Wiring
from harness.locate import circuit as kinds
from harness.locate import tests as t
from harness.locate.access import Access
from harness.locate.circuit import Circuit, Leg
from harness.locate.forbidden import Forbidden
from harness.locate.symptoms import FAINT, INTERMITTENT, NOISE, PROTECTS, REVERSED, SILENT, STAYS_ON, WRONG, Symptom
from harness.locate.tests import Test

# Minutes of the test itself, and what its danger adds. Common practice, no source.
_TAKES = {
    t.SIGNAL: (2.0, 0.0), t.HOLD: (2.0, 0.5), t.OHMS: (2.0, 0.5), t.CLEAR: (2.0, 0.5),
    t.SWAP_IN: (3.0, 0.5), t.SWAP_OUT: (3.0, 1.0),
    t.CLIP: (3.0, 0.5), t.DC: (1.0, 0.5), t.DROP: (1.5, 0.0), t.FUSE: (1.0, 0.0), t.WIGGLE: (2.0, 0.0),
    t.MUTE: (2.0, 0.0), t.FEED: (3.0, 0.5), t.ONE: (8.0, 0.5), t.ENGINE: (1.0, 0.0),
    t.OFF: (2.0, 0.5), t.STILL: (1.0, 0.0),
    t.ALL_OFF: (2.5, 0.5), t.LOOK: (0.5, 0.0), t.COOL: (20.0, 0.0), t.OFFSET: (3.0, 0.5), t.SAG: (2.0, 0.5),
}  # fmt: skip
_WATCHED_MIN = 8.0  # until what comes and goes has gone once
_LONG_MIN = 8.0  # a temporary pair laid past a wire
_UNFUSED = 2.0  # danger of a probe before the first fuse
_CLIPPED = frozenset((kinds.JOINT, kinds.PLUG, kinds.MATED, kinds.LEAD, kinds.WIRE, kinds.RUN))
PARTED = frozenset((kinds.PLUG, kinds.MATED))


class Proposals:
    """Lists the tests for symptoms; the same list each time."""

    def __init__(self, wiring: Wiring, circuit: Circuit) -> None:
        self.wiring, self.circuit = wiring, circuit
        self.access = Access(wiring)
        self.forbidden = Forbidden(wiring)
        self._listened: dict[int, str] = {}

    def tests(self, symptoms: tuple[Symptom, ...]) -> list[Test]:
        """All that are allowed, in the order of the ways."""
        words = {each.word for each in symptoms}
        if STAYS_ON in words:
            return list(self._off({each.subject for each in symptoms}))
        speakers = {each.subject for each in symptoms}
        legs = self._ways(speakers)
        self._listened = self._heard_by(legs, [each.subject for each in symptoms])
        made: list[Test] = []
        if PROTECTS in words:
            return [*(test for number in legs for test in self._apart(number)), *self._by_itself(legs)]
        for number in legs:
            made += self._points(number, words)
        made += self._beside(legs)
        if words & {SILENT, FAINT, INTERMITTENT}:
            for number in legs:
                made += self._ohms(number)
                made += self._past(number)
        if not words & {WRONG, REVERSED}:
            for number in legs:
                made += self._swaps(number, legs, speakers)
        if words & {SILENT, INTERMITTENT}:
            made += self._supply({self.circuit.outputs[self.circuit.legs[number].driver].unit for number in legs})
        if NOISE in words:
            made += self._noise(legs)
        if INTERMITTENT in words:
            made = [self._watched(each) for each in made] + list(self._wiggles(legs))
        return made

    def _ways(self, speakers: set[str]) -> list[int]:
        """The legs that lead to these speakers, in the order of the circuit."""
        wanted: set[str] = set()
        row = [leg.receiver for leg in self.circuit.legs if leg.speaker in speakers]
        for receiver in row:
            if receiver not in wanted:
                wanted.add(receiver)
                for leg in self.circuit.legs:
                    if leg.receiver == receiver:
                        row += self.circuit.outputs[leg.driver].inputs
        return [number for number, leg in enumerate(self.circuit.legs) if leg.receiver in wanted]

    def _heard_by(self, legs: list[int], speakers: list[str]) -> dict[int, str]:
        """For each leg the first of the speakers that it leads to."""
        made: dict[int, str] = {}
        for speaker in speakers:
            for number in self._ways({speaker}):
                made.setdefault(number, speaker)
        return {number: made[number] for number in legs}

    def _made(
        self, test: Test, also: tuple[str, ...] = (), *, more_min: float = 0.0, risk: float = 0.0
    ) -> Iterator[Test]:
        """The test with its cost, unless one of its contacts (or of `also`) or the place of one is forbidden."""
        contacts = [name for name in (test.plus, test.minus, *also) if name]
        if any(map(self.forbidden.contact, contacts)):
            return
        if self.forbidden.places and any(self.forbidden.place(self.access.at(name)[0]) for name in contacts):
            return
        where, reach_min = self.access.at(test.plus)
        minutes, danger = _TAKES[test.kind]
        yield test._replace(where=where, reach_min=reach_min, minutes=minutes + more_min, risk=danger + risk)

    def _points(self, number: int, words: set[str]) -> Iterator[Test]:
        """What arrives at each contact of a leg that a person can get at."""
        leg = self.circuit.legs[number]
        if leg.loop:
            yield from self._made(Test(t.SIGNAL, number, 0, *leg.start, speaker=self._listened[number]))
            return
        for at in range(len(leg.steps) + 1):
            plus, minus = (leg.steps[at - 1].plus, leg.steps[at - 1].minus) if at else leg.start
            if self._within_a_run(plus) or self._within_a_run(minus):
                continue
            yield from self._made(Test(t.SIGNAL, number, at, plus, minus, speaker=self._listened[number]))
        output = self.circuit.outputs[leg.driver]
        if output.power and words & {SILENT, FAINT} and self._is_terminal(leg.start[0]):
            yield from self._made(Test(t.HOLD, number, 0, *leg.start))

    def _beside(self, legs: list[int]) -> Iterator[Test]:
        """Other outputs made from the same inputs: they tell an input from an output of a unit."""
        inputs = {name for number in legs for name in self.circuit.outputs[self.circuit.legs[number].driver].inputs}
        seen = {self.circuit.legs[number].driver for number in legs}
        for number, leg in enumerate(self.circuit.legs):
            if leg.driver not in seen and inputs & set(self.circuit.outputs[leg.driver].inputs):
                seen.add(leg.driver)
                yield from self._made(Test(t.SIGNAL, number, 0, *leg.start))

    def _within_a_run(self, name: str) -> bool:
        return bool(name) and not name.endswith(kinds.PIN) and self.wiring.contact(name).kind == "run"

    def _is_terminal(self, name: str) -> bool:
        return not name.endswith(kinds.PIN) and self.wiring.contact(name).kind == "unit"

    def _ohms(self, number: int) -> Iterator[Test]:
        """Only where it can be parted, behind the last unit, and toward speakers that pass DC."""
        leg = self.circuit.legs[number]
        if not leg.speaker or leg.loop or not self.circuit.outputs[leg.driver].power:
            return
        speakers = self.wiring.job.parts.speakers
        reached = [each for each in self.circuit.legs if each.driver == leg.driver]
        if any(each.loop or not each.speaker or speakers[each.speaker].capacitor for each in reached):
            return
        if self._is_terminal(leg.start[0]):
            yield from self._made(Test(t.OHMS, number, 0, *leg.start))
        for at, step in enumerate(leg.steps, 1):
            if self.circuit.pieces[step.pieces[0]].kind in PARTED:
                yield from self._made(Test(t.OHMS, number, at, step.plus, step.minus))

    def _apart(self, number: int) -> Iterator[Test]:
        """Of what protects: nothing is played into what may be a short but a known-good speaker with the leads off."""
        leg = self.circuit.legs[number]
        if self.circuit.outputs[leg.driver].power and not leg.loop and self._is_terminal(leg.start[0]):
            yield from self._made(Test(t.HOLD, number, 0, *leg.start))
        yield from self._ohms(number)
        yield from self._clear(number)

    def _by_itself(self, legs: list[int]) -> Iterator[Test]:
        """Of what protects: what a unit does without its leads, and whether it gets its volts. Its leads stay off."""
        units: set[str] = set()
        for number in legs:
            leg = self.circuit.legs[number]
            output = self.circuit.outputs[leg.driver]
            own = self.circuit.pieces[output.pieces[0]].kind == kinds.CHANNEL
            if not own or not output.power or not self._is_terminal(leg.start[0]):
                continue
            if output.unit not in units:
                units.add(output.unit)
                also = self._ends_of(output.unit)
                yield from self._made(Test(t.LOOK, number, 0, *leg.start))
                yield from self._made(Test(t.ALL_OFF, number, 0, *leg.start), also)
                yield from self._made(Test(t.OFFSET, number, 0, *leg.start), also)
                yield from self._made(Test(t.COOL, number, 0, *leg.start), also)
        for number, line in enumerate(self.circuit.lines):
            if line.unit not in units or line.kind == "turn-on":
                continue
            fused = False
            for at, step in enumerate(line.steps, 1):
                fused = fused or self.circuit.pieces[step.pieces[0]].kind == kinds.FUSE
                if line.kind == "ground":
                    yield from self._made(Test(t.DROP, at=at, plus=step.plus, line=number))
                else:
                    risk = 0.0 if fused else _UNFUSED
                    yield from self._made(Test(t.SAG, at=at, plus=step.plus, line=number), risk=risk)

    def _ends_of(self, unit: str) -> tuple[str, ...]:
        """The contacts of all of a unit's outputs that drive speakers."""
        starts = [leg.start for leg in self.circuit.legs if self.circuit.outputs[leg.driver].unit == unit]
        return tuple(dict.fromkeys(name for start in starts for name in start if self._is_terminal(name)))

    def _clear(self, number: int) -> Iterator[Test]:
        """Where it can be parted: whether the wires behind touch what they must not; toward an input each other too."""
        leg = self.circuit.legs[number]
        if leg.loop:
            return
        also = () if leg.speaker else _end(leg)
        if self._is_terminal(leg.start[0]):
            yield from self._made(Test(t.CLEAR, number, 0, *leg.start), also)
        for at, step in enumerate(leg.steps, 1):
            if self.circuit.pieces[step.pieces[0]].kind in PARTED and step.minus:
                yield from self._made(Test(t.CLEAR, number, at, step.plus, step.minus), also)

    def _past(self, number: int) -> Iterator[Test]:
        """Clips past each piece; both ends belong to one wire of the plan, so no two outputs can meet."""
        leg, heard = self.circuit.legs[number], self._listened[number]
        for one in leg.loop:
            piece = self.circuit.pieces[one]
            if piece.kind in _CLIPPED and len(piece.wires) == 1:
                plus, minus = min(piece.wires)
                if not (self._within_a_run(plus) or self._within_a_run(minus)):
                    yield from self._made(Test(t.CLIP, number, len(leg.steps), plus, minus, one, speaker=heard))
        before = leg.start
        for at, step in enumerate(leg.steps, 1):
            piece = self.circuit.pieces[step.pieces[0]]
            after = (step.plus, step.minus)
            single = len([n for n in step.pieces if not self.circuit.pieces[n].whole]) == 1
            if piece.kind in _CLIPPED and single and not any(map(self._within_a_run, (*before, *after))):
                long = piece.kind in (kinds.WIRE, kinds.RUN)
                far = self.access.at(before[0])[1] if long else 0.0
                test = Test(t.CLIP, number, at, step.plus, step.minus, step.pieces[0], speaker=heard)
                yield from self._made(test, before, more_min=(_LONG_MIN + far) if long else 0.0)
            before = after

    def _swaps(self, number: int, legs: list[int], speakers: set[str]) -> Iterator[Test]:
        """Two channels of one unit exchanged, each lead taken off before any goes on."""
        leg, heard = self.circuit.legs[number], self._listened[number]
        for other, twin in enumerate(self.circuit.legs):
            if other in legs or twin.speaker in speakers or twin.loop or leg.loop:
                continue
            if self._inputs_alike(leg, twin):
                end = _end(leg)
                yield from self._made(
                    Test(t.SWAP_IN, number, len(leg.steps), *end, partner=other, speaker=heard), _end(twin)
                )
                return
            if self._outputs_alike(leg, twin):
                yield from self._made(Test(t.SWAP_OUT, number, 0, *leg.start, partner=other, speaker=heard), twin.start)
                return

    def _inputs_alike(self, leg: Leg, twin: Leg) -> bool:
        if leg.speaker or twin.speaker or leg.receiver == twin.receiver:
            return False
        unit, port = leg.receiver.split(".", 1)
        unit_b, port_b = twin.receiver.split(".", 1)
        if unit != unit_b or not self._is_terminal(leg.steps[-1].plus if leg.steps else leg.start[0]):
            return False
        ports = self.wiring.job.parts.units[unit].ports
        one, other = ports.get(port), ports.get(port_b)
        if one is None or other is None or one.signal.form != other.signal.form:
            return False
        alone = [each for each in self.circuit.legs if each.receiver in (leg.receiver, twin.receiver)]
        return len(alone) == 2 and self._one_to_one(leg.receiver) and self._one_to_one(twin.receiver)

    def _one_to_one(self, receiver: str) -> bool:
        """Whether an input makes one output that is made from it alone, and that is heard."""
        made = [output for output in self.circuit.outputs.values() if receiver in output.inputs]
        return len(made) == 1 and len(made[0].inputs) == 1

    def _outputs_alike(self, leg: Leg, twin: Leg) -> bool:
        """Whether two outputs of a unit drive speakers that may be exchanged: never a tweeter for a woofer."""
        one, other = self.circuit.outputs[leg.driver], self.circuit.outputs[twin.driver]
        if one.unit != other.unit or leg.driver == twin.driver or not (one.power and other.power):
            return False
        if not leg.speaker or not twin.speaker or not self._is_terminal(leg.start[0]):
            return False
        if "/" in leg.driver or "/" in twin.driver:
            return False  # a bridged pair isn't exchanged with a single output
        sets = [self._played_by(each) for each in (leg.driver, twin.driver)]
        return sets[0] == sets[1]

    def _played_by(self, driver: str) -> list[tuple[str, str, float | None, str]]:
        """What hangs on an output, as far as it matters for an exchange."""
        speakers = self.wiring.job.parts.speakers
        made = []
        for leg in self.circuit.legs:
            if leg.driver == driver and leg.speaker:
                speaker = speakers[leg.speaker]
                low = "SUB" if speaker.function.channel == "SUB" else ""
                made.append((speaker.function.driver, low, speaker.nominal_ohm, speaker.capacitor))
        return sorted(made, key=str)

    # -- supply ------------------------------------------------------------------------------------------

    def _supply(self, units: set[str]) -> Iterator[Test]:
        row = sorted(units)
        for unit in row:
            row += sorted(
                line.giver for line in self.circuit.lines if line.unit == unit and line.giver and line.giver not in row
            )
        for number, line in enumerate(self.circuit.lines):
            if line.unit not in row:
                continue
            fused = False
            for at, step in enumerate(line.steps, 1):
                piece = self.circuit.pieces[step.pieces[0]]
                if piece.kind == kinds.FUSE:
                    yield from self._made(
                        Test(t.FUSE, plus=line.steps[at - 2].plus if at > 1 else line.start, piece=step.pieces[0])
                    )
                    fused = True
                if line.kind == "ground":
                    yield from self._made(Test(t.DROP, at=at, plus=step.plus, line=number))
                else:
                    risk = 0.0 if fused or line.kind == "turn-on" else _UNFUSED
                    yield from self._made(Test(t.DC, at=at, plus=step.plus, line=number), risk=risk)

    def _noise(self, legs: list[int]) -> Iterator[Test]:
        units = set()
        for number in legs:
            leg = self.circuit.legs[number]
            units.add(self.circuit.outputs[leg.driver].unit)
            end = _end(leg)
            if not leg.speaker and self._is_terminal(end[0]):
                yield from self._made(Test(t.MUTE, number, len(leg.steps), *end, speaker=self._listened[number]))
            if not leg.speaker and self._is_terminal(leg.start[0]) and not self.circuit.outputs[leg.driver].power:
                yield from self._made(Test(t.FEED, number, 0, *leg.start, speaker=self._listened[number]))
        yield Test(t.ENGINE, minutes=_TAKES[t.ENGINE][0])
        for loop in self.circuit.loops:
            yield from self._made(Test(t.ONE, plus=loop.terminal, piece=loop.piece), (loop.point,))
        for number, line in enumerate(self.circuit.lines):
            if line.kind == "ground" and line.unit in units:
                for at, step in enumerate(line.steps, 1):
                    yield from self._made(Test(t.DROP, at=at, plus=step.plus, line=number))

    # -- what comes and goes, what stays on --------------------------------------------------------------

    def _watched(self, test: Test) -> Test:
        return test._replace(minutes=test.minutes + _WATCHED_MIN)

    def _wiggles(self, legs: list[int]) -> Iterator[Test]:
        """One piece at a time; a wire is moved at the end that is reached first."""
        seen: set[int] = set()
        for number in legs:
            leg = self.circuit.legs[number]
            before = leg.start
            for step in leg.steps:
                for piece in step.pieces:
                    if piece in seen or not self.circuit.pieces[piece].wires:
                        continue
                    seen.add(piece)
                    at = before[0] if self._within_a_run(step.plus) else step.plus
                    if not self._within_a_run(at):
                        yield from self._made(
                            Test(t.WIGGLE, number, plus=at, piece=piece, speaker=self._listened[number])
                        )
                before = (step.plus, step.minus)
        units = {self.circuit.outputs[self.circuit.legs[number].driver].unit for number in legs}
        for number, line in enumerate(self.circuit.lines):
            if line.unit in units:
                for step in line.steps:
                    for piece in step.pieces:
                        if piece not in seen and self.circuit.pieces[piece].wires:
                            seen.add(piece)
                            yield from self._made(Test(t.WIGGLE, plus=step.plus, piece=piece, line=number))

    def _off(self, units: set[str]) -> Iterator[Test]:
        """A turn-on wire taken off here and there, and its volts with the key off."""
        for number, line in enumerate(self.circuit.lines):
            if line.kind != "turn-on" or line.unit not in units:
                continue
            for at, step in enumerate(line.steps, 1):
                if not self._within_a_run(step.plus):
                    yield from self._made(Test(t.OFF, at=at, plus=step.plus, line=number))
            yield from self._made(Test(t.STILL, at=len(line.steps), plus=line.steps[-1].plus, line=number))


def _end(leg: Leg) -> tuple[str, str]:
    """The last two contacts of a leg."""
    return (leg.steps[-1].plus, leg.steps[-1].minus) if leg.steps else leg.start
