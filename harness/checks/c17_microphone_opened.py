"""C17."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.broken import opened_at
from harness.graph.wiring import Wiring


@check("C17", Severity.FIX, "Microphone pair opened", source="common practice, no source")
def microphone_opened(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a microphone wire (MIC, MIC+, MIC−) of a plug that the plan opens and does not pass on.

    Why it matters: the hands-free goes deaf, and with it the phone and often the voice control.

    Example: the loom opens the plug and its two microphone leads are capped.

    What to do: pass both wires on, side by side and untouched.

    Known limits: a microphone that is taken to another unit's microphone terminal counts as passed. Where the
    plug's unit comes out, its microphone is not asked for.

    Source: common practice, no source.
    """
    for plug in wiring.job.parts.plugs.values():
        if plug.unit in wiring.gone or plug.car in wiring.gone:
            continue
        told: dict[str, Fault] = {}
        for row in plug.rows:
            if row.function.kind != "mic":
                continue
            unit, car = f"{plug.name}.unit.{row.cavity}", f"{plug.name}.car.{row.cavity}"
            if wiring.planned.joined(unit, car) or _taken_over(wiring, car):
                continue
            if row.function.base in told:
                before = told[row.function.base]
                told[row.function.base] = before._replace(about=(*before.about, unit, car))
                continue
            found = opened_at(wiring, unit, car)
            words = wiring.words(car).removesuffix(", car side")
            told[row.function.base] = Fault(
                at=Spot(found.place, wiring.words(found.contact)),
                message=f"{words} is the hands-free microphone, opened and not passed on: the phone goes deaf.",
                do="Pass both microphone wires on, untouched.",
                about=(unit, car),
            )
        yield from told.values()


def _taken_over(wiring: Wiring, car: str) -> bool:
    """Whether the car's microphone wire ends at some unit's microphone terminal in the plan."""
    for name in wiring.planned.net(car):
        contact = wiring.contact(name)
        if contact.kind == "unit" and contact.function.kind == "mic":
            return True
    return False
