"""Half a line at the end of the file: whoever wrote it was cut off before it was acknowledged."""

from __future__ import annotations

import re

TORN = " #torn"  # put behind half a line by the next one who writes
_WHOLE = re.compile(r"- \{.*\}\s*(#.*)?")


def whole(line: str) -> bool:
    """Whether a last line without line end is a whole record that an editor saved so."""
    return bool(_WHOLE.fullmatch(line)) and line.count('"') % 2 == 0 and line.count("{") == line.count("}")


def without_torn(text: str) -> tuple[str, list[tuple[int, str]]]:
    """The text with half lines blanked, as long as before, and what they held: (line number, text).

    Half lines are those that a later writer set aside, and a last line without line end that is no whole record.
    """
    if not text:
        return text, []
    lines = text.split("\n")
    torn = []
    for at, line in enumerate(lines):
        last = at == len(lines) - 1 and line.strip() and line.startswith("- {") and not whole(line)
        if line.endswith(TORN) or last:
            torn.append((at + 1, line.removesuffix(TORN)))
            lines[at] = " " * len(line)
    return "\n".join(lines), torn
