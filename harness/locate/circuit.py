"""The plan as plain data, as far as a fault is looked for: the pieces that may fail, and the ways that they lie on."""

from __future__ import annotations

from typing import NamedTuple

# kinds of piece
JOINT, PLUG, MATED, LEAD, WIRE, RUN, FUSE, GROUND = "joint", "plug", "mated", "lead", "wire", "run", "fuse", "ground"
SOURCE, CHANNEL, INPUT, UNIT, SPEAKER, GIVER, RELAY, LOOP = (
    "source", "channel", "input", "unit", "speaker", "turn-on", "relay", "loop"
)  # fmt: skip
PIN = "~pin"  # behind the name of a loom's lead: its end in the plug, where its name alone is the free end

Ends = tuple[str, str]  # a conductor by its two contacts, as the plan has them


class Piece(NamedTuple):
    """One thing that may be wrong, as a person would name, reach and replace it.

    `wires` are its conductors (empty: no wire), `whole` that they are more than one pair's, a plug of many ways say.
    `alike` names what it may be mixed up with: pieces with the same word hold other channels in the same place. `words`
    are empty for wires: `naming` makes them from `owner` and `along`, the conductors in the order of the way.
    """

    kind: str
    name: str
    wires: frozenset[Ends]
    words: str
    where: str
    ours: bool
    method: str = ""
    whole: bool = False
    alike: str = ""
    owner: str = ""
    along: tuple[Ends, ...] = ()


class Step(NamedTuple):
    """One step of a way: the pieces gone through, and the two contacts reached (`minus` empty for a single wire)."""

    pieces: tuple[int, ...]
    plus: str
    minus: str = ""


class Leg(NamedTuple):
    """One output to one input or speaker by wire, from the output's own contacts on.

    `slack` are pieces on it whose opening the wiring gets round, `loop` further pieces that close its circuit
    (speakers in line with this one). `grounded` where one end has its − on ground: such a pair can't be turned round
    without silencing it.
    """

    driver: str
    receiver: str
    speaker: str  # empty for an input
    start: Ends
    steps: tuple[Step, ...]
    slack: frozenset[int] = frozenset()
    loop: tuple[int, ...] = ()
    grounded: bool = False


class Output(NamedTuple):
    """One output of a unit: the pieces that it is, and the inputs that are summed into it; none of a source."""

    name: str
    unit: str
    pieces: tuple[int, ...]
    inputs: tuple[str, ...]
    channel: str  # FL, out1
    power: bool  # made to drive a speaker
    form: str  # btl, grounded, …


class Line(NamedTuple):
    """What a unit needs by a single wire: feed, ground or turn-on, from where it comes (the body, for ground).

    `needed` are the pieces without which it fails; `hum` those behind which a ground goes on by a signal's shield
    only. `giver` is the unit whose terminal the 12 V comes from, `start` its contact.
    """

    kind: str  # feed | ground | turn-on
    unit: str
    start: str
    steps: tuple[Step, ...]
    needed: frozenset[int]
    hum: frozenset[int] = frozenset()
    giver: str = ""


class Loop(NamedTuple):
    """Two units on two ground points with a grounded signal between: the piece that this is, the one that gives the
    signal with its point, the one that takes it with its ground terminal.
    """

    piece: int
    giver: str
    point: str
    taker: str
    terminal: str


class Circuit(NamedTuple):
    """Everything that is reasoned about. `units` gives the piece that each unit is, `speakers` likewise.

    `stages` says of each piece of a signal between which two things it lies, `grounded` are those on grounded legs.
    `inputs` are the pieces of inputs that feed more than one output. `beside` are the speakers, asked about or not,
    that the pieces can silence. `unwired` are the units whose supply or ground the job doesn't write. `loops`
    are there where noise is looked for.
    """

    pieces: tuple[Piece, ...]
    legs: tuple[Leg, ...]
    outputs: dict[str, Output]
    inputs: dict[str, int]
    lines: tuple[Line, ...]
    units: dict[str, int]
    speakers: dict[str, int]
    beside: tuple[str, ...]
    unwired: frozenset[str]
    stages: dict[int, str]
    grounded: frozenset[int]
    loops: tuple[Loop, ...] = ()

    def grounds(self, unit: str) -> frozenset[int]:
        """The pieces that a unit is grounded by."""
        return frozenset(
            number
            for line in self.lines
            if line.unit == unit and line.kind == "ground"
            for step in line.steps
            for number in step.pieces
        )

    def beyond(self, leg: int, at: int) -> list[Leg]:
        """The legs of the same output that a point of a leg lies on."""
        one = self.legs[leg]
        last = at - 1  # first what most likely differs
        return [
            each for each in self.legs
            if each.driver == one.driver
            and (each is one or (each.steps[last:at] == one.steps[last:at] and each.steps[:at] == one.steps[:at]))
        ]  # fmt: skip
