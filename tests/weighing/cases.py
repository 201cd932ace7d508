"""Random small cases as texts: a job of one or two plugs; looms that overlap, cross, lack functions and run out."""

from __future__ import annotations

import random
from itertools import pairwise

FUNCTIONS = ("ILL", "ACC", "AERIAL", "MUTE", "AMP-ON", "SWC")


def case(seed: int, *, runs: bool = False, methods: bool = False, tied: bool = False) -> tuple[str, str]:
    """The job's and the shop's text of one seed. With `runs` half of the joints are wires that are laid, with
    `methods` the quicker method is often the dearer one, with `tied` halves of two cavities or more are one net.
    """
    draw = random.Random(seed)
    hard = seed % 10 < 8  # a dear hand, and looms that are wrong or halves of what is wanted
    plugs = 2 if draw.random() < 0.25 else 1
    ways = 2 if plugs == 2 else draw.choice((2, 3, 3, 3))
    functions = draw.sample(FUNCTIONS, ways)
    job = ["ringout: 1", "title: random", "plugs:"]
    terminals, cut, by_hand, on_loom = [], [], {}, {}
    roles: dict[str, list[str]] = {}
    with_loom = draw.random() < 0.3
    for plug in [f"p{number}" for number in range(1, plugs + 1)]:
        place = draw.choice(("behind the radio", "boot floor", "left kick panel"))
        job += [f"  {plug}:", f"    place: {place}", "    unit: radio", "    housing: block",
                "    contacts: {unit: pins, car: sockets}", "    cavities:"]  # fmt: skip
        kinds = [draw.choice(("open", "open", "open", "through", "tap", "unit", "car")) for _ in functions]
        if not set(kinds) - {"through"}:
            kinds[0] = "open"
        roles[plug] = kinds
        for cavity, (function, kind) in enumerate(zip(functions, kinds, strict=True), 1):
            job.append(f"      {cavity}: {function} BN 0.5 mm2")
            sides = {"open": ("unit", "car"), "unit": ("unit",), "car": ("car",), "tap": ("tap",), "through": ()}[kind]
            if kind in ("open", "unit", "car"):
                cut.append(f"{plug}.{cavity}")
            for side in sides:
                terminal = f"{plug}{side}{cavity}"
                terminals.append(terminal)
                half = f"{plug}.{cavity}" if side == "tap" else f"{plug}.{side}.{cavity}"
                by_hand.setdefault(place, []).append(f"    {half}: box.{terminal}")
                lead = f"T{plug}.{'car' if side == 'tap' else side}.{cavity}"
                on_loom.setdefault(draw.choice(("the bench", "left kick panel")), []).append(
                    f"    {lead}: box.{terminal}"
                )
            if kind in ("unit", "car"):
                other = "car" if kind == "unit" else "unit"
                by_hand.setdefault("", []).append(f"{plug}.{other}.{cavity}")
    laid = _laid(random.Random(seed), on_loom if with_loom else by_hand, terminals) if runs else []
    if tied:
        _tie(random.Random(seed), on_loom if with_loom else by_hand, roles, with_loom)
    job += ["units:", "  radio: {kind: radio}", f"  box: {{kind: interface, terminals: [{', '.join(terminals)}]}}"]
    capped = by_hand.pop("", [])
    if with_loom:
        job.append("looms:")
        for plug, kinds in roles.items():
            through = [n for n, kind in enumerate(kinds, 1) if kind in ("through", "tap")]
            leads = [
                (side, n)
                for n, kind in enumerate(kinds, 1)
                for side in {"open": ("unit", "car"), "unit": ("unit",), "car": ("car",), "tap": ("car",)}.get(kind, ())
            ]
            job += [
                f"  T{plug}:",
                "    ends: {unit: {housing: block, contacts: sockets}, car: {housing: block, contacts: pins}}",
            ]
            job += [f"    through: {{{', '.join(f'{n}: {n}' for n in through)}}}"] if through else []
            job += ["    leads:", *(f"      {side}.{n}: {functions[n - 1]} BU" for side, n in leads)] if leads else []
            job.append("    price: 999.00 EUR")  # never the best: it is there to say what must connect
        job += ["joints:", f"  mate: {{{', '.join(f'T{plug}: {plug}' for plug in roles)}}}"]
        for place, rows in on_loom.items():
            job += [f"  crimp at {place} with heat shrink:", *rows]
    else:
        job += [f"cut: [{', '.join(cut)}]"] if cut else []
        job += [f"capped: [{', '.join(capped)}]"] if capped else []
        job += ["joints:"] if by_hand else []
        for place, rows in by_hand.items():
            job += [f"  solder at {place} with heat shrink:", *rows]
    job += ["runs:", *laid] if laid else []
    shop = _shop(draw, functions, hard)
    return "\n".join(job) + "\n", _at_odds(random.Random(seed), shop, hard) if methods else shop


def _tie(draw: random.Random, rows: dict[str, list[str]], roles: dict[str, list[str]], with_loom: bool) -> None:
    """Joins halves of two or three cavities of a plug, whatever each is joined to besides."""
    for plug, kinds in roles.items():
        halves = []  # of each cavity those that can be joined, as the job writes them
        for cavity, kind in enumerate(kinds, 1):
            sides = {"open": ("unit", "car"), "unit": ("unit",), "car": ("car",)}.get(kind, ())
            if with_loom:
                sides = ("car",) if kind == "tap" else sides
                halves.append([f"T{plug}.{side}.{cavity}" for side in sides])
            else:
                halves.append([f"{plug}.{side}.{cavity}" for side in sides] or [f"{plug}.{cavity}"])
        some = [each for each in halves if each]
        draw.shuffle(some)
        tied = [draw.choice(each) for each in some[: draw.choice((2, 2, 3))]]
        for a, b in pairwise(tied):
            there = next((each for each in rows.values() if any(row.startswith(f"    {a}: ") for row in each)), None)
            if there is None:
                rows.setdefault("left kick panel", []).append(f"    {a}: {b}")
                continue
            at = next(at for at, row in enumerate(there) if row.startswith(f"    {a}: "))
            there[at] = f"    {a}: [{there[at].partition(': ')[2].strip('[]')}, {b}]"


def _at_odds(draw: random.Random, shop: str, hard: bool) -> str:
    """The shop with dear butt joints and taps that are quick, and cheap solder that is slow."""
    dear = 20 * hard
    crimp, dash, bench = (draw.choice((1, 2, 3)) for _ in range(3))

    def more() -> float:
        return draw.choice((-0.5, 0.5, 1, 2.5))

    times = {
        "crimp at dash": dash + dear, "solder at dash": dash + dear + more(), "crimp": crimp + dear,
        "solder": crimp + dear + more(), "crimp at bench": bench, "pierce": draw.choice((0.5, 1)) + dear,
    }  # fmt: skip
    if draw.random() < 0.6:
        times["solder at bench"] = bench + more()
    joints = ", ".join(f"{name}: {minutes:g} min" for name, minutes in times.items())
    lines = []
    for line in shop.splitlines():
        if line.startswith("  joints: "):
            line = f"  joints: {{{joints}}}"
        elif line.startswith("    butt joint: "):
            line = f"    butt joint: {{price: {draw.choice((0, 80, 160, 400)) / 100:.2f} EUR}}"
        elif line.startswith("    tap: "):
            line = f"    tap: {{price: {draw.choice((10, 200, 450)) / 100:.2f} EUR}}"
        lines.append(line)
    return "\n".join(lines) + "\n"


def _laid(draw: random.Random, rows: dict[str, list[str]], terminals: list[str]) -> list[str]:
    """Half of the rows as chains: some begin there, end there or pass, some have a fuse, some leave the row."""
    made = []
    for place in [place for place in rows if place]:
        for row in list(rows[place]):
            if draw.random() < 0.5:
                contact, terminal = row.strip().split(": ")
                if draw.random() < 0.75:
                    rows[place].remove(row)
                else:  # the row stays, and the wire goes to another terminal
                    terminal += "x"
                    terminals.append(terminal.removeprefix("box."))
                way = draw.choice(("3 m 18 AWG", "20 cm 18 AWG > fuse 1 A > 3 m 18 AWG"))
                ends = (contact, terminal) if draw.random() < 0.7 else (terminal, contact)
                chain = f"{ends[0]} > {way} > {ends[1]}"
                if draw.random() < 0.3:  # it comes from yet another terminal, and goes on beyond the contact
                    terminals.append(f"{terminal.removeprefix('box.')}y")
                    chain = f"{terminal}y > 2 m 18 AWG > {contact} > {way} > {terminal}"
                made.append(f"  - {chain}  # {terminal}")
        if not rows[place]:
            del rows[place]
    return made


def _shop(draw: random.Random, functions: list[str], hard: bool) -> str:
    made = ["ringout: 1", "dash: [radio, glove box]", "drawer:", "  looms:"]
    for number in range(1, draw.choice((2, 3, 3, 4)) + 1):
        made += [f"    L{number}:", *(f"      {line}" for line in _loom(draw, functions, hard))]
    price = draw.choice((0, 15, 35))
    made += ["  parts:", f"    butt joint: {{price: 0.{price:02d} EUR}}", "    heat shrink: {price: 0.15 EUR}",
             "    cap: {price: 0.20 EUR}", "    tap: {price: 0.60 EUR}"]  # fmt: skip
    made += ["rates:", f"  labour: {draw.choice((45, 84, 120))}.00 EUR", "  consumables: 0.10 EUR"]
    dash, crimp, pierce = draw.choice((4, 7, 12)), draw.choice((1, 1.5, 6)), draw.choice((1, 9))
    if hard:
        dash, crimp, pierce = 25, 22, 20
    made.append(
        f"  joints: {{solder at dash: {dash} min, solder: {draw.choice((3, 5)) + 20 * hard} min, "
        f"crimp at dash: {draw.choice((2, 5, 9)) + 20 * hard} min, crimp at bench: 1 min, crimp: {crimp} min, "
        f"pierce: {pierce} min}}"
    )
    pull = draw.choice((1.5, 2))
    made += [f"  mate: {draw.choice((0.5, 1, 3))} min", f"  cut end off: {draw.choice((1, 2))} min",
             f"  pull: {pull} min",
             f"  move: {pull + draw.choice((0, 1))} min", "  cap: 30 s",
             "  recheck: {position: 15 s, lock: 20 s, tug: 10 s}"]  # fmt: skip
    return "\n".join(made) + "\n"


def _loom(draw: random.Random, functions: list[str], hard: bool) -> list[str]:
    ways = len(functions)
    ends = draw.choice((("unit", "car"),) * 8 + (("unit",), ("car",)))
    text = {"unit": "unit: {housing: block, contacts: sockets}", "car": "car: {housing: block, contacts: pins}"}
    made = [f"ends: {{{', '.join(text[end] for end in ends)}}}"]
    housing_only = draw.random() < 0.1
    if housing_only:
        made = [line.replace("housing: block", "housing: other") for line in made]
    order = list(range(1, ways + 1))
    if draw.random() < (0.9 if hard else 0.35):
        draw.shuffle(order)  # crosses pins, or lists them for another car
    through: dict[int, int] = {}
    leads: list[str] = []
    named = draw.random() < (0.95 if hard else 0.7)
    for cavity in range(1, ways + 1):
        kinds = ("through", "both", "both") if hard and draw.random() < 0.9 else ("unit", "car", "branch", "none")
        kind = draw.choice(kinds if hard else ("through", "both", "both", "through", "both", *kinds))
        says = functions[order[cavity - 1] - 1] if named else "unknown"
        if kind in ("through", "branch") and len(ends) == 2:
            through[cavity] = cavity if draw.random() < 0.85 else order[cavity - 1]
            if kind == "branch" and through[cavity] == cavity:
                leads.append(f"car.{cavity}: {says} BU")
        for end in ends:
            if kind in ("both", end):
                leads.append(f"{end}.{cavity}: {says} BU")
    ends_met: set[int] = set()
    for cavity, goal in list(through.items()):
        if goal in ends_met or (f"car.{goal}:" in " ".join(leads) and goal != cavity):
            del through[cavity]
            leads = [lead for lead in leads if not lead.startswith(f"car.{cavity}:")]
        else:
            ends_met.add(goal)
    if draw.random() < 0.15:
        leads.append("spare: AERIAL BU")
    if not through and not leads:
        leads.append(f"{ends[0]}.1: {functions[0]} BU")
    made += [f"through: {{{', '.join(f'{a}: {b}' for a, b in through.items())}}}"] if through else []
    made += ["leads:", *(f"  {lead}" for lead in leads)] if leads else []
    if named and through and draw.random() < 0.5:
        made.append(f"pins: {{{', '.join(f'{c}: {functions[order[c - 1] - 1]}' for c in sorted(through))}}}")
    made.append(f"price: {draw.choice((3, 6, 9, 14, 25))}.00 EUR")
    made += draw.choice(([], [], ["stock: 1"], ["stock: 0"], ["stock: 0", "days: 9"], ["stock: 2"]))
    return made
