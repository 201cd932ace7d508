"""Which speakers lie between two wires, side by side or in line, and which the car never had."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.conductor import MATED, Conductor
from harness.graph.kept import kept
from harness.graph.signal import Receiver
from harness.graph.state import State
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.function import Function, read_function
from harness.model.parts import Plug, Speaker

_MOST_IN_LINE = 8
_MOST_BRANCHES = 32


class Answer(NamedTuple):
    """A speaker that must answer. `sign` is +1 where its + lies on the pair's +, −1 where it is turned."""

    speaker: str
    terminals: str  # spk.FL, spk.SUB.c1
    sign: int
    in_line: bool  # with another speaker in series


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


@kept
def _touching(wiring: Wiring) -> tuple[dict[str, list[Receiver]], dict[str, int]]:
    """Speakers by each of their two contacts, and the order of the job by their names."""
    touching: dict[str, list[Receiver]] = {}
    speakers = wiring.found_signals.speaker_receivers
    for each in speakers:
        touching.setdefault(each.plus, []).append(each)
        touching.setdefault(each.minus, []).append(each)
    return touching, {each.name: number for number, each in enumerate(speakers)}


def halves_apart(wiring: Wiring, plug: Plug) -> frozenset[Conductor]:
    """What no longer conducts once the plug is pulled."""
    return frozenset(
        conductor
        for half in (f"{plug.name}.car.{row.cavity}" for row in plug.rows)
        for conductor in wiring.found.conductors(half)
        if conductor.kind == MATED and conductor.name == plug.name
    )


@kept
def lacked_by_name(wiring: Wiring) -> frozenset[str]:
    """Speakers of the job that its `lacks:` says this car never had."""
    car = wiring.job.car
    if car is None or not car.lacks:
        return frozenset()
    return frozenset(name for name, each in wiring.job.parts.speakers.items() if lacked(car.lacks, each.function))


def on_wire(state: State, contact: str, unplugged: frozenset[Conductor]) -> dict[str, None]:
    """Contacts on the same wire as this one, a plug pulled. The body and what hangs on it is not followed."""
    met = {contact: None}
    row = [contact]
    for here in row:
        if here == CHASSIS:
            continue
        for conductor in state.conductors(here):
            other = conductor.other(here)
            if other not in met and conductor not in unplugged:
                met[other] = None
                row.append(other)
    return met


def branches_between(
    wiring: Wiring,
    state: State,
    at_plus: dict[str, None],
    at_minus: dict[str, None],
    unplugged: frozenset[Conductor],
    without: frozenset[str] = frozenset(),
) -> tuple[list[list[Speaker]], list[Answer]]:
    """Speakers between the two wires: in parallel branches, each one speaker or several in line.

    `without` are speakers that aren't there: unplugged, or never in this car.
    """
    branches: list[list[Speaker]] = []
    answers: dict[str, Answer] = {}
    touching, order = _touching(wiring)

    def walk(here: dict[str, None], line: tuple[tuple[Receiver, int], ...]) -> None:
        for name in here:
            for receiver in touching.get(name, ()):
                if (
                    receiver.speaker in without
                    or len(branches) >= _MOST_BRANCHES
                    or any(receiver == done for done, _ in line)
                ):
                    continue
                sign = 1 if receiver.plus == name else -1
                far = receiver.minus if sign > 0 else receiver.plus
                grown = (*line, (receiver, sign))
                if far in at_minus:
                    branches.append([wiring.job.parts.speakers[each.speaker] for each, _ in grown])
                    for each, turned in grown:
                        answers.setdefault(each.name, Answer(each.speaker, each.name, turned, len(grown) > 1))
                elif far not in at_plus and len(grown) < _MOST_IN_LINE:
                    walk(on_wire(state, far, unplugged), grown)

    if not at_plus.keys() & at_minus.keys():
        walk(at_plus, ())
    return branches, sorted(answers.values(), key=lambda answer: order[answer.terminals])
