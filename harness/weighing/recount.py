"""A job counted as it stands: joints, minutes, money and wires cut at its plugs, from the file and the rates alone.

Nothing here knows of mixes: it is what an offer that was taken is held against.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.presets import preset
from harness.weighing.begun import run_ends
from harness.weighing.hand import Hand, Way
from harness.weighing.naming import price_of
from harness.weighing.needs import carried, nets_of
from harness.weighing.rates import BENCH, HOUR_MS, Rates
from harness.weighing.taking import places_of, said_whole

MATE, CUT_OFF, PULL, MOVE, CAP, LOCK = "plug in", "cut an end off", "pull terminals", "move terminals", "cap", "locks"
CONSUMABLES = "consumables"


class Sum(NamedTuple):
    """One kind of work: how often, and its time in milliseconds."""

    number: int
    time_ms: int


class Figures(NamedTuple):
    """What a way of doing it comes to. `work` and `parts` by kind; money in hundredths.

    `labour` is rounded to a hundredth, half upwards. The sums are without the looms and loose parts whose
    price nobody wrote: `unpriced_looms`, by name, and `unpriced_parts`.
    """

    work: dict[str, Sum]
    parts: dict[str, tuple[int, int]]  # how many, and what they cost together
    labour: int
    joints: int
    dash: int
    cuts: int
    unpriced_looms: tuple[str, ...]
    unpriced_parts: tuple[str, ...]

    @property
    def unpriced(self) -> tuple[str, ...]:
        """Both as words: `loom T2`, `butt joint`."""
        return (*(f"loom {name}" for name in self.unpriced_looms), *self.unpriced_parts)

    @property
    def time_ms(self) -> int:
        return sum(each.time_ms for each in self.work.values())

    @property
    def parts_money(self) -> int:
        return sum(money for _, money in self.parts.values())

    @property
    def money(self) -> int:
        return self.labour + self.parts_money


def rounded(time_ms: int, labour: int) -> int:
    """The price of a time at so many hundredths an hour, half upwards."""
    return (2 * time_ms * labour + HOUR_MS) // (2 * HOUR_MS)


def recount(wiring: Wiring, rates: Rates, plugs: tuple[str, ...] = ()) -> Figures:
    """The figures of a job at these plugs, or at all that its looms, cuts and joints touch."""
    job = wiring.job
    looms = {mate.loom for mate in job.mates if not plugs or mate.plug in plugs}
    looms |= {each.loom for each in job.couplings} | {each.other for each in job.couplings}

    def ours(contact: str) -> bool:
        about = job.contacts[contact]
        if about.kind == "plug":
            return not plugs or about.owner in plugs
        return about.kind == "loom" and about.owner in looms

    work: dict[str, Sum] = {}
    parts: dict[str, tuple[int, int]] = {}

    def add(kind: str, number: int, time_ms: int) -> None:
        if number:
            had = work.get(kind, Sum(0, 0))
            work[kind] = Sum(had.number + number, had.time_ms + number * time_ms)

    def take(part: str, number: int, each: int) -> None:
        if number:
            had = parts.get(part, (0, 0))
            parts[part] = had[0] + number, had[1] + number * each

    joints = dash = 0
    known = methods()

    def join(method: str, at: str) -> None:
        nonlocal joints, dash
        joints += 1
        dash += rates.in_dash(at)
        add(f"{method} at {at or 'no place written'}", 1, rates.joint_ms(method, at))
        take(CONSUMABLES, 1, rates.consumables)
        for piece in rates.pieces(known[method]):
            take(piece, 1, rates.piece(piece))

    for joint in job.joints:
        for place in places_of(joint):
            if any(map(ours, place)):
                join(joint.method, joint.at)
    for way, at in without_row(wiring, rates, ours):
        if way is not None:
            join(way.method, at)
        else:
            joints, dash = joints + 1, dash + rates.in_dash(at)
            add(f"no way that the preset allows, at {at}", 1, 0)
    add(MATE, sum(mate.loom in looms for mate in job.mates) + len(job.couplings), rates.work_ms("mate"))
    add(CUT_OFF, sum(bool(job.parts.looms[name].cut_off) for name in looms), rates.work_ms("cut end off"))
    capped = sum(map(ours, job.capped))
    add(CAP, capped, rates.work_ms("cap"))
    take("cap", capped, rates.piece("cap"))
    pulled = [name for name in job.depinned if ours(name) and job.contacts[name].kind == "loom"]
    moved = [name for name in job.moved if ours(name)]
    add(PULL, len(pulled), rates.pulled_ms)
    add(MOVE, len(moved), rates.moved_ms)
    add(LOCK, len({name.rpartition(".")[0] for name in (*pulled, *moved)}), rates.recheck_ms("lock"))
    loose = tuple(piece for piece in parts if piece != CONSUMABLES and not rates.piece_written(piece))
    unpriced = []
    for name in job.parts.looms:
        price = price_of(job, name, rates.shop) if name in looms else None
        if price is not None:
            take(name, 1, price)
        elif name in looms:
            unpriced.append(name)
    cuts = len({(job.contacts[name].owner, job.contacts[name].last) for name in job.cut if ours(name)})
    time_ms = sum(each.time_ms for each in work.values())
    return Figures(work, parts, rounded(time_ms, rates.labour), joints, dash, cuts, tuple(unpriced), loose)


def without_row(
    wiring: Wiring, rates: Rates, ours: Callable[[str], bool] = lambda contact: True
) -> Iterator[tuple[Way | None, str]]:
    """Joints of a run with a cavity or a lead that no row of `joints:` tells: the shop's best way, and the place."""
    job = wiring.job
    whole, nets = said_whole(job), nets_of(wiring)
    done = {whole.get(end, end) for joint in job.joints for link in joint.links for end in link}
    parted = {(job.contacts[name].owner, job.contacts[name].last) for name in job.cut}
    ends = run_ends(job)
    hand = Hand(rates, preset(job.preset))
    for end in ends:
        place = whole.get(end.contact, end.contact)
        if not ours(end.contact) or place in done:
            continue
        done.add(place)
        about = job.contacts[end.contact]
        members = nets.get(end.contact, [end.contact])
        what = carried(wiring, members, [each for each in ends if each.contact in members])
        if about.kind == "plug":
            plug = job.parts.plugs[about.owner]
            at = plug.where or plug.name
            yield hand.best(True, what, at, (about.owner, about.last) in parted), at
        else:
            yield hand.best(False, what, BENCH, False), BENCH
