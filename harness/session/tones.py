"""Toning: one pair at a time, in the order that moves the probes least. Meter first, then the body, tone, polarity."""

from __future__ import annotations

from harness.electrical.turn_on import MOST_WITHOUT_FEED_V
from harness.graph.contrary import DC, contrary
from harness.graph.pairs import speaker_turned, strangers
from harness.graph.resistance import in_band
from harness.graph.wiring import Wiring
from harness.model.evidence import OPEN
from harness.model.function import bases_in
from harness.planning.toning import TonePair, toning_plan
from harness.session.talk import LEFT_OUT, Choice, Outcome, Question, Section, Talk, Task
from harness.session.turned import NAME as WHICH_IS_TURNED
from harness.session.words import NOTHING, band, heard_of, listed, wire

NAME = "tones"
CAUTIONS = (
    "Never tone into a connected amplifier, output or input: its plug is out, its leads joined to nothing.",
    "No test lamp. No probe in restraint wiring (often yellow), in anything orange, or in a twisted data pair.",
    "Measure DC first, on every pair: anything but 0 V is still connected. Find it before you tone.",
    "Lowest tone level first, nobody's ear at a speaker. A cell: 1.5 V, one short touch, never on a bare tweeter.",
)
# A tone that a speaker can't play says nothing of it: a workshop's tones for each kind, quoted in the trade, seen 2026.
_TONES = (
    Choice("500 Hz warble, for most", "500 Hz"), Choice("50 Hz, for a woofer or subwoofer", "50 Hz"),
    Choice("8.5 to 9.5 kHz, for a tweeter", "9 kHz"), Choice("noise or music", "full range"),
)  # fmt: skip


_MEANS = (
    "The car is otherwise than the chart here: join nothing by this row. Go on with the next pair; the chart is judged "
    "by all tones together, and as soon as they say how it is wrong, it is said here."
)


def section(wiring: Wiring) -> Section | None:
    """What is left to tone; a pair toned as charted isn't asked again. None where the job has no pair to tone."""
    plan = [pair for pair in toning_plan(wiring) if not pair.units]
    if not plan:
        return None
    live = {each.contacts for each in contrary(wiring) if each.kind == DC}
    left = [pair for pair in plan if pair.state != "toned" or _contacts(pair) in live]
    left.sort(key=lambda pair: not pair.used)  # what the plan uses comes first, each part in its order
    plugs = list(dict.fromkeys(pair.plug for pair in left))
    first = tuple(line for plug in plugs for line in _unplug(wiring, plug, [p for p in left if p.plug == plug]))
    kept = [pair for pair in toning_plan(wiring) if pair.units]
    if kept:
        names = listed(f"{pair.name} ({pair.units[0]})" for pair in kept)
        first = (*first, f"Not toned, as their wires lead to a unit: {names}.")
    tasks = tuple(_task(wiring, pair) for pair in left)
    earlier = tuple(_task(wiring, pair) for pair in plan if pair not in left)
    return Section(NAME, "Tone the pairs", ("Key off.", *first), CAUTIONS, tasks, len(plan) - len(left), earlier)


def _unplug(wiring: Wiring, plug: str, pairs: list[TonePair]) -> list[str]:
    about = wiring.job.parts.plugs[plug]
    unit = f" from {about.unit}" if about.unit else ""
    where = f" ({about.where})" if about.where else ""
    lines = [f"Unplug {plug}{where}{unit}: you tone its car side."]
    for loom in dict.fromkeys(pair.clip.owner for pair in pairs if pair.clip.where != "plug"):
        ends = [m.end for m in wiring.job.mates if (m.loom, m.half, m.plug) == (loom, "car", plug)]
        lines.append(f"Put {loom}, {' and '.join(ends)} end, into {plug}, car side. Its other ends stay open.")
    return lines


def _task(wiring: Wiring, pair: TonePair) -> Task:
    where = f"{pair.plug} {wire(pair.plus)} and {wire(pair.minus)}"
    clip = ""
    if pair.clip.where == "leads":
        clip = f"Clip + on {pair.clip.plus}, − on {pair.clip.minus}."
    elif pair.clip.where == "end":
        clip = f"Probe {pair.clip.owner}, open end: + on {pair.clip.plus}, − on {pair.clip.minus}."
    else:
        clip = f"Probe {pair.plug}, car side: + on {pair.plus.cavity}, − on {pair.minus.cavity}."
    return Task(where, (where, clip), lambda: _talk(wiring, pair), _contacts(pair))


def _contacts(pair: TonePair) -> tuple[str, str]:
    return f"{pair.plug}.car.{pair.plus.cavity}", f"{pair.plug}.car.{pair.minus.cavity}"


def _talk(wiring: Wiring, pair: TonePair) -> Talk:
    plus, minus = pair.plus.cavity, pair.minus.cavity
    what = f"{pair.plug}.car.{plus}/{minus}"
    volts = yield Question(
        f"Volts DC between {plus} and {minus}",
        (Choice("0 V, as it must be", "0"), Choice("anything else", "live")), must=True,
    )  # fmt: skip
    if volts == "live":
        volts = yield Question(f"How many volts DC between {plus} and {minus}?", unit="V", must=True)
    dc: tuple[str, str] = ("dc", f"{volts} V")
    if abs(float(volts)) > MOST_WITHOUT_FEED_V:
        fields = (("volts", what), ("reads", dc[1]), *_conditions(wiring, pair))
        return Outcome(fields, _live(wiring, pair, dc[1]), True, again=True)
    ohms = yield Question(
        f"Ohms between {plus} and {minus}", (Choice("open", OPEN),), unit="ohm", expected=band(pair.expected)
    )
    reads = f"{ohms} ohm" if ohms not in (LEFT_OUT, OPEN) else ohms
    body = yield Question(
        "Ohms from each wire to the body",
        (
            Choice("both open, as it must be", OPEN),
            Choice(f"{plus} touches", plus),
            Choice(f"{minus} touches", minus),
        ),
        expected="open",
    )
    if body not in (LEFT_OUT, OPEN):
        low = yield Question(f"How many ohms from {body} to the body?", unit="ohm", must=True)
        fields = (("ohm", f"{pair.plug}.car.{body}"), ("reads", f"{low} ohm"), *_conditions(wiring, pair))
        words = f"STOP: {body} lies on the body with {low} ohm. Connect nothing to it; look in the door boot first."
        return Outcome(fields, (words,), True)
    expected = tuple(dict.fromkeys(answer.speaker for answer in pair.answers))
    heard = yield from heard_of(wiring, "Tone on: which speakers answer? Walk round.", expected)
    if heard == LEFT_OUT:
        if not reads:
            fields = (("volts", what), ("reads", dc[1]), *_conditions(wiring, pair))
            return Outcome(fields, ("The volts recorded, nothing else of this pair.",))
        fields = (("ohm", what), dc, ("reads", reads), *_body(body), *_conditions(wiring, pair))
        read, left = _ohm_words(pair, ohms), "Measured, not toned."
        if "NOT as" in read:
            return Outcome(fields, (read, left), True)
        return Outcome(fields, (left,), fits=(read,)) if "as expected" in read else Outcome(fields, (read, left))
    tone = yield Question("Which tone was on?", _TONES)
    found = LEFT_OUT
    if heard != NOTHING:
        found = yield Question(
            f"Cell + on {plus}, one short touch: the cone moves",
            (Choice(f"out: {plus} is +", plus), Choice(f"in: {minus} is +", minus), Choice("can't be seen", LEFT_OUT)),
            expected={plus: f"out: {plus} is +", minus: f"in: {minus} is +"}.get(_awaited(wiring, pair), ""),
        )
    more = [("signal", tone), ("plus", found), ("reads", reads)]
    fields = (
        ("tone", what), ("charted", pair.plus.function.base), ("heard", heard), dc, *(each for each in more if each[1]),
        *_body(body), *_conditions(wiring, pair),
    )  # fmt: skip
    return _judged(wiring, pair, fields, heard, found, ohms, expected)


def _live(wiring: Wiring, pair: TonePair, reads: str) -> tuple[str, ...]:
    """What to do about volts on a pair that nothing may feed."""
    plug = wiring.job.parts.plugs[pair.plug]
    unit = f"its half toward {plug.unit}" if plug.unit else "its other half"
    where = f"{pair.plug} {pair.plus.cavity}/{pair.minus.cavity}"
    return (
        f"STOP: {reads} DC on {where}: something is still connected. No tone, no ohms, no cell here.",
        f"Find it: key out; {pair.plug} apart from {unit}, no loom or lead of yours on a unit. Then read again.",
        "If volts stay, the car feeds them: another amplifier, or a wire trapped on a live one.",
        "The same pair again, until it reads 0 V; or . stops.",
    )


def _body(body: str) -> list[tuple[str, str]]:
    return [("body", OPEN)] if body == OPEN else []


def _conditions(wiring: Wiring, pair: TonePair) -> tuple[tuple[str, str | tuple[str, ...]], ...]:
    unit = wiring.job.parts.plugs[pair.plug].unit
    return (("unplugged", tuple(filter(None, (pair.plug, unit)))), ("key", "out"))


def _ohm_words(pair: TonePair, ohms: str) -> str:
    if ohms == LEFT_OUT:
        return "No ohms read."
    reads, expected = ohms if ohms == OPEN else f"{ohms} ohm", band(pair.expected)
    fits = in_band(pair.expected, reads)
    if fits is None:
        return f"{reads}; nothing is known to hold it against."
    return f"{reads}, as expected: {expected}." if fits else f"{reads}, NOT as expected: {expected}."


def _judged(
    wiring: Wiring, pair: TonePair, fields: tuple[tuple[str, str | tuple[str, ...]], ...], heard: str, found: str,
    ohms: str, expected: tuple[str, ...],
) -> Outcome:  # fmt: skip
    plus = pair.plus.cavity
    charted = pair.plus.function.base
    said = f"{pair.plug} {plus}/{pair.minus.cavity}"
    bases = bases_in(heard)
    fits, lines = [], []
    then = ""
    as_charted = (charted in bases) or (not expected and heard == NOTHING)
    rows = pair.plus, pair.minus
    more = strangers(wiring, wiring.job.parts.plugs[pair.plug], rows, heard) if as_charted else ()
    if more:
        as_charted = False
        lines.append(f"{said}: DIFFERS. Charted {charted}, and {listed(more)} too: joined to its wires, or touching.")
        lines.append("Join nothing to it before you know where: an output here would drive them all.")
    elif as_charted:
        extra = "" if set(heard.split()) == set(expected) or heard == NOTHING else f" (heard {heard})"
        fits.append(f"{said}: as charted, {charted}{extra}.")
    else:
        what = "nothing answered" if heard == NOTHING else f"heard {heard}"
        lines += [f"{said}: DIFFERS. Charted {charted}, {what}.", _MEANS]
    awaited = _awaited(wiring, pair)
    turned = "charted" if awaited == plus else "awaited, as the speaker is turned,"
    if found and found == awaited:
        fits.append(f"+ on {found}, {'as charted' if awaited == plus else 'as it must be: the speaker is turned'}.")
    elif found and as_charted:
        lines.append(f"+ is on {found}, {turned} on {awaited}: DIFFERS.")
        lines.append("The speaker is turned in this car, or the chart has the two wires exchanged: no tone tells.")
        then = WHICH_IS_TURNED
    elif found:
        lines.append(f"+ is on {found}, {turned} on {awaited}: DIFFERS.")
    ohm_words = _ohm_words(pair, ohms)
    (lines if "NOT as" in ohm_words else fits if "as expected" in ohm_words else lines).append(ohm_words)
    loud = any("DIFFERS" in each or "NOT as" in each for each in lines)
    if heard != NOTHING and not found:
        lines.append("Polarity not seen: it stays open.")
    return Outcome(fields, tuple(lines), loud, fits=tuple(fits), then=then)


def _awaited(wiring: Wiring, pair: TonePair) -> str:
    """The cavity where + must be found: the charted one, or the other where the speaker is turned in the car."""
    turned = speaker_turned(wiring, f"{pair.plug}.car.{pair.plus.cavity}")
    return pair.minus.cavity if turned else pair.plus.cavity
