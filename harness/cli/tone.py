"""`ringout tone`: a session at the car, by number keys."""

from __future__ import annotations

import os
from datetime import datetime

import click

from harness.cli.screen import Refused, say


@click.command("tone", no_args_is_help=True)
@click.argument("job")
@click.option("--by", metavar="NAME", help="Who records; asked for where it isn't given.")
@click.option("--section", metavar="NAME", help="Begin with this kind of work: before, response, tones, volts …")
@click.option(
    "--when", metavar="TIME", help="Date and time to write, for records entered later from paper: 2026-03-02 09:40."
)
def command(job: str, by: str | None, section: str | None, when: str | None) -> int:
    """A session at the car: one pair, output or reading at a time, by number keys.

    Each answer is held against what was expected and written into the evidence file before the next question. Stop
    and come back at any time: what is recorded isn't asked again.

    \b
    Example:
      ringout tone larch.yaml --by JM
      ringout tone larch.yaml --section outputs
    """
    from harness.cli import report_text
    from harness.cli.keys import Ended, keys
    from harness.cli.tone_screen import Screen
    from harness.prove import prove

    moment = _moment(when)
    proof = prove(job, mends=False)
    if proof.wiring is None:
        say("\n".join(report_text.lines(proof)))
        return 2
    with keys() as hand:
        screen = Screen(os.fspath(job), proof.wiring, proof.report, hand, by or "", moment)
        try:
            return screen.run(section or "")
        except Ended:
            say("")
            return screen.goodbye()


def _moment(when: str | None) -> str:
    """The date and time given, or empty for now. Raises Refused where it is none."""
    if when is None:
        return ""
    from harness.read.spec_evidence import WHEN

    try:
        if not WHEN.fits(when):  # it could not be read again
            raise ValueError(when)
        datetime.strptime(when, "%Y-%m-%d %H:%M")
    except ValueError:
        raise Refused(f"--when {when!r} is no date and time such as 2026-03-02 09:40") from None
    return when
