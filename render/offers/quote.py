"""The quote: the work and the parts of one way of doing it, for the owner of the car. What isn't counted is said."""

from __future__ import annotations

from collections.abc import Iterator

from harness.graph.runs import cables
from harness.model.contact import listed
from harness.planning.parts_list import parts_list
from harness.weighing.offers import Offer, Weighing
from harness.weighing.wording import default_lines, title, with_unpriced
from render.blocks import Block, Caution, Cell, Column, Grid, Heading, Listing, Para, Room, Sheet, Strong
from render.documents.wording import count
from render.offers.figures import minutes, money, sum_of


def sheet(weighing: Weighing, offer: Offer) -> Sheet:
    """One page: work, parts, sum, what it rests on, what is not in it, and room for two names."""
    return Sheet("quote", "Quote", tuple(_blocks(weighing, offer)))


def _blocks(weighing: Weighing, offer: Offer) -> Iterator[Block]:
    held = offer.figures
    plugs = " and ".join(plug.name for plug in weighing.site.plugs)
    yield Para(f"For the work at the factory plugs {plugs}: {title(offer)}.")
    yield Grid(
        (Column("Work", 3), Column("How often", 0.8), Column("Time", 1)),
        (
            *((kind, str(each.number), minutes(each.time_ms)) for kind, each in held.work.items()),
            (Strong("labour"), "", Strong(minutes(held.time_ms))),
        ),
        caption=f"Work, at {money(weighing, weighing.rates.labour)} an hour",
    )
    yield Grid(
        (Column("Part", 3), Column("How many", 0.8), Column("Together", 1)),
        (
            *(
                (part, str(number), "no price written" if part in held.unpriced_parts else money(weighing, price))
                for part, (number, price) in held.parts.items()
            ),
            *((f"loom {name}", "1", "no price written") for name in held.unpriced_looms),
        ),
        caption="Parts",
    )
    rows: tuple[tuple[Cell, ...], ...] = (
        ("labour", money(weighing, held.labour)),
        ("parts", with_unpriced(money(weighing, held.parts_money), held.unpriced)),
        (Strong("sum"), Strong(sum_of(weighing, held))),
    )
    yield Grid((Column("", 3), Column("Money", 1)), rows, caption="Sum, without tax")
    if held.cuts:
        yield Caution(
            f"{count(held.cuts, 'factory wire is', 'factory wires are')} cut for it. The car can't be put back as it "
            "was; who leases it must answer for that."
        )
    yield Heading("Not in this sum", 3)
    yield Listing(tuple(_not_counted(weighing, offer)))
    defaults = default_lines(weighing)
    if defaults:
        yield Heading("Defaults, not this shop's figures", 3)
        yield Listing(defaults)
    yield Grid(
        (Column("Agreed", 1), Column("Name", 2), Column("Date", 1)),
        (("for the shop", Room(60), Room(30)), ("owner of the car", Room(60), Room(30))),
    )


def _not_counted(weighing: Weighing, offer: Offer) -> Iterator[str]:
    wiring = offer.proof.wiring
    assert wiring is not None
    parts = parts_list(wiring)
    units, speakers = ([each.name for each in found] for found in (parts.units, parts.speakers))
    if units:
        yield f"The units {', '.join(units)}: their price, fixing and setting up."
    if speakers:
        yield f"The speakers {', '.join(speakers)}."
    if wiring.job.has_runs:
        runs = count(len(cables(wiring.job)), "run")
        yield f"The {runs} of the plan: cable, fuses, terminals and the time to lay them."
    yield "Opening and closing the dash, toning, tests and whatever the car shows only then."
    if offer.figures.unpriced:
        yield f"What has no price yet: {listed(offer.figures.unpriced)}."
