"""A crimped joint: butt splice or closed-end cap."""

from harness.joints.method import CUTS, JointMethod

METHOD = JointMethod(
    name="crimp",
    words="crimped",
    steps=(
        "Add up the wire sizes and take the splice made for that range.",
        "Slide heat-shrink on, unless the splice has its own.",
        "Strip to the depth of the barrel; no strand outside.",
        "Crimp in the right nest until the ratchet lets go.",
        "Pull each wire by hand.",
        "Shrink the sleeve until adhesive shows at both ends.",
    ),
    tools=("ratchet crimper", "stripper", "heat gun"),
    needs_cover=True,
    parts_wire=CUTS,
    source="retailer's guide, seen 2026, origin unknown; common practice for the order of steps",
    uses=("butt joint",),
)
