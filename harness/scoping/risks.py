"""What can go wrong or be lost on this car: from records, and asked for where there is none."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from harness.model.scope import Record, Scope
from harness.scoping.lines import RISK, Line
from harness.scoping.variants import Variant, at_plug, at_row, at_unit, if_map

CHIMES, WAKE, CALL, CANCELLING, VOLTAGE, LEASE, RESTRAINT = (
    "chimes in the factory amplifier", "data-bus wake", "emergency call", "noise cancelling", "high voltage", "lease",
    "restraint",
)  # fmt: skip


def risks(scope: Scope, variants: tuple[Variant, ...]) -> Iterator[Line]:
    """Every flag once: raised by a record, or open; one that a record rules out isn't there."""
    yield from _chimes(scope, variants)
    yield from _wake(variants)
    yield from _call(scope)
    yield from _cancelling(scope)
    yield from _voltage(scope, variants)
    yield from _lease(scope)
    yield from _restraint(variants)


def _raised(flag: str, words: str, *basis: Record) -> Line:
    return Line(RISK, words, basis, flag=flag)


def _asked(flag: str, words: str, condition: str, find_out: str) -> Line:
    return Line(RISK, words, (), condition, find_out, flag=flag)


def _without(scope: Scope, *words: str) -> bool:
    return any(each.words in words for each in scope.without)


def _by_map(variants: tuple[Variant, ...], found: Mapping[str, list[Record]]) -> tuple[tuple[Record, ...], str, str]:
    """The records of the maps that have something, and what it hangs on where only some have it."""
    some = [each for each in variants if found.get(each.file)]
    records = dict.fromkeys(record for each in some for record in found[each.file])
    return tuple(records), *if_map(some, variants)


def _chimes(scope: Scope, variants: tuple[Variant, ...]) -> Iterator[Line]:
    words = (
        "warning tones may come from it and go silent with it: keep it fed and awake, try each tone before and after"
    )
    warnings = [record for kind, record in scope.features or () if kind == "warning"]
    found = {each.file: [at_unit(unit) for unit in each.amplifiers] for each in variants}
    records, condition, _ = _by_map(variants, found)
    how = (
        "ask for the audio option, look for the label under the seats; ohms at a speaker pair of the radio’s plug: a "
        "speaker reads about 3 to 5 ohm, an amplifier much more"
    )
    if records:
        said = f"A factory amplifier is recorded; {words}."
        basis = records if condition else (*records, *warnings)
        yield Line(RISK, said, basis, condition, how if condition else "", flag=CHIMES)
    elif not _without(scope, "factory amplifier"):
        yield _asked(CHIMES, f"W{words[1:]}.", "there is a factory amplifier", how)
    if warnings and (condition or not records):
        yield _raised(CHIMES, "Warning tones are recorded: try each before anything is opened, and after.", *warnings)


def _wake(variants: tuple[Variant, ...]) -> Iterator[Line]:
    found = {
        each.file: [at_unit(unit) for unit in each.units.values() if "bus" in unit.wakes]
        + [at_row(row) for plug in each.plugs for row in plug.rows if row.function.base == "CAN"]
        for each in variants
    }
    words = (
        "There may be no 12 V to turn an amplifier on by; the bus wakes units by itself. Leave the pair whole, give it "
        "time to sleep, read the turn-on in every state of the key"
    )
    records, condition, how = _by_map(variants, found)
    if records:
        yield Line(RISK, f"Data wires are recorded. {words}.", records, condition, how, flag=WAKE)
    else:
        yield _asked(WAKE, f"{words}.", "the radio is on a data bus", "look for a twisted pair in its plug")


def _call(scope: Scope) -> Iterator[Line]:
    found = [record for kind, record in scope.features or () if kind == "emergency"]
    words = "Its voice must be heard with every added unit dead: leave its speaker to it, try its test function after"
    if found:
        yield _raised(CALL, f"Emergency call is recorded. {words}.", *found)
    elif not _without(scope, "emergency call"):
        yield _asked(CALL, f"{words}.", "the car has emergency call", "look for the button; ask the customer")


def _cancelling(scope: Scope) -> Iterator[Line]:
    found = [each for each in scope.fitted or () if each.words == "noise cancelling"]
    words = "It plays through the speakers and booms with other bass: its module is parted by the workshop manual"
    if found:
        yield _raised(CANCELLING, f"Noise cancelling is recorded. {words}.", *found)
    elif not _without(scope, "noise cancelling"):
        yield _asked(CANCELLING, f"{words}.", "the car has noise cancelling",
                     "look for microphones in the headlining; ask by the car's options")  # fmt: skip


def _voltage(scope: Scope, variants: tuple[Variant, ...]) -> Iterator[Line]:
    drive = scope.car.get("drive")
    said = [drive] if drive and drive.words.lower() in ("hybrid", "electric") else []
    said += scope.orange
    found = {
        each.file: [
            at_plug(plug)
            for plug in each.plugs
            if "hv" in plug.carries or any(row.function.kind == "high voltage" for row in plug.rows)
        ]
        for each in variants
    }
    words = (
        "Keep off orange cables and what they lead to, made safe by a licensed person only; no alternator: ask for the "
        "converter’s current before anything is added"
    )
    records, condition, how = _by_map(variants, found)
    if said:
        yield _raised(VOLTAGE, f"High voltage is recorded. {words}.", *said, *records)
    elif records:
        yield Line(RISK, f"High voltage is recorded. {words}.", records, condition, how, flag=VOLTAGE)
    elif drive is None:
        yield _asked(VOLTAGE, f"{words}.", "the car is hybrid or electric", "read its papers; look for orange cables")


def _lease(scope: Scope) -> Iterator[Line]:
    owned = scope.car.get("ownership")
    words = "Cut nothing of the car: looms that unplug again; the owner’s written leave for every hole"
    if owned and owned.words.lower() in ("leased", "lease"):
        yield _raised(LEASE, f"The car is leased. {words}.", owned)
    elif owned is None:
        yield _asked(LEASE, f"{words}.", "the car is leased", "ask the customer and see the contract")


def _restraint(variants: tuple[Variant, ...]) -> Iterator[Line]:
    found = {
        each.file: [
            record
            for plug in each.plugs
            for record in (
                [at_row(row) for row in plug.rows if row.function.kind == "restraint"]
                or ([at_plug(plug)] if "srs" in plug.carries else [])
            )
        ]
        for each in variants
    }
    records, condition, how = _by_map(variants, found)
    if records:
        said = "Restraint wires are recorded: no meter, no joint, no plug of theirs opened."
        yield Line(RISK, said, records, condition, how, flag=RESTRAINT)
