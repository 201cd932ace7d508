"""Records of more than one kind, of more than one person, of another car: one check at a time, read off by hand.

No outside source: the rules are those that `ringout explain` prints of each code.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove
from tests.checks.alone import alike, recorded
from tests.checks.marks import FOLDER
from tests.checks.test_alone_records import FL, FR, JOB, READ
from tests.checks.test_alone_trials import VOICES
from tests.graph.test_contrary_rules import JOB as CONTRARY

TURNED_AWAY = "Turned away, {} still play{}: channels are crossed.".format


@pytest.mark.parametrize(
    ("records", "messages"),
    [
        # FL and FR in front, RL behind; FL and RL on the left, FR on the right
        (("plays: radio, faded: rear, heard: RL",), []),
        (("plays: radio, faded: rear, heard: none",),
         ["radio, fader full rear: nothing answered; as planned RL must. RL stays silent."]),
        (("plays: radio, balanced: left, heard: none",),
         ["radio, balance full left: nothing answered; as planned FL and RL must. FL and RL stay silent."]),
        (("plays: radio, faded: rear, heard: RL FL",),
         [f"radio, fader full rear: RL and FL answered; as planned RL must. {TURNED_AWAY('FL', 's')}"]),
        (("plays: radio, faded: rear, heard: RL FL FR",),
         [f"radio, fader full rear: RL and FL and FR answered; as planned RL must. {TURNED_AWAY('FL and FR', '')}"]),
        # one that is right before one that isn't
        (("plays: radio, balanced: left, heard: FL RL", "plays: radio, faded: front, heard: FL FR RL"),
         [f"radio, fader full front: FL and FR and RL answered; as planned FL and FR must. {TURNED_AWAY('RL', 's')}"]),
        # an output that was played alone tells it already; but for the one that it doesn't name
        (("plays: radio.RL, heard: FL", "plays: radio, faded: rear, heard: FL"), ["radio RL was played and FL"]),
        (("plays: radio.RL, heard: FL", "plays: radio, faded: rear, heard: FL FR"),
         ["radio RL was played and FL answered", "radio, fader full rear: FL and FR answered"]),
    ],
)  # fmt: skip
def test_fader_and_balance(tmp_path: Path, records: tuple[str, ...], messages: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, "C27", records, JOB)], messages)


def test_a_fader_at_the_rear_of_a_car_without_rear_speakers(tmp_path: Path) -> None:
    job = JOB.replace("RL", "FL-TW")
    (finding,) = recorded(tmp_path, "C27", ("plays: radio, faded: rear, heard: FL",), job)
    assert finding.message.startswith("radio, fader full rear: FL answered; as planned no speaker must. Turned away,")


@pytest.mark.parametrize(
    ("code", "job", "records", "parts"),
    [
        # of another car: a colour, a lamp, a tone with the radio on, a joint
        ("A10", READ, ("seen: dash.car.2, colour: GY", "seen: dash.car.1, colour: RD, car: Hazel van"), []),
        ("G09", READ, ("volts: dash.car.4, reads: 12 V, tool: test lamp, car: Hazel van",), []),
        ("G09", READ, ("volts: dash.car.4, reads: 12 V, tool: test lamp, car: Hazel van",
                       "volts: dash.car.6, reads: 12 V, tool: test lamp"), ["A test lamp was used at dash cavity 6"]),
        ("C21", JOB, (f"{FL}, car: Hazel van",), []),
        # a lamp on a wire that leads to what it harms, of which its name says nothing
        ("G09", READ.replace("4: unknown BU", "4: CAN-H BU"), ("volts: dash.car.4, reads: 12 V, tool: lamp",),
         ["A test lamp was used at dash cavity 4 (blue, CAN-H), car side, "]),
        # a second difference behind one that is told as a joint that isn't made
        ("J04", JOB, ("built: dash.car.1/5, is: capped", "built: dash.car.2/6, is: RL"),
         ["dash cavity 2 (grey, FR+), car side and dash cavity 6 (grey with black stripe, FR−), car side: planned"]),
    ],
)  # fmt: skip
def test_one_record_before_another(
    tmp_path: Path, code: str, job: str, records: tuple[str, ...], parts: list[str]
) -> None:
    findings = recorded(tmp_path, code, records, job)
    alike([each.message for each in findings], parts)
    assert all(" It leads to " not in each.message for each in findings)


@pytest.mark.parametrize(
    ("carries", "at", "part"),
    [
        # a data wire by its own name; the others by what their plug carries, but for its ground
        ("", 3, ""), ("", 4, "a data wire: a lamp pulls it down"), ("", 6, ""),
        ("SRS", 3, "a restraint wire: a lamp's current can fire a charge"), ("SRS", 4, "a data wire: a lamp"),
        ("SRS", 6, ""), ("HV", 3, "a high-voltage wire."), ("HV", 6, ""),
    ],
)  # fmt: skip
def test_a_lamp_at_a_plug_that_carries_something(tmp_path: Path, carries: str, at: int, part: str) -> None:
    job = READ.replace("4: unknown BU", "4: CAN-H BU").replace("6: empty", "6: GND BK")
    if carries:
        job = job.replace("    unit: radio\n", f"    unit: radio\n    carries: {carries}\n")
    findings = recorded(tmp_path, "G09", (f"volts: dash.car.{at}, reads: 12 V, tool: lamp",), job)
    alike([each.message for each in findings], [part] * bool(part))


WHOLE = "done: radio out, left: joints, parts: in the boot, odd: none"
PAUSED = "JM paused the job on 2026-03-02 and didn't say {}: the next person has to guess.".format


@pytest.mark.parametrize(
    ("pause", "after", "parts"),
    [
        (f"by: JM, handover: paused, {WHOLE}", "by: JM", []),
        (f"by: JM, handover: paused, {WHOLE}", "by: RK", ["JM paused the job, and RK went on without a record of"]),
        ("by: JM, handover: paused, done: radio out, left: joints, parts: in the boot", "by: JM",
         [PAUSED("what is odd")]),
        ("by: JM, handover: paused, left: joints, odd: none", "by: JM",
         [PAUSED("what is done, where the parts are")]),
        # nobody wrote who paused it, so nobody else can have gone on
        ("handover: paused, done: radio out, left: joints, parts: in the boot", "by: RK",
         ["Nobody named paused the job on 2026-03-02 and didn't say what is odd"]),
    ],
)  # fmt: skip
def test_a_job_that_was_paused(tmp_path: Path, pause: str, after: str, parts: list[str]) -> None:
    path = tmp_path / "job.yaml"
    path.write_text(JOB, encoding="utf-8")
    lines = f"- {{when: 2026-03-02 17:00, {pause}}}\n- {{when: 2026-03-03 08:10, {after}, {FR}}}\n"
    path.with_name("job.evidence.yaml").write_text(lines, encoding="utf-8")
    report = prove(path, mends=False).report
    alike([each.message for each in report.findings if each.code == "J05"], parts)


@pytest.mark.parametrize(("kind", "danger"), [("warning", True), ("voice", False), ("other", False)])
def test_what_fails_since_the_work(tmp_path: Path, kind: str, danger: bool) -> None:
    """A warning that stays silent is a danger, a voice that one misses is none. Told where the job has it."""
    job = VOICES.replace(
        "navigation voice: radio > spk.FL", f"navigation voice: {{from: radio, to: [spk.FL], kind: {kind}}}"
    )
    records = ("before: navigation voice, result: works", "after: navigation voice, result: silent")
    (finding,) = recorded(tmp_path, "J21", records, job)
    assert (" A warning or a call that stays silent is a danger." in finding.message) == danger
    row = job[: job.index("  navigation voice:")].count("\n") + 1
    assert [spot.place.line for spot in finding.places] == [2, row]


def test_what_nobody_tried_since_is_told_where_the_job_has_it(tmp_path: Path) -> None:
    """With its trial before; of what the job doesn't list the trial is the place."""
    records = ("before: navigation voice, result: works", "before: phone voice, result: works",
               "before: seat massage, result: works", "after: phone voice, result: works")  # fmt: skip
    other, one = recorded(tmp_path, "J06", records, VOICES)  # the file of the records first
    row = VOICES[: VOICES.index("  navigation voice:")].count("\n") + 1
    assert [spot.place.line for spot in one.places] == [row, 1]
    assert [spot.place.line for spot in other.places] == [3]


def test_pairs_that_a_meter_shows_to_be_none(tmp_path: Path) -> None:
    """1/2 and 5/6 read open, 1/6 and 5/2 as a speaker: each wire with the other pair's. Told with all four readings."""
    report = prove(FOLDER / "A12/bad_read_across.yaml", mends=False).report
    (finding,) = (each for each in report.findings if each.code == "A12")
    assert " more." not in finding.message
    assert [spot.name for spot in finding.places] == ["dash", "1/2", "5/6", "1/6", "5/2"]


@pytest.mark.parametrize(
    ("code", "records", "part"),
    [
        ("J26", ("checked: J1, found: loose",), "joint J1: found loose"),
        ("J26", ("checked: J1, found: tug",), ""), ("J26", ("built: J1, is: not made",), "joint J1: planned"),
        ("J26", ("checked: J1, result: wrong",), "joint J1: found wrong"),
        # RL has no joint in this job
        ("C27", ("plays: radio.RL, heard: FL",), "radio RL was played and FL answered; as planned no speaker must."),
        ("C27", ("plays: radio.RL, heard: none",), ""),
    ],
)  # fmt: skip
def test_what_is_said_of_one_record(tmp_path: Path, code: str, records: tuple[str, ...], part: str) -> None:
    job = JOB.replace("    dash.unit.RL: amp.in3\n", "")
    alike([each.message for each in recorded(tmp_path, code, records, job)], [part] * bool(part))


@pytest.mark.parametrize(
    ("says", "who"),
    [
        ("by: JM, name: BK, who: the shop", "BK"),
        ("by: JM, who: the shop", "the shop"),
        ("by: JM", "JM"),
        ("", "somebody"),
    ],
)
def test_who_signed_is_named(tmp_path: Path, says: str, who: str) -> None:
    path = tmp_path / "job.yaml"
    path.write_text(VOICES, encoding="utf-8")
    said = ", ".join(filter(None, ("when: 2026-03-02 17:00", "signed: lost, lost: [navigation voice]", says)))
    path.with_name("job.evidence.yaml").write_text(
        "- {when: 2026-03-02 09:10, by: JM, before: navigation voice, result: works}\n"
        f"- {{when: 2026-03-02 16:00, by: JM, after: navigation voice, result: silent}}\n- {{{said}}}\n",
        encoding="utf-8",
    )
    report = prove(path, mends=False).report
    (finding,) = (each for each in report.findings if each.code == "J12")
    assert finding.message == (
        f"navigation voice will be lost, and {who} signed for that; the customer's signature is missing."
    )


@pytest.mark.parametrize(("reads", "count"), [("0.99 ohm", 1), ("1 ohm", 0), ("1.4 ohm", 0)])
def test_two_pairs_that_touch(reads: str, count: int, tmp_path: Path) -> None:
    """15 ft of No. 24 each way are 0.77 ohm and a meter's leads 0.2: what meets in the car reads below 1 ohm."""
    record = f"ohm: dash.car.5/7, reads: {reads}, unplugged: dash"
    assert len(recorded(tmp_path, "A19", (record,), CONTRARY)) == count
