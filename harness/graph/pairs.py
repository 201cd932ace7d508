"""The pairs of the plugs that the plan uses, and how well each is known."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph import fates
from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.function import read_function
from harness.model.job import Tone
from harness.model.parts import Row


class UsedPair(NamedTuple):
    """A pair of a plug (by its two rows, + first) that the plan opens or taps, and its state.

    `contrary` says what a tone found that the chart doesn't say; empty where none did.
    """

    plug: str
    plus: Row
    minus: Row
    fate: str
    state: str  # charted | measured | toned
    contrary: str = ""
    tone: Tone | None = None  # the last one taken of it

    @property
    def name(self) -> str:
        return f"{self.plug}.{self.plus.cavity}/{self.minus.cavity}"

    @property
    def on_the_car(self) -> tuple[str, str]:
        """Its contacts on the car's half, + first."""
        return f"{self.plug}.car.{self.plus.cavity}", f"{self.plug}.car.{self.minus.cavity}"


_USED = (fates.INTERCEPTED, fates.TAPPED, fates.ONE_END)


def pairs_of(wiring: Wiring, plug_name: str) -> list[tuple[Row, Row]]:
    """Every pair of speaker wires of a plug, + first, by its functions."""
    return _all_pairs(wiring)[plug_name]


@kept
def _all_pairs(wiring: Wiring) -> dict[str, list[tuple[Row, Row]]]:
    made = {}
    for plug in wiring.job.parts.plugs.values():
        by_base: dict[str, dict[str, Row]] = {}
        for row in plug.rows:
            function = row.function
            if function.kind in ("audio", "port") and function.sign:
                by_base.setdefault(function.base, {}).setdefault(function.sign, row)
        made[plug.name] = [(signs["+"], signs["-"]) for signs in by_base.values() if "+" in signs and "-" in signs]
    return made


@kept
def used_pairs(wiring: Wiring) -> list[UsedPair]:
    """Pairs whose factory wires the plan opens or taps; a pair that is only passed on is not used."""
    job = wiring.job
    tones = last_tones(wiring)
    made = []
    for plug in job.parts.plugs.values():
        if plug.inline:
            continue
        for plus, minus in pairs_of(wiring, plug.name):
            fate = wiring.fates.cavity(plug.name, plus.cavity).fate
            if fate not in _USED:
                fate = wiring.fates.cavity(plug.name, minus.cavity).fate
            if fate not in _USED:
                continue
            contacts = frozenset((f"{plug.name}.car.{plus.cavity}", f"{plug.name}.car.{minus.cavity}"))
            tone = tones.get(contacts)
            contrary = _contrary(tone, plus) if tone else ""
            if tone and not contrary and says(tone, plus.function.base):
                state = "toned"
            elif contacts <= job.read_ohms:
                state = "measured"
            else:
                state = "charted"
            made.append(UsedPair(plug.name, plus, minus, fate, state, contrary, tone))
    return made


def says(tone: Tone, base: str) -> bool:
    """Whether a tone confirms a channel: charted so and heard, or heard alone where the chart was corrected to it."""
    return tone.charted == base or tone.heard == base


@kept
def last_tones(wiring: Wiring) -> dict[frozenset[str], Tone]:
    """The last tone of each pair, by the pair's contacts on the car side."""
    return {frozenset(name.replace(".unit.", ".car.", 1) for name in tone.contacts): tone for tone in wiring.job.tones}


def _contrary(tone: Tone, plus: Row) -> str:
    """What a tone found against the chart: another speaker, or + on the other wire."""
    heard = {function.base for word in tone.heard.split() if (function := read_function(word))}
    if tone.heard and plus.function.base not in heard:
        return f"charted {plus.function.base}, heard {tone.heard}"
    if tone.plus and tone.plus.rsplit(".", 1)[-1].lower() != plus.cavity.lower():
        return f"charted + {plus.cavity}, found + {tone.plus}"
    return "" if tone.heard else "no speaker answered"
