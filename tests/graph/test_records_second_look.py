"""What 200 random rows of records say of a small job, against the rules of `ringout explain` worked out a second time.

No outside source for the rules; the figures are those of tests/graph/test_contrary.py: a coil of 4 ohm reads 2.48 to
4.0 ohm, nothing may feed a speaker's wires with more than 0.1 V, and no wire of a 12 V car reads more than 18 V.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path

import pytest

from harness.graph import answers, contrary, outdated, pairs, proven, readings
from harness.graph.wiring import Wiring
from harness.read.job import read_job
from harness.read.troubles import Troubles
from tests.graph.random_records import JOB, PAIRS, Said, random_records

ROWS, BATCH = 200, 50
NOTHING_HEARD = {"none", "nothing", "silent", "silence"}
# output -> the speakers that it plays as planned; above 100 Hz only where a route says so
PLAYS = {"radio.FL": ("FL", 100.0), "radio.FR": ("FR", 0.0), "radio.RL": ("RL", 0.0), "radio.RR": ("RR", 0.0),
         "amp.out1": ("FL", 100.0), "amp.out2": ("FR", 0.0)}  # fmt: skip
BEHIND_A_CAPACITOR = {"FR"}


class Rows:
    """The second look at one row of records."""

    def __init__(self, said: list[Said]) -> None:
        self.said = said
        self.holding = [each for each in said if not each.stale]

    def of(self, *verbs: str) -> list[Said]:
        return [each for each in self.holding if each.verb in verbs]

    def of_pair(self, name: str, *verbs: str) -> list[Said]:
        wanted = {f"dash.car.{each}" for each in PAIRS[name]}
        return [each for each in self.of(*verbs) if car_side(each.contacts) == wanted]

    # -- pairs -------------------------------------------------------------------------------------------------

    def plus(self, name: str) -> tuple[str, int]:
        """The cavity found to be +, and the line of a battery's pulse that proves nothing (0: none)."""
        found, by_tone, idle = "", False, 0
        for each in self.of_pair(name, "tone", "polarity"):
            cavity = each.word("plus")
            if cavity and {"battery", "cell"} & set(each.word("how").split()) and name in BEHIND_A_CAPACITOR:
                cavity, idle = "", each.line
            if cavity:
                found, by_tone, idle = cavity, each.verb == "tone", 0
            elif each.verb == "tone" and by_tone:
                found = ""
        return found, idle

    def against(self, name: str) -> str:
        tones = self.of_pair(name, "tone")
        if tones and name not in tones[-1].word("heard").split():
            return f"charted {name}, heard {tones[-1].word('heard')}"
        found = self.plus(name)[0]
        return f"charted + {PAIRS[name][0]}, found + {found}" if found not in ("", PAIRS[name][0]) else ""

    def state(self, name: str) -> str:
        if self.of_pair(name, "tone") and not self.against(name):
            return "toned"
        read = {contact for each in self.of("tone", "ohm") if len(each.contacts) == 2 for contact in each.contacts}
        return "measured" if {f"dash.car.{each}" for each in PAIRS[name]} <= read else "charted"

    # -- outputs -----------------------------------------------------------------------------------------------

    def played(self) -> dict[str, Said]:
        last = {}
        for each in self.of("plays"):
            name = next((name for name in PLAYS if name.lower() == each.what.lower()), "")
            if name:
                last[name] = each
        return last

    # -- functions of the car ----------------------------------------------------------------------------------

    def trial(self, verb: str, name: str) -> str | None:
        last = [each for each in self.of(verb) if each.what.lower() == name]
        return last[-1].word("result") if last else None

    def signed_for(self, name: str) -> bool:
        lost = [each.word("lost").strip("[]").lower() for each in self.of("signed") if each.what == "lost"]
        return any(name in map(str.strip, each.split(",")) for each in lost)


def car_side(contacts: Iterable[str]) -> set[str]:
    return {name.replace("unit", "car") for name in contacts}


@cache
def looked(seed: int, folder: Path) -> tuple[Rows, Wiring]:
    text, said = random_records(seed)
    job, troubles = folder / "job.yaml", Troubles()
    job.write_text(JOB, encoding="utf-8")
    job.with_name("job.evidence.yaml").write_text(text, encoding="utf-8")
    made = read_job(job, troubles)
    assert made is not None, troubles.findings
    assert not troubles.refused, troubles.findings
    wiring = Wiring(made)
    stale = [bool(record.stale) for record in wiring.job.records]
    assert stale == [each.stale for each in said], text
    return Rows(said), wiring


def the_pairs(rows: Rows, wiring: Wiring) -> None:
    made = {(each.plus.function.base): each for each in pairs.used_pairs(wiring)}
    assert list(made) == ["FL", "FR", "RL"], "RR is only passed on"
    for name, pair in made.items():
        found, idle = rows.plus(name)
        assert pair.state == rows.state(name), name
        assert pair.contrary == rows.against(name), name
        assert pair.polarity.plus == found, name
        assert (pair.polarity.idle.place.line if pair.polarity.idle else 0) == idle, name
        tones = rows.of_pair(name, "tone")
        assert (pair.tone.place.line if pair.tone else 0) == (tones[-1].line if tones else 0), name
        found = rows.against(name).partition(", ")[2]
        words = {"heard none": "nothing heard"}.get(found, f"{found.removeprefix('heard ')} heard" if found else "")
        if found.startswith("found +"):
            words = f"+ on {found.rpartition(' ')[2]}"
        assert pairs.contradicted(pair) == (f"contradicted: {words}" if words else ""), name


def the_outputs(rows: Rows, wiring: Wiring) -> None:
    made = {each.driver.name: each for each in answers.answers(wiring)}
    played = rows.played()
    assert made.keys() == played.keys()
    for name, record in played.items():
        speaker, from_hz = PLAYS[name]
        words = record.word("heard").replace(",", " ").split()
        odd = tuple(word for word in words if word.lower() not in NOTHING_HEARD and word.upper() not in PAIRS)
        heard = tuple(dict.fromkeys(word.upper() for word in words if word.upper() in PAIRS))
        hz = {"1 kHz": 1000.0, "50 Hz": 50.0, "100 Hz": 100.0}.get(record.word("signal"))
        comes = hz is None or (hz >= from_hz and not (speaker in BEHIND_A_CAPACITOR and hz < 1000))
        answer = made[name]
        assert answer.record.place.line == record.line, name
        assert (answer.heard, answer.odd) == (heard, odd), name
        assert answer.planned == ((speaker,) if comes else ()), name
        missed = bool(words) and not odd and comes and speaker not in heard
        assert answer.silent == ((speaker,) if missed else ()), name
        astray = tuple(each for each in heard if each != speaker)
        assert answer.astray == astray, name
        loud = record.word("follows") in ("nothing", "fader")
        assert answer.loud is loud, name
        assert answer.differs is (missed or bool(astray) or loud), name
        assert answer.as_planned is (bool(words) and not (missed or astray or loud or odd)), name
    unknown = [each.line for each in rows.of("plays") if each.what.lower() not in {name.lower() for name in PLAYS}]
    assert [each.place.line for each in answers.no_outputs(wiring)] == unknown


def the_functions(rows: Rows, wiring: Wiring) -> None:
    names = ["reverse beep", "rear voice"]
    for verb in ("before", "after"):
        names += [each.what.lower() for each in rows.of(verb) if each.what.lower() not in names]
    names = list(dict.fromkeys(names))
    made = proven.tried(wiring)
    assert [each.name.lower() for each in made] == names
    missing = []
    for each, name in zip(made, names, strict=True):
        before, after = rows.trial("before", name), rows.trial("after", name)
        signed = rows.signed_for(name) and name != "reverse beep"  # somebody relies on that
        assert (each.before is None, each.after is None) == (before is None, after is None), name
        assert each.signed is signed, name
        missing += [name] if before == "works" and after != "works" and not signed else []
    assert [each.name.lower() for each in made if each.missing] == missing
    said = proven.open_evidence(wiring)
    assert [each.name for each in said.after] == [name for name in missing if name != "fog horn"]
    assert said.unlisted == tuple(name for name in missing if name == "fog horn")
    unknown = [n for n in ("reverse beep", "rear voice") if rows.trial("before", n) not in ("works", "silent", "wrong")]
    assert [each.name for each in said.before] == unknown
    again = any(rows.trial("after", name) == "works" for name in names)
    good = [name for name, record in rows.played().items() if as_planned(name, record)]
    toned = [name for name in ("FL", "FR", "RL") if rows.state(name) == "toned"]
    assert [each.plus.function.base for each in said.pairs] == [n for n in ("FL", "FR", "RL") if n not in toned]
    assert [each.name for each in said.outputs] == [name for name in PLAYS if name not in good and "amp" not in name]
    assert said.proved is (again or bool(good) or bool(toned))
    assert said.nothing is not (said.pairs or said.outputs or missing or said.contrary)
    assert proven.lost(wiring) == {name for name in ("reverse beep", "rear voice", "fog horn") if rows.signed_for(name)}
    closed = any(each.what == "closed" for each in rows.of("handover"))
    let_go = [each for each in rows.of("signed") if each.what == "released"]
    assert proven.built(wiring) is (closed or bool(let_go) or bool(rows.of("plays", "after")))
    begun = (
        each.verb in ("plays", "after") or (each.verb, each.what) == ("handover", "closed")
        for each in rows.said
        if not each.foreign
    )
    assert proven.put_back(wiring) is any(begun)
    let_go = [each for each in let_go if each.word("reason") and each.word("by")]
    words = ""
    if let_go:
        who = f" ({let_go[-1].word('who')})" if let_go[-1].word("who") else ""
        words = f"{let_go[-1].word('name') or let_go[-1].word('by')}{who}: {let_go[-1].word('reason')}"
    assert proven.release_words(wiring) == words


def as_planned(name: str, record: Said) -> bool:
    """Whether just the planned speaker answered, and its level follows the volume."""
    speaker, from_hz = PLAYS[name]
    words = record.word("heard").replace(",", " ").upper().split()
    hz = {"1 kHz": 1000.0, "50 Hz": 50.0, "100 Hz": 100.0}.get(record.word("signal"))
    comes = hz is None or (hz >= from_hz and not (speaker in BEHIND_A_CAPACITOR and hz < 1000))
    right = words == [speaker] or (words == ["NONE"] and not comes)
    return right and record.word("follows") not in ("nothing", "fader")


def what_holds_no_more(rows: Rows, wiring: Wiring) -> None:
    """The last of each thing, in the order taken: a later one of the same that holds stands in for it."""
    left = []
    for at, each in enumerate(rows.said):
        later = [other for other in rows.said[at + 1 :] if not other.foreign and about(other) == about(each)]
        if each.stale and not each.foreign and not later:
            left.append(each.line)
    assert [record.place.line for record in outdated.outdated(wiring)] == left
    toned = {frozenset(car_side(each.contacts)) for each in rows.said if each.line in left and each.verb == "tone"}
    assert outdated.toned_before(wiring) == toned


def about(each: Said) -> object:
    if not each.contacts:
        return each.verb, each.what.lower()
    if each.verb in ("tone", "polarity"):
        return each.verb, frozenset(car_side(each.contacts))
    return each.verb, each.contacts, each.word("key"), each.word("signal")


def what_was_read(rows: Rows, wiring: Wiring) -> None:
    last: dict[frozenset[str], Said] = {}
    to_body: dict[str, tuple[int, str]] = {}
    for each in rows.of("tone", "ohm"):
        if len(each.contacts) == 2 and each.word("reads") and not each.word("reads").endswith(" V"):
            last[frozenset(each.contacts)] = each
        alone = each.verb == "ohm" and len(each.contacts) == 1 and not each.word("reads").endswith(" V")
        words = each.word("body") or (each.word("reads") if alone else "")
        to_body |= {name: (each.line, words) for name in each.contacts if words}
    made = {frozenset(each.contacts): (each.record.place.line, each.words) for each in readings.pair_readings(wiring)}
    assert made == {contacts: (each.line, each.word("reads")) for contacts, each in last.items()}
    found = readings.body_readings(wiring)
    assert {name: (each.record.place.line, each.words) for each in found for name in each.contacts} == to_body
    assert len({id(each.record) for each in found}) == len(found)


def volts(words: str) -> float | None:
    return abs(float(words[:-2])) if words.endswith(" V") else None


def against_the_plan(rows: Rows, wiring: Wiring) -> None:
    told: list[tuple[int, str]] = []
    direct = [each for each in rows.of("volts") if not (each.word("signal") or each.word("step"))]
    fed: dict[frozenset[str], tuple[int, str]] = {}
    for each in rows.holding:
        reads = each.word("reads") if each in direct else each.word("dc")
        if len(each.contacts) == 2 and reads and car_side(each.contacts) == set(each.contacts):
            fed[frozenset(each.contacts)] = (each.line, reads)
    told += [(line, "dc") for line, reads in fed.values() if (v := volts(reads)) is not None and 0.1 < v <= 18]
    last: dict[frozenset[str], Said] = {}
    for each in rows.of("tone", "ohm"):
        if len(each.contacts) == 2 and each.word("reads") and not each.word("reads").endswith(" V"):
            last[frozenset(each.contacts)] = each
    for contacts, each in last.items():
        capacitor = contacts == {"dash.car.3", "dash.car.4"}
        if each.word("reads") != ("open" if capacitor else "3.3 ohm"):
            told.append((each.line, "ohms"))
    for reading in readings.body_readings(wiring):  # compared in `what_was_read`
        if reading.words != "open":
            thousands = {"3.3 ohm": 0.0033, "8 ohm": 0.008, "0.1 ohm": 0.0001}.get(reading.words)
            told.append(
                (reading.record.place.line, "body" if (thousands or float(reading.words[:-5])) < 100 else "damp")
            )
    lights = {each.what.lower(): each for each in rows.of("seen") if each.word("shows")}
    for name, each in lights.items():
        if name != "horn" and each.word("shows").lower().split()[0].strip(",") in ("red", "blinks", "dark"):
            told.append((each.line, "light"))
    subjects = {
        (each.verb, frozenset(each.contacts), each.word("key"), each.word("step")): each
        for each in rows.of("volts", "ohm")
    }
    for each in subjects.values():
        v = volts(each.word("reads"))
        odd = v is not None if each.verb == "ohm" else (v is None or (each in direct and v > 18))
        told += [(each.line, "sense")] if odd else []
    for name in PAIRS:
        if said := rows.against(name):
            told.append((rows.of_pair(name, "tone", "polarity")[-1].line, "plus" if "found +" in said else "heard"))
    assert sorted((each.record.place.line, each.kind) for each in contrary.contrary(wiring)) == sorted(told)
    lines = [each.record.place.line for each in contrary.contrary(wiring)]
    assert lines == sorted(lines)


def all_agree(agrees: Callable[[Rows, Wiring], None], start: int, folder: Path) -> None:
    for seed in range(start, start + BATCH):
        try:
            agrees(*looked(seed, folder))
        except AssertionError as wrong:
            raise AssertionError(f"seed {seed}: {wrong}\n{random_records(seed)[0]}") from wrong


STARTS = pytest.mark.parametrize("start", range(0, ROWS, BATCH))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("records")


@STARTS
def test_how_well_each_pair_is_known(start: int, folder: Path) -> None:
    all_agree(the_pairs, start, folder)


@STARTS
def test_what_answered_each_output(start: int, folder: Path) -> None:
    all_agree(the_outputs, start, folder)


@STARTS
def test_what_works_again(start: int, folder: Path) -> None:
    all_agree(the_functions, start, folder)


@STARTS
def test_what_holds_no_more(start: int, folder: Path) -> None:
    all_agree(what_holds_no_more, start, folder)


@STARTS
def test_what_a_meter_read(start: int, folder: Path) -> None:
    all_agree(what_was_read, start, folder)


@STARTS
def test_what_speaks_against_the_plan(start: int, folder: Path) -> None:
    all_agree(against_the_plan, start, folder)
