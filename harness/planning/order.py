"""The order of work: as the job says it, or proposed; each joint stands in exactly one step."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.wiring import INPUT, OUTPUT, Wiring
from harness.model.job import Joint, Step

# Verbs of `steps:` under which joints are made.
MAKING = frozenset(("join", "build"))
_SUPPLY = ("battery", "switched")


class WorkStep(NamedTuple):
    """One step: its verb, what to do in words, the joints made in it (names), the contacts capped or depinned."""

    verb: str
    what: str
    joints: tuple[str, ...]
    contacts: tuple[str, ...] = ()


class Order(NamedTuple):
    """The whole order. `proposed` where the job says none; `unplaced` are joints that its own steps don't name."""

    steps: tuple[WorkStep, ...]
    proposed: bool
    unplaced: tuple[str, ...]


def order_of_work(wiring: Wiring) -> Order:
    """The job's own `steps:`, with each joint in the step that names it, or a proposed order."""
    if wiring.job.steps:
        return _said(wiring)
    return Order(tuple(_proposed(wiring)), True, ())


# -- as the job says it --------------------------------------------------------------------------------

# What a word of a step may mean for a joint, besides names: the kind of function that it carries.
_KIND_WORDS = {
    "turn-on": "trigger", "remote": "trigger", "trigger": "trigger", "supply": "battery", "power": "battery",
    "ground": "ground", "grounds": "ground", "data": "data", "aerial": "aerial", "illumination": "light",
}  # fmt: skip
_HALF_WORDS = {"radio": "unit", "unit": "unit", "car": "car", "body": "car", "speaker": "car"}
_SUB_WORDS = frozenset(("sub", "subwoofer", "subwoofers"))
_REST_WORDS = frozenset(("all", "everything", "rest", "others"))

# How much each of these says about which step is meant: a joint's own name the most, "all" the least.
_BY_NAME, _BY_PLACE, _BY_KIND, _BY_SIDE, _BY_TOUCH, _BY_REST = 16.0, 8.0, 4.0, 2.0, 1.0, 0.5


def _said(wiring: Wiring) -> Order:
    """Each joint goes to the making step whose words say most about it; the earlier one where two say as much."""
    job = wiring.job
    making = [number for number, step in enumerate(job.steps) if step.verb in MAKING]
    made: dict[int, list[str]] = {}
    unplaced = []
    for joint in job.joints:
        fits = {number: _fit(wiring, job.steps[number], joint) for number in making}
        best = max(making, key=lambda number: (fits[number], -number), default=None)
        if best is None or fits[best] <= 0:
            unplaced.append(joint.name)
        else:
            made.setdefault(best, []).append(joint.name)
    steps = tuple(WorkStep(step.verb, step.what, tuple(made.get(number, ()))) for number, step in enumerate(job.steps))
    return Order(steps, False, tuple(unplaced))


def _fit(wiring: Wiring, step: Step, joint: Joint) -> float:
    """How much a step's words say about a joint; 0 where they say nothing."""
    what = step.what.lower()
    words = {word.strip(",;.") for word in what.split()}
    contacts = [wiring.contact(name) for link in joint.links for name in link]
    written = {word.strip(",[]:") for word in joint.text.lower().split()} - {"reversed", ""}
    fit = 0.0
    if words & ({joint.name.lower()} | written | {contact.name.lower() for contact in contacts}):
        fit += _BY_NAME
    if joint.at and joint.at.lower() in what:
        fit += _BY_PLACE
    if {_KIND_WORDS[word] for word in words if word in _KIND_WORDS} & {c.function.kind for c in contacts}:
        fit += _BY_KIND
    if words & _SUB_WORDS and any(contact.function.channel == "SUB" for contact in contacts):
        fit += _BY_KIND
    if {_HALF_WORDS[word] for word in words if word in _HALF_WORDS} & {contact.half for contact in contacts}:
        fit += _BY_SIDE
    owners = {contact.owner.lower() for contact in contacts}
    named = words & {unit.lower() for unit in wiring.job.parts.units}
    for word, role in (("inputs", INPUT), ("outputs", OUTPUT)):
        at = {contact.owner.lower() for contact in contacts if wiring.role(contact.name) == role}
        if word in words and (at & named if named else at):
            fit += _BY_SIDE
    if words & owners:
        fit += _BY_TOUCH
    if joint.method in words:
        fit += _BY_TOUCH
    return fit + (_BY_REST if words & _REST_WORDS else 0.0)


# -- proposed ------------------------------------------------------------------------------------------


def _proposed(wiring: Wiring) -> list[WorkStep]:
    job = wiring.job
    looms = list(dict.fromkeys(mate.loom for mate in job.mates))
    plugs = list(dict.fromkeys(mate.plug for mate in job.mates))
    steps = [
        WorkStep("look", "At each plug: latch, keying, numbers as on its plug sheet, colours as charted. No yellow "
                 "restraint plug and no orange cable in the group. Try every feature and write the result.", ()),
        WorkStep("meter", "Key off, plugs pulled: DC volts of each pair first (0 V), then ohms across each pair, then "
                 "each wire to the body (open).", ()),
    ]  # fmt: skip
    if looms:
        where = " and ".join(plugs)
        steps.append(
            WorkStep("try plugged in", f"{' and '.join(looms)} into both halves of {where}, nothing joined to its "
                     "leads, each lead's end insulated: it must seat and latch. Then pull the unit side again.", ())
        )  # fmt: skip
    steps.append(WorkStep("tone", "Each pair on the toning checklist. Write down every speaker that answers.", ()))
    if job.cut:
        steps.append(WorkStep("cut", "Only what is toned. Leave enough of each end to join again.", (), tuple(job.cut)))
    steps += _making(wiring)
    pulled = tuple(job.depinned)
    if pulled:
        steps.append(
            WorkStep("depin", "Open the locks of the housing first, then release with the right tool.", (), pulled)
        )
    if job.capped:
        steps.append(WorkStep("cap", "Insulate the whole end, then tug it.", (), tuple(job.capped)))
    again = f"Before anything is plugged back into {' and '.join(plugs)}:" if plugs else "Before power:"
    steps.append(
        WorkStep("recheck", f"{again} each joint against its row, no wire to the body, no pair to another pair, "
                 "ground to the body, supply open at the fuse.", ())
    )  # fmt: skip
    steps.append(
        WorkStep("close", "Plug in, fuse last, key on. Turn-on test, output test at low volume, features again. "
                 "Then close the dash.", ())
    )  # fmt: skip
    return steps


def _making(wiring: Wiring) -> list[WorkStep]:
    """Joints place by place as first written; what carries battery power is joined last."""
    groups: dict[tuple[bool, str, str], list[str]] = {}
    for joint in wiring.job.joints:
        groups.setdefault((_supply(wiring, joint), joint.at, joint.method), []).append(joint.name)
    made = []
    for (supply, at, method), names in sorted(groups.items(), key=lambda item: item[0][0]):
        where = at or "place not recorded"
        last = "; it carries battery power, so last" if supply else ""
        made.append(WorkStep("build", f"{method}, {where}{last}", tuple(names)))
    return made


def _supply(wiring: Wiring, joint: Joint) -> bool:
    return any(wiring.contact(name).function.kind in _SUPPLY for link in joint.links for name in link)
