"""Charts that tones or looks for + speak against, and what is left open: read off one row of cavities by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import misread
from tests.graph.test_charts_read import COLOURS, ROW
from tests.graph.test_contrary_rules import recorded

JOB = ROW.replace("ROWS", "1").replace("COLUMNS", "8").replace("CAVITIES", COLOURS)
FIRST = "tone: dash.car.1/2, heard: FL, plus: 2"
OTHERS = tuple(
    f"tone: dash.car.{at}/{at + 1}, heard: {who}, plus: {at}" for at, who in ((3, "FR"), (5, "RL"), (7, "RR"))
)


def told(folder: Path, *records: str, job: str = JOB) -> list[tuple[str, str, list[int], bool]]:
    made = misread.misread(recorded(folder, *records, job=job))
    return [
        (each.plug.name, each.code, [record.place.line for record in each.records], each.radio_unread) for each in made
    ]


@pytest.mark.parametrize(
    ("records", "found"),
    [
        # + on the other wire: the chart, or the speaker. Nobody looked at the radio's side: nothing is said here
        ((FIRST, *OTHERS), []),
        # at the radio's side it is on the other one too: the chart is wrong
        ((FIRST, *OTHERS, "polarity: dash.unit.1/2, plus: 2"), [("dash", "A24", [1], False)]),
        # there it is as charted: the speaker is turned, and that is no fault of the chart
        ((FIRST, *OTHERS, "polarity: dash.unit.1/2, plus: 1"), []),
        # of another plug's pair it says nothing for this one
        (("tone: other.car.9/10, heard: C, plus: 10", FIRST, *OTHERS, "polarity: other.unit.9/10, plus: 9"), []),
        # two pairs: one read at the radio's side, one not
        (
            (FIRST, OTHERS[0].replace("plus: 3", "plus: 4"), *OTHERS[1:], "polarity: dash.unit.1/2, plus: 2"),
            [("dash", "A24", [1], False)],
        ),
    ],
)
def test_a_plus_alone_against_a_chart(
    records: tuple[str, ...], found: list[tuple[str, str, list[int], bool]], tmp_path: Path
) -> None:
    assert told(tmp_path, *records) == found


def test_a_turned_speaker_without_a_look_for_plus(tmp_path: Path) -> None:
    """Its + is on the wire charted −: a + found there is as the car was made, and where none was looked for none is."""
    job = JOB + "found:\n  - dash.FL > spk.FL reversed\n"
    assert told(tmp_path, "tone: dash.car.2/1, heard: FL", *OTHERS, job=job) == []
    assert told(tmp_path, "tone: dash.car.1/2, heard: FL", *OTHERS, job=job) == []
    assert told(tmp_path, FIRST, *OTHERS, job=job) == []


def test_an_inline_plug_has_no_chart_to_be_wrong(tmp_path: Path) -> None:
    """A tone taken at it stands before one at the dash, which is still told; a word that is none is nobody's there."""
    job = JOB + "inline: {C9: sill}\nfound:\n  - dash.FL > C9.1/2 > spk.FL\n"
    wiring = recorded(tmp_path, "tone: C9.car.1/2, heard: FR", "tone: dash.car.1/2, heard: RL", job=job)
    assert [each.plug.name for each in misread.misread(wiring)] == ["dash"]
    wiring = recorded(tmp_path, "tone: C9.car.1/2, heard: shelf", "tone: dash.car.1/2, heard: shelf", job=job)
    assert [each.record.place.line for each in misread.unheard(wiring)] == [2]
