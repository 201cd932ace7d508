"""A11."""

from collections.abc import Iterable, Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.rows import row_contacts
from harness.graph.wiring import Wiring
from harness.model.colour import Colour, code_of
from harness.place import Place

# Two readings of one code, as met in workshop legends (from memory, and trade notes of 2026).
READINGS = {
    "B": ("black", "blue"), "BL": ("blue", "black"), "BR": ("brown", "black/red"), "DB": ("dark blue", "dark brown"),
    "DG": ("dark green", "dark grey"), "G": ("green", "grey"), "GB": ("green/black", "grey/blue"),
    "GO": ("gold", "green/orange"), "GR": ("grey", "green"), "L": ("blue", "light"),
    "LB": ("light blue", "light brown"), "LG": ("light green", "light grey"), "LT": ("light", "light tan"),
    "N": ("natural", "brown"), "O": ("orange", "ochre"), "OR": ("orange", "orange/red"), "P": ("pink", "purple"),
    "PU": ("purple", "pink"), "R": ("red", "rose"), "S": ("silver", "slate grey"), "SB": ("black", "sky blue"),
    "SL": ("silver", "slate grey"), "T": ("tan", "turquoise"), "V": ("violet", "green"),
}  # fmt: skip

Coloured = Iterable[tuple[Place, str, Colour | None, tuple[str, ...]]]


@check("A11", Severity.ASK, "Colour code without a legend", source="makers' legends as quoted in the trade, seen 2026")
def colour_without_legend(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a colour code that legends read differently, or that none known here reads, in a plug,
    a loom or a unit's leads without a legend for it.

    Why it matters: SB is black on one page and sky blue on another. Whoever goes by the code cuts the wrong
    wire, and paper can't print it in words.

    Example: a row `4: ACC SB` in a plug without `legend:`.

    What to do: look at the page for its legend (or at the wire), and write it once: `legend: {SB: light blue}`;
    or write the colour in IEC 60757 letters or as a word.

    Known limits: told once a plug, loom or unit. Whether a code that has one reading was meant so is not known.
    An inline plug has no legend; write its colours in IEC letters.

    Source: the readings are those of makers' legends as quoted in the trade, seen 2026, partly from memory;
    the letters are IEC 60757's.
    """
    for kind, owner, coloured in _owners(wiring):
        codes: dict[str, None] = {}
        spots: dict[Place, Spot] = {}
        about: list[str] = []
        for place, name, colour, contacts in coloured:
            if colour is not None:
                codes.update(dict.fromkeys(code.upper() for code in colour.unread))
                spots.setdefault(place, Spot(place, name))
                about += contacts
        if not spots:
            continue
        at, *also = spots.values()
        code = next(iter(codes))
        others = f" (ask about {', '.join(list(codes)[1:])} too)" if len(codes) > 1 else ""
        readings = READINGS.get(code, ())
        said = "read by each legend in its own way"
        if readings:
            said = f"{readings[0]} on one legend and {readings[1]} on another"
        word = next((word for word in readings if code_of(word)), "black")
        how = f"write it, for instance `legend: {{{code}: {word}}}`"
        if kind == "inline":
            how = "write the colour in IEC letters"
        yield Fault(
            at=at,
            message=f"{at.name}: “{code}” is {said}{others}, and {owner} names no legend.",
            do=f"Which legend is this page from? Look at it or at the wire, then {how}.",
            about=tuple(about),
            also=tuple(also),
        )


def _owners(wiring: Wiring) -> Iterator[tuple[str, str, Coloured]]:
    """Each plug, loom and unit with those of its rows whose colour needs a legend."""
    parts = wiring.job.parts
    beyond: dict[str, list[tuple[Place, str, Colour | None, tuple[str, ...]]]] = {}
    for segment in wiring.job.segments:
        if _asks(segment.colour):
            contact = wiring.contact(segment.a)
            beyond.setdefault(contact.owner, []).append(
                (segment.place, f"{contact.owner} cavity {contact.last}", segment.colour, (segment.a,))
            )
    for plug in parts.plugs.values():
        rows = [
            (row.place, f"{plug.name} cavity {row.cavity}", row.colour, row_contacts(plug, row))
            for row in plug.rows
            if (colour := row.colour) is not None and colour.unread
        ]
        yield "inline" if plug.inline else "plug", plug.name, [*rows, *beyond.get(plug.name, ())]
    for loom in parts.looms.values():
        leads = [
            (lead.place, f"{loom.name} lead {lead.own or lead.cavity}", lead.colour, (lead.name,))
            for lead in loom.leads
            if (colour := lead.colour) is not None and colour.unread
        ]
        pins = [
            (pin.place, f"{loom.name} cavity {pin.cavity}", pin.colour, ()) for pin in loom.pins if _asks(pin.colour)
        ]
        yield "loom", loom.name, [*leads, *pins]
    for unit in parts.units.values():
        leads = [
            (lead.place, f"{unit.name} lead {lead.own}", lead.colour, (lead.name,))
            for lead in unit.leads
            if _asks(lead.colour)
        ]
        yield "unit", unit.name, leads


def _asks(colour: Colour | None) -> bool:
    return colour is not None and bool(colour.unread)
