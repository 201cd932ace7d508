"""`ringout take`: a bundle laid down, after everything about it was checked."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

import click

from harness.cli.screen import as_argument, complain, harmless, say


@click.command("take", no_args_is_help=True)
@click.argument("file")
@click.argument("folder", metavar="[DIR]", required=False)
@click.option("--replace", is_flag=True, help="Files there that say something else give way; records never do.")
@click.option("--json", "as_json", is_flag=True, help="Say what was laid down as JSON, for a script.")
def command(file: str, folder: str | None, replace: bool, as_json: bool) -> int:
    """Take in a bundle that another bay made.

    Names, links, sizes and digests are checked first; then all of it is laid into DIR or none. DIR is the
    job's name if not given. A file there that says something else stays, and nothing is laid down.

    \b
    Example:
      ringout take larch.zip
      ringout take larch.zip jobs/larch
    """
    from harness.bundles.arrival import MOST_BUNDLE, NotTaken, arrive
    from harness.bundles.laying import lay
    from harness.cli.files import bytes_of
    from harness.read.evidence import evidence_path

    raw = bytes_of(Path(file), MOST_BUNDLE)
    try:
        arrived = arrive(raw)
        job = arrived.manifest.job
        records = evidence_path(job)
        target = Path(folder) if folder else Path(PurePosixPath(job).stem)
        laid = lay(arrived.files, target, replace=replace, records=records)
    except NotTaken as refusal:
        if as_json:
            _say_json({"bundle": file, "folder": None, "told": list(refusal.told)})
        else:
            complain(
                "\n".join([f"{harmless(file)}: nothing was laid down", *(f"  {harmless(t)}" for t in refusal.told)])
            )
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
                "told": [],
            }
        )
        return 0
    counts = [f"{len(paths)} {word}" for word, paths in (("new", laid.new), ("there already", laid.same),
                                                        ("replaced", laid.replaced)) if paths]  # fmt: skip
    say(f"{harmless(file)}: {harmless(arrived.manifest.title or job)}")
    say(f"  digest {arrived.digest[:16]}; {len(arrived.files)} files into {target}: {', '.join(counts)}")
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


def _say_json(whole: dict[str, object]) -> None:
    import json

    say(json.dumps(whole, indent=2))
