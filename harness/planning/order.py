"""The order of work: as the job says it, or proposed; each joint stands in exactly one step."""

from __future__ import annotations

import re
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.model.job import Job, Joint, Step

# Verbs of `steps:` under which joints are made; a joint method is one too.
MAKING = frozenset(("join", "build", "make", "bench"))
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
        return _said(wiring.job)
    return Order(tuple(_proposed(wiring)), True, ())


# -- as the job says it --------------------------------------------------------------------------------


def _said(job: Job) -> Order:
    left = {joint.name: joint for joint in job.joints}
    methods = {joint.method for joint in job.joints}
    making = [step for step in job.steps if step.verb in MAKING or step.verb in methods]
    made: dict[int, list[str]] = {}
    # a joint's own name or contacts bind closer than a place or a unit that it also touches
    for fits in (_named, _placed):
        for step in making:
            for name in [name for name, joint in left.items() if fits(job, step, joint)]:
                made.setdefault(id(step), []).append(name)
                del left[name]
    order = {joint.name: number for number, joint in enumerate(job.joints)}
    steps = tuple(
        WorkStep(step.verb, step.what, tuple(sorted(made.get(id(step), ()), key=lambda name: order[name])))
        for step in job.steps
    )
    return Order(steps, False, tuple(left))


def _words(text: str) -> set[str]:
    return {word.strip(",;").lower() for word in text.split()}


def _named(job: Job, step: Step, joint: Joint) -> bool:
    """By the joint's name, or by a contact or pair as its own line writes it."""
    words = _words(step.what)
    own = {joint.name.lower()} | {word.strip(",[]:").lower() for word in re.split(r"[\s:]+", joint.text)}
    contacts = {name.lower() for link in joint.links for name in link}
    return bool(words & (own | contacts) - {"reversed", ""})


def _placed(job: Job, step: Step, joint: Joint) -> bool:
    """By its place, by something that it touches, by its method, or because all are meant."""
    words = _words(step.what)
    if words & {"all", "everything"}:
        return True
    if joint.at and joint.at.lower() in step.what.lower():
        return True
    if step.verb == joint.method or joint.method in words:
        return not joint.at or not any(each.at and each.at.lower() in step.what.lower() for each in job.joints)
    return bool(words & {job.contacts[name].owner.lower() for link in joint.links for name in link})


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
        steps.append(WorkStep("depin", "Open the locks of the housing first, then release with the right tool.", (), pulled))
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
        made.append(WorkStep("build", f"{method}: {where}{last}", tuple(names)))
    return made


def _supply(wiring: Wiring, joint: Joint) -> bool:
    return any(wiring.contact(name).function.kind in _SUPPLY for link in joint.links for name in link)
