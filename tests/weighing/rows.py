"""Random small cases for rows of looms as texts: more is tapped than opened, and all looms are of the right pins."""

from __future__ import annotations

import random

FUNCTIONS = ("ILL", "ACC", "AERIAL", "MUTE", "AMP-ON", "SWC")
_ENDS = "ends: {unit: {housing: block, contacts: sockets}, car: {housing: block, contacts: pins}}"


def row_case(seed: int) -> tuple[str, str]:
    """The job's and the shop's text of one seed: a joint on the car's wire is now the quicker one, now the cheaper."""
    draw = random.Random(f"row {seed}")
    plugs = ["p1", "p2"] if draw.random() < 0.2 else ["p1"]
    functions = draw.sample(FUNCTIONS, 2 if len(plugs) > 1 else draw.choice((2, 3, 3, 4)))
    job = ["ringout: 1", "title: rows", "plugs:"]
    terminals: list[str] = []
    cut, capped = [], []
    rows: dict[str, list[str]] = {}
    laid = []
    for plug in plugs:
        place = draw.choice(("behind the radio", "boot floor"))
        job += [f"  {plug}:", f"    place: {place}", "    unit: radio", "    housing: block",
                "    contacts: {unit: pins, car: sockets}", "    cavities:"]  # fmt: skip
        for cavity, function in enumerate(functions, 1):
            kind = draw.choice(("tap", "tap", "tap", "open", "open", "through", "unit", "car"))
            job.append(f"      {cavity}: {function} BN 0.5 mm2")
            sides = {"open": ("unit", "car"), "through": (), "tap": ("tap",)}.get(kind, (kind,))
            if kind in ("open", "unit", "car"):
                cut.append(f"{plug}.{cavity}")
            if kind in ("unit", "car"):
                capped.append(f"{plug}.{'car' if kind == 'unit' else 'unit'}.{cavity}")
            for side in sides:
                terminal = f"{plug}{side}{cavity}"
                terminals.append(terminal)
                half = f"{plug}.{cavity}" if side == "tap" else f"{plug}.{side}.{cavity}"
                if draw.random() < 0.15:
                    laid.append(f"  - {half} > 3 m 18 AWG > box.{terminal}")
                else:
                    rows.setdefault(place, []).append(f"    {half}: box.{terminal}")
    job += ["units:", "  radio: {kind: radio}", f"  box: {{kind: interface, terminals: [{', '.join(terminals)}]}}"]
    job += [f"cut: [{', '.join(cut)}]"] if cut else []
    job += [f"capped: [{', '.join(capped)}]"] if capped else []
    job += ["joints:"] if rows else []
    for place, made in rows.items():
        job += [f"  solder at {place} with heat shrink:", *made]
    job += ["runs:", *laid] if laid else []
    if not rows and not laid:
        return row_case(seed + 1_000_000)  # nothing to do
    shop = ["ringout: 1", "dash: [radio, glove box]", "drawer:", "  looms:"]
    for number in range(1, draw.choice((2, 3, 4)) + 1):
        shop += [f"    L{number}:", *(f"      {line}" for line in _loom(draw, functions))]
    shop += ["  parts:", f"    butt joint: {{price: {draw.choice((0, 35, 250)) / 100:.2f} EUR}}",
             "    heat shrink: {price: 0.15 EUR}", "    cap: {price: 0.20 EUR}",
             f"    tap: {{price: {draw.choice((5, 60, 400)) / 100:.2f} EUR}}",
             "rates:", f"  labour: {draw.choice((45, 84, 120))}.00 EUR", "  consumables: 0.10 EUR"]  # fmt: skip
    on_car, on_lead = draw.choice(((20, 1), (12, 3), (6, 2), (5, 6)))
    shop.append(
        f"  joints: {{solder at dash: {on_car + draw.choice((-1, 0, 3))} min, crimp at dash: {on_car} min, "
        f"solder at boot: {on_car + draw.choice((-1, 2))} min, crimp at boot: {on_car} min, "
        f"solder at bench: {on_lead + draw.choice((-0.5, 0, 2))} min, crimp at bench: {on_lead} min, "
        f"solder: 9 min, crimp: 8 min, pierce: {draw.choice((0.5, 4, 15))} min}}"
    )
    shop += [f"  mate: {draw.choice((0.25, 0.5, 1))} min", "  cut end off: 2 min", "  pull: 9 min", "  move: 9 min",
             f"  cap: {draw.choice((20, 60))} s", "  recheck: {position: 15 s, lock: 20 s, tug: 10 s}"]  # fmt: skip
    return "\n".join(job) + "\n", "\n".join(shop) + "\n"


def _loom(draw: random.Random, functions: list[str]) -> list[str]:
    through, leads = [], []
    for cavity, says in enumerate(functions, 1):
        kind = draw.choice(("through", "through", "through", "leads", "branch"))
        if kind != "leads":
            through.append(f"{cavity}: {cavity}")
        leads += [
            f"  {end}.{cavity}: {says} BU" for end in {"leads": ("unit", "car"), "branch": ("car",)}.get(kind, ())
        ]
    if not through and not leads:
        leads.append(f"  unit.1: {functions[0]} BU")
    made = [_ENDS]
    made += [f"through: {{{', '.join(through)}}}"] if through else []
    made += ["leads:", *leads] if leads else []
    made.append(f"price: {draw.choice((0, 1, 3))}.{draw.choice(('00', '50'))} EUR")
    return made + draw.choice(([], [], ["stock: 1"], ["stock: 0", "days: 9"]))
