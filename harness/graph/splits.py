"""Pairs whose two wires belong to two different outputs."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.crossing import source_channel
from harness.graph.kept import kept
from harness.graph.signal import Driver, Receiver
from harness.graph.wiring import Wiring
from harness.model.function import CHANNELS


class Split(NamedTuple):
    """A receiver (or two, each with one wire) between two outputs.

    Contacts `plus` and `minus`, and the output terminals `plus_from` and `minus_from`.
    `blame_plus`: the wire of + is the likelier to be wrong.
    """

    name: str
    plus: str
    minus: str
    plus_from: str
    minus_from: str
    blame_plus: bool


@kept
def splits(wiring: Wiring) -> list[list[Split]]:
    """Split pairs; those between the same two outputs are one cause."""
    number = wiring.planned.net_number
    grounds = [n for n in wiring.contacts_for("ground") if wiring.contact(n).kind in ("ground", "chassis")]
    grounded = {number(name) for name in grounds}
    live: dict[int, list[str]] = {}
    for name, port in wiring.ports.items():
        if port.way == "out" and number(name) not in grounded:
            live.setdefault(number(name), []).append(name)
    output = {name: (port.unit, port.name) for name, port in wiring.ports.items()}
    bridges = {frozenset((d.plus, d.minus)) for d in wiring.signals.drivers if "/" in d.name}
    groups: dict[frozenset[tuple[str, str]], list[Split]] = {}
    for receiver in wiring.signals.receivers:
        plus, minus = live.get(number(receiver.plus), []), live.get(number(receiver.minus), [])
        if not plus or not minus or number(receiver.plus) == number(receiver.minus):
            continue
        if {output[n] for n in plus} & {output[n] for n in minus}:
            continue
        if any(frozenset((a, b)) in bridges for a in plus for b in minus):
            continue
        split = Split(
            receiver.name,
            receiver.plus,
            receiver.minus,
            plus[0],
            minus[0],
            _plus_is_wrong(wiring, receiver, plus, minus),
        )
        groups.setdefault(frozenset((output[plus[0]], output[minus[0]])), []).append(split)
    told = {port for ports in groups for port in ports}
    taking: dict[int, list[str]] = {}
    for receiver in wiring.signals.receivers:
        for contact in (receiver.plus, receiver.minus):
            taking.setdefault(number(contact), []).append(contact)
    for driver in wiring.signals.drivers:
        own = (driver.port.unit, driver.port.name)
        if own not in told:
            half = _half_split(wiring, driver, live, taking)
            if half is not None:
                groups[frozenset((own,))] = [half]
    return [sorted(group, key=lambda split: _order(wiring, split)) for group in groups.values()]


def _order(wiring: Wiring, split: Split) -> tuple[int, str]:
    channel = wiring.contact(split.plus).function.channel
    return (CHANNELS.index(channel) if channel else len(CHANNELS), split.name)


def _plus_is_wrong(wiring: Wiring, receiver: Receiver, plus: list[str], minus: list[str]) -> bool:
    """Whether the − wire comes from the output that carries the receiver's own channel, and + doesn't."""
    own = wiring.contact(receiver.plus).function.channel
    if not own:
        return False
    return _carries(wiring, minus[0]) == own != _carries(wiring, plus[0])


def _carries(wiring: Wiring, terminal: str) -> str:
    """The one channel that an output gives, by its name or by what comes into its unit; empty if several or none."""
    port = wiring.ports[terminal]
    signals = wiring.signals
    driver = signals.by_plus.get(port.plus)
    if driver is None:
        return ""
    route = signals.route(driver)
    if wiring.job.parts.units[port.unit].is_source or route is None:
        return source_channel(wiring, driver)
    ways = [way for receiver in signals.inputs_of(driver) for way in signals.ways(receiver)]
    channels = {source_channel(wiring, way.source) for way in ways}
    return channels.pop() if len(channels) == 1 else ""


def _half_split(
    wiring: Wiring, driver: Driver, live: dict[int, list[str]], taking: dict[int, list[str]]
) -> Split | None:
    """An output with + on one speaker and − on another, where nothing else joins the two.

    `live` and `taking` are the outputs' and the receivers' contacts by net.
    """
    if "/" in driver.name or wiring.signals.feeds_from(driver):
        return None
    number = wiring.planned.net_number
    nets = number(driver.plus), number(driver.minus)
    if nets[0] == nets[1] or any(net not in live for net in nets):
        return None
    for a in taking.get(nets[0], ()):
        for b in taking.get(nets[1], ()):
            if _speaker_of(wiring, a) != _speaker_of(wiring, b):
                return Split(driver.name, a, b, driver.plus, driver.minus, False)
    return None


def _speaker_of(wiring: Wiring, contact: str) -> str:
    """The speaker, or the unit and input, that a contact belongs to."""
    port = wiring.ports.get(contact)
    return f"{port.unit}.{port.name}" if port else wiring.contact(contact).owner
