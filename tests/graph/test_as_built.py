"""What was built against the plan, contact by contact; the plan read by hand off the job's text."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph.as_built import as_built
from harness.graph.built_so import built_so
from tests.graph.test_contrary_rules import JOB, recorded
from tests.session.hazel import hazel


def differing(folder: Path, *records: str) -> tuple[list[tuple[tuple[str, ...], str]], int]:
    """The contacts that differ with the plan's words, and how many records can't be compared."""
    wiring = hazel(folder, *records).wiring
    assert wiring is not None
    odd, unread = as_built(wiring)
    return [(each.contacts, each.planned) for each in odd], len(unread)


# in the job: T1.aerial capped, T1.car.FL joined to amp.out1, dash.3/9 and 10 through T1, T1.unit.4 to amp.rem
@pytest.mark.parametrize(
    "record",
    [
        "built: T1.aerial, is: capped", "built: T1.aerial, is: cap", "built: T1.car.FL, is: amp.out1",
        "built: T1.car.1/7, is: amp.out1", "built: T1.unit.4, is: amp.rem", "built: dash.car.1, is: intercepted",
        "built: dash.car.10, is: passed", "built: amp.B+, is: battery.+", "built: T1.unit.4, is: as planned",
        "built: T1.car.1, is: used", "built: T1.car.1, is: 'used, amp.out1+'",
    ],
)  # fmt: skip
def test_as_planned(record: str, tmp_path: Path) -> None:
    assert differing(tmp_path, record) == ([], 0)


@pytest.mark.parametrize(
    ("record", "contacts", "planned"),
    [
        ("built: T1.aerial, is: used", ("T1.aerial",), "capped"),
        ("built: T1.car.FL, is: amp.out2", ("T1.car.1", "T1.car.7"), "joined to amp out1+"),
        ("built: T1.car.1, is: amp.out1-", ("T1.car.1",), "joined to amp out1+"),
        ("built: T1.unit.4, is: capped", ("T1.unit.4",), "joined to amp rem"),
        ("built: dash.car.10, is: tapped", ("dash.car.10",), "passed"),
        ("built: T1.car.1, is: 'capped, amp.out1+'", ("T1.car.1",), "joined to amp out1+"),
    ],
)
def test_otherwise(record: str, contacts: tuple[str, ...], planned: str, tmp_path: Path) -> None:
    found, unread = differing(tmp_path, record)
    assert unread == 0
    assert [each for each, _ in found] == [contacts]
    assert planned.replace("+", "") in found[0][1].replace("+", "")


def test_the_last_record_of_a_contact_counts(tmp_path: Path) -> None:
    first, then = "built: T1.aerial, is: used", "built: T1.aerial, is: capped"
    assert differing(tmp_path, first, then) == ([], 0)
    assert [each for each, _ in differing(tmp_path, then, first)[0]] == [("T1.aerial",)]
    # of a pair that was made otherwise, one wire was put right since
    pair, one = "built: T1.car.FL, is: amp.out2", "built: T1.car.1, is: amp.out1+"
    assert [each for each, _ in differing(tmp_path, pair, one)[0]] == [("T1.car.7",)]


@pytest.mark.parametrize("words", ["", ", is: nicely done", ", is: amp.out9"])
def test_words_that_cannot_be_compared(words: str, tmp_path: Path) -> None:
    assert differing(tmp_path, f"built: T1.aerial{words}") == ([], 1)


@pytest.mark.parametrize(
    ("records", "lines", "joined", "parted"),
    [
        # as planned, or a fate alone, which says of nothing that it is joined
        (("built: dash.car.1/2, is: amp.out1",), [], (), ()),
        (("built: dash.car.1/2, is: capped",), [], (), ()),
        # to another output: what was planned there is gone, and every other joint stays
        (
            ("built: dash.car.1/2, is: amp.out2",), [1],
            ("dash.car.1 amp.out2+", "dash.car.2 amp.out2-", "dash.car.3 amp.out2+"),
            ("dash.car.1 amp.out1+", "dash.car.2 amp.out1-"),
        ),
        # turned round
        (
            ("built: dash.car.1/2, is: reversed",), [1],
            ("dash.car.1 amp.out1-", "dash.car.2 amp.out1+", "dash.car.3 amp.out2+"), ("dash.car.1 amp.out1+",),
        ),
        # both in one car
        (
            ("built: dash.car.1/2, is: reversed", "built: dash.car.3, is: amp.in2+"), [2, 1],
            ("dash.car.1 amp.out1-", "dash.car.3 amp.in2+", "dash.car.4 amp.out2-"), ("dash.car.3 amp.out2+",),
        ),
        # what was to be capped
        (("built: T1.unit.1, is: amp.in2+",), [1], ("T1.unit.1 amp.in2+",), ()),
    ],
)  # fmt: skip
def test_the_car_as_it_was_built(
    records: tuple[str, ...], lines: list[int], joined: tuple[str, ...], parted: tuple[str, ...], tmp_path: Path
) -> None:
    made = built_so(recorded(tmp_path, *records, job=JOB + "capped: [T1.unit.1, T1.unit.2]\n"))
    assert [each.record.place.line for each, _ in made] == lines
    for _, wiring in made:
        assert all(wiring.planned.joined(*each.split()) for each in joined)
        assert not any(wiring.planned.joined(*each.split()) for each in parted)
        capped = {"T1.unit.1", "T1.unit.2"} - {name for each in joined for name in each.split()}
        assert set(wiring.job.capped) == capped
