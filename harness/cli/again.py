"""`ringout again`: the next car of the same variant."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from harness.cli.screen import Refused, as_argument, complain, harmless, say

if TYPE_CHECKING:
    from harness.again.recheck import Recheck
    from harness.model.job import Car
    from harness.prove import Proof


@click.command("again", no_args_is_help=True)
@click.argument("job")
@click.option("--car", required=True, metavar="TEXT", help='The car\'s name, or fields: "name: Larch 2, year: 2023".')
@click.option("-o", "--out", metavar="NEW", help="The new job file; else the job's name with the next number.")
@click.option("--json", "as_json", is_flag=True, help="Give the list of what to recheck as JSON, for a script.")
def command(job: str, car: str, out: str | None, as_json: bool) -> int:
    """Start the next car of the same variant.

    Facts and joints are kept, with comments and order; records are not: nothing is toned on this car yet.
    What to look at, tone and measure again is listed. A file that is there already is never written over.

    \b
    Example:
      ringout again larch.yaml --car "Larch estate, ticket 4712"
      ringout again larch.yaml --car "name: Larch estate, year: 2023, steering: right" -o larch-4712.yaml
    """
    from harness.again.asked import asked_fields
    from harness.again.contradicted import contradictions
    from harness.again.next_car import with_car
    from harness.again.recheck import in_order, rechecks
    from harness.again.refused import NotChanged
    from harness.again.turned_there import turned_there
    from harness.cli import report_text
    from harness.prove import prove, prove_text
    from render.writers.files import write_whole

    try:
        fields = asked_fields(car)
    except NotChanged as refusal:
        complain("\n".join(map(harmless, refusal.told)))
        return 2
    old = prove(job, mends=False)
    if old.wiring is None or old.job is None:
        say("\n".join(report_text.lines(old)))
        complain("no job was made")
        return 2
    new = _new_file(Path(job), out)
    with open(job, "rb") as stream:
        text = stream.read().decode("utf-8")
    try:
        made = with_car(text, job, str(new), fields)
    except NotChanged as refusal:
        complain("\n".join([f"{harmless(job)}: no job was made", *(f"  {each}" for each in refusal.told)]))
        return 2
    proof = prove_text(made, str(new))
    if proof.wiring is None:
        say("\n".join(report_text.lines(proof)))
        complain("no job was made: with this car it can't be read")
        return 2
    _another_car(old.job.car, proof.wiring.job.car)
    wrong = contradictions(old.wiring, old.report.findings)
    listed = in_order([*wrong, *turned_there(old.wiring, proof.wiring), *rechecks(proof.wiring, old.job.car)])
    write_whole(new, made.encode("utf-8"))
    if as_json:
        _say_json(job, new, proof, listed)
    else:
        _report(job, new, proof, listed)
    return 0


MOST_TRIED = 10_000


def _another_car(old: Car | None, new: Car | None) -> None:
    """Raises Refused where the next car can't be told from the first: records hold for a car of their name and year."""
    if old is None or new is None or not old.name:
        return
    same = [" ".join(f"{car.name} {car.year}".lower().split()) for car in (old, new)]
    if same[0] == same[1]:
        name = " ".join(f"{new.name} {new.year}".split())
        year = f", year: {new.year}" if new.year else ""
        raise Refused(
            f"{name} is the car of the old job, and records are told apart by the car's name and year: those of one "
            f"would pass for the other's. Write what tells them apart, its ticket or plate: "
            f'--car "name: {new.name} ticket 2{year}"'
        )


def _new_file(job: Path, out: str | None) -> Path:
    """Where the new job goes. Raises Refused where something is there, or records that would be taken for its own."""
    from harness.cli.files import file_to_write

    if out is not None:
        return file_to_write(out, replace=False)
    stem, ending = os.path.splitext(job.name)
    number = 2
    counted = re.fullmatch(r"(.*?)-([0-9]{1,4})", stem)
    if counted:
        stem, number = counted[1], int(counted[2]) + 1
    for tried in range(number, number + MOST_TRIED):
        if not _taken(made := job.with_name(f"{stem}-{tried}{ending}")):
            return made
    raise Refused(f"{job.with_name(f'{stem}-{number}{ending}')} and the next {MOST_TRIED} are there; name one with -o")


def _taken(new: Path) -> bool:
    from harness.read.evidence import evidence_path

    return any(os.path.lexists(path) for path in (str(new), evidence_path(str(new))))


def _report(job: str, new: Path, proof: Proof, listed: list[Recheck]) -> None:
    from harness.again.recheck import KINDS
    from harness.cli import report_text

    assert proof.job is not None
    parts = proof.job.parts
    plugs = sum(not plug.inline for plug in parts.plugs.values())
    name = proof.job.car.name if proof.job.car is not None else ""
    say(f"{new}: {harmless(name) or 'the next car'}, from {harmless(job)}")
    say(f"  kept: {_many(plugs, 'plug')}, {_many(len(parts.looms), 'loom')}, {_many(len(proof.job.joints), 'joint')}; "
        "no records: nothing is verified on this car")  # fmt: skip
    say(f"  {report_text.verdict_words(proof.report)}")
    if any(each.kind == "wrong" for each in listed):
        say("")
        say(
            f"!! {harmless(job)} holds tones that its chart doesn't agree with, and the new job begins with that chart."
        )
        say(f"   Put the chart right first: ringout check {as_argument(job)} offers how; then make this job anew.")
    last = ""
    for number, each in enumerate(listed, 1):
        if each.kind != last:
            say("")
            say(f"{KINDS[each.kind]}:")
            last = each.kind
        known = f": {harmless(each.known).rstrip('.')}" if each.known else ""
        say(f"  {number:>2}. {harmless(each.what)}{known}. {harmless(each.do)}")
    say("")
    say(f"Look at it    ringout check {as_argument(new)}")
    say(f"Its paper     ringout packet {as_argument(new)} -o DIR")


def _many(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


def _say_json(job: str, new: Path, proof: Proof, listed: list[Recheck]) -> None:
    import json

    counts = proof.report.counts
    whole = {
        "job": str(new),
        "from": job,
        "verdict": proof.report.verdict,
        "counts": counts._asdict(),
        "recheck": [
            {
                "kind": each.kind,
                "what": each.what,
                "known": each.known,
                "do": each.do,
                "file": each.place.file,
                "line": each.place.line,
            }
            for each in listed
        ],
    }
    say(json.dumps(whole, indent=2))
