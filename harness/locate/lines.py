"""What the units live on: feed, ground and turn-on, each a single wire from where it comes to the terminal."""

from __future__ import annotations

from harness.graph.feeding import is_live
from harness.graph.fitted import ours, terminals_for
from harness.graph.grounding import is_signal_wire
from harness.graph.waking import Giver, coil_plus, givers, sources, wakes
from harness.graph.wiring import OUTPUT, Wiring
from harness.locate import circuit as kinds
from harness.locate.circuit import Line, Piece, Step
from harness.locate.cutting import Cutting
from harness.locate.wires import Pieces
from harness.model.contact import CHASSIS


class Lines:
    """The lines of the units added so far, the piece that each unit is, and the units with a line unwritten."""

    def __init__(self, wiring: Wiring, pieces: Pieces, cutting: Cutting) -> None:
        self.wiring, self.pieces, self.cutting = wiring, pieces, cutting
        self.made: dict[tuple[str, str, str], Line] = {}
        self.units: dict[str, int] = {}
        self.unwired: set[str] = set()
        self._laid = {each.name for each in ours(wiring)}

    def add(self, name: str) -> None:
        """A unit, what it needs, and the units that give it its turn-on."""
        row = [name]
        for name in row:
            if name in self.units or name not in self.wiring.job.parts.units:
                continue
            unit = self.wiring.job.parts.units[name]
            laid = not unit.is_source and name in self._laid
            self.units[name] = -1
            complete = True
            for kind in ("feed", "ground"):
                function = {"feed": "battery", "ground": "ground"}[kind]
                terminals = terminals_for(self.wiring, name, function) if laid else []
                lines = [self._line(kind, name, terminal) for terminal in terminals]
                complete = complete and any(lines)
            if laid:
                row += self._turn_on(name)
            if not complete:
                self.unwired.add(name)
            about = "" if complete or unit.is_source else ", or its supply and ground, which the job doesn’t write"
            about = ", its own supply and ground with it" if unit.is_source or not laid else about
            piece = Piece(kinds.UNIT, name, frozenset(), f"{name} itself{about}", unit.where, not unit.is_source)
            self.units[name] = self.pieces.add(piece)

    def _line(self, kind: str, unit: str, terminal: str) -> bool:
        """Lays a feed or ground out; False where the terminal reaches none."""
        wiring = self.wiring
        planned = wiring.planned
        if kind == "feed":
            goal = planned.nearest(terminal, lambda name: self._feeds(name, unit))
        else:
            goal = CHASSIS if planned.joined(terminal, CHASSIS) else ""
        if not goal:
            return False
        hops = planned.path(goal, terminal)
        start, found = self.pieces.stretches(goal, hops)
        steps = tuple(Step(self.pieces.of(stretch), stretch.contact) for stretch in found)
        needed, hum = set[int](), set[int]()
        for number in dict.fromkeys(number for step in steps for number in step.pieces):
            if kind == "feed":
                without = self.cutting.conductors(number)
                around = {} if self.cutting.tree(terminal) else planned.around(terminal, without)
                if not any(self._feeds(name, unit) for name in around):
                    needed.add(number)
                continue
            way = planned.path(terminal, CHASSIS, self.cutting.conductors(number))
            if not way:
                needed.add(number)
            elif any(is_signal_wire(wiring, hop.conductor) for hop in way):
                hum.add(number)
        self.made[kind, unit, terminal] = Line(kind, unit, start, steps, frozenset(needed), frozenset(hum))
        return True

    def _feeds(self, name: str, unit: str) -> bool:
        contact = self.wiring.contact(name)
        return (
            contact.owner != unit
            and contact.function.kind in ("battery", "switched")
            and self.wiring.role(name) != OUTPUT
            and contact.kind in ("battery", "plug")
            and is_live(self.wiring, name)
        )

    def _turn_on(self, unit: str) -> list[str]:
        """Lays out what wakes a unit; gives the units that the 12 V comes from."""
        wiring = self.wiring
        more = []
        for wake in wakes(wiring):
            if wake.unit != unit or wake.coil:
                continue
            found = sources(wiring, wake.contact)
            if not found:
                self.unwired.add(unit)
                continue
            giver = found[0]
            here = wake.contact
            parts: list[Step] = []
            for relay in giver.through:
                exits = (f"{relay}.{last}" for last in ("87", "30", "87a", "k"))
                exit_at = next((e for e in exits if e in wiring.job.contacts and wiring.planned.joined(here, e)), "")
                if not exit_at:
                    break
                parts = [*self._single(exit_at, here), *parts]
                about = wiring.job.parts.units[relay]
                piece = Piece(kinds.RELAY, relay, frozenset(), f"{about.kind} {relay}", about.where, True)
                parts.insert(0, Step((self.pieces.add(piece),), exit_at))
                here = coil_plus(wiring, relay) if about.kind == "relay" else f"{relay}.a"
            parts = [*self._single(giver.contact, here), *parts]
            parts.insert(0, Step((self._giver(giver),), giver.contact))
            steps = tuple(parts)
            needed = frozenset(n for step in steps for n in step.pieces if self._wakes_by(n, wake.contact, giver))
            self.made["turn-on", unit, wake.contact] = Line(
                "turn-on", unit, giver.contact, steps, needed, giver=giver.unit
            )
            more.append(giver.unit)
        return more

    def _single(self, start: str, end: str) -> list[Step]:
        _, found = self.pieces.stretches(start, self.wiring.planned.path(start, end))
        return [Step(self.pieces.of(stretch), stretch.contact) for stretch in found]

    def _giver(self, giver: Giver) -> int:
        about = self.wiring.words(giver.contact)
        where = ""
        if giver.unit and giver.unit in self.wiring.job.parts.units:
            where = self.wiring.job.parts.units[giver.unit].where
        return self.pieces.add(
            Piece(kinds.GIVER, giver.contact, frozenset(), f"the 12 V that {about} should give", where, False)
        )

    def _wakes_by(self, number: int, contact: str, giver: Giver) -> bool:
        """Whether a unit sleeps without this piece: not where another giver of the net still reaches it."""
        if giver.through or not self.pieces.made[number].wires:
            return giver.through != () or len(givers(self.wiring, contact)) < 2
        reached = self.wiring.planned.around(contact, self.cutting.conductors(number))
        return not any(each.contact in reached for each in givers(self.wiring, contact))
