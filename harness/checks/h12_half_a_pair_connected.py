"""H12."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import INSIDE
from harness.graph.joined import made_at
from harness.graph.whole_wire import along, far_end
from harness.graph.wiring import Wiring
from harness.model.parts import Unit

_PAIRED = ("data", "mic", "digital")


@check("H12", Severity.FIX, "Only one wire of a pair connected", source="common practice, no source")
def half_a_pair_connected(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an input, an output, or a CAN or microphone pair of a unit with one wire joined and one not.

    Why it matters: the other half of the circuit closes through the ground, or not at all: hum, or silence.

    Example: the processor's input 3 + is joined, and its input 3 − hangs.

    What to do: join the second wire to the partner of the first one's wire.

    Known limits: outputs that are used as a bridge need one wire each. Terminals that sit in a plug of the car
    are taken as they are.

    Source: common practice, no source.
    """
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone:
            continue
        bridged = _bridged(wiring, unit)
        for plus, minus in _pairs(wiring, unit):
            if plus in bridged:
                continue
            if plus not in wiring.laid and minus not in wiring.laid:
                continue
            at_plus, at_minus = made_at(wiring, plus), made_at(wiring, minus)
            if bool(at_plus) == bool(at_minus) or _in_a_plug(wiring, plus) or _in_a_plug(wiring, minus):
                continue
            used, idle = (plus, minus) if at_plus else (minus, plus)
            joint = (at_plus or at_minus)[0]
            yield Fault(
                at=Spot(joint.place, wiring.words(used)),
                message=f"{wiring.words(used)} is joined and {wiring.words(idle)} is not: {_outcome(wiring, used)}.",
                do=f"Join {wiring.words(idle)} to the partner of {wiring.words(joint.other(used))}.",
                about=(used, idle),
                path=along(wiring, wiring.planned, used, far_end(wiring.planned, used)),
            )


def _outcome(wiring: Wiring, name: str) -> str:
    data = wiring.contact(name).function.kind == "data"
    return "it stays off the bus" if data else "hum or silence"


def _pairs(wiring: Wiring, unit: Unit) -> Iterator[tuple[str, str]]:
    """Ports, then terminals that come in twos by their function."""
    for port in unit.ports.values():
        yield port.plus, port.minus
    by_base: dict[str, dict[str, str]] = {}
    for terminal in unit.terminals:
        name = f"{unit.name}.{terminal}"
        function = wiring.contact(name).function
        if function.kind in _PAIRED:  # one without a sign is alone
            by_base.setdefault(function.base, {})[function.sign] = name
    for signs in by_base.values():
        if len(signs) == 2:
            first, second = signs.values()
            yield first, second


def _bridged(wiring: Wiring, unit: Unit) -> set[str]:
    """The terminals of outputs that are used as a bridge."""
    made: set[str] = set()
    for ends in unit.bridges:
        names = [f"{unit.name}.{terminal}" for terminal in ends]
        if all(made_at(wiring, name) for name in names):
            for port in unit.ports.values():
                if port.plus in names or port.minus in names:
                    made |= {port.plus, port.minus}
    return made


def _in_a_plug(wiring: Wiring, name: str) -> bool:
    return any(conductor.kind == INSIDE for conductor in wiring.planned.conductors(name))
