"""What was written, looked up: the last record counts, by its contacts or its name, and none that no longer holds."""

from __future__ import annotations

from pathlib import Path

from harness.planning.written import Written
from tests.session.hazel import hazel

FL = ("dash.car.1", "dash.car.7")


def written(folder: Path, *records: str) -> Written:
    wiring = hazel(folder, *records).wiring
    assert wiring is not None
    return Written(wiring)


def test_ohms_with_a_tone_or_alone_the_later_counts(tmp_path: Path) -> None:
    tone, ohm = (
        "tone: dash.car.1/7, charted: FL, heard: FL, plus: 1, reads: 3.4 ohm",
        "ohm: dash.car.7/1, reads: 3.6 ohm",
    )
    assert written(tmp_path, tone).reads(*FL) == "3.4 ohm"
    assert written(tmp_path, tone, ohm).reads(*FL) == "3.6 ohm"
    assert written(tmp_path, ohm, tone).reads(*reversed(FL)) == "3.4 ohm"
    # one without ohms takes none back, nor does one of another pair, or from the radio's half of the plug
    assert written(tmp_path, ohm, "tone: dash.car.1/7, charted: FL, heard: FL, plus: 1").reads(*FL) == "3.6 ohm"
    assert written(tmp_path, ohm, "ohm: dash.car.2/8, reads: 9 ohm").reads(*FL) == "3.6 ohm"
    assert written(tmp_path).reads(*FL) == ""


def test_to_the_body(tmp_path: Path) -> None:
    assert written(tmp_path, "ohm: dash.car.1/7, reads: 3.4 ohm, body: open").body(*FL) == "open"
    assert written(tmp_path, "ohm: dash.car.7, reads: 0.5 ohm").body(*FL) == "7: 0.5 ohm"
    assert written(tmp_path, "ohm: dash.car.7, reads: open").body(*FL) == ""


def test_a_later_reading_without_a_body_takes_none_back(tmp_path: Path) -> None:
    """An output's leads: read with its body, then read again across the two alone."""
    first = "ohm: amp.out1, reads: 3.4 ohm, body: open, unplugged: amp"
    found = written(tmp_path, first, "ohm: amp.out1, reads: 3.6 ohm, unplugged: amp")
    assert found.body("amp.out1+", "amp.out1-") == "open"
    assert found.reads("amp.out1+", "amp.out1-") == "3.6 ohm"
    # wire by wire the last one counts
    assert written(tmp_path, first, "ohm: amp.out1-, reads: 2 ohm").body("amp.out1+", "amp.out1-") == (
        "out1+: open, out1-: 2 ohm"
    )


def test_the_radios_half_of_a_plug_is_not_the_cars(tmp_path: Path) -> None:
    assert written(tmp_path, "ohm: dash.unit.1/7, reads: 3.4 ohm, body: open").reads(*FL) == ""


def test_by_name_in_a_state_of_the_key(tmp_path: Path) -> None:
    found = written(
        tmp_path, "volts: amp.rem, reads: 11 V, key: run", "volts: amp.rem, reads: 0.1 V, key: out",
        "before: Hands-Free, result: works",
    )  # fmt: skip
    run, last = (
        found.of("volts", "amp.rem", "run"),
        found.of("volts", "AMP.REM"),
    )
    assert run is not None
    assert run.word("reads") == "11 V"
    assert last is not None
    assert last.word("reads") == "0.1 V"
    assert found.of("before", "hands-free") is not None
    assert found.of("volts", "amp.rem", "crank") is None
    assert found.of("after", "hands-free") is None


def test_what_no_longer_holds_is_not_there(tmp_path: Path) -> None:
    """The row says white, the record rests on grey; another car's proves nothing of this one."""
    assert written(tmp_path, "ohm: dash.car.1/7, reads: 3.4 ohm, fact: 1 FL+ GY").reads(*FL) == ""
    assert written(tmp_path, "ohm: dash.car.1/7, reads: 3.4 ohm, car: Larch estate 2022").reads(*FL) == ""
