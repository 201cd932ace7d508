"""A pseudo-terminal with `ringout` at its other end, and keys pressed into it."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import subprocess
import sys
import termios
import time
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
DEADLINE_S = 90.0


class Shown(NamedTuple):
    """What the screen showed, and the exit code."""

    text: str
    code: int


def _waits(number: int) -> bool:
    """Whether a process sits in a read of its standard input (system call 0 of Linux on x86-64, 63 on ARM64)."""
    try:
        words = Path(f"/proc/{number}/syscall").read_text().split()
    except OSError:
        return False
    return words[:2] in (["0", "0x0"], ["63", "0x0"])


def _own_terminal() -> None:
    """So that Ctrl-C is a signal, also where the tests run in the background, which ignores it."""
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def session(folder: Path, *arguments: str, keys: str) -> Shown:
    """Run a session in `folder`. Keys are pressed once the program waits for one.

    `|` stands between groups of keys; each group waits until the program reads from the terminal.
    """
    master, slave = pty.openpty()
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"}
    child = subprocess.Popen(
        [sys.executable, "-m", "harness", *arguments],
        cwd=folder, stdin=slave, stdout=slave, stderr=slave, env=environment, start_new_session=True,
        preexec_fn=_own_terminal,
    )  # fmt: skip
    os.close(slave)
    shown = b""
    groups = keys.split("|")
    end = time.monotonic() + DEADLINE_S
    try:
        while time.monotonic() < end:
            ready, _, _ = select.select([master], [], [], 0.002)
            if ready:
                try:
                    piece = os.read(master, 65_536)
                except OSError:  # the other end is closed
                    break
                if not piece:
                    break
                shown += piece
            elif groups and _waits(child.pid):
                os.write(master, groups.pop(0).encode())
            elif child.poll() is not None:
                break
        else:
            raise AssertionError(f"no end after {DEADLINE_S} s:\n{shown.decode('utf-8', 'replace')[-2000:]}")
        return Shown(shown.decode("utf-8", "replace").replace("\r\n", "\n"), child.wait(timeout=10))
    finally:
        if child.poll() is None:
            child.kill()
            child.wait()
        os.close(master)
