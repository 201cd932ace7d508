"""What was tried, signed for, and read with a lamp or without the key: each told, or answered by another record.

No outside source: the rules are those that `ringout explain` prints of each code.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.checks.alone import alike, recorded
from tests.checks.marks import FOLDER
from tests.checks.test_alone_records import JOB, READ

VOICES = (FOLDER / "J12/bad_shop_signed.yaml").read_text(encoding="utf-8").replace("  reverse tone:", "  phone voice:")
BOTH = "lost: [navigation voice, phone voice]"
WORKED = tuple(f"before: {name}, result: works" for name in ("navigation voice", "phone voice"))


def _after(navigation: str, phone: str) -> tuple[str, ...]:
    return f"after: navigation voice, result: {navigation}", f"after: phone voice, result: {phone}"


def _tried(navigation: str, phone: str) -> tuple[str, ...]:
    """Both worked before; how they were after."""
    return (*WORKED, *_after(navigation, phone))


@pytest.mark.parametrize(
    ("records", "parts"),
    [
        # nobody signed; the shop alone did, for both, of which one works all the same
        (_tried("silent", "silent"), []),
        ((*_tried("silent", "silent"), f"signed: lost, {BOTH}"), ["navigation voice will be lost, and", "phone voice"]),
        ((*_tried("works", "silent"), f"signed: lost, {BOTH}"), ["phone voice will be lost, and JM signed for that"]),
        # the customer signed for one; by another's name; by the words of `who`
        ((*_tried("silent", "silent"), "signed: lost, lost: [navigation voice], who: the customer",
          "signed: lost, lost: [phone voice], name: BK"), ["phone voice will be lost, and BK signed for that"]),
        ((*_tried("silent", "silent"), f"signed: lost, {BOTH}, who: the shop"),
         ["navigation voice will be lost, and the shop signed", "phone voice will be lost, and the shop signed"]),
        ((*_tried("silent", "silent"), f"signed: lost, {BOTH}, who: 'BK, owner'"), []),
        # the customer's signature counts before the shop's and after it
        ((*_tried("silent", "silent"), f"signed: lost, {BOTH}, who: keeper", f"signed: lost, {BOTH}"), []),
        ((*_tried("silent", "silent"), f"signed: lost, {BOTH}", f"signed: lost, {BOTH}, who: Driver"), []),
        # one that the job doesn't list, tried before or not
        (("before: seat massage, result: works", "signed: lost, lost: [seat massage]"), ["seat massage will be lost"]),
        (("signed: lost, lost: [seat massage]",), []),
    ],
)  # fmt: skip
def test_who_signed_for_a_loss(tmp_path: Path, records: tuple[str, ...], parts: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, "J12", records, VOICES)], parts)


NAVIGATION, PHONE = "after: navigation voice, result: %s", "after: phone voice, result: %s"
SIGNED = "signed: lost, lost: [%s]"
BROKE = " and is silent after the work: as far as anybody can tell the work broke it."


@pytest.mark.parametrize(
    ("code", "records", "parts"),
    [
        # J06: nobody tried it since
        ("J06", (*WORKED, *_after("works", "works")), []), ("J06", (*WORKED, *_after("silent", "wrong")), []),
        ("J06", (*WORKED, NAVIGATION % "works"), ["phone voice worked before the work on 2026-03-02"]),
        ("J06", (*WORKED, PHONE % "works"), ["navigation voice worked before the work"]),
        ("J06", (*WORKED, *_after("works", "not tried")), ["phone voice worked before"]),
        ("J06", (*WORKED, PHONE % "works", SIGNED % "navigation voice"), []),
        ("J06", (*WORKED, "before: seat massage, result: works", *_after("works", "works")), ["seat massage worked"]),
        # J21: it was tried, and fails; signed for; it failed before; never tried before
        ("J21", (*WORKED, *_after("works", "works")), []), ("J21", (*WORKED, PHONE % "works"), []),
        ("J21", (*WORKED, *_after("works", "silent")), ["phone voice worked before" + BROKE]),
        ("J21", (*WORKED, *_after("not tried", "silent")), ["phone voice worked before" + BROKE]),
        ("J21", (*WORKED, *_after("silent", "silent")), ["navigation voice worked", "phone voice worked"]),
        ("J21", (*WORKED, *_after("silent", "silent"), SIGNED % "navigation voice"), ["phone voice worked before"]),
        ("J21", ("before: navigation voice, result: silent", *_after("silent", "silent")),
         ["phone voice was never tried before" + BROKE]),
        ("J21", ("before: navigation voice, result: not tried", *_after("silent", "works")), ["navigation voice"]),
        # J29: signed for as lost, and it works
        ("J29", (*WORKED, *_after("works", "works")), []),
        ("J29", (*WORKED, *_after("works", "silent"), SIGNED % "phone voice"), []),
        ("J29", (*WORKED, *_after("works", "works"), SIGNED % "phone voice"), ["phone voice is signed for as lost"]),
        # one that was tried since, before one that was signed for after the trial
        ("J29", (*WORKED, SIGNED % "navigation voice", *_after("works", "works"), SIGNED % "phone voice"),
         ["phone voice"]),
        ("J29", (*WORKED, PHONE % "works", SIGNED % "navigation voice, phone voice"), ["phone voice is signed for"]),
        ("J29", (*WORKED, *_after("silent", "works"), SIGNED % "navigation voice, phone voice"), ["phone voice is"]),
        ("J29", (*WORKED, *_after("works", "works"), SIGNED % "navigation voice, phone voice"),
         ["navigation voice is signed for as lost", "phone voice is signed for as lost"]),
    ],
)  # fmt: skip
def test_how_it_works_after(tmp_path: Path, code: str, records: tuple[str, ...], parts: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, code, records, VOICES)], parts)


@pytest.mark.parametrize(
    ("records", "parts"),
    [
        # 4 is charted unknown, 6 empty, 9 is ACC; told once a record, at the first wire that nobody knows
        (("volts: dash.car.9, reads: 12 V, tool: test lamp",), []),
        (("volts: dash.car.4, reads: 0 V, tool: meter",), []), (("volts: dash.car.4, reads: 0 V",), []),
        (("volts: dash.car.4, reads: 12 V, tool: Test Lamp",), ["A test lamp was used at dash cavity 4 (blue)"]),
        (("ohm: dash.car.9/4, reads: open, tool: lamp",), ["A test lamp was used at dash cavity 4 (blue)"]),
        (("ohm: dash.car.4/6, reads: open, tool: lamp",), ["A test lamp was used at dash cavity 4 (blue)"]),
        (("volts: dash.car.9, reads: 12 V, tool: lamp", "volts: dash.car.4, reads: 12 V, tool: meter",
          "volts: dash.car.6, reads: 0 V, tool: lamp"), ["A test lamp was used at dash cavity 6"]),
        # another record of it is no look at it
        (("volts: dash.car.4, reads: 12 V, tool: lamp", "volts: dash.car.4, reads: 0 V, tool: meter"), ["cavity 4"]),
        # looked at since; looked at before
        (("volts: dash.car.4, reads: 12 V, tool: lamp", "checked: dash.car.4, found: nothing"), []),
        (("checked: dash.car.4, found: nothing", "volts: dash.car.4, reads: 12 V, tool: lamp"), ["cavity 4 (blue)"]),
        (("volts: dash.car.4, reads: 12 V, tool: lamp", "checked: dash.car.6, found: nothing"), ["cavity 4 (blue)"]),
        (("ohm: dash.car.4/6, reads: open, tool: lamp", "checked: dash.car.4, found: nothing"), ["dash cavity 6"]),
    ],
)  # fmt: skip
def test_a_lamp_on_a_wire(tmp_path: Path, records: tuple[str, ...], parts: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, "G09", records, READ)], parts)


@pytest.mark.parametrize(
    ("record", "said"),
    [
        # a wire that nobody named leads to one data terminal; the lamp was held to that terminal itself
        ("volts: dash.car.4, reads: 12 V, tool: lamp", "cavity 4 (blue), car side, a data wire: a lamp pulls it down"),
        ("volts: face.CAN-H, reads: 12 V, tool: lamp", "A test lamp was used at face CAN-H, a data wire: a lamp pulls"),
    ],
)
def test_a_lamp_on_what_leads_to_a_unit(tmp_path: Path, record: str, said: str) -> None:
    job = READ.replace("units:\n", "units:\n  face: {kind: interface, terminals: [CAN-H, CAN-L]}\n")
    (finding,) = recorded(tmp_path, "G09", (record,), job + "  - dash.4 > face.CAN-H\n" * ("dash" in record))
    assert said in finding.message
    assert finding.message.endswith(" It leads to face CAN-H.") == ("dash" in record)


@pytest.mark.parametrize(
    ("chains", "how"),
    [
        # a pulse moves no cone through a capacitor
        ("dash.FL > spk.FL-TW", "a pulse of sound and a phase checker"),
        ("dash.FL > spk.FL-WF", "a battery pulse and a look at the cone"),
        ("dash.FL > spk.FL-TW\n  - dash.FL > spk.FL-WF", "a battery pulse and a look at the cone"),
        # the − of both speakers is one wire, the + of the woofer comes from elsewhere: only the tweeter answers here
        ("dash.FL > spk.FL-TW\n  - spk.FL-WF- > spk.FL-TW-", "a pulse of sound and a phase checker"),
    ],
)
def test_how_plus_is_found(tmp_path: Path, chains: str, how: str) -> None:
    job = READ.replace("- dash.FL > spk.FL\n", f"- {chains}\n").replace("found:", "cut: [dash.FL]\nfound:")
    job = job.replace("  FL FR:", "  FL-TW: {nominal: 4 ohm, capacitor: 4.7 uF}\n  FL-WF: {nominal: 4 ohm}\n  FR:")
    job += "joints:\n  crimp:\n    dash.car.FL: amp.out1\n"
    job = job.replace("speakers:\n", "  amp: {kind: amplifier, outputs: {out1: 50 W}, wakes: signal}\nspeakers:\n")
    (finding,) = recorded(tmp_path, "B07", ("tone: dash.car.1/7, charted: FL, heard: FL",), job)
    assert f"Find + by {how}, or by the marks at the speaker" in finding.do


@pytest.mark.parametrize(
    ("records", "parts"),
    [
        (("volts: dash.car.9, reads: 12.1 V, key: accessory",), []),
        (("volts: dash.car.9, reads: 12.1 V",), ["dash cavity 9 (red, ACC), car side: 12.1 V, and nobody wrote when."]),
        (("volts: dash.car.9",), ["dash cavity 9 (red, ACC), car side: no value, and nobody wrote when."]),
        # what plays has no key: by the signal, and by the step of the volume
        (("volts: dash.car.1, reads: 2 V, signal: 1 kHz",), []), (("volts: dash.car.1, reads: 2 V, step: 20",), []),
        # of another car
        (("car: Hazel van, volts: dash.car.9, reads: 12 V",), []),
        # other kinds of records; one with a key before one without, and the other way round
        (("ohm: dash.car.1/7, reads: 3.4 ohm", "volts: dash.car.9, reads: 12 V"), ["cavity 9"]),
        (("volts: dash.car.9, reads: 12 V", "volts: dash.car.9, reads: 0 V, key: out"), []),
        (("volts: dash.car.9, reads: 0 V, key: out", "volts: dash.car.9, reads: 12 V"), ["car side: 12 V"]),
        (("volts: dash.car.9, reads: 12 V", "volts: dash.car.3, reads: 0 V, key: out"), ["cavity 9"]),
        (("volts: dash.car.9, reads: 12 V", "volts: dash.car.3, reads: 0 V"), ["cavity 9", "cavity 3"]),
        # taken twice without it, it is one
        (("volts: dash.car.9, reads: 12 V", "volts: dash.car.9, reads: 11 V"), ["car side: 11 V, and nobody wrote"]),
    ],
)  # fmt: skip
def test_volts_and_the_key(tmp_path: Path, records: tuple[str, ...], parts: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, "J03", records, READ)], parts)


TURNED = "polarity: spk.FL, found: turned"
FACE = JOB.replace("units:\n", "units:\n  face: {kind: interface, terminals: [line+, line-]}\n")


@pytest.mark.parametrize(
    ("job", "joint"),
    [
        (JOB, "dash.car.FL: amp.out1"),
        # of two joints on the way the one next to the speaker
        (
            FACE.replace("dash.car.FL: amp.out1", "dash.car.FL: face.line\n    face.line: amp.out1"),
            "dash.car.FL: face.line",
        ),
        (
            FACE.replace("dash.car.FL: amp.out1", "face.line: amp.out1\n    dash.car.FL: face.line"),
            "dash.car.FL: face.line",
        ),
    ],
)
def test_where_a_turned_speaker_is_put_right(tmp_path: Path, job: str, joint: str) -> None:
    (finding,) = recorded(tmp_path, "B01", (TURNED,), job)
    assert f", {joint} (write `reversed`), for this car; or exchange its two leads at the speaker" in finding.do
    assert finding.places[0].place.line == job[: job.index(joint)].count("\n") + 1
    assert finding.places[0].name == "dash cavity 1 (white, FL+), car side"  # where the joint begins


def test_a_turned_speaker_that_no_joint_of_the_plan_leads_to(tmp_path: Path) -> None:
    """All as the car has it."""
    job = JOB[: JOB.index("cut: [")] + "found:\n  - dash.FL > spk.FL\n"
    (finding,) = recorded(tmp_path, "B01", (TURNED,), job)
    assert finding.do == "Exchange its two leads at the speaker and record `polarity: spk.FL, found: as marked`."
    assert finding.places[0].name == "speaker FL+"


NO_FEED, LIVE = "volts: dash.car.9, reads: 0 V, key: run", "volts: dash.car.1, reads: 5 V, key: run, unplugged: dash"


@pytest.mark.parametrize(
    ("code", "records", "parts"),
    [
        # a feed that isn't there is one thing, volts on a speaker's wire another, in either order
        ("J22", (NO_FEED,), ["dash cavity 9 (red, ACC), car side, key run: 0 V, planned 12 V"]), ("J22", (LIVE,), []),
        ("J23", (NO_FEED,), []),
        ("J23", (LIVE,), ["dash cavity 1 (white, FL+), car side, key run: 5 V, planned no feed"]),
        ("J22", (LIVE, NO_FEED), ["cavity 9"]), ("J22", (NO_FEED, LIVE), ["cavity 9"]),
        ("J23", (LIVE, NO_FEED), ["cavity 1"]), ("J23", (NO_FEED, LIVE), ["cavity 1"]),
    ],
)  # fmt: skip
def test_volts_against_the_plan(tmp_path: Path, code: str, records: tuple[str, ...], parts: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, code, records, READ)], parts)


GROUNDED = (FOLDER / "J23/bad_live_ground.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("job", "record", "why", "do"),
    [
        # a ground that has volts goes home by the shields; volts on a speaker's wire burn its coil
        (GROUNDED, "volts: amp.GND, reads: 12.6 V, key: run",
         "The ground is open or joined to a feed: current goes home by signal shields and burns them.",
         "Read the ground wire to bare metal and mend it, then read the volts again and add a record."),
        (READ, LIVE, "Something still feeds it: a voice coil burns, and so does what is put there to tone it.",
         ("Part the plug from its unit, no lead of yours on a unit; find what feeds the pair, read it again and add a "
         "record.")),
    ],
)  # fmt: skip
def test_what_volts_at_a_wrong_place_mean(tmp_path: Path, job: str, record: str, why: str, do: str) -> None:
    (finding,) = recorded(tmp_path, "J23", (record,), job)
    assert finding.message.endswith(f". {why}")
    assert finding.do == f"Key out, fuse at the battery out. {do}"
