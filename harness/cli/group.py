"""The verbs of `ringout`, each loaded only when it is called, and the last word on every mistake."""

from __future__ import annotations

import importlib
import os
from typing import Any

import click

from harness import __version__
from harness.cli.screen import Refused, complain, say

# The one line that `ringout --help` gives on each verb. It stands here so that the list can be
# shown without loading the verbs; a test compares it with the verbs' own first lines.
VERBS = {
    "demo": "Copy the sample jobs, check one and print its packet.",
    "check": "Read a job, prove it and report what is wrong with it.",
    "packet": "Print the paper of a job: PDF, plain text and pictures.",
    "tone": "A session at the car: one pair, output or reading at a time, by number keys.",
    "record": "Write one record into the evidence file: read, seen, built or signed.",
    "weigh": "Weigh looms against joints by hand: minutes, money, wires cut.",
    "locate": "Find a fault in the car: symptoms in, the next best test out.",
    "which": "Tell which map a plug in hand is, by the fewest looks, ohms and tones.",
    "chart": "Read a chart (CSV) into a plug, with its source.",
    "bundle": "Put a job and all its files into one, for another bay.",
    "take": "Take in a bundle that another bay made.",
    "again": "Start the next car of the same variant.",
    "sounds": "Write test tones as sound files, with a sheet of what each is for.",
    "explain": "Say what a finding means, why it matters and what to do.",
    "schema": "Print the JSON Schema of the job file, for an editor.",
}


class Verbs(click.Group):
    """A click group whose commands are the modules `harness.cli.VERB`."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in VERBS:
            return None
        command: click.Command = importlib.import_module(f"harness.cli.{cmd_name}").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in VERBS and not args[0].startswith("-"):
            import difflib

            alike = difflib.get_close_matches(args[0], VERBS, n=1)
            meant = f"did you mean {alike[0]}?" if alike else f"there are {', '.join(VERBS)}."
            ctx.fail(f"There is no verb {args[0]!r}; {meant}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Verbs"):
            formatter.write_dl(list(VERBS.items()))


def _show_version(ctx: click.Context, _option: click.Parameter, wanted: bool) -> None:
    if wanted and not ctx.resilient_parsing:
        say(f"ringout {__version__}")
        ctx.exit()


@click.group(
    cls=Verbs,
    subcommand_metavar="VERB ...",
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Start with: ringout demo",
)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_show_version,
    help="Show the version.",
)
def verbs() -> None:
    """Ring out a car-audio job on paper before anyone opens the dash."""


def run(arguments: list[str]) -> int:
    """Runs one command line. Gives the exit code: 0 nothing to mend, 1 something to mend,
    2 unreadable, misused or an error of the tool. Never raises, save where a developer asked for it.
    """
    try:
        result: Any = verbs.main(args=arguments, prog_name="ringout", standalone_mode=False)
        return int(result or 0)
    except click.Abort:
        complain("stopped")
        return 130  # what a shell expects of a command that Ctrl-C ended
    except click.ClickException as error:
        error.show()
        return 2
    except Refused as error:
        complain(str(error))
        return 2
    except BrokenPipeError:
        return 0  # the reader of a help page has gone away
    except OSError as error:
        about = f"{os.fspath(error.filename)!s}: " if error.filename is not None else ""
        complain(f"{about}{error.strerror or error}")
        return 2
    except Exception as error:
        if os.environ.get("RINGOUT_TRACEBACK"):
            raise
        complain(_own_fault(error))
        return 2


def _own_fault(error: Exception) -> str:
    """One line that is enough to find the fault by."""
    spot = ""
    trace = error.__traceback__
    while trace is not None:
        source = trace.tb_frame.f_code.co_filename
        spot = f" at {os.path.basename(os.path.dirname(source))}/{os.path.basename(source)}:{trace.tb_lineno}"
        trace = trace.tb_next
    words = " ".join(str(error).split())[:200]
    return (
        f"a fault of ringout {__version__} itself, not of your file: {type(error).__name__} {words}{spot}. "
        "Please report this line together with the job file."
    )
