"""What the checks of the car as built share: what the records, carried out, bring that the plan doesn't have."""

from __future__ import annotations

from collections.abc import Iterator

from harness.checks.registry import Fault, all_checks, run_checks
from harness.finding import Finding, Severity, Spot
from harness.graph.as_built import Built, targets
from harness.graph.wiring import Wiring

_MOST = 3  # codes named in one finding
# Of records, of charts and of the order of work: what a joint as built doesn't bring.
_NOT_OF_JOINTS = ("A", "J", "G10")


def told_as_built(wiring: Wiring, severity: Severity) -> Iterator[Fault]:
    """One fault a record that is built otherwise and brings findings of this severity; none where worse is told."""
    from harness.graph.built_so import built_so  # few jobs have records

    built_otherwise = built_so(wiring)
    concerned = {id(built): _concerned(wiring, built) for built, _ in built_otherwise}
    for built, laid in built_otherwise:
        new = [
            each for each in _new(wiring, laid)
            # of several records each is told what touches its own contacts, or what touches none of any
            if not concerned[id(built)].isdisjoint(each.about)
            or all(contacts.isdisjoint(each.about) for contacts in concerned.values())
        ]  # fmt: skip
        brought = [each for each in new if each.severity == severity]
        if any(each.severity < severity for each in new):
            continue
        moved = _moved(wiring, laid) if severity == Severity.FIX else []
        if not brought and not moved:
            continue
        where = " and ".join(wiring.words(name) for name in built.contacts)
        told = [*moved[:_MOST], *(f"{each.code} {each.title}: {each.message}" for each in brought[:_MOST])]
        left = max(len(brought) - _MOST, 0) + max(len(moved) - _MOST, 0)
        more = f" And {left} more." if left else ""
        yield Fault(
            at=Spot(built.record.place, wiring.words(built.contacts[0])),
            message=f"{where}: planned {built.planned}, built {built.record.word('is')}. So built: "
            f"{' '.join(told)}{more}",
            do=("Power nothing. " if severity == Severity.STOP else "")
            + "Make the joint as planned, or change the plan and prove it again; then add a record of what is there.",
            about=built.contacts,
            also=(Spot(built.place, wiring.words(built.contacts[0])),),
        )


def _concerned(wiring: Wiring, built: Built) -> set[str]:
    """The contacts of a record, and those that it names as joined to them."""
    return {*built.contacts, *(name for two in targets(wiring, built.record) for name in two)}


def _moved(wiring: Wiring, laid: Wiring) -> list[str]:
    """What a speaker gets that isn't planned for it, in words."""
    before, after = _sources(wiring), _sources(laid)
    return [
        f"{name.removeprefix('spk.')} gets {_names(after.get(name, ()))}, planned {_names(before.get(name, ()))}."
        for name in dict.fromkeys((*before, *after))
        if before.get(name, ()) != after.get(name, ())
    ]


def _sources(wiring: Wiring) -> dict[str, tuple[str, ...]]:
    signals = wiring.signals
    return {
        receiver.name: tuple(sorted({way.source.name for way in signals.ways(receiver)}))
        for receiver in signals.speaker_receivers
    }


def _names(sources: tuple[str, ...]) -> str:
    return " and ".join(name.replace(".", " ") for name in sources) or "nothing"


def _new(wiring: Wiring, laid: Wiring) -> list[Finding]:
    """What the car as built brings, worst first, and the plan doesn't: another code, or one about other contacts."""
    made = wiring.answers.get(_new)
    if made is None:
        looks = [
            each
            for each in all_checks()
            if each.severity <= Severity.FIX
            and not each.code.startswith(_NOT_OF_JOINTS)
            and not each.needs.endswith(("records", "readings"))
        ]
        before: dict[str, set[str]] = {}
        for each in run_checks(wiring, looks)[0]:
            before.setdefault(each.code, set()).update(each.about)
        made = wiring.answers[_new] = [
            each for each in run_checks(laid, looks)[0] if before.get(each.code, set()).isdisjoint(each.about)
        ]
    assert isinstance(made, list)
    return made
