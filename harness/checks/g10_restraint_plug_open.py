"""G10."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.stepping import spot
from harness.finding import Severity
from harness.graph.wiring import Wiring
from harness.work.replay import Moment, replay
from harness.work.telling import power_words

WAIT_S = 90.0


@check(
    "G10",
    Severity.STOP,
    "Restraint plug open with power, or too soon",
    source="workshop manual, maker withheld: 90 s",
    by_joints=False,
    needs="steps",
)
def restraint_plug_open(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a step that pulls or mates a plug which carries the restraint circuit while the battery is on
    or less than 90 s after it went off; and a step that turns the key on while such a plug is apart.

    Why it matters: a charge may fire while its capacitor is full. With the key on and the plug open the unit stores a
    fault, and its lamp stays on until a dealer clears it.

    Example: the seat is unplugged to reach the amplifier under it, and the key turned on to read the turn-on wire.

    What to do: battery negative off, wait, then pull; plug it together before the battery comes back.

    Known limits: a restraint plug is known by `carries: SRS` or the function SRS in it. A wait without its seconds
    counts as the maker's own time. The maker's instructions come before these 90 s where they ask for more.

    Source: workshop manual, maker withheld: at least 90 s after battery negative off.
    """
    plugs = wiring.job.parts.plugs.values()
    carrying = {
        plug.name
        for plug in plugs
        if "srs" in plug.carries or any(row.function.kind == "restraint" for row in plug.rows)
    }
    told: set[str] = set()
    hasty = False  # told once between two switchings of the battery
    for moment in replay(wiring).moments if carrying else ():
        hasty = hasty and moment.before.power.battery == moment.during.power.battery
        open_now = carrying & moment.during.work.apart
        moved = sorted(carrying & (moment.before.work.apart ^ moment.during.work.apart))
        if moved and not hasty and (soon := _too_soon(moment)):
            hasty = True
            yield Fault(
                at=spot(moment),
                message=f"{moment.words.capitalize()} pulls or mates {moved[0]}, a restraint plug, {soon}: a charge "
                "can fire.",
                do=f"Battery negative off, wait {WAIT_S:g} s or the maker's time, then this step; battery on after it.",
                about=tuple(moved),
            )
        if moment.during.power.on and open_now - told:
            told |= open_now
            name = min(open_now)
            yield Fault(
                at=spot(moment),
                message=f"In {moment.words} the key is on with {name}, a restraint plug, open: its lamp stays on until "
                "a dealer clears the fault.",
                do=f"Plug {name} together before the battery comes back.",
                about=tuple(sorted(open_now)),
            )


def _too_soon(moment: Moment) -> str:
    power = moment.during.power
    if power.battery:
        return f"with {power_words(moment.during)}"
    if moment.before.power.battery:
        return "in the step that takes the battery off"
    if power.calm_s < WAIT_S:
        return f"{power.calm_s:g} s after the battery went off, at least {WAIT_S:g} s"
    return ""
