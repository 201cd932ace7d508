"""J30."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check(
    "J30",
    Severity.FIX,
    "A pair that answered fell silent",
    source="common practice, no source",
    by_joints=False,
    needs="tone records",
)
def a_pair_fell_silent(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a pair of a plug that was toned and answered as charted, and of which the last tone heard
    nothing; in use or only passed on, before the job was released or after.

    Why it matters: the chart was right, so a wire, a joint or the speaker went since, most likely by the work. Whoever
    put a finger on it last closes the panel on a dead speaker.

    Example: FL answered at 1/9 in the morning; toned again after the dash is closed, nothing is heard there.

    What to do: find where it ends, `ringout locate` names the next test. Mend it, tone the pair again and record that.

    Known limits: the last tone of a pair counts, in the order of the file. One that is struck, is another car's or no
    longer holds says nothing. It isn't told where `unplugged` of the last tone names the pair's speakers, or a plug on
    their way. An output that fell silent is told as C27, a function as J21.

    Source: common practice, no source.
    """
    from harness.graph.fell_silent import fell_silent  # few pairs do

    for each in fell_silent(wiring):
        base = printed(each.plus.function.base)
        where = f"{each.plug} {each.plus.cavity}/{each.minus.cavity}"
        before = f" ({each.heard.signed})" if each.heard.signed else ""
        now = f" ({each.silent.signed})" if each.silent.signed else ""
        yield Fault(
            at=Spot(each.silent.place, where),
            message=f"{where} answered as charted, {base}{before}, and nothing was heard there since{now}: a wire, a "
            "joint or the speaker went in between. It stays silent.",
            do=f'Find where: ringout locate JOB --symptom "{base} silent". Mend it, tone {where} again and add a '
            "record.",
            about=each.contacts,
            also=(Spot(each.heard.place, where),),
        )
