"""What a record lacks, asked for at a terminal. Nothing is written here; Ctrl-C ends the command."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from harness.cli.asking import ask
from harness.cli.record_words import Said, said
from harness.cli.screen import Refused
from harness.session.recording import Fields, held

_Fits = Callable[[str], object]


def ask_words() -> Said:
    """What was done, and to what."""
    words = ask("What was done, and to what? For instance seen: dash.car.7", _read)
    return _read(words) if words else []


def ask_who(fits: _Fits) -> str:
    """Who says it; empty where nobody answers."""
    return ask("Who says it? Initials or a name", fits)


def ask_missing(job: str, fields: Fields, missing: dict[str, str]) -> Said:
    """The keys that are missing, in their order, with the answers given; each is held against the reader at once."""
    made: Said = []
    for key, meant in missing.items():
        answer = ask(f"{key} ({meant})", partial(_fits, job, [*fields, *made], key))
        if answer:
            made += said([f"{key}: {answer}"])
    return made


def _fits(job: str, fields: Fields, key: str, text: str) -> None:
    wrong = held(job, [*fields, *said([f"{key}: {text}"])]).wrong
    if wrong:
        raise ValueError("; ".join(words for _, words in wrong))


def _read(text: str) -> Said:
    """As a shell parts words, so that quotes may be typed or not. Raises ValueError for what can't be understood."""
    import shlex

    try:
        return said(shlex.split(text))
    except ValueError:
        raise ValueError("a quote isn't closed") from None
    except Refused as wrong:
        raise ValueError(f"{wrong}") from None
