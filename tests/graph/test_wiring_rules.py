"""What there is to look at in a job, and small rules of wires and joints: each by one line written into a bare job."""

from __future__ import annotations

from pathlib import Path

from harness.graph import joined, meeting, pairs, polarity, wire_class, years
from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.read.job import read_job
from harness.read.troubles import Troubles

BASE = """\
ringout: 1
title: Bare
car: {name: Bench hatch, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 8, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: FL WH WH/BK, 3: ACC RD, 4: unknown BU}
looms:
  T1: {ends: {unit: 8-way, car: 8-way}, leads: {1/2: FL WH WH/BK, car.3: ACC RD}}
units:
  radio: {kind: radio, outputs: {FL: btl 8 V}}
  amp: {kind: amplifier, inputs: {in1..2: 2..20 V}, outputs: {out1..2: 50 W}}
speakers:
  FL: {nominal: 4 ohm}
"""
AMP, RADIO, FL = "outputs: {out1..2: 50 W}", "outputs: {FL: btl 8 V}", "FL: {nominal: 4 ohm}"


def wiring_of(folder: Path, text: str = BASE, *records: str) -> Wiring:
    path, troubles = folder / "job.yaml", Troubles()
    path.write_text(text, encoding="utf-8")
    path.with_name("job.evidence.yaml").write_text("".join(f"- {{{each}}}\n" for each in records), encoding="utf-8")
    made = read_job(path, troubles)
    assert made is not None, troubles.findings
    assert not troubles.refused, troubles.findings
    return Wiring(made)


def test_what_there_is_to_look_at(tmp_path: Path) -> None:
    """Beside the kinds of functions that its contacts have: of the bare job nothing, of each line what it writes."""
    kinds = {"audio", "switched", "unknown", "port", "terminal", "battery", "ground", "chassis", "trigger", "other"}
    assert wiring_of(tmp_path).facts - kinds == set()
    for old, new, facts in (
        ("speakers:", "runs:\n  - amp.GND > 1 ft 8 AWG > amp.B+\nspeakers:", {"runs"}),
        ("speakers:", "features:\n  horn: radio > spk.FL\nspeakers:", {"features"}),
        ("speakers:", "grounds: {G1: {place: floor, metal: bare}}\nspeakers:", {"grounds"}),
        ("speakers:", "found: [dash.FL > spk.FL]\nspeakers:", {"found chains"}),
        ("steering: left", "steering: left, year: 2021", {"year"}),
        ("steering: left", "steering: left, drive: hybrid", {"drive"}),
        ("steering: left", "steering: left, orange: [left sill]", {"orange"}),
        ("steering: left", "steering: left, fitted: [stop-start]", {"fitted"}),
        (", steering: left", "", {"no steering"}),
        ("steering: left", "steering: unknown", {"no steering"}),
        ("car: {name: Bench hatch, steering: left}\n", "", {"no steering"}),
        ("steering: left", "steering: right", set()),
        ("place: behind the radio", "carries: SRS", {"restraint"}),
        ("place: behind the radio", "carries: optical", {"optical"}),
        ("place: behind the radio", "carries: HV", {"orange"}),
        ("  amp:", "  k1: {kind: relay}\n  amp:", {"relay"}),
        ("  amp:", "  k1: {kind: factory amplifier}\n  amp:", {"factory amplifier"}),
        (AMP, f"{AMP}, set: {{gain out1: 0 dB}}", {"settings"}),
        (AMP, f"{AMP}, bridges: out1+/out2-", {"bridges"}),
        (AMP, f"{AMP}, routes: {{out1: in1 + in2}}", {"sums"}),
        (AMP, f"{AMP}, routes: {{out1: in1, out2: in2}}", set()),
        (FL, "FL: {nominal: 4 ohm, inverted: factory}", {"inverted"}),
        (FL, "FL: {coils: 2 x 4 ohm series}", {"coils"}),
        (FL, "FL: {nominal: 4 ohm, new: {nominal: 4 ohm}}", {"new speakers"}),
    ):  # fmt: skip
        assert old in BASE
        assert wiring_of(tmp_path, BASE.replace(old, new, 1)).facts - kinds == facts, new
    for record, facts in (
        ("tone: dash.car.1/2, heard: FL", {"tones", "readings", "tone records"}),
        ("tone: dash.car.5/6, heard: FL", {"tones", "readings", "tone records"}),
        ("ohm: dash.car.1/2, reads: 3 ohm", {"readings", "ohm records"}),
        ("volts: dash.car.3, reads: 3 V, tool: Test LAMP", {"volts records", "lamp"}),
        ("seen: amp", {"seen records"}), ("seen: amp, car: Larch van", set()),
        ("ohm: dash.car.1/2, car: Larch van", set()),
    ):  # fmt: skip
        assert wiring_of(tmp_path, BASE, record).facts - kinds == facts | {"records"}, record
    by_steps = wiring_of(tmp_path)
    by_steps.by_steps = True
    assert by_steps.facts - kinds == {"steps"}


def test_pairs_by_their_functions(tmp_path: Path) -> None:
    """A + and a − of one channel, wherever they stand; one of them alone is no pair, nor are two feeds."""
    for cavities, found in (
        ("1/2: FL WH WH/BK", [("1", "2")]), ("1: FL- WH", []), ("1: FL+ WH", []),
        ("1: FL- WH, 4: FL+ BK", [("4", "1")]),
        ("1/2: FL WH WH/BK, 3/4: FL GY GY/BK", [("1", "2")]), ("1/2: in1 WH WH/BK", [("1", "2")]),
        ("1/2: CAN WH WH/BK", []), ("1: FL+ WH, 2: FR- BK", []),
    ):  # fmt: skip
        text = BASE.replace("1/2: FL WH WH/BK, 3: ACC RD, 4: unknown BU", cavities)
        made = pairs.pairs_of(wiring_of(tmp_path, text), "dash")
        assert [(plus.cavity, minus.cavity) for plus, minus in made] == found, cavities


def test_what_is_a_feed(tmp_path: Path) -> None:
    """B+ and ACC, the + of a battery; no other terminal, no relay's 30, nothing of which nobody says."""
    text = BASE.replace(
        "  amp:",
        "  aux: {kind: battery}\n  eye: {kind: interface, terminals: [ACC, line]}\n  k1: {kind: relay}\n  amp:",
    )
    wiring = wiring_of(tmp_path, text)
    names = (
        "aux.+",
        "eye.line",
        "eye.B+",
        "eye.ACC",
        "k1.30",
        "dash.car.3",
        "dash.car.4",
        "amp.GND",
        "amp.B+",
        "T1.car.3",
    )
    found = [name for name in names if name in wiring.job.contacts and meeting.is_feed(wiring, wiring.contact(name))]
    assert found == ["aux.+", "eye.B+", "eye.ACC", "dash.car.3", "amp.B+", "T1.car.3"]
    assert [name for name in names if name not in wiring.job.contacts] == []


def test_what_we_made_at_a_contact(tmp_path: Path) -> None:
    """A joint or a run of ours, with its fuse; not the car's fuse as found, nor the loom plugged in."""
    text = BASE.replace("speakers:", "found: [dash.3 > fuse 10 A > battery.+]\nspeakers:")
    text += "joints:\n  mate: {T1: dash}\n  solder: {T1.car.3: amp.B+, T1.unit.FL: amp.in1}\n"
    wiring = wiring_of(tmp_path, text)
    for name, count in (
        ("dash.car.3", 0), ("T1.car.3", 1), ("amp.B+", 1), ("T1.unit.1", 1), ("amp.in1-", 1), ("T1.car.1", 0),
        ("spk.FL+", 0),
    ):  # fmt: skip
        assert len(joined.made_at(wiring, name)) == count, name


def test_where_a_way_is_turned(tmp_path: Path) -> None:
    """By a route that inverts, and by the wire behind it; twice is no fault, but both are told."""
    for route, behind, turns in (
        ("in1", "", []), ("in1 inverted", "", ["amp.in1+ amp.out1+"]), ("in1", " reversed", ["amp.out1+ spk.FL-"]),
        ("in1 inverted", " reversed", ["amp.in1+ amp.out1+", "amp.out1+ spk.FL-"]),
    ):  # fmt: skip
        text = BASE.replace(AMP, f"{AMP}, routes: {{out1: {route}}}").replace("    unit: radio\n", "")
        text += f"joints:\n  solder:\n    radio.FL: amp.in1\n    amp.out1: spk.FL{behind}\n"
        wiring = wiring_of(tmp_path, text)
        receiver = next(each for each in wiring.signals.speaker_receivers if each.name == "spk.FL")
        (way,) = wiring.signals.ways(receiver)
        made = polarity.way_turns(wiring, way)
        assert [f"{each.before} {each.after}" for each in made] == turns, (route, behind)


def test_the_wire_that_a_joint_is_made_on(tmp_path: Path) -> None:
    """The car's own wire before a loom's, a terminal where the method is made there; what it carries by either end."""
    for method, links, where, what in (
        ("solder", "dash.1: T1.car.1", "factory", "audio"), ("solder", "T1.car.1: T1.unit.2", "loom", "audio"),
        ("solder", "T1.car.3: amp.B+", "loom", "power"), ("solder", "amp.B+: radio.B+", "terminal", "power"),
        ("solder", "dash.3: amp.in1+", "factory", "power"), ("solder", "amp.GND: T1.car.1", "loom", "audio"),
        ("screw", "T1.car.3: amp.B+", "terminal", "power"), ("screw", "T1.car.1: T1.unit.2", "loom", "audio"),
        ("solder", "dash.4: amp.rem", "factory", "signal"),
    ):  # fmt: skip
        wiring = wiring_of(tmp_path, BASE + f"joints:\n  {method}: {{{links}}}\n")
        assert wire_class.wire_class(wiring, wiring.job.joints[0], methods()[method]) == (where, what), links


def test_years_of_a_chart(tmp_path: Path) -> None:
    """Both ends count, in either order; without the car's year no chart is judged."""
    for covers, year, holds in (
        ("2020..2023", 2020, True), ("2020..2023", 2023, True), ("2020..2023", 2019, False), ("2023..2020", 2021, True),
        ("2021", 2021, True), ("2021", 2022, False),
    ):  # fmt: skip
        assert years.covered(covers, year) is holds, (covers, year)
    chart = BASE.replace("    cavities:", "    source: {chart: sheet 1, covers: 2020..2023}\n    cavities:")
    for car, unjudged in (
        ("steering: left, year: 2021", []), ("steering: left", ["dash"]), ("steering: left, year: unknown", ["dash"]),
    ):  # fmt: skip
        assert years.unjudged(wiring_of(tmp_path, chart.replace("steering: left", car))) == unjudged, car
    assert years.unjudged(wiring_of(tmp_path, chart.replace("car: {name: Bench hatch, steering: left}\n", ""))) == [
        "dash"
    ]
    assert years.unjudged(wiring_of(tmp_path)) == []
