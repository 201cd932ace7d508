"""Keys as they are pressed: at a terminal one by one without Enter, from a pipe or file a line each."""

from __future__ import annotations

import os
import re
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager

import click

ENTER = ""
UNREADABLE = "\N{REPLACEMENT CHARACTER}"
_SEQUENCE = re.compile("\x1b(?:\\[[0-?]*[ -/]*[@-~]|O[ -~])?")
_ERASE = ("\x7f", "\b")
_END, _STOP, _ESCAPE = "\x04", "\x03", "\x1b"
_SOON_S = 0.05  # the signs of one key come together; common practice, no source


class Ended(Exception):
    """Nobody answers any more: the end of the input."""


class Keys:
    """Where answers come from. `single` says that a key counts without Enter."""

    def __init__(self) -> None:
        self.single = sys.stdin is not None and sys.stdin.isatty()
        self._after_key = False  # the last thing pressed was a key that counts by itself

    def key(self) -> str:
        """One key, or empty for Enter alone. Raises Ended at the end of the input, click.Abort at Ctrl-C."""
        if not self.single:
            return self._line()[:1]
        pressed = self._pressed()
        self._after_key = pressed != "\n"
        _echo("\n" if pressed == "\n" else f"{pressed}\n")
        return ENTER if pressed == "\n" else pressed

    def line(self) -> str:
        """A line up to Enter, without blanks around it."""
        if not self.single:
            return self._line()
        typed = ""
        while True:
            pressed = self._pressed()
            if pressed == "\n":
                _echo("\n")
                return typed.strip()
            if pressed in _ERASE:
                if typed:
                    typed = typed[:-1]
                    _echo("\b \b")
            elif pressed.isprintable():
                typed += pressed
                _echo(pressed)

    def _line(self) -> str:
        sys.stdout.flush()
        text = sys.stdin.readline() if sys.stdin is not None else ""
        if not text:
            raise Ended
        return readable(text).strip()

    def _pressed(self) -> str:
        sys.stdout.flush()
        while True:
            sign = _one()
            if sign in ("", _END):
                raise Ended
            if sign == _STOP:
                raise click.Abort
            if sign == _ESCAPE:
                _pass_over()
                continue
            sign = "\n" if sign == "\r" else sign
            if sign == "\n" and self._after_key:  # from habit: it belongs to the key before, not to this question
                self._after_key = False
                _echo("     (a key needs no Enter; press Enter once more if you mean it here)\n")
                continue
            if sign == "\n" or sign.isprintable() or sign in _ERASE:
                self._after_key = False
                return sign


def _one() -> str:
    if os.name == "nt":
        import msvcrt

        return msvcrt.getwch()  # type: ignore[attr-defined,no-any-return]
    raw = os.read(sys.stdin.fileno(), 1)
    first = raw[0] if raw else 0
    # how many bytes follow, by the first one (RFC 3629); one that begins no sign stands alone
    left = 3 if 0xF0 <= first <= 0xF4 else 2 if 0xE0 <= first <= 0xEF else 1 if 0xC2 <= first <= 0xDF else 0
    while left and _more():
        raw += os.read(sys.stdin.fileno(), 1)
        left = left - 1 if 0x80 <= raw[-1] <= 0xBF else 0  # else it was cut off, and the last byte is a key of its own
    return raw.decode("utf-8", "replace")[-1:]


def _more() -> bool:
    """Whether something more of the same key is there."""
    import select

    return bool(select.select([sys.stdin.fileno()], [], [], _SOON_S)[0])


def readable(text: str) -> str:
    """A text as it can be shown and kept: sequences of keys (ECMA-48) are gone, bytes that are no text are U+FFFD."""
    text = _SEQUENCE.sub("", text)
    return "".join(UNREADABLE if 0xD800 <= ord(sign) <= 0xDFFF else sign for sign in text if sign.isprintable() or
                   sign in "\t\n" or 0xD800 <= ord(sign) <= 0xDFFF)  # fmt: skip


def _pass_over() -> None:
    """What an arrow, Delete or F5 sends behind its escape (ECMA-48: parameters, then one letter): no answer at all."""
    if os.name == "nt" or not _more():
        return
    sign = _one()
    if sign == "O" and _more():  # SS3: one letter
        _one()
    elif sign == "[":
        while _more():
            if "@" <= _one() <= "~":
                return


def _ended_by(number: int, _: object) -> None:
    raise SystemExit(128 + number)


def _echo(text: str) -> None:
    sys.stdout.write(text)
    sys.stdout.flush()


@contextmanager
def keys() -> Iterator[Keys]:
    """The terminal set so that keys come one by one, and set back afterwards, whatever happens."""
    made = Keys()
    if not made.single or os.name == "nt":
        yield made
        return
    import termios
    import tty

    number = sys.stdin.fileno()
    before = termios.tcgetattr(number)
    # who ends the program must find the terminal as it was
    handlers = {each: signal.signal(each, _ended_by) for each in (signal.SIGTERM, signal.SIGQUIT)}
    try:
        tty.setcbreak(number)
        yield made
    finally:
        termios.tcsetattr(number, termios.TCSADRAIN, before)
        for each, handler in handlers.items():
            signal.signal(each, handler)
