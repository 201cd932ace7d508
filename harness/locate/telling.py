"""A search in words: what each test wants done, what its answers mean, and how it ends."""

from __future__ import annotations

from harness.graph.wiring import Wiring
from harness.locate import circuit as kinds
from harness.locate import tests as t
from harness.locate.circuit import Circuit
from harness.locate.faults import HISS, NOISY, TOUCHES, WITH_UNIT, Fault
from harness.locate.naming import piece_words
from harness.locate.phrases import (
    AT_POINT,
    BEHIND_CAPACITOR,
    CAUTION,
    HELD,
    MEANS,
    PROTECTED,
    REMEDY,
    SAGGING_FUSE,
    SET,
    STUCK,
    TURNED,
    UNFUSED,
    WHINING,
    WRONG_WITH,
)
from harness.locate.session import Session
from harness.locate.spots import fuse_side, pair_words
from harness.locate.symptoms import FAINT, INTERMITTENT, NOISE, PROTECTS, REVERSED, SILENT, STAYS_ON, WRONG
from harness.locate.tests import Test

_SHOWN = 9
_WORST_FIRST = (SILENT, PROTECTS, INTERMITTENT, FAINT, WRONG, REVERSED, NOISE, STAYS_ON)
_THINGS = frozenset((kinds.UNIT, kinds.SOURCE, kinds.CHANNEL, kinds.INPUT, kinds.SPEAKER))
_NOISY = {
    (NOISY, kinds.LOOP): "a ground loop",
    (NOISY, kinds.UNIT): "lets noise in by its supply",
    (HISS, kinds.CHANNEL): "noisy by itself, or its gain set too high",
    (HISS, kinds.INPUT): "noisy by itself, or its gain set too high",
    (HISS, kinds.JOINT): "a contact that crackles",
    (HISS, kinds.PLUG): "a contact that crackles",
}


def fault_words(wiring: Wiring, circuit: Circuit, fault: Fault) -> str:
    """`joint J1, T1 unit end 1/9 to dsp in1: open`."""
    piece = circuit.pieces[fault.piece]
    words = piece_words(wiring, piece)
    wrong = WRONG_WITH[WITH_UNIT.get(fault.mode, fault.mode)]
    if fault.mode in WITH_UNIT:
        wrong += ", and the unit protects itself"
    if fault.other >= 0:
        return f"{words} and {piece_words(wiring, circuit.pieces[fault.other])}: {wrong}"
    if fault.mode == "open":
        if piece.kind in _THINGS:
            wrong = "dead"
        elif piece.kind == kinds.FUSE:
            wrong = "blown, or its holder open"
        elif piece.kind == kinds.GIVER:
            wrong = "doesn’t come"
        elif piece.kind == kinds.RELAY:
            wrong = "doesn’t switch"
    elif fault.mode in (NOISY, HISS):
        wrong = _NOISY.get((fault.mode, piece.kind), wrong)
    return f"{words}: {wrong}"


def suspect_words(session: Session, faults: tuple[Fault, ...]) -> str:
    """One suspect in words; two faults are joined by `and`."""
    return "; and ".join(fault_words(session.wiring, session.circuit, fault) for fault in faults)


class Told:
    """The words of one session's tests."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.wiring: Wiring = session.wiring
        self.circuit = session.circuit
        self._said = {each.subject: each.word for each in session.symptoms}
        self.symptom = next(word for word in _WORST_FIRST if word in self._said.values())

    def _symptom(self, test: Test) -> str:
        """What a test looks for: the symptom of the speaker that its way leads to, else the worst."""
        return self._said.get(test.speaker, self.symptom)

    # -- a test ------------------------------------------------------------------------------------------

    def spot(self, test: Test) -> str:
        """The contacts of a test in words."""
        plus = test.plus.removesuffix(kinds.PIN)
        if not test.minus and self.wiring.contact(plus).kind == "run":
            return fuse_side(self.wiring, plus)
        return pair_words(self.wiring, (test.plus, test.minus))

    def _piece(self, number: int) -> str:
        return piece_words(self.wiring, self.circuit.pieces[number])

    def channel(self, test: Test) -> str:
        """The source's channel to play, in words."""
        return self.session.simulator.channel_of(self.circuit.legs[test.leg].driver)

    def do(self, test: Test) -> str:
        """What to do, in one sentence or two."""
        if test.kind == t.SIGNAL:
            return self._at_point(test)
        if test.kind in (t.SWAP_IN, t.SWAP_OUT):
            return self._swap(test)
        if test.kind in (t.LOOK, t.ALL_OFF, t.COOL, t.OFFSET):
            return self._by_itself(test)
        if test.kind in (t.MUTE, t.FEED, t.ONE, t.ENGINE):
            return self._whine(test)
        if test.line >= 0 or test.kind in (t.FUSE, t.WIGGLE):
            return self._by_wire(test)
        spot = self.spot(test)
        if test.kind == t.HOLD:
            return f"Key off; the leads off {spot}, a known-good speaker on; play {self.channel(test)}, volume low."
        if test.kind == t.CLEAR:
            return self._clear(test, spot)
        if test.kind == t.OHMS:
            return f"Key off; part {spot} from what feeds it; ohms across the side toward the speaker."
        past = self._piece(test.piece)
        return f"Key off; clip leads past {past}, + to + and − to −; play {self.channel(test)}, volume low."

    def _by_itself(self, test: Test) -> str:
        """Of what protects: the unit with its leads off."""
        unit = self.circuit.outputs[self.circuit.legs[test.leg].driver].unit
        if test.kind == t.LOOK:
            return f"Power on, volume at nothing; look at {unit}: does its light show protect, or does it cut out?"
        off = f"Power off; all speaker leads off {unit}"
        if test.kind == t.ALL_OFF:
            return f"{off}; power on, volume at nothing: does it still show protect or cut out?"
        if test.kind == t.COOL:
            return f"{off}; let it cool for 20 minutes; power on, volume at nothing: at once again, or only when warm?"
        return f"{off}; power on, volume at nothing; DC volts across each output in turn."

    def _clear(self, test: Test, spot: str) -> str:
        leg = self.circuit.legs[test.leg]
        if leg.speaker:
            return (
                f"Key off; part {spot} from what feeds it; ohms from each wire behind to the body and to other pairs."
            )
        far = leg.receiver.replace(".", " ")
        return (
            f"Key off; part {spot} from what feeds it, the leads off {far} too; ohms between the two wires, and from "
            "each to the body and to other pairs."
        )

    def _whine(self, test: Test) -> str:
        """What is tried with the engine running and a silent track."""
        asked = "power on, engine running, silent track: is the noise still there?"
        if test.kind == t.ENGINE:
            return "Silent track; engine running until it is heard, then engine off, key on: is it still there?"
        spot = self.spot(test)
        if test.kind == t.ONE:
            loop = next(each for each in self.circuit.loops if each.piece == test.piece)
            point = pair_words(self.wiring, (loop.point,))
            return f"Power off; the ground cable off {spot}, one for a try from there to {point}; {asked}"
        if test.kind == t.FEED:
            return f"Power off; the signal leads off {spot}, a player on its own battery on them; {asked}"
        unit, _, port = self.circuit.legs[test.leg].receiver.partition(".")
        plain = self.wiring.job.parts.units[unit].ports[port].signal.form == "grounded"
        end = "a shorting plug on the input" if plain else "insulated"
        return f"Power off; the signal leads off {spot}, {end}; {asked}"

    def _at_point(self, test: Test) -> str:
        spot, channel, symptom = self.spot(test), self.channel(test), self._symptom(test)
        if symptom == INTERMITTENT:
            heard = self._listener(test)
            return f"Play {channel} only; AC volts across {spot}, watched until {heard} has dropped out once."
        if symptom == FAINT:
            return f"Play {channel} only, volume low; AC volts across {spot}, beside the same point of a good channel."
        if symptom == REVERSED:
            return f"Play a polarity pulse on {channel} only; checker across {spot}, its + on the +."
        if symptom == WRONG:
            return f"Play one channel after the other, volume low; AC volts across {spot}: which one is there?"
        if symptom == NOISE:
            return f"Silent track, engine running; a small battery amplifier with headphones across {spot}."
        return f"Play {channel} only, volume low; AC volts across {spot}."

    def _swap(self, test: Test) -> str:
        own, other = self.circuit.legs[test.leg], self.circuit.legs[test.partner]
        ends = (own.receiver, other.receiver) if test.kind == t.SWAP_IN else (own.driver, other.driver)
        what = "leads of inputs" if test.kind == t.SWAP_IN else "speaker leads of"
        pair = " and ".join(end.replace(".", " ") for end in ends)
        return f"Power off; exchange the {what} {pair}; power on, play: where is the fault now?"

    def _by_wire(self, test: Test) -> str:
        """Tests of feeds, grounds and turn-on, and of one piece by hand."""
        piece = self._piece(test.piece) if test.piece >= 0 else ""
        if test.kind == t.FUSE:
            return f"Key off; {piece} out, ohms across it, and a look at its holder."
        if test.kind == t.WIGGLE:
            return f"Play; one person at {self._listener(test)}, the other moves {piece}, and nothing else."
        spot = self.spot(test)
        if test.kind == t.DC:
            turn_on = self.circuit.lines[test.line].kind == "turn-on"
            state = "key on, radio on" if turn_on else "battery on"
            return f"DC volts from battery − to {spot}, {state}."
        if test.kind in (t.SAG, t.DROP) and self.symptom == PROTECTS:
            line = self.circuit.lines[test.line]
            return (
                f"The leads off {line.unit}, a known-good speaker on one output; louder until it cuts out; DC volts "
                f"from battery − to {spot} just then."
            )
        if test.kind == t.DROP:
            return f"DC volts from battery − to {spot}, while it plays loud."
        if test.kind == t.OFF:
            return f"The turn-on wire off at {spot}, its end insulated; key off, and wait until the car is asleep."
        return f"DC volts from battery − to {spot}, key off, the car asleep."

    def _listener(self, test: Test) -> str:
        return f"speaker {test.speaker or self.session.symptoms[0].subject}"

    def means(self, test: Test, result: str) -> str:
        """What an answer says, in a few words."""
        symptom = self._symptom(test)
        if test.kind == t.HOLD and symptom == PROTECTS and result in HELD:
            return HELD[result]
        if result.startswith(t.MORE_ON):
            return "faulty inside; put no speaker on it again"
        # of several symptoms another one's word may come up: two faults at once
        row = (symptom, *(word for word in _WORST_FIRST if word in self._said.values()))
        known = MEANS.get((test.kind, result)) or next(
            (AT_POINT[w, result] for w in row if (w, result) in AT_POINT), None
        )
        if known is None and result.startswith("plays "):
            return "another channel is there: crossed before this point"
        return known or result

    def caution(self, test: Test) -> str:
        """The one caution that matters most here."""
        if test.kind in (t.DC, t.SAG):
            line = self.circuit.lines[test.line]
            passed = [number for step in line.steps[: test.at] for number in step.pieces]
            if line.kind == "feed" and not any(self.circuit.pieces[each].kind == kinds.FUSE for each in passed):
                return UNFUSED
        return CAUTION[test.kind]

    def word(self, test: Test, result: str) -> str:
        """The answer as it is printed beside its number."""
        if test.kind == t.SIGNAL and result == "signal":
            own = {REVERSED: "right way round", WRONG: f"plays {self.channel(test)}", NOISE: "clean"}
            return own.get(self._symptom(test), result)
        return result

    def result(self, test: Test, said: str) -> str:
        """The answer meant by a word as it is printed; any other text as it is."""
        folded = " ".join(said.lower().split())
        asked = self.session.next_test() is not None
        results = self.session.results(test) if asked else self.session.confirmations(test)
        return next((each for each in results if self.word(test, each).lower() == folded), said)

    # -- the end -----------------------------------------------------------------------------------------

    def end_lines(self) -> list[str]:
        """One place, or a set that no test splits, with what to do; or that nothing explains it."""
        session = self.session
        if not session.suspects:
            return self._nothing()
        ranked = session.ranked
        if len(ranked) == 1:
            first = "Found" if session.answers else "Only one thing explains it"
            if session.borne_out is False:
                return self._misheard()
            if session.confirming() is not None:
                first = "Found, if every answer was right" + (" and no record outdated" if self._by_records() else "")
            if session.borne_out:
                first = "Found, and borne out"
            lines = [f"{first}: {suspect_words(session, ranked[0].faults)}."]
            return lines + [f"  Do now: {self.remedy(fault)}" for fault in ranked[0].faults]
        why = "No allowed test splits what is left" if session.power else "No test with the power off tells more"
        lines = [f"{why}; it is one of {len(ranked)}, likeliest first:"]
        for suspect in ranked[:_SHOWN]:
            lines.append(f"  {round(100 * suspect.share):3d} % {suspect_words(session, suspect.faults)}")
            if not session.double:
                lines.append(f"        {self.remedy(suspect.faults[0])}")
        if len(ranked) > _SHOWN:
            lines.append(f"        and {len(ranked) - _SHOWN} more")
        sure = set.intersection(*(set(session.pieces_of(suspect.faults)) for suspect in ranked))
        for number in sorted(sure):
            lines.append(f"  In all of them: {self._piece(number)}.")
        if sure:
            lines.append("  Do now: put that right first, play, and ask again with what is still wrong.")
        else:
            lines.append("  Do now: put them right one after the other in this order, and play after each.")
        return lines

    def apart_lines(self) -> list[str]:
        """Of a noise: the units on the ways looked for that share a signal and are grounded apart (F10)."""
        reaching = self.session.simulator.whine.reaching
        noisy = [subject for subject, word in self._said.items() if word == NOISE]
        return [
            f"{each.giver} and {each.taker} share a signal and are grounded at two points (F10): if it whines, try "
            "both at one point early."
            for each in self.circuit.loops
            if any(each.piece in reaching(speaker) for speaker in noisy)
        ]

    def _by_records(self) -> bool:
        """Whether a record has ruled out anything."""
        return self.session.start != self.session.chooser.everything

    def _misheard(self) -> list[str]:
        """The test to be sure says otherwise: one of the answers was mistaken."""
        what = "an answer or a record before: one was misheard, a key mistaken, or a record is outdated"
        if not self._by_records():
            what = "an answer before: one of them was misheard, or a key mistaken"
        lines = [f"That speaks against {what}. It is then one of:"]
        ranked = self.session.one_misheard
        for suspect in ranked[:_SHOWN]:
            lines.append(f"  {round(100 * suspect.share):3d} % {suspect_words(self.session, suspect.faults)}")
        if len(ranked) > _SHOWN:
            lines.append(f"        and {len(ranked) - _SHOWN} more")
        return [*lines, "  Do now: make the tests again in their order, and look at each key."]

    def _nothing(self) -> list[str]:
        told = ", ".join(each.words for each in self.session.symptoms)
        again = "listen to every speaker again, and name all that isn’t right"
        if self.session.double:
            return [f"No one or two faults of the plan explain just this: {told}.", f"  Do now: {again}."]
        return [
            f"No single fault of the plan explains just this: {told}.",
            f"  Do now: {again}; or look for two faults with --double.",
        ]

    def remedy(self, fault: Fault) -> str:
        """What a person does at the place found."""
        piece = self.circuit.pieces[fault.piece]
        if fault.mode == "turned":
            return TURNED.get(piece.kind, "Key off; exchange its two wires, then check the polarity again.")
        if fault.mode == "crossed":
            return "Key off; put each pair where the other one is, one at a time, then play both channels."
        plain = WITH_UNIT.get(fault.mode, fault.mode)
        if plain in PROTECTED:
            return SAGGING_FUSE if piece.kind == kinds.FUSE else PROTECTED[plain]
        if fault.mode in TOUCHES:
            return (
                "Key off; look where it is bent, rubs, or a strand stands out; part it, mend it, and read it clear of "
                "everything before power."
            )
        if fault.mode == "stays on":
            return STUCK.get(piece.kind, "Find where this wire touches 12 V; part it and lay it anew.")
        if fault.mode in ("noisy", "poor ground") and self.symptom == NOISE and piece.kind in WHINING:
            return WHINING[piece.kind]
        if fault.mode in ("weak", "noisy", "hiss") and piece.kind in SET:
            return SET[piece.kind]
        if piece.kind == kinds.SPEAKER and self.wiring.job.parts.speakers[piece.name].capacitor:
            return BEHIND_CAPACITOR
        return REMEDY[piece.kind]
