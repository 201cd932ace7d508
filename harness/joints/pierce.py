"""A tap that bites through the insulation."""

from harness.joints.method import PIERCES, JointMethod

METHOD = JointMethod(
    name="pierce",
    words="tapped through the insulation",
    steps=(
        "Take the tap made for this wire's size and jacket.",
        "Close it square on the wire until it latches.",
        "Look for strands cut through; read the drop across it under load.",
        "Tie both wires down: it works loose when the car shakes.",
    ),
    tools=("parallel pliers", "digital meter"),
    needs_cover=False,
    parts_wire=PIERCES,
    source="common practice, no source; installers' forums call it a first cause of come-backs",
    uses=("tap",),
)
