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
    """Each joint in the making step whose words say more about it than any other's; else in none.

    A person wrote the steps for a person: where the words leave it open, the joint is told apart, since a joint
    under a wrong step is made at a wrong time.
    """
    job = wiring.job
    making = [number for number, step in enumerate(job.steps) if step.verb in MAKING]
    made: dict[int, list[str]] = {}
    unplaced = []
    for joint in job.joints:
        fits = sorted(((_fit(wiring, job.steps[number], joint), number) for number in making), reverse=True)
        if not fits or fits[0][0] <= 0 or (len(fits) > 1 and fits[1][0] == fits[0][0]):
            unplaced.append(joint.name)
        else:
            made.setdefault(fits[0][1], []).append(joint.name)
    steps = tuple(WorkStep(step.verb, step.what, tuple(made.get(number, ()))) for number, step in enumerate(job.steps))
    return Order(steps, False, tuple(unplaced))


def _fit(wiring: Wiring, step: Step, joint: Joint) -> float:
    """How much a step's words say about a joint; 0 where they say nothing, or something that it is not."""
    what = step.what.lower()
    words = {word.strip(",;.") for word in what.split()}
    contacts = [wiring.contact(name) for link in joint.links for name in link]
    written = {word.strip(",[]:") for word in joint.text.lower().split()} - {"reversed", ""}
    if words & ({joint.name.lower()} | written | {contact.name.lower() for contact in contacts}):
        return _BY_NAME
    fit = _BY_PLACE if joint.at and joint.at.lower() in what else 0.0
    told = _told(wiring, words, joint)
    if any(said == 0 for said in told):
        return 0.0
    fit += sum(told)
    if words & {contact.owner.lower() for contact in contacts}:
        fit += _BY_TOUCH
    if joint.method in words:
        fit += _BY_TOUCH
    return fit + (_BY_REST if words & _REST_WORDS else 0.0)


def _told(wiring: Wiring, words: set[str], joint: Joint) -> list[float]:
    """What each kind of word in a step says about a joint: 0 where the step speaks of others of that kind."""
    contacts = [wiring.contact(name) for link in joint.links for name in link]
    told = []
    kinds = {_KIND_WORDS[word] for word in words if word in _KIND_WORDS}
    subs = bool(words & _SUB_WORDS)
    if kinds or subs:
        here = bool(kinds & {contact.function.kind for contact in contacts})
        here = here or (subs and any(contact.function.channel == "SUB" for contact in contacts))
        told.append(_BY_KIND if here else 0.0)
    halves = {_HALF_WORDS[word] for word in words if word in _HALF_WORDS}
    at = {contact.half for contact in contacts if contact.half}
    if halves and at:
        told.append(_BY_SIDE if halves & at else 0.0)
    named = words & {unit.lower() for unit in wiring.job.parts.units}
    roles = {role for word, role in (("inputs", INPUT), ("outputs", OUTPUT)) if word in words}
    if roles:
        owners = {contact.owner.lower() for contact in contacts if wiring.role(contact.name) in roles}
        told.append(_BY_SIDE if (owners & named if named else owners) else 0.0)
    return told


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
