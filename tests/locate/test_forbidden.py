"""No test that is ever proposed joins outputs or touches what must not be touched: on all samples and random plans."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph.wiring import Wiring
from harness.locate import tests as t
from harness.locate.session import Session
from harness.locate.symptoms import read_symptoms, speakers_of
from harness.locate.tests import Test as Probe
from harness.prove import prove
from tests.locate.oracle import read
from tests.locate.plans import random_plan

TOUCHY = {"restraint", "high voltage", "data", "optical", "digital"}
# what opens or bridges something, and so must say first that the power is off
_POWER_OFF = {t.SWAP_IN, t.SWAP_OUT, t.CLIP, t.HOLD, t.OHMS, t.OFF, t.MUTE, t.FUSE}


def _points(test: Probe) -> list[str]:
    return [name.removesuffix("~pin") for name in (test.plus, test.minus) if name]


def _look(wiring: Wiring) -> int:
    """Every test of every silent speaker, alone and all at once; gives how many were looked at."""
    speakers = speakers_of(wiring)
    asked = [[f"{name} silent"] for name in speakers] + ([[f"{' '.join(speakers)} silent"]] if speakers else [])
    number = 0
    for symptoms in asked:
        session = Session(wiring, read_symptoms(wiring, symptoms))
        for test in session.tests:
            number += 1
            for name in _points(test):
                contact = wiring.contact(name)
                assert contact.function.kind not in TOUCHY, (symptoms, test)
                if contact.kind == "plug":
                    carried = {each.upper() for each in wiring.job.parts.plugs[contact.owner].carries}
                    assert not carried & {"SRS", "HV", "OPTICAL"}, (symptoms, test)
            if test.kind == t.CLIP:
                piece = session.circuit.pieces[test.piece]
                ports = {wiring.ports[name] for ends in piece.wires for name in ends if name in wiring.ports}
                outputs = {port for port in ports if port.way == "out"}
                assert len(outputs) <= 1, (symptoms, test)
    return number


@pytest.mark.parametrize("path", sorted((Path(__file__).parents[2] / "samples").glob("*.yaml")), ids=lambda p: p.stem)
def test_samples(path: Path) -> None:
    wiring = prove(path, mends=False).wiring
    assert wiring is not None
    assert _look(wiring) > 0


@pytest.mark.parametrize("first", range(0, 60, 20))
def test_random_plans(first: int) -> None:
    """They have a data pair beside the speakers' own."""
    assert sum(_look(Wiring(read(random_plan(seed).text))) for seed in range(first, first + 20)) > 200


def test_power_off_before_anything_is_opened_or_swapped() -> None:
    """In the words of each test that parts, bridges or exchanges something."""
    from harness.locate.telling import Told

    seen: set[str] = set()
    for seed in range(80):
        wiring = Wiring(read(random_plan(seed).text))
        session = Session(wiring, read_symptoms(wiring, [f"{speakers_of(wiring)[0]} silent"]))
        told = Told(session)
        for test in session.tests:
            if test.kind in _POWER_OFF:
                seen.add(test.kind)
                words = f"{told.do(test)} {told.caution(test)}".lower()
                assert "off" in words, (test.kind, words)
    assert {t.SWAP_IN, t.CLIP} <= seen
