"""The words of `ringout record` as a shell hands them over, in quotes or without, as keys and values."""

from __future__ import annotations

import re
from collections.abc import Sequence

from harness.cli.screen import Refused
from harness.model.evidence import CONTACT_VERBS, JOINT_VERBS, PAIR_VERBS, STRUCK, VERBS
from harness.read.fields import Word
from harness.read.spec_evidence import RECORD
from harness.read.spec_words import TEXT

Said = list[tuple[str, str | tuple[str, ...]]]

STRIKE = "strike"  # as it is typed; `struck` is what the record says
# Words of the person's own: a colon in them, or a word that is a key elsewhere, means nothing.
FREE = frozenset({"note", "reason", "done", "left", "parts", "odd", "shows", "found", "is", "who", "photo"})

_KEY = re.compile(r"([A-Za-z][A-Za-z0-9_-]+):(.*)", re.DOTALL)
_TYPOGRAPHIC = "“”„‟‘’‚‛«»"
# What a meter shows, with a comma for the point as many write it. Three digits behind it may be thousands.
_READ = frozenset({"reads", "dc", "body", "from", "waited"})
# What has values of a few words, none of which is the name of a key; a function may well be called `reverse tone`.
_OF_WORDS = frozenset(
    {
        *PAIR_VERBS,
        *CONTACT_VERBS,
        "seen",
        "plays",
        "heard",
        "plus",
        "result",
        "key",
        "step",
        "colour",
        "unplugged",
        "faded",
        "balanced",
    }
)  # fmt: skip
_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9]{1,2}(?![0-9]))")


def said(words: Sequence[str]) -> Said:
    """Keys and values in the order typed: `"seen: dash.car.7"`, `seen: dash.car.7` and `seen dash.car.7` are the same.

    A key that was typed without quotes takes the words behind it, up to the next key. Raises Refused for a word that
    belongs to no key, a key without value, and quotes that are none to the shell.
    """
    made: list[tuple[str, str]] = []
    open_key = False  # whether the key before was typed without quotes, so that its value may go on
    for at, word in enumerate(words):
        if word[:1] in (*_TYPOGRAPHIC, "'") and word.strip():
            raise Refused(f'{word!r} begins with a quote that is none here; type straight double quotes: "seen: …"')
        if word.startswith("--"):
            raise Refused(f"there is no option {word!r}; ringout record --help shows those that there are")
        key = _KEY.fullmatch(word)
        if at == 0 and word.lower() in (*VERBS, STRIKE):
            made.append((word.lower(), ""))
            open_key = True
        elif key and _begins(key, open_key):
            made.append((_key(key[1]), key[2].strip()))
            open_key = not key[2].strip() or not re.search(r"\s", key[2])
        elif not open_key or not word.strip():
            raise Refused(f'{word!r} belongs to no key; write it as "KEY: VALUE", for instance "seen: dash.car.7"')
        else:
            last, value = made[-1]
            plug_end = word == "car" and last in JOINT_VERBS  # checked: T1 car end
            if value and word in RECORD.keys and last in _OF_WORDS and not plug_end:
                raise Refused(f"“{word}” wants a colon behind it: {word}: VALUE, or it is taken as part of “{last}”")
            made[-1] = (last, f"{value} {word}".strip())
    for name, value in made:
        if not value and name == STRIKE:
            raise Refused("which one is to be struck? Type its line, or last: strike 3, or strike last")
        if not value:
            shape = RECORD.keys.get(name)
            example = shape.example if isinstance(shape, Word) and shape is not TEXT else ""
            raise Refused(f'“{name}:” has no value; write it as "{name}: {example or "VALUE"}"')
    return [(STRUCK if name == STRIKE else name, _value(name, value)) for name, value in made]


def _begins(key: re.Match[str], open_key: bool) -> bool:
    """Whether a word with a colon begins a key: `reason: waits:rear`, typed without quotes, has two colons and one."""
    return not open_key or not key[2] or key[2][0].isspace() or key[1].lower() in RECORD.keys


def _key(text: str) -> str:
    return text.lower() if text.lower() in (*RECORD.keys, STRIKE) else text


def _value(key: str, value: str) -> str | tuple[str, ...]:
    text = " ".join(value.split())
    if key in _READ:
        text = _COMMA.sub(".", text)
    if text.startswith("[") and text.endswith("]"):
        return tuple(each.strip() for each in text[1:-1].split(","))
    return text
