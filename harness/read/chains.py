"""Chains: the car's own wiring as found, and what we lay. Steps become segments between contacts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from harness.model.colour import Colour
from harness.model.contact import Contact
from harness.model.function import UNKNOWN
from harness.model.job import Segment
from harness.read.names import Group, Names
from harness.read.nodes import Node, Rows, Text
from harness.read.rows import colour_of
from harness.read.troubles import Troubles
from harness.units import NUMBER, SIZE_PATTERN, WireSize, quantity, wire_size

# A named tuple made from a tuple: a third of the time, and there is one for every contact and line of a big job.
_new = tuple.__new__
_WIRE = re.compile(rf"({NUMBER} (?:in|ft|mm|cm|m)) ({SIZE_PATTERN})(?: (copper|CCA))?(?: via (.+?) (grommet|bare))?")
_VIA = r"(?: via (.+?) (grommet|bare))?"
_RCA = re.compile(rf"({NUMBER} (?:in|ft|mm|cm|m)) rca{_VIA}")
_FIBRE = re.compile(rf"({NUMBER} (?:in|ft|mm|cm|m)) fibre(?: bend ({NUMBER} (?:in|ft|mm|cm|m)))?{_VIA}")
_FUSE = re.compile(rf"fuse (unknown|{NUMBER} A)")
_INLINE = re.compile(r"([A-Za-z0-9_-]+)\.([A-Za-z0-9]+(?:/[A-Za-z0-9]+)?)((?: [A-Za-z/-]+)*)")


class _Hop(NamedTuple):
    """What lies between two contact steps."""

    kind: str
    length_m: float | None = None
    size: WireSize | None = None
    metal: str = ""
    via: str = ""
    grommet: str = ""
    fuse_a: float | None = None
    bend_m: float | None = None


_PLAIN = (_Hop("wire"),)  # nothing is written between two contacts
Lane = list[Group]  # the contacts of one step that one joint joins


class _Step(NamedTuple):
    """A contact step: a range makes several lanes side by side; `leaves` is where the chain goes on."""

    lanes: list[Lane]
    colours: tuple[Colour, ...]  # of the wire after an inline plug
    turned: bool
    leaves: list[Lane] | None
    sided: bool = False  # the file names the half itself


class Chains:
    """Reads `found` and `runs`; inline plugs named in chains gain the cavities that the chains use."""

    def __init__(self, names: Names, troubles: Troubles, inline: dict[str, str]) -> None:
        self.names = names
        self.troubles = troubles
        self.inline = inline  # lower case -> name as written
        self.inline_cavities: dict[str, dict[str, Text]] = {name: {} for name in inline.values()}
        self.segments: list[Segment] = []
        self.points = 0

    def read(self, node: Node | None, laid: bool, bad: set[int]) -> None:
        if not isinstance(node, Rows):
            return
        for item in node.items:
            if isinstance(item, Text) and id(item) not in bad:
                self._chain(item, laid)

    def declare_inline(self, node: Node | None) -> None:
        """First pass: which cavities of inline plugs the chains use, so that joints can name them too."""
        for item in node.items if isinstance(node, Rows) and self.inline else ():
            if not isinstance(item, Text):
                continue
            for step in item.value.split(">"):
                match = _INLINE.fullmatch(" ".join(step.split()))
                if match and match[1].lower() in self.inline:
                    name = self.inline[match[1].lower()]
                    for cavity in match[2].split("/"):
                        self._declare(name, cavity, item)

    def _declare(self, name: str, cavity: str, node: Text) -> None:
        if cavity in self.inline_cavities[name]:
            return
        self.inline_cavities[name][cavity] = node
        self.names.plug[name].add(cavity)
        for half in ("unit", "car"):
            contact = f"{name}.{half}.{cavity}"
            self.names.contacts[contact] = Contact(contact, name, "plug", half, UNKNOWN, None, None, node.place)

    def _chain(self, node: Text, laid: bool) -> None:
        steps = [" ".join(step.split()) for step in node.value.split(">")]
        before: list[Lane] | None = None
        hops: list[_Hop] = []
        colours: tuple[Colour, ...] = ()
        ends = f"{steps[0]}>{steps[-1]}".replace(" ", "+")
        for at, step in enumerate(steps):
            hop = self._hop(step)
            if hop is not None:
                if at in (0, len(steps) - 1):
                    self._wrong(node, step, "A chain begins and ends with a contact.")
                    return
                hops.append(hop)
                continue
            here = self._contacts(node, step, laid)
            if here is None:
                return
            if not laid and 0 < at < len(steps) - 1:
                here = self._passing(here)
            if before is None:
                for lane in here.lanes:
                    for extra in lane[1:]:
                        self._line(lane[0], extra, _PLAIN, (), False, laid, node, ends)
            elif not self._connect(node, before, here, hops, colours, laid, ends):
                return
            before, hops, colours = here.leaves or here.lanes, [], here.colours

    def _passing(self, here: _Step) -> _Step:
        """A plug named without a side in the middle of the car's wiring: in at its unit side, out at its car side."""
        if here.leaves is not None or here.sided:
            return here
        groups = [group for lane in here.lanes for group in lane]
        plain = all(".car." in name and self.names.contacts[name].kind == "plug" for g in groups for name in g.contacts)
        if not plain:
            return here
        near = [
            [Group(tuple(name.replace(".car.", ".unit.", 1) for name in group.contacts)) for group in lane]
            for lane in here.lanes
        ]
        return here._replace(lanes=near, leaves=here.lanes)

    def _hop(self, step: str) -> _Hop | None:
        if not step[:1].isdigit() and not step.startswith("fuse"):
            return None
        wire = _WIRE.fullmatch(step)
        if wire:
            length, size = wire[1], wire[3]
            metal = next((word for word in ("copper", "CCA") if f" {word}" in step), "")
            via = re.search(r" via (.+?) (grommet|bare)$", step)
            return _Hop(
                "wire", quantity(length, "length"), wire_size(size), metal, via[1] if via else "", via[2] if via else ""
            )
        rca = _RCA.fullmatch(step)
        if rca:
            return _Hop("rca", quantity(rca[1], "length"), via=rca[3] or "", grommet=rca[4] or "")
        fibre = _FIBRE.fullmatch(step)
        if fibre:
            bend_m = quantity(fibre[3], "length") if fibre[3] else None
            return _Hop(
                "fibre", quantity(fibre[1], "length"), via=fibre[5] or "", grommet=fibre[6] or "", bend_m=bend_m
            )
        fuse = _FUSE.fullmatch(step)
        if fuse:
            return _Hop("fuse", fuse_a=None if fuse[1] == "unknown" else quantity(fuse[1], "current"))
        return None

    def _contacts(self, node: Text, step: str, laid: bool) -> _Step | None:
        turned = step.endswith(" reversed")
        step = step.removesuffix(" reversed")
        match = _INLINE.fullmatch(step) if self.inline else None
        if match and match[1].lower() in self.inline:
            return self._inline_step(node, step, match, turned)
        half = "" if laid else "car"
        sided = ".car." in (lower := step.lower()) or ".unit." in lower
        if " " not in step and ".." not in step and step:  # most steps are one contact or one pair
            only = self.names.groups(node, half, step)
            return _Step([only], (), turned, None, sided) if only else None
        words = [self.names.groups(node, half, word) for word in step.split()]
        if not words:
            self._wrong(node, step, "An empty step.")
        if not words or not all(words):
            return None
        if any(len(groups) != len(words[0]) for groups in words):
            self._wrong(node, step, "The ranges of one step have different lengths.")
            return None
        if len({len(group.contacts) for groups in words for group in groups}) > 1:
            self._wrong(node, step, "One joint can't hold a pair and a single contact.")
            return None
        return _Step([[groups[lane] for groups in words] for lane in range(len(words[0]))], (), turned, None, sided)

    def _inline_step(self, node: Text, step: str, match: re.Match[str], turned: bool) -> _Step | None:
        name = self.inline[match[1].lower()]
        colours = []
        for word in match[3].split():
            try:
                colours.append(colour_of(word, ()))
            except ValueError as wrong:
                self._wrong(node, word, f"{wrong}.")
                return None
        cavities = match[2].split("/")
        if len(colours) not in (0, len(cavities)):
            self._wrong(node, step, f"{len(cavities)} cavities and {len(colours)} colours.")
            return None
        near, far = (Group(tuple(f"{name}.{half}.{cavity}" for cavity in cavities)) for half in ("unit", "car"))
        return _Step([[near]], tuple(colours), turned, [[far]])

    def _connect(
        self, node: Text, before: list[Lane], here: _Step, hops: list[_Hop], colours: tuple[Colour, ...],
        laid: bool, ends: str,
    ) -> bool:  # fmt: skip
        """Segments lane by lane: from the first contact of the step before to every contact of this one."""
        between = hops or _PLAIN
        if len(before) != len(here.lanes):
            self._wrong(
                node, node.value, f"One step is {len(before)} and the next {len(here.lanes)} contacts or pairs."
            )
            return False
        for lane, other in zip(before, here.lanes, strict=True):
            width = len(lane[0].contacts)
            alone = len(lane) == 1 and len(other) == 1 and len(other[0].contacts) == width  # nearly every step
            if not alone and any(len(group.contacts) != width for group in lane + other):
                self._wrong(node, node.value, "One step is a pair and the next a single contact.")
                return False
            self._line(lane[0], other[0], between, colours, here.turned, laid, node, ends)
            for group in other[1:]:
                self._line(other[0], group, _PLAIN, (), False, laid, node, ends)
        return True

    def _line(
        self, start: Group, end: Group, hops: Sequence[_Hop], colours: tuple[Colour, ...], turned: bool, laid: bool,
        node: Text, ends: str,
    ) -> None:  # fmt: skip
        target = end.contacts[::-1] if turned else end.contacts
        for at, (a, b) in enumerate(zip(start.contacts, target, strict=True)):
            here = a
            for k, hop in enumerate(hops):
                there = b if k == len(hops) - 1 else self._point(here, ends, node)
                colour = colours[at] if at < len(colours) else None
                self.segments.append(
                    _new(
                        Segment,
                        (
                            here, there, hop.kind, laid, hop.length_m, hop.size, hop.metal, hop.via, hop.grommet,
                            hop.fuse_a, colour, turned, node.place, hop.bend_m,
                        ),
                    )
                )  # fmt: skip
                here = there

    def _point(self, near: str, ends: str, node: Text) -> str:
        """A contact of its own between two pieces of a run: the two ends of a fuse, say."""
        self.points += 1
        name = f"run.{ends}~{self.points}"
        function = self.names.contacts[near].function
        self.names.contacts[name] = Contact(
            name, "run", "run", "", function._replace(kind="terminal"), None, None, node.place
        )
        return name

    def _wrong(self, node: Text, what: str, why: str) -> None:
        self.troubles.add(
            "R09", node.place, what, f"{why} (“{what}”)",
            "Write contact > wire > contact, for instance `block.1 > fuse 40 A > 3 ft 8 AWG > amp.B+`.",
        )  # fmt: skip
