"""The same job as another hand would write it: other case, LF for FL, more blanks, remarks between the lines."""

from __future__ import annotations

import random
import re

import yaml

from tests.checks.nodes_at import Scalar, composed, edited, scalars

_OTHER = {"FL": "LF", "FR": "RHF", "RL": "LR", "RR": "RHR"}
_CHANNEL = re.compile(r"(FL|FR|RL|RR)(?=$|[-+])")
_CONTACT = re.compile(r"(?<![\w.+/-])([A-Za-z][\w-]*)((?:\.(?:unit|car))?)\.([A-Za-z0-9][\w.+/-]*)")
_ROWS = {("plugs", "cavities"), ("looms", "leads"), ("looms", "pins")}
_CONTACTS = ("joints", "cut", "capped", "depinned", "moved", "found", "runs")


def respelled(text: str, seed: int) -> str:
    """Every function and every reference to a contact in another spelling that means the same."""
    dice = random.Random(seed)

    def other(function: str) -> str:
        function = _CHANNEL.sub(lambda m: _OTHER[m[1]] if dice.random() < 0.5 else m[1], function)
        return dice.choice([function, function.lower(), function.upper()])

    def row(raw: str) -> str:
        words = raw.split(" ")
        at = 1 if re.match(r"(unit|car)\.", words[0]) else 0
        words[at] = other(words[at])
        return words[0] + "".join(" " * dice.randint(1, 3) + word for word in words[1:])

    def reference(match: re.Match[str]) -> str:
        owner = dice.choice([match[1], match[1].upper(), match[1].lower()])
        last = match[3] if ".." in match[3] or match[3][0].isdigit() else other(match[3])
        return f"{owner}{match[2]}.{last}"

    changes = []
    for each in scalars(text):
        raw = text[each.start : each.end]
        if _is_row(each) and not raw.startswith(("'", '"')):
            changes.append((each.start, each.end, row(raw)))
        elif each.path[0] in _CONTACTS and each.path[-1] not in (
            "name",
            "at",
            "cover",
            "stub",
            "untwist",
            "stagger",
            "takes",
        ):
            if each.path[0] == "joints" and len(each.path) < 3:
                continue  # a heading such as `crimp at the kick panel`
            changes.append((each.start, each.end, _CONTACT.sub(reference, raw)))
    return _remarked(edited(text, changes), dice)


def _is_row(each: Scalar) -> bool:
    return not each.is_key and len(each.path) == 4 and (each.path[0], each.path[2]) in _ROWS


def _remarked(text: str, dice: random.Random) -> str:
    """Remarks and empty lines before the keys and items of blocks."""
    lines = text.split("\n")
    starts: dict[int, int] = {}

    def visit(node: yaml.Node) -> None:
        if not isinstance(node, yaml.CollectionNode) or node.flow_style:
            return
        for item in node.value:
            first = item[0] if isinstance(item, tuple) else item
            starts[first.start_mark.line] = first.start_mark.column
            visit(item[1] if isinstance(item, tuple) else item)

    visit(composed(text))
    for line in sorted(starts, reverse=True):
        what = dice.random()
        if what < 0.15:
            lines.insert(line, "" if what < 0.05 else " " * starts[line] + f"# looked at twice: {what:.2f}")
    return "\n".join(lines)
