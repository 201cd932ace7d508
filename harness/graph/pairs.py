"""The pairs of the plugs that the plan uses, and how well each is known."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from harness.graph import fates
from harness.graph.answering import branches_between, halves_apart
from harness.graph.kept import kept
from harness.graph.parted import wires_of
from harness.graph.wiring import Wiring
from harness.model.evidence import NOTHING, Record
from harness.model.function import bases_in, read_function
from harness.model.job import Tone
from harness.model.parts import Plug, Row


class Polarity(NamedTuple):
    """What the records say of a pair's +: the cavity, empty where none found it; and the last record of a battery pulse
    that could prove nothing, as every speaker of the pair sits behind a capacitor. `record` is the one that found it.
    """

    plus: str = ""
    idle: Record | None = None
    record: Record | None = None


class UsedPair(NamedTuple):
    """A pair of a plug (by its two rows, + first) that the plan opens or taps, and its state.

    `contrary` says what a tone, or a look for +, found that the chart doesn't say; empty where none did. `polarity` is
    the cavity found to be +, and a record that proves nothing of it.
    """

    plug: str
    plus: Row
    minus: Row
    fate: str
    state: str  # charted | measured | toned
    contrary: str = ""
    tone: Tone | None = None  # the last one taken of it
    polarity: Polarity = Polarity()

    @property
    def name(self) -> str:
        return f"{self.plug}.{self.plus.cavity}/{self.minus.cavity}"

    @property
    def on_the_car(self) -> tuple[str, str]:
        """Its contacts on the car's half, + first."""
        return f"{self.plug}.car.{self.plus.cavity}", f"{self.plug}.car.{self.minus.cavity}"


_USED = (fates.INTERCEPTED, fates.TAPPED, fates.ONE_END)


def pairs_of(wiring: Wiring, plug_name: str) -> list[tuple[Row, Row]]:
    """Every pair of speaker wires of a plug, + first, by its functions."""
    return _all_pairs(wiring)[plug_name]


@kept
def _all_pairs(wiring: Wiring) -> dict[str, list[tuple[Row, Row]]]:
    made = {}
    for plug in wiring.job.parts.plugs.values():
        by_base: dict[str, dict[str, Row]] = {}
        for row in plug.rows:
            function = row.function
            if function.kind in ("audio", "port"):
                by_base.setdefault(function.base, {}).setdefault(function.sign, row)
        made[plug.name] = [(signs["+"], signs["-"]) for signs in by_base.values() if "+" in signs and "-" in signs]
    return made


@kept
def used_pairs(wiring: Wiring) -> list[UsedPair]:
    """Pairs whose factory wires the plan opens or taps; a pair that is only passed on is not used."""
    job = wiring.job
    tones = last_tones(wiring)
    found_plus = plus_found(wiring)
    made = []
    for plug in job.parts.plugs.values():  # an inline plug has no chart, and so no pairs
        for plus, minus in pairs_of(wiring, plug.name):
            fate = wiring.fates.cavity(plug.name, plus.cavity).fate
            if fate not in _USED:
                fate = wiring.fates.cavity(plug.name, minus.cavity).fate
            if fate not in _USED:
                continue
            contacts = frozenset((f"{plug.name}.car.{plus.cavity}", f"{plug.name}.car.{minus.cavity}"))
            tone = tones.get(contacts)
            polarity = found_plus.get(contacts, Polarity())
            turned = bool(polarity.plus) and speaker_turned(wiring, f"{plug.name}.car.{plus.cavity}")
            contrary = _contrary(tone, polarity.plus, plus, minus if turned else None)
            if tone and not contrary and strangers(wiring, plug, (plus, minus), tone.heard):
                contrary = f"charted {plus.function.base}, heard {tone.heard}"
            if tone and not contrary and says(tone, plus.function.base):
                state = "toned"
            elif contacts <= job.read_ohms:
                state = "measured"
            else:
                state = "charted"
            made.append(UsedPair(plug.name, plus, minus, fate, state, contrary, tone, polarity))
    return made


def contradicted(pair: UsedPair) -> str:
    """`contradicted: RL heard`, `contradicted: + on 7`: the state of a pair that the car speaks against; else empty."""
    if not pair.contrary:
        return ""
    _, _, found = pair.contrary.partition(", ")
    if found.startswith("heard ") and found.removeprefix("heard ") not in NOTHING:
        return f"contradicted: {found.removeprefix('heard ')} heard"
    if found.startswith("found + "):
        return f"contradicted: + on {found.removeprefix('found + ')}"
    return "contradicted: nothing heard"


def says(tone: Tone, base: str) -> bool:
    """Whether a tone confirms a channel: charted so and heard, or heard alone where the chart was corrected to it."""
    return tone.charted == base or tone.heard == base


def strangers(wiring: Wiring, plug: Plug, rows: tuple[Row, Row], heard: str) -> tuple[str, ...]:
    """Speakers that answered a pair beside its own: of another channel, and not between its wires as the job has them.

    Such a pair is joined to another one, or touches it: an amplifier put on it drives both. A further driver of the
    same channel is none of them, nor is a word that names no channel.
    """
    plus, _ = rows
    own = plus.function.channel
    named = ((word, function) for word in heard.replace(",", " ").split() if (function := read_function(word)))
    others = {word: function.base for word, function in named if own and function.channel not in ("", own)}
    if not others:
        return ()
    wires, apart = wires_of(wiring, wiring.found), halves_apart(wiring, plug)
    at_plus, at_minus = (wires.reach(f"{plug.name}.car.{row.cavity}", apart) for row in rows)
    _, answers = branches_between(wiring, at_plus, at_minus, apart)
    there = {answer.speaker for answer in answers}
    return tuple(word for word, base in others.items() if base not in there)


@kept
def last_tones(wiring: Wiring) -> dict[frozenset[str], Tone]:
    """The last tone of each pair, by the pair's contacts on the car side."""
    return {on_car_side(tone.contacts): tone for tone in wiring.job.tones}


def on_car_side(contacts: tuple[str, ...]) -> frozenset[str]:
    """The contacts of a pair as the car half of their plug has them."""
    return frozenset(name.replace(".unit.", ".car.") for name in contacts)


@kept
def plus_found(wiring: Wiring) -> dict[frozenset[str], Polarity]:
    """What tones and polarity records say of the + of each two cavities, by their contacts on the car side."""
    return {contacts: _polarity(wiring, contacts, looks) for contacts, looks in _looks_for_plus(wiring).items()}


def _looks_for_plus(wiring: Wiring) -> dict[frozenset[str], list[Record]]:
    """Tones and polarity records of each pair, in the order taken. A look at the half toward the unit finds the + of
    what plays, not of what is played.
    """
    made: dict[frozenset[str], list[Record]] = {}
    for record in wiring.job.records:
        if looks_for_plus(record) and len(record.contacts) == 2 and not record.stale:
            made.setdefault(on_car_side(record.contacts), []).append(record)
    return made


def looks_for_plus(record: Record) -> bool:
    """Whether it is a tone, or a look for the + of what is played and not of what plays."""
    at_unit = any(".unit." in name for name in record.contacts)
    return record.verb == "tone" or (record.verb == "polarity" and not at_unit)


def _polarity(wiring: Wiring, contacts: frozenset[str], looks: Sequence[Record]) -> Polarity:
    """The last record that proves a + wins. A tone taken anew without one takes back what a tone before it said."""
    idle: Record | None = None
    proof: Record | None = None
    for record in looks:
        said = record.word("plus")
        if said and _by_battery(record) and behind_capacitors(wiring, min(contacts)):
            said, idle = "", record
        if said:
            idle, proof = None, record
        elif proof is not None and proof.verb == record.verb == "tone":
            proof = None
    return Polarity(proof.word("plus") if proof is not None else "", idle, proof)


def _by_battery(record: Record) -> bool:
    return not {"battery", "cell"}.isdisjoint(record.word("how").lower().replace(",", " ").split())


def speakers_on(wiring: Wiring, contact: str) -> tuple[str, ...]:
    """The speakers on the net of a contact as found, by name."""
    known, number = _speakers_of_nets(wiring), wiring.found.net_number(contact)
    if number not in known:  # many plugs may share a net
        contacts = map(wiring.contact, wiring.found.nets[number])
        known[number] = tuple(dict.fromkeys(each.owner for each in contacts if each.kind == "speaker"))
    return known[number]


@kept
def _speakers_of_nets(_: Wiring) -> dict[int, tuple[str, ...]]:
    return {}


def behind_capacitors(wiring: Wiring, contact: str) -> tuple[str, ...]:
    """The speakers on a wire as found, if there are any and every one has a capacitor in line; else none."""
    names = speakers_on(wiring, contact) if contact in wiring.job.contacts else ()
    return names if all(wiring.job.parts.speakers[name].capacitor for name in names) else ()


def speaker_turned(wiring: Wiring, contact: str) -> bool:
    """Whether a wire leads to the − of its speakers in the car as found: by `reversed` there, or turned in this car.

    Those behind a capacitor, which no pulse moves, count where there are no others.
    """
    on_it = [each for each in map(wiring.contact, wiring.found.net(contact)) if each.kind == "speaker"]
    bare = [each for each in on_it if not wiring.job.parts.speakers[each.owner].capacitor]
    return bool(on_it) and all(each.function.sign == "-" for each in bare or on_it)


def _contrary(tone: Tone | None, found_plus: str, plus: Row, turned: Row | None = None) -> str:
    """What was found against the chart: another speaker, or + on the other wire. `turned` is the row where + must be
    found instead, as the speaker is turned.
    """
    if tone and tone.heard and plus.function.base not in bases_in(tone.heard):
        return f"charted {plus.function.base}, heard {tone.heard}"
    awaited = plus if turned is None else turned
    if found_plus and found_plus.lower() != awaited.cavity.lower():
        why = "charted +" if turned is None else "speaker turned so + on"
        return f"{why} {awaited.cavity}, found + {found_plus}"
    return "no speaker answered" if tone and not tone.heard else ""
