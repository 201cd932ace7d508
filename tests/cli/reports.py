"""Reports written by hand, so that what the command prints can be tested without proving anything."""

from __future__ import annotations

from dataclasses import dataclass, replace

from harness.finding import Counts, Edit, Finding, Mend, Report, Severity, Spot, Unchecked
from harness.place import Place

TEXT = "ringout: 1\njoints:\n  crimp:\n    T1.car.FL: dsp.out1\n"
FILE = "elm.yaml"


@dataclass(frozen=True)
class HandProof:
    """Has what the command line asks of a proof, and nothing more."""

    report: Report
    job_path: str = FILE
    text: str = TEXT
    wiring: None = None

    def source_lines(self, place: Place) -> tuple[str, int] | None:
        return self.text.splitlines()[place.line - 1], place.column - 1


NOTE = Finding(
    "B02",
    Severity.NOTE,
    "Even number of reversals",
    (Spot(Place(FILE, 1, 1), "dash.FL"),),
    "Cancels.",
    "Note it.",
)
STOP = Finding(
    "C01", Severity.STOP, "Two outputs on one wire",
    (Spot(Place(FILE, 4, 16), "dsp.out1+"), Spot(Place(FILE, 2, 1), "radio.FL+")),
    "Two outputs drive one wire, 8.5 V and 17 V into 4 Ω.", "Open the radio side.",
    ("radio.FL+", "dash.1", "dsp.out1+"),
    Mend("Move the joint.", (Edit(Place(FILE, 4, 5), "T1.car.FL: dsp.out1", "T1.unit.FL: dsp.in1"),)),
)  # fmt: skip

STOPPED = Report("stop", "house", Counts(3, 1, 4), (Unchecked("supply", "no runs are given"),), (NOTE, STOP))
QUIET = Report("consistent-not-verified", "house", Counts(3, 1, 4), (), ())
TONED = replace(QUIET, counts=Counts(0, 0, 8))
VERIFIED = replace(TONED, verdict="verified")
UNREADABLE = Report(
    "unreadable", "", Counts(0, 0, 0), (),
    (Finding("R01", Severity.FIX, "Not YAML", (Spot(Place(FILE, 3, 3), "crimp"),), "No end.", "Close it."),),
)  # fmt: skip
