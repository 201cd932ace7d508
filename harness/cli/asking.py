"""Questions to a person at a terminal. Where nobody sits there, nothing is asked."""

from __future__ import annotations

import sys
from collections.abc import Callable

import click


def somebody_there() -> bool:
    """Whether questions can be asked: input and the stream that shows the questions are a terminal."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stderr))


def ask(question: str, understood: Callable[[str], object]) -> str:
    """An answer that `understood` takes without a ValueError; asked again where it doesn't. Empty: no answer."""
    while True:
        answer: str = click.prompt(question, default="", show_default=False, err=True)
        answer = answer.strip()
        if not answer:
            return ""
        try:
            understood(answer)
        except ValueError as wrong:
            click.echo(f"  {wrong}", err=True)
            continue
        return answer
