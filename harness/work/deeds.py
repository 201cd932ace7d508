"""What each step of the order of work does to the car, read from its verb and words.

A person writes steps for a person. What a step's words leave open is taken as the plan needs it, and said.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.model.job import Mate
from harness.work.order import KIND_WORDS, MAKING, MATING, Order, WorkStep, leaving_plugs
from harness.work.runs import Cable, cables

LAYING = "lay"
NO_WAIT, UNSAID_WAIT = 0.0, float("inf")


class Deeds(NamedTuple):
    """What one step does. Power: True on, False off, None as it was; the rest by name, or by number in the job.

    `waits_s` is infinite where a wait is asked for without its seconds. `apart` plugs are pulled, `whole` ones put
    together again; `mates` are plugged in, and `unmates` pulled again, at the beginning of the step or (`leaves`) at
    its end. `pieces` are numbers of the job's segments that are there from now on.
    """

    battery: bool | None = None
    key: bool | None = None
    waits_s: float | None = None
    apart: frozenset[str] = frozenset()
    whole: frozenset[str] = frozenset()
    mates: frozenset[int] = frozenset()
    unmates: frozenset[int] = frozenset()
    leaves: frozenset[int] = frozenset()
    joints: frozenset[str] = frozenset()
    pieces: frozenset[int] = frozenset()
    cut: frozenset[str] = frozenset()
    capped: frozenset[str] = frozenset()
    depinned: frozenset[str] = frozenset()
    insulated: bool | None = None
    tones: frozenset[str] = frozenset()  # plugs whose pairs are toned


class Read(NamedTuple):
    """The deeds of each step, and what had to be taken for granted: (number of the step, in words)."""

    deeds: tuple[Deeds, ...]
    unsure: tuple[tuple[int, str], ...]


def read_deeds(wiring: Wiring, order: Order) -> Read:
    """The deeds of every step of an order, in its order."""
    return _Reader(wiring, order).read()


_KEY = re.compile(r"\bkey\b[^.;,]*?\b(off|out|on|acc\w*|ign\w*|run|start|in)\b")
_FUSES = re.compile(r"\bfuses?\b[^.;]*?\b(in|out)\b")
_WAIT = re.compile(r"\bwait\b(?:[^.;]*?\b(\d+) ?(s|sec|seconds?|min|minutes?)\b)?")
_PULLED_AGAIN = re.compile(r"\bthen pull (?:the )?(?:loom's )?(unit|car) (?:side|end)")
_PULLED = re.compile(r"\bplugs? (?:pulled|off|out)\b")
_NOT_YET = re.compile(r"\b(?:not joined|not yet|insulated)\b")
_CURRENT = ("battery", "ground")
_ALL = frozenset(("all", "every", "everything", "each", "plugs", "the"))


class _Reader:
    def __init__(self, wiring: Wiring, order: Order) -> None:
        self.wiring, self.order, self.job = wiring, order, wiring.job
        self.unsure: list[tuple[int, str]] = []
        mated = [mate.plug for mate in self.job.mates]
        touched = [wiring.contact(name).owner for name in (*self.job.cut, *self.job.depinned)]
        plugs = self.job.parts.plugs
        self.opened = list(dict.fromkeys(name for name in (*mated, *touched) if name in plugs))
        self.leaving = leaving_plugs(wiring)
        self.cables = cables(self.job)
        self.ordered = [self._words(step) for step in order.steps]

    def _words(self, step: WorkStep) -> frozenset[str]:
        return frozenset(word.strip(".,;:()").lower() for word in step.what.replace("/", " ").split())

    def read(self) -> Read:
        steps = self.order.steps
        cuts = self._given("cut", tuple(self.job.cut))
        caps = self._given("cap", tuple(self.job.capped))
        pulled = self._given("depin", tuple(self.job.depinned))
        pieces = self._pieces()
        loose = max((n for n, step in enumerate(steps) if step.verb in MAKING and not self._only_joints(n)), default=-1)
        made = []
        for number, step in enumerate(steps):
            joints = set(step.joints)
            if number == loose and self.order.unplaced:
                joints.update(self.order.unplaced)
                self._say(number, f"{', '.join(self.order.unplaced)} named by no step, taken as made here")
            deeds = self._plain(number, step)
            made.append(
                deeds._replace(
                    joints=frozenset(joints), pieces=pieces[number], cut=cuts[number], capped=caps[number],
                    depinned=pulled[number],
                )
            )  # fmt: skip
        return Read(tuple(made), tuple(sorted(self.unsure)))

    def _only_joints(self, number: int) -> bool:
        """Whether a step names joints and says nothing else: then it makes no other."""
        return all(word.upper() in self.wiring.joints for word in self.ordered[number] - {"", "and"})

    def _say(self, number: int, words: str) -> None:
        self.unsure.append((number + 1, words))

    # -- power, plugs, tones ---------------------------------------------------------------------------

    def _plain(self, number: int, step: WorkStep) -> Deeds:
        what = step.what.lower()
        deeds = self._power(step.verb, what)
        if step.verb == "unplug":
            return self._unplugged(number, deeds)
        if step.verb in MATING:
            return self._mated(number, step, deeds, what)
        if step.verb == "tone":
            toned = frozenset(self._plugs(number) or self.opened)
            return deeds._replace(tones=toned, leaves=self._pulled_again(what))
        if step.verb == "meter" and _PULLED.search(what):
            return deeds._replace(apart=frozenset(self.opened))
        return deeds

    def _power(self, verb: str, what: str) -> Deeds:
        deeds = Deeds()
        waits = _WAIT.search(what) or (_WAIT.search(f"wait {what}") if verb == "wait" else None)
        if waits:
            seconds = float(waits[1]) * (60 if waits[2].startswith("m") else 1) if waits[1] else UNSAID_WAIT
            deeds = deeds._replace(waits_s=seconds)
        if verb not in ("power", "key"):
            return deeds
        key = _KEY.search(what) or (_KEY.search(f"key {what}") if verb == "key" else None)
        if key:
            deeds = deeds._replace(key=key[1] not in ("off", "out"))
        rest = _FUSES.sub("", _KEY.sub("", what))
        if verb == "power" and re.search(r"\b(?:off|back|on)\b", rest):
            deeds = deeds._replace(battery=not re.search(r"\boff\b", rest))
        return deeds

    def _plugs(self, number: int) -> list[str]:
        """The plugs that a step's words name, by their names, looms, or the units that sit on them."""
        words, plugs = self.ordered[number], self.job.parts.plugs
        named = [name for name in plugs if name.lower() in words]
        if named:
            return named
        by_loom = [mate.plug for mate in self.job.mates if mate.loom.lower() in words]
        if by_loom:
            return list(dict.fromkeys(by_loom))
        by_unit = [plug.name for plug in plugs.values() if {plug.unit.lower(), plug.car.lower()} & words - {""}]
        return [name for name in by_unit if name in self.opened] or by_unit

    def _unplugged(self, number: int, deeds: Deeds) -> Deeds:
        words = self.ordered[number]
        looms = frozenset(
            at for at, mate in enumerate(self.job.mates) if mate.loom.lower() in words and self._half(words, mate)
        )
        if looms:
            return deeds._replace(unmates=looms)
        plugs = self._plugs(number)
        if not plugs:
            plugs = list(dict.fromkeys((*self.opened, *self.leaving)))
            if not words & _ALL:
                self._say(number, f"its words name no plug, taken as {' and '.join(plugs) or 'none'}")
        return deeds._replace(apart=frozenset(plugs))

    def _half(self, words: Iterable[str], mate: Mate) -> bool:
        halves = {"unit": {"unit", "radio"}, "car": {"car", "body"}}
        named = {half for half, said in halves.items() if said & set(words)}
        return not named or mate.half in named

    def _mated(self, number: int, step: WorkStep, deeds: Deeds, what: str) -> Deeds:
        words = self.ordered[number]
        plugs = self._plugs(number)
        if not plugs:
            plugs = [name for name in self.opened if name not in self.leaving]
            if not words & _ALL and plugs:
                self._say(number, f"its words name no plug, taken as {' and '.join(plugs)}")
        looms = {mate.loom for mate in self.job.mates if mate.loom.lower() in words}
        halves = step.verb != "try" and bool(looms)
        mates = frozenset(
            at
            for at, mate in enumerate(self.job.mates)
            if mate.plug in plugs and (not looms or mate.loom in looms) and (not halves or self._half(words, mate))
        )
        whole = frozenset(plugs) - {self.job.mates[at].plug for at in mates}
        insulated = True if step.verb == "try" and "insulated" in what else None
        return deeds._replace(mates=mates, whole=whole, insulated=insulated, leaves=self._pulled_again(what))

    def _pulled_again(self, what: str) -> frozenset[int]:
        halves = {match[1] for match in _PULLED_AGAIN.finditer(what)}
        return frozenset(at for at, mate in enumerate(self.job.mates) if mate.half in halves)

    # -- cuts, caps, runs ------------------------------------------------------------------------------

    def _given(self, verb: str, names: tuple[str, ...]) -> list[frozenset[str]]:
        """Contacts by the step that cuts, caps or depins them: the one that names them or their plug, else the first.

        Where several steps have the verb, a contact that none names goes with the first of them.
        """
        steps = self.order.steps
        made: list[set[str]] = [set() for _ in steps]
        acting = [number for number, step in enumerate(steps) if step.verb == verb]
        given = {name: number for number in acting for name in steps[number].contacts}
        for name in names:
            if name in given:
                made[given[name]].add(name)
            elif acting:
                made[max(acting, key=lambda number: (self._fit(number, name), -number))].add(name)
        return [frozenset(each) for each in made]

    def _fit(self, number: int, name: str) -> int:
        contact, words = self.wiring.contact(name), self.ordered[number]
        said = {name.lower(): 4, contact.function.name.lower(): 2, contact.function.base.lower(): 2}
        return max(said.get(word, 0) for word in words | {""}) + (contact.owner.lower() in words)

    def _pieces(self) -> list[frozenset[int]]:
        """Numbers of the laid segments by the step from which they are there: cables, battery ends, fuses."""
        steps, segments = self.order.steps, self.job.segments
        made: list[set[int]] = [set() for _ in steps]
        if not self.cables:
            return [frozenset() for _ in steps]
        laying = [number for number, step in enumerate(steps) if step.verb == LAYING] or [
            number
            for number, step in enumerate(steps)
            if step.verb in MAKING and {"run", "runs", "cable", "cables"} & self.ordered[number]
        ]
        if not laying:
            making = [at for at, step in enumerate(steps) if step.verb in MAKING and not self._only_joints(at)]
            if not making:
                return [frozenset() for _ in steps]
            laying = making[-1:]
            self._say(laying[0], "no step lays the runs, taken as laid here")
        numbers = {id(segment): at for at, segment in enumerate(segments)}
        for cable in self.cables:
            at = self._laid_in(cable, laying)
            if at is None:
                continue
            fused, ended = self._later(at, "fuse"), self._later(at, "end")
            for run in cable.wires:
                for place, segment in enumerate(run.segments):
                    contact = self.wiring.contact
                    at_battery = (place == 0 and contact(segment.a).kind == "battery") or (
                        place == len(run.segments) - 1 and contact(segment.b).kind == "battery"
                    )
                    when = fused if segment.kind == "fuse" else ended if at_battery else at
                    if when is not None:
                        made[when].add(numbers[id(segment)])
        return [frozenset(each) for each in made]

    def _laid_in(self, cable: Cable, laying: list[int]) -> int | None:
        """The step that names a run, an end of it or what it carries; else the last that may mean any run.

        A supply or ground that no step names isn't laid by one that speaks of others only: then None.
        """
        # a chain with a plug of the car in it is several runs, laid at one time
        chain = [each for each in self.cables if _line(each) == _line(cable)]
        contacts = [self.wiring.contact(end) for each in chain for run in each.wires for end in (run.start, run.end)]
        kinds = {each.function.kind for each in contacts}
        ends = {each.owner.lower() for each in contacts} | {word for word, kind in KIND_WORDS.items() if kind in kinds}
        number = re.compile(rf"\b{re.escape(cable.name.lower())}\b")
        named = [at for at in laying if number.search(self.order.steps[at].what.lower())]
        touching = [at for at in laying if ends & self.ordered[at]]
        if named or touching:
            return (named or touching)[0]
        if kinds & set(_CURRENT):
            laying = [at for at in laying if not {KIND_WORDS.get(word) for word in self.ordered[at]} & set(_CURRENT)]
        return laying[-1] if laying else None

    def _later(self, laid: int, what: str) -> int | None:
        """The step that puts the fuses in, or joins the battery's end, where the laying step leaves it for later.

        None where no later step does.
        """
        steps = self.order.steps
        words = steps[laid].what.lower()
        fuses = _FUSES.search(words)
        waits = bool(fuses and fuses[1] == "out") if what == "fuse" else "battery" in words and _NOT_YET.search(words)
        if not waits:
            return laid
        for number in range(laid + 1, len(steps)):
            if steps[number].verb not in ("fuse", "power", *MAKING, LAYING):
                continue
            said = steps[number].what.lower()
            fuses = _FUSES.search(said) or (_FUSES.search(f"fuse {said}") if steps[number].verb == "fuse" else None)
            goes_in = bool(fuses and fuses[1] == "in")
            joined = "battery" in said and not _NOT_YET.search(said) and not re.search(r"\boff\b", said)
            if goes_in or (what == "end" and joined and "negative" not in said):
                return number
        return None


def _line(cable: Cable) -> tuple[str, int]:
    place = cable.segments[0].place
    return place.file, place.line
