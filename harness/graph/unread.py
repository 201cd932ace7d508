"""What no record has read or looked at yet of a job that was carried out: volts, lights, joints, fader and balance."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.faded import unturned
from harness.graph.joints_made import joints_made
from harness.graph.kept import kept
from harness.graph.looks import lights
from harness.graph.proven import built
from harness.graph.turn_on_test import WRITE, turn_on_test
from harness.graph.wiring import Wiring
from harness.model.contact import listed


class Unread(NamedTuple):
    """Terminals without a reading in volts, units of ours without a look at their light, joints that nobody tugged;
    ends of fader and balance that nobody turned, by their source.
    """

    volts: tuple[str, ...]
    lights: tuple[str, ...]
    joints: tuple[str, ...]
    fader_and_balance: tuple[str, ...]


@kept
def unread(wiring: Wiring) -> Unread:
    """All of it, in the order of the job; nothing where no record says that the plan has been carried out."""
    if not built(wiring):
        return Unread((), (), (), ())
    records = [each for each in wiring.job.records if not each.stale]
    read = {name for each in records if each.verb == "volts" for name in each.contacts}
    seen = lights(wiring)
    places = [each for each in turn_on_test(wiring).readings if set(each.expected) != {WRITE}]
    ours = dict.fromkeys(each.unit for each in places)
    made = joints_made(wiring)
    return Unread(
        tuple(name for each in places if (name := f"{each.unit}.{each.terminal}") not in read),
        tuple(name for name in ours if name not in seen and wiring.job.parts.units[name].wakes),
        tuple(each.name for each in wiring.job.joints if each.name not in made or made[each.name].looked is None),
        tuple(f"{unit} with {listed(ends)}" for unit, ends in unturned(wiring)),
    )


def unread_words(wiring: Wiring) -> tuple[tuple[str, str], ...]:
    """What is not read, and which record there is none of: `the volts at amp B+ and amp GND`, `no `volts` record`."""
    still = unread(wiring)
    made = []
    if still.volts:
        made.append((f"the volts at {listed([wiring.words(name) for name in still.volts])}", "no `volts` record"))
    if still.lights:
        of = "the light of" if len(still.lights) == 1 else "the lights of"
        made.append((f"{of} {listed(still.lights)}", "no `seen` record with `shows`"))
    if still.joints:
        one = len(still.joints) == 1
        words = f"joint {still.joints[0]} holds" if one else f"joints {listed(still.joints)} hold"
        made.append((f"whether {words}", "no `checked` record"))
    made += [(f"what answers {each}", "no `faded` or `balanced` is written") for each in still.fader_and_balance]
    return tuple(made)


def unread_kinds(wiring: Wiring) -> str:
    """`volts, lights, joints, fader and balance`: of which something is unread; empty where nothing is."""
    return ", ".join(kind.replace("_", " ") for kind, names in unread(wiring)._asdict().items() if names)
