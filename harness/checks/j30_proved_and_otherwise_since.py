"""J30."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.contact import listed, printed


@check(
    "J30",
    Severity.FIX,
    "A pair that was proved is otherwise since",
    source="common practice, no source",
    by_joints=False,
    needs="tone records",
)
def proved_and_otherwise_since(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a pair of a plug that was toned and answered as charted, and of which the last tone heard
    nothing, or another pair's speaker as well; in use or only passed on, before the job was released or after.

    Why it matters: the chart was right, so a wire, a joint or the speaker went since, or two wires touch, most likely
    by the work. Closed like this a speaker is dead, or one output drives two.

    Example: FL answered at 1/9 in the morning; toned again after the dash is closed, nothing is heard there.

    What to do: find where it ends, `ringout locate` names the next test; or what joins the two, a joint or a pinched
    wire. Mend it, tone the pair again and record that.

    Known limits: the last tone of a pair counts, in the order of the file, of those for the same part of the range: a
    tweeter's tone says nothing of a woofer. One that is struck, is another car's or no
    longer holds says nothing. Silence isn't told where `unplugged` of the last tone names the pair's speakers, or a
    plug on their way. A pair that only another speaker answers is the chart's (A23, A25). An output that fell silent is
    told as C27, a function as J21.

    Source: common practice, no source.
    """
    from harness.graph.fell_silent import fell_silent, joined_since  # few pairs do

    for each in (*fell_silent(wiring), *joined_since(wiring)):
        base = printed(each.plus.function.base)
        where = f"{each.plug} {each.plus.cavity}/{each.minus.cavity}"
        before = f" ({each.heard.signed})" if each.heard.signed else ""
        now = f" ({each.since.signed})" if each.since.signed else ""
        if others := listed(each.strangers):
            said = f"{others} answer{'s' if len(each.strangers) == 1 else ''} it too since{now}"
            went = f"the wires of both touch, or were joined in between. One output drives {base} and {others}."
            do = "Power off. Find what joins them, a joint or a pinched wire."
        else:
            signal = each.since.word("signal")
            said = f"nothing was heard there{f' at {signal}' if signal else ''} since{now}"
            went = "a wire, a joint or the speaker went in between. It stays silent."
            do = f'Find where: ringout locate JOB --symptom "{base} silent".'
        yield Fault(
            at=Spot(each.since.place, where),
            message=f"{where} answered as charted, {base}{before}, and {said}: {went}",
            do=f"{do} Mend it, tone {where} again and add a record.",
            about=each.contacts,
            also=(Spot(each.heard.place, where),),
        )
