"""Polarity at each speaker, with the places where it turns."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.conductor import Conductor
from harness.graph.kept import kept
from harness.graph.signal import Feed, Receiver, Way
from harness.graph.walk import Stage, feed_stages, line_of, place_to_change, suspect
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.model.function import CHANNELS
from harness.model.parts import Route
from harness.place import Place

_MOST_WAYS = 32
BY_FACTORY = "factory"  # of a speaker that is inverted in the car as it is made


class Turn(NamedTuple):
    """One reversal: by wire between two contacts, or inside a unit by its route."""

    place: Place
    before: str
    after: str
    route: Route | None = None


class Turned(NamedTuple):
    """One way to a speaker (or to one coil of it).

    `wished`: an inversion is asked for on the speaker. `wrong`: this way doesn't arrive
    as wished; `lone`: so, while another driver of the same channel (or coil of the same speaker) is right;
    `among` names those that are right. `part`: other ways to the same speaker are right.
    """

    receiver: Receiver
    speaker: str
    way: Way
    wished: bool
    wrong: bool
    lone: bool
    part: bool
    among: tuple[str, ...]
    turns: tuple[Turn, ...]


class Cause(NamedTuple):
    """One thing to change, and every way that is wrong because of it; `place` is where it is written."""

    place: Place
    turns: tuple[Turn, ...]
    wrong: tuple[Turned, ...]

    @property
    def lone(self) -> bool:
        """Only single drivers of sets are wrong by it, never a whole set."""
        return all(turned.lone for turned in self.wrong)


@kept
def speaker_polarities(wiring: Wiring) -> list[Turned]:
    """Every way to every fed speaker, reversals counted and placed, in the order of channels and names."""
    made: list[Turned] = []
    known: dict[Feed, list[Turn]] = {}
    signals = wiring.signals
    for receiver in sorted(signals.speaker_receivers, key=lambda each: _order(wiring, each)):
        ways = signals.ways(receiver, most=_MOST_WAYS)
        wished = bool(wiring.job.parts.speakers[receiver.speaker].inverted)
        wrongs = [way.turned != wished for way in ways]
        for way, wrong in zip(ways, wrongs, strict=True):
            turns = way_turns(wiring, way, known)
            part = wrong and not all(wrongs)
            made.append(Turned(receiver, receiver.speaker, way, wished, wrong, False, part, (), turns))
    return _with_lone(wiring, made)


def _order(wiring: Wiring, receiver: Receiver) -> tuple[int, str]:
    channel = wiring.job.parts.speakers[receiver.speaker].function.channel
    return (CHANNELS.index(channel) if channel in CHANNELS else len(CHANNELS), receiver.name)


@kept
def causes(wiring: Wiring) -> list[Cause]:
    """Wrong ways by what makes them wrong: one joint that turns an input turns all that plays from it.

    Without any turn (an inversion is asked for and nothing turns) the place is the speaker's own row.
    """
    groups: dict[Place, list[Turned]] = {}
    for turned in speaker_polarities(wiring):
        if turned.wrong:
            place = turned.turns[0].place if turned.turns else wiring.contact(turned.receiver.plus).place
            groups.setdefault(place, []).append(turned)
    return [Cause(place, group[0].turns, tuple(group)) for place, group in groups.items()]


def cancelling(wiring: Wiring) -> list[Cause]:
    """Ways that are right although they turn, an even number of times; one entry for each set of turns."""
    groups: dict[frozenset[Place], list[Turned]] = {}
    for turned in speaker_polarities(wiring):
        if not turned.wrong and turned.turns and len(turned.turns) % 2 == 0:
            groups.setdefault(frozenset(turn.place for turn in turned.turns), []).append(turned)
    return [Cause(group[0].turns[0].place, group[0].turns, tuple(group)) for group in groups.values()]


@kept
def turned_back(wiring: Wiring) -> dict[str, tuple[str, Record]]:
    """The joints that turn back a speaker that is turned in this car: its name and the record, by the joint's name."""
    made: dict[str, tuple[str, Record]] = {}
    if not wiring.job.turned_here:
        return made
    at_place = {joint.place: joint.name for joint in wiring.job.joints if joint.turned}
    for turned in speaker_polarities(wiring):
        here = [
            r for turn in turned.turns for end in (turn.before, turn.after) if (r := wiring.job.turned_here.get(end))
        ]
        for turn in turned.turns if here and not turned.wrong else ():
            if turn.place in at_place:
                made[at_place[turn.place]] = (turned.speaker, here[0])
    return made


def way_turns(wiring: Wiring, way: Way, known: dict[Feed, list[Turn]] | None = None) -> tuple[Turn, ...]:
    """Every reversal on a way, source first: on its wires, and inside units by their routes.

    `known` keeps what was found for a feed, for ways that share it.
    """
    known = {} if known is None else known
    turns: list[Turn] = []
    for hop, after in zip(way.hops, (*way.hops[1:], None), strict=True):
        if hop.feed not in known:
            known[hop.feed] = wire_turns(wiring, hop.feed)
        turns += known[hop.feed]
        if hop.route is not None and hop.route.inverted and after is not None:
            turns.append(Turn(hop.route.place, hop.feed.receiver.plus, after.feed.driver.plus, hop.route))
    return tuple(turns)


def wire_turns(wiring: Wiring, feed: Feed) -> list[Turn]:
    """Where the + wire of a feed comes to a − contact (or back), by the contacts' own marks.

    The count is odd where the feed arrives reversed, even where not.
    """
    if feed.series:
        return _turns_in_line(wiring, feed)
    contacts = wiring.job.contacts
    if all(contacts[name].function.sign != "-" for name in wiring.planned.net(feed.driver.plus)):
        return []
    return _turns_on(wiring, feed_stages(wiring, feed), feed.turned)


def _turns_on(wiring: Wiring, stages: list[Stage], turned: bool) -> list[Turn]:
    """Changes of mark along a wire that starts as + and arrives on −, where it is `turned`, else on +."""
    turns: list[Turn] = []
    sign, last = "+", stages[0].contact
    passed: list[Conductor] = []
    for at, stage in enumerate(stages[1:], start=2):
        if isinstance(stage.by, Conductor):
            passed.append(stage.by)
        here = wiring.contact(stage.contact).function.sign
        if at == len(stages):
            here = "-" if turned else "+"
        if here not in ("+", "-"):
            continue
        if at != len(stages) and stage.contact in wiring.job.turned_here:
            continue  # a speaker that is turned in this car turns nobody whose wire only passes its terminal
        if here != sign:
            turns.append(_turn(wiring, passed, last, stage.contact))
        sign, last, passed = here, stage.contact, []
    return turns


def _turns_in_line(wiring: Wiring, feed: Feed) -> list[Turn]:
    """Speakers in series: the whole line turned is a matter of its beginning, one speaker of its own two wires."""
    whole = {f.turned for f in wiring.signals.feeds_from(feed.driver) if f.series == feed.series}
    line = line_of(wiring, feed)
    if len(whole) == 1 or (len(line) == 1 and feed.turned):
        return _turns_on(wiring, feed_stages(wiring, line[0]), line[0].turned)
    if not feed.turned:
        return []
    stages = feed_stages(wiring, feed)
    before = max(at for at, stage in enumerate(stages) if stage.by is None)
    passed = [stage.by for stage in stages[before + 1 :] if isinstance(stage.by, Conductor)]
    return [_turn(wiring, passed, stages[before].contact, stages[-1].contact)]


def _turn(wiring: Wiring, passed: list[Conductor], before: str, after: str) -> Turn:
    blamed = suspect(wiring, passed)
    place = place_to_change(wiring, blamed) if blamed is not None else wiring.contact(after).place
    return Turn(place, before, after)


def _with_lone(wiring: Wiring, made: list[Turned]) -> list[Turned]:
    """Marks drivers that are wrong while others of the same channel are right."""
    speakers = wiring.job.parts.speakers
    wrong = {turned.receiver.name for turned in made if turned.wrong}
    right: dict[str, dict[str, None]] = {}
    for turned in made:
        if turned.receiver.name not in wrong:
            channel = speakers[turned.speaker].function.channel or turned.speaker
            right.setdefault(channel, {})[turned.receiver.name] = None
    marked = []
    for turned in made:
        among = right.get(speakers[turned.speaker].function.channel or turned.speaker, {}) if turned.wrong else {}
        marked.append(turned._replace(lone=bool(among), among=tuple(among)))
    return marked
