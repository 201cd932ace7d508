"""`ringout schema`: the shape of the job file, for an editor."""

from __future__ import annotations

import click

from harness.cli.screen import say


@click.command("schema")
@click.option("--shop", is_flag=True, help="The schema of the shop file: drawer and rates.")
def command(shop: bool) -> int:
    """Print the JSON Schema of the job file, for an editor.

    With it an editor completes keys and marks mistakes while one types.
    Names that refer to nothing are found by check alone.

    \b
    Example:
      ringout schema > ringout.schema.json
      ringout schema --shop > shop.schema.json
      then write as the first line of a job:
      # yaml-language-server: $schema=ringout.schema.json
    """
    import json

    from harness.read.schema import schema

    say(json.dumps(schema(shop=shop), indent=2))
    return 0
