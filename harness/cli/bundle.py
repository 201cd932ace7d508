"""`ringout bundle`: a job with all its files in one."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from harness.cli.screen import Refused, as_argument, complain, harmless, say

if TYPE_CHECKING:
    from collections.abc import Iterable

    from harness.bundles.arrival import Arrived
    from harness.bundles.gathering import Fault, Gathered


@click.command("bundle", no_args_is_help=True)
@click.argument("job")
@click.option("-o", "--out", required=True, metavar="FILE", help="The bundle, one file.")
@click.option("--replace", is_flag=True, help="An older bundle of that name gives way.")
@click.option("--json", "as_json", is_flag=True, help="Say what is in it as JSON, for a script.")
def command(job: str, out: str, replace: bool, as_json: bool) -> int:
    """Put a job and all its files into one, for another bay.

    In it go the job, its part files, the shop file that it names, its records, their photos and settings files,
    with size and digest of each. The same files give the same bytes. The other bay says: ringout take FILE.

    \b
    Example:
      ringout bundle larch.yaml -o larch.zip
    """
    from harness.bundles.arrival import NotTaken, arrive
    from harness.bundles.gathering import gather
    from harness.bundles.packing import pack
    from harness.cli import report_text
    from harness.cli.files import file_to_write
    from harness.prove import Proof
    from harness.read.job import read_job
    from harness.read.troubles import Troubles
    from render.writers.files import write_whole

    target = file_to_write(out)
    troubles = Troubles()
    read = read_job(job, troubles)
    if read is None or troubles.refused:
        from harness.finding import Counts, Report

        report = Report("unreadable", "", Counts(0, 0, 0), (), tuple(troubles.findings))
        say("\n".join(report_text.lines(Proof(job, None, None, report))))
        complain("no bundle was made")
        return 2
    gathered = gather(read)
    faults = list(_shown(gathered.faults))
    held: dict[str, tuple[str, bytes]] = {}
    for file in gathered.files:
        if _same(Path(file.there), target):
            raise Refused(f"{out} is one of the job's own files")
        held[file.path] = (file.kind, _bytes(file.there))
    if faults:
        complain("\n".join([f"{harmless(job)}: no bundle was made", *faults]))
        return 2
    data = pack(gathered.job, read.title, held)
    try:
        arrived = arrive(data)  # looked at as the other bay will
    except NotTaken as refusal:
        complain("\n".join([f"{harmless(job)}: no bundle was made", *(f"  {harmless(t)}" for t in refusal.told)]))
        return 2
    if target.exists() and not replace and target.read_bytes() != data:
        raise Refused(f"{out} is there already and holds something else; --replace writes over it")
    write_whole(target, data)
    _report(job, target, gathered, arrived, as_json)
    return 0


def _bytes(there: str) -> bytes:
    from harness.bundles.arrival import MOST_FILE
    from harness.cli.files import bytes_of

    return bytes_of(Path(there), MOST_FILE)


def _same(one: Path, other: Path) -> bool:
    return other.exists() and one.samefile(other)


def _shown(faults: Iterable[Fault]) -> Iterable[str]:
    """Each with its place and the user's own line."""
    from harness.read.lines import shown_line

    for fault in faults:
        if fault.place is None:
            yield f"  {harmless(fault.message)}"
            continue
        yield f"  {harmless(str(fault.place))}  {harmless(fault.message)}"
        line = shown_line(fault.place)
        if line:
            yield f"      {harmless(line[0].strip())}"


def _report(job: str, target: Path, gathered: Gathered, arrived: Arrived, as_json: bool) -> None:
    if as_json:
        import json

        whole = {
            "bundle": str(target),
            "digest": arrived.digest,
            "job": arrived.manifest.job,
            "files": [file._asdict() for file in arrived.manifest.files],
            "missing": [fault.message for fault in gathered.missing],
        }
        say(json.dumps(whole, indent=2))
        return
    say(f"{harmless(job)}: {len(gathered.files)} file{'' if len(gathered.files) == 1 else 's'} in {target}")
    for file in arrived.manifest.files:
        say(f"  {file.kind:<8}  {harmless(file.path)}")
    if gathered.missing:
        say("Not in it:")
        for line in _shown(gathered.missing):
            say(line)
    say(f"Digest {arrived.digest[:16]}: the other bay sees the same one. It takes it with: ringout take "
        f"{as_argument(target.name)}")  # fmt: skip
