"""The response of each output of the radio that the plan takes a signal from: flat, or with two corners."""

from __future__ import annotations

from harness.electrical.response import CENTRES_HZ, shape
from harness.graph.wiring import Wiring
from harness.session.talk import LEFT_OUT, Outcome, Question, Section, Talk, Task

NAME = "response"
CAUTIONS = (
    "Measure DC first: a meter or analyser that takes no half battery voltage is damaged by a bridged output.",
    "The analyser's clip never joins two wires of the radio, and never one of them to the body.",
)
_FIRST_HZ = 25.0


def section(wiring: Wiring) -> Section | None:
    """One task an output of a source that feeds an input of ours."""
    sources = {
        feed.driver.name: feed.driver
        for feed in wiring.signals.feeds
        if feed.receiver.port is not None and wiring.job.parts.units[feed.driver.port.unit].is_source
    }
    if not sources:
        return None
    known = {r.what.lower() for r in wiring.job.records if r.verb == "response" and not r.stale}
    left = [name for name in sources if name.lower() not in known]
    first = ("Pink noise at the step where you set gains, tone controls flat. Read thirds of an octave.",)
    tasks = tuple(map(_task, left))
    earlier = tuple(_task(name) for name in sources if name not in left)
    return Section(NAME, "Measure the response", first, CAUTIONS, tasks, len(sources) - len(left), earlier)


def _task(name: str) -> Task:
    return Task(name, (f"The output {name}.",), lambda: _talk(name))


def _talk(name: str) -> Talk:
    levels: list[str] = []
    for centre in CENTRES_HZ[CENTRES_HZ.index(_FIRST_HZ) :]:
        level = yield Question(
            f"Level at {centre:g} Hz", unit="dB", expected="leave out when that is all" if len(levels) > 2 else ""
        )
        if level == LEFT_OUT:
            break
        levels.append(level)
    if len(levels) < 3:
        return Outcome((), ("Fewer than three levels say nothing: nothing recorded.",))
    found = shape([float(each) for each in levels], _FIRST_HZ)
    last = CENTRES_HZ[CENTRES_HZ.index(_FIRST_HZ) + len(levels) - 1]
    low = f"from {found.low_hz:.0f} Hz" if found.low_hz else f"from {_FIRST_HZ:g} Hz or below"
    high = f"to {found.high_hz:.0f} Hz" if found.high_hz else f"to {last:g} Hz or above"
    words = f"{name}: within {found.within_db:.1f} dB either way {low} {high} (corners 3 dB down)."
    fields = (("response", name), ("from", f"{_FIRST_HZ:g} Hz"), ("levels", " ".join(levels)), ("found", words))
    return Outcome(fields, (words,))
