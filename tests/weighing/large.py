"""One plug of many ways and a drawer of looms for it as texts: each with a few things wrong."""

from __future__ import annotations

import random

FREE = ("ILL", "ACC", "AERIAL", "MUTE", "AMP-ON", "SWC")
END = {"unit": "unit: {housing: block, contacts: sockets}", "car": "car: {housing: block, contacts: pins}"}


def large(seed: int, ways: int, looms: int, opened: int) -> tuple[str, str]:
    """The job's and the shop's text: `opened` of the circuits lead into a box and out of it, the rest go through."""
    draw = random.Random(seed)
    functions = [FREE[at % len(FREE)] for at in range(ways)]
    numbers = sorted(draw.sample(range(1, ways + 1), opened))
    job = ["ringout: 1", "title: many ways", "plugs:", "  p1:", "    place: behind the radio", "    unit: radio",
           "    housing: block", "    contacts: {unit: pins, car: sockets}", "    cavities:"]  # fmt: skip
    job += [f"      {cavity}: {function} BN 0.5 mm2" for cavity, function in enumerate(functions, 1)]
    terminals = [f"{side}{number}" for number in numbers for side in ("i", "o")]
    job += ["units:", "  radio: {kind: radio}", f"  box: {{kind: interface, terminals: [{', '.join(terminals)}]}}",
            f"cut: [{', '.join(f'p1.{number}' for number in numbers)}]", "joints:",
            "  solder at behind the radio with heat shrink:"]  # fmt: skip
    for number in numbers:
        job += [f"    p1.unit.{number}: box.i{number}", f"    p1.car.{number}: box.o{number}"]
    shop = ["ringout: 1", "dash: [radio, glove box]", "drawer:", "  looms:"]
    for at in range(1, looms + 1):
        shop += [f"    L{at}:", *(f"      {line}" for line in _loom(draw, functions, numbers))]
    shop += ["  parts:", "    butt joint: {price: 0.35 EUR}", "    heat shrink: {price: 0.15 EUR}",
             "    cap: {price: 0.20 EUR}", "    tap: {price: 0.60 EUR}", "rates:", "  labour: 84.00 EUR",
             "  consumables: 0.10 EUR",
             "  joints: {solder at dash: 27 min, solder: 23 min, crimp at dash: 22 min,",
             "           crimp at bench: 1 min, crimp: 9 min, pierce: 20 min}",
             "  mate: 3 min", "  cut end off: 2 min", "  pull: 1.5 min", "  move: 2 min", "  cap: 30 s",
             "  recheck: {position: 15 s, lock: 20 s, tug: 10 s}"]  # fmt: skip
    return "\n".join(job) + "\n", "\n".join(shop) + "\n"


def _loom(draw: random.Random, functions: list[str], numbers: list[int]) -> list[str]:
    """Made for the plug, then a few pairs crossed, a few wires missing, now and then an end."""
    ways = len(functions)
    ends = draw.choice((("unit", "car"),) * 6 + (("unit",),))
    through = {n: n for n in range(1, ways + 1) if n not in numbers} if len(ends) == 2 else {}
    leads = {(end, n): functions[n - 1] for n in range(1, ways + 1) for end in ends if n not in through}
    for _ in range(draw.randrange(4)):  # two wires that change places at one end
        if len(through) > 1 and draw.random() < 0.5:
            one, other = draw.sample(sorted(through), 2)
            through[one], through[other] = through[other], through[one]
        elif len(leads) > 1:
            end = draw.choice(ends)
            mine = [key for key in sorted(leads) if key[0] == end]
            if len(mine) > 1:
                a, b = draw.sample(mine, 2)
                leads[a], leads[b] = leads[b], leads[a]
    for _ in range(draw.randrange(3)):
        if through and draw.random() < 0.5:
            del through[draw.choice(sorted(through))]
        elif len(leads) > 1:
            del leads[draw.choice(sorted(leads))]
    made = [f"ends: {{{', '.join(END[end] for end in ends)}}}"]
    made += [f"through: {{{', '.join(f'{a}: {b}' for a, b in through.items())}}}"] if through else []
    made += ["leads:", *(f"  {end}.{n}: {says} BU" for (end, n), says in leads.items())]
    return [*made, f"price: {draw.randrange(5, 60)}.00 EUR"]
