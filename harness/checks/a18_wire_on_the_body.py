"""A18."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import FREE_OHM, holding, ohm_of
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.evidence import Record


@check(
    "A18",
    Severity.STOP,
    "Wire of a pair lies on the body",
    source="retailer's guide, seen 2026: any continuity between a speaker wire and the chassis",
    by_joints=False,
    needs="records",
)
def wire_on_the_body(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a wire that was read to the car's body and conducts, where the car as found doesn't put it
    on the body.

    Why it matters: a bridged output on it shorts to the body: it shuts down, or burns.

    Example: cavity 4 reads 0.6 ohm to the body; the wire is rubbed through in the door boot.

    What to do: connect nothing to it. Find the rub, often at the door boot or behind a new screw, mend it,
    and read again.

    Known limits: more than 100 kohm counts as free. Of a pair read together (`body: 0.6 ohm`) both wires are
    told, as nobody wrote which.

    Source: FAQ of the trade, seen 2026: most radios shut their output down on one wire that touches the
    chassis.
    """
    last: dict[frozenset[str], tuple[Record, str]] = {}
    for record in holding(wiring, "tone", "ohm"):
        text = record.word("body") or (record.word("reads") if len(record.contacts) == 1 else "")
        if text:
            last[frozenset(name.replace(".unit.", ".car.", 1) for name in record.contacts)] = (record, text)
    for record, text in last.values():
        ohm = ohm_of(text)
        names = [name for name in record.contacts if not _on_body(wiring, name)]
        if ohm is None or ohm > FREE_OHM or not names:
            continue
        words = " and ".join(wiring.words(name) for name in names)
        yield Fault(
            at=Spot(record.place, words),
            message=f"{words} reads {text} to the body: an output joined to it is shorted, and shuts down or burns.",
            do="Connect nothing to it; find the rub (door boot, new screws), mend it and read again.",
            about=tuple(names),
        )


def _on_body(wiring: Wiring, name: str) -> bool:
    """Whether the car puts this wire on its body by right."""
    contact = wiring.contact(name)
    return contact.function.kind in ("ground", "shield") or wiring.found.joined(name, CHASSIS)
