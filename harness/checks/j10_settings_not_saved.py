"""J10."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.parts import Unit


@check("J10", Severity.NOTE, "Settings not saved", source="common practice, no source", by_joints=False)
def settings_not_saved(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a processor whose routes or settings the plan writes, with one of its outputs in use, and no
    name of the file that they are saved in.

    Why it matters: if the processor dies, or somebody loads another file, the tune dies with it. Nobody can put back
    what nobody kept.

    Example: four routes with crossovers and a level each, and no `settings`.

    What to do: save the settings, keep the file with the job, and write its name under `settings` of the unit.

    Known limits: only processors are asked for, and only where the plan says what is set in them. Whether the file is
    there, and holds what the plan says, isn't known. Amplifiers with knobs have no file.

    Source: common practice, no source.
    """
    unsaved = [unit for unit in wiring.job.parts.units.values() if _said_and_not_saved(unit)]
    in_use = {feed.driver.port.unit for feed in wiring.signals.feeds} if unsaved else set()
    for unit in unsaved:
        if unit.name in in_use:
            made = [f"{len(unit.routes)} route{'s' if len(unit.routes) > 1 else ''}"] if unit.routes else []
            made += [f"{len(unit.switches)} setting{'s' if len(unit.switches) > 1 else ''}"] if unit.switches else []
            yield Fault(
                at=Spot(unit.place, unit.name),
                message=f"The plan relies on {' and '.join(made)} in {unit.name}, and no settings file is named: if it "
                "dies, the tune dies with it.",
                do="Save the settings, keep the file with the job, and write its name under `settings`.",
                about=tuple(wiring.of_unit.get(unit.name, ())),
            )


def _said_and_not_saved(unit: Unit) -> bool:
    return "processor" in unit.kind and not unit.settings and bool(unit.routes_said or unit.switches)
