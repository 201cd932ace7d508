"""Where the old car's records speak against the chart that the next car is to begin with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from harness.again.recheck import Recheck
from harness.finding import Finding
from harness.graph.drivers import must_answer, named, played
from harness.graph.misread import CODES, NO_PATTERN, UNDECIDED
from harness.graph.pairs import speaker_turned
from harness.graph.toned import own_speakers
from harness.graph.wiring import Wiring
from harness.model.contact import printed
from harness.model.evidence import NOTHING, Record, of_another_car
from harness.model.function import bases_in, words_in
from harness.model.parts import Row

_DO = "Put the chart right and make this job anew; else tone this pair first and join nothing by it before."
_TOLD = frozenset((*CODES.values(), NO_PATTERN, UNDECIDED))


def contradictions(wiring: Wiring, findings: Iterable[Finding]) -> list[Recheck]:
    """What the checks say of the old job's charts by its tones, then pair by pair what was heard or found otherwise.

    The last tone of a pair counts, and the last word on its polarity; records of another car say nothing.
    """
    made = [
        Recheck("wrong", finding.places[0].name, f"{finding.title} ({finding.code}): {finding.message}", finding.do,
                finding.places[0].place)
        for finding in findings
        if finding.code in _TOLD
    ]  # fmt: skip
    return [*made, *_pairs(wiring)]


def _pairs(wiring: Wiring) -> Iterator[Recheck]:
    car = wiring.job.car
    name, year = (car.name, car.year) if car is not None else ("", "")
    on = f"on {' '.join(filter(None, (name, year))) or 'the first car'}"
    heard: dict[frozenset[str], Record] = {}
    plus: dict[frozenset[str], Record] = {}
    for record in wiring.job.records:
        if record.verb not in ("tone", "polarity") or len(record.contacts) != 2:
            continue
        if of_another_car(record.word("car"), name, year):
            continue
        key = frozenset(record.contacts)
        if record.verb == "tone" and _tells(wiring, record) and not _fell_silent(wiring, record, heard.get(key)):
            heard[key] = record
        if record.word("plus") and record.word("how") != "battery":
            plus[key] = record
    for key in dict.fromkeys([*heard, *plus]):
        said = []
        if key in heard and (words := _otherwise(wiring, heard[key])):
            said.append(words)
        if key in plus and (words := _turned(wiring, plus[key])):
            said.append(words)
        for charted, found, record in said:
            at = "/".join(wiring.contact(each).last for each in record.contacts)
            plug = wiring.contact(record.contacts[0]).owner
            yield Recheck("wrong", f"{plug}.{at}", f"{charted}; {on} {found}", _DO, record.place)


def _rows(wiring: Wiring, record: Record) -> tuple[Row | None, Row | None]:
    contact = wiring.contact(record.contacts[0])
    plug = wiring.job.parts.plugs.get(contact.owner)
    by_cavity = {row.cavity.lower(): row for row in plug.rows} if plug is not None else {}
    one, other = (by_cavity.get(wiring.contact(each).last.lower()) for each in record.contacts)
    return one, other


def _own(wiring: Wiring, record: Record) -> tuple[str, ...]:
    """The speakers between the two cavities of a tone, where the chart has them as a pair."""
    one, other = _rows(wiring, record)
    plug = wiring.job.parts.plugs.get(wiring.contact(record.contacts[0]).owner)
    if plug is None or one is None or other is None or one.function.base != other.function.base:
        return ()
    return own_speakers(wiring, plug, (one, other))


def _tells(wiring: Wiring, record: Record) -> bool:
    """Whether a tone says what answered; silence only where something on the pair must answer that tone."""
    said, span = record.word("heard"), played(record.word("signal"))
    if span is None or any(word.lower() not in NOTHING for word in words_in(said)):
        return bool(said)
    own = _own(wiring, record)
    return not own or all(must_answer(wiring.job.parts.speakers[name], span) for name in own)


def _fell_silent(wiring: Wiring, record: Record, before: Record | None) -> bool:
    """Whether nothing answers where an earlier tone was as charted: a fault of that car since, none of the chart."""
    return before is not None and record.word("heard") in NOTHING and _otherwise(wiring, before) is None


def _otherwise(wiring: Wiring, record: Record) -> tuple[str, str, Record] | None:
    """Charted one thing, another answered: in words, or None."""
    bases = [row.function.base if row is not None else "nothing" for row in _rows(wiring, record)]
    charted = " and ".join(dict.fromkeys(bases))
    said = record.words("heard")
    names = bases_in(record.word("heard"))
    silent = not names and bool(said) and said[0].lower() in NOTHING
    lacks = wiring.job.car.lacks if wiring.job.car is not None else ()
    if len(set(bases)) == 1 and (bases[0] in names or (silent and bases[0] in lacks)):
        return None
    by_name = named(wiring.job.parts.speakers, record.word("heard"), played(record.word("signal")))
    if not set(_own(wiring, record)).isdisjoint(by_name.speakers):
        return None
    if not names and not silent:
        return None  # a place that isn't in the job, or words: nobody can say what was meant
    found = "nothing answered" if silent else f"{' and '.join(said)} answered"
    return f"charted {printed(charted)}", found, record


def _turned(wiring: Wiring, record: Record) -> tuple[str, str, Record] | None:
    """Charted + on one cavity, found on the other; not where the speaker was turned on that car."""
    ends = [contact for row, contact in zip(_rows(wiring, record), record.contacts, strict=True) if row is not None
            and row.function.sign == "+"]  # fmt: skip
    if any(".unit." not in end and speaker_turned(wiring, end) for end in ends):
        return None
    cavities = [wiring.contact(each).last for each in record.contacts]
    found = record.word("plus").lower()
    for row, cavity in zip(_rows(wiring, record), cavities, strict=True):
        if row is not None and cavity.lower() == found and row.function.sign == "-":
            other = next(each for each in cavities if each.lower() != found)
            return f"+ charted on {other}", f"+ was found on {cavity}", record
    return None
