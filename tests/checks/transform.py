"""The same job written differently: renamed, reordered, recoloured, with more plugs on the way.

Each works on the text, so that comments, and with them the marks, stay on their lines.
"""

from __future__ import annotations

import re
from typing import NamedTuple

import yaml

from tests.checks.nodes_at import Path, Scalar, composed, edited, scalars

NAMED = ("plugs", "looms", "units", "inline")
# IEC 60757 letters
COLOURS = ("BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR")
_IN_ORDER = ("steps", "parts")  # the order of work is meant; a later part file may speak last
_CAVITY = re.compile(r"((unit|car)\.)?[A-Za-z]?[0-9]+[A-Za-z]?(/[A-Za-z]?[0-9]+[A-Za-z]?)?")


class Written(NamedTuple):
    """A job's text, and the text of its evidence or None."""

    job: str
    evidence: str | None


# -- renamed -------------------------------------------------------------------------------------------


class Renaming(NamedTuple):
    """Old name, in lower case, to new: of things, and of what is named behind another name."""

    things: dict[str, str]
    behind: dict[tuple[str, str], str]  # (old loom, its lead), (gnd, ground point)


def renaming_of(text: str) -> Renaming:
    """A new name for everything that the file names itself, in an order that turns the alphabet round."""
    things: dict[str, str] = {}
    behind: dict[tuple[str, str], str] = {}
    for each in scalars(text):
        if not each.is_key:
            continue
        if len(each.path) == 2 and each.path[0] == "grounds":
            behind["gnd", each.value.lower()] = f"spot-{9 - len(behind) % 9}{len(behind)}"
        elif len(each.path) == 2 and each.path[0] in NAMED:
            number = len(things) + 1
            things[each.value.lower()] = f"{chr(ord('z') - number % 26)}{number}_{str(each.path[0])[0].upper()}"
        elif _own_lead(each.path):
            loom = str(each.path[1]).lower()
            behind[loom, each.value.lower()] = f"wire-{len(behind) + 1}"
    return Renaming(things, behind)


def _own_lead(path: Path) -> bool:
    return len(path) == 4 and path[0] == "looms" and path[2] == "leads" and not _CAVITY.fullmatch(str(path[3]))


_WORD = r"(?<![\w.+/-])([A-Za-z0-9][A-Za-z0-9_-]*)"
_DOTTED = re.compile(_WORD + r"(?=\.[A-Za-z0-9+-])((?:\.([A-Za-z0-9][A-Za-z0-9_-]*)(?![\w.]))?)")
_BARE = re.compile(_WORD + r"(?![\w.+/-])")


def _in_contacts(raw: str, names: Renaming) -> str:
    """`T1.aerial` with both names changed; a word that isn't followed by a dot is left."""

    def change(match: re.Match[str]) -> str:
        owner, tail, last = match[1].lower(), match[2], (match[3] or "").lower()
        if (owner, last) in names.behind:
            tail = "." + names.behind[owner, last]
        return names.things.get(owner, match[1]) + tail

    return _DOTTED.sub(change, raw)


def _bare(raw: str, names: Renaming) -> str:
    return _BARE.sub(lambda match: names.things.get(match[1].lower(), match[1]), _in_contacts(raw, names))


def _renamed_scalar(each: Scalar, raw: str, names: Renaming) -> str:
    path, top = each.path, each.path[0]
    if each.is_key and len(path) == 2 and top in NAMED:
        return names.things[raw.lower()]
    if each.is_key and _own_lead(path):
        return names.behind[str(path[1]).lower(), raw.lower()]
    if each.is_key and len(path) == 2 and top == "grounds":
        return names.behind["gnd", raw.lower()]
    if top == "plugs" and len(path) == 3 and path[2] in ("unit", "car") and not each.is_key:
        return _bare(raw, names)
    if top in ("removed", "steps", "features") and not each.is_key:
        return _bare(raw, names)
    if (
        top == "joints"
        and len(path) >= 3
        and path[-1] not in ("name", "at", "cover", "stub", "untwist", "stagger", "takes")
    ):
        return _bare(raw, names) if str(path[1]).split()[0] == "mate" else _in_contacts(raw, names)
    if top in ("cut", "capped", "depinned", "moved", "found", "runs"):
        return _in_contacts(raw, names)
    return raw


def renamed(written: Written) -> Written:
    """Plugs, looms, units, inline plugs, grounds and leads under other names, in the evidence too."""
    names = renaming_of(written.job)
    changes = []
    for each in scalars(written.job):
        raw = written.job[each.start : each.end]
        new = _renamed_scalar(each, raw, names)
        if new != raw:
            changes.append((each.start, each.end, new))
    evidence = written.evidence
    if evidence is not None:
        changed = []
        for each in scalars(evidence):
            if not each.is_key and each.path[-1] not in ("by", "when", "seal"):
                raw = evidence[each.start : each.end]
                change = _bare if {"unplugged", "plays"} & {*each.path[-2:]} else _in_contacts
                changed.append((each.start, each.end, change(raw, names)))
        evidence = edited(evidence, changed)
    return Written(edited(written.job, changes), evidence)


# -- reordered -----------------------------------------------------------------------------------------


def reordered(written: Written) -> Written:
    """Everything whose order means nothing the other way round. Evidence is a log and stays."""
    text = _flow_turned(written.job)
    lines = text.split("\n")
    _turn(composed(text), (), lines)
    return Written("\n".join(lines), written.evidence)


def _may_turn(path: Path) -> bool:
    return not path or path[0] not in _IN_ORDER


def _flow_turned(text: str) -> str:
    changes: list[tuple[int, int, str]] = []

    def visit(node: yaml.Node, path: Path) -> None:
        if isinstance(node, yaml.CollectionNode) and node.flow_style:
            changes.append((node.start_mark.index, node.end_mark.index, _flow(node, path, text)))
        elif isinstance(node, yaml.MappingNode):
            for key, value in node.value:
                visit(value, (*path, key.value))
        elif isinstance(node, yaml.SequenceNode):
            for number, item in enumerate(node.value):
                visit(item, (*path, number))

    visit(composed(text), ())
    return edited(text, changes)


def _flow(node: yaml.Node, path: Path, text: str) -> str:
    """One `{...}` or `[...]` of a single line with its items turned round, and theirs."""
    raw = text[node.start_mark.index : node.end_mark.index]
    if not isinstance(node, yaml.CollectionNode) or "\n" in raw or not _may_turn(path):
        return raw
    if isinstance(node, yaml.SequenceNode):
        items = [_flow(item, (*path, number), text) for number, item in enumerate(node.value)]
        return f"[{', '.join(items[::-1])}]"
    items = [
        text[key.start_mark.index : value.start_mark.index] + _flow(value, (*path, key.value), text)
        for key, value in node.value
    ]
    return f"{{{', '.join(items[::-1])}}}"


def _turn(node: yaml.Node, path: Path, lines: list[str]) -> None:
    """Turns the items of a block round, inner blocks first: each takes as many lines as before."""
    if not isinstance(node, yaml.CollectionNode) or node.flow_style:
        return
    pairs = node.value if isinstance(node, yaml.MappingNode) else [(item, item) for item in node.value]
    for key, value in pairs if isinstance(node, yaml.MappingNode) else ():
        _turn(value, (*path, key.value), lines)
    if not _may_turn(path) or len(pairs) < 2:
        return
    starts = [key.start_mark.line for key, _ in pairs]
    for at in range(1, len(starts)):
        while starts[at] - 1 > starts[at - 1] and lines[starts[at] - 1].lstrip().startswith("#"):
            starts[at] -= 1  # a remark goes with what it stands above
    end = _last_line(pairs[-1][1]) + 1
    blocks = [lines[start:stop] for start, stop in zip(starts, [*starts[1:], end], strict=True)]
    lines[starts[0] : end] = [line for block in blocks[::-1] for line in block]


def _last_line(node: yaml.Node) -> int:
    """The last line on which something of the node stands."""
    if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        last = node.value[-1]
        return _last_line(last[1] if isinstance(last, tuple) else last)
    end = node.end_mark
    return end.line - 1 if end.column == 0 and end.line > node.start_mark.line else end.line


# -- recoloured ----------------------------------------------------------------------------------------


def recolouring_of(text: str) -> dict[str, str]:
    """Each code to another; a code that a legend of the file speaks of means what the legend says and stays."""
    legends = {each.value.upper() for each in scalars(text) if each.is_key and "legend" in each.path[:-1]}
    free = [code for code in COLOURS if code not in legends]
    return dict(zip(free, free[5:] + free[:5], strict=True))


_COLOUR = re.compile(rf"(?<![^\s/])({'|'.join(COLOURS)})(?=/|\s|$)")
_COLOURED = {("plugs", "cavities"), ("looms", "leads"), ("looms", "pins"), ("units", "leads")}


def _holds_colours(path: Path) -> bool:
    return path[0] in ("found", "runs") or (len(path) > 3 and (path[0], path[2]) in _COLOURED)


def recoloured(written: Written) -> Written:
    """Other colours on every wire, base and stripe alike."""
    codes = recolouring_of(written.job)

    def change(raw: str) -> str:
        return _COLOUR.sub(lambda match: codes.get(match[1], match[1]), raw)

    def edit(text: str, wanted: list[Scalar]) -> str:
        return edited(text, [(each.start, each.end, change(text[each.start : each.end])) for each in wanted])

    job = edit(written.job, [each for each in scalars(written.job) if not each.is_key and _holds_colours(each.path)])
    evidence = written.evidence
    if evidence is not None:
        told = {"charted", "fact", "seen", "heard", "colour"}  # `fact` may be a list
        evidence = edit(evidence, [each for each in scalars(evidence) if not each.is_key and {*each.path[-2:]} & told])
    return Written(job, evidence)


# -- more plugs on the way -----------------------------------------------------------------------------

_PAIR = re.compile(r"(FL|FR|RL|RR|C|SUB|LF|RF|LR)(-(TW|MID|WF))?|CAN|MIC|SRS|DIGITAL|(in|out|rca)[0-9]+", re.IGNORECASE)
MORE = ("More-1", "More-2")


_CHAINS = re.compile(r"^(found|runs):", re.MULTILINE)  # asked of every fixture before any test: not by reading it


def has_chains(text: str) -> bool:
    return _CHAINS.search(text) is not None


def lengthened(written: Written) -> Written:
    """Two more inline plugs right after the first step of every `found` chain, and before the last of every run."""
    text = written.job
    cavities = {
        (str(each.path[1]), cavity)
        for each in scalars(text)
        if each.is_key and each.path[0] == "plugs" and "cavities" in each.path and each.path[-1] != "cavities"
        for cavity in each.value.lower().split("/")
    }
    changes, used = [], 0
    for each in scalars(text):
        if each.path[0] not in ("found", "runs") or each.is_key:
            continue
        raw = text[each.start : each.end]
        first = each.path[0] == "found"
        at = raw.index(">") if first else raw.rindex(">")
        width = _width((raw[:at] if first else raw[at + 1 :]).strip("\"' \n").split()[0], cavities)
        numbers = "/".join(str(used + k + 1) for k in range(width))
        used += width
        colours = ("", " BU", " BU BU/BK")[width] if first else ""  # else A15 rightly asks for them
        more = "".join(f"> {name}.{numbers}{colours} " for name in MORE)
        changes.append((each.start + at, each.start + at, more))
    return Written(_declared(edited(text, changes)), written.evidence)


def _width(contact: str, cavities: set[tuple[str, str]]) -> int:
    """2 for a pair, 1 for a single contact."""
    owner, _, rest = contact.partition(".")
    last = rest.split(".")[-1]
    if "/" in last:
        return 2
    if last[-1] in "+-" or (owner, last.lower()) in cavities:
        return 1
    return 2 if _PAIR.fullmatch(last) else 1


def _declared(text: str) -> str:
    """The new plugs under `inline:`, without moving a mark from its line."""
    words = [f"{name}: under the carpet" for name in MORE]
    heads = [each for each in scalars(text) if each.is_key and each.path == ("inline",)]
    if not heads:
        return text.rstrip("\n") + "\ninline:\n" + "".join(f"  {word}\n" for word in words)
    head = heads[0]
    node = next(value for key, value in composed(text).value if key.value == "inline")
    if node.flow_style:
        inside = text[node.start_mark.index + 1 :]
        comma = ", " if node.value else ""
        return text[: node.start_mark.index + 1] + ", ".join(words) + comma + inside
    line_end = text.index("\n", head.end)
    pad = " " * node.value[0][0].start_mark.column
    return text[: line_end + 1] + "".join(f"{pad}{word}\n" for word in words) + text[line_end + 1 :]


TRANSFORMATIONS = {
    "renamed": renamed,
    "reordered": reordered,
    "recoloured": recoloured,
    "lengthened": lengthened,
    "all four": lambda written: reordered(recoloured(lengthened(renamed(written)))),
}
