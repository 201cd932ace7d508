"""A wire under a screw of a terminal."""

from harness.joints.method import CUTS, JointMethod

METHOD = JointMethod(
    name="screw",
    words="under a screw terminal",
    steps=(
        "Strip to the depth of the terminal; nothing bare may stand out.",
        "Put a ferrule on fine strands; never tin what goes under a screw.",
        "Tighten to the maker's figure.",
        "Pull, then tighten once more.",
    ),
    tools=("screwdriver or hex key", "stripper", "ferrule crimper"),
    needs_cover=False,
    parts_wire=CUTS,
    source="common practice, no source",
    at_terminal=True,
)
