"""What the words of a step say. Each expectation is how a person in the bay reads the sentence; there is no source."""

from __future__ import annotations

import pytest

from harness.work.spoken import fuses_in, fuses_out, joins_battery, open_ends, power_said, runs_named

INFINITE = float("inf")


@pytest.mark.parametrize(
    ("words", "battery", "key"),
    [
        ("key off, battery negative off, by the car maker's battery and restraint instructions", (False,), (False,)),
        ("key off. battery negative off first, then wait", (False,), (False,)),
        ("battery negative back on; all lamps off", (True,), ()),
        ("battery negative on, last of all; key to accessory, radio on at its lowest volume", (True,), (True,)),
        ("battery on, then key on, then key off", (True,), (True, False)),
        ("disconnect the battery", (False,), ()),
        ("battery's negative removed", (False,), ()),
        ("reconnect the battery", (True,), ()),
        ("battery not back on yet", (), ()),
        ("do not turn the battery on yet", (), ()),
        ("the run to the battery +, then the fuses in", (), ()),
        ("engine running", (), (True,)),
        ("off", (False,), ()),
        ("up", (), ()),
    ],
)
def test_power(words: str, battery: tuple[bool, ...], key: tuple[bool, ...]) -> None:
    said = power_said("power", words)
    assert (said.battery, said.key) == (battery, key)


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("on", (True,)), ("to accessory", (True,)), ("run", (True,)), ("out of the lock", (False,)),
        ("on for the reading, then off again", (True, False)), ("key on, engine off", (True,)), ("to position 2", ()),
    ],
)  # fmt: skip
def test_key(words: str, key: tuple[bool, ...]) -> None:
    assert power_said("key", words).key == key


def test_other_verbs_turn_nothing_on_or_off() -> None:
    assert power_said("note", "battery off, key on") == power_said("look", "every lamp on")


@pytest.mark.parametrize(
    ("verb", "words", "seconds"),
    [
        ("power", "battery off, wait 30 s", 30.0), ("power", "battery off, then wait 2 minutes", 120.0),
        ("power", "battery off, then wait", INFINITE), ("wait", "90 s", 90.0), ("wait", "1.5 min", 90.0),
        ("power", "battery off", None),
    ],
)  # fmt: skip
def test_waits(verb: str, words: str, seconds: float | None) -> None:
    assert power_said(verb, words).waits_s == seconds


def test_runs() -> None:
    assert runs_named("run 2") == {2}
    assert runs_named("run 1 to run 3, run 7") == {1, 2, 3, 7}
    assert runs_named("all runs") == frozenset()
    assert runs_named("run 1 to 99999999999") == {1}  # no number of a run, and no hour of counting


@pytest.mark.parametrize(
    ("words", "out"),
    [
        ("all runs, every fuse out", True), ("all runs, no fuse in", True), ("all runs, fuses not in yet", True),
        ("all runs without fuses", True), ("run 1, its fuse in, the end at the amp not joined yet", False),
        ("all runs", False),
    ],
)  # fmt: skip
def test_fuses_left_out(words: str, out: bool) -> None:
    assert fuses_out(words) == out


# (run, its fuse in A) that go in: of 100 A in run 1, 40 A in run 2
@pytest.mark.parametrize(
    ("verb", "words", "goes_in"),
    [
        ("fuse", "all in", {1, 2}), ("fuse", "run 2", {2}), ("fuse", "100 a in", {1}),
        ("power", "fuses back in", {1, 2}),
        ("fuse", "run 1 to the battery, then every fuse in", {1, 2}), ("power", "the 40 a fuse in", {2}),
        ("power", "run 1 joined to the battery +, then fuses in, last before power: 100 a in run 1", {1}),
        ("power", "no fuse in yet", set()), ("power", "battery on", set()), ("fuse", "40 a out", set()),
    ],
)  # fmt: skip
def test_fuses_that_go_in(verb: str, words: str, goes_in: set[int]) -> None:
    found = fuses_in(verb, words)
    assert {run for run, value_a in ((1, 100.0), (2, 40.0)) if found and found.takes(run, value_a)} == goes_in


def test_open_ends() -> None:
    (battery,) = open_ends("all runs, every fuse out, battery ends insulated and not joined yet")
    assert battery.battery
    assert battery.covered
    (far,) = open_ends("run 1 to the battery, its fuse in, the end at the amp left open")
    assert not far.battery
    assert not far.covered
    assert "amp" in far.words
    assert open_ends("all runs, every fuse out") == ()


@pytest.mark.parametrize(
    ("words", "joins"),
    [
        ("the run to the battery +, then the fuses in", True), ("battery end joined, then fuses in", True),
        ("battery end not joined yet", False), ("connect the battery", False), ("battery negative on", False),
        ("fuses in", False),
    ],
)  # fmt: skip
def test_the_battery_end(words: str, joins: bool) -> None:
    assert joins_battery(words) == joins
