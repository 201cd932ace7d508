"""Contacts in words, as a person looks for them: plug, cavities, colours, channel."""

from __future__ import annotations

from collections.abc import Iterable

from harness.graph.wiring import Wiring
from harness.locate.circuit import PIN
from harness.model.contact import printed


def chain_words(name: str) -> str:
    """`run.battery.+>dsp.B+~2` in words: the run from battery + to dsp B+."""
    first, _, last = name.partition(".")[2].rpartition("~")[0].partition(">")
    shown = [printed(each.replace(".", " ", 1)) for each in (first, last)]
    return f"the run from {shown[0]} to {shown[1]}" if last else "its run"


def fuse_side(wiring: Wiring, name: str) -> str:
    """A contact within a run in words: the fuse beside it and on which side of the fuse it is."""
    chain = name.partition(".")[2].rpartition("~")[0]
    first, _, last = (printed(each.replace(".", " ", 1)) for each in chain.partition(">"))
    for segment in wiring.job.segments:
        if segment.kind == "fuse" and name in (segment.a, segment.b):
            toward = first if name == segment.a else last
            return f"the fuse in {chain_words(name)}, its contact toward {toward}"
    return f"the middle of {chain_words(name)}"


def pair_words(wiring: Wiring, names: Iterable[str]) -> str:
    """`dsp in1` for its two contacts, `dash cavities 1/9 (brown and brown with white stripe, FL)` for a plug's."""
    contact = wiring.contact
    given = [name for name in dict.fromkeys(names) if name]
    pin = given[0].endswith(PIN)
    shown = [name.removesuffix(PIN) for name in given]
    one = contact(shown[0])
    if one.kind == "run":
        return "its fuse"
    if len(shown) == 1:
        words = wiring.words(shown[0])
        return f"{words}, at its plug" if pin else words
    if one.kind in ("plug", "loom"):
        side = f" {one.half} end" if one.kind == "loom" and one.half else ""
        half = {"unit": ", unit side", "car": ", car side"}.get(one.half, "") if one.kind == "plug" else ""
        half = ", at its plug" if pin else half
        cavities = "/".join(contact(name).last for name in shown)
        colours = " and ".join(colour.words for name in shown if (colour := contact(name).colour) is not None)
        base = one.function.base if one.function.kind not in ("unknown", "empty") else ""
        about = ", ".join(part for part in (colours, base) if part)
        word = "cavities " if one.kind == "plug" else ""
        return f"{one.owner}{side} {word}{cavities}{f' ({about})' if about else ''}{half}"
    if len({name[:-1] for name in shown}) == 1 and shown[0][-1:] in "+-":
        return f"{'speaker ' if one.kind == 'speaker' else one.owner + ' '}{one.last[:-1]}"
    if len({contact(name).owner for name in shown}) == 1 and one.kind in ("unit", "speaker"):
        return f"{one.owner} {' and '.join(printed(contact(name).last) for name in shown)}"
    return " and ".join(wiring.words(name) for name in shown)
