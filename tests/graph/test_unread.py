"""What nobody read yet of a job that was carried out: by the records of one job, read off its text by hand.

amp has B+ on the battery, GND on the floor and a lead that wakes it; eye hangs on ACC by `on`. Nothing is expected
where nothing is joined (`write`): eye's B+ and GND. The job makes seven joints.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import unread
from tests.graph.test_contrary_rules import recorded

BUILT = "after: horn, result: works"
VOLTS = ("amp.B+", "amp.GND", "amp.rem", "eye.on")
JOINTS = tuple(f"J{number}" for number in range(1, 8))


@pytest.mark.parametrize(
    ("records", "volts", "lights", "joints"),
    [
        ((), (), (), ()), (("before: horn, result: works",), (), (), ()),
        ((BUILT,), VOLTS, ("amp", "eye"), JOINTS),
        ((BUILT, "volts: amp.B+, reads: 12.5 V, key: out"), VOLTS[1:], ("amp", "eye"), JOINTS),
        ((BUILT, "ohm: amp.GND, reads: 0.1 ohm"), VOLTS, ("amp", "eye"), JOINTS),
        ((BUILT, "volts: amp.B+, reads: 12.5 V, key: out, car: Larch van"), VOLTS, ("amp", "eye"), JOINTS),
        ((BUILT, "seen: amp, shows: green"), VOLTS, ("eye",), JOINTS),
        # built says that it is made, a look that it holds
        ((BUILT, "built: J1"), VOLTS, ("amp", "eye"), JOINTS),
        ((BUILT, "built: J1", "checked: J1, found: tight"), VOLTS, ("amp", "eye"), JOINTS[1:]),
        ((BUILT, "checked: J2, found: tight"), VOLTS, ("amp", "eye"), ("J1", *JOINTS[2:])),
    ],
)  # fmt: skip
def test_what_nobody_read(
    records: tuple[str, ...], volts: tuple[str, ...], lights: tuple[str, ...], joints: tuple[str, ...], tmp_path: Path
) -> None:
    wiring = recorded(tmp_path, *records)
    made = unread.unread(wiring)
    assert (made.volts, made.lights, made.joints) == (volts, lights, joints)
    assert unread.unread_kinds(wiring) == ("volts, lights, joints" if volts else "")


def test_it_in_words(tmp_path: Path) -> None:
    """One and several; what is done isn't said."""
    looked = tuple(f"checked: {name}, found: tight" for name in JOINTS)
    read = tuple(f"volts: {name}, reads: 12 V, key: out" for name in VOLTS)
    for records, words in (
        ((BUILT, *read, *looked, "seen: amp, shows: green"), (("the light of eye", "no `seen` record with `shows`"),)),
        ((BUILT, *read, *looked), (("the lights of amp and eye", "no `seen` record with `shows`"),)),
        (
            (BUILT, *read[1:], *looked, "seen: amp, shows: green", "seen: eye, shows: green"),
            (("the volts at amp B+", "no `volts` record"),),
        ),
        (
            (BUILT, *read, *looked[1:], "seen: amp, shows: green", "seen: eye, shows: green"),
            (("whether joint J1 holds", "no `checked` record"),),
        ),
        (
            (BUILT, *read, *looked[2:], "seen: amp, shows: green", "seen: eye, shows: green"),
            (("whether joints J1 and J2 hold", "no `checked` record"),),
        ),
        ((), ()),
    ):  # fmt: skip
        assert unread.unread_words(recorded(tmp_path, *records)) == words, records
