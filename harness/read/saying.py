"""The sentences for values and keys that aren't understood: which word, what was meant, what to type.

Imported only once something is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from harness.read.fields import Fields, Word
from harness.read.said import Said, nearest
from harness.read.said_rows import (
    row_sayer,
    say_colour,
    say_colour_word,
    say_function,
    say_pair_function,
    say_quantity,
    say_size,
)
from harness.read.said_wires import (
    say_cavity,
    say_chain,
    say_contact,
    say_date,
    say_feature,
    say_name,
    say_output,
    say_route,
    say_signal,
    say_version,
)


def wrong_text(word: Word, text: str, key: str) -> Said:
    """What to say about a value that doesn't fit."""
    kind, _, about = word.kind.partition(" ") if word.kind.startswith("quantity") else (word.kind, "", "")
    say = _SAYERS.get(kind)
    said = say(text, about) if say else None
    if said:
        return said
    message = f"“{text[:60]}” is not {word.what}."
    if word.words:
        near = nearest(text, (*word.words, *word.other))
        meant = word.other.get(near, near)
        do = f"Is “{meant}” meant?" if meant else f"Write one of: {', '.join(word.words)}."
        return Said(0, text[:60], f"{message} It can be {', '.join(word.words)}." if meant else message, do)
    if re.search(r"[0-9],[0-9]", text):
        message += " A decimal is written with a point."
    elif glued := re.fullmatch(r"(-?[0-9]+(?:\.[0-9]+)?)([A-Za-z][A-Za-z0-9]*)", text):
        parted = f"{glued[1]} {glued[2]}"
        if word.fits(parted):
            return Said(
                0,
                text[:60],
                f"{message} A space parts a number from its unit.",
                f"Write it like this: {key + ': ' if key else ''}{parted}",
            )
    elif "," in text:
        message += " Words are parted by spaces, never by commas."
    return Said(0, text[:60], message, f"Write it like this: {key + ': ' if key else ''}{word.example}")


def wrong_key(spec: Fields, text: str) -> tuple[str, Said]:
    """The code and what to say about a key that a table doesn't have."""
    if spec.keys:
        near = nearest(text, tuple(spec.keys) + tuple(spec.other))
        known = ", ".join(spec.keys)
        do = f"Is “{near}” meant?" if near else f"The keys here are: {known}."
        return "R07", Said(0, text[:60], f"{spec.what[:1].upper()}{spec.what[1:]} has no key “{text[:60]}”.", do)
    word = spec.rows[0][0]
    if word.kind == "method":
        from harness.read.spec import METHODS

        first = text.split(" ", 1)[0]
        near = nearest(first, METHODS)
        do = f"Is “{near}” meant?" if near and near != first else "Write METHOD, or METHOD at PLACE with COVER."
        return "R07", Said(0, first, f"“{text[:60]}” is not a way to join: {', '.join(METHODS)}.", do)
    what = " or ".join(dict.fromkeys(each.what for each, _ in spec.rows))
    say = _SAYERS.get(word.kind)
    said = say(text, "key") if say else None
    if said:
        return "R09", said
    return "R09", Said(0, text[:60], f"“{text[:60]}” is not {what}.", f"Write it like this: {spec.example}")


_SAYERS: dict[str, Callable[[str, str], Said | None]] = {
    "function": say_function,
    "pair function": say_pair_function,
    "colour": say_colour,
    "colour word": say_colour_word,
    "row": row_sayer(False, False),
    "pair row": row_sayer(True, False),
    "lead row": row_sayer(False, True),
    "size": say_size,
    "quantity": say_quantity,
    "date": say_date,
    "name": say_name,
    "cavity": say_cavity,
    "contact": say_contact,
    "signal": say_signal,
    "output": say_output,
    "route": say_route,
    "chain": say_chain,
    "feature": say_feature,
    "version": say_version,
}
