"""C09."""

from collections.abc import Iterator

from harness.checks.c08_level_never_measured import about_of, words_of
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.signal import Driver
from harness.graph.volume import level_words, way_from, without_step
from harness.graph.wiring import Wiring


@check("C09", Severity.ASK, "Last clean volume step missing", source="common practice, no source", by_joints=False)
def clean_step_missing(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a level of the radio or of the car's own amplifier that is written without the volume step
    it was read at, or without the word that this step is the last clean one.

    Why it matters: gains are set to that level. At another step it is another level, and the next one who sets the
    gains can't get back to the first one's.

    Example: `FL: btl 8.5 V`, and nobody knows whether that was at step 25 or 31.

    What to do: write the step, and that it is the last one without clipping: `btl 8.5 V clean step 31`.

    Known limits: told once a line of the file, and only where an input of which the window is written rests on it.
    A `fixed` level has no step. Whether the step really is clean only a scope or a meter for distortion tells.

    Source: common practice, no source.
    """
    for rests in without_step(wiring):
        names, inputs = words_of(rests)
        driver = rests.drivers[0]
        yield Fault(
            at=Spot(driver.port.place, wiring.words(driver.plus)),
            message=f"{names}: {level_words(driver)} {_wanting(driver)}? The gains of {inputs} can't be repeated "
            "without it.",
            do=_do(driver),
            about=about_of(rests),
            path=way_from(wiring, driver),
        )


def _wanting(driver: Driver) -> str:
    signal = driver.port.signal
    if signal.step is not None:
        return f"at volume step {signal.step}: is that the last clean one"
    return "at which volume step" + (", the last clean one" if signal.clean else "")


def _do(driver: Driver) -> str:
    signal = driver.port.signal
    if signal.step is not None:
        return f"Try the steps around {signal.step}, and write `clean` once it is the last one without clipping."
    return "Find the last step without clipping, read the volts there, and write both: for instance `clean step 31`."
