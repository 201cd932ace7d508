"""What of the work nobody proved, or somebody found wrong, in words for a car's owner."""

from __future__ import annotations

from collections.abc import Iterable

from harness.graph.answers import answers
from harness.graph.contrary import BUILT, HEARD, LEFT_ODD, LOOSE, PLUS, UNLAID, contrary, pairs_against
from harness.graph.pairs import UsedPair
from harness.graph.proven import open_evidence
from harness.graph.wiring import Wiring
from harness.model.evidence import NOTHING


def left_open(wiring: Wiring) -> list[str]:
    """A line a thing, each resting on a record or on the lack of one. Functions have their own table."""
    still, against = open_evidence(wiring), pairs_against(wiring)
    lines = []
    half = [pair for pair in still.pairs if pair.name not in against and pair.unheard]
    untried = [pair for pair in still.pairs if pair.name not in against and pair not in half]
    if untried:
        lines.append(f"Wires not tried: {_listed(map(_pair_words, untried))}.")
    wrong = [pair for pair in still.pairs if pair.name in against]
    if wrong:
        lines.append(f"Wires tried, and not as expected: {_listed(map(_pair_words, wrong))}.")
    speakers = wiring.job.parts.speakers
    for silent, words in ((False, "Speakers that no test sound has proved yet"), (True, "Speakers that stayed silent")):
        names = [speakers[each.speaker].function.words or each.speaker for pair in half for each in pair.unheard
                 if bool(each.silent) == silent]  # fmt: skip
        if names:
            lines.append(f"{words}: {_listed(names)}.")
    heard = {each.driver.name: each for each in answers(wiring)}
    unheard = [each.name for each in still.outputs if each.name not in heard]
    if unheard:
        lines.append(f"Not listened to: {_listed(_output_words(wiring, name) for name in unheard)}.")
    otherwise: dict[str, list[str]] = {}
    for name in (each.name for each in still.outputs if each.name in heard):
        said = heard[name].record.word("heard")
        silent = said in NOTHING or not said
        what = "nothing was heard" if silent else "not the right speakers were heard, or not as they should"
        otherwise.setdefault(what, []).append(_output_words(wiring, name))
    lines += [f"Listened to, {what}: {_listed(names)}." for what, names in otherwise.items()]
    loose = [each for each in contrary(wiring) if each.kind == LOOSE]
    for each in loose:
        at = wiring.joints[each.record.joint].at
        lines.append(f"A joint{f' ({at})' if at else ''} was found loose and not looked at again since.")
    built = sum(each.kind == BUILT for each in contrary(wiring))
    if built:
        lines.append(f"Made otherwise than planned: {'1 place' if built == 1 else f'{built} places'}.")
    unlaid = sum(each.kind == UNLAID for each in contrary(wiring))
    if unlaid:
        lines.append(f"{'1 cable was' if unlaid == 1 else f'{unlaid} cables were'} not laid.")
    odd = [each.reads for each in contrary(wiring) if each.kind == LEFT_ODD]
    lines += [f"Noted in the workshop as odd, and not answered: {words}." for words in odd]
    rest = sum(each.kind not in (LOOSE, BUILT, UNLAID, HEARD, PLUS, LEFT_ODD) for each in contrary(wiring))
    if rest:
        lines.append(
            f"{rest} {'reading was' if rest == 1 else 'readings were'} not as planned; the workshop's sheets say which."
        )
    return lines


def _pair_words(pair: UsedPair) -> str:
    """`left front`: the channel of a pair, by the chart."""
    return pair.plus.function._replace(sign="").words or pair.plus.function.base


def _output_words(wiring: Wiring, output: str) -> str:
    """The speakers that an output plays by the plan, in words."""
    names: dict[str, None] = {}
    for receiver in wiring.signals.speaker_receivers:
        for way in wiring.signals.ways(receiver):
            if any(output in (way.source.name, hop.feed.driver.name) for hop in way.hops):
                names[wiring.job.parts.speakers[receiver.speaker].function.words or receiver.speaker] = None
    return " and ".join(names) or output


def _listed(words: Iterable[str]) -> str:
    """Each once, in their order."""
    return ", ".join(dict.fromkeys(words))
