"""J02."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph import fates
from harness.graph.pairs import used_pairs
from harness.graph.rows import row_about, row_contacts
from harness.graph.wiring import Wiring
from harness.model.parts import Plug, Row

_NAMED = 4  # so many cavities are named in the message
_LEFT_ALONE = (fates.PASSED, fates.EMPTY, fates.OPEN)


@check(
    "J02", Severity.ASK, "Chart without source, date or person", source="common practice, no source", by_joints=False
)
def chart_without_source(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug of which the plan uses cavities that nobody toned, whose chart doesn't say which page
    it is from, of which date, and who took it down.

    Why it matters: nobody can look it up again, or ask. When the car says otherwise, nobody knows whether the page was
    another variant's or a digit was slipped in copying.

    Example: sixteen cavities under `cavities`, and no `source`.

    What to do: write `source: {chart: …, date: …, by: …}`, or tone every pair that is used.

    Known limits: all three are wanted, and what they say isn't judged. Cavities that are only passed on aren't asked
    for, nor pairs toned as charted. Lists of looms aren't looked at.

    Source: common practice, no source.
    """
    doubtful = {plug.name: _missing(plug) for plug in wiring.job.parts.plugs.values() if _missing(plug)}
    toned = {
        (pair.plug, row.cavity)
        for pair in (used_pairs(wiring) if doubtful else ())
        if pair.state == "toned"
        for row in (pair.plus, pair.minus)
    }
    for name, missing in doubtful.items():
        plug = wiring.job.parts.plugs[name]
        used = _used(wiring, plug, toned)
        if used:
            listed = ", ".join(f"{row.cavity} ({row_about(row)})" for row in used[:_NAMED])
            more = f" and {len(used) - _NAMED} more" if len(used) > _NAMED else ""
            yield Fault(
                at=Spot(plug.source.place if plug.source is not None else plug.place, plug.name),
                message=f"Who says so of {plug.name}? Its chart gives no {' and no '.join(missing)}, and the plan uses "
                f"{listed}{more}, not toned: nobody can look it up again.",
                do=f"Write the chart, its date and who took it down under `source` of {plug.name}, or tone these.",
                about=row_contacts(plug, *used),
            )


def _missing(plug: Plug) -> list[str]:
    """What the source doesn't say, in words; of a plug known only by the chains through it nothing is asked."""
    if plug.inline or not plug.rows:
        return []
    source = plug.source
    said = (source.chart, source.date, source.by) if source is not None else ("", "", "")
    return [word for word, value in zip(("source", "date", "person"), said, strict=True) if not value]


def _used(wiring: Wiring, plug: Plug, toned: set[tuple[str, str]]) -> list[Row]:
    """The rows of the cavities that the plan opens, taps or takes out, but those of pairs toned as charted."""
    return [
        each.row
        for each in wiring.fates.cavities(plug.name)
        if each.fate not in _LEFT_ALONE and (plug.name, each.row.cavity) not in toned
    ]
