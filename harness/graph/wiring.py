"""The job laid out: both states, signals, fates, roles. What checks, sheets and mends ask."""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterator

from harness.graph.build import conductors
from harness.graph.conductor import FOUND, FUSE, JOINT, PLANNED, RUN, Conductor
from harness.graph.conductor import Hop as Step
from harness.graph.fates import Fates
from harness.graph.once import once
from harness.graph.pins import PlugBoard
from harness.graph.signal import Signals
from harness.graph.state import State
from harness.model.contact import Contact
from harness.model.job import Job, Joint, Mate
from harness.model.parts import Port

# What a contact is, electrically, for the checks; the first that fits.
OUTPUT, INPUT, SPEAKER, GROUND = "output", "input", "speaker", "ground"


class Wiring:
    """One job as graphs. Built once a run; nothing in it changes afterwards."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.board = PlugBoard(job)
        self.conductors: list[Conductor] = conductors(job, self.board)
        self.found = State(job.contacts, self.conductors, FOUND)
        self.planned = State(job.contacts, self.conductors, PLANNED)
        self.answers: dict[object, object] = {}  # see `kept`
        self.by_steps = False  # whether the states between the steps are asked for
        self._roles_of_nets: dict[int, frozenset[str]] = {}

    @once
    def gone(self) -> frozenset[str]:
        """Units that come out of the car."""
        return frozenset(self.job.removed)

    @once
    def signals(self) -> Signals:
        """Where each signal goes as planned."""
        return Signals(self.job, self.planned, self.gone)

    @once
    def found_signals(self) -> Signals:
        """Where each signal went as found."""
        return Signals(self.job, self.found, frozenset())

    @once
    def fates(self) -> Fates:
        return Fates(self.job, self.planned)

    @once
    def ports(self) -> dict[str, Port]:
        """The port of a terminal, for units that stay in the car."""
        return {
            contact: port
            for unit in self.job.parts.units.values()
            if unit.name not in self.gone
            for port in unit.ports.values()
            for contact in (port.plus, port.minus)
        }

    @once
    def laid(self) -> frozenset[str]:
        """Contacts that a joint, a run or a fuse ends at, ours or the car's."""
        ours = (JOINT, RUN, FUSE)
        return frozenset(end for a, b, kind, _, _, _ in self.conductors if kind in ours for end in (a, b))

    @once
    def _names(self) -> list[str]:
        return list(self.job.contacts)

    @once
    def _of_kind(self) -> dict[str, array[int]]:
        made: dict[str, array[int]] = {}
        # taken apart where it is met: a named field of a tuple is asked for four times as slowly
        for at, (_, _, _, _, function, _, _, _) in enumerate(self.job.contacts.values()):
            kind = function.kind
            places = made.get(kind)
            if places is None:
                places = made[kind] = array("L")  # a list of pairs would be a twentieth of all memory
            places.append(at)
        return made

    @once
    def facts(self) -> frozenset[str]:
        """What there is to look at, so that a check without a subject need not be asked: kinds of functions that
        occur, what is written at all (`runs`, `features`, `tones` …), and `steps` where their states are asked for.
        """
        job, parts = self.job, self.job.parts
        units, speakers, plugs, car = parts.units.values(), parts.speakers.values(), parts.plugs.values(), job.car
        carried = frozenset(each for plug in plugs for each in plug.carries)
        routes = (route for unit in units for route in unit.routes)
        kinds = {unit.kind for unit in units}
        said = {
            "records": job.records, **{f"record {each.verb}": True for each in job.records},
            "runs": job.has_runs, "features": job.features, "steps": self.by_steps, "tones": job.tones or job.off_chart,
            "grounds": parts.grounds, "found chains": any(not each.laid for each in job.segments),
            "takes": any(joint.takes for joint in job.joints),
            "fitted": car and car.fitted, "year": car and car.year, "drive": car and car.drive,
            "no steering": not car or car.steering not in ("left", "right"),
            "restraint": "srs" in carried, "optical": "optical" in carried,
            "orange": "hv" in carried or (car and car.orange),
            "relay": "relay" in kinds, "factory amplifier": "factory amplifier" in kinds,
            "settings": any(unit.switches for unit in units), "bridges": any(unit.bridges for unit in units),
            "stock": any(each.store.stock == 0 for each in parts.looms.values()),
            "sums": any(len(route.inputs) > 1 for route in routes),
            "inverted": any(each.inverted for each in speakers), "coils": any(each.coils > 1 for each in speakers),
            "new speakers": any(each.successor for each in speakers),
        }  # fmt: skip
        return frozenset((*self._of_kind, *(word for word, there in said.items() if there)))

    def contacts_for(self, *kinds: str) -> list[str]:
        """The contacts whose function is of one of these kinds, in the order of the job: a check's suspects."""
        names = self._names
        return [names[at] for at in sorted(at for kind in kinds for at in self._of_kind.get(kind, ()))]

    @once
    def of_unit(self) -> dict[str, list[str]]:
        """The terminals of each unit, in the order of the job."""
        made: dict[str, list[str]] = {}
        for name, owner, kind, _, _, _, _, _ in self.job.contacts.values():
            if kind == "unit":
                made.setdefault(owner, []).append(name)
        return made

    @once
    def joints(self) -> dict[str, Joint]:
        """Joints by their name."""
        return {joint.name: joint for joint in self.job.joints}

    @once
    def turned(self) -> frozenset[frozenset[str]]:
        """The two ends of each wire, the car's or ours, that the job says is reversed."""
        return frozenset(frozenset((each.a, each.b)) for each in self.job.segments if each.turned)

    @once
    def mates_of(self) -> dict[str, list[Mate]]:
        """What is plugged in at each plug that is opened, in the order of the job."""
        made: dict[str, list[Mate]] = {}
        for mate in self.job.mates:
            made.setdefault(mate.plug, []).append(mate)
        return made

    @once
    def opened(self) -> dict[str, str]:
        """Plug -> the loom that opens it."""
        return {mate.plug: mate.loom for mate in self.job.mates}

    @once
    def contact(self) -> Callable[[str], Contact]:
        """A contact by its name, asked as `contact(name)`."""
        return self.job.contacts.__getitem__

    def words(self, name: str) -> str:
        """A contact as a message names it."""
        return self.job.contacts[name].words

    def roles_of_net(self, number: int) -> frozenset[str]:
        """The roles that occur in a net as planned: a cheap question before a search for one of them."""
        roles = self._roles_of_nets.get(number)
        if roles is None:
            roles = self._roles_of_nets[number] = frozenset(map(self.role, self.planned.nets[number]))
        return roles

    def role(self, name: str) -> str:
        """output, input, speaker, ground, or the kind of the contact's function (battery, data, mic …)."""
        port = self.ports.get(name)
        if port is not None:
            return OUTPUT if port.way == "out" else INPUT
        contact = self.job.contacts[name]
        kind = contact.kind
        if kind == "speaker":
            return SPEAKER
        if kind == "ground" or kind == "chassis":
            return GROUND
        return contact.function.kind

    def bridged_output(self, name: str) -> Port | None:
        """The port of a bridged (btl) output's terminal, or None."""
        port = self.ports.get(name)
        return port if port and port.way == "out" and port.signal.form == "btl" else None

    def way_in_words(self, start: str, hops: tuple[Step, ...]) -> tuple[str, ...]:
        """A path as contacts' names in order, for the report."""
        return (start, *(hop.contact for hop in hops))

    def blame(self, hops: tuple[Step, ...]) -> Conductor | None:
        """The conductor of a path that a person made and could unmake: a joint before a run before a plug-in."""
        order = {"joint": 0, "run": 1, "fuse": 1, "plugged": 2, "lead": 3, "wire": 4, "mated": 5}
        made = [hop.conductor for hop in hops if hop.conductor.kind in order]
        return min(made, key=lambda conductor: order[conductor.kind], default=None)

    def touched(self) -> Iterator[tuple[str, str, Joint | None]]:
        """Every contact that the plan does something to: (contact, what is done, the joint)."""
        job = self.job
        for joint in job.joints:
            for link in joint.links:
                yield link.a, joint.method, joint
                yield link.b, joint.method, joint
        for verb, table in (("cut", job.cut), ("capped", job.capped), ("depinned", job.depinned)):
            for name in table:
                yield name, verb, None
        for segment in job.segments:
            if segment.laid:
                yield segment.a, "run", None
                yield segment.b, "run", None
