"""What work and parts cost: the shop's own figures, and where it wrote none the tool's, told apart everywhere.

The tool's own are common practice without a source, but for the labour rate, the mean of a survey of about fifty
installers (trade press, 2013, in dollars).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from harness.joints import methods
from harness.joints.method import JointMethod
from harness.model.money import Money
from harness.model.shop import Shop

HOUR_MS = 3_600_000
PRACTICE = "common practice, no source"
SURVEY = "a survey of about fifty installers, 2013, in dollars"
DASH = ("radio", "dash", "glove box", "cluster", "steering column")
BENCH = "the bench"
IN_DASH = "in the dash"

_LABOUR = 7750  # hundredths an hour
_CONSUMABLES = 50  # hundredths a joint
_JOINT_MIN = {"solder": (6.0, 4.0), "crimp": (1.5, 1.0), "screw": (1.0, 1.0), "ring": (2.0, 2.0)}  # in the dash, else
_OTHER_JOINT_MIN = (1.0, 1.0)
_WORK_MIN = {"mate": 5.0, "cut end off": 2.0, "pull": 2.0, "move": 3.0, "cap": 1.0}
_RECHECK_MIN = {"position": 0.5, "lock": 0.5, "tug": 0.25}


@dataclass(frozen=True, slots=True)
class Default:
    """A figure that the shop hasn't written: what it is, as words, and who says so."""

    what: str
    words: str
    source: str


@dataclass(frozen=True)
class Rates:
    """All figures in hundredths of one currency and in milliseconds; asked by name."""

    shop: Shop | None

    @property
    def currency(self) -> str:
        return (self.shop.currency if self.shop else "") or "USD"

    @property
    def labour(self) -> int:
        """An hour of work, in hundredths."""
        return self.shop.labour.minor if self.shop and self.shop.labour else _LABOUR

    @property
    def consumables(self) -> int:
        """Solder, tape, flux: for each joint, in hundredths."""
        return self.shop.consumables.minor if self.shop and self.shop.consumables else _CONSUMABLES

    @cached_property
    def dash(self) -> tuple[str, ...]:
        words = self.shop.dash if self.shop and self.shop.dash else DASH
        return tuple(word.casefold() for word in words)

    def in_dash(self, place: str) -> bool:
        """Whether a place counts as in the dash: one of the shop's words for it stands in its name."""
        return any(word in place.casefold() for word in self.dash)

    def work_ms(self, what: str) -> int:
        """`mate`, `cut end off`, `pull`, `move` or `cap`, once."""
        return self.shop.works[what] if self.shop and what in self.shop.works else _ms(_WORK_MIN[what])

    def recheck_ms(self, what: str) -> int:
        """`position`, `lock` or `tug`, once."""
        return self.shop.recheck[what] if self.shop and what in self.shop.recheck else _ms(_RECHECK_MIN[what])

    def work_written(self, what: str) -> bool:
        """Whether the shop says how long this takes."""
        return self.shop is not None and what in self.shop.works

    def recheck_written(self, what: str) -> bool:
        """As `work_written`, of looking again."""
        return self.shop is not None and what in self.shop.recheck

    @property
    def moved_ms(self) -> int:
        """A terminal moved, looked at and pulled."""
        return self.work_ms("move") + self.recheck_ms("position") + self.recheck_ms("tug")

    @property
    def pulled_ms(self) -> int:
        """A terminal taken out, and its place looked at again."""
        return self.work_ms("pull") + self.recheck_ms("position")

    def joint_ms(self, method: str, place: str) -> int:
        """One joint of a method at a place: the entry with the longest words that fit, else the one for any place."""
        found = self._entry(method, place)
        if found is not None:
            return found
        in_dash, elsewhere = _JOINT_MIN.get(method, _OTHER_JOINT_MIN)
        return _ms(in_dash if self.in_dash(place) else elsewhere)

    def joint_written(self, method: str, place: str) -> bool:
        """Whether the shop says how long a joint of this method takes at a place."""
        return self._entry(method, place) is not None

    def _entry(self, method: str, place: str) -> int | None:
        low, best = place.casefold(), (-1, 0)
        for each in self.shop.joints if self.shop else ():
            if each.method != method:
                continue
            at = each.at.removeprefix("the ")
            if not at or at in low or (at == "dash" and self.in_dash(place)):
                best = max(best, (len(at), each.time_ms))
        return best[1] if best[0] >= 0 else None

    def pieces(self, method: JointMethod) -> tuple[str, ...]:
        """The loose parts that one joint takes."""
        return (*method.uses, "heat shrink") if method.needs_cover else method.uses

    def piece(self, name: str) -> int:
        """The price of a loose part, in hundredths; 0 where nobody wrote it."""
        there = self.shop.loose.get(name) if self.shop else None
        return there.store.price.minor if there and there.store.price else 0

    def piece_written(self, name: str) -> bool:
        """Whether the shop says what a loose part costs."""
        there = self.shop.loose.get(name) if self.shop else None
        return there is not None and there.store.price is not None

    def joint_parts(self, method: str) -> int:
        """What one joint of a method uses up, in hundredths."""
        return self.consumables + sum(map(self.piece, self.pieces(methods()[method])))

    @property
    def cap_parts(self) -> int:
        return self.piece("cap")

    def money(self, time_ms: int, parts: int) -> int:
        """Work and parts as one whole number, in hundredths by HOUR_MS: exact, to be compared and added."""
        return time_ms * self.labour + parts * HOUR_MS

    def defaults(self, used: Iterable[str]) -> tuple[Default, ...]:
        """Every figure above that is the tool's and not the shop's; of joints those of the methods in use."""
        shop, general = self.shop, self.general()
        made = [each for each in general if each.what != IN_DASH]
        for method in dict.fromkeys(used):
            in_dash, elsewhere = _JOINT_MIN.get(method, _OTHER_JOINT_MIN)
            if not any(each.method == method and not each.at for each in (shop.joints if shop else ())):
                dash = "" if self.joint_written(method, "dash") else f"{in_dash:g} min in the dash, "
                made.append(Default(f"one {method}", f"{dash}{elsewhere:g} min elsewhere", PRACTICE))
        for what, minutes in _WORK_MIN.items():
            if not self.work_written(what):
                made.append(Default(what, f"{minutes:g} min", PRACTICE))
        for what, minutes in _RECHECK_MIN.items():
            if not self.recheck_written(what):
                made.append(Default(f"recheck of {what}", f"{minutes:g} min", PRACTICE))
        return (*made, *(each for each in general if each.what == IN_DASH))

    def general(self) -> tuple[Default, ...]:
        """Of those the ones that no single work is: labour, consumables, and what counts as in the dash."""
        shop, made = self.shop, []
        if not (shop and shop.labour):
            made.append(Default("labour", f"{Money(_LABOUR, self.currency).words} an hour", SURVEY))
        if not (shop and shop.consumables):
            made.append(Default("consumables", f"{Money(_CONSUMABLES, self.currency).words} a joint", PRACTICE))
        if not (shop and shop.dash):
            made.append(Default(IN_DASH, ", ".join(DASH), PRACTICE))
        return tuple(made)


def _ms(minutes: float) -> int:
    return round(minutes * 60_000)
