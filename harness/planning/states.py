"""How well each pair of a plug is known, also of pairs that the plan only passes on."""

from __future__ import annotations

from harness.graph.contrary import HEARD, PLUS, contrary, pairs_against
from harness.graph.kept import kept
from harness.graph.pairs import UsedPair, pairs_of, used_pairs
from harness.graph.toned import told
from harness.graph.wiring import Wiring
from harness.model.evidence import NOTHING
from harness.model.parts import Row


@kept
def contradictions(wiring: Wiring) -> dict[str, str]:
    """`contradicted: RL heard` by pair, `dash.1/9`, of each of which a tone or a look for + said otherwise."""
    made = {}
    for each in contrary(wiring):
        if each.kind in (HEARD, PLUS):
            a, b = (name.rsplit(".", 1)[-1] for name in each.contacts)
            found = each.reads.removeprefix("heard ").removeprefix("found + ").rsplit(".", 1)[-1]
            said = "nothing heard" if found in (*NOTHING, "no speaker answered") else f"{found} heard"
            said = f"+ on {found}" if each.kind == PLUS else said
            made[f"{each.contacts[0].split('.', 1)[0]}.{a}/{b}"] = f"contradicted: {said}"
    return made


def contradicted_at(wiring: Wiring, *contacts: str) -> str:
    """What the car says against a pair that one of these contacts is joined to in the plan; empty where nothing."""
    if not wiring.job.records:
        return ""
    nets = _contradicted_nets(wiring)
    return next((nets[number] for name in contacts if (number := wiring.planned.net_number(name)) in nets), "")


@kept
def _contradicted_nets(wiring: Wiring) -> dict[int, str]:
    made = {}
    for pair, words in contradictions(wiring).items():
        plug, _, cavities = pair.rpartition(".")
        for cavity in cavities.split("/"):
            for half in ("unit", "car"):
                made[wiring.planned.net_number(f"{plug}.{half}.{cavity}")] = words
    return made


class PairStates:
    """The state (charted, measured, toned, or contradicted and by what) of every pair of every plug of a job."""

    def __init__(self, wiring: Wiring) -> None:
        self._wiring = wiring
        self.used: dict[str, UsedPair] = {pair.name: pair for pair in used_pairs(wiring)}
        self._against = contradictions(wiring)

    def state(self, plug: str, plus: Row, minus: Row) -> str:
        """charted, measured or toned; a tone counts only while the chart still says what it said then."""
        used = self.used.get(f"{plug}.{plus.cavity}/{minus.cavity}")
        if used is not None:
            return pairs_against(self._wiring).get(used.name, used.state)
        if f"{plug}.{plus.cavity}/{minus.cavity}" in self._against:
            return self._against[f"{plug}.{plus.cavity}/{minus.cavity}"]
        contacts = frozenset((f"{plug}.car.{plus.cavity}", f"{plug}.car.{minus.cavity}"))
        if told(self._wiring, self._wiring.job.parts.plugs[plug], plus, minus).toned:
            return "toned"
        return "measured" if contacts <= self._wiring.job.read_ohms else "charted"

    def by_cavity(self, plug: str) -> dict[str, str]:
        """Cavity -> state, for the cavities that are part of a speaker pair."""
        made = {}
        for plus, minus in pairs_of(self._wiring, plug):
            made[plus.cavity] = made[minus.cavity] = self.state(plug, plus, minus)
        return made
