"""H06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.splices import splices
from harness.graph.wiring import Wiring


@check("H06", Severity.FIX, "Connector too small", source="common practice, no source", by_joints=False, needs="takes")
def connector_too_small(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: wires whose copper, added up, is more than the thickest size that the joint's connector
    takes.

    Why it matters: strands are left outside or cut off to make it fit. The crimp holds what is inside, and the rest
    gets hot or pulls out.

    Example: two 16 AWG wires and one of 12 AWG in a cap made for 22 to 18 AWG.

    What to do: take the splice or cap that is made for the sum, and write its range (`takes: 12..10 AWG`).

    Known limits: the range is what is written in the joint's long form; without it nothing is judged. A wire whose
    size isn't written counts as nothing, and is listed as not checked. Some makers count strands or allow fewer wires
    than the sum says. Too thin a wire for a connector isn't looked for.

    Source: that areas are added up is common practice, no source; the areas are those of ASTM B258.
    """
    for joint in wiring.job.joints:
        if joint.takes is None:
            continue
        most = joint.takes[1]
        for wires in splices(joint):
            sizes = [size for name in wires if (size := wiring.contact(name).size) is not None]
            area_mm2 = sum(size.area_mm2 for size in sizes)
            if area_mm2 <= most.area_mm2 * (1 + 1e-9):
                continue
            words = " to ".join(dict.fromkeys(size.text for size in joint.takes))
            yield Fault(
                at=Spot(joint.place, f"{joint.name} ({wiring.words(wires[0])})"),
                message=f"{joint.name}: {' + '.join(size.text for size in sizes)} is {area_mm2:.3g} mm² in a connector "
                f"for {words}, {most.area_mm2:.3g} mm² at most: strands stay outside.",
                do=f"Take a connector made for {area_mm2:.3g} mm² and write its range under `takes`.",
                about=wires,
            )
            break
