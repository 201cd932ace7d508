"""Small processes that append for real, started by the tests here: `python -I -S children.py ROOT JOB PATH …`."""

from __future__ import annotations

import hashlib
import importlib
import json
import os
import random
import resource
import signal
import sys
import time

PNG = bytes.fromhex("89504e470d0a1a0a")  # ISO/IEC 15948, 5.2: the signature


def one(path: str, *photos: str) -> None:
    """One append between two calls that a trace shows, then the acknowledgement, then its end."""
    from harness.records.append import NotRecorded, append

    fields = [("by", "JM"), ("tone", "dash.car.1/11"), ("heard", "FL FL-TW")]
    hashlib.sha256(b"")
    os.access("the append begins", 0)
    try:
        told = f"recorded {append(path, fields, photos).number}"
    except NotRecorded as wrong:
        told = f"not recorded: {wrong.why}"
    os.access("the append ended", 0)
    os.write(1, told.encode() + b"\n")


def limited(path: str, most: str) -> None:
    """Appends until the file may grow no more: the system takes a part of a line, then nothing."""
    from harness.records.append import NotRecorded, append

    resource.setrlimit(resource.RLIMIT_FSIZE, (int(most), int(most)))
    while True:
        try:
            print(append(path, [("by", "JM"), ("note", "x" * 40)]).line)
        except NotRecorded as wrong:
            print(f"not recorded: {wrong.why}")
            return


def writer(path: str, name: str, count: str) -> None:
    """Waits for a line, then appends one after the other."""
    from harness.records.append import append

    print("ready", flush=True)
    sys.stdin.readline()
    for number in range(int(count)):
        done = append(path, [("by", name), ("n", str(number))])
        print(json.dumps([done.number, done.line, done.torn]))


def killed(path: str, seed: str, rounds: str) -> None:
    """Starts an appending process again and again and kills it at a random moment; prints what each was promised.

    A third of them is killed within 15 ms of its start, a third after its first promise, a third after its second.
    """
    importlib.import_module("harness.records.append")  # once: else the children are killed while they load it
    hashlib.sha256(b"")
    rng = random.Random(int(seed))
    for number in range(int(rounds)):
        photo = f"{path}.{number}.png"
        with open(photo, "wb") as stream:
            stream.write(PNG + f"{number}".encode())
        old = _bytes_of(path)
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            _append_for_ever(path, photo, number, writing)
        os.close(writing)
        with open(reading, encoding="utf-8") as stream:
            promised = "".join(stream.readline() for _ in range(number % 3))
            time.sleep(rng.uniform(0, 0.015))
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            promised += stream.read()
        print(json.dumps([_bytes_of(path).startswith(old), promised]))


def _append_for_ever(path: str, photo: str, number: int, writing: int) -> None:
    from harness.records.append import append

    try:
        at = 0
        while True:
            done = append(path, [("round", str(number)), ("n", str(at))], [photo] if at % 2 else [])
            os.write(writing, f"{done.number} {done.line}\n".encode())
            at += 1
    except BaseException as wrong:
        os.write(writing, f"failed {wrong!r}\n".encode())
    os._exit(1)


def _bytes_of(path: str) -> bytes:
    try:
        with open(path, "rb") as stream:
            return stream.read()
    except FileNotFoundError:
        return b""


if __name__ == "__main__":
    sys.path.insert(0, sys.argv[1])
    {"one": one, "limited": limited, "writer": writer, "killed": killed}[sys.argv[2]](*sys.argv[3:])
