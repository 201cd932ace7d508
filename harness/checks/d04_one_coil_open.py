"""D04."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.silent import silent_speakers
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check("D04", Severity.FIX, "One coil of a double coil is open", source="common practice, no source", needs="coils")
def one_coil_open(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker with separate coils of which one has a signal and another has none.

    Why it matters: half of the motor pulls the other half along as a brake. It is quieter, the load is twice what
    the plan counts on, and the driven coil takes all the heat.

    Example: coil 1 on the amplifier's output, coil 2 left in the box.

    What to do: join the other coil, in series or in parallel as the load allows, or short nothing and leave a note.

    Known limits: coils are known where the speaker says `separate`. Whether two coils get unequal signals isn't known.

    Source: common practice, no source.
    """
    for silent in silent_speakers(wiring):
        if not silent.coil:
            continue
        first = silent.receivers[0]
        names = " and ".join(
            printed(each.name.removeprefix("spk.")).replace(".c", " coil ") for each in silent.receivers
        )
        verb = "is" if len(silent.receivers) == 1 else "are"
        yield Fault(
            at=Spot(wiring.job.parts.speakers[first.speaker].place, f"speaker {printed(first.speaker)}"),
            message=f"{names} {verb} open though another coil is driven: quieter, and one coil takes all the heat.",
            do="Join it in series or in parallel with the other coil, as the load allows.",
            about=silent.about,
            path=silent.path,
        )
