"""C08."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.unlevelled import by_unit
from harness.finding import Severity, Spot
from harness.graph.volume import Rests, way_from, without_level
from harness.graph.wiring import Wiring


@check("C08", Severity.ASK, "Level never measured", source="the input's own window", by_joints=False)
def level_never_measured(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output of the radio or of the car's own amplifier without a level, while an input of
    which the window is written rests on it.

    Why it matters: whether the input clips or hisses is then found out with the dash closed.

    Example: `FL: btl` on a processor's input of 2 to 20 V.

    What to do: play a tone, turn up to the last step that isn't clipped, read the volts, and write both on the
    output: `btl 8.5 V clean step 31`.

    Known limits: told once a line of the file. Volts that stand in the evidence file aren't read for this. What
    goes on to the car's own amplifier isn't asked for: it was set by its maker.

    Source: the input's own window.
    """
    for rests in without_level(wiring):
        names, inputs = words_of(rests)
        yield Fault(
            at=Spot(rests.drivers[0].port.place, wiring.words(rests.drivers[0].plus)),
            message=f"No level is written for {names}, and {inputs} {_rest(inputs)} on it: nobody can say whether it "
            "clips or hisses.",
            do="Play a tone, turn up to the last clean step, read the volts, and write both: for instance "
            "`8.5 V clean step 31`.",
            about=about_of(rests),
            path=way_from(wiring, rests.drivers[0]),
        )


def words_of(rests: Rests) -> tuple[str, str]:
    """The outputs and the inputs, a unit once: `radio FL, FR` and `dsp in1..2`."""
    outputs = by_unit(rests.drivers)
    inputs = by_unit(rests.inputs)
    return _listed(outputs), _listed(inputs)


def _listed(units: dict[str, str]) -> str:
    return " and ".join(f"{unit} {names}" for unit, names in units.items())


def about_of(rests: Rests) -> tuple[str, ...]:
    """All contacts of the outputs and inputs."""
    about = [(each.plus, each.minus) for each in rests.drivers] + [(each.plus, each.minus) for each in rests.inputs]
    return tuple(contact for ends in about for contact in ends)


def _rest(names: str) -> str:
    return "rest" if any(mark in names for mark in (",", "..", " and ")) else "rests"
