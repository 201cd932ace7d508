"""How well each pair of a plug is known, also of pairs that the plan only passes on."""

from __future__ import annotations

from harness.graph.pairs import UsedPair, last_tones, pairs_of, says, used_pairs
from harness.graph.wiring import Wiring
from harness.model.parts import Row


class PairStates:
    """The state (charted, measured, toned) of every pair of every plug of a job."""

    def __init__(self, wiring: Wiring) -> None:
        self._wiring = wiring
        self.used: dict[str, UsedPair] = {pair.name: pair for pair in used_pairs(wiring)}
        self._tones = last_tones(wiring)

    def state(self, plug: str, plus: Row, minus: Row) -> str:
        """charted, measured or toned; a tone counts only while the chart still says what it said then."""
        used = self.used.get(f"{plug}.{plus.cavity}/{minus.cavity}")
        if used is not None:
            return used.state
        contacts = frozenset((f"{plug}.car.{plus.cavity}", f"{plug}.car.{minus.cavity}"))
        tone = self._tones.get(contacts)
        if tone is not None and says(tone, plus.function.base):
            return "toned"
        return "measured" if contacts <= self._wiring.job.read_ohms else "charted"

    def by_cavity(self, plug: str) -> dict[str, str]:
        """Cavity -> state, for the cavities that are part of a speaker pair."""
        made = {}
        for plus, minus in pairs_of(self._wiring, plug):
            made[plus.cavity] = made[minus.cavity] = self.state(plug, plus, minus)
        return made
