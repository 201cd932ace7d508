"""H10."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.proven import built
from harness.graph.wiring import Wiring


@check(
    "H10",
    Severity.FIX,
    "Terminal put in and not verified",
    source="a wire-harness maker's page and a college's course on terminals, seen 2026",
    by_joints=False,
    needs="records",
)
def terminal_not_verified(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a terminal that was moved to another cavity, or pulled and put back, and no record that
    somebody saw its position, its lock and that it holds a tug.

    Why it matters: a terminal that isn't locked backs out when the plug is pushed on. It works on the bench and fails
    on the road.

    Example: the terminal in 5 is moved to 6, the work is recorded as built, and nobody looked at 6.

    What to do: look where it sits, see the lock closed, tug the wire, and record `checked: T1.car.6, found: position
    lock tug`.

    Known limits: told once records say that the work is done: something built, played or tried after it, the handover
    closed, or the job released. Before that it stands among what was not checked. The last `checked` of a terminal
    counts, and must say all three words; one whose `result` is wrong doesn't count. Whether a pulled terminal was put
    back is known by its last `built`.

    Source: every terminal's position verified (a wire-harness maker's page, seen 2026), a tug after it is put in (a
    college's course, seen 2026).
    """
    from harness.graph.put_in import put_in  # few jobs have such records

    if not built(wiring):
        return
    for each in put_in(wiring):
        if each.missing:
            yield Fault(
                at=Spot(each.place, each.words),
                message=f"{each.words}: {_and(each.missing)} not recorded as right. "
                "Not locked, it backs out when the plug goes on.",
                do="Look where it sits, see the lock closed and tug the wire; then record `checked`, with "
                "`found: position lock tug`.",
                about=(each.contact,),
            )


def _and(words: tuple[str, ...]) -> str:
    return f"{', '.join(words[:-1])} and {words[-1]} are" if len(words) > 1 else f"{words[0]} is"
