"""C21."""

from collections.abc import Iterator

from harness.checks.a14_used_pair_never_toned import about_row
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.pairs import UsedPair, used_pairs
from harness.graph.rows import row_contacts
from harness.graph.wiring import Wiring


@check(
    "C21",
    Severity.ASK,
    "Toned with a unit plugged in",
    source="common practice, no source",
    by_joints=False,
    needs="tones",
)
def toned_with_a_unit_plugged_in(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: the toning record of a pair that the plan uses, which doesn't name the plug, or the unit on
    it, as unplugged.

    Why it matters: with the radio or an amplifier still on the wires, the answer may have come through it, from
    another pair; and the tone goes into its outputs.

    Example: a tone at the dash plug, written down without `unplugged: dash`.

    What to do: part the plug, tone once more, and add a record with `unplugged`.

    Known limits: the last record of a pair counts. A plug between the pair and the output that drives it, parted,
    serves as well. What is plugged in further on, toward the speaker, isn't asked for.

    Source: common practice, no source.
    """
    for pair in used_pairs(wiring):
        if pair.tone is None:
            continue
        on = _still_on(wiring, pair)
        if on:
            said = "names another plug as unplugged" if pair.tone.unplugged else "doesn't say what was unplugged"
            where = f"{pair.plug} {pair.plus.cavity}/{pair.minus.cavity} ({about_row(pair.plus)})"
            yield Fault(
                at=Spot(pair.tone.place, pair.name),
                message=f"The tone of {where} {said}: with {on} on the wires the answer may have come through it.",
                do=f"Unplug {pair.plug} from {on}, tone the pair once more, and add a record with "
                f"`unplugged: {pair.plug}`.",
                about=row_contacts(wiring.job.parts.plugs[pair.plug], pair.plus, pair.minus),
            )


def _still_on(wiring: Wiring, pair: UsedPair) -> str:
    """The unit that the record leaves on the pair, empty where none is left."""
    assert pair.tone is not None, "only asked of a pair with a tone"
    parted = set(pair.tone.unplugged)
    plug = wiring.job.parts.plugs[pair.plug]
    if pair.plug.lower() in parted:
        return ""
    start = f"{pair.plug}.car.{pair.plus.cavity}"
    outputs = [name for name in wiring.found.net(start) if wiring.role(name) == "output"]
    for name in outputs:
        unit = wiring.contact(name).owner
        between = {wiring.contact(hop.contact).owner.lower() for hop in wiring.found.path(start, name)}
        if parted.isdisjoint({unit.lower(), *between}):
            return unit
    return "" if outputs or not plug.unit or plug.unit.lower() in parted else plug.unit
