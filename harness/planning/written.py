"""What was written at the car, looked up by what it is about: for sheets that print it in the place of a blank."""

from __future__ import annotations

from harness.graph.wiring import Wiring
from harness.model.evidence import OPEN, Record


class Written:
    """The last record of each kind about each thing, of those that still hold."""

    def __init__(self, wiring: Wiring) -> None:
        self._by_contacts: dict[tuple[str, frozenset[str]], Record] = {}
        self._by_name: dict[tuple[str, str, str], Record] = {}
        for record in wiring.job.records:
            if record.stale:
                continue
            if record.contacts:
                contacts = frozenset(name.replace(".unit.", ".car.", 1) for name in record.contacts)
                self._by_contacts[record.verb, contacts] = record
            self._by_name[record.verb, record.what.lower(), record.word("key")] = record
            self._by_name[record.verb, record.what.lower(), ""] = record

    def about(self, verb: str, *contacts: str) -> Record | None:
        """The last record of a verb about exactly these contacts; a plug's are named by its car side."""
        return self._by_contacts.get((verb, frozenset(contacts)))

    def of(self, verb: str, what: str, key: str = "") -> Record | None:
        """The last record of a verb about a thing by its name, in a state of the key or in any."""
        return self._by_name.get((verb, what.lower(), key))

    def reads(self, *contacts: str) -> str:
        """The ohms last read across a pair, with its tone or alone; empty where nobody read them."""
        found = [r for verb in ("tone", "ohm") if (r := self.about(verb, *contacts)) is not None and r.word("reads")]
        return max(found, key=lambda record: record.place.line).word("reads") if found else ""

    def body(self, *contacts: str) -> str:
        """What the pair's wires read to the body: open, or ohms and at which wire; empty where nobody read it."""
        for verb in ("tone", "ohm"):
            record = self.about(verb, *contacts)
            if record is not None and record.word("body"):
                return record.word("body")
        touching = [name for name in contacts if (r := self.about("ohm", name)) and r.word("reads") not in ("", OPEN)]
        readings = [f"{name.rsplit('.', 1)[1]}: {self.about('ohm', name).word('reads')}" for name in touching]  # type: ignore[union-attr]
        return ", ".join(readings)
