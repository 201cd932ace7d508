"""What a record rests on, in words: the row of each cavity that it used. Later the words are held against the chart.

The words carry the wire's function, colour, size and twist, and the side from which the plug's numbers are meant.
Order, notes, titles and other plugs are no part of them, so they make nothing stale.
"""

from __future__ import annotations

from collections.abc import Iterable

from harness.model.contact import Contact
from harness.model.job import Link
from harness.model.parts import Plug
from harness.read.rows import read_words

_VIEW = "seen from"


def facts_of(contacts: Iterable[Contact], plugs: dict[str, Plug]) -> tuple[str, ...]:
    """`1 FL+ WH 0.5 mm2` for each contact, and `seen from wire` for a plug whose face says its view."""
    made: dict[str, None] = {}
    for contact in contacts:
        if contact.kind in ("plug", "loom") or contact.colour is not None:  # a unit's terminal has its name alone
            made[_fact(contact, plugs)] = None
    for contact in contacts:
        plug = plugs.get(contact.owner)
        if plug is not None and plug.face is not None and plug.face.view:
            made[f"{_VIEW} {plug.face.view}"] = None
    return tuple(made)


def joint_facts(links: Iterable[Link]) -> tuple[str, ...]:
    """What a record of a joint rests on: `joins T1.car.1 to dsp.out1+` for each of its links."""
    return tuple(f"joins {link.a} to {link.b}" for link in links)


def stale_joint(facts: Iterable[str], now: tuple[str, ...]) -> str:
    """What no longer holds of a record of a joint, or empty: its number may mean another one since a row was put in."""
    was = {" ".join(each.lower().split()) for each in facts}
    if was == {each.lower() for each in now}:
        return ""
    return f"the joint of that name now {', '.join(now)}"


def _fact(contact: Contact, plugs: dict[str, Plug]) -> str:
    words = [contact.last, contact.function.name]
    if contact.colour is not None:
        words.append(contact.colour.short.replace(" ", "-"))
        if contact.colour.stripe and contact.colour.mark != "stripe":
            words.append(contact.colour.mark)
    if contact.size is not None:
        words.append(contact.size.text)
    plug = plugs.get(contact.owner)
    if plug is not None and any(row.twisted for row in plug.rows if row.cavity == contact.last):
        words.append("twisted")
    return " ".join(words)


def stale_words(
    facts: Iterable[str], now: tuple[str, ...], heard: frozenset[str] = frozenset(), plus: str = ""
) -> str:  # fmt: skip
    """What no longer holds of a record's facts, or empty.

    `heard` are channels that a tone heard, `plus` where it found +: a chart that was corrected to what was heard rests
    on the tone, and the tone goes on holding.
    """
    by_name = {fact.partition(" ")[0].lower(): fact for fact in now if not fact.startswith(_VIEW)}
    view = next((fact for fact in now if fact.startswith(_VIEW)), "")
    changed = []
    for fact in facts:
        if fact.startswith(_VIEW):
            if fact != view:
                changed.append(f"the plug was {fact}, now {view or 'no side is said'}")
            continue
        name, _, was = fact.partition(" ")
        found = by_name.get(name.lower())
        if found is None:
            changed.append(f"{name} is no longer there")
            continue
        is_now = found.partition(" ")[2]
        if was != is_now and not _alike(was, is_now) and not _as_heard(name, was, is_now, heard, plus):
            changed.append(f"{name} was {was}, is now {is_now}")
    return "; ".join(changed)


def _alike(was: str, is_now: str) -> bool:
    """Whether two spellings say the same wire."""
    try:
        one, other = read_words(was, ()), read_words(is_now, ())
    except ValueError:
        return False
    colours = [[(each.base, each.stripe, each.mark) for each in words.colours] for words in (one, other)]
    sizes = [words.size.area_mm2 if words.size else None for words in (one, other)]
    same = one.function.name == other.function.name and one.twisted == other.twisted
    return same and colours[0] == colours[1] and sizes[0] == sizes[1]


def _as_heard(cavity: str, was: str, is_now: str, heard: frozenset[str], plus: str) -> bool:
    """Whether the whole row gave way to the one of a channel that was heard, with + where it was found."""
    try:
        one, other = read_words(was, ()).function, read_words(is_now, ()).function
    except ValueError:
        return False
    if one.name == other.name or other.base not in heard:
        return False
    if not plus:
        return one.base != other.base
    return (other.sign == "+") == (plus.rsplit(".", 1)[-1].lower() == cavity.lower())
