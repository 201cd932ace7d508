"""Run by the tests in a process of its own: appends records, and says each one once it is acknowledged."""

from __future__ import annotations

import sys

from harness.records.append import NotRecorded, append


def main() -> None:
    path, name, first, last = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
    photos = sys.argv[5:]
    for number in range(first, last):
        try:
            append(path, [("when", "2026-03-02 09:40"), ("by", name), ("seen", f"dash.{number}")], photos)
        except NotRecorded as wrong:
            print(f"refused {wrong.why}", flush=True)
        else:
            print(f"ack {name} {number}", flush=True)


if __name__ == "__main__":
    main()
