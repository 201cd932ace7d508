"""The offers of `ringout weigh` as JSON: minutes as numbers, money as text with its currency."""

from __future__ import annotations

import json
from typing import Any

from harness.model.money import Money
from harness.weighing.break_even import looms_unpriced, loose_unpriced, pays_up_to
from harness.weighing.offers import Offer, Weighing
from harness.weighing.recount import Figures
from harness.weighing.wording import same_in_all, with_unpriced


def text(weighing: Weighing) -> str:
    """The whole answer."""
    job = weighing.proof.job
    assert job is not None
    whole = {
        "job": weighing.proof.job_path,
        "verdict": weighing.proof.report.verdict,
        "preset": job.preset,
        "shop": weighing.shop.file if weighing.shop else None,
        "plugs": [plug.name for plug in weighing.site.plugs],
        "left_alone": [{"plug": each.plug, "why": each.why} for each in weighing.site.alone],
        "now": _figures(weighing, weighing.now),
        "by_hand": _figures(weighing, weighing.by_hand) if weighing.by_hand else None,
        "offers": [_offer(weighing, number, each) for number, each in enumerate(weighing.offers, 1)],
        "same_in_all": list(same_in_all([list(each.reasons) for each in weighing.offers])),
        "left_out": weighing.left_out,
        "pins_differ": [
            {"loom": each.loom, "plug": each.plug, "cavities": [{"cavity": c, "what": w} for c, w in each.cavities]}
            for each in weighing.misfits
        ],
        "not_offered": [{"what": each.what, "why": each.why} for each in weighing.not_used],
        "defaults": [
            {"what": each.what, "value": each.words, "source": each.source}
            for each in weighing.rates.defaults(weighing.methods)
        ],
    }
    return json.dumps(whole, indent=2, ensure_ascii=False)


def _offer(weighing: Weighing, number: int, offer: Offer) -> dict[str, Any]:
    limit = pays_up_to(weighing, offer)
    loose = loose_unpriced(weighing, offer)
    return {
        "number": number,
        "name": offer.name,
        "as_planned": offer.as_planned,
        "figures": _figures(weighing, offer.figures),
        "contacts_in_series": offer.contacts,
        "days": offer.days,
        "looms": [
            {"name": each.name, "drawer": each.item.name, "plug": each.plug, "ends": list(each.ends),
             "cut_off": each.cut_off or None, "days": each.days}
            for each in offer.looms
        ],
        "joints": [
            {"contacts": list(each.members), "method": each.method, "at": each.at, "on": "factory wire" if each.factory
             else "lead"}
            for each in offer.joints
        ],
        "methods_chosen": list(offer.methods),
        "cut": list(offer.cut),
        "moved": [{"terminal": terminal, "to": goal} for terminal, goal in offer.moved],
        "left_over": [{"lead": each.contact, "fate": each.fate} for each in offer.over],
        "reasons": list(offer.reasons),
        "break_even": None if limit is None else with_unpriced(_money(weighing, limit), loose),
        "looms_without_price": list(looms_unpriced(offer)),
    }  # fmt: skip


def _figures(weighing: Weighing, held: Figures) -> dict[str, Any]:
    return {
        "minutes": held.time_ms / 60_000,
        "money": with_unpriced(_money(weighing, held.money), held.unpriced),
        "labour": _money(weighing, held.labour),
        "parts_money": with_unpriced(_money(weighing, held.parts_money), held.unpriced),
        "wires_cut": held.cuts,
        "joints": held.joints,
        "joints_in_dash": held.dash,
        "work": [
            {"what": kind, "number": each.number, "minutes": each.time_ms / 60_000} for kind, each in held.work.items()
        ],
        "parts": [
            {"what": part, "number": number, "money": None if part in held.unpriced_parts else _money(weighing, money)}
            for part, (number, money) in held.parts.items()
        ],
        "unpriced": list(held.unpriced),
    }


def _money(weighing: Weighing, minor: int) -> str:
    return Money(minor, weighing.rates.currency).words


def taken_text(weighing: Weighing, number: int, path: str) -> str:
    """What `--take` wrote."""
    offer = weighing.offers[number - 1]
    return json.dumps({"job": path, "offer": _offer(weighing, number, offer)}, indent=2, ensure_ascii=False)
