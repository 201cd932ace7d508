"""C20."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import JOINT
from harness.graph.live import is_ground, outside
from harness.graph.state import hops_to
from harness.graph.wiring import Wiring
from harness.model.parts import Plug
from harness.place import Place

_DIGITAL = frozenset({"digital", "optical"})
_PERHAPS = frozenset({"audio", "port", "unknown"})


@check("C20", Severity.STOP, "Digital link treated as audio", source="common practice, no source")
def digital_link_as_audio(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a wire with digital audio that is tapped, or joined to analogue audio or a
    speaker.

    Why it matters: there is no music to take from it, and a branch or a load on it can silence the whole
    system.

    Example: a line input is joined to the two wires between the radio and the factory amplifier, which are
    a digital pair.

    What to do: undo it. Take the signal after the amplifier, or through an interface made for this link.

    Known limits: what is digital is known from the chart's functions (DIGITAL, OPTICAL), from the plug's
    `carries` and from `digital` on a unit's inputs and outputs.

    Source: common practice, no source.
    """
    told: set[Place] = set()
    for name, tapped in _suspects(wiring):
        for other in _wrong(wiring, name, tapped):
            hops = hops_to(outside(wiring, name), other)
            blamed = wiring.blame(hops)
            if blamed is None or blamed.place in told:
                continue
            told.add(blamed.place)
            yield Fault(
                at=Spot(blamed.place, wiring.words(name)),
                message=(
                    f"{wiring.words(name)} carries digital audio and is {'tapped for' if tapped else 'joined to'} "
                    f"{wiring.words(other)}: no music there, and the link may fall silent."
                ),
                do="Undo it; take the signal after the amplifier, or through an interface made for this link.",
                about=(name, other),
                path=wiring.way_in_words(name, hops),
            )


def _suspects(wiring: Wiring) -> Iterator[tuple[str, bool]]:
    """Digital contacts, each with whether its wire is whole (so that anything new on it is a tap)."""
    for plug in wiring.job.parts.plugs.values():
        for cavity in _digital_cavities(plug):
            unit, car = f"{plug.name}.unit.{cavity}", f"{plug.name}.car.{cavity}"
            whole = wiring.planned.joined(unit, car)
            yield unit, whole
            if not whole:
                yield car, False
    for name, port in wiring.ports.items():
        if port.signal.form == "digital":
            yield name, False


def _digital_cavities(plug: Plug) -> list[str]:
    """Cavities charted as digital; where the plug is only said to carry it, its audio and unknown cavities."""
    sure = [row.cavity for row in plug.rows if row.function.kind in _DIGITAL]
    if sure or not _DIGITAL & set(plug.carries):
        return sure
    return [row.cavity for row in plug.rows if row.function.kind in _PERHAPS]


def _wrong(wiring: Wiring, name: str, tapped: bool) -> Iterator[str]:
    """What the plan puts on a digital wire and doesn't belong there, nearest first."""
    had = set(wiring.found.net(name))
    net = wiring.planned.net(name)
    if len(net) == 1:
        return
    for other in outside(wiring, name):
        contact = wiring.contact(other)
        if other in had or contact.kind not in ("unit", "speaker", "plug"):
            continue
        port = wiring.ports.get(other)
        digital = contact.function.kind in _DIGITAL or (port is not None and port.signal.form == "digital")
        analogue = contact.kind == "speaker" or (contact.kind == "unit" and not digital and not is_ground(contact))
        # a light-guide's two ends put together, or two that were one wire: that is a link, no tap
        linked = contact.function.kind == "optical" and wiring.contact(name).function.kind == "optical"
        if analogue or (digital and tapped and not linked and _by_joint(wiring, name, other)):
            yield other


def _by_joint(wiring: Wiring, name: str, other: str) -> bool:
    return any(hop.conductor.kind == JOINT for hop in wiring.planned.path(name, other))
