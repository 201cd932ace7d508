"""J10."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import holding
from harness.graph.wiring import Wiring


@check(
    "J10",
    Severity.NOTE,
    "Settings not saved",
    source="common practice, no source",
    by_joints=False,
    needs="record plays",
)
def settings_not_saved(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a processor of the plan, once its outputs are heard, without the name of a settings file.

    Why it matters: when it dies the tune dies with it, and the next bay starts from nothing.

    Example: a processor is tuned and the car handed over, and `settings` is empty.

    What to do: save the file in the unit's own program, keep it beside the job, and write its name under
    `settings`.

    Known limits: asked from the first output heard on. Whether the file exists isn't looked up; a bundle
    takes it along.

    Source: common practice, no source.
    """
    if not any(holding(wiring, "plays")):
        return
    for unit in wiring.job.parts.units.values():
        if "processor" in unit.kind and unit.name not in wiring.gone and not unit.settings:
            yield Fault(
                at=Spot(unit.place, unit.name),
                message=f"{unit.name} is heard and has no settings file: if it dies, its tune dies with it.",
                do=f"Save its settings beside the job and write `settings: NAME` at {unit.name}.",
            )
