"""A loom's end in a plug."""

from harness.joints.method import LEAVES, JointMethod

METHOD = JointMethod(
    name="mate",
    words="plugged in",
    steps=(
        "Meter the loom against the sheet: cavity to lead, every used one.",
        "Look for bent pins and pushed-back sockets on both halves.",
        "Push the halves together until the latch clicks; slide its lock home.",
        "Pull on the housings, not on the wires.",
    ),
    tools=("digital meter",),
    needs_cover=False,
    parts_wire=LEAVES,
    source="FCS 1362:2010 4.5.1.4 (check a ready-made lead's pinning), as quoted in the trade, seen 2026",
    plugs_in=True,
)
