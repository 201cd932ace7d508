"""Seals against SHA-256 worked over bytes written out here."""

from __future__ import annotations

import hashlib

from harness.records.seal import broken, seal_of, sealed, unsealed

FIRST = "- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/11, heard: FL}"
SECOND = "- {when: 2026-03-02 09:44, by: JM, tone: dash.car.2/12, heard: FR}"


def _lines() -> list[str]:
    one = hashlib.sha256(b"\n" + FIRST.encode()).hexdigest()[:16]
    two = hashlib.sha256(one.encode() + b"\n" + SECOND.encode()).hexdigest()[:16]
    return [f"{FIRST[:-1]}, seal: {one}}}", f"{SECOND[:-1]}, seal: {two}}}"]


def test_chain_by_hand() -> None:
    one = seal_of("", FIRST)
    assert [sealed(FIRST, one), sealed(SECOND, seal_of(one, SECOND))] == _lines()
    assert unsealed(_lines()[0]) == (FIRST, one)
    assert unsealed(FIRST) == (FIRST, "")


def test_whole_chain_is_right() -> None:
    """Lines without a seal, remarks and half lines are passed over."""
    one, two = _lines()
    assert broken([one, two]) == []
    assert broken(["# shop", one, "", "- {by: JM, seen: dash.1}", "- {when: 2026 #torn", two]) == []


def test_changed_removed_exchanged() -> None:
    one, two = _lines()
    assert broken([one.replace("FL", "FR"), two]) == [1]
    assert broken([two]) == [1]
    assert broken([two, one]) == [1, 2]
