"""J18."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.stepping import spot
from harness.finding import Severity
from harness.graph.pairs import used_pairs
from harness.graph.wiring import OUTPUT, Wiring
from harness.work.replay import replay
from harness.work.situation import wiring_at


@check(
    "J18", Severity.STOP, "Toned into an output", source="common practice, no source", by_joints=False, needs="steps",
)  # fmt: skip
def toned_into_an_output(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a step that tones a pair, or reads its ohms, while an output is still on the pair's wires to
    the speaker: the radio or the factory amplifier still plugged in, or our amplifier joined already; or with the key
    on.

    Why it matters: the tone drives the output stage backwards, which can fail, and what answers may come through it:
    the reading proves nothing. With the key on a unit that wakes drives the wires under the meter.

    Example: the pairs are toned after the loom's leads have been joined to the amplifier.

    What to do: pull the plug first and tone toward the speakers; join the leads when all pairs are toned.

    Known limits: the pairs meant are those that the plan uses, on the plugs that the step names, else on all that the
    plan opens. An output test, in which the radio plays, is no tone: write it as `volts` or `close`.

    Source: common practice, no source.
    """
    for moment in replay(wiring).moments:
        if not moment.deeds.tones:
            continue
        if moment.during.power.on:
            yield Fault(
                at=spot(moment),
                message=f"{moment.words.capitalize()} tones with the key on: what wakes drives the wires, and the "
                "reading proves nothing.",
                do="Turn the key off before this step, better take the battery's negative off.",
            )
            continue
        laid = wiring_at(wiring, moment.during.work)
        for pair in used_pairs(wiring):
            if pair.plug not in moment.deeds.tones or pair.plus.function.kind != "audio":
                continue  # what leads to an input has no speaker to answer
            wires = [f"{pair.plug}.car.{row.cavity}" for row in (pair.plus, pair.minus)]
            found = _output(laid, wires)
            if not found:
                continue
            wire, output = found
            still = "still" if wiring.contact(output).owner in _of_the_car(wiring) else "already"
            yield Fault(
                at=spot(moment),
                message=f"{moment.words.capitalize()} tones {wiring.words(wire)} with {wiring.words(output)} {still} "
                "on it: the tone drives that output backwards, and the answer may come through it.",
                do=f"{_advice(wiring, pair.plug, output)} Then tone toward the speakers.",
                about=(*wires, output),
                path=laid.way_in_words(wire, laid.planned.path(wire, output)),
            )
            break


def _output(laid: Wiring, wires: list[str]) -> tuple[str, str] | None:
    for wire in wires:
        output = next((name for name in laid.planned.around(wire) if laid.role(name) == OUTPUT), "")
        if output:
            return wire, output
    return None


def _of_the_car(wiring: Wiring) -> set[str]:
    return {name for plug in wiring.job.parts.plugs.values() for name in (plug.unit, plug.car) if name}


def _advice(wiring: Wiring, plug: str, output: str) -> str:
    unit = wiring.contact(output).owner
    return (
        f"Pull {plug} from {unit} first." if unit in _of_the_car(wiring) else f"Do this step before {unit} is joined."
    )
