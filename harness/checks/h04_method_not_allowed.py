"""H04."""

from collections.abc import Iterator

from harness import presets
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.whole_wire import along
from harness.graph.wire_class import _WHAT, wire_class
from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.presets import FACTORY, LOOM

_WHERE = {FACTORY: "the car's own {} wires", LOOM: "{} leads of a loom"}


@check("H04", Severity.FIX, "Joint method not allowed here", source="the shop's preset, which names its own basis")
def method_not_allowed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a joint by a method that the job's preset does not allow on that class of wire.

    Why it matters: the trade disagrees on solder and crimp, but every shop knows which joints came back.

    Example: a piercing tap on a factory B+ wire; under the preset `crimp`, a soldered joint in a loom.

    What to do: take a method that the preset allows, or have the shop name another preset.

    Known limits: a method made at a terminal is judged as a joint at a terminal. What the unit's maker asks
    for is not known.

    Source: the preset says for each class of wire who says so; the message names it.
    """
    if wiring.job.preset.lower() not in presets.names():
        return
    rules = presets.preset(wiring.job.preset)
    known = methods()
    for joint in wiring.job.joints:
        method = known[joint.method]  # a file with another doesn't read, and what plugs in is no joint
        where, what = wire_class(wiring, joint, method)
        allowed = rules.allowed(where, what)
        if method.name in allowed.methods:
            continue
        ends = joint.ends
        on = _WHERE.get(where, "{} terminals").format(what)
        instead = " or ".join(allowed.methods)
        yield Fault(
            at=Spot(joint.place, wiring.words(ends[0])),
            message=f"{wiring.words(ends[0])} is {method.words}: preset {rules.name} does not allow that on {on}.",
            do=(f"Use {instead} ({allowed.basis})." if instead else f"Leave the wire alone ({allowed.basis})."),
            about=ends,
            path=_way(wiring, ends, what),
        )


def _way(wiring: Wiring, ends: tuple[str, ...], what: str) -> tuple[str, ...]:
    """From the joint to the nearest contact that makes the wire what it is."""
    for end in ends:
        others = [other for other in wiring.planned.around(end) if other != end]
        if name := next((other for other in others if _WHAT.get(wiring.role(other)) == what), ""):
            return along(wiring, wiring.planned, end, name)
    return ends
