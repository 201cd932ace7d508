"""E10."""

from collections.abc import Iterator
from itertools import pairwise

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.cable import segments
from harness.graph.relays import unfused_contacts
from harness.graph.wiring import Wiring
from harness.place import Place


@check(
    "E10",
    Severity.STOP,
    "Relay contact without a fuse",
    source="common practice, no source",
    by_joints=False,
    needs="relay",
)
def relay_contact_unfused(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: the contact of a relay (30, or 87 where the feed comes in there) that a battery's post feeds
    with no fuse on the way.

    Why it matters: the socket's thin wire and the relay's blade take whatever the battery gives. A fuse behind the
    relay protects neither, and a welded contact can't be made dead.

    Example: `battery.+ > 3 ft 12 AWG > k1.30`, with the fuse between 87 and the amplifier.

    What to do: fit the fuse before the relay, near the source, no bigger than the cable takes.

    Known limits: a fuse without a value counts here and is told for itself. Where no fuse comes behind the relay
    either, the cable without a fuse is told in place of this. The car's own fuse counts where a chain shows it.

    Source: common practice, no source.
    """
    for each in unfused_contacts(wiring):
        yield Fault(
            at=Spot(_line(wiring, each.path) or wiring.contact(each.contact).place, wiring.words(each.contact)),
            message=f"{wiring.words(each.contact)} hangs on {wiring.words(each.path[0])} with no fuse before it: a "
            "short at the relay burns its wire and nothing makes it dead.",
            do=f"Fit a fuse between {wiring.words(each.path[0])} and {wiring.words(each.contact)}, near the source.",
            about=each.path[1:],
            path=each.path,
        )


def _line(wiring: Wiring, path: tuple[str, ...]) -> Place | None:
    """The line of the first piece that we lay on the way."""
    known = segments(wiring)
    for pair in pairwise(path):
        piece = known.get(pair) or known.get(pair[::-1])
        if piece is not None and piece.laid:
            return piece.place
    return None
