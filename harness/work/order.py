"""The order of work: as the job says it, or proposed; each joint stands in exactly one step."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.runs import Cable, cables
from harness.graph.wiring import INPUT, OUTPUT, Wiring
from harness.model.job import Joint, Step

# Verbs of `steps:` under which joints are made.
MAKING = frozenset(("join", "build"))
MATING = frozenset(("mate", "try"))  # under which something is plugged in, for good or for a trial
_HOLD = "\N{NO-BREAK SPACE}"  # keeps a number and its unit on one line
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
KIND_WORDS = {
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
    kinds = {KIND_WORDS[word] for word in words if word in KIND_WORDS}
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


def proposed_lines(wiring: Wiring) -> list[tuple[str, str]]:
    """The proposed order as a job writes it: verb and a few words a step, which read back as the same deeds."""
    job = wiring.job
    looms = list(dict.fromkeys(mate.loom for mate in job.mates))
    opened = _opened(wiring)
    ends = any(wiring.contact(end).kind == "battery" for cable in cables(job) for end in _ends(cable))
    short = {
        "unplug": " and ".join(leaving_plugs(wiring) or job.removed),
        "look": "each plug as on its sheet, every feature tried",
        "meter": "plugs pulled, volts across each pair, each wire to the body",
        "try": f"{' and '.join(looms)} in, every lead insulated, then pull the unit side",
        "tone": f"every pair{', then pull the car end' if any(mate.half == 'car' for mate in job.mates) else ''}",
        "lay": f"all runs, every fuse out{', battery ends insulated and not joined yet' if ends else ''}",
        "recheck": "each joint, no wire on the body, supply open at the fuse",
        "mate": " and ".join(opened) or "every plug",
        "fuse": f"{'battery ends joined, then ' if ends else ''}fuses in",
        "close": "output test, features again",
    }
    made: list[tuple[str, str]] = []
    for step in _proposed(wiring):
        names = ", ".join((*step.joints, *step.contacts))
        if step.verb == "power":
            off = not any(verb == "power" for verb, _ in made)
            what = "key off, battery negative off, then wait" if off else "battery negative on, then key on"
        else:
            what = names or short[step.verb]
        made.append((step.verb, what))
    return made


def _opened(wiring: Wiring) -> list[str]:
    """The plugs that the plan opens: those that looms go into, then those behind which something is cut."""
    job = wiring.job
    return list(dict.fromkeys([*(m.plug for m in job.mates), *(wiring.contact(name).owner for name in job.cut)]))


def leaving_plugs(wiring: Wiring) -> list[str]:
    """The plugs of units that come out: no loom of ours goes between, and they stay open."""
    gone, plugs = wiring.job.removed, wiring.job.parts.plugs.values()
    return [plug.name for plug in plugs if (plug.unit in gone or plug.car in gone) and plug.name not in wiring.opened]


def _ends(cable: Cable) -> list[str]:
    return [end for run in cable.wires for end in (run.start, run.end)]


def _proposed(wiring: Wiring) -> list[WorkStep]:
    """Dead car first, power last: nothing is cut, joined or laid while the battery is on, no fuse in before the end."""
    job = wiring.job
    looms = list(dict.fromkeys(mate.loom for mate in job.mates))
    plugs = list(dict.fromkeys(mate.plug for mate in job.mates))
    opened = _opened(wiring)
    steps = [
        WorkStep("look", "Each plug: latch, keying, numbers and colours as on its sheet; no yellow restraint plug, no "
                 "orange cable with it. Try every feature and write the result.", ()),
        WorkStep("power", "Key off. Battery negative off first, then wait, by the car maker's battery and restraint "
                 "instructions; local codes come first.", ()),
        WorkStep("meter", "Plugs pulled, no loom in yet: DC volts across each pair (0 V), then each wire to the body "
                 "(open). Ohms across the pairs come with the tones.", ()),
    ]  # fmt: skip
    if looms:
        where = " and ".join(plugs)
        steps.append(
            WorkStep("try", f"Plugged in: {' and '.join(looms)} into both halves of {where}, nothing joined to its "
                     "leads, each lead's end insulated: it must seat and latch. Then pull the unit side again.", ())
        )  # fmt: skip
    toned_through = any(mate.half == "car" for mate in job.mates)
    again = " Then pull the loom's car end too: its leads are joined with both ends out." if toned_through else ""
    steps.append(
        WorkStep("tone", "Each pair on the toning checklist, ohms and tone, clipped on where it says. Write down every "
                 f"speaker that answers.{again}", ())
    )  # fmt: skip
    if job.removed:
        open_now = leaving_plugs(wiring)
        out = f": {' and '.join(open_now)} stay{'s' if len(open_now) == 1 else ''} open" if open_now else ""
        steps.append(WorkStep("unplug", f"{' and '.join(job.removed)} out of the car{out}.", ()))
    if job.cut:
        steps.append(WorkStep("cut", "Only what is toned. Leave enough of each end to join again.", (), tuple(job.cut)))
    laid = cables(job)
    if laid:
        last = f" {'and' if len(laid) == 2 else 'to'} {laid[-1].name}" if len(laid) > 1 else ""
        steps.append(
            WorkStep("lay", f"{laid[0].name}{last}, as under “Runs to lay”: every fuse out, through grommets, what "
                     "goes to the battery + insulated and not joined yet.", ())
        )  # fmt: skip
    steps += _making(wiring)
    pulled = tuple(job.depinned)
    if pulled:
        steps.append(
            WorkStep("depin", "Open the locks of the housing first, then release with the right tool.", (), pulled)
        )
    if job.capped:
        steps.append(WorkStep("cap", "Insulate the whole end, then tug it.", (), tuple(job.capped)))
    again = f"Before anything is plugged back into {' and '.join(opened)}:" if opened else "Before power:"
    steps.append(
        WorkStep("recheck", f"{again} each joint against its row, no wire to the body, no pair to another pair, "
                 "ground to the body, supply open at the fuse.", ())
    )  # fmt: skip
    steps.append(
        WorkStep("mate", f"{' and '.join(opened) or 'Every plug'}: each half seats and latches. Then the ohms at each "
                 "output, as on their sheet.", ())
    )  # fmt: skip
    if laid:
        steps.append(WorkStep("fuse", _fuses(wiring, laid), ()))
    return [*steps, *_LAST]


_LAST = (
    WorkStep("power", "Battery negative back on, last of all, by the car maker's instructions. Key on, volume at its "
             "lowest: turn-on test.", ()),
    WorkStep("close", "Output test, features again. Then close the dash.", ()),
)  # fmt: skip


def _fuses(wiring: Wiring, laid: tuple[Cable, ...]) -> str:
    """What goes to the battery, and each fuse by its value and run: the last work before power."""
    ends = [cable.name for cable in laid for end in _ends(cable) if wiring.contact(end).kind == "battery"]
    said = [f"{' and '.join(dict.fromkeys(ends))} joined to the battery +"] if ends else []
    values = [
        f"{f'{segment.fuse_a:g}{_HOLD}A' if segment.fuse_a is not None else 'value not recorded'} in {cable.name}"
        for cable in laid
        for segment in cable.segments
        if segment.kind == "fuse"
    ]
    said.append(f"fuses in, last before power: {', '.join(values)}" if values else "fuses in, last before power")
    words = ", then ".join(said)
    return f"{words[:1].upper()}{words[1:]}."


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
