"""The command `ringout`. Here is only the way in and out of the process; verbs load when called."""

from __future__ import annotations

import gc
import sys


def main() -> None:
    """Runs one command from `sys.argv` and leaves the process with its exit code."""
    # One command is one short process, and what it builds it needs until the end. The collector
    # would walk a growing graph again and again and free nothing; at a large job that is half the time.
    gc.disable()
    try:
        from harness.cli.group import run
        from harness.cli.screen import close_streams, open_streams

        open_streams()
        code = close_streams(run(sys.argv[1:]))
    except KeyboardInterrupt:  # pressed while we were still loading, or already leaving
        code = 130
    # The interpreter collects once more when it ends; frozen objects are left out of that.
    gc.freeze()
    sys.exit(code)
