"""J28."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "J28",
    Severity.FIX,
    "A look found something wrong",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def look_found_wrong(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: the last `checked` or `seen` of a contact, a ground point or another thing that says in its
    words that something is wrong: loose, painted, corroded, burnt, hot, torn, wet, not locked and the like, or `result:
    wrong`.

    Why it matters: somebody saw it and wrote it down. It comes back on the road, and then the paper shows that it was
    known.

    Example: `checked: gnd.G1, found: painted`.

    What to do: put it right, look again, and add a record of what is there now.

    Known limits: a later look at the same thing answers it, and so does `built` at the same contact. Words that say
    neither good nor bad are listed as not checked. A joint by its name is told as J26, a unit's light as J22 (the unit
    itself, hot or burnt, here), a colour as A10, a terminal put in and not seen to sit as H10.

    Source: common practice, no source.
    """
    from harness.graph.contrary import LOOK, contrary  # few jobs have records
    from harness.graph.proven import built
    from harness.graph.put_in import put_in

    asked = {each.contact for each in put_in(wiring) if each.missing} if built(wiring) else set()
    for each in contrary(wiring):
        if each.kind == LOOK and asked.isdisjoint(each.contacts):
            who = f" ({each.record.signed})" if each.record.signed else ""
            yield Fault(
                at=Spot(each.record.place, each.where),
                message=f"{each.where}: {each.reads}{who}. Left so, it fails or comes back.",
                do="Put it right, look again, and add a record of what is there now.",
                about=each.contacts,
            )
