"""H03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.fates import ONE_END, CavityFate
from harness.graph.joined import made_at
from harness.graph.pairs import pairs_of
from harness.graph.wiring import INPUT, OUTPUT, SPEAKER, Wiring
from harness.model.contact import CHASSIS
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
        for plus, minus in [] if plug.inline else pairs_of(wiring, plug.name):
            both = [wiring.fates.cavity(plug.name, row.cavity) for row in (plus, minus)]
            if all(each.fate != ONE_END for each in both):
                continue
            for live, deaf in (("unit", "car"), ("car", "unit")):
                yield from _taken(wiring, both, live, deaf)
                yield from _left_live(wiring, both, live, deaf)


def _half(fate: CavityFate, half: str) -> str:
    return f"{fate.plug}.{half}.{fate.row.cavity}"


def _to(fate: CavityFate, half: str) -> tuple[str, ...]:
    return fate.unit_to if half == "unit" else fate.car_to


def _about(wiring: Wiring, both: list[CavityFate]) -> tuple[str, ...]:
    """Both halves with what hangs on them, so that the cause isn't told at a lead or a speaker once more."""
    about: dict[str, None] = {}
    for name in (_half(each, half) for half in ("unit", "car") for each in both):
        if not wiring.planned.joined(name, CHASSIS):
            about.update(dict.fromkeys(wiring.planned.net(name)))
        about[name] = None
    return tuple(about)


def _taken(wiring: Wiring, both: list[CavityFate], live: str, deaf: str) -> Iterator[Fault]:
    """The half with the signal is used, and nothing drives what lies behind the other half."""
    used = [each for each in both if each.fate == ONE_END and _to(each, live)]
    if not used or not any(
        wiring.role(name) == OUTPUT for each in both for name in wiring.planned.net(_half(each, live))
    ):
        return
    behind = [name for each in both for name in wiring.planned.net(_half(each, deaf))]
    roles = {wiring.role(name) for name in behind}
    if OUTPUT in roles or not roles & {SPEAKER, INPUT}:
        return
    silent = next(name for name in behind if wiring.role(name) in (SPEAKER, INPUT))
    first = used[0]
    other = wiring.words(_half(first, deaf))
    place, to = _where_taken(wiring, first, live)
    yield Fault(
        at=Spot(place, to),
        message=f"{wiring.words(_half(first, live))} is taken to {to}, but nothing drives the other half: "
        f"{wiring.words(silent)} is silent.",
        do=f"Join {other} to an output, or tap instead of opening the pair.",
        about=_about(wiring, both),
        also=(Spot(first.row.place, other),),
        path=_way(wiring, _to(first, live)[0]),
    )


def _way(wiring: Wiring, end: str) -> tuple[str, ...]:
    """From the nearest output to where its signal is taken, or left open."""
    source = next((name for name in wiring.planned.around(end) if wiring.role(name) == OUTPUT), end)
    return wiring.way_in_words(source, wiring.planned.path(source, end))


def _where_taken(wiring: Wiring, fate: CavityFate, live: str) -> tuple[Place, str]:
    """The joint that takes the signal, and what it takes it to."""
    first = _to(fate, live)[0]
    net = set(wiring.planned.net(_half(fate, live)))
    mine = next((each for each in made_at(wiring, first) if each.other(first) in net), None)
    return (mine.place if mine else fate.row.place), wiring.words(first)


def _left_live(wiring: Wiring, both: list[CavityFate], live: str, driven: str) -> Iterator[Fault]:
    """One half is driven anew, and the half with the signal is a live end that nobody capped."""
    job = wiring.job
    for each in both:
        half = _half(each, live)
        if each.fate != ONE_END or not _to(each, driven):
            continue
        net = wiring.planned.net(half)
        source = next((name for name in net if wiring.role(name) == OUTPUT), "")
        if not source or any(name in job.capped for name in net):
            continue
        ends = [name for name in net if wiring.contact(name).kind == "loom"]
        cut = next((job.cut[name] for name in (half, _half(each, driven)) if name in job.cut), None)
        if ends:
            end, place = ends[-1], wiring.contact(ends[-1]).place
        elif cut is not None:
            end, place = half, cut
        else:
            continue  # nothing hangs out of the plug on that half
        yield Fault(
            at=Spot(place, wiring.words(end)),
            message=f"{wiring.words(end)} is live from {wiring.words(source)} and left open, "
            f"while {wiring.words(_to(each, driven)[0])} takes over the other half.",
            do=f"Cap it (`capped: [{end}]`), or use it as an input.",
            about=_about(wiring, both),
            path=_way(wiring, end),
        )
        return
