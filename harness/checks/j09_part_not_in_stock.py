"""J09."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check("J09", Severity.NOTE, "Part not in stock", source="common practice, no source", by_joints=False, needs="stock")
def part_not_in_stock(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a loom that the plan uses, of which none is in stock (`stock: 0`), and which comes (`arrives`)
    after the day of the work (`date`) or on a day that nobody wrote.

    Why it matters: the car stands open, or goes home again.

    Example: the loom arrives on 18 March and the job is on 12 March.

    What to do: move the job, take another loom, or plan that plug by hand; `ringout weigh` sets them side by side.

    Known limits: looms only, and only what the job says of each. Without the day of the work a day of arrival is held
    against nothing, which is listed under what was not checked.

    Source: common practice, no source.
    """
    job = wiring.job
    for name, loom in job.parts.looms.items():
        store = loom.store
        if store.stock != 0 or name not in used_looms(wiring):
            continue
        if not store.arrives:
            message = f"{name} is not in stock, and nobody wrote when it comes: the plan waits for it."
            do = "Ask when it comes and write `arrives`, or take another loom: ringout weigh shows other ways."
        elif job.date and store.arrives > job.date:
            days = days_between(job.date, store.arrives)
            late = f"{days} day{'' if days == 1 else 's'} too late"
            message = f"{name} is not in stock and arrives {store.arrives}, the job is on {job.date}: {late}."
            do = f"Move the job to {store.arrives} or later, or plan without {name}: ringout weigh shows other ways."
        else:
            continue
        yield Fault(at=Spot(loom.place, name), message=message, do=do)


def used_looms(wiring: Wiring) -> set[str]:
    """Looms that are plugged in, or with a lead that is joined."""
    job = wiring.job
    used = {mate.loom for mate in job.mates} | {each.loom for each in job.couplings}
    return used | {wiring.contact(end).owner for joint in job.joints for link in joint.links for end in link}


def days_between(first: str, last: str) -> int:
    """Days from one date to another, as the calendar counts."""
    from datetime import date

    return (date.fromisoformat(last) - date.fromisoformat(first)).days
