"""Toning: one pair at a time, in the order that moves the probes least. Meter first, then the body, tone, polarity."""

from __future__ import annotations

from collections.abc import Generator

from harness.electrical.turn_on import MOST_WITHOUT_FEED_V
from harness.graph.contrary import DC, contrary
from harness.graph.drivers import must_answer, played, takes_over, tone_for
from harness.graph.pairs import Polarity, plus_found, speaker_turned
from harness.graph.plus_side import same
from harness.graph.resistance import in_band
from harness.graph.toned import AS_CHARTED, SILENT, STRANGER, Told, strangers, told, told_by, tones_of
from harness.graph.wiring import Wiring
from harness.model.evidence import ELSEWHERE, OPEN
from harness.model.job import Tone
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
_Ears = Generator[Question, str, tuple[str, str]]
_Fields = tuple[tuple[str, str | tuple[str, ...]], ...]

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
    return Task(
        where, (where, clip), lambda: _talk(wiring, pair), _contacts(pair), lambda: _next_tone(wiring, pair)
    )  # fmt: skip


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
    before = _told(wiring, pair)
    half = bool(before.heard and before.unheard)  # its drivers alone are left: what was read of it stands
    ohms = body = LEFT_OUT
    if not half:
        ohms = yield Question(
            f"Ohms between {plus} and {minus}", (Choice("open", OPEN),), unit="ohm", expected=band(pair.expected)
        )
        body = yield Question(
            "Ohms from each wire to the body",
            (
                Choice("both open, as it must be", OPEN),
                Choice(f"{plus} touches", plus),
                Choice(f"{minus} touches", minus),
            ),
            expected="open",
        )
    reads = f"{ohms} ohm" if ohms not in (LEFT_OUT, OPEN) else ohms
    if body not in (LEFT_OUT, OPEN):
        low = yield Question(f"How many ohms from {body} to the body?", unit="ohm", must=True)
        fields = (("ohm", f"{pair.plug}.car.{body}"), ("reads", f"{low} ohm"), *_conditions(wiring, pair))
        words = f"STOP: {body} lies on the body with {low} ohm. Connect nothing to it; look in the door boot first."
        return Outcome(fields, (words,), True)
    tone, heard = yield from _ears(wiring, pair)
    if heard == LEFT_OUT:
        if not reads:
            fields = (("volts", what), ("reads", dc[1]), *_conditions(wiring, pair))
            return Outcome(fields, ("The volts recorded, nothing else of this pair.",))
        fields = (("ohm", what), dc, ("reads", reads), *_body(body), *_conditions(wiring, pair))
        read, left = _ohm_words(pair, ohms), "Measured, not toned."
        if "NOT as" in read:
            return Outcome(fields, (read, left), True)
        return Outcome(fields, (left,), fits=(read,)) if "as expected" in read else Outcome(fields, (read, left))
    found = None if half and not _plus_lost(wiring, pair, tone) else (yield from _cell(wiring, pair, heard))
    more = [("signal", tone), ("plus", found or ""), ("reads", reads)]
    fields = (
        ("tone", what), ("charted", pair.plus.function.base), ("heard", heard), dc, *(each for each in more if each[1]),
        *_body(body), *_conditions(wiring, pair),
    )  # fmt: skip
    return _judged(wiring, pair, fields, tone, heard, found, None if half else _ohm_words(pair, ohms))


def _cell(wiring: Wiring, pair: TonePair, heard: str) -> Generator[Question, str, str | None]:
    """The cavity that a cell finds to be +, empty where it can't be seen; None where none is put on the pair."""
    plus, minus = pair.plus.cavity, pair.minus.cavity
    if heard == NOTHING or _no_cell(wiring, pair):
        return None
    return (
        yield Question(
            f"Cell + on {plus}, one short touch: the cone moves",
            (Choice(f"out: {plus} is +", plus), Choice(f"in: {minus} is +", minus), Choice("can't be seen", LEFT_OUT)),
            expected={plus: f"out: {plus} is +", minus: f"in: {minus} is +"}.get(_awaited(wiring, pair), ""),
        )
    )


def _plus_lost(wiring: Wiring, pair: TonePair, tone: str) -> bool:
    """Whether this tone is taken in place of the one by which + was found: without a + of its own it takes it back."""
    found_by = plus_found(wiring).get(frozenset(_contacts(pair)), Polarity()).record
    return found_by is not None and found_by.verb == "tone" and takes_over(tone, found_by.word("signal"))


def _no_cell(wiring: Wiring, pair: TonePair) -> str:
    """Why no cell is put on a pair, or empty: it harms a bare tweeter, and tells nothing behind a capacitor."""
    speakers = wiring.job.parts.speakers
    bare = [each.speaker for each in pair.answers if speakers[each.speaker].function.driver == "TW"]
    bare = [name for name in bare if not speakers[name].capacitor]
    if bare:
        return f"No cell on this pair: {listed(bare)} is a bare tweeter. Polarity by a pulse, or its marks."
    blocked = bool(pair.answers) and all(speakers[each.speaker].capacitor for each in pair.answers)
    return "No cell on this pair: through a capacitor it only clicks. Polarity by its marks." if blocked else ""


def _next_tone(wiring: Wiring, pair: TonePair) -> Talk:
    """A further tone at once: the probes are still on, and what was read of the pair is recorded."""
    tone, heard = yield from _ears(wiring, pair)
    if heard == LEFT_OUT:
        left = "; ".join(each.words for each in _told(wiring, pair).unheard)
        return Outcome((), (f"Nothing more recorded of it. {left}.",), then=_turned_then(wiring, pair))
    # a cell was on it already where the tone before was heard
    done = bool(_told(wiring, pair).heard) and not _plus_lost(wiring, pair, tone)
    found = None if done else (yield from _cell(wiring, pair, heard))
    fields: _Fields = (
        ("tone", f"{pair.plug}.car.{pair.plus.cavity}/{pair.minus.cavity}"), ("charted", pair.plus.function.base),
        ("heard", heard), ("signal", tone), *([("plus", found)] if found else []), *_conditions(wiring, pair),
    )  # fmt: skip
    return _judged(wiring, pair, fields, tone, heard, found, None)


def _ears(wiring: Wiring, pair: TonePair) -> _Ears:
    """Which tone is on, then who answers it: what must, goes by the tone. Without a tone nobody is asked to listen."""
    speakers = wiring.job.parts.speakers
    own = [speakers[name] for name in dict.fromkeys(answer.speaker for answer in pair.answers)]
    unheard = _told(wiring, pair).unheard  # those never tried come before those that kept silent
    left = [each.play for each in unheard if not each.silent] or [each.play for each in unheard]
    left = left or [tone_for(each) for each in own]
    tone = yield Question("Which tone is on?", _TONES, expected=", then ".join(dict.fromkeys(left)))
    if tone == LEFT_OUT:
        return tone, LEFT_OUT
    must = tuple(each.name for each in own if must_answer(each, played(tone)))
    may = tuple(each.name for each in own if each.name not in must)
    heard = yield from heard_of(wiring, f"{tone} on: which speakers answer? Walk round.", must, may)
    return tone, heard


def _told(wiring: Wiring, pair: TonePair) -> Told:
    return told(wiring, wiring.job.parts.plugs[pair.plug], pair.plus, pair.minus)


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
    wiring: Wiring, pair: TonePair, fields: _Fields, tone: str, heard: str, found: str | None, ohm_words: str | None
) -> Outcome:
    """What was heard against the chart, each driver against the tones so far, + and the ohms where they were asked."""
    plug, rows = wiring.job.parts.plugs[pair.plug], (pair.plus, pair.minus)
    charted, contacts = pair.plus.function.base, _contacts(pair)
    said = f"{pair.plug} {pair.plus.cavity}/{pair.minus.cavity}"
    now = Tone(contacts, charted, heard, found or "", pair.plus.place, (), tone)
    alone = told_by(wiring, plug, rows, (now,))
    after = told_by(wiring, plug, rows, (*tones_of(wiring).get(frozenset(contacts), ()), now))
    fits: list[str] = []
    lines: list[str] = []
    as_charted = alone.kind == AS_CHARTED or (alone.kind == SILENT and (not pair.answers or bool(after.heard)))
    if alone.idle:
        as_charted = False
        lines.append(f"{said}: nothing here must answer {tone}, so silence says nothing.")
    elif alone.kind == STRANGER:
        as_charted = False
        more = listed("a place that isn't in the job" if word in ELSEWHERE else word
                      for word in strangers(wiring, plug, rows, heard))  # fmt: skip
        lines.append(f"{said}: DIFFERS. Charted {charted}, and {more} too: joined to its wires, or touching.")
        lines.append("Join nothing to it before you know where: an output here would drive them all.")
    elif not as_charted:
        what = "nothing answered" if heard == NOTHING else f"heard {heard}"
        lines += [f"{said}: DIFFERS. Charted {charted}, {what}.", _MEANS]
    elif heard != NOTHING or not pair.answers:
        speakers = wiring.job.parts.speakers
        must = {each.speaker for each in pair.answers if must_answer(speakers[each.speaker], played(tone))}
        extra = "" if heard == NOTHING or (set(heard.split()) == must and len(after.heard) < 2) else f" (heard {heard})"
        fits.append(f"{said}: as charted, {charted}{extra}.")
    silent = [each for each in after.unheard if each.silent] if as_charted else []
    lines += [f"{said}: DIFFERS. {each.words}: dead, open, or not on this pair." for each in silent]
    left = [each for each in after.unheard if not each.silent] if as_charted or alone.idle else []
    lines += [f"{each.words}." for each in left]
    turned = _of_plus(wiring, pair, found, as_charted, fits, lines)
    if ohm_words is not None:
        (lines if "NOT as" in ohm_words else fits if "as expected" in ohm_words else lines).append(ohm_words)
    loud = any("DIFFERS" in each or "NOT as" in each for each in lines)
    if found == LEFT_OUT:
        lines.append("Polarity not seen: it stays open.")
    elif heard != NOTHING and ohm_words is not None and found is None and (no_cell := _no_cell(wiring, pair)):
        lines.append(no_cell)
    then = NAME if left else turned
    return Outcome(fields, tuple(lines), loud, fits=tuple(fits), then=then)


def _of_plus(
    wiring: Wiring, pair: TonePair, found: str | None, as_charted: bool, fits: list[str], lines: list[str]
) -> str:  # fmt: skip
    """Where + was found against where it is awaited; gives the kind of work that tells which is turned, or nothing."""
    awaited = _awaited(wiring, pair)
    turned = "charted" if awaited == pair.plus.cavity else "awaited, as the speaker is turned,"
    if not found:
        return _turned_then(wiring, pair) if as_charted else ""
    if found == awaited:
        as_it_is = "as charted" if awaited == pair.plus.cavity else "as it must be: the speaker is turned"
        fits.append(f"+ on {found}, {as_it_is}.")
        return ""
    lines.append(f"+ is on {found}, {turned} on {awaited}: DIFFERS.")
    if not as_charted:
        return ""
    lines.append("The speaker is turned in this car, or the chart has the two wires exchanged: no tone tells.")
    return WHICH_IS_TURNED


def _turned_then(wiring: Wiring, pair: TonePair) -> str:
    """The kind of work that tells which is turned, where an earlier tone found + on the other wire; else nothing."""
    known = plus_found(wiring).get(frozenset(_contacts(pair)))
    return WHICH_IS_TURNED if known and known.plus and not same(known.plus, _awaited(wiring, pair)) else ""


def _awaited(wiring: Wiring, pair: TonePair) -> str:
    """The cavity where + must be found: the charted one, or the other where the speaker is turned in the car."""
    turned = speaker_turned(wiring, f"{pair.plug}.car.{pair.plus.cavity}")
    return pair.minus.cavity if turned else pair.plus.cavity
