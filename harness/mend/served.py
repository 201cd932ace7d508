"""What a job serves: every speaker that gets a signal, every function that the car had and keeps."""

from __future__ import annotations

from harness.graph.wiring import Wiring


def served(wiring: Wiring) -> frozenset[str]:
    """Names of speakers fed and of features kept, as planned."""
    signals = wiring.signals
    kept = {receiver.name for receiver in signals.speaker_receivers if signals.ways(receiver, most=1)}
    for feature in wiring.job.features:
        if feature.unit not in wiring.job.parts.units or feature.unit in wiring.gone:
            continue
        terminals = [name for name, contact in wiring.job.contacts.items() if contact.owner == feature.unit
                     and contact.kind == "unit"]  # fmt: skip
        whole = all(
            contact.rstrip("+-") in kept or any(wiring.planned.joined(contact, terminal) for terminal in terminals)
            for contact in feature.contacts
        )
        if whole:
            kept.add(feature.name)
    return frozenset(kept)
