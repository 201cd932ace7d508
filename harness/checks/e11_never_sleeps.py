"""E11."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.electrical.turn_on import MOST_ASLEEP_V
from harness.finding import Severity, Spot
from harness.graph.turn_on_read import awake_when_asleep
from harness.graph.wiring import Wiring


@check(
    "E11",
    Severity.FIX,
    "Turn-on that never sleeps",
    source="retained power, a trade guide's page, seen 2026; the limit in volts common practice, no source",
    by_joints=False,
    needs="records",
    bases=("off", "retained power"),
)
def never_sleeps(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a reading of 1 V or more on a turn-on wire with the key out or the car locked, taken longer
    after that than power is retained: 10 min and half a minute more.

    Why it matters: the unit stays awake, or half awake, and draws on the battery day and night. The car doesn't start
    on Monday.

    Example: 3.1 V on the amplifier's rem, 15 min after locking.

    What to do: lift the turn-on off its source: where the volts stay on the unit's side, the unit or a wire beside it
    feeds back; where they stay on the source's, the car or the unit before keeps it awake. Read again after the wait.

    Known limits: the last reading of each wire with the key out counts. A wait that isn't written is listed as not
    checked; shorter waits prove nothing, since power is retained for 5 to 10 min. Current drawn from the battery isn't
    read from records.

    Source: retained power of 5 to 10 min, a trade guide's page, seen 2026; 1 V and the half minute are common
    practice, no source.
    """
    for awake in awake_when_asleep(wiring):
        read = awake.read
        waited = read.record.word("waited")
        when = f"{waited} after locking" if read.record.word("key") == "locked" else f"after {waited} with the key out"
        units = " and ".join(awake.woken)
        stays = "stays" if len(awake.woken) == 1 else "stay"
        source = f" from {wiring.words(awake.path[0])}" if awake.path else ""
        yield Fault(
            at=Spot(read.record.place, wiring.words(read.contact)),
            message=f"{wiring.words(read.contact)} reads {read.reads_v:.3g} V {when}, "
            f"limit {MOST_ASLEEP_V:.0f} V: no retained power lasts so long. {units} {stays} awake and the battery "
            "runs flat.",
            do=f"Lift the turn-on{source} and read both ends: find which side feeds it. Mend that, wait 15 min after "
            "locking, and add a record of the new reading.",
            about=awake.about,
            path=awake.path,
        )
