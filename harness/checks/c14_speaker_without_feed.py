"""C14."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.silent import Silent, silent_speakers
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check("C14", Severity.FIX, "Speaker without feed", source="common practice, no source")
def speaker_without_feed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker, or one coil of it, that no signal reaches as planned.

    Why it matters: it stays silent, and the customer hears of it from the car instead of from the shop.

    Example: the loom opens the radio's plug, and the centre speaker's two leads are capped on both sides.

    What to do: join it to an output that has a signal, or take the speaker out of the job and tell the
    customer.

    Known limits: a channel that the car lacks is not asked for, unless its speaker is `new` or an output is
    joined to it. What comes from a unit without written outputs, or through one without written routes, is taken for a
    feed. Speakers that are silent for one and the same reason are told once.

    Source: common practice, no source.
    """
    for silent in silent_speakers(wiring):
        first, *others = silent.receivers
        names = " and ".join(_name(receiver.name) for receiver in silent.receivers)
        verb = "has" if len(silent.receivers) == 1 else "have"
        yield Fault(
            at=Spot(wiring.job.parts.speakers[first.speaker].place, f"speaker {printed(first.speaker)}"),
            message=f"{names} {verb} no feed {_when(silent)}: {_how_far(wiring, silent)}.",
            do=_do(wiring, silent),
            about=silent.about,
            also=_also(wiring, first.speaker, [receiver.speaker for receiver in others]),
            path=silent.path,
        )


def _name(receiver: str) -> str:
    """`spk.SUB.c2` as SUB coil 2."""
    return printed(receiver.removeprefix("spk.")).replace(".c", " coil ")


def _when(silent: Silent) -> str:
    if silent.coil:
        return "though the other coil has one"
    return "after this change" if silent.had_feed else "as planned, and had none as found"


def _how_far(wiring: Wiring, silent: Silent) -> str:
    if silent.removed:
        return f"it came from {silent.removed}, which comes out"
    reached = f"the path reaches as far as {wiring.words(silent.reached)}"
    if silent.why:
        return f"{reached}, and {silent.why}"
    return f"{reached}; next would be {wiring.words(silent.next)}" if silent.next else f"{reached} and ends there"


def _do(wiring: Wiring, silent: Silent) -> str:
    if silent.removed:
        return f"Feed it from another output, or keep {silent.removed}."
    if silent.why:
        return "Give that output a signal, or take the speaker to another output."
    if silent.had_feed and silent.next:
        return f"Join {wiring.words(silent.reached)} to {wiring.words(silent.next)} or to an amplifier's output."
    return "Join it to an output, or write how it is fed under `found:`; else take it out of the job."


def _also(wiring: Wiring, first: str, others: list[str]) -> tuple[Spot, ...]:
    speakers = wiring.job.parts.speakers
    return tuple(
        Spot(speakers[name].place, f"speaker {printed(name)}") for name in dict.fromkeys(others) if name != first
    )
