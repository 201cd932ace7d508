"""How messages name a record: what was done to what, by whom and when."""

from __future__ import annotations

from harness.graph.wiring import Wiring
from harness.model.evidence import Record

_WORDS = {
    "tone": "the tone of", "polarity": "the polarity of", "ohm": "the ohms of", "volts": "the volts at",
    "response": "the response at", "built": "what was built at", "checked": "the check of", "seen": "what was seen of",
    "plays": "what answers", "before": "the trial before of", "after": "the trial after of", "printed": "the print of",
    "handover": "the handover", "signed": "the signature", "struck": "the striking of line",
}  # fmt: skip


def record_words(wiring: Wiring, record: Record) -> str:
    """`the tone of dash.car.1/9 (JM, 2026-03-02)`: the subject as it is written, for a place in the evidence file."""
    who = ", ".join(filter(None, (record.by, record.when[:10])))
    about = f" {record.what}" if record.verb not in ("handover", "signed") else f" ({record.what})"
    return f"{_WORDS[record.verb]}{about}" + (f" ({who})" if who else "")
