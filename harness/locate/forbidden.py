"""What no test may touch: restraint, high voltage, data and light, and plugs or places that hold them."""

from __future__ import annotations

from harness.graph.wiring import Wiring
from harness.locate.circuit import PIN
from harness.model.contact import CHASSIS

_NEVER = frozenset(("restraint", "high voltage", "data", "optical", "digital"))
_LEFT_ALONE = frozenset(("srs", "hv", "optical", "digital"))


class Forbidden:
    """Asked contact by contact. A net that holds something forbidden is left alone as a whole, the body excepted."""

    def __init__(self, wiring: Wiring) -> None:
        self.wiring = wiring
        parts = wiring.job.parts
        car = wiring.job.car
        self._orange = {_plain(place) for place in (car.orange if car else ())}
        self._orange |= {
            _plain(plug.where) for plug in parts.plugs.values() if "hv" in {each.lower() for each in plug.carries}
        }
        self._orange.discard("")
        self._plugs = {
            plug.name
            for plug in parts.plugs.values()
            if _LEFT_ALONE & {each.lower() for each in plug.carries}
            or any(row.function.kind in ("restraint", "high voltage") for row in plug.rows)
        }
        self._nets: dict[int, bool] = {}
        self._known: dict[str, bool] = {}
        self._body = wiring.planned.net_number(CHASSIS)

    def contact(self, name: str) -> bool:
        """Whether a contact must not be probed, clipped to or parted."""
        known = self._known.get(name)
        if known is None:
            known = self._known[name] = self._look(name.removesuffix(PIN))
        return known

    @property
    def places(self) -> bool:
        """Whether there is any place with orange cables at all."""
        return bool(self._orange)

    def place(self, where: str) -> bool:
        """Whether orange cables lie at a place."""
        return _plain(where) in self._orange

    def _look(self, name: str) -> bool:
        if not name:
            return False
        contact = self.wiring.contact(name)
        if (contact.kind == "plug" and contact.owner in self._plugs) or self._carries(name):
            return True
        number = self.wiring.planned.net_number(name)
        if number == self._body:
            return False
        known = self._nets.get(number)
        if known is None:
            known = self._nets[number] = any(map(self._carries, self.wiring.planned.nets[number]))
        return known

    def _carries(self, name: str) -> bool:
        """Whether what a contact is for must not be touched."""
        if self.wiring.contact(name).function.kind in _NEVER:
            return True
        port = self.wiring.ports.get(name)
        return port is not None and port.signal.form == "digital"


def _plain(words: str) -> str:
    return " ".join(words.lower().split())
