"""What parts when a piece is open: nothing where the wiring goes round it."""

from __future__ import annotations

from harness.graph.conductor import Conductor
from harness.graph.wiring import Wiring
from harness.locate.circuit import PIN
from harness.locate.wires import Pieces


class Cutting:
    """Questions about single pieces. In a net with one way between any two contacts nothing is searched."""

    def __init__(self, wiring: Wiring, pieces: Pieces) -> None:
        self.wiring, self.pieces = wiring, pieces
        self._trees: dict[int, bool] = {}
        self._open: dict[int, frozenset[Conductor]] = {}
        self._ways: dict[tuple[str, str], list[Conductor]] = {}

    def cuts(self, a: str, b: str, number: int) -> bool:
        """Whether two contacts part once the piece is open."""
        if a == b:
            return False
        without = self.conductors(number)
        if self.tree(a):
            return any(each in without for each in self._on_way(a, b))
        return not self.wiring.planned.path(a, b, without)

    def _on_way(self, a: str, b: str) -> list[Conductor]:
        key = (a, b)
        if key not in self._ways:
            self._ways[key] = [hop.conductor for hop in self.wiring.planned.path(a, b)]
        return self._ways[key]

    def conductors(self, number: int) -> frozenset[Conductor]:
        """What is open where a piece is: its conductors; of a lead all that hangs on its free end."""
        made = self._open.get(number)
        if made is None:
            found: list[Conductor] = []
            for a, b in self.pieces.made[number].wires:
                if a.endswith(PIN):
                    found += [
                        each for each in self.wiring.planned.conductors(b) if each.kind not in ("plugged", "lead")
                    ]
                else:
                    found.append(self.pieces.conductors[a, b])
            made = self._open[number] = frozenset(found)
        return made

    def tree(self, contact: str) -> bool:
        """Whether there is only one way between any two contacts of a net."""
        planned = self.wiring.planned
        number = planned.net_number(contact)
        known = self._trees.get(number)
        if known is None:
            net = planned.nets[number]
            known = self._trees[number] = sum(len(planned.conductors(name)) for name in net) == 2 * (len(net) - 1)
        return known
