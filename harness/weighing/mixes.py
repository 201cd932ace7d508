"""One way of doing all that must be done at one plug, as data: what is plugged in, joined, cut, moved and capped."""

from __future__ import annotations

from typing import NamedTuple

from harness.model.shop import InDrawer
from harness.weighing.begun import is_run_end
from harness.weighing.hand import Cost, JointKind

NONE, UNTOUCHED = "full solder-in", "left as it was found"
PLUG_IN, LEADS, ONE_END = "full plug-in", "plug-in with flying leads", "one end removed"
REPINNED, SERIES = "re-pinned", "looms in series"


class Made(NamedTuple):
    """One joint by hand: the contacts that meet, the factory wire first where there is one.

    Its `method` is empty as long as none is settled for its kind; time and money are then no more than it will cost.
    """

    members: tuple[str, ...]
    factory: bool
    what: str
    method: str
    at: str
    time_ms: int
    pieces: tuple[str, ...]
    money: int
    cut: bool

    @property
    def kind(self) -> JointKind:
        """The joints that are made by the same method."""
        return JointKind(self.factory, self.what, self.at, self.cut)

    @property
    def at_run(self) -> bool:
        """Whether a run begins here at one contact, and nothing else meets it: the file can name no method for that."""
        return sum(not is_run_end(each) for each in self.members) < 2


class Used(NamedTuple):
    """A loom as it is used: which of its ends are plugged in, and which was cut off (or empty).

    Contacts of it begin with `mark`, which is put in the place of the name that the job will give it.
    """

    mark: str
    item: InDrawer
    ends: tuple[str, ...]
    cut_off: str


class Over(NamedTuple):
    """A lead that is left over, and what becomes of it: capped, depinned."""

    contact: str
    fate: str


class PlugMix(NamedTuple):
    """All that is done at one plug. `moved` are terminals and the cavity that each goes to."""

    plug: str
    kinds: tuple[str, ...]
    looms: tuple[Used, ...]  # from the unit to the car
    joints: tuple[Made, ...]
    cut: tuple[str, ...]
    capped: tuple[str, ...]
    pulled: tuple[str, ...]
    moved: tuple[tuple[str, str], ...]
    cost: Cost
    days: int  # to wait for what isn't in stock

    @property
    def unpriced(self) -> frozenset[str]:
        """The looms whose price nobody wrote: `cost` is without them."""
        return frozenset(used.item.name for used in self.looms if used.item.store.price is None)

    @property
    def key(self) -> tuple[object, ...]:
        """What orders mixes that are alike in everything else, and tells them apart."""
        return (
            len(self.looms), tuple(used.item.name for used in self.looms), tuple(used.ends for used in self.looms),
            self.joints, self.cut, self.capped, self.pulled, self.moved,
        )  # fmt: skip

    @property
    def use(self) -> tuple[object, ...]:
        """Which looms by which ends, however they are joined and re-pinned; all rows of looms are one."""
        return use_of(self.key)


def use_of(key: tuple[object, ...]) -> tuple[object, ...]:
    """`use` of the mix that has this key."""
    return key[1:3] if key[0] in (0, 1) else (SERIES,)


def without_methods(key: tuple[object, ...]) -> tuple[object, ...]:
    """The key of a mix, the same whatever its joints are made by."""
    joints = key[3]
    assert isinstance(joints, tuple)
    plain = tuple(each._replace(method="", time_ms=0, pieces=(), money=0) for each in joints)
    return (*key[:3], plain, *key[4:])
