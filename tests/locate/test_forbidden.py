"""No test touches what must not be touched, and none joins two wires: on samples, random jobs and jobs made for it.

What the contacts are and what meets what is read from the text a second time, by `tests.graph.oracle`, for random jobs;
for the others from what the reader gives.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from harness.graph.wiring import Wiring
from harness.locate.session import Session
from harness.locate.symptoms import STAYS_ON, WORDS, Unreadable, read_symptoms, speakers_of, waking_units
from harness.prove import prove, prove_text
from tests.conftest import Wired
from tests.graph.oracle import Reading
from tests.graph.random_jobs import random_job
from tests.locate.oracle import Car, World, read
from tests.locate.plans import random_plan

# The functions that are never probed, parted or bridged (trade notes: restraint wiring is never probed, a data wire is
# never pierced, orange cables are never touched; common practice, no source).
NEVER = ("SRS", "SRS+", "SRS-", "HV", "CAN-H", "CAN-L", "DIGITAL+", "DIGITAL-", "OPTICAL-IN", "OPTICAL-OUT")
SAMPLES = ("estate-bus-amplifier", "hatch-plug-in", "hatch-solder-in", "saloon-fifteen-faults", "van-odd-but-right")


def sessions(wiring: Wiring) -> Iterator[Session]:
    """A search for every symptom of every speaker and unit."""
    texts = [f"{name} {word}" for name in speakers_of(wiring) for word in WORDS if word != STAYS_ON]
    texts += [f"{name} {STAYS_ON}" for name in waking_units(wiring)]
    texts += [f"{name} silent" for name in wiring.job.parts.units]
    for text in texts:
        try:
            symptoms = read_symptoms(wiring, [text])
        except Unreadable:
            continue
        yield Session(wiring, symptoms)


def touched(session: Session) -> Iterator[tuple[str, list[str]]]:
    """Each test with all contacts that a hand or a probe comes to."""
    for test in session.tests:
        contacts = [test.plus, test.minus]
        if test.piece >= 0 and test.kind == "clip":
            contacts += [end for wire in session.circuit.pieces[test.piece].wires for end in wire]
        if test.partner >= 0:
            leg = session.circuit.legs[test.partner]
            contacts += [*leg.start] if test.kind == "swap out" else [leg.steps[-1].plus, leg.steps[-1].minus]
        yield test.kind, [name.removesuffix("~pin") for name in contacts if name]


@pytest.mark.parametrize("sample", SAMPLES)
def test_samples(sample: str, root: Path) -> None:
    wiring = prove(root / "samples" / f"{sample}.yaml", mends=False).wiring
    assert wiring is not None
    contacts = wiring.job.contacts
    looked = 0
    for session in sessions(wiring):
        for kind, names in touched(session):
            looked += 1
            assert [name for name in names if contacts[name].function.name in NEVER] == [], kind
            if kind == "clip":
                fuses = [each for each in wiring.job.segments if each.kind == "fuse"]
                assert not any({each.a, each.b} <= set(names) for each in fuses)
    assert looked > 100


@pytest.mark.parametrize("first", range(0, 120, 20))
def test_random_jobs(first: int) -> None:
    """Legal jobs that make no sense: data joined to speakers, outputs joined to anything."""
    looked = 0
    for seed in range(first, first + 20):
        text = random_job(seed)
        wiring = prove_text(text, "job.yaml").wiring
        assert wiring is not None
        reading = Reading(text)
        function = {
            f"{plug}.{half}.{cavity}": has
            for plug, rows in reading.cavities.items()
            for cavity, has in rows.items()
            for half in ("unit", "car")
        }
        # what meets the body is ground, and may be measured
        nets = [net for net in reading.as_planned().nets if "chassis" not in net]
        bad = {name for net in nets if any(function.get(each) in NEVER for each in net) for name in net}
        net_of = {name: number for number, net in enumerate(nets) for name in net}
        for session in sessions(wiring):
            for kind, names in touched(session):
                looked += 1
                assert not bad & set(names), f"seed {seed}: {kind} at {sorted(bad & set(names))}"
                if kind == "clip":  # every wire of the clips bridges one net of the plan
                    for test in session.tests:
                        for a, b in session.circuit.pieces[test.piece].wires if test.kind == "clip" else ():
                            ends = [end.removesuffix("~pin") for end in (a, b) if not end.startswith("run.")]
                            assert len({net_of.get(end, -1) for end in ends}) == 1
                    break
    assert looked > 0


@pytest.mark.parametrize("seed", range(0, 200, 5))
def test_ohms_never_meet_an_output(seed: int) -> None:
    """With the plug parted that the test parts, no output is on the side that is measured. By flooding the car."""
    text = random_plan(seed).text
    car = Car(read(text))
    wiring = prove_text(text, "job.yaml").wiring
    assert wiring is not None
    measured = 0
    for name in speakers_of(wiring):
        session = Session(wiring, read_symptoms(wiring, [f"{name} silent"]))
        for test in session.tests:
            if test.kind != "ohms" or test.at == 0:
                continue  # at 0 the leads are taken off the output itself
            measured += 1
            parted = [ends for ends, kind in car.kind.items() if kind in ("plug", "mated") and test.plus in ends]
            world = World(car, (), without=parted)
            assert not any(world.joined(out, test.plus) for out, *_ in car.outputs.values())
    assert measured > 0 or "C" not in text.partition("inline:")[2][:6]


CAR = """
    plugs:
      dash:
        unit: radio
        cavities:
          1/2: FL WH WH/BK
          3/4: FR GY GY/BK
          5/6: CAN OG/GN OG/BN
      kick:
        place: left kick panel
        CARRIES
        cavities:
          1/2: FL WH WH/BK
          3/4: FR GY GY/BK
          ROW
    units:
      radio: {kind: radio, outputs: {FL FR: btl 8 V}}
    speakers: {FL FR: {place: front doors, nominal: 4 ohm}}
    found:
      - dash.FL > kick.unit.FL
      - dash.FR > kick.unit.FR
      - kick.car.FL > spk.FL
      - kick.car.FR > spk.FR
"""


@pytest.mark.parametrize(
    ("carries", "row", "allowed"),
    [
        ("housing: 6-way", "5: ILL OG", True),
        ("carries: [SRS]", "5: ILL OG", False),
        ("carries: [HV]", "5: ILL OG", False),
        ("housing: 6-way", "5/6: SRS YE YE/BK", False),
        ("carries: [optical]", "5: ILL OG", False),
    ],
)
def test_a_plug_with_restraint_high_voltage_or_light_is_left_alone(
    carries: str, row: str, allowed: bool, wired: Wired
) -> None:
    """The same plug with and without: it is got at only without."""
    wiring = wired(CAR.replace("CARRIES", carries).replace("ROW", row))
    session = Session(wiring, read_symptoms(wiring, ["FL silent"]))
    places = {name.partition(".")[0] for _, names in touched(session) for name in names}

    assert ("kick" in places) is allowed
    assert "dash" in places


def test_nothing_is_done_where_orange_cables_lie(wired: Wired) -> None:
    plain = CAR.replace("CARRIES", "housing: 6-way").replace("ROW", "5: ILL OG")
    orange = plain + "\n    car: {name: Test, steering: left, orange: [left kick panel]}\n"
    found = []
    for body in (plain, orange):
        wiring = wired(body)
        session = Session(wiring, read_symptoms(wiring, ["FL silent"]))
        found.append({name.partition(".")[0] for _, names in touched(session) for name in names})

    assert "kick" in found[0]
    assert "kick" not in found[1]


def test_a_plan_with_a_stop_is_not_powered(root: Path) -> None:
    """Only ohms and fuses, with the key off."""
    wiring = prove(root / "samples" / "saloon-fifteen-faults.yaml", mends=False).wiring
    assert wiring is not None
    session = Session(wiring, read_symptoms(wiring, ["SUB silent"]), power=False)

    assert session.tests
    assert {test.kind for test in session.tests} <= {"ohms", "fuse"}
