"""`ringout schema`: the shape of the job file, for an editor."""

from __future__ import annotations

from typing import Literal

import click

from harness.cli.screen import say


@click.command("schema")
@click.option("--shop", "file", flag_value="shop", help="The schema of the shop file: drawer and rates.")
@click.option("--scope", "file", flag_value="scope", help="The schema of a scope: a car before it comes.")
@click.option("--part", "file", flag_value="part", help="The schema of a part file: plugs, looms and units.")
def command(file: Literal["shop", "scope", "part"] | None) -> int:
    """Print the JSON Schema of the job file, for an editor.

    With it an editor completes keys and marks mistakes while one types.
    Names that refer to nothing are found by check alone.

    \b
    Example:
      ringout schema > ringout.schema.json
      ringout schema --shop > shop.schema.json
      ringout schema --scope > scope.schema.json
      ringout schema --part > part.schema.json
      then write as the first line of a job:
      # yaml-language-server: $schema=ringout.schema.json
    """
    import json

    from harness.read.schema import schema

    say(json.dumps(schema(file or "job"), indent=2))
    return 0
