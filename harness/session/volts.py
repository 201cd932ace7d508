"""Supply and turn-on: what the meter reads at each unit in each state of the key, and whether it sleeps."""

from __future__ import annotations

from harness.graph.turn_on_test import RECORDED_KEYS, WRITE, Reading, fits_band, turn_on_test
from harness.graph.wiring import Wiring
from harness.session.danger import danger_at, dangers
from harness.session.talk import LEFT_OUT, Choice, Outcome, Question, Section, Talk, Task

NAME = "volts"
CAUTIONS = (
    "Meter + on the terminal, − on the body. The tip touches one terminal only: it can bridge two.",
    "Crank with the gear out, the brake on and nobody before the car. Engine fumes: door open, hose on.",
)
_OFF = "off"
_POWER = (Choice("yes, fuses in and battery on", "on"), Choice("no, still off", _OFF))
# The states of the key in words, in the order of RECORDED_KEYS.
_SAID = ("key out", "key in accessory", "key in run", "while it cranks")


def section(wiring: Wiring) -> Section | None:
    """One task a terminal and state of the key that no reading covers yet."""
    readings = turn_on_test(wiring).readings
    if not readings:
        return None
    read = {
        (record.what.lower(), record.word("key"))
        for record in wiring.job.records
        if record.verb == "volts" and not record.stale
    }
    unsafe = {(each.record.what.lower(), each.record.word("key")) for each in dangers(wiring)}
    read -= unsafe  # what says stop is read again before anything else is
    every = [(reading, at) for at in range(len(RECORDED_KEYS)) for reading in readings]
    left = [(reading, at) for reading, at in every if (_name(reading).lower(), RECORDED_KEYS[at]) not in read]
    left.sort(key=lambda each: (_name(each[0]).lower(), RECORDED_KEYS[each[1]]) not in unsafe)
    tasks = tuple(
        _task(wiring, reading, at, again=(_name(reading).lower(), RECORDED_KEYS[at]) in unsafe) for reading, at in left
    )
    earlier = tuple(_task(wiring, reading, at) for reading, at in every if (reading, at) not in left)
    first = ("Everything joined as planned, fuses in. One state of the key after the other.",)
    done = len(every) - len(left)
    return Section(NAME, "Read the turn-on volts", first, CAUTIONS, tasks, done, earlier, powered=True)


def _name(reading: Reading) -> str:
    return f"{reading.unit}.{reading.terminal}"


def _task(wiring: Wiring, reading: Reading, at: int, *, again: bool = False) -> Task:
    fed = f", fed by {reading.source}" if reading.source else ""
    about = f"{reading.unit} {reading.terminal}, {_SAID[at]}"
    return Task(about, (f"{about}{fed}.",), lambda: _talk(wiring, reading, at, again), (_name(reading),))


def _talk(wiring: Wiring, reading: Reading, at: int, again: bool) -> Talk:
    """`again` where the last reading said stop and the power went off for it: 0 V without power says nothing."""
    expected = reading.expected[at]
    if again:
        power = yield Question("Put right, and the power back on as it was at that reading?", _POWER, must=True)
        if power == _OFF:
            words = "Not read: without power 0 V says nothing, and the STOP stays. A . leaves it for another time."
            return Outcome((), (words,), True, again=True)
    volts = yield Question(
        f"Volts at {reading.unit} {reading.terminal}", unit="V", expected="" if expected == WRITE else expected
    )
    if volts == LEFT_OUT:
        return Outcome((), ("Nothing recorded here.",))
    fields = (("volts", _name(reading)), ("reads", f"{volts} V"), ("key", RECORDED_KEYS[at]))
    danger = danger_at(wiring, _name(reading), float(volts))
    if danger:
        return Outcome(fields, danger, True, again=True)
    fits = fits_band(float(volts), expected)
    if fits is None:
        return Outcome(fields, (f"{volts} V written; nothing is known to hold it against.",))
    words = f"{volts} V, {'as expected' if fits else 'NOT as expected'}: {expected}."
    return Outcome(fields, (words,), True) if not fits else Outcome(fields, (), fits=(words,))
