"""Joints that the plan turns only because a speaker of the first car was turned."""

from __future__ import annotations

from harness.again.recheck import Recheck
from harness.graph.polarity import turned_back
from harness.graph.wiring import Wiring
from harness.model.contact import listed

_DO = (
    "Find + of this pair by a pulse or the cone before it is joined. Where + is as charted, join it + to + and take "
    "`reversed` off: so joined, {speaker} would play against the others."
)


def turned_there(first: Wiring, wiring: Wiring) -> list[Recheck]:
    """One for each such joint of the new job, by its name and what it joins; `first` is the wiring with the first
    car's records, by which the speaker lies turned.
    """
    car = first.job.car
    name = " ".join(filter(None, (car.name, car.year))) if car is not None else ""
    made = []
    for joint, (speaker, record) in turned_back(first).items():
        if (there := wiring.joints.get(joint)) is None:
            continue
        joined = listed([f"{wiring.words(link.a)} to {wiring.words(link.b)}" for link in there.links])
        who = f" ({record.signed})" if record.signed else ""
        known = f"{joined}: reversed, as {speaker} was turned on {name or 'the first car'}{who}"
        made.append(Recheck("turned", joint, known, _DO.format(speaker=speaker), there.place))
    return made
