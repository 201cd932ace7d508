"""A wire pushed into a spring or lever connector."""

from harness.joints.method import CUTS, JointMethod

METHOD = JointMethod(
    name="push",
    words="pushed into a spring connector",
    steps=(
        "Strip to the mark on the connector.",
        "Open the lever or press the wire in to the stop.",
        "Pull; look for strands that stayed outside.",
        "Take it out again after the test: it lets go when the car shakes.",
    ),
    tools=("stripper",),
    needs_cover=False,
    parts_wire=CUTS,
    source="common practice, no source",
    uses=("spring connector",),
)
