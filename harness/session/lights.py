"""Status lights: what each unit of ours shows once it is powered."""

from __future__ import annotations

from harness.graph.fitted import ours
from harness.graph.wiring import Wiring
from harness.model.parts import Unit
from harness.session.talk import LEFT_OUT, Choice, Outcome, Question, Section, Talk, Task

NAME = "lights"
_SHOWN = (
    Choice("green or blue, steady", "steady"), Choice("red or orange, steady", "red"), Choice("it blinks", "blinks"),
    Choice("dark", "dark"), Choice("it has none", "no light"),
)  # fmt: skip
CAUTIONS = ("Red or blinking is most units' word for protection: key off, and find out why.",)


def section(wiring: Wiring) -> Section | None:
    """The units that were fitted and whose light nobody saw."""
    units = [unit for unit in ours(wiring) if unit.kind not in ("fuse block", "relay", "diode", "battery")]
    if not units:
        return None
    seen = {record.what.lower() for record in wiring.job.records if record.verb == "seen" and record.word("shows")}
    left = [unit for unit in units if unit.name.lower() not in seen]
    tasks = tuple(map(_task, left))
    earlier = tuple(_task(unit) for unit in units if unit not in left)
    first = ("Key on, radio on.",)
    done = len(units) - len(left)
    return Section(NAME, "See the status lights", first, CAUTIONS, tasks, done, earlier, powered=True)


def _task(unit: Unit) -> Task:
    return Task(unit.name, (_where(unit),), lambda: _talk(unit))


def _where(unit: Unit) -> str:
    return f"{unit.name}{f', {unit.where}' if unit.where else ''}."


def _talk(unit: Unit) -> Talk:
    shown = yield Question(f"The light of {unit.name}", _SHOWN)
    if shown == LEFT_OUT:
        return Outcome((), ("Nothing recorded for it.",))
    fields = (("seen", unit.name), ("shows", shown), ("key", "run"))
    loud = shown in ("red", "blinks", "dark")
    return Outcome(fields, (f"{unit.name} shows: {shown}.{' Find out why.' if loud else ''}",), loud)
