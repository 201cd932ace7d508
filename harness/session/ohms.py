"""The ohms at each output of ours with everything beyond it joined: the last look before power."""

from __future__ import annotations

from harness.graph.output_ohms import AtOutput, at_outputs
from harness.graph.resistance import in_band
from harness.graph.wiring import Wiring
from harness.model.evidence import OPEN
from harness.planning.written import Written
from harness.session.talk import LEFT_OUT, Choice, Outcome, Question, Section, Talk, Task
from harness.session.words import band, listed

NAME = "ohms"
CAUTIONS = ("Fuses out, units off: a meter in ohms and an amplifier that is on damage each other.",)


def section(wiring: Wiring) -> Section | None:
    """Every output with speakers on it whose leads nobody has read."""
    every = at_outputs(wiring)
    if not every:
        return None
    written = Written(wiring)
    left = [each for each in every if not written.reads(each.driver.plus, each.driver.minus)]
    first = ("Joints made, fuses out. Take the output's two leads off its terminals; put them back afterwards.",)
    tasks = tuple(_task(each) for each in left)
    earlier = tuple(_task(each) for each in every if each not in left)
    return Section(NAME, "Read the ohms at the outputs", first, CAUTIONS, tasks, len(every) - len(left), earlier)


def _task(each: AtOutput) -> Task:
    name = each.driver.name.replace(".", " ")
    on_it = listed(name for line in each.lines for name in line)
    contacts = (each.driver.plus, each.driver.minus)
    return Task(f"{name}, with {on_it} on it", (f"{name}, with {on_it} on it.",), lambda: _talk(each), contacts)


def _talk(each: AtOutput) -> Talk:
    name, unit = each.driver.name, each.driver.port.unit
    taken = (("unplugged", unit), ("key", "out"))  # its leads are off: what is read is what lies beyond them
    ohms = yield Question(f"Ohms across {name}", (Choice("open", OPEN),), unit="ohm", expected=band(each.expected))
    body = yield Question(
        "Each lead to the body",
        (Choice("both open, as it must be", OPEN), Choice("one of them conducts", "touches")), expected="open",
    )  # fmt: skip
    if ohms == LEFT_OUT and body in (LEFT_OUT, OPEN):
        return Outcome((), ("Nothing recorded for this output.",))
    if body == "touches":
        low = yield Question("How many ohms to the body?", unit="ohm", must=True)
        fields = (("ohm", name), *([("reads", _reading(ohms))] if ohms else []), ("body", f"{low} ohm"), *taken)
        return Outcome(fields, (f"STOP: a lead of {name} lies on the body with {low} ohm. Don't power it.",), True)
    fields = (("ohm", name), ("reads", _reading(ohms)), *([("body", body)] if body else []), *taken)
    fits = in_band(each.expected, _reading(ohms))
    if fits is None:
        return Outcome(fields, (f"{_reading(ohms)} written; nothing is known to hold it against.",))
    words = f"{_reading(ohms)}, {'as expected' if fits else 'NOT as expected'}: {band(each.expected)}."
    return Outcome(fields, (), fits=(words,)) if fits else Outcome(fields, (words,), True)


def _reading(ohms: str) -> str:
    return ohms if ohms in (OPEN, LEFT_OUT) else f"{ohms} ohm"
