"""Wires behind an inline plug without a colour: told where one is worked on or toned and the one before has one.

The joint at C9 is the eighth of the job, J8.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import recoloured
from tests.graph.test_contrary_rules import JOB, recorded

BOOT = (
    "  boot:\n    place: boot\n"
    "    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}\n"
    "    cavities: {1/2: RL GN GN/BK}\nlooms:\n"
)
RL = "tone: C9.car.5/6, heard: RL"
TONED = "it was toned"


def told(folder: Path, found: str, *records: str, joints: str = "") -> list[tuple[str, str, str, str]]:
    job = JOB.replace("grounds:", f"inline: {{C9: sill, D9: door}}\nfound: [{found}]\ngrounds:")
    job = job.replace("looms:\n", BOOT).replace("    T1.car.C: spk.C\n", f"    T1.car.C: spk.C\n{joints}")
    made = recoloured.uncoloured_beyond(recorded(folder, *records, job=job))
    return [
        (plug, each.segment.a, each.before.text, each.what) for plug, beyond in made.items() for each in beyond
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("found", "records", "joints", "beyond"),
    [
        ("dash.RL > C9.5/6 > spk.RL", (RL,), "", [("5", "GN", TONED), ("6", "GN/BK", TONED)]),
        # nobody works on it, or only on the wire of another plug
        ("dash.RL > C9.5/6 > spk.RL", (), "", []),
        ("dash.RL > C9.5/6 > spk.RL", ("tone: dash.car.5/6, heard: RL",), "", []),
        # its colour is written behind the plug, of one wire of the two, or where it ends
        ("dash.RL > C9.5/6 BU BU/BK > spk.RL", (RL,), "", []),
        ("dash.5 > C9.5 BU > spk.RL+, dash.6 > C9.6 > spk.RL-", (RL,), "", [("6", "GN/BK", TONED)]),
        ("dash.RL > C9.5/6 > boot.RL > spk.RL", (RL,), "", []),
        # before the plug no colour is written either
        ("dash.RR > C9.5/6 > spk.RR", ("tone: C9.car.5/6, heard: RR",), "", []),
        # the first is not worked on, the second is
        ("dash.RL > C9.1/2 > spk.RL, dash.9 > C9.3 > D9.9", (), "    C9.car.3: eye.on\n",
         [("3", "RD", "J8 is made on it")]),
        ("dash.RR > C9.1/2 > spk.RR, dash.9 > C9.3 > D9.9", ("tone: C9.car.1/2, heard: RR",), "    C9.car.3: eye.on\n",
         [("3", "RD", "J8 is made on it")]),
    ],
)  # fmt: skip
def test_wires_without_a_colour(
    found: str, records: tuple[str, ...], joints: str, beyond: list[tuple[str, str, str]], tmp_path: Path
) -> None:
    assert told(tmp_path, found, *records, joints=joints) == [
        ("C9", f"C9.car.{cavity}", before, what) for cavity, before, what in beyond
    ]


def test_behind_two_plugs_the_nearest_colour_is_the_one_before(tmp_path: Path) -> None:
    made = told(tmp_path, "dash.RL > C9.5/6 BU BU/BK > D9.1/2 > spk.RL", "tone: D9.car.1/2, heard: RL")
    assert made == [("D9", "D9.car.1", "BU", TONED), ("D9", "D9.car.2", "BU/BK", TONED)]
    made = told(tmp_path, "dash.RL > C9.5/6 > D9.1/2 > spk.RL", "tone: D9.car.1/2, heard: RL")
    # the wire between the two plugs ends where it was toned; no colour is nearer than the dash's
    assert ("D9", "D9.car.1", "GN", TONED) in made
