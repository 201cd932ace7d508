"""The order of work played through: the car before, in and after each step."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.place import Place
from harness.work.deeds import Deeds, read_deeds
from harness.work.order import Order, WorkStep, order_of_work
from harness.work.situation import Situation, after


class Moment(NamedTuple):
    """One step, counted from 1: what it does, and the car before it, at its fullest and when it is left."""

    number: int
    step: WorkStep
    place: Place
    deeds: Deeds
    before: Situation
    during: Situation
    after: Situation

    @property
    def words(self) -> str:
        return f"step {self.number} ({self.step.verb})"


class Replay(NamedTuple):
    """The whole order; `unsure` is what its words left open: (number of the step, in words)."""

    order: Order
    moments: tuple[Moment, ...]
    unsure: tuple[tuple[int, str], ...]

    @property
    def last(self) -> Situation:
        return self.moments[-1].after if self.moments else Situation()


@kept
def replay(wiring: Wiring) -> Replay:
    """The job's own steps, or the proposed ones, from the car as found: battery on, key off, nothing done."""
    job = wiring.job
    order = order_of_work(wiring)
    read = read_deeds(wiring, order)
    here = Situation()
    moments = []
    for number, (step, deeds) in enumerate(zip(order.steps, read.deeds, strict=True), start=1):
        place = job.place if order.proposed else job.steps[number - 1].place
        during, left = after(here, deeds, job)
        moments.append(Moment(number, step, place, deeds, here, during, left))
        here = left
    return Replay(order, tuple(moments), read.unsure)
