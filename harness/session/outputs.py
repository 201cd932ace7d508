"""The output test: one channel of the radio plays, and what answers is held against the plan's signals."""

from __future__ import annotations

from harness.graph.faded import KEYS, Setting, faded, play, settings
from harness.graph.pairs import silent_drivers
from harness.graph.proven import open_evidence
from harness.graph.wiring import Wiring
from harness.planning.output_test import ChannelTest, output_test
from harness.session.talk import LEFT_OUT, Choice, Outcome, Question, Section, Talk, Task
from harness.session.words import NOTHING, heard_of, listed

NAME = "outputs"
CAUTIONS = (
    "Lowest volume first, gains down. Nobody's ear at a speaker: the first sound may be loud.",
    "A smell, a hum or a lamp of a unit's protection: off at once, and find out why.",
)


def section(wiring: Wiring) -> Section | None:
    """Every channel that the plan leads to a speaker and that nobody has heard yet; then fader and balance at their
    ends.
    """
    tests = [each for each in output_test(wiring).channels if each.heard]
    if not tests:
        return None
    ends = settings(wiring)
    right = {each.setting for each in faded(wiring) if not each.differs and not each.odd and each.record.word("heard")}
    still = {driver.name for driver in open_evidence(wiring).outputs}
    left = [each for each in tests if each.source in still]
    first = (
        "Everything joined as planned, fuses in, key on, radio playing.",
        "One channel at a time, by balance and fader or one output at a time.",
    )
    tasks = [_task(wiring, each) for each in left]
    tasks += [_at_an_end(wiring, each) for each in ends if each not in right]
    earlier = [_task(wiring, each) for each in tests if each not in left]
    earlier += [_at_an_end(wiring, each) for each in ends if each in right]
    return Section(NAME, "Hear the outputs", first, CAUTIONS, tuple(tasks), len(earlier), tuple(earlier), powered=True)


def _task(wiring: Wiring, test: ChannelTest) -> Task:
    return Task(f"{test.channel} of {test.unit}", (f"Play only {test.channel}.",), lambda: _talk(wiring, test))


def _at_an_end(wiring: Wiring, setting: Setting) -> Task:
    about = f"{setting.unit}: {setting.words}"
    return Task(about, (f"All channels of {setting.unit} play; {setting.words}.",), lambda: _turned(wiring, setting))


def _turned(wiring: Wiring, setting: Setting) -> Talk:
    planned = play(wiring, setting)
    heard = yield from heard_of(
        wiring, f"{setting.words.capitalize()}: which speakers answer?", planned.must, planned.may
    )  # fmt: skip
    if heard == LEFT_OUT:
        return Outcome((), ("Nothing recorded for this setting.",))
    ends = [(KEYS[end], end) for end in setting.ends]
    fields = (("plays", setting.unit), *ends, ("heard", heard), ("key", "run"))
    got = set() if heard == NOTHING else set(heard.split())
    if set(planned.must) <= got <= {*planned.must, *planned.may}:
        return Outcome(fields, (), fits=(f"{setting.words.capitalize()}: as planned, {listed(planned.must)}.",))
    said = "nothing answered" if heard == NOTHING else f"heard {listed(heard.split())}"
    told = f"{setting.words.capitalize()}: DIFFERS. Planned {listed(planned.must)}, {said}."
    return Outcome(fields, (told, "Play each output alone: that tells which are crossed."), True)


def _talk(wiring: Wiring, test: ChannelTest) -> Talk:
    expected = tuple(dict.fromkeys(each.speaker for each in test.heard))
    before = silent_drivers(wiring)
    silent = tuple(name for name in expected if name in before)
    warned = "".join(
        f" {name} was silent at {before[name]} when toned: listen for it by itself, low." for name in silent
    )  # fmt: skip
    heard = yield from heard_of(
        wiring, f"{test.channel} plays: which speakers answer?{warned}", expected, silent=silent
    )  # fmt: skip
    if heard == LEFT_OUT:
        return Outcome((), ("Nothing recorded for this channel.",))
    follows = LEFT_OUT
    fades = any(each.unit == test.unit and each.faded for each in settings(wiring))
    if heard != NOTHING:
        follows = yield Question(
            "Turn the volume, then the fader: does the level follow?" if fades else "Does the level follow the volume?",
            (
                Choice("both, as it must", "both"), Choice("the volume only", "volume"),
                Choice("the fader only", "fader"), Choice("neither", "nothing"),
            ) if fades else (Choice("yes, as it must", "volume"), Choice("no", "nothing")),
        )  # fmt: skip
    fields = (("plays", test.source), ("heard", heard), *([("follows", follows)] if follows else []), ("key", "run"))
    right = set(heard.split()) == set(expected)
    told = f"{test.channel}: as planned, {listed(expected)}." if right else (
        f"{test.channel}: DIFFERS. Planned {listed(expected)}, "
        f"{'nothing answered' if heard == NOTHING else f'heard {listed(heard.split())}'}."
    )  # fmt: skip
    lines = [told]
    if follows in ("fader", "nothing"):
        lines.append("The level doesn't follow the volume: it is full blast there.")
    if fades and follows in ("volume", "nothing"):
        lines.append("The level doesn't follow the fader: turn it to both its ends, that tells what is crossed.")
    if right:
        return Outcome(fields, tuple(lines[1:]), len(lines) > 1, fits=(told,))
    return Outcome(fields, tuple(lines), True)
