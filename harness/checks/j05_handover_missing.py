"""J05."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.handed_over import NEEDED, handed_over
from harness.graph.wiring import Wiring

_ASKS = {"done": "what is done", "left": "what is left", "parts": "where the parts are", "odd": "what is odd"}


@check("J05", Severity.FIX, "Handover missing", source="common practice, no source", by_joints=False, needs="records")
def handover_missing(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a job that was paused without saying what is done, what is left, where the parts are and what
    is odd; or one on which somebody else went on without a record that he has taken it over.

    Why it matters: the next person finds bare ends and open plugs and guesses. What was left half done is joined, or
    given power, by somebody who doesn't know.

    Example: `handover: paused` with `done` and `left`, and not a word of the parts.

    What to do: add a record `handover: paused` with done, left, parts and odd (`nothing` is an answer); who goes on
    reads it first and adds `handover: taken`.

    Known limits: the last pause counts, and a record can't be changed: a complete one later, or the job taken over or
    closed, answers it. Prints and signatures are no work on the car. Records without `by` are nobody's. What the words
    say isn't judged.

    Source: common practice, no source.
    """
    state = handed_over(wiring)
    if state is None:
        return
    paused, missing, went_on = state
    who = paused.by or "Nobody named"
    if missing:
        words = ", ".join(_ASKS[key] for key in NEEDED if key in missing)
        yield Fault(
            at=Spot(paused.place, "handover"),
            message=f"{who} paused the job on {paused.when[:10] or 'a day not written'} and didn't say {words}: the "
            "next person has to guess.",
            do=f"Add a record `handover: paused` with done, left, parts and odd; missing are {', '.join(missing)}.",
        )
    if went_on is not None:
        yield Fault(
            at=Spot(went_on.place, "handover"),
            message=f"{who} paused the job, and {went_on.by} went on without a record of having read the handover: "
            "what was left half done may be joined or powered unknown.",
            do=f"Stop and read the handover; then {went_on.by} adds a record `handover: taken`.",
            also=(Spot(paused.place, "handover"),),
        )
