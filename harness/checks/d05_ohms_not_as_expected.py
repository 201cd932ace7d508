"""D05."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import PairRead, pair_readings
from harness.graph.resistance import HIGH_SHARE, LOW_SHARE, WIRE_OHM, expected_dc
from harness.graph.rows import row_about
from harness.graph.wiring import Wiring
from harness.model.parts import Speaker
from harness.patterns.ohms import MOST_OHM


@check(
    "D05",
    Severity.ASK,
    "Resistance does not fit the speakers",
    source="retailer's table of voice coils at DC, seen 2026",
    by_joints=False,
    needs="records",
)
def ohms_not_as_expected(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker pair of a plug whose reading lies outside of what its speakers, as written, have
    at DC.

    Why it matters: the load of the amplifier, and what power arrives, are computed from the nominal
    impedance: with another one they are wrong.

    Example: nominal 4 ohm is written and 1.7 ohm is read: two such speakers side by side, or one of 2 ohm.

    What to do: find out which speakers hang there, write their nominal impedance, and look at the loads
    again.

    Known limits: 0.4 ohm is allowed for the car's own wire. Speakers behind a capacitor carry no direct
    current. A pair that reads open, or like no speaker at all (A17), isn't compared; speakers in line aren't
    either.

    Source: a voice coil reads 0.62 to 1.0 of its nominal impedance: ranges of two retailers' guides, seen
    2026.
    """
    for each in pair_readings(wiring):
        speakers = _speakers(wiring, each)
        expected = expected_dc([[speaker] for speaker in speakers])
        low, high = expected.low_ohm, expected.high_ohm
        if each.ohm is None or each.ohm > MOST_OHM or low is None or high is None:
            continue
        if low <= each.ohm <= high + WIRE_OHM:
            continue
        where = f"{each.plug} {each.plus.cavity}/{each.minus.cavity} ({row_about(each.plus)})"
        names = " and ".join(speaker.name for speaker in speakers)
        yield Fault(
            at=Spot(each.record.place, where),
            message=f"{where} reads {each.record.word('reads')}, and {names} as written {low:.1f} to {high:.1f} ohm: "
            f"{_would_fit(each.ohm)}. Loads and watts of this plan rest on it.",
            do="Find out what hangs there, write its nominal impedance, and look at the loads again.",
            about=each.record.contacts,
            also=tuple(Spot(speaker.place, f"speaker {speaker.name}") for speaker in speakers),
        )


def _speakers(wiring: Wiring, read: PairRead) -> list[Speaker]:
    """The speakers side by side across a pair, in the car as found."""
    number = wiring.found.net_number
    nets = {number(f"{read.plug}.car.{row.cavity}") for row in (read.plus, read.minus)}
    receivers = wiring.found_signals.speaker_receivers
    return [wiring.job.parts.speakers[r.speaker] for r in receivers if {number(r.plus), number(r.minus)} == nets]


def _would_fit(ohm: float) -> str:
    """What reads so: one speaker of a usual impedance, or two of one side by side."""
    nominals = (1, 2, 4, 6, 8)
    single = [n for n in nominals if n * LOW_SHARE <= ohm <= n * HIGH_SHARE + WIRE_OHM]
    double = [n for n in nominals if n / 2 * LOW_SHARE <= ohm <= n / 2 * HIGH_SHARE + WIRE_OHM]
    said = [f"one of {n} ohm" for n in single] + [f"two of {n} ohm side by side" for n in double if n not in single]
    return f"it would fit {' or '.join(said)}" if said else "it fits no usual speaker"
