"""What the words of a step say of battery, key, waiting, fuses and the ends of runs. Words in, plain values out."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

UNSAID_WAIT = float("inf")

_CLAUSE = re.compile(r"[.,;:]|\bthen\b")
_BATTERY = re.compile(
    r"\b(?:battery|negative|power)\b.*?\b(off|on|back|disconnected|removed|isolated|connected|reconnected|refitted)\b"
)
_BATTERY_DONE = re.compile(
    r"\b(disconnect|remove|undo|unbolt|isolate|connect|reconnect|refit)\b.*\b(?:battery|negative)\b"
)
_DENIED = re.compile(r"\b(?:not|never|don't|without|no)\b")
_KEY = re.compile(
    r"\b(?:key|ignition)\b.*?\b(off|out|on|acc\w*|ign\w*|run|start|in(?= *$| the (?:lock|ignition)))(?!\w)"
)
_ENGINE = re.compile(r"\bengine\b.*?\b(on|started|running)\b")
_WAIT = re.compile(r"\bwait\b(?:[^.;]*?\b(\d+(?:\.\d+)?)\s?(s|sec|seconds?|min|minutes?)\b)?")
_FUSES = re.compile(r"\bfuses?\b[^.;]*?\b(in|out)\b")
_FUSES_OUT = re.compile(
    r"\bfuses?\b[^.;,]*?\b(?:empty|not)\b|\b(?:no|without)\s(?:\w+\s)?fuses?\b|\bfuse\s?holders?\sempty\b"
)
_NOT_YET = re.compile(
    r"\b(?:not (?:yet )?joined|not (?:yet )?connected|not yet|insulated|open|loose|later|unconnected)\b"
)
_COVERED = re.compile(r"\b(?:insulated|capped|taped)\b")
_AMPERES = re.compile(r"\b(\d+(?:\.\d+)?)\s?a\b")
_RUN = re.compile(r"\brun\s?(\d{1,4})(?:\s?(?:to|\.\.)\s?(?:run\s?)?(\d{1,4}))?\b")
_OFF = frozenset(
    ("off", "out", "disconnect", "disconnected", "remove", "removed", "undo", "unbolt", "isolate", "isolated")
)


class PowerSaid(NamedTuple):
    """What is said of the battery and of the key, one after another, True for on; and the wait in seconds.

    The wait is infinite where its seconds aren't said, None where none is asked for.
    """

    battery: tuple[bool, ...] = ()
    key: tuple[bool, ...] = ()
    waits_s: float | None = None


@lru_cache(maxsize=1024)
def power_said(verb: str, what: str) -> PowerSaid:
    """Clause by clause, since `battery back on; lamps off` speaks of two things; battery and key in their verbs only.

    A clause that denies, `not back on yet`, turns nothing on.
    """
    waits = _WAIT.search(what) or (_WAIT.search(f"wait {what}") if verb == "wait" else None)
    waits_s = None
    if waits:
        waits_s = float(waits[1]) * (60 if waits[2].startswith("m") else 1) if waits[1] else UNSAID_WAIT
    if verb not in ("power", "key"):
        return PowerSaid(waits_s=waits_s)
    battery, key = [], []
    for clause in _clauses(_FUSES.sub("", what)):
        if clause in ("off", "on", "back on", "out", "run", "acc", "accessory"):
            clause = f"{'key' if verb == 'key' else 'battery'} {clause}"
        elif verb == "key" and not re.search(r"\b(?:key|ignition|battery|negative|engine)\b", clause):
            clause = f"key {clause}"
        denied = bool(_DENIED.search(clause))
        turned = _KEY.search(clause) or _ENGINE.search(clause)
        if turned and not (denied and turned[1] not in _OFF):
            key.append(turned[1] not in _OFF)
        rest = _KEY.sub("", clause)
        done = _BATTERY.search(rest) or _BATTERY_DONE.search(rest)
        if done and not (denied and done[1] not in _OFF):
            battery.append(done[1] not in _OFF)
    return PowerSaid(tuple(battery), tuple(key), waits_s)


def _clauses(what: str) -> list[str]:
    return [clause.strip() for clause in _CLAUSE.split(what) if clause.strip()]


@lru_cache(maxsize=1024)
def runs_named(what: str) -> frozenset[int]:
    """The numbers of the runs that are named: `RUN 2`, `RUN 1 to RUN 8`."""
    made: set[int] = set()
    for first, last in _RUN.findall(what):
        made.update(range(int(first), int(last or first) + 1))
    return frozenset(made)


@lru_cache(maxsize=1024)
def fuses_out(what: str) -> bool:
    """Whether a step that lays runs leaves their fuses out."""
    said = _FUSES.search(what)
    return bool((said and said[1] == "out") or _FUSES_OUT.search(what))


class FusesIn(NamedTuple):
    """Which fuses a step puts in: those of these runs or values, or all where neither is named."""

    runs: frozenset[int]
    values_a: frozenset[float]

    def takes(self, run: int, value_a: float | None) -> bool:
        return not (self.runs or self.values_a) or run in self.runs or value_a in self.values_a


@lru_cache(maxsize=1024)
def fuses_in(verb: str, what: str) -> FusesIn | None:
    """The fuses that go in with a step, or None. What stands before the word `fuse` speaks of something else."""
    said = _FUSES.search(what)
    if _FUSES_OUT.search(what):
        return None
    if said is None:
        if verb != "fuse" or re.search(r"\bout\b", what):
            return None
        part = what
    elif said[1] == "in":
        part = _CLAUSE.split(what[: said.start()])[-1] + what[said.start() :]
    else:
        return None
    if re.search(r"\b(?:all|every|each)\b", part):
        return FusesIn(frozenset(), frozenset())
    return FusesIn(runs_named(part), frozenset(float(value) for value in _AMPERES.findall(part)))


class OpenEnds(NamedTuple):
    """The ends of runs that a step leaves open: the battery's, all, or those at these owners; `covered`: not bare."""

    battery: bool
    every: bool
    words: frozenset[str]
    covered: bool


@lru_cache(maxsize=1024)
def open_ends(what: str) -> tuple[OpenEnds, ...]:
    """Clause by clause: `battery end insulated and not joined yet`, `the end at the amp not joined yet`."""
    made = []
    for clause in _clauses(what):
        if _NOT_YET.search(clause):
            words = frozenset(re.findall(r"[\w+-]+", clause))
            battery = "battery" in words
            every = not battery and bool(words & {"both", "ends"}) and "at" not in words
            made.append(OpenEnds(battery, every, words, bool(_COVERED.search(clause))))
    return tuple(made)


@lru_cache(maxsize=1024)
def joins_battery(what: str) -> bool:
    """Whether a step joins what goes to the battery, and not its negative."""
    for clause in _clauses(what):
        switched = _BATTERY.search(clause) or _BATTERY_DONE.search(clause) or "negative" in clause
        if re.search(r"\bbattery\b", clause) and not switched:
            return not _NOT_YET.search(clause)
    return False
