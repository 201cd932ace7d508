"""Sure and fast answers for the words that jobs are full of, so that big patterns need not be compiled.

True means that the pattern of that kind of word fits; False means only: ask the pattern.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from harness.model.function import comes_in_pairs, read_function
from harness.read import patterns as p
from harness.units import NUMBER, UNITS

_colour = re.compile("[A-Za-z]{1,3}(?:/[A-Za-z]{1,3})?").fullmatch
_number = re.compile(NUMBER, re.ASCII).fullmatch
_size = re.compile(p.SIZE, re.ASCII).fullmatch
_contact = re.compile(p.CONTACT, re.ASCII).fullmatch
_inline = re.compile(rf"{p.NAME}\.{p.SEGMENT}(?:/{p.SEGMENT})?", re.ASCII).fullmatch
_name = re.compile(p.NAME, re.ASCII).fullmatch
_span = re.compile(rf"{NUMBER}\.\.(?:{NUMBER})?|\.\.{NUMBER}", re.ASCII).fullmatch
_FORMS = frozenset(("btl", "differential", "grounded", "transformer", "digital"))
_OF_OUTPUTS = _FORMS | {"clean", "fixed", "volume"}
_step = re.compile("[1-9][0-9]{0,2}", re.ASCII).fullmatch
_SPANNED = frozenset(("V", "mV", "Hz", "kHz"))
_ALONE = frozenset((*UNITS["voltage"], *UNITS["power"], *UNITS["resistance"], *UNITS["gain"], *UNITS["time"]))


def _tail(words: list[str], colours: tuple[int, ...]) -> bool:
    """Colours, size and `twisted` behind a function."""
    if words and words[-1] == "twisted":
        words = words[:-1]
    if len(words) >= 2 and _size(f"{words[-2]} {words[-1]}"):
        words = words[:-2]
    return len(words) in colours and all(map(_colour, words))


def _row(text: str) -> bool:
    words = text.split(" ")
    function = read_function(words[0])
    return function is not None and (len(words) == 1 or (function.kind != "empty" and _tail(words[1:], (0, 1))))


def _pair_row(text: str) -> bool:
    words = text.split(" ")
    function = read_function(words[0])
    if function is None or (len(words) > 1 and function.kind == "empty"):
        return False
    if function.kind not in ("unknown", "empty") and (function.sign or not comes_in_pairs(function)):
        return False
    return _tail(words[1:], (0, 2))


def _contacts(step: str) -> bool:
    return all(map(_contact, step.removesuffix(" reversed").split(" ")))


def _wire(step: str) -> bool:
    step, via, where = step.partition(" via ")
    words = step.split(" ")
    if len(words) < 3 or not _number(words[0]) or words[1] not in UNITS["length"]:
        return False
    if via and (">" in where or where.split() != where.split(" ")):
        return False
    if words[2:] == ["rca"]:
        return True
    if words[2] == "fibre":
        bent = words[3:]
        return not bent or (
            len(bent) == 3 and bent[0] == "bend" and _number(bent[1]) is not None and bent[2] in UNITS["length"]
        )
    if words[-1] in ("copper", "CCA"):
        words.pop()
    return len(words) == 4 and _size(f"{words[2]} {words[3]}") is not None


def _fuse(step: str) -> bool:
    words = step.split(" ")
    return words[0] == "fuse" and len(words) == 3 and words[2] == "A" and _number(words[1]) is not None


def _coloured(step: str) -> bool:
    words = step.split(" ")
    colours = (3,) if "/" in words[0] else (2, 3)
    return len(words) in colours and _inline(words[0]) is not None and all(map(_colour, words[1:]))


def _chain(text: str) -> bool:
    steps = text.split(" > ")
    if len(steps) < 2 or not _contacts(steps[0]) or not _contacts(steps[-1]):
        return False
    return all(_wire(step) or _contacts(step) or _fuse(step) or _coloured(step) for step in steps[1:-1])


def _signal(text: str) -> bool:
    return _words_of_signal(text.split(" "), _FORMS)


def _output(text: str) -> bool:
    head, step, tail = text.partition(" step ")
    if not step:
        return _words_of_signal(text.split(" "), _OF_OUTPUTS)
    words = tail.split(" ")
    if not _step(words[0]):
        return False
    del words[0]
    if words[:1] == ["of"]:
        if len(words) < 2 or not _step(words[1]):
            return False
        del words[:2]
    return _words_of_signal([*head.split(" "), *words], _OF_OUTPUTS)


def _words_of_signal(words: list[str], alone: frozenset[str]) -> bool:
    at = 0
    while at < len(words):
        word = words[at]
        if word in alone:
            at += 1
            continue
        unit = words[at + 1] if at + 1 < len(words) else ""
        if word in ("@", "least"):
            if at + 2 >= len(words) or not _number(unit) or words[at + 2] not in UNITS["resistance"]:
                return False
            at += 3
        elif (_number(word) and unit in _ALONE) or (_span(word) and unit in _SPANNED):
            at += 2
        else:
            return False
    return True


def _route(text: str) -> bool:
    *sources, last = text.split(" + ")
    source, *words = last.split(" ")
    if not all(_name(each) and not each[0].isdigit() for each in (*sources, source)):
        return False
    while words:
        if words[0] == "inverted":
            words = words[1:]
        elif len(words) > 1 and (
            (_span(words[0]) and words[1] in ("Hz", "kHz"))
            or (_number(words[0].removeprefix("-")) and words[1] == "dB")
            or (_number(words[0]) and words[1] in UNITS["time"])
        ):
            words = words[2:]
        else:
            return False
    return True


def _feature(text: str) -> bool:
    unit, _, contacts = text.partition(" > ")
    return _name(unit) is not None and all(map(_contact, contacts.split(" ")))


QUICK: dict[str, Callable[[str], bool]] = {
    "row": _row, "lead row": _row, "pair row": _pair_row, "chain": _chain, "signal": _signal, "output": _output,
    "route": _route, "feature": _feature,
}  # fmt: skip
