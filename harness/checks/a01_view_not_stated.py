"""A01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.rows import row_contacts
from harness.graph.wiring import Wiring

VIEWS = ("wire", "mating")


@check("A01", Severity.ASK, "View side not stated", source="common practice, no source")
def view_not_stated(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug with numbered cavities for which nobody said from which side they are counted.

    Why it matters: seen from the other side each row runs backwards, and the plug's neighbour wire is cut.
    Makers differ, and some draw one half from one side and its mate from the other.

    Example: a chart gives 16 cavities with their colours and no picture of the plug.

    What to do: hold the plug, find a number moulded into it or a wire whose colour is unique, and write
    `view: wire` or `view: mating` in its `face`.

    Known limits: plugs in the car's own wiring (`inline`) are not asked about; nor is a plug of one cavity,
    or one without any cavity written.

    Source: common practice, no source.
    """
    for plug in wiring.job.parts.plugs.values():
        face = plug.face
        if plug.inline or not plug.rows or plug.ways == 1 or (face is not None and face.view in VIEWS):
            continue
        many = len(dict.fromkeys(plug.cavities))
        ways = f"{many} numbered {'cavity' if many == 1 else 'cavities'}"
        known = "its face has no view" if face is not None else "it has no face"
        yield Fault(
            at=Spot(face.place if face is not None else plug.place, plug.name),
            message=f"{plug.name} has {ways} and {known}: from the other side they are other wires.",
            do=f"Look at {plug.name}: counted from the wire side or the mating side? Write `view:` in its `face:`.",
            about=row_contacts(plug, *plug.rows),
        )
