"""C27."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.answers import Answer, answers
from harness.graph.faded import Faded, faded
from harness.graph.pairs import silent_drivers
from harness.graph.walk import way_contacts
from harness.graph.wiring import Wiring


@check(
    "C27",
    Severity.FIX,
    "Another speaker answers than planned",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def another_speaker_answers(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record of an output played alone whose speakers aren't those that it must reach as planned,
    by wire and by the routes on the way; or whose level doesn't follow the volume, where the plan has one. Also one of
    the radio with fader or balance at an end, at which others answer than those of the channels that still play.

    Why it matters: the car is wired or set otherwise than the plan says. What the plan proves then holds for another
    car than this one.

    Example: `plays: radio.FL, heard: FR`, where the plan leads radio FL to FL and FL-TW; `plays: radio, faded: rear,
    heard: FL FR`.

    What to do: power off, follow the path named from joint to joint and hold the processor's routes against the plan;
    where the speaker was silent at its own tone at the plug, look on the car's side first. Put the car right, or the
    plan, play the output again and add a record.

    Known limits: the last record of an output counts. With the frequency written in `signal`, a speaker that a
    crossover or a capacitor (below 1 kHz) keeps it from isn't missed. A channel stands for all its speakers where none
    has its name. A word that names no speaker is listed as not checked. At an end of the fader or balance a speaker
    of a centre or subwoofer channel may play or not.

    Source: common practice, no source.
    """
    for answer in answers(wiring):
        if not answer.differs:
            continue
        way = way_contacts(wiring, answer.way) if answer.way is not None else ()
        yield Fault(
            at=Spot(answer.record.place, answer.driver.name),
            message=_message(answer),
            do=_do(wiring, answer),
            about=tuple(dict.fromkeys((answer.driver.plus, answer.driver.minus, *way))),
            path=way,
        )
    yield from _at_the_ends(wiring)


def _at_the_ends(wiring: Wiring) -> Iterator[Fault]:
    """Fader and balance, where no record of an output alone tells it already."""
    told = {name for each in answers(wiring) if each.differs for name in (*each.silent, *each.astray)}
    for each in faded(wiring):
        wrong = (*each.silent, *each.astray)
        if told.issuperset(wrong):  # or nothing is wrong
            continue
        way = way_contacts(wiring, each.way) if each.way is not None else ()
        heard, planned = " and ".join(each.heard) or "nothing", " and ".join(each.must) or "no speaker"
        yield Fault(
            at=Spot(each.record.place, each.setting.unit),
            message=f"{each.setting.unit}, {each.setting.words}: {heard} answered; as planned {planned} must. "
            f"{_wrong(each)}",
            do="Play each output alone: that tells which are crossed. Power off, put right the car or the plan, turn "
            "it again and add a record.",
            about=way,
            path=way,
        )


def _wrong(each: Faded) -> str:
    astray, silent = " and ".join(each.astray), " and ".join(each.silent)
    if each.astray:
        return f"Turned away, {astray} still play{'s' if len(each.astray) == 1 else ''}: channels are crossed."
    return f"{silent} stay{'s' if len(each.silent) == 1 else ''} silent."


def _message(answer: Answer) -> str:
    played = answer.driver.name.replace(".", " ")
    said = []
    if answer.silent or answer.astray:
        heard = " and ".join(answer.heard) or "nothing"
        planned = " and ".join(answer.planned) or "no speaker"
        said.append(f"{played} was played and {heard} answered; as planned {planned} must.")
    if answer.loud:
        said.append(
            f"The level of {played} didn't follow the volume, which the plan has on its way: full blast at the first "
            "turn-on."
        )
    elif answer.astray:
        said.append("Sound comes from the wrong place, and more may be crossed.")
    elif answer.silent:
        said.append(f"{' and '.join(answer.silent)} stays silent." if len(answer.silent) == 1 else
                    f"{' and '.join(answer.silent)} stay silent.")  # fmt: skip
    return " ".join(said)


def _do(wiring: Wiring, answer: Answer) -> str:
    before = silent_drivers(wiring)
    if answer.silent and not answer.astray and all(name in before for name in answer.silent):
        toned = " and ".join(f"{name} was silent at {before[name]} at its plug" for name in answer.silent)
        return (
            f"{toned} already: power off, look on the car's side, at the speaker, its capacitor and its wires. "
            "Mend it, tone and play it again, and add both records."
        )
    played = answer.driver.name.replace(".", " ")
    return (
        f"Power off, then follow {played} from joint to joint{_routes(answer)}. Put right the car or the plan, play it "
        "again and add a record."
    )


def _routes(answer: Answer) -> str:
    """` and check the routes of dsp`, where the way passes a unit that has some."""
    units = [] if answer.way is None else [hop.feed.driver.port.unit for hop in answer.way.hops if hop.feed.driver
                                           is not answer.way.source]  # fmt: skip
    return f" and hold the routes set in {' and '.join(dict.fromkeys(units))} against the plan" if units else ""
