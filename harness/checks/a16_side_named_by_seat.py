"""A16."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.rows import row_about, row_contacts
from harness.graph.wiring import Wiring
from harness.place import Place


@check("A16", Severity.ASK, "Side named by a seat", source="common practice, no source", needs="no steering")
def side_named_by_seat(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a function named by a seat (driver-front, passenger-rear) in a job whose car doesn't say
    on which side the wheel is.

    Why it matters: the driver's side is left in one market and right in another; charts are copied between
    them, and left and right change places without anybody's mistake.

    Example: `1/11: driver-front WH WH/BK` and no `steering:` under `car:`.

    What to do: write `steering: left` or `steering: right` under `car:`, as seen from the seats facing forward,
    or name the channel: FL, FR, RL, RR.

    Known limits: told once a job, all rows listed. Whether the chart is for this car's market is not known.

    Source: common practice, no source.
    """
    car = wiring.job.car
    if car is not None and car.steering in ("left", "right"):
        return
    spots: dict[Place, Spot] = {}
    about: list[str] = []
    first = ""
    for plug in wiring.job.parts.plugs.values():
        for row in plug.rows:
            if row.function.seat:
                first = first or f"{plug.name} cavity {row.cavity} ({row_about(row)})"
                spots.setdefault(row.place, Spot(row.place, f"{plug.name} cavity {row.cavity}"))
                about += row_contacts(plug, row)
    for loom in wiring.job.parts.looms.values():
        for lead in loom.leads:
            if lead.function.seat:
                first = first or wiring.words(lead.name)
                spots.setdefault(lead.place, Spot(lead.place, wiring.words(lead.name)))
                about.append(lead.name)
    if not spots:
        return
    at, *also = spots.values()
    yield Fault(
        at=at,
        message=f"{first} is named by a seat, and the car's steering side is not stated: left or right isn't known.",
        do="Facing forward, on which side is the wheel? Write `steering: left` or `steering: right` under `car:`.",
        about=tuple(about),
        also=tuple(also),
    )
