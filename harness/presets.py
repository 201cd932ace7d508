"""The shop's named choices where the trade disagrees, as plain data with the basis of each.

A preset says for every class of wire which joint methods are allowed on it, and holds the disputed figures.
It knows nothing of what a job is: a class is two words, where the wire is and what it carries.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

# Where a joint is made: on the car's own wire, on a loom's lead, or at a terminal of a unit only.
FACTORY, LOOM, TERMINAL = "factory", "loom", "terminal"

# What the wire carries.
POWER, GROUND, DATA, RESTRAINT, AUDIO, SIGNAL = "power", "ground", "data", "restraint", "audio", "signal"

PRACTICE = "common practice, no source"
CODE_OF_PRACTICE = "FCS 1362:2010 2.6.1.4, as quoted in the trade, seen 2026; revised 2022, not seen"


class Allowed(NamedTuple):
    """The joint methods allowed on one class of wire, and who says so."""

    methods: tuple[str, ...]
    basis: str


class Figure(NamedTuple):
    """A disputed figure in SI, in words as the shop says it, and who says so."""

    value: float
    words: str
    basis: str


@dataclass(frozen=True, slots=True)
class Preset:
    """One named set of choices. `joints` goes by (where, what); `figures` by the key used under `limits`."""

    name: str
    words: str
    joints: dict[tuple[str, str], Allowed]
    figures: dict[str, Figure]
    fuse_chart: str  # which chart says how much a cable may carry; see harness.electrical.fuses

    def allowed(self, where: str, what: str) -> Allowed:
        """What may be done on a class of wire. Raises KeyError for words that are no class."""
        return self.joints[where, what]


_NOTHING = Allowed((), "no joint belongs on a restraint circuit; workshop manual, maker withheld")
_INSULATED = "an interface maker's manual, seen 2026, origin withheld: insulated solder, wire uncut"
_AS_MAKER_SAYS = "the unit's maker may ask for solder; " + PRACTICE
_STUB = Figure(0.5, "0.5 m", "a motorsport unit's manual, seen 2026, origin withheld")

# What both camps share.
_SUPPLY = {
    "supply": Figure(13.8, "13.8 V", "engine running; a retailer's guide, seen 2026"),
    "drop": Figure(0.5, "0.5 V", "FAA AC 43.13-1B, table 11-6, 14 V continuous; the trade's cable charts use the same"),
    "temperature": Figure(20.0, "20 C", "IEC 60228:2004 and NBS Handbook 100: resistance is stated at 20 °C"),
    "ground length": Figure(0.4572, "18 in", PRACTICE),
    "slack": Figure(
        0.1,
        "100 mm",
        "each end, for a second splice: workshop text, withheld; FAA AC 43.13-1B: a drip loop, one re-termination",
    ),
}

_HOUSE = Preset(
    name="house",
    words="solder or crimp in a loom; a piercing tap only on a factory wire that carries a plain signal",
    joints={
        (FACTORY, POWER): Allowed(("solder", "crimp"), CODE_OF_PRACTICE),
        (FACTORY, GROUND): Allowed(("solder", "crimp"), CODE_OF_PRACTICE),
        (FACTORY, DATA): Allowed(("solder", "crimp"), _INSULATED),
        (FACTORY, RESTRAINT): _NOTHING,
        (FACTORY, AUDIO): Allowed(("solder", "crimp"), CODE_OF_PRACTICE),
        (FACTORY, SIGNAL): Allowed(("solder", "crimp", "pierce"), PRACTICE),
        (LOOM, POWER): Allowed(("solder", "crimp"), PRACTICE),
        (LOOM, GROUND): Allowed(("solder", "crimp"), PRACTICE),
        (LOOM, DATA): Allowed(("solder", "crimp"), PRACTICE),
        (LOOM, RESTRAINT): _NOTHING,
        (LOOM, AUDIO): Allowed(("solder", "crimp"), PRACTICE),
        (LOOM, SIGNAL): Allowed(("solder", "crimp"), PRACTICE),
        (TERMINAL, POWER): Allowed(("screw", "ring", "crimp", "solder"), PRACTICE),
        (TERMINAL, GROUND): Allowed(("screw", "ring", "crimp", "solder"), PRACTICE),
        (TERMINAL, DATA): Allowed(("screw", "crimp", "solder"), PRACTICE),
        (TERMINAL, RESTRAINT): _NOTHING,
        (TERMINAL, AUDIO): Allowed(("screw", "ring", "crimp", "solder"), PRACTICE),
        (TERMINAL, SIGNAL): Allowed(("screw", "ring", "crimp", "solder"), PRACTICE),
    },
    figures={
        "untwist": Figure(0.100, "100 mm", "workshop manual of one maker, withheld"),
        "stub": _STUB,
        "fuse distance": Figure(0.4572, "18 in", "contest rule as retold by retailers, seen 2026, origin unknown"),
        "speaker wire": Figure(0.05, "5 %", PRACTICE),
        **_SUPPLY,
    },
    fuse_chart="A",
)

_CRIMPED = "strands break where solder ends: a retailer's guide and a boating standard as quoted, seen 2026"

_CRIMP = Preset(
    name="crimp",
    words="no solder in a loom that shakes: factory wires and looms are crimped, units as their maker says",
    joints={
        (FACTORY, POWER): Allowed(("crimp",), _CRIMPED),
        (FACTORY, GROUND): Allowed(("crimp",), _CRIMPED),
        (FACTORY, DATA): Allowed(("crimp", "solder"), _INSULATED),
        (FACTORY, RESTRAINT): _NOTHING,
        (FACTORY, AUDIO): Allowed(("crimp",), _CRIMPED),
        (FACTORY, SIGNAL): Allowed(("crimp",), _CRIMPED),
        (LOOM, POWER): Allowed(("crimp",), _CRIMPED),
        (LOOM, GROUND): Allowed(("crimp",), _CRIMPED),
        (LOOM, DATA): Allowed(("crimp",), _CRIMPED),
        (LOOM, RESTRAINT): _NOTHING,
        (LOOM, AUDIO): Allowed(("crimp",), _CRIMPED),
        (LOOM, SIGNAL): Allowed(("crimp",), _CRIMPED),
        (TERMINAL, POWER): Allowed(("screw", "ring", "crimp"), PRACTICE),
        (TERMINAL, GROUND): Allowed(("screw", "ring", "crimp"), PRACTICE),
        (TERMINAL, DATA): Allowed(("screw", "crimp"), PRACTICE),
        (TERMINAL, RESTRAINT): _NOTHING,
        (TERMINAL, AUDIO): Allowed(("screw", "ring", "crimp", "solder"), _AS_MAKER_SAYS),
        (TERMINAL, SIGNAL): Allowed(("screw", "ring", "crimp", "solder"), _AS_MAKER_SAYS),
    },
    figures={
        "untwist": Figure(0.050, "50 mm", "workshop manual of a second maker, withheld"),
        "stub": _STUB,
        "fuse distance": Figure(0.3048, "12 in", "retailer's guide, seen 2026, origin unknown"),
        "speaker wire": Figure(0.0559, "0.5 dB", PRACTICE),
        **_SUPPLY,
    },
    fuse_chart="B",
)


@lru_cache(maxsize=1)
def _presets() -> dict[str, Preset]:
    return {each.name: each for each in (_CRIMP, _HOUSE)}


def names() -> tuple[str, ...]:
    """The names of all presets, sorted."""
    return tuple(sorted(_presets()))


def preset(name: str) -> Preset:
    """The preset of that name, matched without case. Raises KeyError where there is none."""
    return _presets()[name.lower()]
