"""What `ringout weigh` says: the offers with their figures and reasons, and what they rest on."""

from __future__ import annotations

from collections.abc import Iterator

from harness.cli.screen import harmless
from harness.model.contact import listed, printed
from harness.model.money import Money
from harness.weighing.break_even import looms_price, looms_unpriced, loose_unpriced, pays_up_to
from harness.weighing.offers import LoomUsed, Offer, Weighing, job_day
from harness.weighing.recount import Figures
from harness.weighing.wording import (
    COVER_PULLED,
    default_lines,
    minutes,
    nothing_offered,
    same_in_all,
    title,
    with_unpriced,
)

_MOST = 6
_HEADS = f"{'cut':>4}  {'joints':>6}  {'in dash':>7}  {'in series':>9}  {'wait':>7}"


def lines(weighing: Weighing) -> list[str]:
    """The whole answer."""
    job = weighing.proof.job
    assert job is not None
    made = [harmless(f"{weighing.proof.job_path}: {job.title}")]
    if weighing.proof.report.verdict == "stop":
        made.append("The plan itself has a STOP, and every mix joins what it joins: mend it first (ringout check).")
    made += list(_must_connect(weighing))
    made.append(f"As the job is now: {_sums(weighing, weighing.now)}.")
    made.append("")
    if not weighing.offers:
        made.append(nothing_offered(weighing))
    else:
        made += _table(weighing)
    about = [list(_about(weighing, offer)) for offer in weighing.offers]
    same = same_in_all(about)
    if same:
        made += ["", "The same in all of them:", *(f"   {line}" for line in same)]
    for number, (offer, told) in enumerate(zip(weighing.offers, about, strict=True), 1):
        made += ["", f"{number}. {_title(offer)}", *(f"   {line}" for line in figures(weighing, offer))]
        made += [f"   {line}" for line in told if line not in same]
    made += ["", *_closing(weighing)]
    return made


def _must_connect(weighing: Weighing) -> Iterator[str]:
    for plug in weighing.site.plugs:
        straight = [need for need in plug.needs if need.straight and need.units and need.cars]
        through = sum(1 for need in straight if not need.outs)
        tapped = sum(1 for need in straight if need.outs)
        opened = sum(1 for low in plug.rows if plug.net["unit", low] != plug.net["car", low])
        parts = [f"{number} {word}" for number, word in ((through, "to carry through"), (tapped, "to tap"),
                                                          (opened, "to open")) if number]  # fmt: skip
        told = [
            f"cavities {', '.join(parts)}",
            *(f"one net of {need.words}" for need in plug.needs if not need.straight),
        ]
        yield f"At {plug.name} ({harmless(plug.where)}): {'; '.join(told)}."
    for alone in weighing.site.alone:
        yield harmless(f"Left as it is: {alone.plug}; {alone.why}.")


def _table(weighing: Weighing) -> list[str]:
    many = len(weighing.offers)
    sums = [_sum_of(weighing, offer.figures) for offer in weighing.offers]
    wide = max(12, *map(len, sums))
    open_ = any(offer.figures.unpriced_looms for offer in weighing.offers)
    left = f"; {weighing.left_out} more are left out" if weighing.left_out else ""
    beaten = "mix; it beats all others" if many == 1 else "mixes; none beats another"
    made = [
        f"{many} {beaten} in minutes, money and factory wires cut{left}.",
        *(["What a loom without a price costs isn't known, and it beats nothing by it."] if open_ else []),
        "The choice is yours.",
        "",
        f"     {'minutes':>8}  {'money':>{wide}}  {_HEADS}",
    ]
    for number, offer in enumerate(weighing.offers, 1):
        figures = offer.figures
        wait = f"{offer.days} days" if offer.days else "-"
        made.append(
            f"{number:>3}. {minutes(figures.time_ms):>8}  {sums[number - 1]:>{wide}}  {figures.cuts:>4}  "
            f"{figures.joints:>6}  {figures.dash:>7}  {offer.contacts:>9}  {wait:>7}  {_title(offer)}"
        )
    return made


def _title(offer: Offer) -> str:
    return harmless(f"{title(offer)}{', as the job has it' if offer.as_planned else ''}")


def figures(weighing: Weighing, offer: Offer) -> list[str]:
    """Minutes and money of one offer, by kind."""
    held = offer.figures
    work = "; ".join(f"{each.number} × {kind} {minutes(each.time_ms)}" for kind, each in held.work.items())
    parts = "; ".join(
        f"{number} {part} {'?' if part in held.unpriced_parts else _plain(money)}"
        for part, (number, money) in held.parts.items()
    )
    return [
        harmless(f"minutes: {minutes(held.time_ms)} = {work or 'nothing to do'}"),
        harmless(
            f"money: {_sum_of(weighing, held)} = labour {_plain(held.labour)} + parts {_plain(held.parts_money)}"
            + (f" ({parts})" if parts else "")
        ),
    ]


def _about(weighing: Weighing, offer: Offer) -> Iterator[str]:
    """All else of an offer: its looms, terminals, cuts, reasons, and up to which price a loom pays."""
    for loom in offer.looms:
        ends = " and ".join(f"{end} end" for end in loom.ends)
        gone = f", its {loom.cut_off} end cut off" if loom.cut_off else ""
        yield harmless(f"{loom.name}: {ends} at {loom.plug}{gone}{_stock(weighing, loom)}")
    for contact, goal in offer.moved:
        yield f"move the terminal of {printed(contact)} to cavity {goal}; look at position, lock and tug"
    for fate in ("depinned", "capped"):
        names = [over.contact for over in offer.over if over.fate == fate]
        if names:
            pulled = fate == "depinned"
            word, more = ("pull the terminals of", f"; {COVER_PULLED}") if pulled else ("left over, to be capped:", "")
            yield harmless(f"{word} {_some(names)}{more}")
    if offer.cut:
        yield harmless(f"cut: {_some(list(offer.cut))}")
    for reason in offer.reasons:
        yield harmless(f"{reason}")
    limit = pays_up_to(weighing, offer)
    if limit is not None:
        price = looms_price(offer)
        word = "looms" if len(offer.looms) > 1 else "loom"
        if limit < 0:
            yield f"break-even: against all by hand the {word} would not pay as a gift"
        else:
            most = with_unpriced(_money(weighing, limit), loose_unpriced(weighing, offer))
            unknown = looms_unpriced(offer)
            cheaper = "cheaper" if price < limit else "dearer" if price > limit else "just as dear"
            then = f"at {_money(weighing, price)} it is {cheaper}"
            if unknown:
                then = f"the price of {listed(unknown)} isn't written"
            yield f"break-even: against all by hand the {word} would pay up to {most}; {then}"


def _stock(weighing: Weighing, loom: LoomUsed) -> str:
    store = loom.item.store
    if store.stock is None:
        return ""
    if not loom.late:
        return f"; {store.stock} in stock"
    none = f"one more than the {store.stock} in stock" if store.stock else "not in stock"
    there = f"; {none}, here on {store.arrives}" if store.arrives else f"; {none}, {loom.days} days"
    day = job_day(weighing)
    if day and store.arrives:
        there += f": {'after' if store.arrives > day else 'by'} the day of the job ({day})"
    return there


def _closing(weighing: Weighing) -> Iterator[str]:
    job = weighing.proof.job
    assert job is not None
    for misfit in weighing.misfits:
        told = "; ".join(f"{cavity} is {words}" for cavity, words in misfit.cavities[:_MOST])
        more = f"; and {len(misfit.cavities) - _MOST} more" if len(misfit.cavities) > _MOST else ""
        yield harmless(f"Housing fits, pins don't: {misfit.loom} at {misfit.plug}: {told}{more}.")
    for out in weighing.not_used:
        yield harmless(f"Not offered: {out.what}: {out.why}")
    if job.car is not None and job.car.ownership == "leased":
        yield "The car is leased: what is cut must be answered for when it goes back."
    elif job.car is None or not job.car.ownership:
        yield "Whether the car is owned or leased isn't written (car: ownership)."
    day = job_day(weighing)
    yield (
        f"Day of the job: {day}." if day else "The day of the job isn't written (date), so no wait is held against it."
    )
    if weighing.shop is None:
        yield "No shop file: only the job's own looms are weighed, and every figure below is the tool's."
    elif weighing.shop.preset and weighing.shop.preset != job.preset:
        yield f"The shop's preset is {weighing.shop.preset}, the job's {job.preset}; joints go by the job's."
    defaults = default_lines(weighing)
    if defaults:
        yield "Defaults, not the shop's figures:"
        for line in defaults:
            yield f"  {line}"
    yield f"Preset: {job.preset}. A method that another one beats in minutes and money isn't tried."


def _sums(weighing: Weighing, held: Figures) -> str:
    return (
        f"{minutes(held.time_ms)} minutes, {_sum_of(weighing, held)}, "
        f"{_count(held.cuts, 'factory wire')} cut, {_count(held.joints, 'joint')}, {held.dash} of them in the dash"
    )


def _money(weighing: Weighing, minor: int) -> str:
    return Money(minor, weighing.rates.currency).words


def _sum_of(weighing: Weighing, held: Figures) -> str:
    return with_unpriced(_money(weighing, held.money), held.unpriced)


def _plain(minor: int) -> str:
    return Money(minor, "").words.strip()


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _some(names: list[str]) -> str:
    more = f" and {len(names) - 2 * _MOST} more" if len(names) > 2 * _MOST else ""
    return " ".join(map(printed, names[: 2 * _MOST])) + more
