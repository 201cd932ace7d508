"""The basis: where each figure on this paper comes from, and which of them the shop may change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from typing import TYPE_CHECKING

from harness.checks import all_checks
from harness.checks.registry import Check
from harness.planning.bases import numbered
from harness.presets import preset
from render.blocks import Block, Column, Grid, Para, Sheet, Strong
from render.documents import document
from render.documents.wording import or_not_recorded

if TYPE_CHECKING:
    from harness.prove import Proof


@document("basis", title="Basis", order=30)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who doubts a number: who says so."""
    yield Sheet("basis", "Basis of the figures", tuple(_blocks(proof)))


_ENTRY_COLUMNS = (
    Column("No.", 0.1), Column("Entry", 1.5), Column("Says", 3.5), Column("Source", 2.8), Column("Kind", 1.3),
)  # fmt: skip
_RULE_COLUMNS = (
    Column("Code", 0.1), Column("Finding", 3), Column("Source of the rule", 5), Column("Entries", 1),
)  # fmt: skip


def _blocks(proof: Proof) -> Iterator[Block]:
    name = proof.report.preset
    try:
        chosen = preset(name)
    except KeyError:
        yield Para(f"Preset: {or_not_recorded(name)}. No choices are known by this name.")
    else:
        yield Para(
            f"Preset {chosen.name}: {chosen.words}; fuse chart {chosen.fuse_chart}. Another shop's preset may find "
            "other things. A job changes the first entries under `limits`."
        )
    entries = tuple(
        (Strong(str(each.number)), each.key, each.says, each.source, each.kind) for each in numbered(name, proof.job)
    )
    yield Grid(_ENTRY_COLUMNS, entries, caption="What is computed with")
    told = {finding.code: finding.title for finding in proof.report.findings if finding.code in _rules()}
    if told:
        numbers = {each.key: each.number for each in numbered(name, proof.job)}
        rules = tuple(
            (Strong(code), title, _rules()[code].source, ", ".join(str(numbers[key]) for key in _rules()[code].bases))
            for code, title in sorted(told.items())
        )
        yield Grid(_RULE_COLUMNS, rules, caption="What the findings rest on")


@cache
def _rules() -> dict[str, Check]:
    return {each.code: each for each in all_checks()}
