"""Maps as text: the best tree and the shortest set against every tree and every set there is."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from harness.read.maps import read_maps
from harness.read.troubles import Troubles
from harness.telling_apart.session import Observation, Session
from tests.telling_apart.oracle import SECONDS, Cases
from tests.telling_apart.writing import some_maps


def session_of(folder: Path) -> Session:
    troubles = Troubles()
    maps = read_maps((str(folder),), troubles)
    assert not troubles.refused, [each.message for each in troubles.findings]
    return Session(maps.maps)


@pytest.mark.parametrize("seed", range(300))
def test_best_tree_and_shortest_set(seed: int, tmp_path: Path) -> None:
    """Two to five maps of up to five cavities; the oracle reads the text itself."""
    dice = random.Random(seed)
    paths = some_maps(dice, tmp_path, dice.randint(2, 5), dice.randint(2, 5))
    cases = Cases(paths)
    table = session_of(tmp_path).table()

    assert {(test.kind, test.where) for test in table.tests} == {(kind, where) for kind, where in cases.tests}
    assert all(test.seconds == SECONDS[test.kind] for test in table.tests)
    assert table.plan.exact
    assert table.plan.mean == pytest.approx(float(cases.best_tree()))
    assert table.cover is not None
    assert table.cover.proved
    assert table.cover.cost == cases.least_set()


@pytest.mark.parametrize("seed", range(60))
def test_the_true_map_is_never_struck(seed: int, tmp_path: Path) -> None:
    """A car like one of the maps answers what that map says: it stands at the end, and what fell was contradicted."""
    dice = random.Random(seed)
    paths = some_maps(dice, tmp_path, dice.randint(2, 9), 6)
    # a map that is another plug by its housing forbids nothing any more, so that tests may come to be allowed
    cases = Cases(paths, limits=False)
    session = session_of(tmp_path)
    true = dice.randrange(len(paths))
    car = {test: dice.choice(sorted(cases.could[at][true])) for at, test in enumerate(cases.tests)}
    words = {"": "empty", "something that no map names": "other"}
    standing = set(cases.everything)
    for _ in range(40):
        table = session.table()
        if table.next is None:
            break
        test = (table.next.test.kind, table.next.test.where)
        answer = car[test]
        session.observe(Observation(table.next.test, words.get(answer, answer)))
        standing = {at for at in standing if answer in cases.could[cases.tests.index(test)][at]}
        assert [session.facts.index(each) for each in session.standing()] == sorted(standing)
    else:
        pytest.fail("it never ends")

    assert true in standing
    open_ = {(test.kind, test.where) for test in session.table().tests}
    for at, test in enumerate(cases.tests):  # nothing that is left would have told for certain
        assert test not in open_ or standing in cases.left(at, frozenset(standing))
