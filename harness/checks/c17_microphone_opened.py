"""C17."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.broken import Break, first_break
from harness.graph.whole_wire import along
from harness.graph.wiring import Wiring
from harness.model.contact import Contact


@check("C17", Severity.FIX, "Microphone pair opened", source="common practice, no source", needs="mic")
def microphone_opened(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a microphone wire (MIC, MIC+, MIC−) of a plug that the plan opens and does not
    pass on.

    Why it matters: the hands-free goes deaf, and with it the phone and often the voice control.

    Example: the loom opens the plug and its two microphone leads are capped.

    What to do: pass both wires on, side by side and untouched.

    Known limits: a microphone that is taken to another unit's microphone terminal counts as passed. Where
    the plug's unit comes out, its microphone is not asked for.

    Source: common practice, no source.
    """
    for plug in wiring.job.parts.plugs.values():
        if plug.unit in wiring.gone or plug.car in wiring.gone:
            continue
        told: set[str] = set()
        for row in plug.rows:
            if row.function.kind != "mic" or row.function.base in told:
                continue
            near = f"{plug.name}.unit.{row.cavity}"
            found = _opened(wiring, near)
            if found is None:
                continue
            told.add(row.function.base)
            pair = [each.cavity for each in plug.rows if each.function.base == row.function.base]
            words = wiring.words(near).removesuffix(", unit side")
            yield Fault(
                at=Spot(found.place, wiring.words(found.contact)),
                message=f"{words} is the hands-free microphone, opened and not passed on: the phone goes deaf.",
                do="Pass both microphone wires on, untouched.",
                about=(*found.about, *(f"{plug.name}.{half}.{cavity}" for cavity in pair for half in ("unit", "car"))),
                path=_way(wiring, near),
            )


def _opened(wiring: Wiring, near: str) -> Break | None:
    """Where the plan parts this microphone wire, unless what is beyond goes to a unit's microphone terminal."""
    for far in wiring.found.around(near):
        contact = wiring.contact(far)
        if contact.kind != "plug" or wiring.planned.joined(near, far):
            continue
        if any(_takes_microphone(wiring.contact(name)) for name in wiring.planned.net(far)):
            continue
        return first_break(wiring, near, wiring.found.path(near, far))
    return None


def _way(wiring: Wiring, near: str) -> tuple[str, ...]:
    """The wire as found from the microphone's end, through the place where it is parted, to the phone's."""
    far = next(name for name in reversed(list(wiring.found.around(near))) if not wiring.planned.joined(near, name))
    return along(wiring, wiring.found, far, near)


def _takes_microphone(contact: Contact) -> bool:
    return contact.kind == "unit" and contact.function.kind == "mic"
