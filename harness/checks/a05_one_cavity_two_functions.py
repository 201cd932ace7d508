"""A05."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.rows import Clash, one_cavity_twice, row_about, row_contacts, row_words
from harness.graph.wiring import Wiring
from harness.model.parts import Plug


@check("A05", Severity.FIX, "One cavity, two functions", source="common practice, no source")
def one_cavity_two_functions(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: two rows of one plug that give the same cavity two functions.

    Why it matters: one of the two is wrong, and the plan uses whichever was read first.

    Example: the row `1/11` makes cavity 1 the left front +, and a row `1` makes it ACC.

    What to do: tone or meter the cavity, keep the row that is right and move or strike the other.

    Known limits: two rows that agree are not told; a cavity written as `unknown` claims nothing. A loom's
    leads are not looked at here.

    Source: common practice, no source.
    """
    for plug in wiring.job.parts.plugs.values():
        for clash in one_cavity_twice(plug):
            before, after = clash.pairs[0]
            said = "; ".join(
                f"{plug.name} cavity {b.cavity} is charted as {row_about(b)} and as {row_about(a)}"
                for b, a in clash.pairs
            )
            yield Fault(
                at=Spot(after.place, row_words(plug, after)),
                message=f"{said}: one is wrong, and the plan goes by the first.",
                do=f"Meter or tone cavity {after.cavity}, then correct the row that is wrong.",
                about=(*row_contacts(plug, *clash.rows), *_unheard(wiring, plug, clash)),
                also=(Spot(before.place, row_words(plug, before)),),
            )


def _unheard(wiring: Wiring, plug: Plug, clash: Clash) -> tuple[str, ...]:
    """The speaker's and the unit's contacts that the row set aside speaks of: nothing reaches them now."""
    names = (
        f"{owner}.{row.function.name}" for _, row in clash.pairs for owner in ("spk", plug.unit, plug.car) if owner
    )
    return tuple(name for name in names if name in wiring.job.contacts)
