"""The minutes of all that the work holds, from opening to closing up: from and to, each with its rate."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from harness.model.parts import Plug
from harness.model.scope import Record
from harness.scoping.cables import Lot, lots
from harness.scoping.lines import TIME, Line, Rate, both, several, span, ways
from harness.scoping.site import PlugWay, Site
from harness.scoping.spans import (
    CABLE,
    CLOSE,
    FIT_SPEAKER,
    FIT_UNIT,
    REACH_AMPLIFIER,
    REACH_PLUG,
    SUPPLY,
    TEST,
    TONE,
    TRY,
    TUNE,
    minutes_span,
    span_of,
)
from harness.scoping.variants import Variant, at_plug, at_unit
from harness.telling_apart import tests

_TESTS = dict.fromkeys(tests.LOOKS, "a look") | {
    tests.OHM: "ohms", tests.BODY: "ohms", tests.TONE: "a tone", tests.PLUS: "finding the +",
}  # fmt: skip


def minutes(site: Site) -> Iterator[Line]:
    """A line for each kind of work, in working order."""
    yield from _which_map(site)
    yield from _over_maps(site, REACH_PLUG, lambda found: f"Reach {found} and open it.", _plugs_of, "plug")
    yield from _over_maps(site, REACH_AMPLIFIER, lambda found: f"Reach {found}.", _amplifiers_of, "factory amplifier")
    features = tuple(record for _, record in site.scope.features or ())
    yield from _counted(site, TRY, "Try {} before, and after.", "function", features, 2)
    yield from _joining(site)
    yield from _over_maps(site, TONE, lambda found: f"Tone {found}.", _pairs_of, "pair")
    yield from _laying(site)
    units = tuple(wish.record for wish in site.wishes("unit"))
    yield from _counted(site, FIT_UNIT, "Fit {}, the terminals made.", "unit", units)
    speakers = tuple(wish.record for wish in site.wishes("replace", "add"))
    yield from _counted(site, FIT_SPEAKER, "Fit {}, the trim off and on.", "speaker", speakers)
    yield from _counted(site, TEST, "Test {}.", "output", _driven(site, "amplify", "add", "replace"))
    yield from _counted(site, TUNE, "Set and tune {}.", "channel", _driven(site, "amplify", "add"))
    yield from _over_maps(site, CLOSE, lambda found: f"Look again, and close {found}.", _places_of, "place")


def _which_map(site: Site) -> Iterator[Line]:
    table = site.session.table() if len(site.could) > 1 else None
    if table is None or table.plan.test is None:
        return
    high = table.plan.worst or sum(test.seconds for test in table.tests)
    low = min(test.seconds for test in table.tests)
    named = [table.tests[at] for at in (table.cover.tests if table.cover else ())]
    kinds = sorted({test.kind for test in named or table.tests}, key=tests.KINDS.index)
    rates = tuple(dict.fromkeys(Rate(_TESTS[kind], f"{tests.SECONDS[kind]} s", True) for kind in kinds))
    yield Line(
        TIME, "Find out which map it is.", tuple(at_plug(each.plugs[0]) for each in site.could), low_ms=low * 1000,
        high_ms=round(high * 1000), rates=rates, least=1, most=1,
    )  # fmt: skip


# -- what hangs on the map -------------------------------------------------------------------------------------


def _plugs_of(site: Site, variant: Variant) -> tuple[int, list[Record]]:
    return len(site.plugs(variant)), list(site.rows(variant))


def _amplifiers_of(_: Site, variant: Variant) -> tuple[int, list[Record]]:
    return len(variant.amplifiers), [at_unit(unit) for unit in variant.amplifiers]


def _pairs_of(site: Site, variant: Variant) -> tuple[int, list[Record]]:
    return sum(len(channels) for _, channels in site.plugs(variant)), list(site.rows(variant))


def _places_of(site: Site, variant: Variant) -> tuple[int, list[Record]]:
    plugs, rows = _plugs_of(site, variant)
    amplifiers, units = _amplifiers_of(site, variant)
    return plugs + amplifiers, [*rows, *units]


def _over_maps(
    site: Site, what: str, words: Callable[[str], str], counted: Callable[[Site, Variant], tuple[int, list[Record]]],
    word: str,
) -> Iterator[Line]:  # fmt: skip
    """One line over all maps: the fewest of any of them, and the most; only if it is one of those that have any."""
    found = [(variant, *counted(site, variant)) for variant in site.could]
    some = [variant for variant, number, _ in found if number]
    if not some:
        return
    least, most = min(number for _, number, _ in found), max(number for _, number, _ in found)
    records = dict.fromkeys(record for _, _, records in found for record in records)
    yield _line(site, what, words(several(least, most, word)), tuple(records), least, most, *site.if_map(some))


# -- what hangs on the wishes ----------------------------------------------------------------------------------


def _driven(site: Site, *kinds: str) -> tuple[Record, ...]:
    """The channels of these wishes, each once."""
    return tuple({wish.name: wish.record for wish in reversed(site.wishes(*kinds))}.values())[::-1]


def _counted(
    site: Site, what: str, words: str, word: str, basis: tuple[Record, ...], times: int = 1
) -> Iterator[Line]:  # fmt: skip
    number = len(basis)
    if number:
        said = words.format(several(number, number, word))
        yield _line(site, what, said, tuple(dict.fromkeys(basis)), number * times, number * times)


def _laying(site: Site) -> Iterator[Line]:
    found = list(lots(site))
    for supply, what, word in ((True, SUPPLY, "supply cable"), (False, CABLE, "other cable")):
        some = [lot for lot in found if lot.supply is supply]
        if some:
            least, most = sum(lot.least for lot in some), sum(lot.most for lot in some)
            yield _line(
                site, what, f"Lay {several(least, most, word)}.", tuple(dict.fromkeys(_of(some))), least, most,
                both(*dict.fromkeys(lot.condition for lot in some)), ways(*dict.fromkeys(lot.find_out for lot in some)),
            )  # fmt: skip


def _of(some: list[Lot]) -> Iterator[Record]:
    for lot in some:
        yield from lot.basis


def _line(
    site: Site, what: str, words: str, basis: tuple[Record, ...], least: int, most: int, condition: str = "",
    find_out: str = "",
) -> Line:  # fmt: skip
    low_ms, high_ms, rate = span_of(site.shop, what)
    return Line(TIME, words, basis, condition, find_out, least * low_ms, most * high_ms, "", least, most, (rate,))


# -- joints ----------------------------------------------------------------------------------------------------


def _joining(site: Site) -> Iterator[Line]:
    """The least of any map and way, and the most. A leased car is cut only where there is no other way."""
    rates: dict[Rate, None] = {}
    spans, numbers, some = [], [], []
    records: dict[Record, None] = {}
    for variant in site.could:
        low = high = joints = 0
        for plug, channels in site.plugs(variant):
            times = [_time(site, plug, way, rates) for way in site.ways(variant, plug, channels)]
            if times:
                low, high, joints = low + min(times), high + max(times), joints + 4 * len(channels)
        spans.append((low, high))
        numbers.append(joints)
        if joints:
            some.append(variant)
            records |= dict.fromkeys(site.rows(variant))
    if not some:
        return
    if site.leased is not None:
        records[site.leased] = None
    least, most = min(numbers), max(numbers)
    yield Line(
        TIME, f"Make {span(least, most)} joints, with a loom or by hand.", tuple(records), *site.if_map(some),
        min(low for low, _ in spans), max(high for _, high in spans), "", least, most, tuple(rates),
    )  # fmt: skip


def _time(site: Site, plug: Plug, way: PlugWay, told: dict[Rate, None]) -> int:
    rates, method = site.rates, way.way.method
    each = [(method, way.way.time_ms, rates.joint_written(method, plug.where), way.joints)]
    if way.loom:
        each.append(("mate", rates.work_ms("mate"), rates.work_written("mate"), 2))
        each.append(("look at a lock", rates.recheck_ms("lock"), rates.recheck_written("lock"), 2))
    for what, time_ms, written, _ in each:
        told[Rate(what, minutes_span(time_ms, time_ms), not written)] = None
    return sum(time_ms * number for _, time_ms, _, number in each)
