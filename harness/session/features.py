"""What the car did before: each function tried before anything is opened, and again when all is closed."""

from __future__ import annotations

from harness.graph.proven import last_of, worked
from harness.graph.wiring import Wiring
from harness.model.evidence import WORKS, of_another_car
from harness.model.job import Feature
from harness.session.talk import LEFT_OUT, Choice, Outcome, Question, Section, Talk, Task

BEFORE, AFTER = "before", "after"
_RESULTS = (
    Choice("works", WORKS), Choice("silent", "silent"), Choice("wrong: elsewhere, late, distorted", "wrong"),
    Choice("can't be tried here", "not tried"),
)  # fmt: skip
_FIRST = {
    BEFORE: ("Before anything is unplugged: try each function and write what it does.",),
    AFTER: ("Everything joined, nothing closed yet: try each function again.",),
}
CAUTIONS = ("A warning that stays silent is a danger: it must sound again before the car leaves.",)


def before(wiring: Wiring) -> Section | None:
    """The functions that nobody tried before the work."""
    return _section(wiring, BEFORE, "Try the functions before")


def after(wiring: Wiring) -> Section | None:
    """The functions that nobody tried after it, or that failed then."""
    return _section(wiring, AFTER, "Try the functions after")


def _section(wiring: Wiring, verb: str, title: str) -> Section | None:
    features = wiring.job.features
    if not features:
        return None
    tried = last_of(wiring, verb)
    left = [
        each
        for each in features
        if each.name.lower() not in tried or (verb == AFTER and not worked(tried[each.name.lower()]))
    ]
    tasks = tuple(_task(wiring, verb, each) for each in left)
    earlier = tuple(_task(wiring, verb, each) for each in features if each not in left)
    cautions = (*CAUTIONS, *(_opened(wiring) if verb == BEFORE else ()))
    done = len(features) - len(left)
    return Section(verb, title, _FIRST[verb], cautions, tasks, done, earlier, powered=verb == AFTER)


def _opened(wiring: Wiring) -> tuple[str, ...]:
    """A warning where the records say that plugs of this car were parted already."""
    car = wiring.job.car
    name, year = (car.name, car.year) if car is not None else ("", "")
    parted = {
        plug: record.when
        for record in reversed(wiring.job.records)
        for plug in wiring.job.parts.plugs
        if not of_another_car(record.word("car"), name, year)
        and plug.lower() in [word.lower() for word in record.words("unplugged")]
    }
    if not parted:
        return ()
    named = ", ".join(f"{plug} ({when})" if when else plug for plug, when in sorted(parted.items()))
    words = (
        f"Records say that plugs were open already: {named}. What works or fails now is no proof of how the car came "
        "in: where nobody tried it before that, answer that it can't be tried here."
    )
    return (words,)


def _task(wiring: Wiring, verb: str, feature: Feature) -> Task:
    at = ", ".join(dict.fromkeys(wiring.words(name) for name in feature.contacts)) or feature.unit
    key = f", key {feature.key}" if feature.key else ""
    about = f"{feature.name}, from {feature.unit}{key}"
    return Task(about, (f"{about}. Heard or felt at: {at}.",), lambda: _talk(wiring, verb, feature))


def _talk(wiring: Wiring, verb: str, feature: Feature) -> Talk:
    result = yield Question(f"{feature.name}: what does it do?", _RESULTS)
    if result == LEFT_OUT:
        return Outcome((), ("Nothing recorded for it.",))
    fields = ((verb, feature.name), ("result", result))
    if verb == BEFORE:
        words = f"{feature.name}: {result}, written as it came in."
        return Outcome(fields, (words,), result != WORKS)
    did = last_of(wiring, BEFORE).get(feature.name.lower())
    if worked(did) and result != WORKS:
        words = f"{feature.name} worked before and is {result} now: DIFFERS. Find out why before anything is closed."
        return Outcome(fields, (words,), True)
    known = "as before" if worked(did) else "nobody tried it before" if did is None else f"before: {did.word('result')}"
    words = f"{feature.name}: {result}, {known}."
    return Outcome(fields, (), fits=(words,)) if result == WORKS else Outcome(fields, (words,), True)
