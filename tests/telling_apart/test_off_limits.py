"""What no meter and no tone is laid on, whatever it would tell."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.read.maps import read_maps
from harness.read.troubles import Troubles
from harness.telling_apart.observed import read_observation
from harness.telling_apart.session import Session

BODY = "ringout: 1\nplugs:\n  radio: {{{about} cavities: {{{rows}}}}}\n"
METERED = ("body", "ohm", "tone", "plus")


def session(folder: Path, *maps: str, about: tuple[str, ...] = ("", "")) -> Session:
    for number, rows in enumerate(maps):
        text = BODY.format(rows=rows, about=about[number])
        (folder / f"m{number}.yaml").write_text(text, encoding="utf-8")
    troubles = Troubles()
    made = Session(read_maps((str(folder),), troubles).maps)
    assert not troubles.refused, [each.message for each in troubles.findings]
    return made


def metered(session: Session) -> set[tuple[str, str]]:
    return {(test.kind, test.where) for test in session.table().tests if test.kind in METERED}


def test_the_same_without_anything_to_keep_off(tmp_path: Path) -> None:
    """The near miss: speaker pairs and grounds are metered and toned."""
    made = session(tmp_path, "1/2: FL, 3: GND", "1/2: FR, 3: empty")

    assert metered(made) == {("ohm", "1/2"), ("tone", "1/2"), ("plus", "1/2"), ("body", "3")}


@pytest.mark.parametrize("what", ["B+", "ACC", "IGN", "ILL", "AMP-ON", "CAN-H", "30", "15", "50", "58"])
def test_a_cavity_that_is_live_or_data_in_one_map(what: str, tmp_path: Path) -> None:
    """Cavity 2: nothing that touches it, while the others stay allowed. Common practice, no source."""
    made = session(tmp_path, "1/2: FL, 3/4: RL, 5: GND", f"1: empty, 2: {what}, 3/4: RR, 5: empty")

    assert metered(made) == {("ohm", "3/4"), ("tone", "3/4"), ("plus", "3/4"), ("body", "5")}


@pytest.mark.parametrize("rows", ["9: SRS+", "9/8: SRS", "9: HV", "9: OPTICAL-IN", "8/9: DIGITAL"])
def test_a_plug_with_restraint_high_voltage_or_light_is_left_alone(rows: str, tmp_path: Path) -> None:
    made = session(tmp_path, "1/2: FL, 3: GND", f"1/2: FR, 3: empty, {rows}")

    assert metered(made) == set()
    assert any(test.kind == "cavity" for test in made.table().tests)


@pytest.mark.parametrize("carries", ["SRS", "HV", "optical", "digital"])
def test_a_plug_that_carries_them_elsewhere(carries: str, tmp_path: Path) -> None:
    made = session(tmp_path, "1/2: FL", "1/2: FR", about=("", f"carries: {carries},"))

    assert metered(made) == set()


def test_a_map_struck_by_a_look_still_forbids(tmp_path: Path) -> None:
    """A colour may be misread; what it struck out may be the car's map after all."""
    made = session(tmp_path, "1/2: FL, 4: SWC RD", "1/2: FR, 4: SWC RD", "1: SRS+, 2: SRS-, 4: SWC BU", about=("",) * 3)
    made.observe(read_observation("cavity 4: RD"))

    assert len(made.standing()) == 2
    assert metered(made) == set()
    assert [(test.kind, test.where) for test, _ in made.forbidden()] == [("tone", "1/2")]


def test_another_plug_forbids_nothing(tmp_path: Path) -> None:
    """Struck by its number of ways it is no map of this plug."""
    made = session(tmp_path, "1/2: FL", "1/2: FR", "1: SRS+, 2: SRS-", about=("ways: 20,", "ways: 20,", "ways: 4,"))
    assert metered(made) == set()
    made.observe(read_observation("ways: 20"))

    assert ("tone", "1/2") in metered(made)


def test_no_tone_toward_a_unit_that_may_be_an_output(tmp_path: Path) -> None:
    """On one map the plug's car side leads to the radio: a tone would go into its output. Ohms stay."""
    made = session(tmp_path, "1/2: FL, 3/4: FR", "1/2: FR, 3: empty, 4: empty", about=("", "car: radio,"))

    assert metered(made) == {("ohm", "1/2"), ("ohm", "3/4")}
