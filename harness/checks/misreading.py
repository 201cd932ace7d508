"""How a chart that the tones speak against is told: the words that all codes of it share."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from harness.checks.registry import Fault
from harness.finding import Spot
from harness.graph.misread import Misread, by_colour, misread, naming, pattern_look, pattern_words, told_as
from harness.graph.plus_side import OtherPlus, other_plus
from harness.graph.rows import row_contacts
from harness.graph.wiring import Wiring
from harness.model.contact import printed
from harness.model.evidence import AS_MARKED, TURNED
from harness.model.function import words_in
from harness.model.job import Tone
from harness.model.parts import Plug
from harness.patterns.chart import Chart, Corrected
from harness.patterns.judging import NAMED, SEVERAL, Left
from harness.patterns.parting import Probe

_RADIO_FIRST = "Find + at the radio's side of one of them first: the speakers may be turned. "
_TOLD = 3  # so many tones and readings are said one by one


def named(wiring: Wiring, code: str) -> Iterator[Fault]:
    """The faults of a code that names how a chart is wrong."""
    for each in told_as(wiring, code):
        (left,) = each.verdict.left
        yield _fault(each, _named_words(each, left), _correct(each, left))


def without_pattern(wiring: Wiring, code: str) -> Iterator[Fault]:
    """The faults of the code for charts that are wrong in no way with a name."""
    for each in told_as(wiring, code):
        plug, name = each.plug, each.plug.name
        yield _fault(
            each,
            f"{name}: no reading of its chart goes with the tones; {len(each.records)} of {each.toned} speak against "
            f"it ({_contrary(each)}). It looks like another variant's chart, and the plan would open the wrong wires."
            f"{_no_face(plug)}",
            f"Work no further by this chart: tone every pair of {name} and write down what answers, or find the page "
            f"of this variant.",
        )


def undecided(wiring: Wiring, code: str) -> Iterator[Fault]:
    """The faults of the code for charts of which the tones don't say yet how they are wrong."""
    for each in told_as(wiring, code):
        verdict, name = each.verdict, each.plug.name
        start = f"{name}: the tones speak against its chart ({_contrary(each)})"
        if verdict.kind == SEVERAL:
            speakers = "; or the speakers are turned in this car" if each.radio_unread else ""
            ways = f"{_readings(verdict.left)}{speakers}"
            yield _fault(each, f"{start}, which may be wrong in more than one way: {ways}.", _part(each))
        elif verdict.kind == NAMED:
            yield _fault(each, f"{start}, which may be wrong in more than one way: {_causes(verdict.left[0])}.",
                         _look_at_colours(each))  # fmt: skip
        elif verdict.left:
            (left,) = verdict.left
            yield _fault(
                each,
                f"{start}. One way alone explains them, {_words(left.first)} ({left.first.reading.how}), but they are "
                f"too few to say so.",
                _next(each, [left], verdict.probe),
            )
        else:
            yield _fault(
                each,
                f"{start}, and they are too few to say how it is wrong.{_no_face(each.plug)}",
                _tone_again(each),
            )


def turned_or_charted(wiring: Wiring) -> Iterator[Fault]:
    """Pairs with + on the other wire of which the tones can't say whether the chart or the speaker is turned.

    One fault a plug. Where the tones say of the whole chart how it is wrong, that is told alone.
    """
    other = {each.plug.name for each in misread(wiring) if each.code != "A24"}
    by_plug: dict[str, list[OtherPlus]] = {}
    for each in other_plus(wiring):
        if not each.chart_wrong and each.plug not in other:
            by_plug.setdefault(each.plug, []).append(each)
    for name, pairs in by_plug.items():
        plug = wiring.job.parts.plugs[name]
        yield Fault(
            at=Spot(plug.place, name),
            message=" ".join(_plus_words(each) for each in pairs),
            do=" ".join(dict.fromkeys(_plus_do(each) for each in pairs)),
            about=row_contacts(plug, *(row for each in pairs for row in (each.plus, each.minus))),
            also=tuple(Spot(each.record.place, each.name) for each in pairs),
        )


def _plus_words(each: OtherPlus) -> str:
    base = printed(each.plus.function.base)
    found = f"{each.name}: {base} answers with its + on {each.found}, and is written with + on {each.awaited}"
    if each.awaited != each.plus.cavity:
        return f"{found}, as the speaker is written as turned: it is not, or the chart has the two wires exchanged."
    if each.radio:
        return f"{found}. The radio has its + on {each.radio}, as charted: the speaker is turned in this car."
    return f"{found}: the speaker is turned in this car, or the chart has the two wires exchanged. A tone can't tell."


def _plus_do(each: OtherPlus) -> str:
    speaker = next(iter(each.speakers), each.plus.function.base)
    pair = f"{each.plug}.unit.{each.plus.cavity}/{each.minus.cavity}"
    if each.awaited != each.plus.cavity:
        return f"Take `reversed` off its chain, or record `polarity: spk.{speaker}, found: {AS_MARKED}`."
    turned = f"`polarity: spk.{speaker}, found: {TURNED}`"
    if each.radio:
        return f"Record it as this car's: {turned}; the plan is held against it then. Leave the chart as it is."
    return (
        f"Look at the speaker's marks, and where + is at the radio's side: `polarity: {pair}, plus: …`. "
        f"If the speaker is turned record {turned}. Change no chart before that."
    )


def _fault(each: Misread, message: str, do: str) -> Fault:
    moved = {cavity for left in each.verdict.left for cavity in _changed(each.chart, left.first)}
    pairs = {cavity for pair in each.chart.pairs for cavity in (pair.plus, pair.minus)}
    name = naming(each.plug)
    rows = [row for row in each.plug.rows if name(row.cavity) in (moved or pairs)]
    return Fault(
        at=Spot(each.plug.place, each.plug.name),
        message=message,
        do=do,
        about=row_contacts(each.plug, *rows),
        also=tuple(Spot(record.place, _where(record)) for record in each.records),
    )


# -- named ------------------------------------------------------------------------------------------------


def _named_words(each: Misread, left: Left) -> str:
    agree = each.toned - len(left.odd)
    share = (
        ("Both" if agree == 2 else f"All {agree}") + " tones agree"
        if not left.odd
        else f"{agree} of {each.toned} tones agree"
    )
    first = left.first.reading.pattern
    same = [pattern_words(other.reading.pattern) for other in left.corrections if other.reading.pattern != first]
    how = dict.fromkeys(other.reading.how for other in left.corrections if other.reading.pattern == first)
    words = f"{each.plug.name}: the tones say how its chart is wrong: {_words(left.first)} ({'; '.join(how)}). "
    speak = "1 speaks" if len(each.records) == 1 else f"{len(each.records)} speak"
    words += f"{share}; {speak} against it as written, and the plan goes by that."
    words += f" Or {' or '.join(dict.fromkeys(same))}, which is the same here." if same else ""
    if left.odd:
        words += f" Not explained: the tone of {' and '.join(f'{tone.a}/{tone.b}' for tone in left.odd)}."
    return words


def _correct(each: Misread, left: Left) -> str:
    first = left.first
    old = {(pair.name, pair.plus, pair.minus) for pair in each.chart.pairs}
    now = [f"{pair.name} {pair.plus}/{pair.minus}" for pair in first.pairs if tuple(pair[:3]) not in old]
    radio = _RADIO_FIRST if each.radio_unread else ""
    return (
        f"{radio}{pattern_look(first.reading.pattern)} Then correct the chart ({', '.join(now)}; + first), tone the "
        f"used pairs as corrected, and look over the plan."
    )


# -- undecided --------------------------------------------------------------------------------------------


def _readings(left: Sequence[Left]) -> str:
    told = [f"{_words(each.first)} ({each.first.reading.how})" for each in left[:_TOLD]]
    more = f"; and {len(left) - _TOLD} more" if len(left) > _TOLD else ""
    return "; or ".join(told) + more


def _causes(left: Left) -> str:
    told = dict.fromkeys(f"{_words(each)} ({each.reading.how})" for each in left.corrections)
    return "; or ".join(told)


def _part(each: Misread) -> str:
    verdict = each.verdict
    if verdict.probe is not None:
        return _next(each, verdict.left, verdict.probe)
    one, two = verdict.left[0].first, verdict.left[1].first
    content = each.chart.content
    never = {content[cavity] for cavity in each.chart.never}  # restraint and high voltage are not metered
    held = {
        cavity: {one.content.get(cavity, ""), two.content.get(cavity, "")} for cavity in (*one.content, *two.content)
    }
    parts = [c for c, both in held.items() if len(both) > 1 and c not in each.chart.never and never.isdisjoint(both)]
    if not parts:
        return f"{_hands_off(each)} Look at the page: no tone that may be put on these wires parts the two."
    cavity = parts[0]
    return (
        f"No tone that may be put on these wires parts them. Look at cavity {cavity} and meter it to ground: "
        f"{one.content.get(cavity, 'nothing charted')} if {_words(one)}, "
        f"{two.content.get(cavity, 'nothing charted')} if {_words(two)}. {_hands_off(each)}"
    )


def _look_at_colours(each: Misread) -> str:
    told = by_colour(each.plug, each.verdict)
    if told is None:
        return _hands_off(each)
    corrections = each.verdict.left[0].corrections
    rows = next(one for one in corrections if one.reading.carried)
    words = next(one for one in corrections if not one.reading.carried)
    return (
        f"No tone parts them, the colours do. Look at cavity {told.cavity}: {told.carried} if "
        f"{_words(rows)}, {told.stayed} if {_words(words)}. {_hands_off(each)}"
    )


def _next(each: Misread, left: Sequence[Left], probe: Probe | None) -> str:
    many = each.verdict.more
    if len(left) == 1:
        more = f" {'One more tone is' if many == 1 else f'{many} more tones are'} needed."
    else:
        tones = "one more tone tells" if many == 1 else f"at most {many} more tones tell"
        more = f" If one of these is right, {tones} which."
    if probe is None:
        return f"Find the page once more: no tone that may be put on these wires tells it. {_hands_off(each)}"
    meter = ""
    if probe.meter:
        content = each.chart.content
        held = " and ".join(f"{content.get(cavity, '')} at {cavity}" for cavity in probe.meter)
        meter = f"The chart as written has {held}: meter to ground first. "
    by_answer: dict[tuple[str, str], list[str]] = {}
    for one, outcome in zip(left, probe.outcomes, strict=True):
        by_answer.setdefault(outcome, []).append(_words(one.first))
    names = [name for name, _ in by_answer]
    says = []
    for (name, plus), words in by_answer.items():
        answer = "nothing answers" if not name else f"{name} answers"
        answer += f", + at {plus}," if name and names.count(name) > 1 else ""
        says.append(f"{answer} if {' or '.join(dict.fromkeys(words))}")
    return f"{_reaching(each)}{meter}Tone {probe.a}/{probe.b} next: {'; '.join(says)}.{more} {_hands_off(each)}"


def _tone_again(each: Misread) -> str:
    many = each.verdict.more
    again = " and ".join(_where(record) for record in each.records[:_TOLD])
    first = _reaching(each)
    return (
        f"{first}Tone {again} once more, then other pairs of {each.plug.name}: at least {many} more "
        f"{'tone is' if many == 1 else 'tones are'} needed. {_hands_off(each)}"
    )


def _reaching(each: Misread) -> str:
    """Where nothing at all was heard, the tone itself comes first."""
    heard = any(record.heard.lower() != "none" for record in each.records)
    return "" if heard else "See that the tone reaches these wires. "


def _hands_off(each: Misread) -> str:
    return f"Cut and plug in nothing at {each.plug.name} before."


# -- words ------------------------------------------------------------------------------------------------


def _words(left: Corrected) -> str:
    return pattern_words(left.reading.pattern)


def _changed(chart: Chart, left: Corrected) -> set[str]:
    """Cavities of pairs that the reading puts elsewhere, as charted and as they are."""
    old = {(pair.name, pair.plus, pair.minus) for pair in chart.pairs}
    new = {(pair.name, pair.plus, pair.minus) for pair in left.pairs}
    return {cavity for _, plus, minus in old ^ new for cavity in (plus, minus)}


def _where(record: Tone) -> str:
    return "/".join(name.rsplit(".", 1)[1] for name in record.contacts)


def _contrary(each: Misread) -> str:
    told = [_says(each, record) for record in each.records[:_TOLD]]
    more = f"; {len(each.records) - _TOLD} more" if len(each.records) > _TOLD else ""
    return "; ".join(told) + more


def _says(each: Misread, record: Tone) -> str:
    """`1/2 charted FL, heard RR`."""
    name = naming(each.plug)
    cavities = {name(contact.rsplit(".", 1)[1]) for contact in record.contacts}
    pair = next((pair for pair in each.chart.pairs if {pair.plus, pair.minus} == cavities), None)
    words = words_in(record.heard)
    heard = "nothing heard" if record.heard.lower() == "none" else f"heard {' '.join(words)}"
    if pair is None:
        return f"{_where(record)} charted as no pair, {heard}"
    if pair.name in words and record.plus:
        return f"{pair.name} charted + {pair.plus}, found + {record.plus.rsplit('.', 1)[-1]}"
    return f"{_where(record)} charted {pair.name}, {heard}"


def _no_face(plug: Plug) -> str:
    if plug.face is not None and plug.face.drawn:
        return ""
    return " Its face isn't written, so a mirrored or turned view could not be told."
