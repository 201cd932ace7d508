"""H03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.fates import ONE_END, CavityFate
from harness.graph.feeding import is_live
from harness.graph.joined import made_at
from harness.graph.pairs import pairs_of
from harness.graph.wiring import INPUT, OUTPUT, SPEAKER, Wiring
from harness.model.contact import CHASSIS, printed
from harness.place import Place


@check("H03", Severity.FIX, "Half-used intercept", source="common practice, no source")
def half_used_intercept(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an opened pair of which one half is used and the other half is left to nobody.

    Why it matters: taken from the radio and given back by nobody, the speaker is silent. The other way round,
    a live output of the radio hangs open beside the new joints.

    Example: the radio's left rear goes to the processor's input, and the speaker's side of the plug is capped.

    What to do: join the other half, or use a tap; on the radio's side, cap what is not used.

    Known limits: a speaker side without a speaker or an input behind it asks for nothing.

    Source: common practice, no source.
    """
    for plug in wiring.job.parts.plugs.values():
        pairs = [] if plug.inline else pairs_of(wiring, plug.name)
        if not pairs:
            continue
        fates = {each.row.cavity: each for each in wiring.fates.cavities(plug.name)}
        for plus, minus in pairs:
            both = [fates[plus.cavity], fates[minus.cavity]]
            if any(each.fate == ONE_END for each in both):
                yield from _taken(wiring, both)
                yield from _left_live(wiring, both)


def _halves(both: list[CavityFate], half: str) -> list[str]:
    return [f"{each.plug}.{half}.{each.row.cavity}" for each in both]


def _about(wiring: Wiring, both: list[CavityFate]) -> tuple[str, ...]:
    """Both halves with what hangs on them, so that the same cause isn't told at a lead or a speaker once more."""
    about: dict[str, None] = {}
    for name in (*_halves(both, "unit"), *_halves(both, "car")):
        if not wiring.planned.joined(name, CHASSIS):
            about.update(dict.fromkeys(wiring.planned.net(name)))
        about[name] = None
    return tuple(about)


def _taken(wiring: Wiring, both: list[CavityFate]) -> Iterator[Fault]:
    """The radio's side is used, and nothing drives what lies behind the car's side."""
    used = [each for each in both if each.fate == ONE_END and each.unit_to]
    if not used or not any(is_live(wiring, name) for half in _halves(both, "unit") for name in wiring.planned.net(half)):
        return
    behind = [name for half in _halves(both, "car") for name in wiring.planned.net(half)]
    roles = {wiring.role(name) for name in behind}
    if OUTPUT in roles or not roles & {SPEAKER, INPUT}:
        return
    deaf = next(name for name in behind if wiring.role(name) in (SPEAKER, INPUT))
    car = f"{used[0].plug}.car.{used[0].row.cavity}"
    place, words = _where_taken(wiring, used[0])
    channel = printed(used[0].row.function.base)
    yield Fault(
        at=Spot(place, words),
        message=f"{channel} is taken to {words}, but nothing drives {wiring.words(car)}: {wiring.words(deaf)} is silent.",
        do=f"Join {wiring.words(car)} to an output, or tap instead of opening the pair.",
        about=_about(wiring, both),
        also=(Spot(used[0].row.place, wiring.words(car)),),
    )


def _where_taken(wiring: Wiring, fate: CavityFate) -> tuple[Place, str]:
    """The joint that takes the radio's side, and what it takes it to."""
    first = fate.unit_to[0]
    made = made_at(wiring, first)
    net = set(wiring.planned.net(f"{fate.plug}.unit.{fate.row.cavity}"))
    mine = next((conductor for conductor in made if conductor.a in net and conductor.b in net), None)
    return (mine.place if mine else fate.row.place), wiring.words(first)


def _left_live(wiring: Wiring, both: list[CavityFate]) -> Iterator[Fault]:
    """The car's side is driven, and the radio's side is a live end that nobody capped."""
    job = wiring.job
    for each in both:
        unit = f"{each.plug}.unit.{each.row.cavity}"
        if each.fate != ONE_END or not each.car_to:
            continue
        net = wiring.planned.net(unit)
        if any(name in job.capped or name in job.depinned for name in net):
            continue
        source = next((name for name in net if wiring.role(name) == OUTPUT), "")
        if not source:
            continue
        ends = [name for name in net if wiring.contact(name).kind == "loom"]
        end = ends[-1] if ends else unit
        depinned_pin = any(f"{mate.loom}.{mate.end}.{each.row.cavity}" in job.depinned for mate in job.mates)
        no_pin = not ends and unit not in job.cut and unit.replace(".unit.", ".car.", 1) not in job.cut
        if depinned_pin or no_pin:
            continue  # nothing hangs out of the plug on that side
        place = job.cut.get(unit) or job.cut.get(unit.replace(".unit.", ".car.", 1)) or wiring.contact(end).place
        yield Fault(
            at=Spot(place, wiring.words(end)),
            message=(
                f"{wiring.words(end)} is live from {wiring.words(source)} and left open, "
                f"while {wiring.words(each.car_to[0])} drives the car's side: a bare end finds metal."
            ),
            do=f"Cap it (`capped: [{end}]`), or use it as an input.",
            about=_about(wiring, both),
        )
        return
