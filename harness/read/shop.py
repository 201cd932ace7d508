"""The shop file: drawer, rates and folders of maps, read as a job is: every fault in one pass, with its place."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import date, timedelta
from types import MappingProxyType

from harness.model.job import Job
from harness.model.money import Money, read_money
from harness.model.parts import Loom, Store
from harness.model.shop import Folder, InDrawer, JointTime, Shop
from harness.place import Place
from harness.read.conform import conform
from harness.read.contacts import Contacts
from harness.read.days import day_of
from harness.read.joining import heading
from harness.read.looms import read_loom, read_store
from harness.read.merging import merged_section
from harness.read.names import Names
from harness.read.nodes import Node, Table, Text, read_file, read_text
from harness.read.parts import read_parts
from harness.read.plugs import text_of, texts_of
from harness.read.preset_name import preset_name
from harness.read.spec_shop import RECHECKS, SHOP, SPANS, WORKS
from harness.read.troubles import Troubles
from harness.units import quantity

BESIDE = "shop.yaml"


def shop_path(job: Job) -> str:
    """The shop file of a job: the one that it names, else the one beside it, else empty."""
    folder = os.path.dirname(job.file)
    if job.shop:
        return os.path.normpath(os.path.join(folder, job.shop))
    beside = os.path.join(folder, BESIDE)
    return beside if os.path.isfile(beside) else ""


def read_shop(path: str | os.PathLike[str], troubles: Troubles, *, maps: bool = True) -> Shop | None:
    """The shop, or None where the file can't be read as one. Every fault met is in `troubles`.

    With `maps` false the folders of maps need not be there: only a scope asks for them.
    """
    file = os.fspath(path)
    return _read(read_file(file, troubles), file, troubles, maps)


def read_shop_text(text: str, file: str, troubles: Troubles) -> Shop | None:
    """As `read_shop`, from a text that would stand in `file`."""
    return _read(read_text(text, file, troubles), file, troubles, True)


def _read(root: Node | None, file: str, troubles: Troubles, maps: bool) -> Shop | None:
    if root is None:
        return None
    bad = conform(root, SHOP, troubles)
    if not isinstance(root, Table):
        return None
    return _Reading(root, file, troubles, bad, maps).shop()


class _Reading:
    """One pass over the checked nodes."""

    def __init__(self, root: Table, file: str, troubles: Troubles, bad: set[int], maps: bool) -> None:
        self.root, self.file, self.troubles, self.bad, self.maps_asked = root, file, troubles, bad, maps
        self.currency: tuple[str, Place] | None = None
        self.as_of = ""

    def shop(self) -> Shop:
        root = self.root
        preset = root.get("preset")
        shelf = read_parts(root, self.troubles, self.bad, MappingProxyType({}))
        self.bad |= shelf.bad
        rates = _table(root.get("rates"))
        labour, consumables = self._money(rates, "labour"), self._money(rates, "consumables")
        self.as_of = day_of(root, "as of", self.troubles, self.bad)
        drawer = _table(root.get("drawer"))
        looms = _table(drawer.get("looms"))
        looms = merged_section("looms", looms, shelf, self.troubles, self.bad)
        in_drawer = self._looms(looms)
        loose = {each.name: each for each in self._loose(_table(drawer.get("parts")))}
        return Shop(
            file=self.file,
            place=Place(self.file, root.line, root.column),
            title=text_of(root, "title"),
            preset=preset_name(None if id(preset) in self.bad else preset, self.troubles),
            as_of=self.as_of,
            job_date=day_of(root, "job date", self.troubles, self.bad),
            currency=self.currency[0] if self.currency else "",
            maps=tuple(self._maps()),
            looms=in_drawer,
            loose=loose,
            labour=labour,
            consumables=consumables,
            joints=tuple(self._joints(_table(rates.get("joints")))),
            works=self._times(rates, WORKS),
            recheck=self._times(_table(rates.get("recheck")), RECHECKS),
            dash=tuple(each.value for each in texts_of(root.get("dash")) if id(each) not in self.bad),
            part_files=tuple(shelf.files),
            spans=self._spans(rates),
        )

    # -- the drawer ------------------------------------------------------------------------------------

    def _looms(self, node: Table) -> dict[str, InDrawer]:
        names = Names(self.troubles)
        made: dict[str, Loom] = {}
        days: dict[str, tuple[Table, Place]] = {}
        for key, value in node.items:
            if id(key) in self.bad or not isinstance(value, Table) or id(value) in self.bad:
                continue
            if not names.claim("loom", key):
                continue
            made[key.value] = read_loom(key.value, key, value, self.troubles, self.bad)
            days[key.value] = value, key.place
        contacts = Contacts(node, names, self.troubles, {}, made, {})
        contacts.of_looms()
        return {
            name: InDrawer(name, loom, *self._stored(days[name][0], loom.store), days[name][1])
            for name, loom in made.items()
        }

    def _loose(self, node: Table) -> Iterator[InDrawer]:
        for key, value in node.items:
            if id(key) not in self.bad and isinstance(value, Table) and id(value) not in self.bad:
                yield InDrawer(
                    key.value, None, *self._stored(value, read_store(value, self.troubles, self.bad)), key.place
                )

    def _stored(self, table: Table, store: Store) -> tuple[Store, int | None]:
        """What the store says, its price of the one currency, and the day of arrival counted where days are written."""
        price = self._money(table, "price")
        days = text_of(table, "days", self.bad)
        wait = int(days) if days.isdigit() else None
        arrives = store.arrives
        if wait is not None and not arrives and self.as_of:
            arrives = (date.fromisoformat(self.as_of) + timedelta(days=wait)).isoformat()
        return store._replace(price=price, arrives=arrives), wait

    # -- the rates -------------------------------------------------------------------------------------

    def _money(self, table: Table, key: str) -> Money | None:
        """A price; one of another currency than the first is refused, since nothing here can be changed into it."""
        node = table.get(key)
        if not isinstance(node, Text) or id(node) in self.bad or node.value == "unknown":
            return None
        money = read_money(node.value)
        if self.currency is None:
            self.currency = money.currency, node.place
        elif money.currency != self.currency[0]:
            first = self.currency[1]
            self.troubles.add(
                "R09", node.place, node.value,
                f"This price is in {money.currency}, and the one on line {first.line} in {self.currency[0]}; "
                "they can't be added.",
                f"Write all prices in one currency, here in {self.currency[0]}.",
            )  # fmt: skip
            return None
        return money

    def _joints(self, node: Table) -> Iterator[JointTime]:
        for key, value in node.items:
            if id(key) in self.bad or id(value) in self.bad or not isinstance(value, Text):
                continue
            method, at, _ = heading(key.value)
            yield JointTime(method, " ".join(at.casefold().split()), _milliseconds(value.value), key.place)

    def _times(self, node: Table, words: tuple[str, ...]) -> dict[str, int]:
        made = {}
        for word in words:
            text = text_of(node, word, self.bad)
            if text:
                made[word] = _milliseconds(text)
        return made

    def _spans(self, node: Table) -> dict[str, tuple[int, int]]:
        """Times from and to; one that runs backwards is refused."""
        made = {}
        for word in SPANS:
            text = text_of(node, word, self.bad)
            if not text:
                continue
            amount, _, unit = text.rpartition(" ")
            first, _, last = amount.partition("..")
            low, high = (_milliseconds(f"{each} {unit}") for each in (first, last or first))
            if low > high:
                at = node.get(word)
                assert at is not None
                self.troubles.add(
                    "R09", at.place, text, f"“{text}” begins above its end.", "Write the smaller number first.",
                )  # fmt: skip
            else:
                made[word] = low, high
        return made

    # -- the rest --------------------------------------------------------------------------------------

    def _maps(self) -> Iterator[Folder]:
        for each in texts_of(self.root.get("maps")):
            if id(each) in self.bad:
                continue
            path = os.path.normpath(os.path.join(os.path.dirname(self.file), each.value))
            if not self.maps_asked or os.path.isdir(path):
                yield Folder(path, each.place)
            else:
                self.troubles.add(
                    "R10", each.place, each.value, f"There is no folder “{path}”.",
                    "Correct the path; it starts from the folder of the shop file.",
                )  # fmt: skip


def _table(node: Node | None) -> Table:
    return node if isinstance(node, Table) else Table("", 0, 0)


def _milliseconds(text: str) -> int:
    return round(quantity(text, "time") * 1000)
