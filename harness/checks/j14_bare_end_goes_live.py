"""J14."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.stepping import live_from, newly_powered, spot
from harness.finding import Severity, Spot
from harness.graph.loose import loose_ends
from harness.graph.runs import RunEnds
from harness.graph.wiring import Wiring
from harness.model.job import Segment
from harness.work.replay import Moment


@check(
    "J14",
    Severity.STOP,
    "Bare end goes live between steps",
    source="FCS 1362:2010 4.5.1.2, as quoted in the trade, seen 2026",
    by_joints=False,
    needs="steps",
)
def bare_end_goes_live(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a state between two steps in which power is on and a lead, a cut end or the open end of a run
    that a later step joins or caps is still bare and live.

    Why it matters: the end finds metal behind the radio before its turn has come.

    Example: the battery is back on while the loom's yellow lead waits for the joint of the next step.

    What to do: join or cap what is live before power comes back.

    Known limits: an end that the plan leaves open for good is H01. What is live is known as for H01. A run's end counts
    as open only where the step that lays the run says so.

    Source: FCS 1362:2010 section 4.5.1.2 asks for unused connections to be fully insulated.
    """
    forever = {name for end in loose_ends(wiring) for name in end.contacts}
    told: set[str] = set()
    for moment, laid in newly_powered(wiring):
        key = moment.during.power.key
        for end in loose_ends(laid):
            for name in end.contacts:
                if name in forever or name in told:
                    continue
                source = live_from(laid, name, key=key)
                if not source:
                    continue
                told.update(end.contacts)
                fed = "an output" if source == name else f"live from {wiring.words(source)}"
                yield Fault(
                    at=spot(moment),
                    message=f"From {moment.words} on {wiring.words(name)} is bare and {fed}: it finds metal before "
                    "a later step joins or caps it.",
                    do="Join or cap it before power comes on, or bring power on after that step.",
                    about=end.contacts,
                    path=laid.way_in_words(source, laid.planned.path(source, name)),
                )
                break
        for number, name in sorted(moment.during.work.hanging):
            piece = wiring.job.segments[number]
            source = live_from(laid, name, key=key)
            if source and piece.a + piece.b not in told:
                told.add(piece.a + piece.b)
                yield _hanging(wiring, moment, laid, piece, name, source)


def _hanging(wiring: Wiring, moment: Moment, laid: Wiring, piece: Segment, name: str, source: str) -> Fault:
    """The open end of a run, by its last piece and the contact from which that hangs."""
    end = RunEnds(wiring.job).far(piece.b if name == piece.a else piece.a, name)
    return Fault(
        at=spot(moment),
        message=f"From {moment.words} on the open end of the run for {wiring.words(end)} is bare and live from "
        f"{wiring.words(source)}: it finds metal before a later step joins it.",
        do="Join that end before its fuse goes in and before power comes on.",
        about=(name, end),
        also=(Spot(piece.place, wiring.words(end)),),
        path=laid.way_in_words(source, laid.planned.path(source, name)),
    )
