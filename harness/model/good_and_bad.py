"""Words by which a record says that something is right or wrong, made or not: the one place for them."""

from __future__ import annotations

import re

# Of a joint, a terminal, a plug: that it holds. Of a joint nothing else may be said beside them.
HOLDS = frozenset(
    (
        "tug", "tugged", "hold", "holds", "held", "firm", "firmly", "tight", "solid", "secure", "ok", "okay", "good",
        "fine",
    )
)  # fmt: skip
# Of a joint or a wire: that it isn't there, or not any more.
APART = frozenset(("loose", "broken", "missing", "cut"))
# Words that say that something is wrong, unless `no` or `not` stands before them.
WRONG = APART | frozenset(
    (
        "burnt", "burned", "scorched", "hot", "smoke", "smokes", "painted", "rust", "rusty",
        "corroded", "corrosion", "torn", "cracked", "wet", "damp", "water", "wrong", "bad",
        "damaged", "melted", "worn", "bent", "chafed", "crushed", "pinched", "short", "shorted",
        "unlocked", "unlatched", "unseated", "backed", "slipped", "frayed",
        "reversed", "blown", "dead", "noisy", "leaking", "fault", "faults", "faulty",
        "swapped", "crossed",
    )
)  # fmt: skip
# Words that say that it is right, unless `no` or `not` stands before them.
RIGHT = HOLDS | frozenset(
    (
        "position", "lock", "locked", "seated", "sits", "latched", "clean", "dry", "right", "insulated", "covered",
        "made", "fused", "steady",
    )
)  # fmt: skip
# What was wrong and isn't any more, unless it has still to `be` done.
MENDED = frozenset(("removed", "cleaned", "mended", "repaired", "replaced", "scraped", "tightened", "remade"))
LIGHTS_WRONG = frozenset(
    (
        "red", "blinks", "blinking", "blink", "flashes", "flashing", "dark", "off", "out", "none", "nothing",
        "dead", "protect", "protects", "protection", "fault", "error", "clip", "clipping", "overheat",
    )
)  # fmt: skip
LIGHTS_RIGHT = frozenset(("steady", "green", "blue", "white", "on", "lit"))

NOT_JOINED = ("not made", "left out", "undone", "not joined")  # what `is` says of a joint, or of one wire of it
# What `is` may say of a joint as a whole; nothing said is that it was made.
JOINT_MADE = (
    "", "made", "as planned", "done", "joined", "connected", "tug", "holds", "made anew", "now made"
)  # fmt: skip
JOINT_NOT = (*sorted(APART), "off", "open", *NOT_JOINED)
# What `is` may say of a run.
LAID = ("", "laid", "made", "as planned", "planned")
NOT_LAID = ("not laid", "not made")
# What a handover says where nothing is odd.
NOTHING_ODD = frozenset(("nothing", "none", "no", "nil", "-", "ok", "nothing odd", "not that i know"))

_NOT = frozenset(("no", "not", "isn't", "doesn't", "never", "nothing", "without"))
_TO_DO = _NOT | {"be"}
# What may stand beside words of a joint that holds, and what it may be without.
_BESIDE = frozenset(
    ("now", "again", "and", "when", "well", "still", "it", "is", "all", "both", "by", "hand", "at", "twice")
)
_PLAY = frozenset(("play", "movement", "give"))


def judged(said: str, wrong: frozenset[str], right: frozenset[str]) -> bool | None:
    """Whether words say that it is right: False where one says that it is wrong, None where none says either."""
    before, known, found = "", False, False
    for word in _words(said):
        denied = before in _NOT
        if word in MENDED and before not in _TO_DO:
            return True
        found = found or (word in wrong and not denied) or (word in right and denied)
        known = known or word in right or (word in wrong and denied)
        before = word
    return False if found else True if known else None


def says_it_holds(said: str) -> bool:
    """Whether words of a joint say that it holds, all of them: another one may be what is wrong with it."""
    words = _words(said)
    at = 0
    while at < len(words):
        if words[at] in ("no", "not", "without") and at + 1 < len(words) and words[at + 1] in WRONG | _PLAY:
            at += 2
            continue
        if words[at] not in HOLDS and words[at] not in _BESIDE:
            return False
        at += 1
    return True


def _words(said: str) -> list[str]:
    return [word for word in re.split(r"[\s,.;]+", said.lower()) if word]
