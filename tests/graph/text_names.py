"""The oracle's reading of names: contacts, functions and what a written contact means, from the text alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

import yaml

Row = dict[str, object]
Pair = tuple[str, ...]

SPELLINGS = {"LF": "FL", "RF": "FR", "LR": "RL", "LHF": "FL", "RHF": "FR", "LHR": "RL", "RHR": "RR"}
PAIRED = re.compile(r"(FL|FR|RL|RR|C|SUB)(-(TW|MID|WF))?|MIC|SRS|(in|out|rca)[0-9]+", re.IGNORECASE)


@dataclass
class Seats:
    """What may follow one owner's name, and which of it has which function."""

    prefix: str
    exact: dict[str, str] = field(default_factory=dict)
    by_function: dict[str, list[str]] = field(default_factory=dict)

    def add(self, last: str, function: str = "") -> None:
        self.exact.setdefault(last.lower(), last)
        if function and function not in ("empty", "unknown"):
            self.by_function.setdefault(function.lower(), []).append(last)


def function_name(word: str) -> str:
    """One spelling for a function: `lf+` and `FL+` are the same."""
    base, sign = (word[:-1], word[-1]) if word[-1] in "+-" and word.upper() != "B+" else (word, "")
    if base.lower() in ("empty", "unknown"):
        return base.lower()
    if re.fullmatch(r"(in|out|rca)[0-9]+", base, re.IGNORECASE):
        return base.lower() + sign
    stem, dash, driver = base.upper().partition("-")
    return SPELLINGS.get(stem, stem) + dash + driver + sign


def both_of(function: str) -> tuple[str, str] | None:
    """The two contacts that a pair's name without sign stands for."""
    if function == "CAN":
        return ("CAN-H", "CAN-L")
    return (function + "+", function + "-") if PAIRED.fullmatch(function) else None


def spread(word: str) -> list[str]:
    match = re.fullmatch(r"(.*?)([0-9]+)\.\.(.*?)([0-9]+)", word)
    return [f"{match[1]}{n}" for n in range(int(match[2]), int(match[4]) + 1)] if match else [word]


def names_of(key: str) -> Iterator[str]:
    for word in key.split():
        yield from spread(word)


def words(node: object) -> list[str]:
    """A list, or a text of several words."""
    return list(node) if isinstance(node, list) else str(node).split() if node else []


class Names:
    """The text of one job: what there is in it, and what its words mean."""

    def __init__(self, text: str) -> None:
        self.top: dict = yaml.load(text, Loader=yaml.BaseLoader)
        self.kind: dict[str, tuple[str, str]] = {}
        self.seats: dict[tuple[str, str], Seats] = {}
        self.marks: dict[str, tuple[str, str]] = {}  # contact -> (base, sign)
        self.cavities: dict[str, dict[str, str]] = {}  # plug -> cavity -> function
        self.pins: dict[str, dict[tuple[str, str], str]] = {}  # loom -> (end, cavity) -> function
        self.leads: dict[str, str] = {}  # lead -> its pin, or empty
        self.own: set[str] = set()
        self.terminals: dict[str, dict[str, str]] = {}
        self.contacts: set[str] = {"battery.+", "battery.-", "chassis"}
        self._looms()
        self._plugs()
        self._units()
        self._speakers_and_grounds()
        self._inline()

    def section(self, name: str) -> dict:
        return self.top.get(name) or {}

    # -- what there is ---------------------------------------------------------------------------------

    def _seat(self, owner: str, end: str, prefix: str) -> Seats:
        return self.seats.setdefault((owner, end), Seats(prefix))

    def _mark(self, contact: str, function: str) -> None:
        self.contacts.add(contact)
        if function[-1:] in ("+", "-") and function != "B+":
            self.marks[contact] = (function[:-1], function[-1])
        elif function in ("CAN-H", "CAN-L"):
            self.marks[contact] = ("CAN", "+" if function == "CAN-H" else "-")

    def _plugs(self) -> None:
        for plug, table in self.section("plugs").items():
            self.kind[plug.lower()] = ("plug", plug)
            seat = self._seat(plug, "", f"{plug}.")
            rows = self.cavities[plug] = {}
            for key, row in table["cavities"].items():
                function = function_name(row.split()[0])
                cells = key.split("/")
                two = both_of(function) or (function, function)
                for cavity, name in zip(cells, two if len(cells) == 2 else (function,), strict=True):
                    rows[cavity] = name
                    seat.add(cavity, name)
                    for half in ("unit", "car"):
                        self._mark(f"{plug}.{half}.{cavity}", name)

    def _looms(self) -> None:
        for loom, table in self.section("looms").items():
            self.kind[loom.lower()] = ("loom", loom)
            pins = self.pins[loom] = {}
            ends = list(table["ends"])
            for key, row in (table.get("leads") or {}).items():
                first, _, rest = row.partition(" ")
                end, dot, number = key.partition(".")
                if dot and end in ("unit", "car"):
                    places, cells = [end], number.split("/")
                elif re.fullmatch(r"[0-9/]+", key):
                    places, cells = ends, key.split("/")
                else:
                    at = re.fullmatch(r"(unit|car)\.([0-9]+)", first)
                    function = function_name(rest.split()[0] if at else first)
                    self.leads[f"{loom}.{key}"] = f"{loom}.{at[1]}.{at[2]}" if at else ""
                    self.own.add(f"{loom}.{key}")
                    self._seat(loom, "", f"{loom}.").add(key)
                    self._mark(f"{loom}.{key}", function)
                    if at:
                        pins.setdefault((at[1], at[2]), "")
                    continue
                function = function_name(first)
                two = both_of(function) or (function, function)
                for place in places:
                    for cavity, name in zip(cells, two if len(cells) == 2 else (function,), strict=True):
                        pins[place, cavity] = name
                        self.leads[f"{loom}.{place}.{cavity}"] = f"{loom}.{place}.{cavity}"
            for unit_pin, car_pin in self.throughs(table):
                pins.setdefault(("unit", unit_pin), "")
                pins.setdefault(("car", car_pin), "")
            for (end, cavity), function in pins.items():
                self._seat(loom, end, f"{loom}.{end}.").add(cavity, function)
                self._mark(f"{loom}.{end}.{cavity}", function)

    @staticmethod
    def throughs(table: Row) -> list[tuple[str, str]]:
        node = table.get("through") or []
        if isinstance(node, dict):
            return list(node.items())
        return [(n, n) for word in words(node) for n in spread(word)]

    def _units(self) -> None:
        own = self.terminals
        for unit, table in self.section("units").items():
            self.kind[unit.lower()] = ("unit", unit)
            mine = own[unit] = {}
            for heading in ("inputs", "outputs"):
                for key, signal in (table.get(heading) or {}).items():
                    for port in names_of(key):
                        for sign in "+-":
                            mine[function_name(port) + sign] = signal
            kind = table["kind"]
            extra: Iterable[str] = ("B+", "GND", "rem")
            if kind == "relay":
                extra = ("30", "85", "86", "87", "87a")
            elif kind == "fuse block":
                extra = ("in", *(str(n + 1) for n in range(int(table["ways"]))))
            bonded = (name for bond in table.get("bonds") or () for name in bond.split())
            for name in (*extra, *(table.get("gives") or {}), *bonded):
                mine.setdefault(name, "")
        for plug, table in self.section("plugs").items():
            for half in ("unit", "car"):
                for function in self.cavities[plug].values() if table.get(half) else ():
                    if function not in ("empty", "unknown"):
                        own[table[half]].setdefault(function, "")
        for unit, mine in own.items():
            for terminal in mine:
                self._seat(unit, "", f"{unit}.").add(terminal, terminal)
                self._mark(f"{unit}.{terminal}", terminal)
            for key in self.section("units")[unit].get("leads") or {}:
                for port in names_of(key):
                    for terminal in [port] if port in mine else [port + "+", port + "-"]:
                        self.leads[f"{unit}.{terminal}"] = ""

    def _speakers_and_grounds(self) -> None:
        seat = self._seat("spk", "", "spk.")
        for key, table in self.section("speakers").items():
            for name in names_of(key):
                coils = re.fullmatch(r"([0-9]+) x .* separate", (table or {}).get("coils", ""))
                stems = [f"{name}.c{k + 1}" for k in range(int(coils[1]))] if coils else [name]
                for stem in stems:
                    for sign in "+-":
                        seat.add(stem + sign)
                        self._mark(f"spk.{stem}{sign}", f"{name}{sign}")
        for name in self.section("grounds"):
            self._seat("gnd", "", "gnd.").add(name)
            self.contacts.add(f"gnd.{name}")

    def _inline(self) -> None:
        for plug in self.section("inline"):
            self.kind[plug.lower()] = ("plug", plug)
            self.cavities[plug] = {}
            self._seat(plug, "", f"{plug}.")
        for chain in [*(self.top.get("found") or ()), *(self.top.get("runs") or ())]:
            for step in chain.split(">"):
                plug, dot, rest = step.split()[0].partition(".")
                if dot and plug in self.section("inline"):
                    for cavity in rest.split("/"):
                        self.cavities[plug][cavity] = "unknown"
                        self.seats[plug, ""].add(cavity)
                        self.contacts |= {f"{plug}.unit.{cavity}", f"{plug}.car.{cavity}"}

    # -- what a word means -----------------------------------------------------------------------------

    def groups(self, word: str, half: str = "car") -> list[Pair]:
        """Pairs and single contacts that a contact's text stands for."""
        parts = re.split(r"(?<!\.)\.(?!\.)", word.strip())
        first = parts[0].lower()
        if first == "battery":
            return [(f"battery.{parts[1]}",)]
        if first in ("spk", "gnd"):
            return self._find(self.seats[first, ""], ".".join(parts[1:]))
        kind, owner = self.kind[first]
        if kind == "plug":
            if len(parts) == 3:
                half, parts = parts[1].lower(), [parts[0], parts[2]]
            found = self._find(self.seats[owner, ""], parts[1], half)
            return [tuple(f"{owner}.{half}.{last}" for last in group) for group in found]
        if kind == "loom" and len(parts) == 3:
            return self._find(self.seats[owner, parts[1].lower()], parts[2])
        return self._find(self.seats[owner, ""], parts[1])

    def _find(self, seats: Seats, word: str, half: str = "") -> list[Pair]:
        def named(last: str) -> str:
            return last if half else seats.prefix + last

        def one(each: str) -> str:
            if each.lower() in seats.exact:
                return named(seats.exact[each.lower()])
            (hit,) = seats.by_function[function_name(each).lower()]
            return named(hit)

        if ".." in word:
            made = [group for each in spread(word) for group in self._find(seats, each, half)]
            return self._whole_pairs(made, f"{seats.prefix}{half}." if half else "")
        if word.lower() in seats.exact:
            return [(one(word),)]
        if "/" in word:
            return [tuple(one(each) for each in word.split("/"))]
        if f"{word.lower()}+" in seats.exact:
            return [(one(word + "+"), one(word + "-"))]
        two = both_of(function_name(word))
        return [(one(two[0]), one(two[1]))] if two else [(one(word),)]

    def _whole_pairs(self, made: list[Pair], prefix: str) -> list[Pair]:
        if any(len(group) != 1 for group in made):
            return made
        by_base: dict[str, dict[str, str]] = {}
        for (name,) in made:
            base, sign = self.marks.get(prefix + name, ("", ""))
            if not sign or sign in by_base.get(base, ()):
                return made
            by_base.setdefault(base, {})[sign] = name
        if any(len(signs) != 2 for signs in by_base.values()):
            return made
        return [(signs["+"], signs["-"]) for signs in by_base.values()]
