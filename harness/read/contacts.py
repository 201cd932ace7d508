"""Every contact that the job's plugs, looms, units and speakers have, and the words that find it."""

from __future__ import annotations

from dataclasses import replace

from harness.model.contact import CHASSIS, Contact
from harness.model.function import UNKNOWN, Function, pair_of, read_function
from harness.model.parts import HALVES, Loom, Plug, Speaker, Unit
from harness.place import Place
from harness.read.names import Index, Names
from harness.read.nodes import Table
from harness.read.troubles import Troubles
from harness.read.unit_rows import read_grounds_node, terminal_function

# A named tuple made from a tuple: a third of the time, and there is one for every contact and line of a big job.
_new = tuple.__new__


class Contacts:
    """Fills `names` with contacts. `plugs` may be corrected: a unit's name spelled otherwise, or none there."""

    def __init__(
        self, root: Table, names: Names, troubles: Troubles, plugs: dict[str, Plug], looms: dict[str, Loom],
        units: dict[str, Unit],
    ) -> None:  # fmt: skip
        self.root, self.names, self.troubles = root, names, troubles
        self.plugs, self.looms, self.units = plugs, looms, units

    def of_plugs(self) -> None:
        contacts = self.names.contacts
        for plug in self.plugs.values():
            name, index = plug.name, self.names.plug[plug.name]
            exact, functions = index.exact, index.functions
            for cavity, function, colour, size, place, _, _, _ in plug.rows:
                lower = cavity.lower()
                if lower in exact:
                    continue  # told as one cavity with two functions; the first row stands
                exact[lower] = cavity
                if function.kind not in ("empty", "unknown"):
                    functions.setdefault(function.name.lower(), []).append(cavity)
                for half in HALVES:
                    key = f"{name}.{half}.{cavity}"
                    contacts[key] = _new(Contact, (key, name, "plug", half, function, colour, size, place))

    def of_looms(self) -> None:
        contacts = self.names.contacts
        nothing = (UNKNOWN, None, None)
        for loom in self.looms.values():
            said = {row.cavity: row for row in loom.pins}
            pins: dict[tuple[str, str], Place] = {}
            for lead in loom.leads:
                if lead.cavity:
                    pins.setdefault((lead.end, lead.cavity), lead.place)
            for unit_cavity, car_cavity, place in loom.throughs:
                pins.setdefault(("unit", unit_cavity), place)
                pins.setdefault(("car", car_cavity), place)
            ends = {end: Index(f"{loom.name}.{end}." if end else f"{loom.name}.") for end in [*loom.ends, ""]}
            for end, index in ends.items():
                self.names.end[loom.name, end] = index
            leads = {(lead.end, lead.cavity): lead for lead in loom.leads if lead.cavity and not lead.own}
            name = loom.name
            for pin, place in pins.items():
                end, cavity = pin
                key = f"{name}.{end}.{cavity}"
                about = leads.get(pin) or said.get(cavity)
                function, colour, size = (about.function, about.colour, about.size) if about else nothing
                contacts[key] = _new(Contact, (key, name, "loom", end, function, colour, size, place))
                if end in ends:
                    index = ends[end]
                    index.exact.setdefault(cavity.lower(), cavity)
                    if function.kind != "unknown":
                        index.functions.setdefault(function.name.lower(), []).append(cavity)
            for lead in loom.leads:
                if lead.own:
                    contacts[lead.name] = _new(
                        Contact,
                        (lead.name, loom.name, "loom", "", lead.function, lead.colour, lead.size, lead.place),
                    )
                    ends[""].add(lead.own)

    def of_units(self) -> None:
        lower = {name.lower(): name for name in self.units}
        terminals: dict[str, dict[str, tuple[Function, Place]]] = {
            unit.name: {t: (terminal_function(t), place) for t, place in unit.terminals.items()}
            for unit in self.units.values()
        }
        for plug_name, plug in self.plugs.items():
            for half, unit_name in (("unit", plug.unit), ("car", plug.car)):
                if not unit_name:
                    continue
                if unit_name.lower() not in lower:
                    self._no_unit(plug, half, unit_name)
                    continue
                own = terminals[lower[unit_name.lower()]]
                if unit_name != lower[unit_name.lower()]:
                    plug = _with_unit(plug, half, lower[unit_name.lower()])
                    self.plugs[plug_name] = plug
                for row in plug.rows:
                    if row.function.kind not in ("empty", "unknown"):
                        own.setdefault(row.function.name, (row.function, row.place))
        contacts = self.names.contacts
        for unit in self.units.values():
            index = self.names.unit[unit.name] = Index(f"{unit.name}.")
            colours = {lead.own: lead for lead in unit.leads}
            for terminal, (function, place) in terminals[unit.name].items():
                key = f"{unit.name}.{terminal}"
                lead = colours.get(terminal)
                colour, size, at = (lead.colour, lead.size, lead.place) if lead else (None, None, place)
                contacts[key] = _new(Contact, (key, unit.name, "unit", "", function, colour, size, at))
                index.add(terminal, function.name)

    def _no_unit(self, plug: Plug, half: str, unit_name: str) -> None:
        node = self.root.get("plugs")
        table = node.get(plug.name) if isinstance(node, Table) else None
        at = table.get(half) if isinstance(table, Table) else None
        if unit_name.lower() not in self.names.shaky:
            self.troubles.add(
                "R20", at.place if at else plug.place, unit_name, f"There is no unit “{unit_name}” under `units:`.",
                f"Write it there, for instance `units: {{{unit_name}: {{kind: radio}}}}`.",
            )  # fmt: skip
        self.names.shaky.add(unit_name.lower())
        self.plugs[plug.name] = _with_unit(plug, half, "")

    def of_speakers(self, speakers: dict[str, Speaker]) -> None:
        contacts = self.names.contacts
        for speaker in speakers.values():
            base = speaker.function if speaker.function.kind == "audio" else None
            for terminal in speaker.terminals():
                sign = terminal[-1]
                both = pair_of(base) if base else None
                function = both[0 if sign == "+" else 1] if both else Function("unknown", speaker.name, sign, "unknown")
                contacts[terminal] = _new(
                    Contact, (terminal, speaker.name, "speaker", "", function, None, None, speaker.place)
                )
                self.names.speakers.add(terminal.removeprefix("spk."), function.name if base else "")

    def fixed(self) -> None:
        contacts = self.names.contacts
        at = self.root.place
        ground, battery = read_function("GND"), read_function("B+")
        assert ground is not None
        assert battery is not None
        for key, *_ in read_grounds_node(self.root.get("grounds")):
            name = f"gnd.{key.value}"
            contacts[name] = Contact(name, key.value, "ground", "", ground, None, None, key.place)
            self.names.grounds.add(key.value)
        contacts["battery.+"] = Contact("battery.+", "battery", "battery", "", battery, None, None, at)
        contacts["battery.-"] = Contact("battery.-", "battery", "battery", "", ground, None, None, at)
        contacts[CHASSIS] = Contact(CHASSIS, CHASSIS, "chassis", "", ground, None, None, at)


def _with_unit(plug: Plug, half: str, unit: str) -> Plug:
    return replace(plug, unit=unit) if half == "unit" else replace(plug, car=unit)
