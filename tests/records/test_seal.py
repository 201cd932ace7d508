"""Seals, by SHA-256 over bytes that are written out here."""

from __future__ import annotations

import hashlib
import random

import pytest

from harness.records.seal import broken, seal_of, sealed, unsealed


def _by_hand(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()[:16]


# FIPS 180-4 SHA-256 (hashlib) over the bytes written out, first 16 hex digits: nothing, line feed, line; then the
# first seal, line feed, line; then the second, line feed, line with é as its two bytes of UTF-8.
ONE = _by_hand(b"\n- {by: JM, tone: dash.1/2}")
TWO = _by_hand(ONE.encode() + b"\n- {by: RK, ohm: dash.1/2, reads: 3.5 ohm}")
THREE = _by_hand(TWO.encode() + b'\n- {by: RK, note: "d\xc3\xa9j\xc3\xa0, vu}"}')
LINES = [
    f"- {{by: JM, tone: dash.1/2, seal: {ONE}}}",
    f"- {{by: RK, ohm: dash.1/2, reads: 3.5 ohm, seal: {TWO}}}",
    f'- {{by: RK, note: "déjà, vu}}", seal: {THREE}}}',
]


def test_the_seal_of_three_lines() -> None:
    assert seal_of("", "- {by: JM, tone: dash.1/2}") == ONE
    assert seal_of(ONE, "- {by: RK, ohm: dash.1/2, reads: 3.5 ohm}") == TWO
    assert sealed("- {by: JM, tone: dash.1/2}", ONE) == LINES[0]
    assert broken(LINES) == []
    # worked with `printf '\n- {by: JM, tone: dash.1/2}' | sha256sum` (GNU coreutils)
    assert ONE == "c8a85e0763e03cc2"


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        (LINES[0], ("- {by: JM, tone: dash.1/2}", ONE)),
        (LINES[0] + "\r\n", ("- {by: JM, tone: dash.1/2}", ONE)),
        (LINES[0] + "  # looked at", ("- {by: JM, tone: dash.1/2}", ONE)),
        ("- {by: JM}\n", ("- {by: JM}", "")),
        ('- {note: "a, seal: 0123456789abcdef}"}', ('- {note: "a, seal: 0123456789abcdef}"}', "")),
        ('- {note: "a, seal: 0123} # b"}', ('- {note: "a, seal: 0123} # b"}', "")),
        ("- {note: {a: b, seal: 0123}}", ("- {note: {a: b, seal: 0123}}", "")),
        ("# - {by: JM, seal: 0123}", ("# - {by: JM, seal: 0123}", "")),
        ("- {by: JM, seal: 0123", ("- {by: JM, seal: 0123", "")),
        ("- {by: JM, seal: no}", ("- {by: JM}", "no")),
        ("", ("", "")),
    ],
)
def test_apart(text: str, parts: tuple[str, str]) -> None:
    assert unsealed(text) == parts


def test_what_has_no_seal_is_passed_over() -> None:
    between = ["# by hand", "", "- {by: me, tone: dash.1/2}", "- {by: JM, to #torn", f"{LINES[0][:-9]} #torn", "a\0b"]
    for text in between:
        assert broken([text, LINES[0], text, LINES[1], text, text, LINES[2], text]) == []
    assert broken(line + "\n" for line in LINES) == []
    assert broken([]) == []


def test_changed_removed_exchanged() -> None:
    assert broken([LINES[0], LINES[1].replace("3.5", "4.5"), LINES[2]]) == [2]
    assert broken([LINES[0], LINES[1].replace(TWO, ONE), LINES[2]]) == [2, 3]
    assert broken([LINES[0].replace(ONE, "0" * 16), LINES[1]]) == [1, 2]
    assert broken([LINES[0], LINES[2]]) == [2]
    assert broken(LINES[1:]) == [1]
    assert broken([LINES[0], "# " + LINES[1], LINES[2]]) == [3]
    assert broken([LINES[0], LINES[1] + " #torn", LINES[2]]) == [3]
    assert broken([LINES[0], LINES[2], LINES[1]]) == [2, 3]
    assert broken([LINES[1], LINES[0], LINES[2]]) == [1, 2, 3]
    assert broken([LINES[0], LINES[0], LINES[1]]) == [2]
    # the last ones taken away: no trace, as the module says
    assert broken(LINES[:2]) == []


def test_any_one_character_of_sixty_lines() -> None:
    """A character put in another's place, anywhere in a long file, is found at its own line."""
    rng = random.Random(7)
    lines, before = [], ""
    for number in range(60):
        line = f"- {{by: JM, tone: dash.{number}/{number + 1}, heard: FL}}"
        before = _by_hand(f"{before}\n{line}".encode())
        lines.append(f"{line[:-1]}, seal: {before}}}")
    assert broken(lines) == []
    for _ in range(400):
        number = rng.randrange(60)
        line = lines[number]
        at = rng.randrange(len("- {by: "), line.index(", seal: "))
        if line[at] in ":, ":
            continue
        changed = line[:at] + ("y" if line[at] == "x" else "x") + line[at + 1 :]
        assert broken([*lines[:number], changed, *lines[number + 1 :]]) == [number + 1]


@pytest.mark.parametrize(
    "moved",
    [
        f'- {{by: RX, ohm: dash.1/2, reads: 3.5 ohm, seal: "{TWO}"}}',
        f"- {{by: RK, seal: {TWO}, ohm: dash.1/2, reads: 3.5 ohm}}",
        f'- {{by: RK, ohm: dash.1/2, "seal": {TWO}}}',
        f"- by: RK\n  seal: {TWO}",
    ],
)
def test_a_seal_that_stands_elsewhere_isnt_right(moved: str) -> None:
    """Whether the record behind it was put there before that or after."""
    lines = [LINES[0], *moved.split("\n")]
    third = "- {by: RK, handover: paused}"
    after_one = f"{third[:-1]}, seal: {_by_hand(f'{ONE}{chr(10)}{third}'.encode())}}}"
    after_two = f"{third[:-1]}, seal: {_by_hand(f'{TWO}{chr(10)}{third}'.encode())}}}"
    assert broken(lines, {1: ONE, 2: TWO}) == [2]
    assert broken([*lines, after_one], {1: ONE, 2: TWO}) == [2]
    assert broken([*lines, after_two], {1: ONE, 2: TWO}) == [2]
