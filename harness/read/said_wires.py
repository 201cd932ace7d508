"""The sentences for names, contacts, signals, chains and dates that aren't understood."""

from __future__ import annotations

import re

from harness.read import patterns as p
from harness.read.said import Said, fits, nearest, words_of
from harness.read.said_rows import UNITS_MEANT, say_colour, say_quantity, say_size
from harness.units import UNITS


def say_date(text: str, about: str) -> Said | None:
    """What is said about a date; both readings of one that has two."""
    match = re.fullmatch(r"([0-9]{1,2})[./-]([0-9]{1,2})[./-]([0-9]{2}|[0-9]{4})", text)
    if match:
        a, b, year = int(match[1]), int(match[2]), match[3] if len(match[3]) == 4 else f"20{match[3]}"
        both = [f"{year}-{m:02d}-{d:02d}" for m, d in dict.fromkeys(((b, a), (a, b))) if 1 <= m <= 12 and 1 <= d <= 31]
        if len(both) == 2:
            return Said(
                0,
                text,
                f"“{text}” could be {both[0]} or {both[1]}.",
                "Write the one that is meant: year-month-day.",
            )
        if both:
            return Said(0, text, f"“{text}” is not a date as it is written here.", f"Write {both[0]}: year-month-day.")
    return Said(0, text[:40], f"“{text[:40]}” is not a date.", "Write year-month-day, for instance 2026-03-02.")


def say_name(text: str, about: str) -> Said:
    """What is said about a name."""
    advice = "Write letters, digits, - and _, beginning with a letter or digit."
    if text[-1:] in "+-":
        return Said(
            0,
            text[:60],
            f"“{text[:60]}” is not a name: it ends in {text[-1:]}, which means a wire of a pair.",
            f"Write {text.rstrip('+-') or 'a name'}.",
        )
    bad = re.search(r"[^A-Za-z0-9_. -]", text)
    at = bad.start() if bad else 0
    why = f": {bad[0]} can't be in one" if bad else ": a space parts two names" if " " in text else ""
    return Said(at, text[:60], f"“{text[:60]}” is not a name{why}.", advice)


def say_cavity(text: str, about: str) -> Said:
    """What is said about the key of a row."""
    if re.fullmatch(r"[A-Za-z0-9]+(-|\.\.)[A-Za-z0-9]+", text):
        return Said(
            0,
            text[:60],
            f"“{text}” is not a cavity; a row is for one cavity, or for a pair with + first.",
            "Write one row for each, or 1/11 for a pair.",
        )
    return Said(
        0,
        text[:60],
        f"“{text[:60]}” is not a cavity.",
        "Write its number or letters, for instance 12 or A5; for a pair 1/11, + first.",
    )


def say_contact(text: str, about: str) -> Said:
    """What is said about one contact or several."""
    single = p.TURNED
    for offset, word in words_of(text):
        if word in ("reversed", ">"):
            continue
        if not fits(p.CONTACT, word):
            if word.endswith(","):
                return Said(
                    offset,
                    word[:60],
                    "Contacts are parted by spaces, or stand in [ ].",
                    f"Write {word.rstrip(',')} without the comma, or [a, b].",
                )
            if "." not in word:
                return Said(
                    offset,
                    word[:60],
                    f"“{word[:60]}” is not a contact: its cavity or terminal is missing.",
                    f"Write {word[:40]}.1, {word[:40]}.FL+ or the like.",
                )
            return Said(
                offset,
                word[:60],
                f"“{word[:60]}” is not a contact.",
                "Write PLUG.unit.n, PLUG.car.n, LOOM.END.n, UNIT.terminal, spk.NAME+ or gnd.NAME.",
            )
    if len(text.split()) > 1 and not fits(single, text):
        return Said(
            0,
            text[:60],
            "One contact belongs here, and several stand there.",
            f"For one joint of several wires write [{', '.join(text.split())}].",
        )
    return Said(0, text[:60], f"“{text[:60]}” is not a contact.", "Write for instance dash.car.FL+ or dsp.in1.")


_FORMS = ("btl", "differential", "grounded", "transformer", "digital")
_OF_OUTPUTS = ("clean", "fixed", "volume", "step")


def say_signal(text: str, about: str) -> Said | None:
    """What is said about the words of a signal; `about` allows names as well."""
    comma = text.find(",")
    if comma >= 0:
        return Said(
            comma,
            text[:60],
            "Words are parted by spaces, never by commas.",
            "Take the comma away; a decimal has a point.",
        )
    words = words_of(text)
    units = {unit for table in UNITS.values() for unit in table}
    forms = (*_FORMS, *(_OF_OUTPUTS if about == "output" else ()), "inverted", "least", "@")
    for at, (offset, word) in enumerate(words):
        if re.match(r"-?[0-9.]", word):
            following = words[at + 1][1] if at + 1 < len(words) else ""
            if following not in units:
                meant = UNITS_MEANT.get(following, "")
                do = f"Write {word} {meant}." if meant else "Write the unit behind it: V, Hz, W, ohm, dB or ms."
                return Said(offset, word, f"“{word}” has no unit known here.", do)
        elif (
            word not in units
            and word.lower() not in forms
            and not (about == "route" and fits(rf"{p.NAME}|{p.RANGE}|\+", word))
        ):
            near = nearest(word, forms[:-2])
            do = (
                f"Is {near} meant?"
                if near
                else "Write it like this: 2..20 V differential, or 75 W @ 4 ohm least 2 ohm."
            )
            return Said(offset, word[:40], f"“{word[:40]}” is not a word of a signal.", do)
    return None


def say_output(text: str, about: str) -> Said | None:
    """What is said about the words of an output: a volume step first, then as of any signal."""
    steps = list(re.finditer(r"\bstep [1-9][0-9]{0,2}(?: of [1-9][0-9]{0,2})?(?= |$)", text))
    rest = text
    for step in steps:
        rest = rest[: step.start()] + " " * len(step[0]) + rest[step.end() :]
    odd = re.search(r"\b(?:step|of)\b", rest)
    if odd:
        message = "A volume step is a number, with how many there are behind it."
        return Said(odd.start(), odd[0], message, "Write it like this: clean step 31 of 40.")
    return say_signal(rest, "output")


def say_route(text: str, about: str) -> Said | None:
    """What is said about a route."""
    return say_signal(text, "route")


def say_chain(text: str, about: str) -> Said | None:
    """What is said about the first step of a chain that is no good."""
    if ">" not in text:
        return Said(0, text[:60], "A chain has at least two contacts with > between them.", "Write dash.FL > spk.FL.")
    offset = 0
    steps = text.split(">")
    for number, raw in enumerate(steps):
        step = raw.strip()
        here = offset + len(raw) - len(raw.lstrip())
        offset += len(raw) + 1
        at_end = number in (0, len(steps) - 1)
        ends = rf"{p.CONTACTS}(?: reversed)?"
        if not step:
            return Said(
                max(here - 1, 0),
                ">",
                "A step of the chain is missing beside >.",
                "Write the contact or the wire there, or take the > away.",
            )
        if fits(ends if at_end else p.STEP, step):
            if raw.strip(" ") and number and not raw.startswith(" "):
                return Said(here, step[:40], "A space stands on both sides of >.", f"Write … > {step[:40]}")
            continue
        if at_end and fits(p.STEP, step):
            return Said(
                here,
                step[:60],
                (f"The chain {'begins' if not number else 'ends'} with “{step[:40]}”, and must with a contact."),
                "Write the contact there.",
            )
        return _step(step)._replace(offset=here)
    return None


def _step(step: str) -> Said:
    if step.startswith("fuse"):
        return Said(0, step[:60], f"“{step[:60]}” is not a fuse.", "Write fuse 40 A, or fuse unknown.")
    if re.match(r"[0-9.,-]", step) and not fits(p.CONTACT, step.split(" ")[0]):
        words = step.split(" ")
        length = " ".join(words[:2])
        if not fits(p.quantity("length"), length):
            return say_quantity(length if len(words) > 1 else words[0], "length")
        rest = " ".join(words[2:4])
        if rest and rest != "rca" and not re.match(rf"(?:{p.SIZE}|rca)(?: |$)", " ".join(words[2:])):
            return say_size(rest, "")
        if not rest:
            return Said(
                0,
                step,
                f"“{step}” has a length and no size.",
                "Write LENGTH SIZE, for instance 12 in 4 AWG, or 5 m rca.",
            )
        return Said(
            0,
            step[:60],
            f"“{step[:60]}” is not a wire.",
            "Write LENGTH SIZE, then copper or CCA, then via PLACE grommet.",
        )
    words = step.split(" ")
    if fits(p.CONTACT, words[0]) and len(words) in (2, 3) and not any("." in word for word in words[1:]):
        bad = next((word for word in words[1:] if not fits(p.COLOUR, word)), "")
        if bad:
            return say_colour(bad, "")
        return Said(
            0, step, f"“{words[0]}” is two cavities, and one colour follows.", "Write two colours, + first: BU BU/BK."
        )
    return say_contact(step, "")


def say_feature(text: str, about: str) -> Said:
    """What is said about UNIT > CONTACT."""
    return Said(
        0,
        text[:60],
        f"“{text[:60]}” is not UNIT > CONTACT.",
        "Write the unit it comes from, > and where it is heard: radio > spk.RL spk.RR.",
    )


def say_version(text: str, about: str) -> Said:
    """What is said about the file's version."""
    return Said(0, text[:20], f"“{text[:20]}” is not a version of the job file known here.", "Write ringout: 1.")
