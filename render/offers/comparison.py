"""All offers on one page, drawn and as a table; the reasons of each behind it."""

from __future__ import annotations

from collections.abc import Iterator

from harness.model.contact import listed, printed
from harness.weighing.break_even import looms_price, looms_unpriced, loose_unpriced, pays_up_to
from harness.weighing.offers import Offer, Weighing, job_day
from harness.weighing.wording import COVER_PULLED, default_lines, nothing_offered, same_in_all, title, with_unpriced
from render.blocks import Bar, Bars, Block, Caution, Cell, Column, Grid, Heading, Keep, Listing, Para, Sheet, Strong
from render.documents.cover import CAUTIONS
from render.documents.wording import count
from render.offers.figures import minutes, money, sum_of

_MOST = 12


def sheets(weighing: Weighing) -> tuple[Sheet, ...]:
    """The comparison, and the reasons; where nothing can be offered that is said."""
    if not weighing.offers:
        blocks: tuple[Block, ...] = (Para(nothing_offered(weighing)), *_left_out(weighing))
        return (Sheet("comparison", "Plug in or solder in", blocks),)
    return (
        Sheet("comparison", "Plug in or solder in", tuple(_comparison(weighing))),
        Sheet("reasons", "Reasons, mix by mix", tuple(_reasons(weighing)), shares=True),
    )


def _comparison(weighing: Weighing) -> Iterator[Block]:
    if weighing.proof.report.verdict == "stop":
        yield Caution("The plan itself has a STOP, and every mix joins what it joins: mend it first.")
    plugs = ", ".join(f"{plug.name} ({plug.where})" for plug in weighing.site.plugs)
    more = f" {count(weighing.left_out, 'more is', 'more are')} left out." if weighing.left_out else ""
    beaten = "The mix below joins what the plan joins, passes the checks and beats all others"
    if len(weighing.offers) > 1:
        beaten = "Every mix below joins what the plan joins and passes the checks; none beats another"
    yield Para(
        f"At {plugs}. {beaten} in minutes, "
        f"money and factory wires cut.{more}{_without_price(weighing)} The choice is yours."
    )
    yield Bars(
        "What each comes to",
        ("labour", "parts"),
        tuple(
            Bar(
                f"{number}  {title(offer)}",
                (offer.figures.labour / 100, offer.figures.parts_money / 100),
                f"{sum_of(weighing, offer.figures)}, {minutes(offer.figures.time_ms)}, "
                f"{count(offer.figures.cuts, 'wire')} cut",
            )
            for number, offer in enumerate(weighing.offers, 1)
        ),
    )
    yield Grid(_COLUMNS, tuple(_row(weighing, number, offer) for number, offer in enumerate(weighing.offers, 1)))
    yield from _basis(weighing)


def _without_price(weighing: Weighing) -> str:
    if any(offer.figures.unpriced_looms for offer in weighing.offers):
        return " What a loom without a price costs isn't known, and it beats nothing by it."
    return ""


_COLUMNS = (
    Column("", 0.3), Column("Mix", 2.3), Column("Minutes", 0.8), Column("Money", 1.0),
    Column("Factory wires cut", 0.75), Column("Joints", 0.85), Column("In series", 0.6), Column("To wait", 0.65),
    Column("Loom pays up to", 1.35),
)  # fmt: skip


def _row(weighing: Weighing, number: int, offer: Offer) -> tuple[Cell, ...]:
    held = offer.figures
    limit = pays_up_to(weighing, offer)
    pays: Cell = "no loom" if not offer.looms else "can't be done by hand alone"
    if limit is not None:
        most = money(weighing, limit) if limit >= 0 else "not as a gift"
        most = with_unpriced(most, loose_unpriced(weighing, offer)) if limit >= 0 else most
        unknown = looms_unpriced(offer)
        costs = f"no price of {listed(unknown)} written" if unknown else f"costs {money(weighing, looms_price(offer))}"
        pays = most, costs
    now = ("as the job has it",) if offer.as_planned else ()
    wait = count(offer.days, "day") if offer.days else "no"
    without = f"and {listed(held.unpriced)} without a price" if held.unpriced else ""
    dash = f"{held.dash} in dash"
    return (
        Strong(str(number)), (title(offer), *now), Strong(minutes(held.time_ms)),
        Strong(money(weighing, held.money), without),
        Strong(str(held.cuts)), (str(held.joints), dash), str(offer.contacts), wait, pays,
    )  # fmt: skip


def _basis(weighing: Weighing) -> Iterator[Block]:
    yield Para(
        "Joints: by hand, at these plugs. In series: contacts that the circuits in use pass besides the car's own. "
        "Loom pays up to: at a higher price all by hand costs less. Counted is the work at the plugs alone."
    )
    yield Para(" ".join(_circumstances(weighing)))
    defaults = default_lines(weighing)
    if defaults:
        yield Heading("Defaults, not this shop's figures", 3)
        yield Listing(defaults)
    yield from _left_out(weighing)


def _circumstances(weighing: Weighing) -> Iterator[str]:
    job = weighing.proof.job
    assert job is not None
    day = job_day(weighing)
    yield f"Day of the job: {day}." if day else "The day of the job isn't written, so no wait is held against it."
    ownership = job.car.ownership if job.car is not None else ""
    if ownership == "leased":
        yield "The car is leased: what is cut must be answered for when it goes back."
    elif not ownership:
        yield "Whether the car is owned or leased isn't written."
    if weighing.shop is None:
        yield "There is no shop file: only the job's own looms are weighed."


def _left_out(weighing: Weighing) -> Iterator[Block]:
    told = [
        f"Housing fits, pins don't: {each.loom} at {each.plug}: "
        + "; ".join(f"{cavity} is {printed(words)}" for cavity, words in each.cavities[:_MOST])
        + (f"; and {len(each.cavities) - _MOST} more" if len(each.cavities) > _MOST else "")
        for each in weighing.misfits
    ]
    told += [f"Left as it is: {alone.plug}; {printed(alone.why)}" for alone in weighing.site.alone]
    told += [f"Not offered: {each.what}: {each.why}" for each in weighing.not_used]
    if told:
        yield Heading("Looms that don't fit as they are, and ways left out", 3)
        yield Listing(tuple(told))


def _reasons(weighing: Weighing) -> Iterator[Block]:
    told = [tuple(_lines(offer)) for offer in weighing.offers]
    same = same_in_all(told)
    if same:
        yield Heading("The same in all of them", 2)
        yield Listing(same)
    for number, (offer, lines) in enumerate(zip(weighing.offers, told, strict=True), 1):
        own = tuple(line for line in lines if line not in same)
        yield Heading(f"{number}  {title(offer)}", 2)
        yield Listing(own) if own else Para("Nothing besides.")
    yield Keep((Heading("Before you touch the car", 2), Caution("\n".join(CAUTIONS))))


def _lines(offer: Offer) -> Iterator[str]:
    for loom in offer.looms:
        gone = f", its {loom.cut_off} end cut off" if loom.cut_off else ""
        own = f" ({loom.item.name} of the drawer)" if loom.item.name != loom.name else ""
        yield f"{loom.name}{own}: {' and '.join(loom.ends)} end at {loom.plug}{gone}"
    for contact, goal in offer.moved:
        yield f"Move the terminal of {printed(contact)} to cavity {goal}; look at position, lock and tug."
    for fate, words in (("depinned", "Terminals to pull"), ("capped", "Left over, to be capped")):
        names = [printed(over.contact) for over in offer.over if over.fate == fate]
        if names:
            yield f"{words}: {', '.join(names)}{f'; {COVER_PULLED}' if fate == 'depinned' else ''}."
    if offer.cut:
        yield f"To cut: {', '.join(map(printed, offer.cut))}."
    yield from (f"{reason[:1].upper()}{reason[1:]}." for reason in offer.reasons)
