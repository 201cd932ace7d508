"""`ringout check`: read a job, prove it, report."""

from __future__ import annotations

import click

from harness.cli.screen import say


@click.command("check", no_args_is_help=True)
@click.argument("job")
@click.option("--json", "as_json", is_flag=True, help="Give the report as JSON, for a script.")
@click.option(
    "--need",
    type=click.Choice(["toned", "verified"]),
    help="Also demand the evidence: every used pair toned, or the verdict 'verified'.",
)
@click.option("--steps", is_flag=True, help="Play the order of work through, and look at the car between the steps.")
def command(job: str, as_json: bool, need: str | None, steps: bool) -> int:
    """Read a job, prove it and report what is wrong with it.

    Exit code: 0 no STOP or FIX, 1 some (or --need not met), 2 unreadable or misused.

    \b
    Example:
      ringout check larch.yaml
      ringout check larch.yaml --steps
      ringout check larch.yaml --need toned
      ringout check larch.yaml --json > larch.json
    """
    from harness.cli import report_text
    from harness.prove import prove

    proof = prove(job, steps=steps)
    against: list[str] = []
    if need == "verified" and proof.wiring is not None:
        from harness.graph.proven import open_evidence

        against = [each.words for each in open_evidence(proof.wiring).contrary]
    missing = report_text.shortfall(need, proof.report, against) if need else ""
    if as_json:
        from harness.cli import report_json

        say(report_json.text(proof, need, missing))
    else:
        say("\n".join(report_text.lines(proof, missing)))
    code = proof.report.exit_code
    return 1 if code == 0 and missing else code
