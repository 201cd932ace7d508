"""`ringout packet`: print the paper of a job."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from harness.cli.screen import Refused, as_argument, complain, harmless, say

if TYPE_CHECKING:
    from harness.prove import Proof

_LAST_SECOND = 253_402_300_799  # of the year 9999; a PDF's date has four digits for the year


@click.command("packet", no_args_is_help=True)
@click.argument("job")
@click.option("-o", "--out", required=True, metavar="DIR", help="Folder for the paper; made if missing.")
@click.option("--sheet", "sheets", multiple=True, metavar="NAME", help="Only this sheet; may be given again.")
def command(job: str, out: str, sheets: tuple[str, ...]) -> int:
    """Print the paper of a job: PDF, plain text and pictures.

    A job with findings is printed too, with its verdict on every page.
    A sheet named that has nothing to say of this job is told, and no file is written for it.
    Exit code: as for check, so 1 says that the paper shows a plan that isn't ready.

    \b
    Example:
      ringout packet larch.yaml -o paper
      ringout packet larch.yaml -o paper --sheet toning
    """
    from harness.cli import report_text
    from harness.prove import prove

    folder = writable_folder(out)
    proof = prove(job, steps=True)
    if proof.report.verdict == "unreadable":
        say("\n".join(report_text.lines(proof)))
        complain("no paper was printed")
        return 2
    written, empty = _print(proof, folder, sheets)
    say(report_text.verdict_words(proof.report))
    for name in empty:
        say(f"There is nothing to print on {name} in this job{'' if written else ', so no file was written'}.")
    say(f"{proof.job_path}: {report_text.tally(proof.report)}")
    for path in written:
        say(f"  {path}")
    if proof.report.findings:
        say(f"The findings in full: ringout check {as_argument(proof.job_path)}")
    return proof.report.exit_code


def writable_folder(text: str) -> Path:
    """The folder to write to; it need not exist yet.

    Raises Refused where the name is taken by a file, or the paper's date (SOURCE_DATE_EPOCH) is none. Whether
    one may write there shows when it is tried: a permission that was looked up can be wrong.
    """
    if not text.strip():
        raise Refused("-o wants the name of a folder")
    seconds = os.environ.get("SOURCE_DATE_EPOCH", "").strip()
    if seconds and not (seconds.isdecimal() and len(seconds) <= 12 and int(seconds) <= _LAST_SECOND):
        raise Refused(f"SOURCE_DATE_EPOCH is {harmless(seconds)[:40]!r}; it wants seconds since 1970, or to be unset")
    folder = Path(text)
    if folder.exists() and not folder.is_dir():
        raise Refused(f"{text} is a file; -o wants a folder")
    for parent in folder.parents:
        if parent.exists():
            if not parent.is_dir():
                raise Refused(f"{text} can't be made: {parent} is a file")
            break
    return folder


def write(proof: Proof, folder: Path) -> list[Path]:
    """Prints all sheets into the folder. Gives the files written."""
    return _print(proof, folder, ())[0]


def _print(proof: Proof, folder: Path, sheets: tuple[str, ...]) -> tuple[list[Path], list[str]]:
    """Prints the sheets named (none named: all) into the folder. Gives the files written, none where all are empty, and
    those of the sheets named that have nothing to say of this job, as one of readings before the first one.

    Raises Refused for a sheet that doesn't exist.
    """
    from render import documents
    from render.documents.masthead import masthead

    known = [kind.name for kind in documents.documents()]
    unknown = [name for name in sheets if name not in known]
    if unknown:
        raise Refused(f"there is no sheet {unknown[0]!r}; there are {', '.join(known)}")
    made = documents.by_kind(proof, sheets or None)
    empty = [name for name in dict.fromkeys(sheets) if not made[name]]
    if sheets and len(empty) == len(made):
        return [], empty
    return documents.write_packet(documents.together(proof, made), masthead(proof), folder), empty
