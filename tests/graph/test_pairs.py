"""Pairs in use and what was found of them: each rule by one record on one small job, read off by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import pairs, plus_side, toned
from harness.graph.drivers import Named
from harness.graph.wiring import Wiring
from harness.model.job import Tone
from harness.place import Place
from tests.graph.test_contrary_rules import JOB, recorded

# FL and FR are cut, RL and RR pass; FR's speaker sits behind a capacitor. `boot` stands before the dash and is not used
TURNED = JOB.replace("grounds:", "found: [dash.RL > spk.RL reversed]\ngrounds:")


def state(wiring: Wiring) -> list[tuple[str, str, str, str]]:
    return [(each.name, each.state, each.contrary, pairs.contradicted(each)) for each in pairs.used_pairs(wiring)]


@pytest.mark.parametrize(
    ("records", "first"),
    [
        ((), ("charted", "", "")),
        (("ohm: dash.car.1/2, reads: 3 ohm",), ("measured", "", "")),
        (("ohm: dash.car.1/3, reads: 3 ohm",), ("charted", "", "")),
        (("tone: dash.car.1/2, charted: FL, heard: FL",), ("toned", "", "")),
        (("tone: dash.car.1/2, charted: FL, heard: FL, plus: 1",), ("toned", "", "")),
        # heard alone, where the chart was corrected to it since
        (("tone: dash.car.1/2, charted: RL, heard: FL",), ("toned", "", "")),
        (
            ("tone: dash.car.1/2, charted: FL, heard: RL",),
            ("measured", "charted FL, heard RL", "contradicted: RL heard"),
        ),
        (
            ("tone: dash.car.1/2, charted: FL, heard: none",),
            ("measured", "charted FL, heard none", "contradicted: nothing heard"),
        ),
        (
            ("tone: dash.car.1/2, charted: FL, heard: FL, plus: 2",),
            ("measured", "charted + 1, found + 2", "contradicted: + on 2"),
        ),
        (
            ("ohm: dash.car.1/2, reads: 3 ohm", "tone: dash.car.1/2, charted: FL, heard: RL"),
            ("measured", "charted FL, heard RL", "contradicted: RL heard"),
        ),
        # a look for + reads no ohms
        (("polarity: dash.car.1/2, plus: 1",), ("charted", "", "")),
        (("polarity: dash.car.1/2, plus: 2",), ("charted", "charted + 1, found + 2", "contradicted: + on 2")),
        # another channel beside its own: a pair that is joined to another one
        (
            ("tone: dash.car.1/2, charted: FL, heard: FL RL",),
            ("measured", "charted FL, heard FL RL", "contradicted: FL RL heard"),
        ),
        (("tone: dash.car.1/2, charted: FL, heard: FL hum",), ("toned", "", "")),
        (
            ("tone: dash.car.1/2, charted: FL",),
            ("measured", "no speaker answered", "contradicted: nothing heard"),
        ),
        # a word that names no channel is no other speaker; the + counts before what was heard besides
        (("tone: dash.car.1/2, charted: FL, heard: FL in1",), ("toned", "", "")),
        (
            ("tone: dash.car.1/2, charted: FL, heard: FL RL, plus: 2",),
            ("measured", "charted + 1, found + 2", "contradicted: + on 2"),
        ),
        # the chart was another one then, and what answered is more than the channel: nobody confirms it
        (("tone: dash.car.1/2, charted: RL, heard: FL FL-TW",), ("measured", "", "")),
        # the last of two counts
        (
            ("tone: dash.car.1/2, charted: FL, heard: RL", "tone: dash.car.1/2, charted: FL, heard: FL"),
            ("toned", "", ""),
        ),
    ],
)
def test_what_is_known_of_a_pair(records: tuple[str, ...], first: tuple[str, str, str], tmp_path: Path) -> None:
    """Only what the plan opens or taps is in use; a tone is taken with the meter on, so its two wires were read."""
    made = state(recorded(tmp_path, *records))
    assert made == [("dash.1/2", *first), ("dash.3/4", "charted", "", "")]


def test_a_pair_of_which_one_wire_is_used(tmp_path: Path) -> None:
    """A tap on + or on − alone makes it one in use, and what comes before it in the file is passed over."""
    whole = "cut: [dash.FL, dash.FR]\n"
    for wire in ("5", "6"):
        job = JOB.replace(whole, "cut: [dash.FR]\n").replace("dash.unit.FL: amp.in1", f"dash.{wire}: eye.on2")
        job = job.replace("    dash.car.FL: amp.out1\n", "")
        job = job.replace("eye: {kind: interface,", "eye: {kind: interface, terminals: [on2],")
        made = pairs.used_pairs(recorded(tmp_path, job=job))
        assert [(each.name, each.fate) for each in made] == [("dash.3/4", "intercepted"), ("dash.5/6", "tapped")], wire


def test_by_which_contacts_a_pair_in_use_is_known(tmp_path: Path) -> None:
    assert [each.on_the_car for each in pairs.used_pairs(recorded(tmp_path))] == [
        ("dash.car.1", "dash.car.2"), ("dash.car.3", "dash.car.4"),
    ]  # fmt: skip


def test_a_plus_or_a_minus_alone_is_no_pair(tmp_path: Path) -> None:
    for cavities in ("7: RR+", "7: RR-"):
        wiring = recorded(tmp_path, job=JOB.replace("7/8: RR", cavities))
        assert [plus.cavity for plus, _ in pairs.pairs_of(wiring, "dash")] == ["1", "3", "5"], cavities


def test_where_its_speaker_is_turned_the_plus_belongs_on_the_other_wire(tmp_path: Path) -> None:
    """FL's speaker is turned in this car: + on the wire charted − is right, and without a look nothing is said."""
    job = JOB.replace("grounds:", "found: [dash.FL > spk.FL reversed]\ngrounds:")
    for records, contrary in (
        ((), ""), (("polarity: dash.car.1/2, plus: 2",), ""), (("tone: dash.car.1/2, heard: FL",), ""),
        (("polarity: dash.car.1/2, plus: 1",), "speaker turned so + on 2, found + 1"),
        (("tone: dash.car.1/2, heard: FL, plus: 2",), ""),
    ):  # fmt: skip
        first = pairs.used_pairs(recorded(tmp_path, *records, job=job))[0]
        assert first.contrary == contrary, records


def test_whether_a_tone_confirms_a_channel() -> None:
    for charted, heard, base, confirms in (
        ("FL", "FL", "FL", True), ("RL", "FL", "FL", True), ("FL", "RL", "FL", True), ("RL", "RR", "FL", False),
    ):  # fmt: skip
        tone = Tone(("dash.car.1", "dash.car.2"), charted, heard, "", Place("e.yaml", 1, 1))
        assert toned.says(tone, base, (), Named(())) is confirms, (charted, heard)


@pytest.mark.parametrize(
    ("records", "plus", "idle"),
    [
        (("polarity: dash.car.1/2, plus: 2",), "2", 0),
        # a tone taken anew without a + takes back what a tone before it said, not what a look found
        (("tone: dash.car.1/2, heard: FL, plus: 2", "tone: dash.car.1/2, heard: FL"), "", 0),
        (("polarity: dash.car.1/2, plus: 2", "tone: dash.car.1/2, heard: FL"), "2", 0),
        (("tone: dash.car.1/2, heard: FL, plus: 2", "polarity: dash.car.1/2, how: pulse"), "2", 0),
        (("tone: dash.car.1/2, heard: FL, plus: 1", "polarity: dash.car.1/2, plus: 2"), "2", 0),
        # the half toward the unit has the + of what plays
        (("polarity: dash.unit.1/2, plus: 2",), "", 0),
        (("tone: dash.unit.1/2, heard: FL, plus: 2",), "2", 0),
        # one wire alone, and what holds no more
        (("polarity: dash.car.1, plus: 1",), "", 0),
        (("polarity: dash.car.1/2, plus: 2, car: Larch van",), "", 0),
    ],
)
def test_which_plus_counts(records: tuple[str, ...], plus: str, idle: int, tmp_path: Path) -> None:
    made = pairs.plus_found(recorded(tmp_path, *records)).get(frozenset(("dash.car.1", "dash.car.2")), pairs.Polarity())
    assert (made.plus, made.idle.place.line if made.idle else 0) == (plus, idle)


@pytest.mark.parametrize(
    ("records", "plus", "idle"),
    [
        # no battery moves a speaker behind a capacitor, whatever the word for it; a pulse of sound does
        (("polarity: dash.car.3/4, plus: 4, how: battery",), "", 1),
        (("polarity: dash.car.3/4, plus: 4, how: 1.5 V cell",), "", 1),
        (('polarity: dash.car.3/4, plus: 4, how: "Battery, by hand"',), "", 1),
        (("polarity: dash.car.3/4, how: battery",), "", 0),
        (("polarity: dash.car.3/4, plus: 4, how: pulse",), "4", 0),
        # a tone with a battery takes back what a tone before it said
        (("tone: dash.car.3/4, heard: FR, plus: 4", "tone: dash.car.3/4, heard: FR, plus: 4, how: battery"), "", 2),
        (("polarity: dash.car.3/4, plus: 4",), "4", 0),
        # what proves one answers the look that proved nothing, and stands where a look proves nothing afterwards
        (("polarity: dash.car.3/4, plus: 4, how: battery", "polarity: dash.car.3/4, plus: 3, how: pulse"), "3", 0),
        (("polarity: dash.car.3/4, plus: 3, how: pulse", "polarity: dash.car.3/4, plus: 4, how: battery"), "3", 2),
    ],
)
def test_a_battery_behind_a_capacitor(records: tuple[str, ...], plus: str, idle: int, tmp_path: Path) -> None:
    made = pairs.plus_found(recorded(tmp_path, *records))[frozenset(("dash.car.3", "dash.car.4"))]
    assert (made.plus, made.idle.place.line if made.idle else 0) == (plus, idle)


def test_a_pair_of_no_channel_has_no_strangers(tmp_path: Path) -> None:
    wiring = recorded(tmp_path, job=JOB.replace("7/8: RR", "7/8: in1"))
    plug = wiring.job.parts.plugs["dash"]
    first, *_, port = pairs.pairs_of(wiring, "dash")
    assert toned.strangers(wiring, plug, port, "RL") == ()
    assert toned.strangers(wiring, plug, first, "FL RL in2 hum, C") == ("RL", "C")
    assert toned.strangers(wiring, plug, first, "FL FL-TW") == ()


def test_what_looks_for_a_plus(tmp_path: Path) -> None:
    for record, looks in (
        ("tone: dash.car.1/2, heard: FL", True), ("tone: dash.unit.1/2, heard: FL", True),
        ("polarity: dash.car.1/2, plus: 1", True), ("polarity: dash.unit.1/2, plus: 1", False),
        ("ohm: dash.car.1/2, reads: 3 ohm", False), ("ohm: dash.unit.1/2, reads: 3 ohm", False),
    ):  # fmt: skip
        wiring = recorded(tmp_path, record)
        assert pairs.looks_for_plus(wiring.job.records[0]) is looks, record
        assert bool(pairs.plus_found(wiring)) is looks, record
    assert pairs.plus_found(recorded(tmp_path, "polarity: dash.car.1, plus: 1")) == {}, "one wire is no pair"


def test_a_loom_s_wire_that_has_no_other_end(tmp_path: Path) -> None:
    """T1's car end has C's leads, its unit end has none: a look there proves its own + and falls over nothing."""
    job = JOB.replace(
        "T1: {ends: {unit: 4-way, car: 4-way}, leads: {1/2: C",
        "T1: {ends: {unit: 4-way, car: 4-way}, leads: {unit.1/2: C",
    )
    job = job.replace("    T1.car.C: spk.C\n", "    T1.unit.C: spk.C\n")
    made = pairs.plus_found(recorded(tmp_path, "tone: T1.unit.1/2, heard: C, plus: 1, how: battery", job=job))
    assert [each.plus for each in made.values()] == ["1"]


def test_which_speakers_are_all_behind_capacitors(tmp_path: Path) -> None:
    both = JOB.replace("grounds:", "found: [dash.RL > spk.FR]\ngrounds:")
    wiring = recorded(tmp_path, job=both)
    assert pairs.behind_capacitors(wiring, "dash.car.5") == ("FR",)
    assert pairs.behind_capacitors(wiring, "dash.car.1") == ()
    assert pairs.behind_capacitors(wiring, "dash.car.9") == (), "no speaker at all"


# -- on which wire + must be found ------------------------------------------------------------------------------------


def other(wiring: Wiring) -> list[tuple[str, str, str, str, int, bool]]:
    return [
        (each.name, each.awaited, each.found, each.radio, each.record.place.line, each.chart_wrong)
        for each in plus_side.other_plus(wiring)
    ]


@pytest.mark.parametrize(
    ("records", "told"),
    [
        (("polarity: dash.car.7/8, plus: 8",), [("dash 7/8", "7", "8", "", 1, False)]),
        (("polarity: dash.car.7/8, plus: 7",), []),
        # RL's speaker is turned in this job's car: its + belongs on the wire charted −
        (("polarity: dash.car.5/6, plus: 5",), [("dash 5/6", "6", "5", "", 1, False)]),
        (("polarity: dash.car.5/6, plus: 6",), []),
        # another speaker answers: that is told, and not the +
        (("tone: dash.car.7/8, charted: RR, heard: RL, plus: 8",), []),
        (("tone: dash.car.7/8, charted: RR, heard: RR, plus: 8",), [("dash 7/8", "7", "8", "", 1, False)]),
        (("tone: dash.car.7/8, charted: RR, heard: RR",), []),
        # the first pair is right, the second isn't
        (
            ("polarity: dash.car.1/2, plus: 1", "polarity: dash.car.7/8, plus: 8"),
            [("dash 7/8", "7", "8", "", 2, False)],
        ),
        # at the radio's side: on the charted one the speaker is turned, on the other one the chart is wrong
        (
            ("polarity: dash.car.7/8, plus: 8", "polarity: dash.unit.7/8, plus: 7"),
            [("dash 7/8", "7", "8", "7", 1, False)],
        ),
        (
            ("polarity: dash.car.7/8, plus: 8", "polarity: dash.unit.7/8, plus: 8"),
            [("dash 7/8", "7", "8", "8", 1, True)],
        ),
        # not a tone there, nor a look at the car's half, nor one of another car, nor one without an answer
        (
            ("polarity: dash.car.7/8, plus: 8", "tone: dash.unit.1/2, heard: FL, plus: 2"),
            [("dash 1/2", "1", "2", "", 2, False), ("dash 7/8", "7", "8", "", 1, False)],
        ),
        (
            ("polarity: dash.car.7/8, plus: 8", "polarity: dash.unit.7/8, plus: 7, car: Larch van"),
            [("dash 7/8", "7", "8", "", 1, False)],
        ),
        (
            ("polarity: dash.car.7/8, plus: 8", "polarity: dash.unit.7/8, how: pulse"),
            [("dash 7/8", "7", "8", "", 1, False)],
        ),
    ],
)
def test_a_plus_on_the_other_wire(
    records: tuple[str, ...], told: list[tuple[str, str, str, str, int, bool]], tmp_path: Path
) -> None:
    assert other(recorded(tmp_path, *records, job=TURNED)) == told


def test_which_speakers_a_pulse_moves(tmp_path: Path) -> None:
    """RR has FR's speaker, behind a capacitor, beside its own; FR's pair has only that."""
    job = JOB.replace("grounds:", "found: [dash.RR > spk.FR, dash.RR > spk.RR]\ngrounds:")
    (made,) = plus_side.other_plus(recorded(tmp_path, "polarity: dash.car.7/8, plus: 8", job=job))
    assert (set(made.speakers), made.moved) == ({"FR", "RR"}, ("RR",))
    (made,) = plus_side.other_plus(recorded(tmp_path, "polarity: dash.car.3/4, plus: 4"))
    assert (made.speakers, made.moved) == (("FR",), ("FR",))
    assert made.contacts == ("dash.car.3", "dash.car.4")


def test_whose_contacts_are_the_radio_s() -> None:
    for contacts, there in (
        (("dash.unit.1", "dash.unit.2"), True), (("dash.unit.1", "dash.car.2"), False), (("dash.unit.1",), False),
        (("dash.car.1", "dash.car.2"), False),
    ):  # fmt: skip
        assert plus_side.toward_unit(contacts) is there, contacts


def test_a_speaker_turned_in_the_car(tmp_path: Path) -> None:
    """By its −, where none is on +; those behind a capacitor count where there are no others."""
    for found, contact, turned in (
        ("dash.RL > spk.RL reversed", "dash.car.5", True), ("dash.RL > spk.RL", "dash.car.5", False),
        ("dash.RL > spk.RL reversed, dash.RL > spk.C", "dash.car.5", False),
        ("dash.RL > spk.RL reversed, dash.RL > spk.FR", "dash.car.5", True),
        ("dash.RL > spk.FR reversed", "dash.car.5", True), ("dash.RL > spk.RL reversed", "dash.car.9", False),
    ):  # fmt: skip
        job = JOB.replace("grounds:", f"found: [{found}]\ngrounds:").replace("    T1.car.C: spk.C\n", "")
        assert pairs.speaker_turned(recorded(tmp_path, job=job), contact) is turned, (found, contact)
