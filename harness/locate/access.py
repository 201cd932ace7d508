"""How long it takes to get at a contact, and where it is. Minutes are common practice, no source."""

from __future__ import annotations

from harness.graph.wiring import Wiring
from harness.locate.circuit import PIN

# Minutes to get at a place the first time: trim off, unit pulled, seat moved.
_UNIT, _RADIO, _PLUG, _INLINE, _JOINT, _SPEAKER, _GROUND, _BATTERY = 3.0, 8.0, 7.0, 10.0, 6.0, 12.0, 4.0, 2.0
_RUN = 2.0
_DOOR = 4.0  # more where a door card has to come off


class Access:
    """Where each contact is got at: (place in words, minutes to get there)."""

    def __init__(self, wiring: Wiring) -> None:
        self.wiring = wiring
        self._joints: dict[str, str] = {}
        for joint in wiring.job.joints:
            for link in joint.links:
                for end in link:
                    self._joints.setdefault(end, joint.at)
        self._plug_of = {mate.loom: mate.plug for mate in wiring.job.mates}

    def at(self, name: str) -> tuple[str, float]:
        """Place and minutes of a contact."""
        pin = name.endswith(PIN)
        contact = self.wiring.contact(name.removesuffix(PIN))
        parts = self.wiring.job.parts
        if contact.kind == "unit":
            unit = parts.units[contact.owner]
            if unit.kind == "radio":
                return unit.where or f"at {unit.name}", _RADIO
            return unit.where or f"at {unit.name}", _UNIT
        if contact.kind == "loom" and not pin and contact.name in self._joints:
            return self._joints[contact.name] or f"at the lead {contact.name}", _JOINT
        if contact.kind in ("plug", "loom"):
            name = contact.owner if contact.kind == "plug" else self._plug_of.get(contact.owner, "")
            plug = parts.plugs.get(name)
            if plug is None:
                return f"at {contact.owner}", _PLUG
            return plug.where or f"at {name}", (_INLINE if plug.inline else _PLUG) + _door(plug.where)
        if contact.kind == "speaker":
            where = parts.speakers[contact.owner].where if contact.owner in parts.speakers else ""
            return f"{where or 'speaker'}, {contact.owner}", _SPEAKER + _door(where)
        if contact.kind == "ground":
            point = parts.grounds.get(contact.last)
            return (point.where if point and point.where else contact.name), _GROUND
        if contact.kind == "battery":
            return "at the battery", _BATTERY
        return "along the run", _RUN


def _door(where: str) -> float:
    return _DOOR if "door" in where.lower() else 0.0
