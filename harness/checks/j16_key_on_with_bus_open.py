"""J16."""

from collections.abc import Iterator

from harness.checks.g01_data_pair_opened import data_pair_opened
from harness.checks.g11_data_pair_crossed import data_pair_crossed
from harness.checks.g12_data_wire_joined_to_stranger import data_wire_joined_to_stranger
from harness.checks.registry import Fault, check
from harness.checks.stepping import told_with_key_on
from harness.finding import Severity
from harness.graph.wiring import Wiring

_LOOKS = (data_pair_opened, data_pair_crossed, data_wire_joined_to_stranger)


@check(
    "J16", Severity.STOP, "Key on with the bus open", source="common practice, no source", by_joints=False,
    needs="steps",
)  # fmt: skip
def key_on_with_bus_open(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: the key on in a state in which a data pair is open, crossed or joined to a stranger, or the
    unit at its end unplugged, though the finished plan has it whole.

    Why it matters: the units that miss the bus store faults, warning lamps stay on, and some cars don't start.

    Example: the key is turned on for a reading while the loom's plug, which carries the bus through, is not in yet.

    What to do: plug the pair together before the key goes on, or read with the key off.

    Known limits: what G01, G11 and G12 see in the plan it sees in each state, with their limits.

    Source: common practice, no source.
    """
    yield from told_with_key_on(
        wiring, _LOOKS, "The key is on in {step} and ",
        "Make the pair whole before the key goes on, or turn it on later.",
    )  # fmt: skip
