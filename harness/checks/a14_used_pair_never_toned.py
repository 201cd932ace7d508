"""A14."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.outdated import toned_before
from harness.graph.pairs import UNHEARD, UsedPair, used_pairs
from harness.graph.rows import row_contacts
from harness.graph.wiring import Wiring
from harness.model.contact import printed
from harness.model.function import bases_in
from harness.model.parts import Row

if TYPE_CHECKING:
    from harness.graph.fell_silent import FellSilent


@check("A14", Severity.ASK, "Used pair never toned", source="common practice, no source")
def used_pair_never_toned(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: pairs of a plug that the plan opens or taps and that nobody has toned in this car, or of which
    one driver (a tweeter beside a woofer, say) wasn't heard.

    Why it matters: charts contradict one another and a car changes within a model year. An untoned pair that
    is opened may be another speaker's, or no speaker's at all.

    Example: a loom takes the left front pair to a processor; the pair is known from a bench sheet only.

    What to do: radio unplugged, tone each pair named and write down which speaker answers, in the
    evidence file beside the job, with the tone (`signal`): 500 Hz proves no tweeter, 9 kHz no woofer.

    Known limits: a tone that isn't written is taken to prove every driver of its pair; of tweeters that is listed under
    what was not checked. told once a plug. A reading in ohms shows that something is there and not which speaker. A
    tone whose charted function has been changed since doesn't count; where it rests on words that no longer hold, it
    is told as J07, and a pair that was proved and is otherwise since as J30. Pairs that are only passed on aren't asked
    for.

    Source: common practice, no source.
    """
    untoned: dict[str, list[UsedPair]] = {}
    asked = toned_before(wiring) | {frozenset(each.contacts) for each in _otherwise_since(wiring)}
    for pair in used_pairs(wiring):
        if pair.state != "toned" and frozenset(pair.on_the_car) not in asked:
            untoned.setdefault(pair.plug, []).append(pair)
    for name, pairs in untoned.items():
        plug = wiring.job.parts.plugs[name]
        listed = ", ".join(f"{p.plus.cavity}/{p.minus.cavity} ({about_row(p.plus)}{_unheard(p)})" for p in pairs)
        many, them, each = ("one pair is", "it", "it")
        if len(pairs) > 1:
            many, them, each = (f"{len(pairs)} pairs are", "them", "each")
        said = f"used and nobody toned {them} as charted"
        if all(map(_unheard, pairs)):
            said = f"used, and not every driver of {them} was heard"
        yield Fault(
            at=Spot(plug.place, name),
            message=f"{name}: {many} {said}: {listed}.",
            do=_do(wiring, name, each, pairs),
            about=row_contacts(plug, *(row for p in pairs for row in (p.plus, p.minus))),
        )


def _unheard(pair: UsedPair) -> str:
    """`; FL-TW not heard` of a pair that is toned but for that driver; empty where nobody toned it as charted."""
    if pair.contrary:
        return ""
    return "".join(f"; {each.words.partition(', ')[0].partition(':')[0]}" for each in pair.unheard)


def _do(wiring: Wiring, name: str, each: str, pairs: list[UsedPair]) -> str:
    """Tone them; where a tone said otherwise than the chart, that comes first."""
    against = [f"{p.plus.cavity}/{p.minus.cavity} {p.contrary}" for p in pairs if p.contrary]
    tone = f"Radio unplugged, tone {each} at {name} and record which speaker answers."
    said = [p for p in pairs if p.contrary]
    left = [p for p in pairs if _unheard(p)]
    if left:
        drivers = "; ".join(f"{p.plus.cavity}/{p.minus.cavity}, {each.words}" for p in left for each in p.unheard)
        tone = f"{tone} {drivers}."
    first = "correct the chart first"
    if all(", found + " in p.contrary for p in said):
        first = "find out first whether the speaker is turned or the chart is wrong"
    elif all(p.contrary == UNHEARD for p in said):
        first = "write down which speaker answers, `none` where none does"
    elif all(p.tone is not None and p.plus.function.base in bases_in(p.tone.heard) for p in said):
        first = "find first what joins these pairs, a joint of the car or wires that touch, and write it under `found`"
    return f"The car says otherwise at {'; '.join(against)}: {first}. {tone}" if against else tone


def _otherwise_since(wiring: Wiring) -> tuple[FellSilent, ...]:
    if "tone records" not in wiring.facts:
        return ()
    from harness.graph.fell_silent import fell_silent, joined_since  # few pairs do

    return (*fell_silent(wiring), *joined_since(wiring))


def about_row(plus: Row) -> str:
    """`violet, RR`: the colour of the + wire and the channel."""
    return ", ".join([*([plus.colour.words] if plus.colour is not None else []), printed(plus.function.base)])
