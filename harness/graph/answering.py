"""Which speakers lie between two wires, side by side or in line, and which the car never had."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.conductor import MATED, Conductor
from harness.graph.kept import kept
from harness.graph.parted import Cut, Reach, touching
from harness.graph.signal import Receiver
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


def branches_between(
    wiring: Wiring, plus: Reach, minus: Reach, unplugged: Cut, without: frozenset[str] = frozenset()
) -> tuple[list[list[Speaker]], list[Answer]]:
    """Speakers between two wires, in parallel branches, each one speaker or several in line.

    `minus` may be the reach of the car's body. `without` are speakers that aren't there: unplugged, or never in this
    car.
    """
    branches: list[list[Speaker]] = []
    answers: dict[str, Answer] = {}
    speakers = touching(wiring)
    # from the wire that isn't on the body, as the body leads anywhere; else from where there are fewer
    fewer = not minus.has(CHASSIS) and len(minus.wire.speakers) < len(plus.wire.speakers)
    turned = plus.has(CHASSIS) or fewer
    start, goal = (minus, plus) if turned else (plus, minus)

    def walk(here: Reach, line: tuple[tuple[Receiver, int], ...]) -> None:
        for name, receiver in ((own, each) for own in here.speakers for each in speakers[own]):
            if len(branches) >= _MOST_BRANCHES:
                return
            if receiver.speaker in without or any(receiver == done for done, _ in line):
                continue
            sign = 1 if receiver.plus == name else -1
            far = receiver.minus if sign > 0 else receiver.plus
            grown = (*line, (receiver, sign))
            if leads_to(far):
                line_up = [wiring.job.parts.speakers[each.speaker] for each, _ in grown]
                branches.append(line_up[::-1] if turned else line_up)
                for each, way in grown:
                    sign = -way if turned else way
                    answers.setdefault(each.name, Answer(each.speaker, each.name, sign, len(grown) > 1))
            elif not start.has(far) and len(grown) < _MOST_IN_LINE:
                walk(start.wires.reach(far, unplugged), grown)

    def leads_to(far: str) -> bool:
        return goal.has(far) or (goal.has(CHASSIS) and start.wires.reach(far, unplugged).has(CHASSIS))

    if not plus.meets(minus):
        walk(start, ())
    return branches, sorted(answers.values(), key=lambda answer: _order(wiring)[answer.terminals])


@kept
def _order(wiring: Wiring) -> dict[str, int]:
    """The order of the job, by the names of what speakers receive."""
    return {each.name: number for number, each in enumerate(wiring.found_signals.speaker_receivers)}
