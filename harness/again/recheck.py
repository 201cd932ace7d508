"""What to do again on the next car of the same variant: what was known of the first by looking and measuring."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph import fates
from harness.graph.drivers import tone_for
from harness.graph.pairs import used_pairs
from harness.graph.rows import row_about
from harness.graph.wiring import Wiring
from harness.graph.years import covered
from harness.model.contact import printed
from harness.model.job import Car
from harness.model.parts import Plug, Row
from harness.place import Place
from harness.planning.toning import toning_plan

_UNTOUCHED = (fates.PASSED, fates.EMPTY, fates.OPEN)
_MOST_NAMED = 12
_MEASURED = {
    "battery": "volts to the body: battery voltage with the key out too",
    "switched": "volts to the body in each state of the key",
    "light": "volts to the body with the lights off and on",
    "trigger": "volts to the body with the radio off and on",
    "aerial": "volts to the body with the radio off and on",
    "mute": "volts to the body, muted and not",
    "ground": "ohms to the body, with the battery's negative off",
}
# kind -> its heading on the list, in the order in which it is done
KINDS = {
    "wrong": "The first car speaks against the chart: put it right first",
    "car": "Look whether it is the same variant",
    "chart": "What the chart doesn't cover",
    "before": "Try before anything is opened",
    "tone": "Tone",
    "turned": "Turned for a speaker of the first car: look whether this one's is",
    "cut": "Look, and meter or tone, before it is cut",
    "other": "Meter before it is joined",
    "volts": "Measure again",
    "settings": "Set again",
}


class Recheck(NamedTuple):
    """One thing to do: its kind, the contact or thing, what is known of it, what to do, and where it is written."""

    kind: str
    what: str
    known: str
    do: str
    place: Place


def rechecks(wiring: Wiring, before: Car | None) -> list[Recheck]:
    """The list for a job that has no records yet, in the order in which it is worked off. `before`: the car that the
    job was made for.
    """
    made = [*_car(wiring, before), *_charts(wiring), *_features(wiring), *_pairs(wiring), *_cuts(wiring)]
    return in_order([*made, *_others(wiring), *_volts(wiring), *_settings(wiring)])


def in_order(made: list[Recheck]) -> list[Recheck]:
    """As it is worked off, kind by kind."""
    return sorted(made, key=lambda each: list(KINDS).index(each.kind))


def _car(wiring: Wiring, before: Car | None) -> list[Recheck]:
    car = wiring.job.car
    if car is None:
        return []
    made = []
    if before is not None:
        for field in ("steering", "audio", "drive", "supply", "supply_a", "lacks", "fitted", "orange"):
            old, new = getattr(before, field), getattr(car, field)
            if old != new:
                do = "Not the car that this was proved for: look at plugs, lengths and places anew."
                made.append(Recheck("car", field, f"was {_said(old)}, is {_said(new)}", do, car.place))
    for field, words in (("audio", "audio"), ("fitted", "fitted"), ("orange", "orange cables at"), ("lacks", "lacks")):
        value = getattr(car, field)
        if value and not (before is not None and getattr(before, field) != value):
            made.append(Recheck("car", words, _said(value), "Look whether this car is the same.", car.place))
    return made


def _said(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(map(str, value)) or "none written"
    return f"{value:g} A" if isinstance(value, float) else str(value or "not written")


def _charts(wiring: Wiring) -> list[Recheck]:
    made = []
    car = wiring.job.car
    year = int(car.year) if car is not None and car.year.isdigit() else 0
    for plug in wiring.job.parts.plugs.values():
        if plug.inline:
            continue
        source = plug.source
        place = source.place if source is not None else plug.place
        do = "Take the chart as a hint: tone each pair and meter the other wires first."
        if source is None or not source.covers:
            made.append(Recheck("chart", plug.name, "the chart says no years", do, place))
        elif not year:
            known = f"the chart covers {_years(source.covers)}, and the car's year isn't written"
            made.append(Recheck("chart", plug.name, known, "Write the year of this car.", place))
        elif not covered(source.covers, year):
            known = f"the chart covers {_years(source.covers)}, and this car is of {year}"
            made.append(Recheck("chart", plug.name, known, do, place))
        if plug.face is None or not plug.face.view:
            made.append(Recheck("chart", plug.name, "from which side its numbers are meant isn't written",
                                "Look at the plug in hand before you count.", place))  # fmt: skip
        silent = _not_charted(plug)
        if silent:
            named = ", ".join(silent[:_MOST_NAMED]) + (
                f" and {len(silent) - _MOST_NAMED} more" if silent[_MOST_NAMED:] else ""
            )
            made.append(Recheck("chart", plug.name, f"nothing is known of cavity {named}",
                                "Look whether there are wires.", place))  # fmt: skip
    return made


def _years(covers: str) -> str:
    return covers.replace("..", " to ")


def _not_charted(plug: Plug) -> list[str]:
    """Cavities of the housing without a row, and those whose row says unknown."""
    charted = {row.cavity.lower() for row in plug.rows if row.function.kind != "unknown"}
    names = [row.cavity for row in plug.rows]
    if plug.face is not None:
        names += [cavity for line in plug.face.drawn for cavity in line if cavity is not None]
    elif plug.ways is not None:
        names += [str(number) for number in range(1, plug.ways + 1)]
    known: dict[str, str] = {}
    for name in names:
        known.setdefault(name.lower(), name)
    silent = [name for low, name in known.items() if low not in charted]
    return sorted(silent, key=lambda name: (not name.isdigit(), int(name) if name.isdigit() else 0, name))


def _features(wiring: Wiring) -> list[Recheck]:
    return [
        Recheck("before", feature.name, f"from {feature.unit}" + (f", key {feature.key}" if feature.key else ""),
                "Try it, and write down that it works.", feature.place)
        for feature in wiring.job.features
    ]  # fmt: skip


def _pairs(wiring: Wiring) -> list[Recheck]:
    """Used pairs in the order that moves the probes least."""
    made = []
    for pair in toning_plan(wiring):
        if not pair.used:
            continue
        plus, minus = pair.plus, pair.minus
        colours = [row.colour.words for row in (plus, minus) if row.colour is not None]
        known = ", ".join(
            [printed(plus.function.base), f"+ at {plus.cavity}", *([" and ".join(colours)] if colours else [])]
        )
        tones = {each.speaker: tone_for(wiring.job.parts.speakers[each.speaker]) for each in pair.answers}
        one_for_all = len(set(tones.values())) == 1
        heard = " and ".join(each if one_for_all else f"{each} ({tone})" for each, tone in tones.items())
        apart = f"With {pair.plug} apart, tone it"
        if pair.units:
            apart = f"Its wires reach {' and '.join(pair.units)}: unplug that too, then tone it"
        do = f"{apart}: {heard} must answer." if heard else f"{apart}, and write down what answers."
        made.append(Recheck("tone", pair.name, known, do, plus.place))
    return made


def _cuts(wiring: Wiring) -> list[Recheck]:
    made: dict[str, Recheck] = {}
    for name, place in wiring.job.cut.items():
        contact = wiring.contact(name)
        if contact.kind != "plug":
            continue
        cavity = f"{contact.owner}.{contact.last}"
        about = [contact.colour.words] if contact.colour is not None else ["colour not written"]
        known = ", ".join([*about, printed(contact.function.name)])
        do = "Colour and function as written? Only then cut."
        made.setdefault(cavity, Recheck("cut", cavity, known, do, place))
    return list(made.values())


def _others(wiring: Wiring) -> list[Recheck]:
    """Cavities that the plan opens, taps or takes out and that are no speaker pair."""
    paired = {f"{pair.plug}.{row.cavity}" for pair in used_pairs(wiring) for row in (pair.plus, pair.minus)}
    made = []
    for plug in wiring.job.parts.plugs.values():
        if plug.inline:
            continue
        for each in wiring.fates.cavities(plug.name):
            name = f"{plug.name}.{each.row.cavity}"
            if each.fate in _UNTOUCHED or name in paired:
                continue
            made.append(Recheck("other", name, row_about(each.row), _measure(each.row), each.row.place))
    return made


def _measure(row: Row) -> str:
    if row.function.kind in ("data", "restraint", "high voltage", "optical"):
        return "Look at colour and twist; no probe, no lamp, nothing pierced."
    words = _MEASURED.get(row.function.kind, "find out what it is on this car")
    return words[0].upper() + words[1:] + "."


def _volts(wiring: Wiring) -> list[Recheck]:
    job = wiring.job
    made = []
    for unit in job.parts.units.values():
        if unit.name in job.removed or not (unit.is_source or unit.kind == "factory amplifier"):
            continue
        for port in unit.ports.values():
            if port.way == "out" and port.signal.level_v is not None:
                step = f" at step {port.signal.step}" if port.signal.step is not None else ""
                made.append(Recheck("volts", f"{unit.name}.{port.name}", f"{port.signal.level_v:g} V{step}",
                                    "Read it on this car, at its last clean step.", port.place))  # fmt: skip
    if job.has_runs:
        do = "Volts with the engine off and running, and at each unit under load."
        made.append(Recheck("volts", "battery", "", do, job.place))
    return made


def _settings(wiring: Wiring) -> list[Recheck]:
    made = []
    for unit in wiring.job.parts.units.values():
        if unit.settings:
            made.append(Recheck("settings", unit.name, unit.settings, "Load it, then look at each gain and crossover.",
                                unit.place))  # fmt: skip
        elif unit.switches:
            known = ", ".join(dict.fromkeys(setting.what for setting in unit.switches))
            made.append(Recheck("settings", unit.name, known, "Set its switches as written.", unit.place))
    return made
