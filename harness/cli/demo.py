"""`ringout demo`: the sample jobs in a folder of one's own, one of them checked and printed."""

from __future__ import annotations

import hashlib
from pathlib import Path

import click

from harness.cli.packet import writable_folder, write
from harness.cli.screen import Refused, as_argument, say

# By this file the verb knows a folder that it made, and by the digests in it which of the copies
# somebody has worked on since.
_MARK = ".ringout-demo"
_SAMPLE = "hatch-plug-in.yaml"
SHOP_FILE = "shop.yaml"  # the drawer and the rates, which is no job
_PAPER = "packet"


@click.command("demo")
@click.argument("folder", metavar="[DIR]", default="ringout-demo")
def command(folder: str) -> int:
    """Copy the sample jobs, check one and print its packet.

    DIR is ringout-demo if not given. A folder with other things in it is left alone.

    \b
    Example:
      ringout demo
      ringout demo out
    """
    from harness.cli import report_text
    from harness.prove import prove

    target = writable_folder(folder)
    copied = _copy_samples(target)
    job = target / _SAMPLE
    proof = prove(job, steps=True)
    written = write(proof, target / _PAPER)
    paper = next((path for path in written if path.suffix == ".pdf"), target / _PAPER)
    others = [name for name in _jobs(copied) if name != _SAMPLE]
    more = f" and {len(written) - 4} more" if len(written) > 4 else ""
    say(f"Copied {len(others) + 1} sample jobs to {target}.")
    say(f"Checked {job}: {report_text.tally(proof.report)}.")
    say(f"  {report_text.verdict_words(proof.report)}")
    say(f"Printed its packet to {target / _PAPER}: {', '.join(path.name for path in written[:4])}{more}.")
    say("")
    say(f"Look at    {paper}")
    say(f"Then type  ringout check {as_argument(job)}")
    for name in others:
        say(f"           ringout check {as_argument(target / name)}")
    if proof.report.findings:
        say(f"           ringout explain {proof.report.findings[0].code}")
    return 0


def _jobs(copied: dict[str, bytes]) -> list[str]:
    """The names of the job files among the copies: they lie at the top, and say so in a line of their own."""
    return [
        name
        for name, data in copied.items()
        if "/" not in name and name.endswith(".yaml") and name != SHOP_FILE and b"\nringout:" in b"\n" + data
    ]


def _copy_samples(target: Path) -> dict[str, bytes]:
    """Copies the samples. Gives each file's name, with `/`, and its bytes, in the order of the names.

    Raises Refused where that would destroy something that isn't ours.
    """
    from harness.assets import folder
    from render.writers.files import write_whole

    source = folder("samples")
    wanted = {
        path.relative_to(source).as_posix(): path.read_bytes()
        for path in sorted(source.rglob("*"))
        if path.is_file() and "__pycache__" not in path.parts
    }
    known = _known_digests(target)
    for name, data in wanted.items():
        there = target / name
        if there.is_file() and there.read_bytes() != data and _digest(there.read_bytes()) != known.get(name):
            raise Refused(f"{there} was changed since the demo wrote it; name another folder")
    # The mark goes first: a disk that fills up on the way leaves a folder that is known as the demo's.
    mark = "".join(f"{_digest(data)}  {name}\n" for name, data in wanted.items())
    target.mkdir(parents=True, exist_ok=True)
    write_whole(target / _MARK, mark.encode("utf-8"))
    for name, data in wanted.items():
        path = target / name
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(path, data)
    return wanted


def _known_digests(target: Path) -> dict[str, str]:
    """What an earlier run wrote into the folder: name to digest. Empty for a new or empty folder.

    Raises Refused where the folder holds something and no earlier run made it.
    """
    if not target.is_dir():
        return {}
    mark = target / _MARK
    if not mark.is_file():
        if any(target.iterdir()):
            raise Refused(f"{target} has other things in it; name a new or empty folder")
        return {}
    rows = (line.partition("  ") for line in mark.read_text(encoding="utf-8").splitlines())
    return {name: digest for digest, _, name in rows}


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
