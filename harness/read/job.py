"""The job file as a whole: from checked nodes to the frozen job, every name resolved."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from harness.model.evidence import Record
from harness.model.function import UNKNOWN, Function, read_function
from harness.model.job import Car, Feature, Job, Limit, Step, kind_by_name
from harness.model.parts import GroundPoint, Loom, Parts, Plug, Row, Unit
from harness.place import Place
from harness.read.chains import Chains
from harness.read.conform import conform
from harness.read.contacts import Contacts
from harness.read.days import day_of
from harness.read.evidence import evidence_path, read_evidence
from harness.read.files import load
from harness.read.joining import read_couplings, read_joints, read_mates
from harness.read.joint_names import check_joint_names
from harness.read.looms import read_loom
from harness.read.merging import take_parts
from harness.read.names import Index, Names, nearest
from harness.read.nodes import Node, Table, Text, read_file, read_text
from harness.read.plugs import known, read_plug, text_of, texts_of
from harness.read.preset_name import preset_name
from harness.read.spec import JOB, LIMITS
from harness.read.troubles import Troubles
from harness.read.turned_here import as_turned, turned_here
from harness.read.unit_rows import listed, read_grounds_node, read_speakers, read_unit
from harness.units import quantity

DEFAULT_PRESET = "house"


def read_job(path: str | os.PathLike[str], troubles: Troubles) -> Job | None:
    """The job, or None where the file can't be read as one. Every fault met is in `troubles`."""
    file = os.fspath(path)
    return _read(read_file(file, troubles), file, troubles, {})


def read_job_text(
    text: str, file: str, troubles: Troubles, others: Mapping[str, str] = MappingProxyType({})
) -> Job | None:
    """As `read_job`, from a text that would stand in `file`: to try a change before it is made.

    `others` are texts that would stand in part files, by their path as in `Job.part_files`, or in the evidence file.
    """
    return _read(read_text(text, file, troubles), file, troubles, others)


def read_record(path: str, line: str, troubles: Troubles) -> Record | None:
    """What a line means as the only record beside a job; None (and told) where it can be none."""
    text = load(path, troubles)
    if text is None:
        return None
    job = read_job_text(text, path, troubles, {evidence_path(path): f"{line}\n"})
    return job.records[-1] if job is not None and job.records else None


def _read(root: Node | None, file: str, troubles: Troubles, others: Mapping[str, str]) -> Job | None:
    if root is None:
        return None
    bad = conform(root, JOB, troubles)
    if not isinstance(root, Table):
        return None
    root, part_files, shelf = take_parts(root, troubles, bad, others)
    job = _Assembly(root, file, troubles, bad).job(tuple(part_files), others.get(evidence_path(file)))
    del shelf  # kept until here: what was refused is told by the nodes' ids
    return job


class _Assembly:
    """One pass over the checked nodes, in an order in which every name is known before it is used."""

    def __init__(self, root: Table, file: str, troubles: Troubles, bad: set[int]) -> None:
        self.root, self.file, self.troubles, self.bad = root, file, troubles, bad
        self.names = Names(troubles)
        self.plugs: dict[str, Plug] = {}
        self.looms: dict[str, Loom] = {}
        self.units: dict[str, Unit] = {}

    def job(self, part_files: tuple[str, ...], records: str | None = None) -> Job:
        root, names = self.root, self.names
        car = self._car()
        self._read_named("units")
        self._read_named("looms")
        self._read_named("plugs")
        inline = self._inline()
        speakers = read_speakers(root.get("speakers"), self.troubles, self.bad)
        grounds = self._grounds()
        self._seats(car)
        contacts = Contacts(root, names, self.troubles, self.plugs, self.looms, self.units)
        contacts.of_plugs()
        contacts.of_looms()
        contacts.of_units()
        contacts.of_speakers(speakers)
        contacts.fixed()
        joints_node = root.get("joints")
        chains = Chains(names, self.troubles, inline)
        chains.declare_inline(root.get("found"))
        chains.declare_inline(root.get("runs"))
        mates = read_mates(joints_node, names, self.looms, self.troubles)
        for mate in mates:
            names.opened.setdefault(mate.plug, mate.loom)
        cut = self._fated("cut", half="car")
        names.cut = {f"{names.contacts[c].owner}.{names.contacts[c].last}" for c in cut}
        chains.read(root.get("found"), laid=False, bad=self.bad)
        chains.read(root.get("runs"), laid=True, bad=self.bad)
        self._inline_plugs(chains, inline)
        joints = read_joints(joints_node, names, self.troubles, self.bad)
        parts = Parts(self.plugs, self.looms, self.units, speakers, grounds)
        check_joint_names(joints_node, joints, parts, self.troubles)
        moved = self._moved()
        stands = {f"{start.rsplit('.', 1)[0]}.{cavity}".lower(): start for start, (cavity, _) in moved.items()}
        evidence = read_evidence(self.file, names, self.plugs, stands, car, self.troubles, records, joints)
        turned = turned_here(evidence.records, names.contacts) if evidence.records else {}
        return Job(
            file=self.file,
            title=text_of(root, "title"),
            revision=text_of(root, "revision"),
            preset=preset_name(self.root.get("preset"), self.troubles) or DEFAULT_PRESET,
            place=Place(self.file, root.line, root.column),
            car=car,
            limits=self._limits(),
            parts=parts,
            contacts=names.contacts,
            mates=tuple(mates),
            joints=tuple(joints),
            segments=as_turned(chains.segments, turned),
            features=tuple(self._features()),
            removed=self._removed(),
            cut=cut,
            capped=self._fated("capped", half="car"),
            depinned=self._fated("depinned", half="car"),
            moved=moved,
            steps=tuple(self._steps()),
            tones=evidence.tones,
            has_runs=root.get("runs") is not None,
            read_ohms=evidence.ohms,
            records=evidence.records,
            struck=evidence.struck,
            turned_here=turned,
            off_chart=evidence.off_chart,
            part_files=part_files,
            couplings=tuple(read_couplings(joints_node, names, self.looms, self.troubles)),
            date=day_of(root, "date", self.troubles, self.bad),
            shop=text_of(root, "shop", self.bad),
        )

    # -- the named parts -------------------------------------------------------------------------------

    def _read_named(self, heading: str) -> None:
        node = self.root.get(heading)
        if not isinstance(node, Table):
            return
        kind = heading[:-1]
        for key, value in node.items:
            name = key.value
            if id(key) in self.bad or not self.names.claim(kind, key, name):
                self.names.shaky.add(name.lower())
                continue
            if id(value) in self.bad or not isinstance(value, Table):
                self.names.shaky.add(name.lower())
                value = Table(key.file, key.line, key.column)
            before = len(self.troubles)
            if kind == "plug":
                self.plugs[name] = read_plug(name, key, value, self.troubles, self.bad)
                self.names.plug[name] = self.names.plug.get(name) or Index(f"{name}.car.")
            elif kind == "loom":
                self.looms[name] = read_loom(name, key, value, self.troubles, self.bad)
            else:
                self.units[name] = read_unit(name, key, value, self.troubles, self.bad)
            if len(self.troubles) > before or _holds_bad(value, self.bad):
                self.names.shaky.add(name.lower())

    def _car(self) -> Car | None:
        node = self.root.get("car")
        if not isinstance(node, Table):
            return None
        lacks = []
        for each in listed(node.get("lacks")):
            function = read_function(each.value)
            lacks.append(function.base if function else each.value)
        return Car(
            text_of(node, "name"), text_of(node, "year"), known(text_of(node, "steering").lower()),
            text_of(node, "audio"),
            tuple(lacks), node.place, text_of(node, "drive", self.bad), *_supply(text_of(node, "supply", self.bad)),
            self._texts(node, "fitted"), self._texts(node, "orange"), known(text_of(node, "ownership", self.bad)),
        )  # fmt: skip

    def _texts(self, table: Table, key: str) -> tuple[str, ...]:
        return tuple(each.value for each in texts_of(table.get(key)) if id(each) not in self.bad)

    def _inline(self) -> dict[str, str]:
        """Inline plugs by lower-case name; each is a plug whose cavities the chains tell."""
        node = self.root.get("inline")
        made = {}
        for key, _ in node.items if isinstance(node, Table) else ():
            if self.names.claim("plug", key):
                made[key.value.lower()] = key.value
                self.names.plug[key.value] = Index(f"{key.value}.car.")
        return made

    def _inline_plugs(self, chains: Chains, inline: dict[str, str]) -> None:
        node = self.root.get("inline")
        for key, value in node.items if isinstance(node, Table) else ():
            name = key.value
            if inline.get(name.lower()) != name:
                continue
            where = (
                value.value if isinstance(value, Text) else text_of(value, "place") if isinstance(value, Table) else ""
            )
            rows = tuple(
                Row(cavity, UNKNOWN, None, None, at.place) for cavity, at in chains.inline_cavities[name].items()
            )
            self.plugs[name] = Plug(
                name, key.place, where, "", "", "", None, None, None, (), {}, rows, inline=True
            )  # fmt: skip

    def _grounds(self) -> dict[str, GroundPoint]:
        made = {}
        for key, where, metal, fixed in read_grounds_node(self.root.get("grounds")):
            made[key.value] = GroundPoint(key.value, where, metal, key.place, fixed)
        return made

    def _seats(self, car: Car | None) -> None:
        """`driver-front` becomes a channel where the car says on which side the wheel is."""
        if car is None or car.steering not in ("left", "right"):
            return
        for name, plug in self.plugs.items():
            if any(row.function.seat for row in plug.rows):
                rows = tuple(row._replace(function=_seated(row.function, car.steering)) for row in plug.rows)
                self.plugs[name] = replace(plug, rows=rows)

    # -- what is done ----------------------------------------------------------------------------------

    def _fated(self, heading: str, half: str) -> dict[str, Place]:
        made: dict[str, Place] = {}
        for each in listed(self.root.get(heading)):
            if id(each) in self.bad:
                continue
            for group in self.names.groups(each, half=half):
                for contact in group.contacts:
                    made[contact] = each.place
        return made

    def _moved(self) -> dict[str, tuple[str, Place]]:
        node = self.root.get("moved")
        made: dict[str, tuple[str, Place]] = {}
        for key, value in node.items if isinstance(node, Table) else ():
            if not isinstance(value, Text):
                continue
            groups = self.names.groups(key)
            if len(groups) != 1 or len(groups[0].contacts) != 1:
                continue
            start = groups[0].contacts[0]
            contact = self.names.contacts[start]
            target = value.value.strip()
            stem = start.rsplit(".", 1)[0] + "."
            if target.lower().startswith(stem.lower()):
                target = target[len(stem) :]
            if contact.kind != "loom" or not contact.half or "." in target or "/" in target:
                self.troubles.add(
                    "R25", key.place, key.value, "Only a lead's terminal can be moved, to a cavity of its own end.",
                    "Write T1.car.5: T1.car.6.",
                )  # fmt: skip
                continue
            made[start] = (target, key.place)
        return made

    def _removed(self) -> dict[str, Place]:
        made = {}
        for each in listed(self.root.get("removed")):
            kind, name = self.names.owners.get(each.value.lower(), ("", ""))
            if kind == "unit":
                made[name] = each.place
            elif each.value.lower() not in self.names.shaky:
                near = nearest(each.value, self.units)
                self.troubles.add(
                    "R20", each.place, each.value,
                    f"There is no unit “{each.value}”." + (f" Is {near} meant?" if near else ""),
                    "Write the name of a unit that comes out of the car.",
                )  # fmt: skip
        return made

    def _features(self) -> list[Feature]:
        node = self.root.get("features")
        made = []
        for key, value in node.items if isinstance(node, Table) else ():
            kind = state = ""
            if isinstance(value, Text):
                start, _, rest = value.value.partition(">")
                unit_word, targets = start.strip(), [(value, word) for word in rest.split()]
            elif isinstance(value, Table):
                unit_word, kind = text_of(value, "from"), text_of(value, "kind")
                state = text_of(value, "key").lower()
                targets = [(each, each.value) for each in listed(value.get("to"))]
            else:
                continue
            found, name = self.names.owners.get(unit_word.lower(), ("", ""))
            if found != "unit" and not targets:
                name = unit_word  # something of the car that makes its own sound: nothing to follow, but to be tried
            elif found != "unit":
                if unit_word.lower() not in self.names.shaky:
                    near = nearest(unit_word, self.units)
                    self.troubles.add(
                        "R20", value.place, unit_word,
                        f"There is no unit “{unit_word}”." + (f" Is {near} meant?" if near else ""),
                        "A feature comes from a unit: write `belt tone: cluster > spk.FL`.",
                    )  # fmt: skip
                continue
            contacts = [c for at, word in targets for g in self.names.groups(at, "car", word) for c in g.contacts]
            made.append(Feature(key.value, name, tuple(contacts), kind or kind_by_name(key.value), key.place, state))
        return made

    def _steps(self) -> list[Step]:
        node = self.root.get("steps")
        made = []
        for item in getattr(node, "items", ()) if not isinstance(node, Table) else ():
            if isinstance(item, Table):
                for key, value in item.items:
                    if isinstance(value, Text):
                        made.append(Step(key.value.lower(), value.value, key.place))
        return made

    def _limits(self) -> dict[str, Limit]:
        node = self.root.get("limits")
        made: dict[str, Limit] = {}
        for key, value in node.items if isinstance(node, Table) else ():
            if isinstance(value, Text) and id(value) not in self.bad:
                word = LIMITS.get(key.value)
                if word is not None and word.fits(value.value):  # else told where the shape is checked
                    number = quantity(value.value, word.kind.removeprefix("quantity "))
                    made[key.value] = Limit(number, value.value, value.place)
        return made


def _supply(text: str) -> tuple[str, float | None]:
    """`alternator 120 A` as its two parts."""
    kind, _, current = text.partition(" ")
    return kind, quantity(current, "current") if current else None


def _seated(function: Function, steering: str) -> Function:
    if not function.seat:
        return function
    seat, _, row = function.seat.partition("-")
    left = (seat == "driver") == (steering == "left")
    channel = ("F" if row == "front" else "R") + ("L" if left else "R")
    return Function(channel + function.sign, channel, function.sign, "audio", channel, "", function.seat)


def _holds_bad(node: Node, bad: set[int]) -> bool:
    if not bad:
        return False
    if id(node) in bad:
        return True
    if isinstance(node, Table):
        return any(id(key) in bad or _holds_bad(value, bad) for key, value in node.items)
    if isinstance(node, Text):
        return False
    return any(_holds_bad(item, bad) for item in node.items)
