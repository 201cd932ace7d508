"""A wrong partner by a meter: worked by hand."""

from __future__ import annotations

from harness.patterns.chart import Chart, Pair, corrected
from harness.patterns.face import Face
from harness.patterns.ohms import Ohms, partners

FACE = Face((tuple("12345678"),))
CHART = Chart(FACE, (Pair("FL", "3", "4"), Pair("FR", "1", "2")), {"7": "empty"})


def test_open_as_charted_and_a_speaker_with_another() -> None:
    """3/4 is open and 3/7 reads 3.5 ohm: the pair is 3 and 7. 4 ohm nominal reads 3.1 to 4.0 (a retailer's table)."""
    (found,) = partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 3.5)])
    assert (found.pair.name, found.kept, found.wrong, found.partner, found.ohm) == ("FL", "3", "4", "7", 3.5)
    made = corrected(CHART, found.reading)
    assert made is not None
    assert [(pair.name, pair.plus, pair.minus) for pair in made.pairs] == [("FL", "3", "7"), ("FR", "1", "2")]


def test_the_other_wire_may_be_the_right_one() -> None:
    (found,) = partners(CHART, [Ohms("7", "4", 3.5), Ohms("4", "3", None)])
    assert (found.kept, found.wrong, found.partner) == ("4", "3", "7")


def test_what_is_no_such_thing() -> None:
    """The charted pair reads; 2.2 kohm is no speaker; two partners are a short; nobody read the charted pair."""
    assert not partners(CHART, [Ohms("3", "4", 3.5), Ohms("3", "7", 3.5)])
    assert not partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 2200.0)])
    assert not partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 3.5), Ohms("3", "8", 3.5)])
    assert not partners(CHART, [Ohms("3", "7", 3.5)])


def test_read_again_the_last_counts() -> None:
    assert not partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 3.5), Ohms("4", "3", 3.4)])
