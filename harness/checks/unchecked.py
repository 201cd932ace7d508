"""What a run did not look at, and why: never an empty list where something was left out."""

from __future__ import annotations

from collections.abc import Iterator

from harness.checks.unlevelled import levels_unchecked
from harness.finding import Unchecked
from harness.graph.answers import answers, at_an_end, no_outputs
from harness.graph.as_built import as_built
from harness.graph.faded import faded, setting_of
from harness.graph.first_fuse import unmeasured
from harness.graph.loads import loads
from harness.graph.lumps import lumps
from harness.graph.muted import muted
from harness.graph.proven import built, lost, open_evidence, put_back
from harness.graph.set_otherwise import unset
from harness.graph.supply import supply
from harness.graph.turn_on_read import not_waited
from harness.graph.waking import AERIAL, CONTROL, TRIGGER, Giver, Wake, givers, unplanned_wakes, wakes
from harness.graph.wiring import Wiring
from harness.graph.woken import has_sound, names
from harness.graph.years import unjudged
from harness.work.replay import replay


def unchecked(wiring: Wiring) -> list[Unchecked]:
    """Supply, turn-on, loads, levels, warnings, order of work; routes, settings, charts, cavities, joints, records."""
    made = [*_supply(wiring), *_turn_on(wiring), *_loads(wiring), *levels_unchecked(wiring), *_key_out(wiring)]
    plan = [*_routes(wiring), *_settings(wiring), *_charts(wiring), *_cavities(wiring), *_joints(wiring)]
    said = [*_tones(wiring), *_put_in(wiring), *_evidence(wiring), *_photos(wiring)]
    return [*made, *_steps(wiring), *plan, *_stock(wiring), *said]


def _put_in(wiring: Wiring) -> Iterator[Unchecked]:
    """Terminals that nobody has seen sit; once the work is recorded as done, H10 tells them."""
    if wiring.job.moved and not built(wiring):  # one that is put back is one more record of the work
        from harness.graph.put_in import put_in  # few plans move a terminal

        for each in put_in(wiring):
            if each.missing:
                yield Unchecked(
                    f"whether {each.words}, sits ({', '.join(each.missing)})",
                    "no `checked` record; asked for once the work is recorded",
                )


def _stock(wiring: Wiring) -> Iterator[Unchecked]:
    if wiring.job.date:
        return
    for name, loom in wiring.job.parts.looms.items():
        if loom.store.stock == 0 and loom.store.arrives:
            yield Unchecked(f"whether {name} is here in time", "the day of the work (`date`) is not written")


def _evidence(wiring: Wiring) -> Iterator[Unchecked]:
    """What the car hasn't said yet; before the first record nothing has, and the verdict says that."""
    if not wiring.job.records:
        return
    still = open_evidence(wiring)
    asked = {answer.driver.name: answer for answer in answers(wiring)}
    unheard = [each.name for each in still.outputs if each.name not in asked]
    if unheard:
        yield Unchecked(f"what answers {names(unheard)}", "no `plays` record is written")
    for name, answer in asked.items():
        if answer.odd:
            yield Unchecked(f"what answers {name}", f"“{' '.join(answer.odd)}” names no speaker of the job")
        elif not answer.record.word("heard"):
            yield Unchecked(f"what answers {name}", "the record doesn't say what was `heard`")
    for record in no_outputs(wiring):
        yield Unchecked(f"what answers {record.what}", "it is no output of the job")
    yield from _at_the_ends(wiring)
    yield from _ohms(wiring)
    # once the trials after the work have begun, J06 tells those that nobody signed for
    signed = lost(wiring)
    untried = [each for each in still.untried if not put_back(wiring) or each.lower() in signed]
    if untried:
        still_there = f"whether {names(untried)} still work{'s' if len(untried) == 1 else ''}"
        yield Unchecked(still_there, "it worked before; no `after` says so")
    if still.before:
        yield Unchecked(f"whether {names([each.name for each in still.before])} worked before", "no `before` says so")
    yield from _looks(wiring)
    for record in as_built(wiring)[1]:
        yield Unchecked(f"whether {record.what} was built as planned", f"“{record.word('is')}” says no fate")
    for each in wiring.job.struck:
        reason = f": {each.by.word('reason')}" if each.by.word("reason") else ""
        yield Unchecked(
            f"the record on line {each.record.place.line}, {each.record.named}", f"struck by {each.by.signed}{reason}"
        )
    for read in not_waited(wiring):
        yield Unchecked(f"whether {wiring.words(read.contact)} sleeps", "no `waited` is written for its reading")


def _at_the_ends(wiring: Wiring) -> Iterator[Unchecked]:
    """Fader and balance at their ends: records that say nothing. What nobody turned stands with what nobody read."""
    for each in faded(wiring):
        said = f"what answers {each.setting.unit} with {each.setting.words}"
        if each.odd:
            yield Unchecked(said, f"“{' '.join(each.odd)}” names no speaker of the job")
        elif not each.record.word("heard"):
            yield Unchecked(said, "the record doesn't say what was `heard`")
    for record in wiring.job.records:
        if not record.stale and at_an_end(record) and setting_of(wiring, record) is None:
            yield Unchecked(f"what answers {record.what}", "fader and balance are said of a source: `plays: radio`")


def _looks(wiring: Wiring) -> Iterator[Unchecked]:
    """What nobody has read or looked at since the work, and looks whose words say neither good nor bad."""
    from harness.graph.looks import light_is_right, lights, looks  # few jobs have records
    from harness.graph.pairs import looks_at_no_pair
    from harness.graph.unread import unread_words

    yield from (Unchecked(*each) for each in unread_words(wiring))
    for look in looks(wiring):
        if look.right is None:
            yield Unchecked(f"whether {look.record.what} is right", f"“{look.said}” says neither good nor bad")
    for record in looks_at_no_pair(wiring):
        why = "the two are no pair of the chart, so it is held against nothing"
        yield Unchecked(f"what polarity of {record.what} says", why)
    for name, record in lights(wiring).items():
        shows = record.word("shows")
        if light_is_right(shows) is None:
            yield Unchecked(f"what the light of {name} says", f"“{shows}” is none of its words")


def _tones(wiring: Wiring) -> Iterator[Unchecked]:
    if "tones" not in wiring.facts:
        return
    from harness.graph.misread import unheard  # few jobs have tones
    from harness.graph.pairs import blind_tweeters

    blind = blind_tweeters(wiring)
    if blind:
        yield Unchecked(
            f"whether {names(list(blind))} answer{'s' if len(blind) == 1 else ''}",
            "no `signal` is written with the tone: it proves no tweeter",
        )
    for each in unheard(wiring):
        a, b = each.record.contacts
        where = f"{a.rsplit('.', 1)[0].removesuffix('.car')} {a.rsplit('.', 1)[1]}/{b.rsplit('.', 1)[1]}"
        yield Unchecked(f"what the tone of {where} says of the chart", each.why)


def _ohms(wiring: Wiring) -> Iterator[Unchecked]:
    if "readings" not in wiring.facts:
        return
    from harness.graph.speaker_readings import pair_words, speaker_readings  # few jobs have readings

    for reading, met in speaker_readings(wiring):
        words = pair_words(wiring, reading.contacts)
        if met.expected.unknown:
            yield Unchecked(
                f"whether {reading.words} fits {words}", f"the ohms of {names(met.expected.unknown)} are not written"
            )


def _photos(wiring: Wiring) -> Iterator[Unchecked]:
    if not any(record.word("photo") for record in wiring.job.records):
        return
    from harness.checks.recording import record_words  # few jobs have photos
    from harness.graph.photos import photos

    for each in photos(wiring):
        if each.why:
            yield Unchecked(f"the photo {each.name} of {record_words(wiring, each.record)}", each.why)


def _joints(wiring: Wiring) -> Iterator[Unchecked]:
    for lump in lumps(wiring)[1]:
        yield Unchecked(f"whether the {lump.splices} splices at {lump.at} lie in one lump", "no `stagger` is written")
    for joint in wiring.job.joints:
        if joint.takes is not None and any(wiring.contact(end).size is None for link in joint.links for end in link):
            yield Unchecked(
                f"whether all wires fit the connector of {joint.name}", "a size isn't written: counts as nothing"
            )


def _settings(wiring: Wiring) -> Iterator[Unchecked]:
    for unit, control in unset(wiring):
        yield Unchecked(f"{control} at {unit}", "the plan relies on it, and it isn't written under `set`")


def _steps(wiring: Wiring) -> Iterator[Unchecked]:
    if not wiring.by_steps:
        yield Unchecked("the order of work", "ask for it with --steps")
        return
    for number, words in replay(wiring).unsure:
        yield Unchecked(f"what step {number} means in full", words)


def _supply(wiring: Wiring) -> Iterator[Unchecked]:
    if not wiring.job.has_runs:
        yield Unchecked("supply and ground", "the job has no `runs:`, so no cable, fuse or ground is written")
        return
    solved = supply(wiring)
    if solved is None:
        yield Unchecked("volts and amperes of the supply", "no run leads from the battery to a unit")
        return
    for unit in solved.unknown:
        yield Unchecked(
            f"what {unit} draws", "neither `draws` nor its output power nor its fuses are written: it counts as nothing"
        )
    for each in solved.fed:
        if each.draw.guessed:
            yield Unchecked(f"what {each.unit} really draws", f"taken from {each.draw.how}")
    yield from unmeasured(wiring)


def _turn_on(wiring: Wiring) -> Iterator[Unchecked]:
    units = [unit for unit in wiring.job.parts.units.values() if unit.name not in wiring.gone]
    for unit in units:
        if has_sound(unit) and unit.kind != "radio" and not unit.wakes:
            yield Unchecked(f"what wakes {unit.name}", "no `wakes` is written for it")
    for wake in unplanned_wakes(wiring):
        yield Unchecked(
            f"the turn-on of {wake.unit}", "nothing is joined to it, and the job has no `runs:`: not planned yet"
        )
    hanging: dict[Giver, list[Wake]] = {}
    for wake in wakes(wiring):
        for giver in givers(wiring, wake.contact):
            if giver.kind in (TRIGGER, AERIAL, CONTROL):
                hanging.setdefault(giver, []).append(wake)
    for giver, found in hanging.items():
        unsaid = [wake.unit for wake in found if wake.draws_a is None]
        if giver.gives_a is None:
            yield Unchecked(f"whether {wiring.words(giver.contact)} can carry what hangs on it", "its limit is unsaid")
        elif unsaid:
            yield Unchecked(
                f"what {names(unsaid)} draws from {wiring.words(giver.contact)}", "not written: counts as nothing"
            )


def _key_out(wiring: Wiring) -> Iterator[Unchecked]:
    for each in muted(wiring):
        if each.feature.kind == "warning" and not each.feature.key:
            yield Unchecked(
                f"whether {each.feature.name} is heard with the key out",
                f"it must pass {names(each.units)}, asleep then, and its `key` isn't written",
            )


def _loads(wiring: Wiring) -> Iterator[Unchecked]:
    for load in loads(wiring):
        output = load.driver.name.replace(".", " ")
        if load.unknown:
            names = " and ".join(dict.fromkeys(load.unknown))
            yield Unchecked(f"the load of {output}", f"the ohms of {names} are not written")
        elif load.rated_ohm is None and not wiring.job.parts.units[load.driver.port.unit].is_source:
            yield Unchecked(f"the load of {output}", "the least load that it takes is not written")


def _routes(wiring: Wiring) -> Iterator[Unchecked]:
    for unit in wiring.job.parts.units.values():
        outputs = [port for port in unit.ports.values() if port.way == "out"]
        if outputs and not unit.is_source and not unit.routes_said and unit.name not in wiring.gone:
            yield Unchecked(
                f"routes inside {unit.name}", "none are written; each output is taken from the input of its number"
            )


def _charts(wiring: Wiring) -> Iterator[Unchecked]:
    for plug in unjudged(wiring):
        yield Unchecked(f"whether the chart of {plug} is for this car", "the year of the car is not written")


def _cavities(wiring: Wiring) -> Iterator[Unchecked]:
    for plug in wiring.job.parts.plugs.values():
        if plug.ways is not None:
            missing = plug.ways - len(set(plug.cavities))
            if missing > 0:
                yield Unchecked(f"{missing} of {plug.ways} cavities of {plug.name}", "not recorded in the job")
