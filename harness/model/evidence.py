"""Evidence: dated records of what somebody heard, read, saw, built or signed. A record is never changed."""

from __future__ import annotations

from typing import NamedTuple

from harness.place import Place

# What a record says was done. Behind the verb stands what it was done to.
PAIR_VERBS = ("tone", "polarity")
CONTACT_VERBS = ("ohm", "volts", "response", "built", "checked")
JOINT_VERBS = ("built", "checked")  # these may also be about a joint, by the name that the paper gives it
NAME_VERBS = ("seen", "plays", "before", "after", "printed", "handover", "signed", "struck")
VERBS = (*PAIR_VERBS, *CONTACT_VERBS, *NAME_VERBS)

# Words of records that are asked for by name in more than one place.
WORKS = "works"
FAILS = ("silent", "wrong")
PROVES_NOTHING = (*FAILS, "not tried")  # of a look: it says that nothing holds
PAUSED, TAKEN, CLOSED = "paused", "taken", "closed"
RELEASED, LOST = "released", "lost"
STRUCK = "struck"  # the verb that takes an earlier record back
OPEN = "open"  # of a reading in ohms
TURNED, AS_MARKED = "turned", "as marked"  # of a speaker's two leads: each on the other one of its terminals, or right
NOTHING = ("nothing", "none", "silent", "silence")  # of what was heard
ELSEWHERE = ("elsewhere", "unknown")  # of what was heard: a place that isn't in the job


class Record(NamedTuple):
    """One record. `contacts` are those that `what` means: a pair with + first, or one; none where it means a thing.

    `said` holds the other words in the order written, lists as words with a comma and a space between. `stale` says
    what no longer holds of what the record rests on, empty where all of it does. `place` is where `what` stands.
    `joint` is the joint that it is about, by its name; of one that was built its ends are the contacts.
    `unsealed` is true where its seal isn't right: it was changed, or a record sealed before it was taken out.
    """

    verb: str
    what: str
    contacts: tuple[str, ...]
    when: str
    by: str
    said: tuple[tuple[str, str], ...]
    place: Place
    stale: str = ""
    unsealed: bool = False
    joint: str = ""

    @property
    def signed(self) -> str:
        """`JM 2026-03-02`: who wrote it and on which day."""
        return " ".join(filter(None, (self.by, self.when[:10])))

    def word(self, key: str) -> str:
        """What stands behind a key, or empty."""
        return next((value for name, value in self.said if name == key), "")

    def words(self, key: str) -> tuple[str, ...]:
        """A list's entries, or the words of a text."""
        text = self.word(key)
        return tuple(text.split(", ")) if ", " in text else tuple(text.split())

    @property
    def named(self) -> str:
        """`tone dash.car.1/9`: as the record that strikes it names it behind `was`."""
        return f"{self.verb} {self.what}"


class Struck(NamedTuple):
    """A record that was taken back, and the one that takes it back."""

    record: Record
    by: Record


def of_another_car(record_car: str, name: str, year: str) -> bool:
    """Whether a record says that it was taken on another car than the job's.

    `Larch estate` and `Larch estate 2022` are the car of that name and year; where one of them isn't written, the
    record may be of this car.
    """
    said, mine, with_year = (" ".join(each.lower().split()) for each in (record_car, name, f"{name} {year}"))
    if not said or not mine or said in (mine, with_year):
        return False
    front, _, last = said.rpartition(" ")
    return bool(year) or front != mine or len(last) != 4 or not last.isdigit()
