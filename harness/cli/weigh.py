"""`ringout weigh`: plug-in against solder-in, with the shop's own drawer and rates."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from harness.cli.screen import Refused, as_argument, complain, harmless, say

if TYPE_CHECKING:
    from harness.model.shop import Shop
    from harness.weighing.offers import Weighing


@click.command("weigh", no_args_is_help=True)
@click.argument("job", required=False)
@click.option(
    "--shop", "shop_file", metavar="FILE", help="The shop file; else the one that the job names, or shop.yaml."
)
@click.option("--take", "number", type=click.IntRange(1), metavar="N", help="Write the job with offer N in it.")
@click.option(
    "-o", "--out", metavar="NEW", help="With --take: the new job file; else the job's name with -N behind it."
)
@click.option("--paper", metavar="DIR", help="Print the comparison; with --take also quote, parts, cut list.")
@click.option("--before", metavar="SCOPE", help="The scope of a car that hasn't come yet; --paper prints its sheet.")
@click.option("--json", "as_json", is_flag=True, help="Give the offers as JSON, for a script.")
def command(
    job: str | None, shop_file: str | None, number: int | None, out: str | None, paper: str | None,
    before: str | None, as_json: bool,
) -> int:  # fmt: skip
    """Weigh looms against joints by hand: minutes, money, wires cut.

    From what must connect, all mixes of the drawer's looms and joints by hand that do it and pass the checks; at most
    seven are shown, none of which another one beats. The choice is yours: --take N writes that job. Without a JOB
    the shop file is read and listed as understood, defaults too. Exit code: 0, or 2 where something can't be
    read or done.

    \b
    Example:
      ringout weigh larch.yaml
      ringout weigh larch.yaml --shop bench-two.yaml --json
      ringout weigh larch.yaml --take 2 -o larch-loom.yaml
      ringout weigh larch.yaml --paper offers
      ringout weigh --shop bench-two.yaml
      ringout weigh --before scope.yaml --paper paper
    """
    if shop_file is not None and not shop_file:
        raise Refused("--shop names no file")
    if before is not None:
        from harness.cli import weigh_before

        if job is not None or number is not None or out is not None:
            raise Refused("--before weighs a car that hasn't come: give it without JOB, --take and -o")
        return weigh_before.run(before, shop_file, paper, as_json)
    if job is None:
        return _drawer(shop_file, as_json)
    if out is not None and number is None:
        raise Refused("-o says where --take N writes; say which offer is taken")
    from harness.cli import report_text
    from harness.cli.packet import writable_folder
    from harness.prove import prove
    from harness.read.shop import shop_path
    from harness.weighing.offers import weigh

    proof = prove(job, mends=False)
    if proof.wiring is None or proof.job is None:
        say("\n".join(report_text.lines(proof)))
        complain("a job that can’t be read can’t be weighed")
        return 2
    beside = shop_path(proof.job) if not proof.job.shop else ""
    shop, path = None, shop_file or shop_path(proof.job)
    if path:
        shop = _read(path, maps=False)
        if shop is None:
            return 2
    with open(job, "rb") as stream:
        text = stream.read().decode("utf-8")
    weighing = weigh(proof, text, shop)
    folder = writable_folder(paper) if paper is not None else None
    if number is not None:
        taken = _take(weighing, Path(job), number, out, as_json, "" if shop_file else beside)
        if taken == 0 and folder is not None:
            _print(weighing, folder, number, as_json)
        return taken
    if folder is not None:
        _print(weighing, folder, None, as_json)
        if not as_json:
            return 0
    if as_json:
        from harness.cli import weigh_json

        say(weigh_json.text(weighing))
        return 0
    from harness.cli import weigh_text

    say("\n".join(weigh_text.lines(weighing)))
    return 0


def _print(weighing: Weighing, folder: Path, number: int | None, quiet: bool) -> None:
    """The paper, and where it lies; not said between the lines of what a script reads."""
    from render.offers.paper import paper

    for path in paper(weighing, folder, number):
        if not quiet:
            say(f"  {path}")


def _read(path: str, *, maps: bool = True) -> Shop | None:
    """The shop, or None (and its findings shown) where its file has faults."""
    from harness.cli import report_text
    from harness.finding import Counts, Report
    from harness.prove import Proof
    from harness.read.shop import read_shop
    from harness.read.troubles import Troubles

    troubles = Troubles()
    shop = read_shop(path, troubles, maps=maps)
    if shop is not None and not troubles.refused:
        return shop
    report = Report("unreadable", "", Counts(0, 0, 0), (), tuple(troubles.findings))
    say("\n".join(report_text.lines(Proof(path, None, None, report))))
    complain("the shop file must be put right first")
    return None


def _drawer(shop_file: str | None, as_json: bool) -> int:
    if shop_file is None:
        raise Refused("name a job, or a shop file with --shop")
    shop = _read(shop_file)
    if shop is None:
        return 2
    from harness.cli import drawer

    say(drawer.as_json(shop) if as_json else "\n".join(drawer.as_text(shop)))
    return 0


def _take(weighing: Weighing, job: Path, number: int, out: str | None, as_json: bool, shop: str) -> int:
    """Writes the job of an offer; into another folder so that it reads from there, its `shop` file too."""
    import os

    from harness.cli import report_text
    from harness.cli.files import file_to_write
    from harness.mend.elsewhere import in_other_folder
    from harness.mend.page import CannotEdit
    from harness.prove import prove_text
    from harness.weighing.wording import title
    from render.writers.files import write_whole

    if number > len(weighing.offers):
        there = f"there are {len(weighing.offers)} offers" if weighing.offers else "there is no offer"
        raise Refused(f"there is no offer {number}; {there}")
    offer = weighing.offers[number - 1]
    stem, ending = os.path.splitext(job.name)
    new = file_to_write(str(job.with_name(f"{stem}-{number}{ending}")) if out is None else out, replace=False)
    try:
        text = in_other_folder(offer.text, str(job), str(new), shop)
    except CannotEdit as wrong:
        complain(f"no job was written: its part files can't be named from there\n  {wrong}")
        return 2
    proof = prove_text(text, str(new))
    if proof.wiring is None:
        say("\n".join(report_text.lines(proof)))
        complain("no job was written: from there it can't be read")
        return 2
    write_whole(new, text.encode("utf-8"))
    if as_json:
        from harness.cli import weigh_json

        say(weigh_json.taken_text(weighing, number, str(new)))
        return 0
    from harness.cli import weigh_text

    say(harmless(f"{new}: {title(offer)}, offer {number} of {job}"))
    say("\n".join(f"  {line}" for line in weigh_text.figures(weighing, offer)))
    if weighing.proof.job is not None and weighing.proof.job.records:
        say(f"  the records stay with {job}: what they prove of the car holds, and isn't copied")
    if "\n# steps:" in offer.text:
        say("  its steps were for another way and stand there as remarks")
    say("")
    say(f"Look at it    ringout check {as_argument(new)}")
    return 0
