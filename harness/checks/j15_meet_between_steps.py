"""J15."""

from collections.abc import Iterator

from harness.checks.c01_two_outputs_on_one_wire import two_outputs_on_one_wire
from harness.checks.c02_output_on_own_input import output_on_own_input
from harness.checks.c03_live_output_grounded import live_output_grounded
from harness.checks.c04_bridged_negatives_joined import bridged_negatives_joined
from harness.checks.c05_bridged_into_grounded_input import bridged_into_grounded_input
from harness.checks.c24_pair_shorted import pair_shorted
from harness.checks.f22_battery_meets_ground import battery_meets_ground
from harness.checks.f23_feed_meets_signal import feed_meets_signal
from harness.checks.f24_turn_on_meets_signal import turn_on_meets_signal
from harness.checks.f25_feeds_tied import feeds_tied
from harness.checks.f26_turn_on_grounded import turn_on_grounded
from harness.checks.registry import Fault, check
from harness.checks.stepping import told_with_key_on
from harness.finding import Severity
from harness.graph.wiring import Wiring

_LOOKS = (
    two_outputs_on_one_wire, output_on_own_input, live_output_grounded, bridged_negatives_joined,
    bridged_into_grounded_input, pair_shorted, battery_meets_ground, feed_meets_signal, turn_on_meets_signal,
    feeds_tied, turn_on_grounded,
)  # fmt: skip


@check(
    "J15", Severity.STOP, "Meets what it must not, between steps", source="common practice, no source",
    by_joints=False, needs="steps",
)  # fmt: skip
def meet_between_steps(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a state between two steps in which the key is on and outputs meet, an output is shorted or
    grounded, or a feed meets ground or a signal, though the finished plan has nothing of the kind.

    Why it matters: an amplifier doesn't wait for the plan to be finished; it fails at the first key-on.

    Example: the new amplifier's output is joined to the speaker's wire and the key turned on before the cut that
    takes the radio off that wire.

    What to do: make the step that parts them first, or turn the key on later.

    Known limits: it sees in each state what C01 to C05, C24 and F22 to F26 see in the plan, with their limits. What
    is so in the plan too is told there.

    Source: common practice, no source.
    """
    yield from told_with_key_on(
        wiring, _LOOKS, "With the key on in {step}: ",
        "Part them before this step, or turn the key on when the plan is finished.",
    )  # fmt: skip
