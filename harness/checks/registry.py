"""How a check is declared, found and run."""

from __future__ import annotations

import importlib
import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from harness.checks.hides import HIDES
from harness.checks.listing import check_modules
from harness.finding import Finding, Severity, Spot

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring


class Fault(NamedTuple):
    """What a check yields. `at` is where to look first; `message` says where, what and what it will do.

    `do` says what to do now. `about` are the contacts concerned (for hiding and for mends);
    `also` are further places, of which what stands at the first one is passed over; `path` the contacts in order.
    """

    at: Spot
    message: str
    do: str
    about: tuple[str, ...] = ()
    also: tuple[Spot, ...] = ()
    path: tuple[str, ...] = ()


Look = Callable[["Wiring"], Iterable[Fault]]


@dataclass(frozen=True, slots=True)
class Check:
    """One check: its code, how bad, the fault's name, where the rule comes from, and the function.

    `by_joints` is False where the cause is a size, a value, a place or a setting: no change of joints, cuts, mates or
    fates mends that, it could only take away what the finding is about. The advice says what a person must do.
    `needs` is a fact of the job (see `Wiring.facts`) without which there is nothing to look at. `bases` are the entries
    of the basis that its own figures rest on.
    """

    code: str
    severity: Severity
    title: str
    source: str
    look: Look
    by_joints: bool = True
    needs: str = ""
    bases: tuple[str, ...] = ()

    @property
    def doc(self) -> str:
        return self.look.__doc__ or ""


class Raised(NamedTuple):
    """A check that failed to run, and how."""

    code: str
    error: BaseException


_CHECKS: dict[str, Check] = {}
_SORTED: list[Check] = []
_loaded = False


def check(
    code: str,
    severity: Severity,
    title: str,
    *,
    source: str,
    by_joints: bool = True,
    needs: str = "",
    bases: tuple[str, ...] = (),
) -> Callable[[Look], Look]:
    """Declare a check. A code used twice raises at import."""

    def declare(look: Look) -> Look:
        if code in _CHECKS:
            raise ValueError(f"the code {code} is declared twice: {_CHECKS[code].title!r} and {title!r}")
        _CHECKS[code] = Check(code, severity, title, source, look, by_joints, needs, bases)
        return look

    return declare


def all_checks() -> tuple[Check, ...]:
    """Every check, sorted by code."""
    global _loaded
    if not _loaded:
        for name in check_modules():
            importlib.import_module(f"harness.checks.{name}")
        _loaded = True
        _SORTED[:] = [_CHECKS[code] for code in sorted(_CHECKS)]
    return tuple(_SORTED)


def run_checks(wiring: Wiring, checks: Iterable[Check] | None = None) -> tuple[list[Finding], list[Raised]]:
    """All findings, worst first, each cause once; and the checks that failed to run."""
    told: list[tuple[Check, Fault]] = []
    raised: list[Raised] = []
    facts = wiring.facts
    for each in all_checks() if checks is None else checks:
        if each.needs and each.needs not in facts:
            continue
        try:
            for fault in each.look(wiring):
                told.append((each, fault))
        except Exception as error:  # one broken check must not hide what the others saw
            if "pytest" in sys.modules:
                raise
            raised.append(Raised(each.code, error))
    findings = {_finding(each, fault): None for each, fault in _unhidden(told)}
    return sorted(findings, key=lambda finding: finding.order), raised


def _unhidden(told: list[tuple[Check, Fault]]) -> Iterator[tuple[Check, Fault]]:
    concerned: dict[str, set[str]] = {}
    for each, fault in told:
        if each.code in HIDES:
            concerned.setdefault(each.code, set()).update(fault.about)
    hidden_by: dict[str, set[str]] = {}
    for code, contacts in concerned.items():
        for lesser in HIDES[code]:
            hidden_by.setdefault(lesser, set()).update(contacts)
    for each, fault in told:
        hiders = hidden_by.get(each.code)
        if hiders and not hiders.isdisjoint(fault.about):
            continue
        yield each, fault


def _finding(each: Check, fault: Fault) -> Finding:
    further = dict.fromkeys(spot for spot in fault.also if spot.place != fault.at.place)
    return Finding(
        each.code, each.severity, each.title, (fault.at, *further), fault.message, fault.do, fault.path,
        about=fault.about,
    )  # fmt: skip
