"""A second reading of an order of work: plain dictionaries and a union-find, nothing of the package under test.

It says for each step which of the risks of the catalogue begin there. What it holds of the trade, common practice
without a source: work with the battery on is work on what the battery feeds, with the key on also on what the radio
gives and on outputs; a bare end is live by the same rule; a bus is whole or open; an amplifier with B+ and no ground
takes the signal's. The 90 s at a restraint plug: workshop manual, maker withheld.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from tests.work.random_orders import CHANNELS, Act, RandomOrder

WAIT_S = 90.0
PIECES = {
    "post": ("battery.+", "holder in"), "fuse": ("holder in", "holder out"), "far": ("holder out", "amp.B+"),
    "ground": ("amp.GND", "body"),
}  # fmt: skip


class Meeting:
    """Union-find over names."""

    def __init__(self) -> None:
        self.above: dict[str, str] = {}

    def top(self, name: str) -> str:
        self.above.setdefault(name, name)
        while self.above[name] != name:
            name = self.above[name]
        return name

    def join(self, a: str, b: str) -> None:
        self.above[self.top(a)] = self.top(b)

    def meet(self, a: str, b: str) -> bool:
        return self.top(a) == self.top(b)


@dataclass
class Car:
    """The car at one time."""

    battery: bool = True
    key: bool = False
    calm_s: float = 0.0
    apart: set[str] = field(default_factory=set)
    mated: set[str] = field(default_factory=set)  # ends of T1 in dash
    joints: set[str] = field(default_factory=set)
    cut: set[str] = field(default_factory=set)  # channels
    pieces: set[str] = field(default_factory=set)
    capped: bool = False
    hangs: bool = False
    insulated: bool = False  # every lead of the loom, for a trial

    def copy(self) -> Car:
        sets = {name: set(getattr(self, name)) for name in ("apart", "mated", "joints", "cut", "pieces")}
        return replace(self, **sets)


class Oracle:
    """All risks of one order: `risks` are (number of the step, code)."""

    def __init__(self, order: RandomOrder) -> None:
        self.order = order
        self.risks: set[tuple[int, str]] = set()
        self.told: set[str] = set()
        self.hasty = False
        self.cavities = {cavity for pair in CHANNELS.values() for cavity in pair} | {"3", "4"}
        if order.bus:
            self.cavities |= {"7", "8"}
        here = Car()
        for number, act in enumerate(order.acts, 1):
            before, here = here, self.done(here, act)
            self.look_at_work(number, act, before, here)
            self.look_at_state(number, here)
            here = self.left(here, act)
            self.look_at_state(number, here)
        if self.unfinished(here):
            self.risks.add((len(order.acts), "J19"))

    # -- what a step does ------------------------------------------------------------------------------

    def done(self, before: Car, act: Act) -> Car:
        car, does = before.copy(), act.does
        car.battery = does.get("battery", car.battery)
        car.key = does.get("key", car.key)
        car.calm_s = 0.0 if car.battery else car.calm_s + does.get("waits", 0.0)
        if "apart" in does:
            car.apart.add(does["apart"])
            if does["apart"] == "dash":
                car.mated.clear()
        if "whole" in does:
            car.apart.discard(does["whole"])
        if "mates" in does:
            car.mated.update(does["mates"])
            car.apart.discard("dash")
        self.pull(car, does.get("pulls", ()))
        car.insulated = (car.insulated or does.get("insulates", False)) and "joints" not in does
        car.joints.update(does.get("joints", ()))
        car.pieces.update(does.get("pieces", ()))
        if "cut" in does:
            car.cut.add(does["cut"])
        car.capped = car.capped or does.get("capped", False)
        car.hangs = does.get("hangs", car.hangs)
        return car

    def pull(self, car: Car, ends: Iterable[str]) -> None:
        """Ends of the loom pulled out of the plug, which is apart when none is left in it."""
        if car.mated.intersection(ends):
            car.mated.difference_update(ends)
            if not car.mated:
                car.apart.add("dash")

    def left(self, before: Car, act: Act) -> Car:
        """The car when a step is over: what was plugged in for a trial is pulled, a key turned back."""
        car = before.copy()
        car.key = act.does.get("key_left", car.key)
        self.pull(car, act.does.get("leaves", ()))
        return car

    def unfinished(self, car: Car) -> bool:
        order = self.order
        lacks = not car.battery or set(order.joints) - car.joints or set(PIECES) - car.pieces or "seat" in car.apart
        if order.loom:
            return bool(lacks or car.mated != {"unit", "car"} or (order.spare and not car.capped))
        return bool(lacks or "dash" in car.apart or car.cut != set(CHANNELS))

    # -- what meets what -------------------------------------------------------------------------------

    def nets(self, car: Car) -> Meeting:
        met = Meeting()
        whole = "dash" not in car.apart and not car.mated
        cut = {cavity for channel in car.cut for cavity in CHANNELS[channel]}
        inside = {
            cavity: f"radio.{channel}{sign}"
            for channel, pair in CHANNELS.items()
            for cavity, sign in zip(pair, "+-", strict=True)
        } | {"3": "radio.AMP-ON"}
        for cavity in self.cavities:
            if whole and cavity not in cut:
                met.join(f"dash.unit.{cavity}", f"dash.car.{cavity}")
            if cavity in inside and not ("dash" in car.apart and cavity in cut):
                met.join(f"dash.unit.{cavity}", inside[cavity])
            for end in car.mated:
                met.join(f"T1.{end}.{cavity}", f"dash.{end}.{cavity}")
        if self.order.loom:
            for cavity in self.cavities & {"3", "4", "7", "8"}:
                met.join(f"T1.unit.{cavity}", f"T1.car.{cavity}")
        for name in car.joints:
            for a, b in self.order.joints[name]:
                met.join(a, b)
        for piece in car.pieces:
            met.join(*PIECES[piece])
        return met

    def live(self, met: Meeting, name: str, *, key: bool) -> bool:
        """By the battery, or with the key on by what the radio gives and by outputs."""
        sources = ["battery.+", "dash.car.4"]
        if key:
            sources += ["radio.AMP-ON", "dash.unit.3"]
            sources += [f"radio.{channel}{sign}" for channel in CHANNELS for sign in "+-"]
            sources += [f"amp.out{number}{sign}" for number in (1, 2) for sign in "+-"]
        return any(met.meet(name, source) for source in sources)

    # -- risks -----------------------------------------------------------------------------------------

    def look_at_work(self, number: int, act: Act, before: Car, car: Car) -> None:
        """Risks of what is done in a step."""
        met = self.nets(car)
        if car.battery and self.worked_on_live(act, before, car, self.nets(before), met):
            self.risks.add((number, "J13"))
        if act.does.get("tones"):
            driven = any(
                met.meet(f"dash.car.{pair[0]}", output)
                for at, (channel, pair) in enumerate(CHANNELS.items(), 1)
                for output in (f"radio.{channel}+", f"amp.out{at}+")
            )
            if driven or (car.battery and car.key):
                self.risks.add((number, "J18"))
        if self.too_soon(before, car):
            self.risks.add((number, "G10"))

    def look_at_state(self, number: int, car: Car) -> None:
        """Risks of how the car is."""
        met = self.nets(car)
        here: dict[str, set[str]] = {}
        if car.battery:
            here["J14"] = {f"{name} bare" for name in self.bare(car) if self.live(met, name, key=car.key)}
            fed = self.live(met, "amp.B+", key=car.key) and not met.meet("amp.GND", "body")
            here["J17"] = {"amp without ground"} if fed else set()
        if car.battery and car.key:
            here["J15"] = {
                f"{channel} fights"
                for at, (channel, _) in enumerate(CHANNELS.items(), 1)
                if met.meet(f"radio.{channel}+", f"amp.out{at}+") or met.meet(f"amp.in{at}+", f"amp.out{at}+")
            }
            opened = self.order.bus and not all(met.meet(f"dash.unit.{n}", f"dash.car.{n}") for n in "78")
            here["J16"] = {"bus open"} if opened else set()
            here["G10"] = {"restraint open"} & {f"restraint {'open' if 'seat' in car.apart else 'whole'}"}
        for code, names in here.items():
            if self.news(names):
                self.risks.add((number, code))

    def news(self, names: set[str]) -> bool:
        """Whether something of this wasn't there before; a risk is told where it begins."""
        new = names - self.told
        self.told |= names
        return bool(new)

    def worked_on_live(self, act: Act, before: Car, car: Car, met_before: Meeting, met: Meeting) -> bool:
        touched = [end for name in car.joints - before.joints for link in self.order.joints[name] for end in link]
        touched += [end for piece in car.pieces - before.pieces for end in PIECES[piece]]
        if "cut" in act.does:
            touched += [f"dash.car.{cavity}" for cavity in CHANNELS[act.does["cut"]]]
        if "capped" in act.does:
            touched.append("T1.car.4")
        return any(self.live(each, name, key=car.key) for name in touched for each in (met_before, met))

    def bare(self, car: Car) -> set[str]:
        """Ends that nothing is joined to yet: leads of the loom, both ends of a cut, an end of a run."""
        joined = {end for name in car.joints for link in self.order.joints[name] for end in link}
        ends: set[str] = set()
        if self.order.loom and not car.insulated:
            ends = {f"T1.{end}.{cavity}" for end in ("unit", "car") for pair in CHANNELS.values() for cavity in pair}
            ends |= {"T1.car.3"} | ({"T1.car.4"} if self.order.spare and not car.capped else set())
        for channel in car.cut:
            ends |= {f"dash.{half}.{cavity}" for half in ("unit", "car") for cavity in CHANNELS[channel]}
        return (ends - joined) | ({"holder out"} if car.hangs else set())

    def too_soon(self, before: Car, car: Car) -> bool:
        """Work at the restraint plug; told once between two switchings of the battery."""
        if before.battery != car.battery:
            self.hasty = False
        moved = ("seat" in before.apart) != ("seat" in car.apart)
        soon = moved and (car.battery or car.calm_s < WAIT_S)
        found = soon and not self.hasty
        self.hasty = self.hasty or soon
        return found
