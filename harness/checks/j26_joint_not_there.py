"""J26."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.place import Place


@check(
    "J26",
    Severity.FIX,
    "Joint not made, or not holding",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def joint_not_there(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a joint of the plan that the last record of it says isn't made, or doesn't hold; of one wire,
    `built` with `is: not made`, or with a fate that leaves it on nothing (capped, depinned, loose, empty) where the
    plan has a joint or a run at it, or passed on where the plan opens it.

    Why it matters: what hangs on it is silent, has no feed or comes and goes, and the plan was proved with the joint in
    it. No signature makes it hold.

    Example: `checked: J1, found: loose`, written an hour before the car was released.

    What to do: make the joint anew and record `built: J1`, tug it and record `checked: J1, found: tug`. Where it isn't
    wanted any more, take it out of the plan.

    Known limits: the last record of a joint counts, and one made anew wants no look to clear this. A wire that was
    capped or taken out where the plan joins nothing to it is told as J04, a run not laid as J31. What `found` says is
    taken for holding where its words are tug, holds, held, firm, tight, ok, good, fine, or that nothing is wrong (`not
    loose`, `no play`); other words for wrong.

    Source: common practice, no source.
    """
    from harness.graph.as_built import as_built, not_made  # few jobs have records
    from harness.graph.joints_made import joints_made

    for built in as_built(wiring)[0]:
        record = built.record
        if not_made(wiring, record):
            name = f"joint {record.joint}" if record.joint else " and ".join(map(wiring.words, built.contacts))
            said = "not made" if record.joint else f"built {record.word('is')}"
            yield _fault(record, name, f"planned {built.planned}, {said}", built.contacts, built.place)
    for name, each in joints_made(wiring).items():
        if each.looked is not None and not each.holds:
            joint, found = wiring.joints[name], each.looked.word("found") or each.looked.word("result")
            yield _fault(each.looked, f"joint {name}", f"found {found}", joint.ends, joint.place)


def _fault(record: Record, name: str, said: str, contacts: tuple[str, ...], planned: Place) -> Fault:
    who = f" ({record.signed})" if record.signed else ""
    return Fault(
        at=Spot(record.place, name),
        message=f"{name}: {said}{who}. What hangs on it is silent, without a feed, or comes and goes.",
        do="Make it, tug it, and add a record `built`, then `checked` with `found: tug`; or change the plan.",
        about=contacts,
        also=(Spot(planned, name),),
    )
