"""What arrives at a point, in a word: with one fault by the point's reach, with several, and of which channel."""

from __future__ import annotations

from harness.locate.circuit import Circuit
from harness.locate.faults import CROSSED, HISS, LOOSE, NOISY, OPEN, POOR, TURNED, WEAK, Fault
from harness.locate.reach import Reach

# what arrives at a point
SIGNAL, NOTHING, TURNED_ROUND, OTHER, LOW, NOISE_TOO = "signal", "nothing", "reversed", "other", "low", "noise"
THINNED = "thinned"  # one of several summed signals is missing or turned: nobody need have noticed


def together(words: list[str]) -> str:
    """What several faults make of a signal, each by itself known."""
    if NOTHING in words:
        return NOTHING
    turns = words.count(TURNED_ROUND)
    if turns:
        return TURNED_ROUND if turns % 2 else next((word for word in words if word != TURNED_ROUND), SIGNAL)
    return next((word for word in words if word != SIGNAL), SIGNAL)


def single(fault: Fault, reach: Reach) -> str:
    """What one fault makes of a signal behind a reach; of a short `shorts` says it."""
    mode, piece, other = fault
    if mode in (OPEN, LOOSE):
        return NOTHING if piece in reach.kills else THINNED if piece in reach.some else SIGNAL
    if mode == TURNED:
        return TURNED_ROUND if piece in reach.kills else THINNED if piece in reach.some else SIGNAL
    if mode == CROSSED:
        if piece in reach.kills or other in reach.kills:
            return OTHER
        # where both are summed anyhow, the sum is the same
        return THINNED if (piece in reach.some) != (other in reach.some) else SIGNAL
    if mode == WEAK:
        return LOW if piece in reach.kills else THINNED if piece in reach.some else SIGNAL
    if mode in (NOISY, HISS):
        return NOISE_TOO if piece in reach.kills else THINNED if piece in reach.some else SIGNAL
    if mode == POOR:
        return NOISE_TOO if piece in reach.hum else SIGNAL
    return SIGNAL


def channels_of(circuit: Circuit) -> dict[str, str]:
    """The sources' channels in each output: FL, or FL + FR where they are summed."""

    def channel(name: str, seen: frozenset[str]) -> str:
        output = circuit.outputs[name]
        behind = [
            channel(leg.driver, seen | {name})
            for receiver in output.inputs
            for leg in circuit.legs
            if leg.receiver == receiver and leg.driver not in seen
        ]
        return " + ".join(dict.fromkeys(behind)) if behind else output.channel

    return {name: channel(name, frozenset()) for name in circuit.outputs}
