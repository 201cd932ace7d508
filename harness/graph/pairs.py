"""The pairs of the plugs that the plan uses, and how well each is known."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from harness.graph import fates
from harness.graph.drivers import takes_over
from harness.graph.kept import kept
from harness.graph.toned import OTHER, SILENT, STRANGER, UNSAID, WORDS, Told, Unheard, on_car_side, told
from harness.graph.wiring import Wiring
from harness.model.evidence import NOTHING, Record
from harness.model.job import Tone
from harness.model.parts import Row


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
    tone: Tone | None = None  # the one that the chart is held against: the last, or the last that says otherwise
    polarity: Polarity = Polarity()
    unheard: tuple[Unheard, ...] = ()  # drivers behind it that its tones don't prove; none where nobody toned it

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
            said = told(wiring, plug, plus, minus)
            polarity = found_plus.get(contacts, Polarity())
            turned = bool(polarity.plus) and speaker_turned(wiring, f"{plug.name}.car.{plus.cavity}")
            contrary = _contrary(said, polarity.plus, plus, minus if turned else None)
            if said.toned and not contrary:
                state = "toned"
            elif contacts <= job.read_ohms:
                state = "measured"
            else:
                state = "charted"
            made.append(UsedPair(plug.name, plus, minus, fate, state, contrary, said.tone, polarity, said.unheard))
    return made


@kept
def blind_tweeters(wiring: Wiring) -> tuple[str, ...]:
    """Tweeters that hang on a used pair with others and pass as heard by a tone alone that isn't written."""
    plugs = wiring.job.parts.plugs
    toned = (told(wiring, plugs[each.plug], each.plus, each.minus) for each in used_pairs(wiring))
    return tuple(dict.fromkeys(name for each in toned if each.toned for name in each.blind))


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


UNHEARD = "no speaker answered"  # as far as a tone's record says


@kept
def silent_drivers(wiring: Wiring) -> dict[str, str]:
    """Speaker -> the tone that it must have answered at its plug, and didn't."""
    return {
        each.speaker: each.silent
        for plug in wiring.job.parts.plugs.values() if wiring.job.tones
        for plus, minus in pairs_of(wiring, plug.name)
        for each in told(wiring, plug, plus, minus).unheard if each.silent
    }  # fmt: skip


def looks_at_no_pair(wiring: Wiring) -> Iterator[Record]:
    """Looks for the + of two cavities of a plug that are no pair of its chart: nothing is held against them."""
    plugs, pairs = wiring.job.parts.plugs, dict[str, set[frozenset[str]]]()
    for record in wiring.job.records:
        if record.verb != "polarity" or record.stale or len(record.contacts) != 2:
            continue
        at = on_car_side(record.contacts)
        name = min(at).partition(".")[0]
        if name not in plugs or plugs[name].inline:
            continue
        if name not in pairs:
            pairs[name] = {
                frozenset(f"{name}.car.{row.cavity}" for row in rows) for rows in pairs_of(wiring, name)
            }  # fmt: skip
        if at not in pairs[name]:
            yield record


def looks_for_plus(record: Record) -> bool:
    """Whether it is a tone, or a look for the + of what is played and not of what plays."""
    at_unit = any(".unit." in name for name in record.contacts)
    return record.verb == "tone" or (record.verb == "polarity" and not at_unit)


def _polarity(wiring: Wiring, contacts: frozenset[str], looks: Sequence[Record]) -> Polarity:
    """The last record that proves a + wins. A tone taken anew without one takes back what a tone before it said; one of
    another part of the range (a tweeter's, after a woofer's) doesn't.
    """
    idle: Record | None = None
    proof: Record | None = None
    for record in looks:
        said = record.word("plus")
        if said and _by_battery(record) and behind_capacitors(wiring, min(contacts)):
            said, idle = "", record
        if said:
            idle, proof = None, record
        elif (
            proof is not None
            and proof.verb == record.verb == "tone"
            and takes_over(record.word("signal"), proof.word("signal"))
        ):
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


def _contrary(said: Told, found_plus: str, plus: Row, turned: Row | None = None) -> str:
    """What was found against the chart: another speaker, or + on the other wire; else one that answers beside its own.

    `turned` is the row where + must be found instead, as the speaker is turned.
    """
    heard = f"charted {plus.function.base}, heard {said.tone.heard}" if said.tone else ""
    if said.kind in (OTHER, SILENT, WORDS):
        return heard
    awaited = plus if turned is None else turned
    if found_plus and found_plus.lower() != awaited.cavity.lower():
        why = "charted +" if turned is None else "speaker turned so + on"
        return f"{why} {awaited.cavity}, found + {found_plus}"
    return heard if said.kind == STRANGER else UNHEARD if said.kind == UNSAID else ""
