"""J05."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.evidence import PAUSED, TAKEN, Record


@check(
    "J05",
    Severity.FIX,
    "Handover incomplete",
    source="guides on handing over between technicians, seen 2026",
    by_joints=False,
    needs="record handover",
)
def handover_incomplete(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a job that was paused without saying what is done, what is left, which parts are wanted and
    what was odd; and one that somebody else went on with without having taken it over.

    Why it matters: the next person does the work twice, or closes a dash in which something is still open.

    Example: `handover: paused` with `done: front` alone.

    What to do: write the four of them; who goes on records `handover: taken` first.

    Known limits: the last pause counts. Whether the words say enough is not judged; `nothing` is an answer.

    Source: a handover names done, left, parts and notes, and the next technician confirms it was read
    (guides, seen 2026).
    """
    paused: Record | None = None
    taken = ""
    stranger: Record | None = None
    for record in wiring.job.records:
        if record.verb == "handover" and record.what == PAUSED:
            paused, taken, stranger = record, "", None
        elif record.verb == "handover" and record.what == TAKEN:
            taken = record.by
        elif paused is not None and not taken and record.by != paused.by and stranger is None:
            stranger = record
    if paused is None:
        return
    missing = [key for key in ("done", "left", "parts", "odd") if not paused.word(key)]
    if missing:
        yield Fault(
            at=Spot(paused.place, "handover"),
            message=f"The job was paused by {paused.signed or 'somebody'} without {', '.join(missing)}: who goes on "
            "doesn't "
            "know where it stands.",
            do=f"Record it again with {', '.join(f'`{key}: …`' for key in missing)}; `nothing` is an answer.",
        )
    if stranger is not None:
        yield Fault(
            at=Spot(stranger.place, "handover"),
            message=f"{stranger.by or 'Somebody'} went on with the job that {paused.by or 'somebody'} had paused, "
            "and nobody "
            "wrote that the handover was read.",
            do="Read what was left, then record `handover: taken`.",
            also=(Spot(paused.place, "paused"),),
        )
