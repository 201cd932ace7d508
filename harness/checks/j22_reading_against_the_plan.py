"""J22."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "J22",
    Severity.FIX,
    "A reading speaks against the plan",
    source="bands as on the toning checklist and the turn-on test; overvoltage test of a 12 V car, ISO 16750-2",
    by_joints=False,
    needs="records",
    bases=("battery", "switched wires", "off", "coil by meter", "body by meter"),
)
def reading_against_the_plan(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: the last reading at a supply, ground or turn-on terminal of ours, across a speaker pair, at an
    output's leads or to the body that isn't what the plan gives there; 1 ohm or more from a ground to the body; 1 V or
    more in a cavity that is charted empty or as ground, and less than 10 V in one charted as constant or, with the key
    on, as switched; a status light that is red, dark, blinks or shows protect; the radio's + on the wire charted −
    where the speaker's was found as awaited; and readings that no meter can have shown, such as 124 V, −12 V to the
    body or ohms under `volts`.

    Why it matters: the paper says one thing and the car another. One of the two is wrong, and until it is known which,
    nothing is proved.

    Example: the plan has a speaker of 4 ohm on out 1, and the leads at out 1 read open.

    What to do: read once more. If it reads the same, find out why and mend it, or change the plan; then add a record of
    the new reading.

    Known limits: the last reading of each place counts, in volts that of each state of the key; `locked` counts as
    `out`, and with the engine on a battery reads 12 to 15 V. Volts of a signal (`signal` or `step` written) aren't
    judged, nor those for which the turn-on test says “write”. A battery at rest may read 12 to 13 V, a switched wire
    up to 15 V. More than 100 kohm to the body and volts within 10 min of a wait that is written only keep the job
    from being verified. A cause that a code of its own names is told by that one.

    Source: a battery at rest 12.4 to 12.7 V (a fault-finding guide, seen 2026), ACC 10 to 14 V (makers' reference
    values), a coil 0.62 to 1.0 of its ohms (two retailers' guides, seen 2026); below 1 V when off, common practice, no
    source; 18 V at most, ISO 16750-2, from memory.
    """
    from harness.graph.contrary import (
        ASLEEP,
        BODY,
        CHARTED,
        GROUNDING,
        LIGHT,
        OHMS,
        RADIO_PLUS,
        SENSE,
        VOLTS,
        contrary,
    )  # few jobs have records

    will = {
        VOLTS: "What hangs there gets too little, or something else feeds it.",
        ASLEEP: "Within 10 min that may be power that the car retains; after that it never sleeps, and the battery "
        "runs flat.",
        OHMS: "Another speaker than planned hangs there, or a joint is open.",
        BODY: "The wire touches the body, or something that does.",
        RADIO_PLUS: "The chart has the two wires exchanged, or the radio plays this one turned: a speaker comes out "
        "reversed.",
        LIGHT: "Most units show so that they protect themselves, or have no feed.",
        SENSE: "It was typed wrongly, or the meter was set otherwise, or its leads were turned round.",
        CHARTED: "The chart isn't this car's, or the wire is open, or something feeds it.",
        GROUNDING: "The unit's current finds another way home, by signal shields, which burn.",
    }
    do = {
        ASLEEP: "Wait 15 min with the key out, read again, and add a record with `waited: 15 min`.",
        RADIO_PLUS: "Look again, at the radio's side and at the speaker's marks; put the chart right, or add a "
        "record of the new look.",
        LIGHT: "Key off. Find out why, then look again and add a record of what it shows.",
        SENSE: "Read again, and add a record of what the meter shows, with its unit.",
    }
    from harness.graph.turn_on_read import low_at_the_end

    # E06 tells too little on a turn-on wire, at all of its ends
    low = {wiring.planned.net_number(each.end.contact) for each in low_at_the_end(wiring)}
    for each in contrary(wiring):
        if each.kind == VOLTS and wiring.planned.net_number(each.contacts[0]) in low:
            continue
        if each.kind in will:
            yield Fault(
                at=Spot(each.record.place, each.where),
                message=f"{each.words}. {will[each.kind]}",
                do=do.get(
                    each.kind, "Read again. If it stays, mend the car or change the plan, and add a record of the new "
                    "reading.",
                ),
                about=each.contacts,
            )  # fmt: skip
