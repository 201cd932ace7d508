"""How a chart is told whose pairs a meter shows to be none."""

from __future__ import annotations

from collections.abc import Iterator

from harness.checks.registry import Fault
from harness.finding import Spot
from harness.graph.misread import naming
from harness.graph.readings import Reading
from harness.graph.rows import row_contacts
from harness.graph.wiring import Wiring
from harness.graph.wrong_partners import Unpaired, unpaired
from harness.patterns.ohms import Partner

_TOLD = 3  # so many pairs are said one by one


def by_ohms(wiring: Wiring) -> Iterator[Fault]:
    """One fault a plug: two rows exchanged make two pairs wrong."""
    for each in unpaired(wiring):
        plug, name = each.plug, naming(each.plug)
        cavities = {c for partner in each.partners for leg in partner.legs for c in (leg.kept, leg.partner)}
        cavities |= {c for partner in each.partners for c in (partner.pair.plus, partner.pair.minus)}
        yield Fault(
            at=Spot(plug.place, plug.name),
            message=f"{plug.name}: {_words(each)}. Two wires of two speakers taken for a pair carry nothing, and an "
            "amplifier on them ties both speakers together.",
            do=f"Cut and plug in nothing at {plug.name} before: tone {_to_tone(each)} and write down which speaker "
            "answers, then correct the chart.",
            about=row_contacts(plug, *(row for row in plug.rows if name(row.cavity) in cavities)),
            also=tuple(Spot(reading.record.place, _at(reading)) for reading in each.readings),
        )


def _words(each: Unpaired) -> str:
    told = [_pair(partner) for partner in each.partners[:_TOLD]]
    more = f"; and {len(each.partners) - _TOLD} more" if len(each.partners) > _TOLD else ""
    return "; ".join(told) + more


def _pair(partner: Partner) -> str:
    pair = partner.pair
    legs = " and ".join(f"{leg.kept} reads {leg.ohm:g} ohm with {leg.partner}" for leg in partner.legs)
    return f"{pair.plus} and {pair.minus}, charted as the pair {pair.name}, read open, while {legs}"


def _to_tone(each: Unpaired) -> str:
    pairs: dict[frozenset[str], str] = {}
    for leg in (leg for partner in each.partners for leg in partner.legs):
        pairs.setdefault(frozenset((leg.kept, leg.partner)), f"{leg.kept}/{leg.partner}")
    return " and ".join(pairs.values())


def _at(reading: Reading) -> str:
    return "/".join(contact.rsplit(".", 1)[1] for contact in reading.contacts)
