"""The work order: every step once, the state after it, and what is at risk at its step."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from harness.prove import prove
from render.blocks import Caution, Grid, Strong
from render.documents.masthead import masthead
from render.documents.work_order import sheets
from render.writers.text import write_text

Text = Callable[[str, str], str]


def order_of(path: Path) -> str:
    proof = prove(path, mends=False, steps=True)
    return " ".join(write_text(tuple(sheets(proof)), masthead(proof)).replace("\N{NO-BREAK SPACE}", " ").split())


def test_each_step_once_with_the_state_after_it(root: Path) -> None:
    """By hand, from the file's own 17 steps: four pairs are cut, which makes 16 bare ends; each of two joins of four
    pairs takes 8 of them; the plug is apart from step 4 to step 12; the battery is off from step 3 to step 14.
    """
    proof = prove(root / "samples" / "hatch-solder-in.yaml", mends=False, steps=True)
    (sheet,) = sheets(proof)
    (grid,) = (block for block in sheet.blocks if isinstance(block, Grid))
    state = {int(str(row[0].text)): row[3] for row in grid.rows if isinstance(row[0], Strong)}
    assert list(state) == list(range(1, 18))
    power = {number: pieces[0].text for number, pieces in state.items()}  # type: ignore[index, union-attr]
    assert {number for number, words in power.items() if words == "battery off"} == set(range(3, 14))
    assert {number for number, words in power.items() if words.endswith("key on")} == set(range(14, 18))
    more = {number: pieces[1:] for number, pieces in state.items() if len(pieces) > 1}  # type: ignore[arg-type, index]
    assert more == {
        4: ("sound apart",), 7: ("16 bare ends",), 8: ("8 bare ends",), 9: ("no bare end left",),
        12: ("every plug together",),
    }  # fmt: skip


def test_a_risk_stands_at_its_step_and_above_all(root: Path) -> None:
    text = order_of(root / "tests/checks/J15/bad_plain.yaml")
    assert "1 STOP in this order: don't begin before it is put right." in text
    assert text.index("STOP J15: With the key on in step 8") > text.index("8 power battery negative on")


def test_a_safe_order_has_no_caution(root: Path) -> None:
    proof = prove(root / "tests/checks/J15/good_key_off_between.yaml", mends=False, steps=True)
    (sheet,) = sheets(proof)
    assert not [block for block in sheet.blocks if isinstance(block, Caution)]
    assert "Each state between the steps was looked at." in order_of(Path(proof.job_path))


def test_it_never_claims_a_look_that_was_not_made(text_of: Text) -> None:
    assert "The states between were not looked at." in text_of("hatch-plug-in", "work-order").replace("\n", " ")
