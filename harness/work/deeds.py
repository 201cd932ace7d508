"""What each step of the order of work does to the car, read from its verb and words.

A person writes steps for a person. What a step's words leave open is taken as the plan needs it, and said.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from harness.graph.runs import Cable, Run, cables
from harness.graph.wiring import Wiring
from harness.model.job import Mate, Segment
from harness.work.order import KIND_WORDS, MAKING, MATING, Order, WorkStep, leaving_plugs
from harness.work.spoken import OpenEnds, fuses_in, fuses_out, joins_battery, open_ends, power_said, runs_named

LAYING = "lay"
NO_WAIT = 0.0


Hanging = tuple[int, str]


class Deeds(NamedTuple):
    """What one step does. Power: True on, False off, None as it was; the rest by name, or by number in the job.

    Where a step says on and off again, `battery` and `key` are on and `ends_off` holds which of them it leaves off.
    `hangs` are pieces of a run with an open end from now on, each with the contact from which it hangs, and `held`
    those where it is joined.
    `waits_s` is infinite where a wait is asked for without its seconds. `apart` plugs are pulled, `whole` ones put
    together again; `mates` are plugged in, and `unmates` pulled again, at the beginning of the step or (`leaves`) at
    its end. `pieces` are numbers of the job's segments that are there from now on.
    """

    battery: bool | None = None
    key: bool | None = None
    ends_off: frozenset[str] = frozenset()
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
    hangs: frozenset[Hanging] = frozenset()
    held: frozenset[Hanging] = frozenset()
    insulated: bool | None = None
    tones: frozenset[str] = frozenset()  # plugs whose pairs are toned or read in ohms


class Read(NamedTuple):
    """The deeds of each step, and what had to be taken for granted: (number of the step, in words)."""

    deeds: tuple[Deeds, ...]
    unsure: tuple[tuple[int, str], ...]


def read_deeds(wiring: Wiring, order: Order) -> Read:
    """The deeds of every step of an order, in its order."""
    return _Reader(wiring, order).read()


_PULLED_AGAIN = re.compile(r"\bthen pull (?:the )?(?:loom's )?(unit|car) (?:side|end)")
_PULLED = re.compile(r"\bplugs? (?:pulled|off|out)\b")
_OHMS = re.compile(r"\bohms?\b")
_CABLES = frozenset(("run", "runs", "cable", "cables"))
_NAMED = 4  # how much a contact's own name says
_DONE = {"cut": "cut", "cap": "capped", "depin": "depinned"}
_CURRENT = ("battery", "ground")
_ALL = frozenset(("all", "every", "everything", "each", "plugs"))


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
        self.contacts = [frozenset(_contact_words(step.what)) for step in order.steps]

    def _words(self, step: WorkStep) -> frozenset[str]:
        return frozenset(word.strip(".,;:()").lower() for word in step.what.replace("/", " ").split())

    def read(self) -> Read:
        steps = self.order.steps
        cuts = self._given("cut", tuple(self.job.cut))
        caps = self._given("cap", tuple(self.job.capped))
        pulled = self._given("depin", tuple(self.job.depinned))
        pieces = self._pieces()
        hangs, held = self.hangs, self.held
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
                    depinned=pulled[number], hangs=frozenset(hangs[number]), held=frozenset(held[number]),
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
        deeds = self._power(number, step.verb, what)
        if step.verb == "unplug":
            return self._unplugged(number, deeds)
        if step.verb in MATING:
            return self._mated(number, step, deeds, what)
        if step.verb == "tone":
            toned = frozenset(self._plugs(number) or self.opened)
            return deeds._replace(tones=toned, leaves=self._pulled_again(what))
        if step.verb == "meter" and _OHMS.search(what):
            deeds = deeds._replace(tones=frozenset(self._plugs(number) or self.opened))
        if step.verb == "meter" and _PULLED.search(what):
            return deeds._replace(apart=frozenset(self.opened))
        return deeds

    def _power(self, number: int, verb: str, what: str) -> Deeds:
        said = power_said(verb, what)
        silent = not said.battery and not said.key and said.waits_s is None
        if verb in ("power", "key") and silent and not fuses_in(verb, what) and not joins_battery(what):
            self._say(number, "its words turn nothing on or off, taken as no change")
        off = {name for name, each in (("battery", said.battery), ("key", said.key)) if each and not each[-1]}
        return Deeds(
            battery=any(said.battery) if said.battery else None,
            key=any(said.key) if said.key else None,
            ends_off=frozenset(off),
            waits_s=said.waits_s,
        )

    def _plugs(self, number: int) -> list[str]:
        """The plugs that a step's words name, by their names, looms, places, or the units that sit on them."""
        words, plugs = self.ordered[number], self.job.parts.plugs
        named = [name for name in plugs if name.lower() in words]
        if named:
            return named
        by_loom = [mate.plug for mate in self.job.mates if mate.loom.lower() in words]
        if by_loom:
            return list(dict.fromkeys(by_loom))
        what = self.order.steps[number].what.lower()
        by_place = [plug.name for plug in plugs.values() if _names_place(what, plug.where)]
        if by_place:
            return [name for name in by_place if name in self.opened] or by_place
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
            if not words & _ALL and not words & {unit.lower() for unit in self.job.removed}:
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
            every = self.job.parts.plugs if words & _ALL else self.opened
            plugs = [name for name in every if name not in self.leaving]
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
        """Contacts by the step that cuts, caps or depins them: the one whose words say most about them.

        A contact that no words mean goes with the first step that names none at all; where each names its own, with
        none.
        """
        steps = self.order.steps
        made: list[set[str]] = [set() for _ in steps]
        acting = [number for number, step in enumerate(steps) if step.verb == verb]
        given = {name: number for number in acting for name in steps[number].contacts}
        fits = {(number, name): self._fit(number, name) for number in acting for name in names if name not in given}
        general = [number for number in acting if all(fits.get((number, name), 0) < _NAMED for name in names)]
        for name in names:
            best = max(acting, key=lambda number: (fits.get((number, name), 0), -number), default=-1)
            if name in given:
                made[given[name]].add(name)
            elif best >= 0 and fits[best, name] > 0:
                made[best].add(name)
            elif general:
                made[general[0]].add(name)
                if len(acting) > 1:
                    self._say(general[0], f"{name} named by no step, taken as {_DONE[verb]} here")
        return [frozenset(each) for each in made]

    def _fit(self, number: int, name: str) -> int:
        """How much a step's words say about a contact: its own name most, then its function, then its plug."""
        contact, words = self.wiring.contact(name), self.contacts[number]
        owner, function = contact.owner.lower(), contact.function
        lasts = {contact.last.lower(), function.name.lower(), function.base.lower()} - {"unknown", "empty", ""}
        heads = {owner, f"{owner}.{contact.half}"} if contact.half else {owner}
        if words & {name.lower(), *(f"{head}.{last}" for head in heads for last in lasts)}:
            return _NAMED
        return 2 * bool(words & {function.name.lower(), function.base.lower()}) + (owner in words)

    def _pieces(self) -> list[frozenset[int]]:
        """Numbers of the laid segments by the step from which they are there: cables, battery ends, fuses."""
        steps, segments = self.order.steps, self.job.segments
        made: list[set[int]] = [set() for _ in steps]
        self.hangs: list[set[Hanging]] = [set() for _ in steps]
        self.held: list[set[Hanging]] = [set() for _ in steps]
        if not self.cables:
            return [frozenset() for _ in steps]
        laying = [number for number, step in enumerate(steps) if step.verb == LAYING] or [
            number for number, step in enumerate(steps) if step.verb in MAKING and _CABLES & self.ordered[number]
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
            for run in cable.wires:
                for segment in run.segments:
                    number = numbers[id(segment)]
                    if segment.kind == "fuse":
                        when = self._fused(cable, segment, at)
                    else:
                        when = self._joined_at(cable, run, number, at)
                    if when is not None:
                        made[when].add(number)
        return [frozenset(each) for each in made]

    def _joined_at(self, cable: Cable, run: Run, number: int, laid: int) -> int | None:
        """The step from which a wire of a run conducts: all its ends are joined. None where one never is.

        A wire with one open end hangs from its other one until then; one that is covered is not bare.
        """
        segment = self.job.segments[number]
        ends = [(run.start, segment.b)] if segment == run.segments[0] else []
        ends += [(run.end, segment.a)] if segment == run.segments[-1] else []
        left = {held: (end, left) for end, held in ends if (left := self._left_open(cable, end, laid))}
        joined = [self._ended(cable, end, laid) for end, _ in left.values()]
        when = None if None in joined else max((each for each in joined if each is not None), default=laid)
        if len(left) == 1:
            ((held, (_, said)),) = left.items()
            if not said.covered:
                self.hangs[laid].add((number, held))
            if when is not None:
                self.held[when].add((number, held))
        return when

    def _laid_in(self, cable: Cable, laying: list[int]) -> int | None:
        """The step that names a run, an end of it or what it carries; else the last that may mean any run.

        A supply or ground that no step names isn't laid by one that speaks of others only: then None.
        """
        # a chain with a plug of the car in it is several runs, laid at one time
        chain = [each for each in self.cables if _line(each) == _line(cable)]
        contacts = [self.wiring.contact(end) for each in chain for run in each.wires for end in (run.start, run.end)]
        kinds = {each.function.kind for each in contacts}
        ends = {each.owner.lower() for each in contacts} | {word for word, kind in KIND_WORDS.items() if kind in kinds}
        named = [at for at in laying if cable.number in runs_named(self.order.steps[at].what.lower())]
        touching = [at for at in laying if ends & self.ordered[at]]
        if named or touching:
            return (named or touching)[0]
        if kinds & set(_CURRENT):
            laying = [at for at in laying if not {KIND_WORDS.get(word) for word in self.ordered[at]} & set(_CURRENT)]
        return laying[-1] if laying else None

    def _left_open(self, cable: Cable, end: str, number: int) -> OpenEnds | None:
        """What a step says of this end where it leaves it open, else None."""
        contact = self.wiring.contact(end)
        for left in open_ends(self.order.steps[number].what.lower()):
            named = runs_named(" ".join(left.words))
            if named and cable.number not in named:
                continue
            if left.battery if contact.kind == "battery" else left.every or contact.owner.lower() in left.words:
                return left
        return None

    def _ended(self, cable: Cable, end: str, laid: int) -> int | None:
        """The step that joins an end which the laying step leaves open; None where none does."""
        contact = self.wiring.contact(end)
        for number, step in self._after(laid):
            said = step.what.lower()
            named = cable.number in runs_named(said)
            if self._left_open(cable, end, number):
                continue
            if contact.kind == "battery":
                if joins_battery(said) or fuses_in(step.verb, said) or (named and step.verb in MAKING):
                    return number
            elif named or (contact.owner.lower() in self.ordered[number] and self.ordered[number] & _CABLES):
                return number
        return None

    def _fused(self, cable: Cable, fuse: Segment, laid: int) -> int | None:
        """The step that puts a fuse in: the one that lays its run, or where that leaves it out a later one, or none."""
        if not fuses_out(self.order.steps[laid].what.lower()):
            return laid
        for number, step in self._after(laid):
            found = fuses_in(step.verb, step.what.lower())
            if found and found.takes(cable.number, fuse.fuse_a):
                return number
        return None

    def _after(self, laid: int) -> Iterator[tuple[int, WorkStep]]:
        """The steps after one in which runs are worked on."""
        for number, step in enumerate(self.order.steps):
            if number > laid and step.verb in ("fuse", "power", *MAKING, LAYING):
                yield number, step


def _names_place(what: str, where: str) -> bool:
    """Whether words name a place, or a part of it between commas: `behind the radio, brown block`."""
    parts = [part.strip() for part in where.lower().split(",")]
    return any(re.search(rf"\b{re.escape(part)}\b", what) for part in parts if part)


def _contact_words(what: str) -> Iterator[str]:
    """The words of a step, `dash.7/8` as both its contacts."""
    for word in what.lower().split():
        head, slash, second = word.strip(",;:()[]").rstrip(".").partition("/")
        yield head
        if slash:
            yield f"{head.rpartition('.')[0]}.{second}"


def _line(cable: Cable) -> tuple[str, int]:
    place = cable.segments[0].place
    return place.file, place.line
