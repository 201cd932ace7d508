"""`ringout weigh --before`: the scope of a job before the car arrives."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

from harness.cli.screen import complain, harmless, say

if TYPE_CHECKING:
    from harness.model.shop import Shop
    from harness.prove import Proof
    from harness.read.maps import Map
    from harness.read.troubles import Troubles
    from harness.scoping.lines import Line
    from harness.scoping.scoping import Scoping


def run(path: str, shop_file: str | None, out: str | None, as_json: bool) -> int:
    """Reads the scope, the shop and its maps, and tells or prints what follows. Gives the exit code: 0 or 2."""
    from harness.read.maps import read_maps
    from harness.read.scope import read_scope
    from harness.read.shop import read_shop
    from harness.read.troubles import Troubles
    from harness.scoping.scoping import scoping

    troubles = Troubles()
    scope = read_scope(path, troubles)
    if scope is None or troubles.refused:
        return _refused(path, troubles)
    own: tuple[Map, ...] = ()
    part_files: tuple[str, ...] = ()
    if scope.is_job:
        from harness.scoping.of_job import of_job

        proof = _job(path)
        if proof is None or proof.wiring is None:
            return 2
        scope, own = of_job(scope, proof.wiring)
        part_files = proof.wiring.job.part_files
    named = shop_file or scope.shop
    troubles = Troubles()
    shop: Shop | None = read_shop(named, troubles) if named else None
    if named and (shop is None or troubles.refused):
        return _refused(named, troubles)
    maps = list(own)
    if shop is not None:
        troubles = Troubles()
        found = read_maps(tuple(folder.path for folder in shop.maps), troubles)
        if troubles.refused:
            return _refused(named, troubles)
        used = {os.path.realpath(each) for each in part_files}
        maps += [each for each in found.maps if os.path.realpath(each.file) not in used]
    made = scoping(scope, shop, tuple(maps))
    written = []
    if out is not None:
        from harness.cli.packet import writable_folder
        from render.documents import write_packet
        from render.scope_sheet import masthead, sheets

        written = write_packet(sheets(made), masthead(made), writable_folder(out))
    if as_json:
        import json

        say(json.dumps(_json(made), indent=2))
        return 0
    say("\n".join(map(harmless, lines(made))))
    for each in written:
        say(f"  {each}")
    return 0


def _refused(path: str, troubles: Troubles) -> int:
    from harness.cli import report_text
    from harness.finding import Counts, Report
    from harness.prove import Proof

    report = Report("unreadable", "", Counts(0, 0, 0), (), tuple(troubles.findings))
    say("\n".join(report_text.lines(Proof(path, None, None, report))))
    complain("no scope was made")
    return 2


def _job(path: str) -> Proof | None:
    """The job given instead of a scope; None (and told) where it can't be read."""
    from harness.cli import report_text
    from harness.prove import prove

    proof = prove(path, mends=False)
    if proof.wiring is None:
        say("\n".join(report_text.lines(proof)))
        complain("no scope was made of a job that can’t be read")
        return None
    return proof


# -- what is said ---------------------------------------------------------------------------------------------


def lines(scoping: Scoping) -> list[str]:
    """The scope on the screen, section by section; each line with its records or how it is found out."""
    from harness.scoping.lines import PART, TIME, TITLES, UNKNOWN
    from harness.scoping.telling import (
        basis_words,
        car_words,
        condition_words,
        count_words,
        minutes_words,
        range_words,
        rate_words,
        sum_words,
    )
    from harness.scoping.variants import WHICH

    made = [f"{scoping.scope.title or scoping.scope.file}: {car_words(scoping.scope)}", *_maps(scoping)]
    for kind, title in TITLES.items():
        found = scoping.of(kind)
        if not found:
            continue
        made += ["", f"{title}:"]
        for each in found:
            head = f"{minutes_words(each)}  " if kind == TIME else f"{each.flag}: " if each.flag else ""
            head += count_words(each) if kind == PART else ""
            made.append(f"  {head}{each.words}")
            if each.rates:
                made.append(f"      {'; '.join(map(rate_words, each.rates))}")
            if each.condition:
                # how the map is found out is said once, in its own line
                how = f"; to be found out by: {each.find_out}" if kind == UNKNOWN or each.find_out != WHICH else ""
                made.append(f"      {condition_words(each)}{how}")
            if each.basis:
                made.append(f"      by {basis_words(each)}")
    made += ["", f"{range_words(scoping)}.", sum_words(scoping)]
    made += ["", "Defaults, not the shop’s figures:"] if scoping.defaults else [""]
    made += [f"  {each.what}: {each.words} ({each.source})" for each in scoping.defaults]
    made.append("Nothing here is a promise: what nobody recorded is found out first. Local codes and a licensed "
                "person’s word come first.")  # fmt: skip
    return made


def _maps(scoping: Scoping) -> list[str]:
    sifted = scoping.sifted
    others = f"; {sifted.others} of other cars" if sifted.others else ""
    known = [f"  {each.letter}  {each.file}{f', {each.title}' if each.title else ''}" for each in sifted.could]
    return [f"Maps that it could be: {len(sifted.could) or 'none'}{others}", *known]


def _json(scoping: Scoping) -> dict[str, Any]:
    return {
        "scope": scoping.scope.file,
        "shop": scoping.shop.file if scoping.shop else None,
        "maps": [{"letter": each.letter, "file": each.file, "title": each.title} for each in scoping.sifted.could],
        "maps_of_other_cars": scoping.sifted.others,
        "lines": [_line(each) for each in scoping.lines],
        "minutes": {"low": scoping.low_ms / 60_000, "high": scoping.high_ms / 60_000},
        "labour_rate": {"an_hour": scoping.labour.words, "default": not (scoping.shop and scoping.shop.labour)},
        "labour": {"low": scoping.price(scoping.low_ms).words, "high": scoping.price(scoping.high_ms).words},
        "defaults": [{"what": each.what, "is": each.words, "source": each.source} for each in scoping.defaults],
    }


def _line(line: Line) -> dict[str, Any]:
    return {
        "kind": line.kind,
        "flag": line.flag or None,
        "words": line.words,
        "if": line.condition or None,
        "find_out": line.find_out or None,
        "basis": [
            {"file": each.place.file, "line": each.place.line, "column": each.place.column, "record": each.words}
            for each in line.basis
        ],
        "minutes": {"low": line.low_ms / 60_000, "high": line.high_ms / 60_000} if line.high_ms else None,
        "count": {"low": line.least, "high": line.most} if line.most else None,
        "rates": [{"what": each.what, "is": each.words, "default": each.default} for each in line.rates],
    }
