"""What the records say of joints by their names: made as planned or otherwise, and looked at."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.as_built import as_built, joint_as_planned
from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.evidence import PROVES_NOTHING, Record
from harness.model.good_and_bad import says_it_holds


class JointMade(NamedTuple):
    """The last record that a joint was made, None where a later one of its ends differs, and the last look at it.

    `holds` is true where the look found that it holds, which one without `found` says too.
    """

    built: Record | None
    looked: Record | None

    @property
    def made(self) -> bool:
        return self.built is not None and joint_as_planned(self.built) is True

    @property
    def holds(self) -> bool:
        return self.looked is not None and holds(self.looked)


def holds(record: Record) -> bool:
    """Whether a look at a joint found that it holds."""
    if record.word("result") in PROVES_NOTHING:
        return False
    return says_it_holds(f"{record.word('found')} {record.word('is')} {record.word('shows')}")


@kept
def joints_made(wiring: Wiring) -> dict[str, JointMade]:
    """What is recorded of each joint, by its name. One that was made anew wants a look of its own."""
    made: dict[str, JointMade] = {}
    for record in wiring.job.records:
        if record.joint and not record.stale:
            before = made.get(record.joint, JointMade(None, None))
            made[record.joint] = (
                JointMade(record, None) if record.verb == "built" else before._replace(looked=record)
            )  # fmt: skip
    if made:
        otherwise = {name for each in as_built(wiring)[0] if not each.record.joint for name in each.contacts}
        for name, each in made.items():
            if each.built is not None and not otherwise.isdisjoint(each.built.contacts):
                made[name] = JointMade(None, None)
    return made
