"""What a reading is about, which words count, and what the records say as a whole: each rule by hand on one job."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import answering, answers, fitting, proven, readings, resistance, speaker_readings
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.model.function import read_function
from tests.graph.test_contrary_rules import JOB, recorded, told

# RR goes to a unit as found, RL's two wires are one; T2 sits on its plug with a wire of which the loom says nothing
WITH_MORE = (
    JOB.replace("  eye:", "  box: {kind: factory amplifier, inputs: {in1: btl}}\n  eye:")
    .replace("grounds:", "found: [dash.RR > box.in1, dash.5 > dash.6, dash.9 > C9.1]\ngrounds:")
    .replace("units:", "inline: {C9: sill}\nunits:", 1)
    .replace("looms:\n", "looms:\n  T2: {ends: {car: 4-way}, leads: {1: unknown WH, 2: unknown BK, 3: AERIAL BU}}\n")
    .replace(
        "looms:\n",
        "  boot:\n    place: boot\n"
        "    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}\n"
        "    cavities: {1: ILL OG, 3: ILL OG}\nlooms:\n",
    )
    .replace("joints:\n", "joints:\n  mate: {T2: boot}\n")
)


def first(wiring: Wiring) -> readings.Reading:
    """The one reading between two contacts."""
    (made,) = readings.pair_readings(wiring)
    return made


def test_whose_a_contact_is(tmp_path: Path) -> None:
    wiring = recorded(tmp_path, "ohm: dash.car.1/2, reads: 3 ohm", job=WITH_MORE)
    names = ("dash.car.1", "dash.unit.1", "T1.car.1", "spk.C+", "amp.B+", "chassis")
    assert [name for name in names if readings.is_car_side(wiring, name)] == ["dash.car.1"]
    # the car as found for what is the car's own
    for contacts, own in (
        (("dash.car.1", "chassis"), True), (("chassis",), True), (("dash.car.1", "dash.unit.2"), True),
        (("T1.car.1",), False), (("dash.car.1", "amp.B+"), False), (("spk.C+",), False),
    ):  # fmt: skip
        assert (readings.state_of(wiring, *contacts) is wiring.found) is own, contacts
    # a lead says what it is for, else the cavity that it sits in, else nothing does
    assert readings.function_of(wiring, "T2.car.1").name == "ILL"
    assert readings.function_of(wiring, "T2.car.2").kind == "unknown"
    assert readings.function_of(wiring, "T2.car.3").name == "AERIAL"
    assert readings.function_of(wiring, "dash.car.9").name == "ACC"


def test_what_speaks_of_wires_and_not_of_a_unit(tmp_path: Path) -> None:
    for unplugged, more in (("amp", {"amp.out1+"}), ("[dash, AMP]", {"amp.out1+"}), ("dash", set())):
        wiring = recorded(tmp_path, f"ohm: dash.car.1/2, reads: 3 ohm, unplugged: {unplugged}", job=WITH_MORE)
        names = ("dash.car.1", "dash.car.9", "dash.unit.1", "T1.car.1", "spk.C+", "amp.out1+", "battery.+", "chassis")
        about = {name for name in names if readings.of_wires(wiring, first(wiring), name)}
        assert about == {"dash.car.1", "dash.car.9", "T1.car.1", "spk.C+"} | more, unplugged


def test_the_wire_that_a_contact_is_on(tmp_path: Path) -> None:
    """To the nearest speaker, else to its end, never through the plug to the radio; alone where nothing is drawn."""
    wiring = recorded(tmp_path, job=WITH_MORE)
    assert readings.wire_of(wiring, "dash.car.1") == ("dash.car.1", "spk.FL+")
    assert readings.wire_of(wiring, "dash.car.9") == ("dash.car.9", "C9.unit.1", "C9.car.1")
    assert readings.wire_of(wiring, "dash.car.11") == ("dash.car.11", "chassis")
    assert readings.wire_of(wiring, "dash.car.10") == ("dash.car.10",)
    assert readings.wire_of(wiring, "T1.car.1") == ("T1.car.1", "spk.C+")


def test_what_a_reading_to_the_body_says(tmp_path: Path) -> None:
    """What stands behind `body` counts before what was read of one contact; a tone of one contact says nothing."""
    for record, words in (
        ("ohm: dash.car.1, reads: 3 ohm, body: open", ["open"]), ("ohm: dash.car.1, reads: 3 ohm", ["3 ohm"]),
        ("ohm: dash.car.1/2, reads: 3 ohm", []), ("ohm: dash.car.1, reads: 3 V", []),
        ("volts: dash.car.1, reads: 3 ohm", []), ("volts: dash.car.1/2, reads: 3 V, body: open", []),
        ("tone: dash.car.1/2, heard: FL, body: open", ["open"]),
        ('ohm: dash.car.1, reads: 3 ohm, fact: ["1 FL+ GN"]', []),
    ):  # fmt: skip
        made = readings.body_readings(recorded(tmp_path, record))
        assert [each.words for each in made] == words, record


def test_which_readings_are_of_a_speaker_pair(tmp_path: Path) -> None:
    for pair, listed in (
        ("dash.car.1/2", True), ("T1.car.1/2", True), ("spk.C", True),
        # a unit on it as found; both wires one; the radio's half; of unlike functions; two wires of one sign
        ("dash.car.7/8", False), ("dash.car.5/6", False), ("dash.unit.1/2", False), ("dash.car.1/3", False),
        ("dash.car.1/9", False), ("dash.car.9/10", False),
    ):  # fmt: skip
        made = speaker_readings.speaker_readings(recorded(tmp_path, f"ohm: {pair}, reads: 9 ohm", job=WITH_MORE))
        assert bool(made) is listed, pair
    # with the unit pulled the wires are seen
    pulled = recorded(tmp_path, "ohm: dash.car.7/8, reads: 9 ohm, unplugged: box", job=WITH_MORE)
    assert [each.met.has_unit for each in speaker_readings.speaker_readings(pulled)] == [False]


def test_which_readings_are_of_two_pairs(tmp_path: Path) -> None:
    for pair, of_two in (("1/3", True), ("1/2", False), ("1/9", False), ("9/1", False), ("9/10", False)):
        wiring = recorded(tmp_path, f"ohm: dash.car.{pair}, reads: 0.3 ohm")
        assert speaker_readings.of_two_pairs(wiring, first(wiring)) is of_two, pair
    wiring = recorded(tmp_path, "ohm: dash.unit.1/3, reads: 0.3 ohm")
    assert not speaker_readings.of_two_pairs(wiring, first(wiring))


def test_less_than_drawn(tmp_path: Path) -> None:
    """Below 1 ohm two wires are one; over a speaker, 2.48 ohm at least, below `through_ohm`; joined they may."""
    for pair, ohm, through, less in (
        ("1/3", 0.99, None, True), ("1/3", 1.0, None, False), ("1/2", 0.99, None, True), ("1/2", 0.99, 0.5, False),
        ("1/2", 0.49, 0.5, True), ("1/2", 0.5, 0.5, False), ("5/6", 0.2, None, False),
    ):  # fmt: skip
        wiring = recorded(tmp_path, f"ohm: dash.car.{pair}, reads: {ohm} ohm", job=WITH_MORE)
        made = first(wiring)
        assert readings.less_than_drawn(wiring, made, *made.contacts, 1.0, through) is less, (pair, ohm, through)
    unsaid = JOB.replace("FL RL RR C: {nominal: 4 ohm}", "FL RL RR C: {place: door}")
    wiring = recorded(tmp_path, "ohm: dash.car.1/2, reads: 0.2 ohm", job=unsaid)
    assert not readings.less_than_drawn(wiring, first(wiring), "dash.car.1", "dash.car.2", 1.0)


NEW = JOB.replace(
    "FL RL RR C: {nominal: 4 ohm}",
    "FL: {nominal: 4 ohm, new: {nominal: 2 ohm, capacitor: 10 uF}}\n  RL RR C: {nominal: 4 ohm}",
)
NEW = NEW.replace("capacitor: 47 uF}", "capacitor: 47 uF, new: {nominal: 2 ohm}}")


def test_a_new_speaker_at_the_cars_wires_may_not_be_in_yet(tmp_path: Path) -> None:
    """FL: 4 ohm, then 2 behind a capacitor. FR: 4 ohm behind one, then 2 without, 1.24 to 2.0 and 0.8 of wire."""
    for pair, reads, against in (
        ("1/2", "3 ohm", False), ("1/2", "open", False), ("1/2", "1.5 ohm", True), ("3/4", "open", False),
        ("3/4", "1.5 ohm", False), ("3/4", "2.8 ohm", False), ("3/4", "2.9 ohm", True), ("7/8", "3 ohm", False),
    ):  # fmt: skip
        made = told(recorded(tmp_path, f"ohm: dash.car.{pair}, reads: {reads}", job=NEW))
        assert bool(made) is against, (pair, reads)


def test_what_a_meter_may_say_of_what_is_expected() -> None:
    band = resistance.Expected(2.48, 4.0, (), ())
    behind = resistance.Expected(None, None, ("FR",), ())
    unknown, both = resistance.Expected(None, None, (), ("FL",)), resistance.Expected(None, None, ("FR",), ("FL",))
    nothing = resistance.Expected(None, None, (), ())
    assert [each.open_to_dc for each in (band, behind, unknown, both, nothing)] == [False, True, False, False, False]
    for expected, reads, fits in (
        (band, "2.48 ohm", True), (band, "2.47 ohm", False), (band, "4.8 ohm", True), (band, "4.81 ohm", False),
        (band, "open", False), (band, "3 V", None), (behind, "open", True), (behind, "3 ohm", False),
        (unknown, "open", None), (unknown, "3 ohm", None), (both, "open", None), (nothing, "open", None),
    ):  # fmt: skip
        assert resistance.in_band(expected, reads) is fits, (expected, reads)


def test_speakers_that_the_car_never_had() -> None:
    """The channel and every driver of it; one driver alone; a word of `lacks:` that is no speaker."""
    assert answering.lacked_speakers(("RL", "ACC", "sunroof", "FL-TW")) == ("RL", "FL-TW")
    for lacks, name, word in (
        (("FL",), "FL", "FL"), (("FL",), "FL-TW", "FL"), (("FL-TW",), "FL", ""), (("FL-TW",), "FL-TW", "FL-TW"),
        (("FL-TW",), "FL-WF", ""), (("ACC", "sunroof", "FR"), "FR", "FR"), (("FR",), "FL", ""), (("ACC",), "ACC", ""),
    ):  # fmt: skip
        function = read_function(name)
        assert function is not None
        assert answering.lacked(lacks, function) == word, (lacks, name)


# -- the records as a whole ----------------------------------------------------------------------------------------


def of(folder: Path, *records: str) -> Wiring:
    return recorded(folder, *records)


def test_whether_the_plan_was_carried_out(tmp_path: Path) -> None:
    for record, built, put_back in (
        ("built: dash.car.1/2, is: as planned", True, False), ("plays: amp.out1, heard: FL", True, True),
        ("after: horn, result: works", True, True), ("handover: closed", True, True),
        ("handover: paused", False, False), ("signed: released", True, False),
        ("signed: lost, lost: horn", False, False),
        # words of other verbs
        ("seen: closed", False, False), ("before: closed", False, False), ("seen: released", False, False),
        ("before: horn, result: works", False, False),
        # of another car, or of an output that isn't there any more
        ("handover: closed, car: Larch van", False, False), ("plays: amp.out9, heard: FL", False, True),
    ):  # fmt: skip
        wiring = of(tmp_path, record)
        assert (proven.built(wiring), proven.put_back(wiring)) == (built, put_back), record


def test_who_let_it_go(tmp_path: Path) -> None:
    """With a reason and a name, the last one; another verb's word doesn't."""
    for records, words in (
        (("signed: released, by: JM, reason: leaves",), "JM: leaves"),
        (("signed: released, by: JM, reason: leaves, when: 2026-03-02 09:40",), "JM, 2026-03-02: leaves"),
        (("signed: released, by: JM, reason: leaves, name: R. Kern, who: owner",), "R. Kern (owner): leaves"),
        (("signed: released, by: JM",), ""), (("signed: released, reason: leaves",), ""),
        (("seen: released, by: JM, reason: leaves",), ""), (("signed: lost, by: JM, reason: leaves",), ""),
        (("signed: released, by: JM, reason: leaves, car: Larch van",), ""),
        (("signed: released, by: JM, reason: a", "signed: released, by: RK, reason: b"), "RK: b"),
    ):  # fmt: skip
        assert proven.release_words(of(tmp_path, *records)) == words, records


RELEASED = "signed: released, by: JM, reason: leaves"


@pytest.mark.parametrize(
    ("records", "words"),
    [
        ((RELEASED,), ""), (("after: horn, result: silent", RELEASED), ""),
        # found wrong since: a trial, a joint, what was built otherwise, a reading against the plan
        ((RELEASED, "after: horn, result: silent"), "horn silent"), ((RELEASED, "after: horn, result: works"), ""),
        ((RELEASED, "before: horn, result: silent"), ""),
        ((RELEASED, "built: J1, is: not made"), "not made"), ((RELEASED, "built: J1"), ""),
        ((RELEASED, "seen: amp, shows: green", "volts: amp.GND, reads: 5 V, key: run"),
         "amp GND, key run: 5 V, planned 0 V"),
        ((RELEASED, "after: horn, result: silent, car: Larch van"), ""),
        # the first of them, mended or not
        ((RELEASED, "after: horn, result: silent", "after: horn, result: works"), "horn silent"),
        ((RELEASED, "after: bell, result: silent", "after: horn, result: silent"), "bell silent"),
        # a new signature is one anew
        ((RELEASED, "after: horn, result: silent", RELEASED), ""),
    ],
)  # fmt: skip
def test_what_takes_a_release_back(records: tuple[str, ...], words: str, tmp_path: Path) -> None:
    wiring = of(tmp_path, *records)
    made = proven.voided(wiring)
    assert (made is not None) is bool(words)
    assert made is None or words in made.words
    assert (proven.released(wiring) is None) is bool(words)


def test_who_signed_for_a_loss(tmp_path: Path) -> None:
    for record, names in (
        ("signed: lost, lost: [Horn, fog lamp]", {"horn", "fog lamp"}),
        ('signed: lost, lost: "horn, , Radio"', {"horn", "radio"}),
        ("seen: lost, lost: horn", set()), ("signed: released, lost: horn", set()),
        ("signed: lost, lost: horn, car: Larch van", set()),
    ):  # fmt: skip
        assert proven.lost(of(tmp_path, record)) == names, record
    made = proven.signatures(of(tmp_path, "signed: lost, lost: horn", "signed: lost, lost: [Horn]"))
    assert [record.place.line for record in made["horn"]] == [1, 2]


def test_functions_that_only_records_name(tmp_path: Path) -> None:
    """An emergency call can't be signed away; each is called as its first record calls it. What is signed away and was
    never tried since is open all the same.
    """
    before = ("before: Fog horn, result: works", "before: emergency call, result: works")
    signed = "signed: lost, by: JM, lost: [fog horn, emergency call]"
    wiring = of(tmp_path, *before, signed)
    assert [(each.name, each.kind, each.signed, each.missing) for each in proven.tried(wiring)] == [
        ("Fog horn", "other", True, False), ("emergency call", "emergency", False, True),
    ]  # fmt: skip
    said = proven.open_evidence(wiring)
    both = ("Fog horn", "emergency call")
    assert (said.unlisted, said.untried, said.nothing) == (both, both, False)
    (only,) = proven.tried(of(tmp_path, "after: Fog Horn, result: silent"))
    assert (only.name, only.missing) == ("Fog Horn", False)


def test_what_is_open_and_what_is_not(tmp_path: Path) -> None:
    """Each alone keeps a job from being proved, but for a function that nobody tried before."""
    wiring = of(tmp_path, "before: horn, result: works", "volts: amp.GND, reads: 5 V, key: run")
    said = proven.open_evidence(wiring)
    empty = proven.Open((), (), (), ())
    assert empty.nothing
    assert said.pairs
    assert said.outputs
    for each in (
        empty._replace(pairs=said.pairs), empty._replace(outputs=said.outputs), empty._replace(unlisted=("horn",)),
        empty._replace(contrary=said.contrary),
    ):  # fmt: skip
        assert not each.nothing


@pytest.mark.parametrize(("said", "works"), [("works", True), ("silent", False), ("", False)])
def test_what_works(said: str, works: bool, tmp_path: Path) -> None:
    (record,) = of(tmp_path, f"before: horn, result: {said}" if said else "before: horn").job.records
    assert isinstance(record, Record)
    assert proven.worked(record) is works
    assert not proven.worked(None)


def test_what_answered_an_output(tmp_path: Path) -> None:
    """`none` beside a name says nothing; a record of another verb about the same output is no answer."""
    for records, heard in (
        (("plays: amp.out1, heard: none FL",), ("FL",)), (("plays: amp.out1, heard: fl FR",), ("FL", "FR")),
        (("plays: amp.out1, heard: FL", "ohm: amp.out1, reads: 3 ohm, heard: FR"), ("FL",)),
        (("plays: amp.out1, heard: FL", "plays: amp.out1, heard: FR, car: Larch van"), ("FL",)),
    ):  # fmt: skip
        (made,) = answers.answers(of(tmp_path, *records))
        assert made.heard == heard, records


def test_a_wire_ends_at_its_nearest_speaker_and_a_speaker_without_a_channel_is_none_s(tmp_path: Path) -> None:
    """RL's wire goes to its speaker, and by a plug in the sill to one on the shelf, which is no channel's."""
    job = JOB.replace(
        "grounds:", "inline: {C9: sill}\nfound: [dash.RL > spk.RL, dash.RL > C9.1/2 > spk.shelf]\ngrounds:"
    )
    wiring = recorded(tmp_path, job=job.replace("  FL RL RR C:", "  shelf: {nominal: 4 ohm}\n  FL RL RR C:"))
    assert readings.wire_of(wiring, "dash.car.5") == ("dash.car.5", "spk.RL+")
    assert readings.function_of(wiring, "spk.shelf+").kind == "unknown"
    assert readings.function_of(wiring, "dash.car.5").name == "RL+"


def test_what_else_would_read_so(tmp_path: Path) -> None:
    """A coil reads 0.62 to 1.0 of its nominal ohms (the bound at `resistance`): 5 ohm are a coil of 6 (3.72 to 6) or of
    8 (4.96 to 8), as two of 4 in line are; 4.9 ohm is no coil of 8; 9 ohm is above 8 and below 9.92, 17 above 16.
    """
    told = {}
    for ohm in (5.0, 4.9, 9.0, 17.0):
        ((_, met),) = speaker_readings.speaker_readings(recorded(tmp_path, f"ohm: dash.car.7/8, reads: {ohm} ohm"))
        told[ohm] = fitting.would_fit(met, ohm)
    assert told == {
        5.0: ["two 4-ohm speakers in line", "one 6-ohm speaker", "one 8-ohm speaker"], 4.9: ["one 6-ohm speaker"],
        9.0: ["no usual speaker"], 17.0: ["no usual speaker"],
    }  # fmt: skip
