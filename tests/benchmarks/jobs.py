"""Jobs of any size as text: per ten contacts one joint, one lead and one finding, about."""

from __future__ import annotations

CONTACTS_OF_A_BAY = 93  # of one plug, its loom, its amplifier and four speakers, as written below

_CHANNELS = ("FL", "FR", "RL", "RR")


def job_text(contacts: int) -> str:
    """A job of about that many contacts, made of bays that are alike but for their names."""
    bays = range(max(1, round(contacts / CONTACTS_OF_A_BAY)))
    sections = {
        "plugs": _plug, "looms": _loom, "units": _unit, "speakers": _speakers, "found": _found, "capped": _capped,
    }  # fmt: skip
    lines = ["ringout: 1", "title: Many bays", "car: {name: Long train, steering: left}"]
    for heading, write in sections.items():
        lines.append(f"{heading}:")
        for bay in bays:
            lines += write(bay)
    lines += ["joints:", "  mate:", *(f"    T{bay}: bay{bay}" for bay in bays), "  crimp at the bay with heat shrink:"]
    for bay in bays:
        lines += _joints(bay)
    return "\n".join(lines) + "\n"


def _plug(bay: int) -> list[str]:
    rows = [f"      {2 * n + 1}/{2 * n + 2}: {channel} WH WH/BK 0.5 mm2" for n, channel in enumerate(_CHANNELS)]
    words = "B+ YE, ACC RD, ILL OG, GND BK, AMP-ON BU/WH, AERIAL BU, MUTE BN, SWC GN/RD, ACC PK, ILL GY"
    singles = words.split(", ")
    return [
        f"  bay{bay}:",
        f"    place: bay {bay}",
        "    face: {rows: 2, columns: 9, view: wire, latch: top, count: across, first: top left}",
        "    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}",
        "    cavities:",
        *rows,
        *(f"      {n + 9}: {words} 0.5 mm2" for n, words in enumerate(singles)),
    ]


def _loom(bay: int) -> list[str]:
    return [
        f"  T{bay}:",
        "    ends: {unit: 18-way, car: 18-way}",
        "    through: 5..18",
        "    leads:",
        "      1/2: FL WH WH/BK 18 AWG",
        "      3/4: FR GY GY/BK 18 AWG",
        "      lamp: unit.11 ILL OG 18 AWG",
        "      wake: car.13 AMP-ON BU/WH 18 AWG",
    ]


def _unit(bay: int) -> list[str]:
    return [
        f"  amp{bay}:",
        "    kind: amplifier",
        "    inputs: {in1..2: 2..20 V differential}",
        "    outputs: {out1..2: 75 W @ 4 ohm least 2 ohm}",
        "    wakes: rem 35 mA",
    ]


def _speakers(bay: int) -> list[str]:
    return [f"  {channel}-{bay}: {{nominal: 4 ohm}}" for channel in ("A", "B", "D", "E")]


def _found(bay: int) -> list[str]:
    pairs = zip(_CHANNELS, ("A", "B", "D", "E"), strict=True)
    return [f"  - bay{bay}.{channel} > spk.{name}-{bay}" for channel, name in pairs]


def _capped(bay: int) -> list[str]:
    """Leads that are joined as well: each is told as a lead of two fates."""
    return [f"  - T{bay}.{end}.{cavity}" for end in ("unit", "car") for cavity in ("1", "2", "3")]


def _joints(bay: int) -> list[str]:
    made = [f"    T{bay}.unit.{n + 1}: amp{bay}.in{n // 2 + 1}{'+-'[n % 2]}" for n in range(4)]
    made += [f"    T{bay}.car.{n + 1}: amp{bay}.out{n // 2 + 1}{'+-'[n % 2]}" for n in range(4)]
    return [*made, f"    T{bay}.wake: amp{bay}.rem"]
