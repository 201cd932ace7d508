"""A soldered joint."""

from harness.joints.method import BARES, JointMethod

METHOD = JointMethod(
    name="solder",
    words="soldered",
    steps=(
        "Slide heat-shrink over the wire, well away from the iron.",
        "Bare 20 mm; on a wire that stays whole, part the insulation without nicking a strand.",
        "Tin, then wrap the joining wire round, so that the joint holds before it is soldered.",
        "Heat the wire until solder flows into the strands; let it cool untouched for a minute.",
        "Pull; look for bright, wetted metal and no spikes.",
        "Cover it, and tie the wire down on both sides: a soldered wire breaks where the solder ends.",
    ),
    tools=("soldering iron", "stripper", "heat gun"),
    needs_cover=True,
    parts_wire=BARES,
    source="FCS 1362:2010 2.6.1.4.2, as quoted in the trade, seen 2026",
)
