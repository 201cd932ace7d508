"""What reaches the terminal: encoding, closed pipes, and text that can't disturb a terminal."""

from __future__ import annotations

import codecs
import contextlib
import os
import sys
from typing import TextIO

# What a terminal without these signs is given instead: words that mean the same on a bench.
_PLAIN = {
    "Ω": "ohm",
    "\N{OHM SIGN}": "ohm",
    "°": "deg",
    "±": "+/-",
    "→": "->",
    "−": "-",
    "–": "-",
    "—": "-",
    "…": "...",
    "²": "2",
    "µ": "u",
    "×": "x",
    "≤": "<=",
    "≥": ">=",
    "·": ".",
    "›": ">",
    "‘": "'",
    "’": "'",
    "“": '"',
    "”": '"',
}


def _plain(error: UnicodeError) -> tuple[str | bytes, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    lost = error.object[error.start : error.end]
    return "".join(_PLAIN.get(sign, "?") for sign in lost), error.end


codecs.register_error("ringout-plain", _plain)


def open_streams() -> None:
    """Makes stdout and stderr write UTF-8 where they can, and plain words where they can't.

    A stream that was closed before we started (`>&-`) gets nowhere to write to.
    """
    if sys.stdout is None:
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    if sys.stderr is None:
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    chosen = bool(os.environ.get("PYTHONIOENCODING"))
    for stream in (sys.stdout, sys.stderr):
        # Under a test or in another program a stream may be something else than a text file.
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is None:
            continue
        # A file or a pipe has no encoding of its own, so it gets UTF-8; a terminal keeps the one
        # it shows, and so does whoever asked for one by name.
        if chosen or stream.isatty():
            reconfigure(errors="ringout-plain")
        else:
            reconfigure(encoding="utf-8", errors="ringout-plain")


def close_streams(code: int) -> int:
    """Sends off what is still held back; gives the exit code, 2 where output could not be written."""
    for stream in (sys.stdout, sys.stderr):
        try:
            _flush(stream)
        except OSError as error:
            _drop(stream)
            code = 2
            with contextlib.suppress(OSError, ValueError):
                sys.stderr.write(f"ringout: can't write the output: {error.strerror or error}\n")
                sys.stderr.flush()
    return code


def _flush(stream: TextIO | None) -> None:
    """Raises OSError where the output can't be written, but not where nobody reads it any more."""
    if stream is None:
        return
    try:
        stream.flush()
    except BrokenPipeError:
        _drop(stream)


def _drop(stream: TextIO) -> None:
    """Lets what is still to come go nowhere, so that the interpreter doesn't complain at its end."""
    with contextlib.suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)


class Refused(Exception):
    """What was asked for can't be done, in one line that says why. Ends the command with exit code 2."""


def say(text: str) -> None:
    """Writes `text` and a line end to stdout.

    A reader that has gone away (`| head`) is no error: the exit code must still tell the verdict.
    """
    try:
        sys.stdout.write(text + "\n")
    except BrokenPipeError:
        _drop(sys.stdout)


def complain(text: str) -> None:
    """Writes one line about a mistake to stderr, with the command's name before it."""
    with contextlib.suppress(OSError):  # nobody to complain to: the exit code still tells
        sys.stderr.write(f"ringout: {text}\n")
        sys.stderr.flush()


def harmless(text: str) -> str:
    """The text without signs that steer a terminal: a job file may come from anywhere.

    Tabs become single blanks and every other sign that isn't printed becomes a dot, so the length
    and with it the place of a caret stay the same.
    """
    if text.isprintable():
        return text
    return "".join(sign if sign.isprintable() else " " if sign == "\t" else "·" for sign in text)


def columns(text: str) -> int:
    """How many columns of the terminal the text takes, after what `open_streams` makes of it there."""
    if text.isascii():
        return len(text)
    import unicodedata

    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    shown = text.encode(encoding, "ringout-plain").decode(encoding)
    wide = sum(unicodedata.east_asian_width(sign) in "WF" for sign in shown)
    return len(shown) + wide - sum(bool(unicodedata.combining(sign)) for sign in shown)


def as_argument(path: str | os.PathLike[str]) -> str:
    """A path as one would type it: in quotes if it has a blank, and never like an option."""
    text = os.fspath(path)
    text = f"./{text}" if text.startswith("-") else text
    return f'"{text}"' if any(sign.isspace() for sign in text) else text
