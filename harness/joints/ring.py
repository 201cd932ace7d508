"""A ring terminal on a stud or bolt."""

from harness.joints.method import CUTS, JointMethod

METHOD = JointMethod(
    name="ring",
    words="ring terminal on a bolt",
    steps=(
        "Take the ring made for the wire's size and the bolt's.",
        "Slide heat-shrink on, strip, crimp with the tool for that ring; pull.",
        "Shrink over the barrel.",
        "Bring the metal under it bare and bright; a toothed washer bites, a painted face does not.",
        "Tighten, protect from damp, and read the drop under load.",
    ),
    tools=("ring crimper", "stripper", "wire brush", "spanner"),
    needs_cover=False,
    parts_wire=CUTS,
    source="common practice, no source",
    at_terminal=True,
    uses=("ring",),
)
