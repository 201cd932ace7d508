"""Each possible fault put into the plan: what would be heard, and what each test would answer."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cached_property, partial

from harness.locate import tests as t
from harness.locate.alone import ByItself
from harness.locate.arriving import (
    LOW,
    NOISE_TOO,
    NOTHING,
    OTHER,
    SIGNAL,
    THINNED,
    TURNED_ROUND,
    channels_of,
    single,
    together,
)
from harness.locate.at_lines import AtLines
from harness.locate.circuit import Circuit
from harness.locate.faults import (
    CROSSED,
    NOISES,
    PROTECTING,
    SECOND,
    STUCK,
    UPSTREAM,
    Fault,
    crossings,
    odds,
    possible,
)
from harness.locate.reach import Reach, Reaches
from harness.locate.shorts import ACROSS_SPEAKER, BEHIND_INPUT, BEHIND_SPEAKER, Shorts
from harness.locate.symptoms import (
    FAINT,
    INTERMITTENT,
    MODES,
    NOISE,
    PROTECTS,
    REVERSED,
    SILENT,
    STAYS_ON,
    WRONG,
    Symptom,
)
from harness.locate.tests import Test
from harness.locate.whine import Whine

_SHOWS = {
    NOTHING: (SILENT, INTERMITTENT, PROTECTS), TURNED_ROUND: (REVERSED,), OTHER: (WRONG,), LOW: (FAINT,),
    NOISE_TOO: (NOISE,), THINNED: (FAINT,),
}  # fmt: skip

Faults = tuple[Fault, ...]


class Simulator:
    """Questions about one circuit with one fault or several in it. All plain data; the same answer each time."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self.reaches = Reaches(circuit)
        self.whine = Whine(circuit)
        self.shorts = Shorts(circuit, self.reaches)
        self._ways: dict[str, frozenset[tuple[str, str]]] = {}
        self._behind: dict[tuple[int, int], list[frozenset[int]]] = {}
        self._explained: dict[tuple[frozenset[int], tuple[Symptom, ...]], bool] = {}
        self._carried: dict[int, str] = {}
        self._heard: dict[object, dict[str, str]] = {}
        self._fed = [speaker for speaker in circuit.beside if self.reaches.fed(speaker)]
        alone, lines = ByItself(circuit, self.shorts), AtLines(circuit, self.reaches, self.shorts)
        self._answers: dict[str, Callable[[Faults, Test], str]] = {
            t.SIGNAL: self._at_point, t.HOLD: self._at_point, t.OHMS: self._ohms, t.CLEAR: self._clear,
            t.SWAP_IN: self._swap, t.SWAP_OUT: self._swap, t.CLIP: self._clip, t.FUSE: self._fuse,
            t.WIGGLE: self._wiggle, t.MUTE: self.whine.mute, t.FEED: self.whine.feed, t.ONE: self.whine.one,
            t.ENGINE: self.whine.engine, t.DC: lines.dc, t.DROP: lines.drop, t.SAG: lines.sag, t.OFF: lines.off,
            t.STILL: lines.still, t.ALL_OFF: alone.all_off, t.LOOK: alone.look, t.COOL: alone.cool,
            t.OFFSET: alone.offset,
        }  # fmt: skip

    # -- what arrives ------------------------------------------------------------------------------------

    def arrives(self, faults: Faults, reach: Reach) -> str:
        """What arrives behind a reach: SIGNAL, or the worst that the faults do to it."""
        if len(faults) == 1:
            return self._single(faults[0], reach)
        return together([self._single(fault, reach) for fault in faults])

    def _single(self, fault: Fault, reach: Reach) -> str:
        if fault.mode in PROTECTING:
            stilled = self.shorts.stilled(fault)
            return NOTHING if stilled & reach.kills else THINNED if stilled & reach.some else SIGNAL
        return single(fault, reach)

    def _arrives_at(self, faults: Faults, reach: Reach, dead: Callable[[frozenset[int]], bool]) -> str:
        """As `arrives`; of what is summed, two faults may silence all where each alone only thins it."""
        word = self.arrives(faults, reach)
        if (
            word == THINNED
            and (len(faults) > 1 or faults[0].mode in PROTECTING)
            and dead(frozenset(self.shorts.parted(faults)))
        ):
            return NOTHING
        return word

    def heard(self, faults: Faults) -> dict[str, str]:
        """What is heard from each speaker that doesn't play as it should."""
        if len(faults) == 1:
            key: object = self.shorts.stilled(faults[0]) if faults[0].mode in PROTECTING else faults[0]
            known = self._heard.get(key)
            if known is None:
                known = self._heard[key] = {
                    speaker: word for speaker in self._fed if (word := self._from(faults[0], speaker)) != SIGNAL
                }
            return known
        each = [self.heard((fault,)) for fault in faults]
        made = {}
        for speaker in self._fed:
            words = [one[speaker] for one in each if speaker in one]
            if words:
                word = words[0] if len(words) == 1 else together(words)
                if word == THINNED and len(words) > 1:
                    gone = frozenset(self.shorts.parted(faults))
                    word = NOTHING if self.reaches.speaker_dead(speaker, gone) else word
                if word != SIGNAL:
                    made[speaker] = word
        return made

    def _from(self, fault: Fault, speaker: str) -> str:
        word = self._single(fault, self.reaches.speaker(speaker))
        if (
            word == THINNED
            and fault.mode in PROTECTING
            and self.reaches.speaker_dead(speaker, self.shorts.stilled(fault))
        ):
            return NOTHING
        return word

    def stays_on(self, faults: Faults) -> set[str]:
        """The units that don't go off."""
        numbers = {fault.piece for fault in faults if fault.mode == STUCK}
        waking = {line.unit for line in self.circuit.lines if line.kind == "turn-on"}
        return {unit for unit in self.circuit.units if numbers & self.reaches.keeps_on(unit) and unit in waking}

    def _woken_by(self, units: set[str]) -> set[str]:
        """Units, and all that they keep awake: nobody need have named those."""
        found = set(units)
        row = list(units)
        for unit in row:
            more = [line.unit for line in self.circuit.lines if line.giver == unit and line.unit not in found]
            found.update(more)
            row += more
        return found

    def explains(self, faults: Faults, symptoms: tuple[Symptom, ...]) -> bool:
        """Whether the faults give just these symptoms: what nobody named plays as it should.

        Two channels exchanged show in two places; one of them may have gone unnoticed, and so may what only thins.
        """
        told = {each.subject: each.word for each in symptoms}
        if STAYS_ON in told.values():
            on = self.stays_on(faults)
            return set(told) <= on and on <= self._woken_by(set(told))
        heard = self.heard(faults)
        for subject, word in told.items():
            if word not in _SHOWS.get(heard.get(subject, ""), ()):
                return False
        return all(speaker in told or word in (THINNED, OTHER) for speaker, word in heard.items())

    def explaining(self, single: list[Fault], symptoms: tuple[Symptom, ...]) -> list[Fault]:
        """Those of many that explain the symptoms by themselves."""
        return [fault for fault in single if self._explains(fault, symptoms)]

    def _explains(self, fault: Fault, symptoms: tuple[Symptom, ...]) -> bool:
        """As `explains`; shorts that still the same outputs sound the same."""
        if fault.mode not in PROTECTING:
            return self.explains((fault,), symptoms)
        key = (self.shorts.stilled(fault), symptoms)
        known = self._explained.get(key)
        if known is None:
            known = self._explained[key] = self.explains((fault,), symptoms)
        return known

    def suspects(self, symptoms: tuple[Symptom, ...]) -> list[Fault]:
        """Every single fault that touches what the symptoms speak of, along the way; explained or not."""
        numbers: dict[int, None] = {}
        for symptom in symptoms:
            numbers.update(dict.fromkeys(self._on_way(symptom)))
        modes = dict.fromkeys(mode for symptom in symptoms for mode in MODES[symptom.word])
        made: dict[Fault, None] = {}
        quiet = {mode: self.whine.noiseless(mode) for mode in modes if mode in NOISES}
        for mode in modes:
            if mode in PROTECTING:
                fits = partial(self._explains, symptoms=symptoms)
                made.update(dict.fromkeys(self.shorts.among(mode, numbers, fits)))
                continue
            for number in numbers:
                if number in quiet.get(mode, ()) or not possible(self.circuit, mode, number):
                    continue
                if mode == CROSSED:
                    for other in crossings(self.circuit, number):
                        made[Fault(mode, min(number, other), max(number, other))] = None
                else:
                    made[Fault(mode, number)] = None
        return list(made)

    def odds(self, faults: Faults) -> float:
        """How likely these faults are beside others; each one more makes it a good deal less so."""
        product = SECOND ** (len(faults) - 1)
        for fault in faults:
            product *= odds(self.circuit.pieces[fault.piece], fault.mode)
            if fault.mode in PROTECTING and not self.shorts.is_last(fault):
                product *= UPSTREAM
        return product

    def _on_way(self, symptom: Symptom) -> Iterable[int]:
        """The pieces that a symptom may come from, in the order of the way, then what the units live on."""
        if symptom.word == STAYS_ON:
            ordered = [n for line in self.circuit.lines for step in line.steps for n in step.pieces]
            ordered += [number for number in self.circuit.units.values() if number >= 0]
            wanted = self.reaches.keeps_on(symptom.subject)
            return [number for number in dict.fromkeys(ordered) if number in wanted]
        reach = self.reaches.speaker(symptom.subject)
        wanted = reach.some | reach.kills | reach.hum
        ordered = []
        for leg in self.circuit.legs:
            output = self.circuit.outputs[leg.driver]
            ordered += [self.circuit.inputs[name] for name in output.inputs if name in self.circuit.inputs]
            ordered += output.pieces
            ordered += [number for step in leg.steps for number in step.pieces]
            ordered += leg.loop
        ordered += self.circuit.speakers.values()
        ordered += [number for line in self.circuit.lines for step in line.steps for number in step.pieces]
        ordered += self.circuit.units.values()
        return [number for number in dict.fromkeys(ordered) if number in wanted]

    # -- tests -------------------------------------------------------------------------------------------

    def answer(self, faults: Faults, test: Test) -> str:
        """What a test answers with these faults in the car."""
        return self._answers[test.kind](faults, test)

    def alike(self, test: Test, pieces: frozenset[int]) -> object:
        """A key that is the same for tests which answer alike, whichever of these pieces is at fault."""
        if test.kind not in (t.SIGNAL, t.HOLD):
            return test
        reach = self.reaches.point(test.leg, test.at)
        channel = self._channels[self.circuit.legs[test.leg].driver]
        return channel, reach.kills & pieces, reach.some & pieces, reach.hum & pieces

    def _at_point(self, faults: Faults, test: Test) -> str:
        if test.kind == t.HOLD:  # with the leads off, what is shorted behind them stills nothing
            own = self.circuit.legs[test.leg].driver
            faults = tuple(
                each for each in faults if each.mode not in PROTECTING or own not in self.shorts.drivers(each)
            )
            if not faults:
                return SIGNAL
        reach = self.reaches.point(test.leg, test.at)
        word = self._arrives_at(faults, reach, lambda gone: self.reaches.dead(test.leg, test.at, gone))
        if word != OTHER:
            return word
        here = self._channels[self.circuit.legs[test.leg].driver]
        for fault in faults:
            for number in (fault.piece, fault.other):
                found = self._carries(number)
                if fault.mode == CROSSED and found and found != here:
                    return f"plays {found}"
        return word

    def _carries(self, number: int) -> str:
        """The channels that a piece carries, by name: FL, or FL + FR where they are summed."""
        known = self._carried.get(number)
        if known is None:
            names = [
                self._channels[leg.driver]
                for leg in self.circuit.legs
                if any(number in step.pieces for step in leg.steps) or number in self.circuit.outputs[leg.driver].pieces
            ]
            known = self._carried[number] = names[0] if names else ""
        return known

    def plays_at(self, faults: Faults, speaker: str) -> str:
        """The channels that a speaker plays in another's place; empty where it plays its own or nothing."""
        if self.heard(faults).get(speaker) != OTHER:
            return ""
        own = {self._channels[leg.driver] for leg in self.circuit.legs if leg.speaker == speaker}
        found = (self._carries(number) for fault in faults if fault.mode == CROSSED for number in fault[1:])
        return next((each for each in found if each and each not in own), "")

    def channel_of(self, output: str) -> str:
        """The sources' channels that an output carries: FL, or FL + FR where they are summed."""
        return self._channels[output]

    @cached_property
    def _channels(self) -> dict[str, str]:
        return channels_of(self.circuit)

    def _beyond(self, leg: int, at: int) -> list[frozenset[int]]:
        """Of the legs of the same output that a point lies on, what is behind it."""
        known = self._behind.get((leg, at))
        if known is None:
            known = self._behind[leg, at] = [self.reaches.behind(each, at) for each in self.circuit.beyond(leg, at)]
        return known

    def _clear(self, faults: Faults, test: Test) -> str:
        read = [*map(self.shorts.reads(test.leg, test.at), faults)]
        wanted = BEHIND_SPEAKER if self.circuit.legs[test.leg].speaker else BEHIND_INPUT
        return next((word for word in read if word in wanted), "clear")

    def _ohms(self, faults: Faults, test: Test) -> str:
        for fault in faults:
            if fault.mode in PROTECTING and (read := self.shorts.reads(test.leg, test.at)(fault)) in ACROSS_SPEAKER:
                return read
        gone = self.shorts.parted(faults)
        legs = self._beyond(test.leg, test.at)
        dead = sum(1 for behind in legs if gone & behind)
        return "as expected" if not dead else "open" if dead == len(legs) else "too high"

    def _swap(self, faults: Faults, test: Test) -> str:
        """Does the fault go along to the other speaker, or stay where it was?"""
        own, other = self.circuit.legs[test.leg], self.circuit.legs[test.partner]
        if test.kind == t.SWAP_OUT and any({own.driver, other.driver} & self.shorts.drivers(each) for each in faults
                                           if each.mode in PROTECTING):  # fmt: skip
            return "stays"  # it goes along with the leads
        at = len(own.steps) if test.kind == t.SWAP_IN else 0
        twin = len(other.steps) if test.kind == t.SWAP_IN else 0
        mine = self.arrives(faults, self.reaches.point(test.leg, at))
        theirs = self.arrives(faults, self.reaches.point(test.partner, twin))
        if mine == theirs:
            return "stays"
        return "moves"

    def _clip(self, faults: Faults, test: Test) -> str:
        """The clips carry what the piece should carry; what lies elsewhere stays as it was."""
        covered = self.circuit.pieces[test.piece].wires
        way = self._wires_to(test.speaker)
        left = tuple(
            fault
            for fault in faults
            if fault.mode in PROTECTING
            or not (here := self.circuit.pieces[fault.piece].wires & way)
            or not here <= covered
        )
        if not left:
            return "plays"
        return "plays" if self.arrives(left, self.reaches.speaker(test.speaker)) == SIGNAL else "no change"

    def _wires_to(self, speaker: str) -> frozenset[tuple[str, str]]:
        """The conductors on all ways to a speaker, with those that the units on the way live on."""
        known = self._ways.get(speaker)
        if known is None:
            legs = [leg for leg in self.circuit.legs if leg.speaker == speaker]
            for leg in legs:
                inputs = self.circuit.outputs[leg.driver].inputs
                legs += [each for each in self.circuit.legs if each.receiver in inputs and each not in legs]
            numbers = {number for leg in legs for number in (*(n for s in leg.steps for n in s.pieces), *leg.loop)}
            numbers |= {n for leg in legs for n in self.reaches.power(self.circuit.outputs[leg.driver].unit)}
            known = self._ways[speaker] = frozenset(
                wire
                for number in numbers
                if not self.circuit.pieces[number].whole
                for wire in self.circuit.pieces[number].wires
            )
        return known

    def _fuse(self, faults: Faults, test: Test) -> str:
        return "open" if test.piece in self.shorts.parted(faults) else "whole"

    def _wiggle(self, faults: Faults, test: Test) -> str:
        moved = self.circuit.pieces[test.piece]
        for number in self.shorts.parted(faults):
            piece = self.circuit.pieces[number]
            if number == test.piece or (piece.wires and piece.wires & moved.wires):
                return "drops out"
        return "no change"
