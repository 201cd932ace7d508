"""A record as one line of the evidence file, in a form that reads back as the very same text."""

from __future__ import annotations

import re
from collections.abc import Sequence

# What stands plain inside { }: begins with a letter, digit or ./ and holds no sign that YAML or a shop's editor could
# take for something else. Everything besides goes into quotes.
_PLAIN = re.compile(r"[A-Za-z0-9./][A-Za-z0-9 ._+/()=;~°±Ω%@-]*(?::[A-Za-z0-9._+/-]+)*[A-Za-z0-9._+/()=;~°±Ω%@ -]*")


# Words that other YAML readers take for something else than text.
_TAKEN = frozenset(("yes", "no", "on", "off", "true", "false", "null", "y", "n"))


def flow_line(fields: Sequence[tuple[str, str | Sequence[str]]]) -> str:
    """`- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/11, fact: [1 FL+ WH, 11 FL- WH/BK]}`, no line end.

    Raises ValueError, naming the key, for an empty value, or one that holds a sign that can't be printed.
    """
    words = []
    for key, value in fields:
        if isinstance(value, str):
            words.append(f"{key}: {_value(key, value)}")
        else:
            words.append(f"{key}: [{', '.join(_value(key, each) for each in value)}]")
    return f"- {{{', '.join(words)}}}"


def _value(key: str, text: str) -> str:
    if not text.strip():
        raise ValueError(f"“{key}” has nothing behind it")
    if not text.isprintable():
        raise ValueError(f"“{key}” holds a sign that can't be printed")
    if (
        text.lower() not in _TAKEN
        and _PLAIN.fullmatch(text)
        and "  " not in text
        and text == text.strip()
        and not text.endswith(":")
    ):
        return text
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
