"""C19."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.pairs import pairs_of
from harness.graph.wiring import SPEAKER, Wiring


@check(
    "C19",
    Severity.FIX,
    "Output that looks for its speaker left open",
    source="a workshop manual, maker withheld",
    by_joints=False,
    needs="fitted",
)
def load_sensing_output_open(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: in a car with `fitted: [speaker check]`, a speaker output of the radio that the plan parts
    from its speaker and that no load is left on.

    Why it matters: the radio looks for each speaker when it wakes. Where it finds none it switches the channel off
    or stores a fault.

    Example: RL is taken to a processor's differential input, and nothing else hangs on it.

    What to do: fit a load on the radio's side, some tens of ohms and made for the power; or take an input that has one.

    Known limits: that the car has a speaker check must be written. An input counts as a load where its words give an
    impedance (`2..20 V differential @ 47 ohm`) or say `transformer`.

    Source: a workshop manual, maker withheld; the load's value is common practice, no source.
    """
    car = wiring.job.car
    if car is None or "speaker check" not in car.fitted:
        return
    for plug in wiring.job.parts.plugs.values():
        unit = wiring.job.parts.units.get(plug.unit)
        if unit is None or unit.kind != "radio" or unit.name in wiring.gone:
            continue
        for plus, minus in pairs_of(wiring, plug.name):
            ends = f"{plug.name}.unit.{plus.cavity}", f"{plug.name}.unit.{minus.cavity}"
            driven = unit.ports.get(plus.function.base)
            if driven is None or driven.way != "out" or plus.function.kind != "audio":
                continue
            before, now = wiring.found.net(ends[0]), wiring.planned.net(ends[0])
            if not any(wiring.role(name) == SPEAKER for name in before) or any(_loads(wiring, name) for name in now):
                continue
            yield Fault(
                at=Spot(plus.place, wiring.words(ends[0])),
                message=f"The radio looks for a speaker on {plug.name} {plus.cavity}/{minus.cavity} "
                f"({plus.function.base}) and finds none: it drops the channel or stores a fault.",
                do="Fit a load of some tens of ohms, made for the power, across the radio's side.",
                about=(*ends,),
                path=wiring.way_in_words(
                    ends[0], wiring.found.path(ends[0], next(n for n in before if wiring.role(n) == SPEAKER))
                ),
            )


def _loads(wiring: Wiring, name: str) -> bool:
    """Whether a contact is a speaker's, or that of an input with an impedance of its own."""
    if wiring.role(name) == SPEAKER:
        return True
    port = wiring.ports.get(name)
    if port is None or port.way != "in":
        return False
    return port.signal.load_ohm is not None or port.signal.form == "transformer"
