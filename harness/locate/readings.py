"""One record against a fault: what a tone, a look for +, ohms or volts would have said with it in the car."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import cached_property
from typing import NamedTuple

from harness.electrical.turn_on import MOST_ASLEEP_V
from harness.graph.drivers import must_answer, named, played
from harness.graph.loads import part_of
from harness.graph.readings import TOUCHING_OHM, Reading, between, ohms_of, state_of, volts_of
from harness.graph.resistance import Expected, expected_dc, expected_of, fits
from harness.graph.wiring import Wiring
from harness.locate import tests as t
from harness.locate.circuit import PIN, Leg
from harness.locate.faults import CROSSED, LOOSE, OPEN, PROTECTING, TURNED, Fault
from harness.locate.points import Points
from harness.locate.proposals import PARTED
from harness.locate.simulate import Faults, Simulator
from harness.locate.symptoms import NOISE, PROTECTS, STAYS_ON
from harness.locate.tests import Test
from harness.model.contact import printed
from harness.model.evidence import NOTHING, Record
from harness.model.function import bases_in, words_in
from harness.model.parts import Speaker

# Good for a feed or turn-on; surely something of a signal, and surely nothing of it. Common practice, no source.
GOOD_V, SOUND_V, STILL_V = 11.0, 0.1, 0.02
# A ground under load is good below the first, and surely open above the other. Common practice, no source.
GOOD_GROUND_V, OPEN_GROUND_V = 0.1, 1.0
# Below the first a wire touches the body, above the other it doesn't, between it is damp. Common practice, no source.
BODY_OHM, CLEAR_OHM = 1e3, 100e3
_AWAKE = ("run", "accessory", "engine")
_ASLEEP = ("out", "locked")

Fits = Callable[[Faults], "bool | None"]


class Verdict(NamedTuple):
    """What a record says of faults: `fits(faults)` is False where it would have read otherwise with them in the car.

    `bad` says that it isn't as it should be there, `behind` the pieces that a wrong reading speaks of. `kind` and
    `state` are what it is the last word on at its contacts.
    """

    kind: str
    says: str
    fits: Fits
    bad: bool
    behind: frozenset[int] = frozenset()
    state: str = ""


def verdicts(
    wiring: Wiring, simulator: Simulator, points: Points, record: Record, symptoms: set[str]
) -> Iterator[Verdict]:
    """What one record says of the circuit; nothing where it is of another place or can't be judged."""
    if NOISE in symptoms:
        return  # none of them tells a noise
    if record.verb == "volts":
        if len(record.contacts) == 1:
            yield from _line_volts(simulator, points, record, symptoms)
        elif len(record.contacts) == 2 and not symptoms & {STAYS_ON, PROTECTS}:
            yield from _sound(wiring, simulator, points, record)
    elif record.verb in ("tone", "polarity", "ohm") and STAYS_ON not in symptoms:
        yield from _At(wiring, simulator, points, record).verdicts()


class _At:
    """A record taken at a pair toward its speakers, whatever unit it leads to taken off."""

    def __init__(self, wiring: Wiring, simulator: Simulator, points: Points, record: Record) -> None:
        self.wiring, self.simulator, self.record = wiring, simulator, record
        self.circuit = simulator.circuit
        pair = len(record.contacts) == 2
        self.point = points.pairs.get(frozenset(record.contacts)) if pair else points.single.get(record.contacts[0])

    def verdicts(self) -> Iterator[Verdict]:
        if self.point is None or not self.circuit.legs[self.point.leg].speaker:
            return
        legs = self.circuit.beyond(self.point.leg, self.point.at)
        if any(leg.loop or not leg.speaker for leg in legs):
            return
        self.legs = legs
        self.behind = frozenset().union(*(self.simulator.reaches.behind(leg, self.point.at) for leg in legs))
        self.state = state_of(self.wiring, *self.record.contacts)
        if not self._all_there():
            return
        if len(self.record.contacts) == 2:
            branches = self._branches()
            if {each.name for branch in branches for each in branch} == {leg.speaker for leg in legs}:
                yield from self._tone()
                yield from self._plus()
                yield from self._ohms(branches)
        yield from self._body()

    def _branches(self) -> list[list[Speaker]]:
        """The speakers that a meter met, side by side; none where a unit was on the wires or more was apart."""
        assert self.point is not None
        if self.state is self.wiring.found:
            reading = Reading(self.record, self.record.contacts, math.inf, "")
            met = between(self.wiring, reading, self.point.plus, self.point.minus)
            return [] if met.has_unit else [list(branch) for branch in met.branches]
        unit = self.circuit.outputs[self.legs[0].driver].unit.lower()
        off = {word.strip(",").lower() for word in self.record.words("unplugged")}
        return [[self.wiring.job.parts.speakers[leg.speaker]] for leg in self.legs] if off == {unit} else []

    def _all_there(self) -> bool:
        """Whether all that is behind the point by the plan was there when the record was taken."""
        for number in self.behind:
            for a, b in self.circuit.pieces[number].wires:
                if a.endswith(PIN) or b.endswith(PIN):
                    if self.state is self.wiring.found:
                        return False
                elif not any({each.a, each.b} == {a, b} for each in self.state.conductors(a)):
                    return False
        return True

    @cached_property
    def _unparted(self) -> frozenset[int]:
        """What hangs at the point on the other side and no plug parts: a joint at the contact itself, say."""
        assert self.point is not None
        leg, at = self.circuit.legs[self.point.leg], self.point.at
        first = at
        while first and self.circuit.pieces[leg.steps[first - 1].pieces[0]].kind not in PARTED:
            first -= 1
        behind = self.simulator.shorts.behind
        return behind(self.point.leg, first) - behind(self.point.leg, at)

    def _meter(self, fault: Fault) -> str | None:
        """What a meter finds of a short behind the point; None where it may be read from before the point as well."""
        assert self.point is not None
        read = self.simulator.shorts.reads(self.point.leg, self.point.at)(fault)
        return None if not read and not self._unparted.isdisjoint((fault.piece, fault.other)) else read

    def _says(self, words: str) -> str:
        return f"{printed(self.record.named)}: {words}"

    # -- tones -------------------------------------------------------------------------------------------

    def _tone(self) -> Iterator[Verdict]:
        """Which speakers answered. One that isn't named, though its channel is, may have, where the tone isn't written;
        of one that need not answer the tone nothing is said.
        """
        said = self.record.word("heard")
        if self.record.verb != "tone" or not said:
            return
        speakers, span = self.wiring.job.parts.speakers, played(self.record.word("signal"))
        who = named(speakers, said, span)
        if who.odd or who.elsewhere:
            return
        channels, heard = bases_in(said), who.speakers
        own = {leg.speaker for leg in self.legs}
        astray = bool(set(heard) - own)
        told: list[tuple[Leg, str]] = []
        for leg in self.legs:
            must = must_answer(speakers[leg.speaker], span)
            if leg.speaker in heard and (must or leg.speaker not in who.vague):
                told.append((leg, "heard"))
            elif not must:
                continue
            elif span is not None or speakers[leg.speaker].function.channel not in channels:
                told.append((leg, "elsewhere" if astray else "nothing"))
        if not told:
            return
        bad = any(word != "heard" for _, word in told)

        def fits(faults: Faults) -> bool | None:
            return all(gives in (word, "") for leg, word in told for gives in [self._gives(faults, leg)])

        words = "none answers" if set(words_in(said.lower())) <= set(NOTHING) else f"{said} answers"
        yield Verdict("tone", self._says(words), fits, bad, self.behind)

    def _gives(self, faults: Faults, leg: Leg) -> str:
        """`heard`, `nothing` or `elsewhere` of a tone put in at the point; empty where it could be either."""
        words = [self._gives_one(fault, leg) for fault in faults]
        for word in ("nothing", "", "elsewhere"):
            if word in words:
                return word
        return "heard"

    def _gives_one(self, fault: Fault, leg: Leg) -> str:
        assert self.point is not None
        behind = self.simulator.reaches.behind(leg, self.point.at)
        here = [number in behind for number in (fault.piece, fault.other) if number >= 0]
        if fault.mode in PROTECTING:
            reads = self._meter(fault)
            return "nothing" if reads == "short" else "heard" if reads == "" else ""
        if fault.mode in (OPEN, LOOSE):
            return "nothing" if any(here) else "heard"
        if fault.mode == CROSSED and all(here):
            return ""
        if not any(here) or fault.mode == TURNED:
            return "heard"
        return "elsewhere" if fault.mode == CROSSED else ""

    def _plus(self) -> Iterator[Verdict]:
        """Which wire was found to be +, by cone or checker; not of speakers behind a capacitor or turned inside."""
        said = self.record.word("plus").rsplit(".", 1)[-1].lower()
        found = [name for name in self.record.contacts if self.wiring.contact(name).last.lower() == said]
        speakers = [self.wiring.job.parts.speakers[leg.speaker] for leg in self.legs]
        if not said or len(found) != 1 or any(each.capacitor or each.inverted for each in speakers):
            return
        by_name = {each.name: each for each in self.wiring.signals.speaker_receivers}
        ends = [by_name[leg.receiver] for leg in self.legs]
        right = [self.state.joined(found[0], end.plus) for end in ends]
        if any(right) != all(right):
            return
        bad = not right[0]

        def fits(faults: Faults) -> bool | None:
            turned = [self._turns(fault) for fault in faults]
            return None if None in turned else (sum(map(bool, turned)) % 2 == 1) == bad

        yield Verdict("plus", self._says(f"+ is {'the other wire' if bad else 'right'}"), fits, bad, self.behind)

    def _turns(self, fault: Fault) -> bool | None:
        """Whether a fault turns what is behind the point round; None where it does for some of it only."""
        assert self.point is not None
        if fault.mode != TURNED:
            return False if fault.mode != CROSSED else None
        each = [fault.piece in self.simulator.reaches.behind(leg, self.point.at) for leg in self.legs]
        return each[0] if all(each) or not any(each) else None

    # -- ohms --------------------------------------------------------------------------------------------

    def _ohms(self, met: list[list[Speaker]]) -> Iterator[Verdict]:
        """A reading is that of the speakers still reached, each by itself behind its own wires."""
        ohm = ohms_of(self.record.word("reads"))
        if ohm is None or any(len(branch) != 1 for branch in met) or any(band.unknown for band in _bands(met)):
            return
        every = frozenset(leg.speaker for leg in self.legs)

        def reads(left: frozenset[str]) -> bool:
            bands = _bands([branch for branch in met if branch[0].name in left])
            if all(band.low_ohm is None for band in bands):
                return math.isinf(ohm)
            return any(
                band.low_ohm is not None and band.high_ohm is not None and fits(band.low_ohm, band.high_ohm, ohm)
                for band in bands
            )

        known = dict[frozenset[str], bool]()

        def agrees(faults: Faults) -> bool | None:
            assert self.point is not None
            at = self.point
            meter = [self._meter(fault) for fault in faults if fault.mode in PROTECTING]
            if None in meter:
                return None
            if "short" in meter:
                return ohm < TOUCHING_OHM
            gone = {fault.piece for fault in faults if fault.mode in (OPEN, LOOSE)}
            left = frozenset(leg.speaker for leg in self.legs if not gone & self.simulator.reaches.behind(leg, at.at))
            if left not in known:
                known[left] = reads(left)
            loose = any(fault.mode not in (OPEN, LOOSE, *PROTECTING) and fault.piece in self.behind for fault in faults)
            return None if loose and not known[left] else known[left]

        bad = not reads(every)
        words = "open" if math.isinf(ohm) else self.record.word("reads")
        yield Verdict("ohms", self._says(f"{words}, {'not ' if bad else ''}as it should be"), agrees, bad, self.behind)

    def _body(self) -> Iterator[Verdict]:
        """To the body: of a pair both wires, of one contact that wire only, so that its `open` clears nothing."""
        pair = len(self.record.contacts) == 2
        words = self.record.word("body") if pair else self.record.word("reads")
        ohm = ohms_of(words)
        if ohm is None or BODY_OHM < ohm < CLEAR_OHM or (self.record.verb == "ohm" and not pair and words == ""):
            return
        bad = ohm <= BODY_OHM
        if not pair and not bad:
            return

        def agrees(faults: Faults) -> bool | None:
            meter = [self._meter(fault) for fault in faults if fault.mode in PROTECTING]
            return None if None in meter else ("to the body" in meter) == bad

        yield Verdict("body", self._says(f"{words} to the body"), agrees, bad, self.behind)


def _bands(branches: list[list[Speaker]]) -> list[Expected]:
    """What is expected of the car's own speakers, and of the new ones in their place."""
    return [expected_dc(branches), expected_of([[part_of(each) for each in branch] for branch in branches])]


# -- volts -------------------------------------------------------------------------------------------------


def _line_volts(simulator: Simulator, points: Points, record: Record, symptoms: set[str]) -> Iterator[Verdict]:
    """Volts of a feed, ground or turn-on, by the state of the key."""
    found = points.lines.get(record.contacts[0])
    volts = volts_of(record.word("reads"))
    level = record.word("signal") or record.word("step") or record.word("clean")
    if found is None or volts is None or level:
        return
    number, at = found
    line, key = simulator.circuit.lines[number], record.word("key")
    if STAYS_ON in symptoms:
        told = volts <= MOST_ASLEEP_V or bool(record.word("waited"))  # a radio stays on for minutes
        if told and line.kind == "turn-on" and at == len(line.steps) and key in _ASLEEP:
            answer = "under 1 V" if volts <= MOST_ASLEEP_V else "over 1 V"
            yield _as_test(simulator, record, Test(t.STILL, at=at, plus=line.steps[-1].plus, line=number), answer)
        return
    if line.kind == "ground":
        if key in _AWAKE and PROTECTS not in symptoms and not GOOD_GROUND_V < volts < OPEN_GROUND_V:
            answer = "more" if volts >= OPEN_GROUND_V else "under 0.1 V"
            yield _as_test(simulator, record, Test(t.DROP, at=at, plus=record.contacts[0], line=number), answer)
        return
    if key not in _AWAKE and not (key in _ASLEEP and line.kind == "feed" and line.start == "battery.+"):
        return
    if volts >= GOOD_V or volts <= MOST_ASLEEP_V:
        answer = "12 V" if volts >= GOOD_V else "0 V"
        yield _as_test(simulator, record, Test(t.DC, at=at, plus=record.contacts[0], line=number), answer)


def _sound(wiring: Wiring, simulator: Simulator, points: Points, record: Record) -> Iterator[Verdict]:
    """Volts of a signal across a pair on the units' side: something or nothing, no more."""
    point = points.pairs.get(frozenset(record.contacts))
    volts = volts_of(record.word("reads"))
    if point is None or volts is None or STILL_V < volts < SOUND_V:
        return
    if not (record.word("signal") or record.word("step")) or record.word("unplugged"):
        return
    for name in record.contacts:
        contact = wiring.contact(name)
        if contact.kind not in ("unit", "loom") and not (contact.kind == "plug" and contact.half == "unit"):
            return
    leg = simulator.circuit.legs[point.leg]
    if state_of(wiring, *record.contacts) is wiring.found and point.at:
        return  # what lies between the unit and this plug may not have been there
    test = Test(t.SIGNAL, point.leg, point.at, point.plus, point.minus)
    there = volts >= SOUND_V

    def agrees(faults: Faults) -> bool | None:
        return (simulator.answer(faults, test) != "nothing") == there

    passed = frozenset(number for step in leg.steps[: point.at] for number in step.pieces)
    says = f"{printed(record.named)}: {record.word('reads')}"
    behind = frozenset() if there else passed | simulator.reaches.point(point.leg, point.at).kills
    yield Verdict("sound", says, agrees, not there, behind)


def _as_test(simulator: Simulator, record: Record, test: Test, answer: str) -> Verdict:
    """A record that is one of the search's own tests, made before."""
    key = f"key {record.word('key')}, " if record.word("key") else ""
    says = f"{printed(record.named)}: {key}{record.word('reads')}"
    bad = not t.as_it_should(test.kind, answer)

    def agrees(faults: Faults) -> bool | None:
        return simulator.answer(faults, test) == answer

    return Verdict(test.kind, says, agrees, bad, state="" if record.word("key") not in _ASLEEP else "asleep")
