"""The verdict on one chart: right as far as toned, wrong in a way that has a name, or wrong in some other way.

The rule, in the order in which it decides:

1. A chart is only judged where a tone speaks against it: a speaker heard, or + found, where it has something else;
   or where two or more of its pairs stay silent and none is heard.
2. A reading is left while it explains every tone that speaks. Only where none does may a reading of the whole chart
   leave one tone unexplained: then at least four must be heard where it has them, and the chart as written must leave
   three or more unexplained.
3. A reading is named where no other one is left that puts anything elsewhere, at least two pairs are heard where it
   has them, and chance is small: pairs put at random into the face would be heard there with a probability of, taken
   times the number of readings that might have been named, at most one in twenty. Where every charted pair was heard
   there is nothing more to ask, and it is named too.
4. Where more than one is left, or the tones are too few, that is said, with the next tone.
5. Where none is left, at least two tones speak against the chart and a speaker was heard where it has another, there
   is no pattern.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from harness.patterns import patterns
from harness.patterns.chart import AS_CHARTED, Chart, Corrected, Tone, corrected
from harness.patterns.fitting import Fit, Fits, fit, fits
from harness.patterns.parting import Outcome, Probe, next_tone, to_confirm

NAMED, SEVERAL, TOO_FEW, NONE = "named", "several", "too few", "no pattern"
MOST_CHANCE = 1 / 20
LEAST_HEARD = 2  # pairs heard where a reading has them, before it is named
LEAST_SPARED = 4  # as many, before one tone may be left unexplained
LEAST_AGAINST = 3  # tones that the chart as written must leave unexplained then
LEAST_AGAINST_ALL = 2  # tones against the chart, one of them heard, before there is no pattern
AT_ONCE = 2  # silent pairs, none heard, before silence alone speaks against a chart


class Left(NamedTuple):
    """A correction that is left: the readings that make it (the likeliest first), and how the tones go with it."""

    corrections: tuple[Corrected, ...]
    fits: Fits
    odd: tuple[Tone, ...] = ()  # tones that it leaves unexplained

    @property
    def first(self) -> Corrected:
        return self.corrections[0]


class Verdict(NamedTuple):
    """What is left of the readings, and what it comes to: `kind` is named, several, too few or no pattern.

    `against` are the tones that speak against the chart as written; `more` is how many further tones it takes until a
    reading is named, at most and if one of those left is right (with none left: at least); `probe` is the next one;
    `chance` bounds the probability that a chart wrong at random goes with the tones
    as well as the reading named (1.0 where none is).
    """

    kind: str
    left: tuple[Left, ...]
    against: tuple[Tone, ...]
    as_charted: Fits
    more: int = 0
    probe: Probe | None = None
    chance: float = 1.0


def judge(chart: Chart, tones: Sequence[Tone]) -> Verdict | None:
    """What the tones say of the chart; None where they don't speak against it. The last tone of a pair counts."""
    tones = _last(tones)
    plain = corrected(chart, AS_CHARTED)
    if plain is None or not chart.pairs:
        return None
    told = fits(plain, tones)
    if not told.against and (told.silent < AT_ONCE or told.heard):
        return None
    against = tuple(tone for tone in tones if fit(plain, tone) in (Fit.AGAINST, Fit.SILENT))
    left = _left(chart, tones, plain, told)
    if not left:
        if told.contradicted < LEAST_AGAINST_ALL or not told.against or _one_odd(told):
            return Verdict(TOO_FEW, (), against, told, more=max(LEAST_HEARD + 1 - len(tones), 1))
        return Verdict(NONE, (), against, told)
    if len(left) > 1:
        probe = next_tone(chart, [each.first for each in left], tones)
        more = _tones_to_name(chart, left, tones) if probe else 0
        return Verdict(SEVERAL, left, against, told, more=more, probe=probe)
    (only,) = left
    chance = chance_of(chart, only, len(tones))
    missing = _missing(chart, only, tones)
    if missing:
        return Verdict(TOO_FEW, left, against, told, missing, to_confirm(chart, only.first, tones), chance)
    return Verdict(NAMED, left, against, told, chance=chance)


def _one_odd(told: Fits) -> bool:
    """One tone against many that say as the chart says: take that one again before anything else."""
    return told.contradicted == 1 and told.heard >= LEAST_SPARED


def _last(tones: Sequence[Tone]) -> list[Tone]:
    """The last tone of each two cavities, in the order in which they were taken; one on a single cavity is none."""
    last: dict[frozenset[str], Tone] = {}
    for tone in tones:
        if tone.a == tone.b:
            continue
        last.pop(tone.cavities, None)
        last[tone.cavities] = tone
    return list(last.values())


def _left(chart: Chart, tones: Sequence[Tone], plain: Corrected, told: Fits) -> tuple[Left, ...]:
    """The corrections that explain every tone; else those of the whole chart that explain all but one."""
    exact: dict[frozenset[tuple[str, str]], list[tuple[Corrected, Fits]]] = {}
    near: dict[frozenset[tuple[str, str]], list[tuple[Corrected, Fits]]] = {}
    spare = told.contradicted >= LEAST_AGAINST
    for pattern in patterns():
        for reading in pattern.ways(chart, tones):
            made = corrected(chart, reading)
            if made is None or made.key == plain.key:
                continue
            there = fits(made, tones)
            if not there.contradicted:
                exact.setdefault(made.key, []).append((made, there))
            elif spare and reading.whole and there.contradicted == 1 and there.heard >= LEAST_SPARED:
                near.setdefault(made.key, []).append((made, there))
    return tuple(
        Left(tuple(made for made, _ in each), each[0][1], _odd(each[0][0], tones)) for each in (exact or near).values()
    )


def _odd(made: Corrected, tones: Sequence[Tone]) -> tuple[Tone, ...]:
    return tuple(tone for tone in tones if fit(made, tone) in (Fit.AGAINST, Fit.SILENT))


# -- chance ---------------------------------------------------------------------------------------------


def chance_of(chart: Chart, left: Left, toned: int) -> float:
    """At most this probability that pairs put at random into the face go with the tones as well as a reading does.

    A pair put at random lies at two given cavities of n with a probability of 2 in n (n - 1), the next pair at two of
    the n - 2 that are left, and so on; times the readings that there are, and the ways to spare the tones left over.
    """
    spared = math.comb(toned, len(left.odd))
    return min(1.0, _of_pairs(chart.count, left.fits.heard) * readings_of(chart, left.first.reading.whole) * spared)


def _of_pairs(cavities: int, heard: int) -> float:
    made = 1.0
    for each in range(heard):
        free = cavities - 2 * each
        made *= 2 / (free * (free - 1)) if free > 1 else 1.0
    return made


def readings_of(chart: Chart, whole: bool) -> int:
    """How many readings might have been named: those of the whole chart, or with them those of single pairs."""
    if "of all" not in chart.counted:
        chart.counted["of all"] = sum(
            1 for pattern in patterns() for reading in pattern.ways(chart, ()) if reading.whole
        )  # fmt: skip
    of_all = chart.counted["of all"]
    pairs, cavities = len(chart.pairs), chart.count
    # a pair turned; two exchanged or one at two free cavities; one wire at another cavity
    of_one = pairs + pairs * (pairs - 1) // 2 + pairs * cavities * cavities // 2 + 2 * pairs * cavities
    return of_all if whole else of_all + of_one


def _tones_to_name(chart: Chart, left: Sequence[Left], tones: Sequence[Tone]) -> int:
    """How many more tones at worst, each time the best one, until one reading is named, whichever is the right one.

    Readings that answer alike go on together, so that each next tone is looked for once.
    """
    probe = next_tone(chart, [each.first for each in left], tones) if len(left) > 1 else None
    if probe is None:
        return max(_missing(chart, each._replace(fits=fits(each.first, tones)), tones) for each in left)
    groups: dict[Outcome, list[Left]] = {}
    for each, outcome in zip(left, probe.outcomes, strict=True):
        groups.setdefault(outcome, []).append(each)
    return 1 + max(
        _tones_to_name(chart, group, [*tones, Tone(probe.a, probe.b, frozenset((name,)) - {""}, plus)])
        for (name, plus), group in groups.items()
    )


def _missing(chart: Chart, left: Left, tones: Sequence[Tone]) -> int:
    """How many more pairs must be heard where the only reading left has them, before it is named."""
    heard = left.fits.heard
    all_heard = len(left.first.pairs)
    need = min(LEAST_HEARD, all_heard)
    while need < all_heard:
        trial = left._replace(fits=left.fits._replace(heard=need))
        if chance_of(chart, trial, len(tones)) <= MOST_CHANCE:
            break
        need += 1
    return max(need - heard, 0)
