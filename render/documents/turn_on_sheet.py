"""The turn-on chain: who wakes whom as a picture, each giver's load, the order of waking, and each relay."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.planning.turn_on_chain import (
    BUS,
    OWN,
    SIGNAL,
    UNKNOWN,
    GiverLine,
    Hung,
    RelayLine,
    TurnOnChain,
    WakeLine,
    Waker,
    turn_on_chain,
)
from render.blocks import Block, Caution, Cell, Column, Grid, Para, Piece, Room, Sheet, Strong, Tick
from render.documents import document
from render.documents.turn_on_picture import milliamps, source_words, terminal, terminal_words, turn_on_picture
from render.documents.wording import NOT_RECORDED, labelled, name_of

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof

_HOLD = "\N{NO-BREAK SPACE}"


_BASES = ("switched wires", "off", "diode")


@document("turn-on", title="Turn-on chain", order=8)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who joins the turn-on leads and finds out why something stays awake, or asleep."""
    if proof.wiring is None:
        return
    chain = turn_on_chain(proof.wiring)
    if chain.wakes or chain.relays:
        yield Sheet("turn-on", "Turn-on chain", tuple(_blocks(proof.wiring, chain)), shares=True, bases=_BASES)


def _blocks(wiring: Wiring, chain: TurnOnChain) -> Iterator[Block]:
    picture = turn_on_picture(wiring, chain)
    if picture is not None:
        yield Para(
            "From what gives the 12 V on the left to what it wakes. On a line: the terminal that gives, the one that "
            "takes, what it draws. In a box: its turn in the order of waking."
        )
        yield picture
    over = [line for line in chain.givers if line.left_a is not None and line.left_a < -1e-9]
    if over:
        names = ", ".join(labelled(wiring.contact(line.giver.contact)) for line in over)
        yield Caution(f"{names}: more hangs on it than it gives. The output burns.")
    if chain.givers:
        rows = tuple(_giver_row(wiring, line) for line in chain.givers)
        yield Grid(_GIVER_COLUMNS, rows, caption="What gives 12 V, and what hangs on it")
    if chain.wakes:
        rows = tuple(row for line in chain.wakes for row in _wake_rows(wiring, line))
        yield Grid(_WAKE_COLUMNS, rows, caption="The order of waking")
    if chain.relays:
        yield Grid(_RELAY_COLUMNS, tuple(_relay_row(wiring, line) for line in chain.relays), caption="Relays")


_GIVER_COLUMNS = (
    Column("Giver", 1.7), Column("Limit", 0.8), Column("What hangs on it", 1.8), Column("Sum", 0.8),
    Column("Against the limit", 1.3),
)  # fmt: skip
_WAKE_COLUMNS = (
    Column("Turn", 0.3), Column("Unit", 1), Column("Woken by", 1.7), Column("Volts before, after", 1.3),
    Column("It sleeps", 1.5), Column("It read, asleep after", 0.9),
)  # fmt: skip
_RELAY_COLUMNS = (
    Column("Relay", 0.7), Column("Coil 86, 85", 1.6), Column("Across the coil", 0.9), Column("Fed contact, fuse", 1.5),
    Column("Switches", 1.3), Column("", 0.5),
)  # fmt: skip


def _giver_row(wiring: Wiring, line: GiverLine) -> tuple[Cell, ...]:
    giver = line.giver
    limit = milliamps(giver.gives_a) if giver.gives_a is not None else NOT_RECORDED
    name = Strong(labelled(wiring.contact(giver.contact)))
    if not line.hung:
        return (name, source_words(wiring, giver)), limit, "nothing: it is free", "none", "nothing to bear"
    hung = tuple(_hung(wiring, each) for each in line.hung)
    least = "at least " if line.unwritten else ""
    drawn = NOT_RECORDED if len(line.unwritten) == len(line.hung) else f"{least}{milliamps(line.sum_a)}"
    return (name, source_words(wiring, giver)), limit, hung, Strong(drawn), _against(line)


def _hung(wiring: Wiring, each: Hung) -> str:
    behind = f", behind {' and '.join(each.behind)}" if each.behind else ""
    return f"{each.unit} {terminal_words(wiring, each.contact)}: {milliamps(each.draws_a)}{behind}"


def _against(line: GiverLine) -> Cell:
    """Whether the limit bears the sum, said no surer than what is written."""
    if line.left_a is None:
        return f"not judged: limit {NOT_RECORDED}"
    if line.left_a < -1e-9:
        return Strong("TOO MUCH", f"by {milliamps(-line.left_a)}")
    if line.unwritten:
        return f"not judged: {', '.join(line.unwritten)} {NOT_RECORDED}; {milliamps(line.left_a)} left for it"
    return f"bears it, {milliamps(line.left_a)} left"


def _wake_rows(wiring: Wiring, line: WakeLine) -> Iterator[tuple[Cell, ...]]:
    turn = Strong(str(line.order)) if line.order is not None else "?"
    unit: Cell = Strong(line.unit)
    if line.contact:
        unit = Strong(line.unit), f"{terminal_words(wiring, line.contact)}, {milliamps(line.draws_a)}"
    if not line.by:
        why = "nothing gives it 12 V" if line.contact else f"how it wakes: {NOT_RECORDED}"
        yield turn, unit, why, NOT_RECORDED, NOT_RECORDED, _room(line)
    for waker in line.by:
        yield turn, unit, _by(wiring, waker), _volts(waker), _sleeps(wiring, waker), _room(line)


def _room(line: WakeLine) -> Cell:
    """For the volts read at its lead, where it has one, and the seconds until it sleeps."""
    return (Room(20, "V"), Room(20, "s")) if line.contact else Room(20, "s")


def _by(wiring: Wiring, waker: Waker) -> Cell:
    if waker.source == SIGNAL:
        return "its signal", "from nothing of the plan" if waker.unit == UNKNOWN else f"from {waker.unit}"
    if waker.source == BUS:
        return "the car's data bus"
    if waker.source == OWN or waker.giver is None:
        return "the key, by its own feeds"
    said: list[Piece] = [labelled(wiring.contact(waker.giver.contact)), source_words(wiring, waker.giver)]
    if waker.giver.through:
        said.append(f"through {', then '.join(reversed(waker.giver.through))}")
    return tuple(said)


def _volts(waker: Waker) -> Cell:
    if not waker.off:
        return "no lead to read"
    less = "" if not waker.diodes else ", less what the diode takes: 0.6 to 0.7 V".replace(" V", f"{_HOLD}V")
    after = (waker.on or f"volts {NOT_RECORDED}") + less
    return f"before: {waker.off}".replace(" V", f"{_HOLD}V"), f"after: {after}".replace(" V", f"{_HOLD}V")


def _sleeps(wiring: Wiring, waker: Waker) -> str:
    """With what it goes to sleep. How long that takes is nowhere written, and is said so."""
    late = f"after how long: {NOT_RECORDED}"
    if waker.source == SIGNAL:
        return f"when its signal stops; {late}"
    if waker.source == BUS:
        return f"with the bus; {late}"
    if waker.source == OWN or waker.giver is None:
        return f"with the key; {late}"
    said = {
        "constant": "never: it drains the battery",
        "acc": "with the key out of accessory; in many cars in crank too",
        "ign": "with the key out of run",
        "light": "with the lamps",
        "aerial": "when the radio leaves the tuner or goes off",
        "radio": "with the radio",
    }.get(waker.source)
    return said or f"with {waker.unit}; {late}"


def _relay_row(wiring: Wiring, line: RelayLine) -> tuple[Cell, ...]:
    plus, minus = terminal(line.plus), "85" if line.plus.endswith(".86") else "86"
    driven = ", ".join(labelled(wiring.contact(each.contact)) for each in line.drivers)
    ground = "ground" if line.grounded else f"ground {NOT_RECORDED}"
    if not line.feed:
        feed, fuse = "no feed found", f"fuse {NOT_RECORDED}"
    else:
        feed = f"from {labelled(wiring.contact(line.feed))}"
        values = [f"{each:g}{_HOLD}A" if each is not None else f"value {NOT_RECORDED}" for each in line.fuses_a]
        fuse = f"fuse {', '.join(values)}" if values else f"fuse {NOT_RECORDED}"
    switched = ", ".join(name_of(wiring.contact(name)) for name in line.switches) or "nothing found on it"
    return (
        Strong(line.relay),
        (f"{plus}: {driven or 'nothing drives it'}", f"{minus}: {ground}", f"draws: {milliamps(line.coil_a)}"),
        line.across or NOT_RECORDED,
        (Strong(terminal(line.fed)), feed, fuse),
        (Strong(terminal(line.given)), switched),
        Tick("done"),
    )
