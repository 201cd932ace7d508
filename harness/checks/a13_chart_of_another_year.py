"""A13."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.rows import row_about, row_contacts
from harness.graph.wiring import Wiring
from harness.graph.years import charts_of_other_years

_NAMED = 4  # so many cavities are named in the message


@check("A13", Severity.ASK, "Chart is for other years", source="common practice, no source", needs="year")
def chart_of_another_year(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug whose chart covers other years than the car's, where the plan uses cavities of it that
    nobody toned.

    Why it matters: makers move functions and colours from one year to the next in the same housing. What such a chart
    says is a hint where to look first, and not what is in this car.

    Example: `covers: 2016..2019` in the plug's source, and a car of 2021.

    What to do: find the chart for this year; or tone each used pair, and meter the other wires, before anything is
    cut or plugged in.

    Known limits: it goes by `covers` of the plug's source and `year` of the car; where one of them isn't written the
    list of what was not checked says so, or the plug sheet. Cavities that are only passed on aren't asked for. A pair
    toned as charted is known, whatever the chart is for; a reading of volts isn't looked at.

    Source: common practice, no source.
    """
    car = wiring.job.car
    for chart in charts_of_other_years(wiring):
        plug = chart.plug
        listed = ", ".join(f"{row.cavity} ({row_about(row)})" for row in chart.used[:_NAMED])
        more = f" and {len(chart.used) - _NAMED} more" if len(chart.used) > _NAMED else ""
        year = car.year if car is not None else ""
        yield Fault(
            at=Spot(chart.place, plug.name),
            message=f"The chart of {plug.name} is for {chart.covers}, the car is of {year}: functions and colours may "
            f"have moved. Used and not toned: {listed}{more}.",
            do="Find the chart for this year, or take this one as a hint: tone each used pair and meter the other "
            "wires first.",
            about=row_contacts(plug, *chart.used),
        )
