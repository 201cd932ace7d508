"""`ringout explain`: what a finding means."""

from __future__ import annotations

import inspect
import re

import click

from harness.cli.screen import Refused, say


@click.command("explain", no_args_is_help=True)
@click.argument("code", required=False)
@click.option("--list", "show_list", is_flag=True, help="Every code with severity and title, a line each.")
def command(code: str | None, show_list: bool) -> int:
    """Say what a finding means, why it matters and what to do.

    \b
    Example:
      ringout explain C01
      ringout explain --list
    """
    from harness.checks import catalogue

    if show_list == (code is not None):
        raise click.UsageError("give either a CODE or --list")
    wanted = (code or "").strip().upper()
    entries = {entry.code: entry for entry in catalogue(wanted)}
    if show_list:
        say("\n".join(f"{entry.code} {entry.severity.name:<4} {entry.title}" for entry in entries.values()))
        return 0
    entry = entries.get(wanted)
    if entry is None:
        alike = [known.code for known in catalogue() if known.code[:1] == wanted[:1]]
        hint = f"those that begin alike: {' '.join(alike)}" if alike else "see ringout explain --list"
        raise Refused(f"there is no code {wanted}; {hint}")
    say(f"{entry.code} {entry.severity.name} {entry.title}")
    say(f"({entry.severity.meaning})\n")
    words = inspect.cleandoc(entry.doc)
    say(words)
    named = [code for code in dict.fromkeys(re.findall(r"\b[A-Z][0-9]{2}\b", words)) if code != wanted]
    others = {each.code: each.title for each in catalogue()} if named else {}
    if lines := [f"  {code} {others[code]}" for code in named if code in others]:
        say("\n".join(["\nNamed above:", *lines]))
    return 0
