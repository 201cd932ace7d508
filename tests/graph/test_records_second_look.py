"""What 200 random rows of records say of a small job, against the rules of `ringout explain` worked out a second time.

No outside source for the rules; the figures are those of tests/graph/test_contrary.py: a coil of 4 ohm reads 2.48 to
4.0 ohm, nothing may feed a speaker's wires with more than 0.1 V, and no wire of a 12 V car reads more than 18 V.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest

from harness.graph import answers, as_built, contrary, handed_over, outdated, pairs, proven, readings, turn_on_read
from harness.graph.wiring import Wiring
from tests.graph.random_records import PAIRS, Said, random_records
from tests.graph.records_look import BEHIND_A_CAPACITOR, NOTHING_HEARD, PLAYS, Rows, car_side, looked

ROWS, BATCH = 200, 50


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
    # a function that worked and that nobody tried since is open, signed for or not
    untried = [n for n in names if rows.trial("before", n) == "works" and not rows.trial("after", n)]
    untried += [n for n in names if rows.trial("before", n) == "works" and rows.trial("after", n) == "not tried"]
    missing = [name for name in names if name in missing or name in untried]
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
    assert proven.built(wiring) is (closed or bool(let_go) or bool(rows.of("plays", "after", "built")))
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
    # what speaks against the plan and was written later takes a release away; so does a function that fails
    later = [each.record.place.line for each in said.contrary]
    later += [each.line for each in rows.of("after") if each.word("result") in ("silent", "wrong")]
    later += wrong_in_itself(rows)
    void = bool(let_go) and any(line > let_go[-1].line for line in later)
    assert proven.release_words(wiring) == ("" if void else words)


def wrong_in_itself(rows: Rows) -> list[int]:
    """Lines of what takes a release away though a later record may answer it: an output or a pair that fell silent, an
    output that another speaker answers, a light that is wrong, a wire on nothing where the plan has a joint.
    """
    made = []
    for name, record in rows.played().items():
        hz = {"1 kHz": 1000.0, "50 Hz": 50.0, "100 Hz": 100.0}.get(record.word("signal"), 1e4)
        if hz >= PLAYS[name][1] and not (PLAYS[name][0] in BEHIND_A_CAPACITOR and hz < 1000):  # it must be heard
            mine = [each for each in rows.of("plays") if each.what.lower() == name.lower()]
            mute_too = [each for each in mine if "Hz" not in each.word("signal")]
            made += [each.line for each in mute_too if each.word("heard").lower() in NOTHING_HEARD]
        words = record.word("heard").replace(",", " ").upper().split()
        strange = [word for word in words if word in PAIRS and word != PLAYS[name][0]]
        mute = bool(words) and all(word in PAIRS or word == "NONE" for word in words) and not as_planned(name, record)
        if strange or mute or record.word("follows") in ("nothing", "fader"):
            made.append(record.line)
    for name in PAIRS:
        tones = [each for each in rows.of_pair(name, "tone") if each.word("heard")]
        spoke = [each.line for each in tones if each.word("heard") != "none"]
        made += [each.line for each in tones if each.word("heard") == "none" and spoke and min(spoke) < each.line]
    for each in rows.of("seen"):
        if each.what.lower() != "horn" and {"red", "blinks", "dark"} & set(
            re.findall(r"[a-z]+", each.word("shows").lower())
        ):
            made.append(each.line)
    for each in rows.of("built"):
        words = {word.strip().lower() for word in each.word("is").split(",")}
        ours = any("joined" in TRUE_OF[name] for name in each.contacts)
        if (
            ours
            and words & {"capped", "loose", "bare", "depinned"}
            and not words & {"used", "joined", "amp.out1", "amp.in2"}
        ):
            made.append(each.line)
    return made


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
        if name != "horn" and {"red", "blinks", "dark"} & set(each.word("shows").lower().replace(",", " ").split()):
            told.append((each.line, "light"))
    subjects = {
        (each.verb, frozenset(each.contacts), each.word("key"), each.word("step")): each
        for each in rows.of("volts", "ohm")
    }
    for each in subjects.values():
        v = volts(each.word("reads"))
        below = each in direct and len(each.contacts) == 1 and each.word("reads").startswith("-") and (v or 0) >= 1
        odd = v is not None if each.verb == "ohm" else (v is None or below or (each in direct and v > 18))
        told += [(each.line, "sense")] if odd else []
    # more than half of 18 V on one wire of a speaker pair toward the car
    single = {
        (each.contacts[0], each.word("key").replace("locked", "out")): each
        for each in direct
        if len(each.contacts) == 1
    }
    for (name, _), each in single.items():
        if name in [f"dash.car.{at}" for at in range(1, 9)] and 9 < (volts(each.word("reads")) or 0) <= 18:
            told.append((each.line, "live"))
    handed = [each for each in rows.of("handover") if each.what != "taken"]
    if handed and handed[-1].word("odd") == "all":
        told.append((handed[-1].line, "left odd"))
    told += [(line, kind) for line, kind in of_turn_on(rows)]
    told += [(line, "built") for line in not_as_planned(rows)[0]]
    for name in PAIRS:
        if said := rows.against(name):
            told.append((rows.looks(name)[-1].line, "plus" if "found +" in said else "heard"))
        # at the radio's side + on the wire charted −, and the speaker's where it is charted: no speaker is turned here
        at_radio = [each for each in rows.of_pair(name, "polarity") if all(".unit." in end for end in each.contacts)]
        at_radio = [each for each in at_radio if each.word("plus")]
        if at_radio and (rows.plus(name)[0], at_radio[-1].word("plus")) == PAIRS[name]:
            told.append((at_radio[-1].line, "radio plus"))
    assert sorted((each.record.place.line, each.kind) for each in contrary.contrary(wiring)) == sorted(told)
    lines = [each.record.place.line for each in contrary.contrary(wiring)]
    assert lines == sorted(lines)


def who_goes_on(rows: Rows, wiring: Wiring) -> None:
    """The last pause that nobody took over, what it doesn't say, and the first work of somebody else after it."""
    mine = [each for each in rows.said if not each.foreign]
    pauses = [at for at, each in enumerate(mine) if (each.verb, each.what) == ("handover", "paused")]
    after = mine[pauses[-1] + 1 :] if pauses else []
    past = any(each.verb == "handover" for each in after)
    made = handed_over.handed_over(wiring)
    if not pauses or past:
        assert made is None
        return
    paused = mine[pauses[-1]]
    others = [
        each.line
        for each in after
        if each.verb not in ("printed", "signed") and each.word("by").lower() not in ("", paused.word("by").lower())
    ]
    assert made is not None
    assert made.paused.place.line == paused.line
    assert set(made.missing) == {key for key in ("done", "left", "parts", "odd") if not paused.word(key)}
    went_on = made.went_on.place.line if made.went_on else 0
    assert went_on == (others[0] if others and paused.word("by") else 0)


def of_turn_on(rows: Rows) -> list[tuple[int, str]]:
    """amp.rem hangs on the plug's AMP-ON: below 1 V with the key out, 10 to 15 V while it runs."""
    last: dict[str, Said] = {}
    for each in rows.of("volts"):
        if each.contacts == ("amp.rem",):
            last["out" if each.word("key") == "locked" else each.word("key")] = each
    told = []
    if (each := last.get("out")) and (v := volts(each.word("reads"))) is not None and 1 <= v <= 18:
        told.append((each.line, "retained" if each.word("waited") else "asleep"))
    if (each := last.get("run")) and (v := volts(each.word("reads"))) is not None and v <= 18 and not 10 <= v <= 15:
        told.append((each.line, "volts"))
    return told


WAY = ("radio.AMP-ON", "dash.unit.10", "dash.car.10", "amp.rem")


def the_turn_on_wire(rows: Rows, wiring: Wiring) -> None:
    """More than 1 V lost on the way, or less than 10 V at its end while it runs; volts that stay with the key out."""
    last: dict[tuple[str, str], tuple[float, Said]] = {}
    for each in rows.of("volts"):
        v = volts(each.word("reads"))
        if v is not None and len(each.contacts) == 1 and not (each.word("signal") or each.word("step")):
            last[each.contacts[0], each.word("key")] = (v, each)
    low: dict[tuple[str, str], int] = {}
    for key in ("accessory", "run", "engine"):
        taken = [(name, *last[name, key]) for name in WAY if (name, key) in last]
        if len(taken) > 1 and taken[0][1] - taken[-1][1] > 1 + 1e-9:
            lost = [(one[1] - other[1], at) for at, (one, other) in enumerate(pairwise(taken))]
            _, at = max(lost, key=lambda each: (each[0], -each[1]))
            low[taken[at][0], taken[at + 1][0]] = taken[at + 1][2].line
        elif taken and key != "accessory" and taken[-1][1] < 10:
            low["", taken[-1][0]] = taken[-1][2].line
    made = turn_on_read.low_at_the_end(wiring)
    assert {
        (each.start.contact if each.start else "", each.end.contact): each.end.record.place.line for each in made
    } == low
    for each in made:
        assert each.woken == ("amp",)
        start = each.start.contact if each.start else WAY[1]  # the plug's half gives as much as the radio behind it
        assert each.path == WAY[WAY.index(start) : WAY.index(each.end.contact) + 1]
        assert each.lost_v == pytest.approx(each.start.reads_v - each.end.reads_v if each.start else 0.0)
    asleep = sorted(
        (each for (name, key), each in last.items() if name in WAY and key in ("out", "locked")), key=line_of
    )
    says = [each for each in asleep if each[0] < 1 or long_enough(each[1])]
    end = (says or asleep or [None])[-1]
    awake = end is not None and end[0] >= 1 and long_enough(end[1])
    found = turn_on_read.awake_when_asleep(wiring)
    assert [each.read.record.place.line for each in found] == ([end[1].line] if awake and end else [])
    silent = end is not None and end[0] >= 1 and not end[1].word("waited")
    assert [each.record.place.line for each in turn_on_read.not_waited(wiring)] == (
        [end[1].line] if silent and end else []
    )


def line_of(read: tuple[float, Said]) -> int:
    return read[1].line


def long_enough(each: Said) -> bool:
    """More than ten and a half minutes."""
    return each.word("waited") == "11 min"


# What is true of each contact as planned, by the joints of the job.
TRUE_OF = {
    **{key: {"intercepted", "used", "joined", "amp.out1"} for key in ("dash.car.1", "dash.car.2")},
    **{key: {"intercepted", "used", "joined", "amp.in2"} for key in ("dash.unit.3", "dash.unit.4")},
    **{key: {"tap", "used", "joined", "loc.in1"} for key in ("dash.car.5", "dash.car.6")},
    **{key: {"passed"} for key in ("dash.car.7", "dash.car.8", "dash.car.9")}, "amp.rem": {"used", "joined"},
}  # fmt: skip


def not_as_planned(rows: Rows) -> tuple[list[int], list[int]]:
    """Lines of records of what was built otherwise, and of those whose words say nothing that can be compared."""
    last = {name: each for each in rows.of("built") for name in each.contacts}
    other, unread = [], []
    for each in dict.fromkeys(each.line for each in last.values()):
        record = next(one for one in rows.said if one.line == each)
        words = [word.strip().lower() for word in record.word("is").split(",")]
        differ = {n for n in record.contacts if not {w for w in words if w != "as planned"} <= TRUE_OF[n]}
        if "no idea" in words:
            unread.append(each)
        elif any(last[name] is record for name in differ):
            other.append(each)
    return other, unread


def what_was_built(rows: Rows, wiring: Wiring) -> None:
    other, unread = not_as_planned(rows)
    made = as_built.as_built(wiring)
    assert [each.record.place.line for each in made[0]] == other
    assert [each.place.line for each in made[1]] == unread


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
def test_what_the_turn_on_wire_reads(start: int, folder: Path) -> None:
    all_agree(the_turn_on_wire, start, folder)


@STARTS
def test_who_goes_on(start: int, folder: Path) -> None:
    all_agree(who_goes_on, start, folder)


@STARTS
def test_what_was_built(start: int, folder: Path) -> None:
    all_agree(what_was_built, start, folder)


@STARTS
def test_what_speaks_against_the_plan(start: int, folder: Path) -> None:
    all_agree(against_the_plan, start, folder)
