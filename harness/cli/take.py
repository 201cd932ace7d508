"""`ringout take`: a bundle laid down, after everything about it was checked."""

from __future__ import annotations

from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

import click

from harness.cli.screen import Refused, as_argument, complain, harmless, say

if TYPE_CHECKING:
    from harness.bundles.joining import Joined

_SHOWN = 8


@click.command("take", no_args_is_help=True)
@click.argument("file")
@click.argument("folder", metavar="[DIR]", required=False)
@click.option("--replace", is_flag=True, help="Files there that say something else give way; records never do.")
@click.option("--join", "joins", is_flag=True, help="Put the records that only the bundle has behind those here.")
@click.option("--json", "as_json", is_flag=True, help="Say what was laid down as JSON, for a script.")
def command(file: str, folder: str | None, replace: bool, joins: bool, as_json: bool) -> int:
    """Take in a bundle that another bay made.

    Names, links, sizes and digests are checked first; then all of it is laid into DIR or none. DIR is the
    job's name if not given. A file there that says something else stays, and nothing is laid down.

    Two bays that recorded on the same job: --join keeps the records there as they are and puts those that only the
    bundle has behind them. Job and parts must be the same.

    \b
    Example:
      ringout take larch.zip
      ringout take larch.zip jobs/larch
      ringout take larch.zip jobs/larch --join
    """
    from harness.bundles.arrival import MOST_BUNDLE, NotTaken, arrive
    from harness.bundles.joining import could_join, lay_joined
    from harness.bundles.laying import LOST, lay
    from harness.cli.files import bytes_of
    from harness.read.evidence import evidence_path

    if joins and replace:
        raise Refused("--join goes with the job as it is there, --replace with another: give one of the two")
    raw = bytes_of(Path(file), MOST_BUNDLE)
    offered: list[str] = []
    records, joined, target = "", None, Path()
    try:
        arrived = arrive(raw)
        job = arrived.manifest.job
        records = evidence_path(job)
        target = Path(folder) if folder else Path(PurePosixPath(job).stem)
        kinds = {each.path: each.kind for each in arrived.manifest.files}
        try:
            if joins:
                laid, joined = lay_joined(arrived.files, kinds, target, records)
            else:
                laid = lay(arrived.files, target, replace=replace, records=records)
        except NotTaken:
            offered = [] if joins else could_join(arrived.files, kinds, target, records)
            raise
    except NotTaken as refusal:
        told = [
            each for each in refusal.told if "--join" not in " ".join(offered) or each != f"{target / records}: {LOST}"
        ] + offered
        if as_json:
            _say_json({"bundle": file, "folder": None, "told": told})
        else:
            complain("\n".join([f"{harmless(file)}: nothing was laid down", *(f"  {harmless(t)}" for t in told)]))
        return 2
    if as_json:
        _say_json(
            {
                "bundle": file,
                "digest": arrived.digest,
                "folder": str(target),
                "job": str(target / job),
                "new": list(laid.new),
                "same": list(laid.same),
                "replaced": list(laid.replaced),
                "cut_off": list(laid.cut_off),
                "joined": None
                if joined is None
                else {
                    "shared": joined.shared,
                    "added": list(joined.added),
                    "doubled": joined.doubled,
                    "half": list(joined.half),
                    "both": [each._asdict() for each in joined.contests],
                },
                "told": [],
            }
        )
        return 0
    gave_way = "joined" if joined is not None else "replaced"  # only the records can have given way to their own
    counts = [f"{len(paths)} {word}" for word, paths in (("new", laid.new), ("there already", laid.same),
                                                        (gave_way, laid.replaced)) if paths]  # fmt: skip
    say(f"{harmless(file)}: {harmless(arrived.manifest.title or job)}")
    say(f"  digest {arrived.digest[:16]}; {len(arrived.files)} files into {target}: {', '.join(counts)}")
    if joined is not None:
        _say_joined(joined, target / records)
    for left in laid.cut_off:
        say(
            f"{harmless(left)}: an earlier take was cut off here, unless one is at work now. This bundle is whole; "
            "what gave way then lies in there, in old/. Look, then remove it."
        )
    say(f"Look at it      ringout check {as_argument(target / job)}")
    if records in arrived.files:
        say(f"Its records are of the car that it comes from. For another car of the same variant: ringout again "
            f"{as_argument(target / job)}")  # fmt: skip
    return 0


def _say_joined(joined: Joined, there: Path) -> None:
    """How many records came, where they stand, and what both bays recorded."""
    came, path = len(joined.added), harmless(str(there))
    if not came:
        say(f"  {path}: all records of the bundle were here already; none came")
    else:
        lines = f"line {joined.added[0]}" if came == 1 else f"lines {joined.added[0]} to {joined.added[-1]}"
        already = f"; {joined.doubled} of the bundle's were here already" if joined.doubled else ""
        say(f"  {path}: {came} record{'' if came == 1 else 's'} came, {lines}; what stood there stands{already}")
    for number in joined.half:
        say(f"  line {number} of the bundle's records is half a record and was left out; do again what it was about")
    for each in joined.contests[:_SHOWN]:
        older = ", though it was taken before" if each.older else ""
        lines = f"line {each.here} and line {each.added}"
        say(f"  {harmless(each.what)}: both bays recorded it, {lines}; the last one counts{older}")
    if joined.contests:
        say("  Where the other one should count: ringout record JOB strike LINE")
    if len(joined.contests) > _SHOWN:
        say(f"  and {len(joined.contests) - _SHOWN} more that both recorded; --json has them all")


def _say_json(whole: dict[str, object]) -> None:
    import json

    say(json.dumps(whole, indent=2))
