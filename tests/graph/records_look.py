"""The second look at one row of records: what it says of pairs, outputs and functions, from plain data."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path

from harness.graph.wiring import Wiring
from harness.read.job import read_job
from harness.read.troubles import Troubles
from tests.graph.random_records import JOB, PAIRS, Said, random_records

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
        for each in self.looks(name):
            cavity = each.word("plus")
            if cavity and {"battery", "cell"} & set(each.word("how").split()) and name in BEHIND_A_CAPACITOR:
                cavity, idle = "", each.line
            if cavity:
                found, by_tone, idle = cavity, each.verb == "tone", 0
            elif each.verb == "tone" and by_tone:
                found = ""
        return found, idle

    def looks(self, name: str) -> list[Said]:
        """Tones and looks for +; at the half toward the unit it is the + of what plays, not of the speaker."""
        every = self.of_pair(name, "tone", "polarity")
        return [each for each in every if each.verb == "tone" or not any(".unit." in end for end in each.contacts)]

    def against(self, name: str) -> str:
        tones = self.of_pair(name, "tone")
        heard = tones[-1].word("heard").split() if tones else [name]
        said = f"charted {name}, heard {' '.join(heard)}"
        if name not in heard:
            return said
        found = self.plus(name)[0]
        if found not in ("", PAIRS[name][0]):
            return f"charted + {PAIRS[name][0]}, found + {found}"
        # no two speakers of the job hang on one pair: where another channel answers as well, its wires touch
        return said if {*heard} & (PAIRS.keys() - {name}) else ""

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
