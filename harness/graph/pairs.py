"""The pairs of the plugs that the plan uses, and how well each is known."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph import fates
from harness.graph.wiring import Wiring
from harness.model.function import read_function
from harness.model.parts import Row


class UsedPair(NamedTuple):
    """A pair of a plug (by its two rows, + first) that the plan opens or taps, and its state."""

    plug: str
    plus: Row
    minus: Row
    fate: str
    state: str  # charted | measured | toned

    @property
    def name(self) -> str:
        return f"{self.plug}.{self.plus.cavity}/{self.minus.cavity}"


_USED = (fates.INTERCEPTED, fates.TAPPED, fates.ONE_END)


def pairs_of(wiring: Wiring, plug_name: str) -> list[tuple[Row, Row]]:
    """Every pair of speaker wires of a plug, + first, by its functions."""
    by_base: dict[str, dict[str, Row]] = {}
    for row in wiring.job.parts.plugs[plug_name].rows:
        if row.function.kind in ("audio", "port") and row.function.sign:
            by_base.setdefault(row.function.base, {}).setdefault(row.function.sign, row)
    return [(signs["+"], signs["-"]) for signs in by_base.values() if "+" in signs and "-" in signs]


def used_pairs(wiring: Wiring) -> list[UsedPair]:
    """Pairs whose factory wires the plan opens or taps; a pair that is only passed on is not used."""
    job = wiring.job
    toned = _toned(wiring)
    made = []
    for plug in job.parts.plugs.values():
        if plug.inline:
            continue
        fate_of = {each.row.cavity: each.fate for each in wiring.fates.cavities(plug.name)}
        for plus, minus in pairs_of(wiring, plug.name):
            fate = next((fate_of[c] for c in (plus.cavity, minus.cavity) if fate_of[c] in _USED), "")
            if not fate:
                continue
            contacts = frozenset((f"{plug.name}.car.{plus.cavity}", f"{plug.name}.car.{minus.cavity}"))
            if toned.get(contacts) == plus.function.base:
                state = "toned"
            elif contacts <= job.read_ohms:
                state = "measured"
            else:
                state = "charted"
            made.append(UsedPair(plug.name, plus, minus, fate, state))
    return made


def _toned(wiring: Wiring) -> dict[frozenset[str], str]:
    """Pairs with a tone that answered as charted: contacts -> the function charted then.

    The last record of a pair counts; one that was heard elsewhere proves the chart wrong, not right.
    """
    made = {}
    for tone in wiring.job.tones:
        contacts = frozenset(name.replace(".unit.", ".car.", 1) for name in tone.contacts)
        heard = {function.base for word in tone.heard.split() if (function := read_function(word))}
        made[contacts] = tone.charted if tone.charted in heard else ""
    return made
