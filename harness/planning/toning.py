"""What to tone, where to clip on, and what must answer: from the car's own wiring as found."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.conductor import MATED, PLUGGED, Conductor
from harness.graph.pairs import pairs_of
from harness.graph.resistance import Expected, expected_dc
from harness.graph.signal import Receiver
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.function import Function, read_function
from harness.model.parts import Plug, Row, Speaker
from harness.planning.probe_moves import Held, least_moves
from harness.planning.states import PairStates

_MOST_IN_LINE = 8
_MOST_BRANCHES = 32


class Clip(NamedTuple):
    """Where the probes go. `where` is plug, leads (flying leads of a loom) or end (a loom's open plug end).

    `plus` and `minus` are cavities of the plug, or lead names, or cavities of that end.
    """

    where: str
    owner: str
    plus: str
    minus: str


class Answer(NamedTuple):
    """A speaker that must answer. `sign` is +1 where its + lies on the pair's +, −1 where it is turned."""

    speaker: str
    terminals: str  # spk.FL, spk.SUB.c1
    sign: int
    in_line: bool  # with another speaker in series


class TonePair(NamedTuple):
    """One pair to tone, as the car half of its plug shows it.

    `silent` is the word under `lacks:` that says the car has no such speaker; `units` are the units whose
    terminals the wires reach (never tone into those); `on_body` says that the job itself puts a wire of the
    pair on the body.
    """

    plug: str
    plus: Row
    minus: Row
    state: str
    used: bool
    clip: Clip
    answers: tuple[Answer, ...]
    silent: str
    expected: Expected
    units: tuple[str, ...]
    on_body: bool

    @property
    def name(self) -> str:
        return f"{self.plug}.{self.plus.cavity}/{self.minus.cavity}"


def lacked_speakers(job_lacks: tuple[str, ...]) -> tuple[str, ...]:
    """The words of `lacks:` that are speaker channels; the others (ACC, say) have nothing to do with toning."""
    functions = [(word, read_function(word)) for word in job_lacks]
    return tuple(word for word, function in functions if function is not None and function.channel)


def lacked(job_lacks: tuple[str, ...], function: Function) -> str:
    """The word of `lacks:` that says the car has no speaker for this channel, or empty. Never inferred."""
    for word in job_lacks:
        lack = read_function(word)
        if lack is None or not lack.channel or lack.channel != function.channel:
            continue
        if not lack.driver or lack.driver == function.driver:
            return word
    return ""


def toning_plan(wiring: Wiring) -> tuple[TonePair, ...]:
    """Every speaker pair of every plug, plug by plug, in the order that moves the probes least."""
    states = PairStates(wiring)
    made: list[TonePair] = []
    for plug in wiring.job.parts.plugs.values():
        if plug.inline:
            continue
        rows = pairs_of(wiring, plug.name)
        unplugged = _halves_apart(wiring, plug) if rows else frozenset()
        pairs = [_pair(wiring, states, unplugged, plug, plus, minus) for plus, minus in rows]
        # what is clipped on at the same owner is done in one go
        for clip in dict.fromkeys((pair.clip.where, pair.clip.owner) for pair in pairs):
            group = [pair for pair in pairs if (pair.clip.where, pair.clip.owner) == clip]
            made += _least(plug, group)
    return tuple(made)


def _least(plug: Plug, pairs: list[TonePair]) -> list[TonePair]:
    places = _places(plug)
    held: list[Held] = []
    for pair in pairs:
        plus, minus = places.get(pair.plus.cavity), places.get(pair.minus.cavity)
        if plus is None or minus is None:
            return pairs
        held.append((plus, minus))
    return [pairs[index] for index in least_moves(held)]


def _places(plug: Plug) -> dict[str, tuple[float, float]]:
    """Where each number stands, in columns and rows. A mirror image has the same distances."""
    if plug.face is None:
        return {}
    return {
        number: (float(column), float(row))
        for row, line in enumerate(plug.face.drawn)
        for column, number in enumerate(line)
        if number is not None
    }


def _halves_apart(wiring: Wiring, plug: Plug) -> frozenset[Conductor]:
    """What no longer conducts once the plug is pulled."""
    return frozenset(
        conductor
        for half in (f"{plug.name}.car.{row.cavity}" for row in plug.rows)
        for conductor in wiring.found.conductors(half)
        if conductor.kind == MATED and conductor.name == plug.name
    )


def _pair(
    wiring: Wiring, states: PairStates, unplugged: frozenset[Conductor], plug: Plug, plus: Row, minus: Row
) -> TonePair:
    job = wiring.job
    at_plus = _reached(wiring, f"{plug.name}.car.{plus.cavity}", unplugged)
    at_minus = _reached(wiring, f"{plug.name}.car.{minus.cavity}", unplugged)
    branches, answers = _branches(wiring, at_plus, at_minus, unplugged)
    silent = lacked(job.car.lacks, plus.function) if job.car else ""
    if silent:
        branches, answers = [], []
    else:
        gone = {name for name in job.parts.speakers if job.car and _speaker_lacked(wiring, name)}
        answers = [answer for answer in answers if answer.speaker not in gone]
        branches = [branch for branch in branches if not any(speaker.name in gone for speaker in branch)]
    owners = dict.fromkeys(
        job.contacts[name].owner for name in [*at_plus, *at_minus] if job.contacts[name].kind == "unit"
    )
    return TonePair(
        plug.name, plus, minus, states.state(plug.name, plus, minus),
        f"{plug.name}.{plus.cavity}/{minus.cavity}" in states.used,
        _clip(wiring, plug, plus.cavity, minus.cavity), tuple(answers), silent, expected_dc(branches), tuple(owners),
        CHASSIS in at_plus or CHASSIS in at_minus,
    )  # fmt: skip


def _speaker_lacked(wiring: Wiring, name: str) -> bool:
    car = wiring.job.car
    return car is not None and bool(lacked(car.lacks, wiring.job.parts.speakers[name].function))


def _reached(wiring: Wiring, contact: str, unplugged: frozenset[Conductor]) -> dict[str, None]:
    """Contacts on the same wire as the car half, the plug pulled. The body and what hangs on it is not followed."""
    reached = {contact: None}
    row = [contact]
    for here in row:
        if here == CHASSIS:
            continue
        for conductor in wiring.found.conductors(here):
            other = conductor.other(here)
            if other not in reached and conductor not in unplugged:
                reached[other] = None
                row.append(other)
    return reached


def _branches(
    wiring: Wiring, at_plus: dict[str, None], at_minus: dict[str, None], unplugged: frozenset[Conductor]
) -> tuple[list[list[Speaker]], list[Answer]]:
    """Speakers between the two wires: in parallel branches, each one speaker or several in line."""
    branches: list[list[Speaker]] = []
    answers: dict[str, Answer] = {}
    speakers = wiring.found_signals.speaker_receivers
    touching: dict[str, list[Receiver]] = {}
    for each in speakers:
        touching.setdefault(each.plus, []).append(each)
        touching.setdefault(each.minus, []).append(each)

    def walk(here: dict[str, None], line: tuple[tuple[Receiver, int], ...]) -> None:
        for name in here:
            for receiver in touching.get(name, ()):
                if len(branches) >= _MOST_BRANCHES or any(receiver == done for done, _ in line):
                    continue
                sign = 1 if receiver.plus == name else -1
                far = receiver.minus if sign > 0 else receiver.plus
                grown = (*line, (receiver, sign))
                if far in at_minus:
                    branches.append([wiring.job.parts.speakers[each.speaker] for each, _ in grown])
                    for each, turned in grown:
                        answers.setdefault(each.name, Answer(each.speaker, each.name, turned, len(grown) > 1))
                elif far not in at_plus and len(grown) < _MOST_IN_LINE:
                    walk(_reached(wiring, far, unplugged), grown)

    if not at_plus.keys() & at_minus.keys():
        walk(at_plus, ())
    order = {each.name: number for number, each in enumerate(speakers)}
    return branches, sorted(answers.values(), key=lambda answer: order[answer.terminals])


def _clip(wiring: Wiring, plug: Plug, plus: str, minus: str) -> Clip:
    """A loom plugged into the car half carries the pair to its leads, where a clip holds without a probe."""
    pins = [_pin(wiring, f"{plug.name}.car.{cavity}") for cavity in (plus, minus)]
    if not pins[0] or not pins[1] or pins[0].split(".")[0] != pins[1].split(".")[0]:
        return Clip("plug", plug.name, plus, minus)
    loom = wiring.job.parts.looms[pins[0].split(".")[0]]
    leads = [_lead_at(wiring, pin) for pin in pins]
    if leads[0] and leads[1]:
        return Clip("leads", loom.name, leads[0], leads[1])
    through = {f"{loom.name}.car.{each.car_cavity}": each.unit_cavity for each in loom.throughs}
    ends = [through.get(pin, "") for pin in pins]
    if ends[0] and ends[1]:
        return Clip("end", loom.name, ends[0], ends[1])
    return Clip("plug", plug.name, plus, minus)


def _pin(wiring: Wiring, half: str) -> str:
    """The pin of a loom that sits in a half of a cavity, or empty."""
    return next(
        (conductor.other(half) for conductor in wiring.planned.conductors(half) if conductor.kind == PLUGGED), ""
    )


def _lead_at(wiring: Wiring, pin: str) -> str:
    loom, end, cavity = pin.split(".", 2)
    for lead in wiring.job.parts.looms[loom].leads:
        if lead.name in wiring.job.depinned:
            continue
        if lead.name == pin or (lead.own and lead.end == end and lead.cavity == cavity):
            return lead.name
    return ""
