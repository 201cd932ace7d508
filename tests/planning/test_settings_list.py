"""The settings that a job relies on, read off its text by hand."""

from __future__ import annotations

from harness.planning.settings_list import SettingLine, settings_list
from harness.prove import prove_text
from tests.conftest import Wired

JOB = """
units:
  radio: {{kind: radio, outputs: {{FL FR: btl 8 V, SUB: 4 V grounded}}}}
  amp:
    kind: amplifier
    inputs: {{in1..2: 2..20 V differential}}
    outputs: {{out1..2: 50 W @ 4 ohm least 2 ohm}}
    routes: {{out1: in1 80.. Hz -6 dB, out2: in2 80.. Hz -6 dB}}
    bridges: out1+/out2-
    wakes: signal
    settings: amp-1.set
{amp}
  bass:
    kind: amplifier
    inputs: {{in1: 0.2..8 V grounded}}
    outputs: {{out1..2: 50 W @ 4 ohm least 2 ohm}}
    routes: {{out1..2: in1 1 ms}}
    bridges: out1+/out2-
{bass}
speakers:
  FL FR: {{place: doors, nominal: 4 ohm}}
  SUB: {{place: boot, nominal: 4 ohm}}
joints:
  solder at the seat with heat shrink:
    radio.FL: amp.in1
    radio.FR: amp.in2
    radio.SUB: bass.in1
    amp.out1: spk.FL
    amp.out2: spk.FR
    bass.out1+: spk.SUB+
    bass.out2-: spk.SUB-
"""
JOB = JOB.replace("{{out1..2: in1 1 ms}}", "{{out1: in1 1 ms, out2: in1 1 ms}}")


def lines(wired: Wired, amp: str = "", bass: str = "") -> dict[str, list[SettingLine]]:
    said = {"amp": f"    set: {amp}" if amp else "", "bass": f"    set: {bass}" if bass else ""}
    return {each.unit.name: list(each.lines) for each in settings_list(wired(JOB.format(**said)))}


def test_what_the_job_relies_on(wired: Wired) -> None:
    made = lines(wired)
    # off the job: amp wakes by signal, takes speaker wires, is not bridged, 80 Hz and -6 dB by its routes; bass takes a
    # line, is bridged, and both its outputs are 1 ms late; nothing is written as set
    assert made == {
        "amp": [
            SettingLine("signal sense", (), "on", None, None),
            SettingLine("input", (), "high level", None, None),
            SettingLine("bridge", ("out1/out2",), "off", None, None),
            SettingLine("high-pass", ("out1", "out2"), 80.0, None, None),
            SettingLine("gain", ("out1", "out2"), -6.0, None, None),
        ],
        "bass": [
            SettingLine("input", (), "low level", None, None),
            SettingLine("bridge", ("out1/out2",), "on", None, None),
            SettingLine("delay", ("out1", "out2"), 0.001, None, None),
        ],
    }


def test_what_is_set_stands_beside_it(wired: Wired) -> None:
    made = lines(
        wired,
        "{input: low level, signal sense: used, high-pass out1: 90 Hz, high-pass out2: 8 kHz, low-pass out1: unused}",
        "{bridge: unused}",
    )
    found = {(line.what, line.outputs): (line.is_set, line.agrees) for line in made["amp"]}
    # 90 Hz is 0.17 octaves from 80 Hz, less than a third; 8 kHz is not; low-pass is set, and no route says one
    assert found == {
        ("signal sense", ()): ("on", True), ("input", ()): ("low level", False),
        ("bridge", ("out1/out2",)): (None, None), ("high-pass", ("out1",)): ("90 Hz", True),
        ("high-pass", ("out2",)): ("8 kHz", False), ("low-pass", ("out1",)): ("off", None),
        ("gain", ("out1", "out2")): (None, None),
    }  # fmt: skip
    bridge = next(line for line in made["bass"] if line.what == "bridge")
    assert (bridge.planned, bridge.is_set, bridge.agrees) == ("on", "off", False)


def test_what_is_set_of_an_output_that_nothing_hangs_on_is_kept(wired: Wired) -> None:
    made = lines(wired, bass="{gain out2: -3 dB, signal sense: unknown}")["bass"]
    # nothing in the job relies on either
    assert SettingLine("gain", ("out2",), None, "-3 dB", None) in made
    assert SettingLine("signal sense", (), None, "unknown", None) in made


def test_what_is_relied_on_and_not_set_is_told_as_not_checked() -> None:
    def told(amp: str) -> list[str]:
        text = "ringout: 1\ntitle: T\npreset: house" + JOB.format(amp=f"    set: {amp}" if amp else "", bass="")
        report = prove_text(text, "job.yaml", mends=False).report
        return [each.what for each in report.unchecked if "`set`" in each.why]

    # off the job: of what amp relies on, gain is written and the rest is not
    assert told("{gain out1..2: -6 dB}") == [
        "signal sense at amp",
        "high-pass of out1 at amp",
        "high-pass of out2 at amp",
    ]
    # a unit of which nothing is written says nothing of its settings at all: the sheet says so
    assert told("") == []
