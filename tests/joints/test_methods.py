"""Joint methods are found by being there, and nobody asks for one by its name."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from harness import presets
from harness.joints import methods
from harness.joints.method import BARES, CUTS, LEAVES, PIERCES


def test_every_file_is_a_method(root: Path) -> None:
    files = {path.stem for path in (root / "harness" / "joints").glob("*.py")} - {"__init__", "method"}

    assert set(methods()) == files
    assert {"mate", "solder", "crimp", "screw", "ring", "push", "pierce"} <= files


@pytest.mark.parametrize("name", sorted(methods()))
def test_a_method_is_whole(name: str) -> None:
    method = methods()[name]

    assert method.name == name
    assert len(method.steps) >= 3
    assert all(step.endswith(".") and step[0].isupper() and len(step) <= 110 for step in method.steps)
    assert method.tools
    assert method.source
    assert method.parts_wire in (LEAVES, BARES, CUTS, PIERCES)
    assert not (method.plugs_in and method.at_terminal)


def test_cover_goes_on_before_the_wires_are_joined() -> None:
    """A sleeve can't be slid over a finished joint."""
    for method in methods().values():
        if method.needs_cover:
            words = [step.lower() for step in method.steps]
            sleeve = next(at for at, step in enumerate(words) if "slide heat-shrink" in step)
            shut = max(at for at, step in enumerate(words) if "shrink the" in step or "cover it" in step)
            assert sleeve < shut


def _compared(tree: ast.AST, names: set[str]) -> list[int]:
    """Lines that compare something with a method's name, or match on it; a colour's mark can be a ring."""
    lines = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Compare):
            sides = [node.left, *node.comparators]
            if any(isinstance(side, ast.Attribute) and side.attr == "mark" for side in sides):
                continue
            for side in sides:
                constants = side.elts if isinstance(side, ast.Tuple | ast.List | ast.Set) else [side]
                if any(isinstance(each, ast.Constant) and each.value in names for each in constants):
                    lines.append(node.lineno)
                    break
        elif isinstance(node, ast.MatchValue):
            value = node.value
            if isinstance(value, ast.Constant) and value.value in names:
                lines.append(value.lineno)
    return lines


SAMPLE = """
if joint.method == "solder" or x in ("crimp", "a"):
    pass
if colour.mark == "ring":
    pass
match m:
    case "ring":
        pass
"""


def test_the_search_sees_a_comparison() -> None:
    assert _compared(ast.parse(SAMPLE), set(methods())) == [2, 2, 7]


def test_nobody_compares_method_names(root: Path) -> None:
    """A new method is one new file: what it needs is asked of its attributes."""
    names = set(methods())
    found = [
        f"{path.relative_to(root).as_posix()}:{line}"
        for top in ("harness", "render")
        for path in sorted((root / top).rglob("*.py"))
        for line in _compared(ast.parse(path.read_text(encoding="utf-8")), names)
    ]

    assert found == []


# -- presets -----------------------------------------------------------------------------------------


def test_presets_name_methods_that_are_there() -> None:
    for name in presets.names():
        for allowed in presets.preset(name).joints.values():
            assert set(allowed.methods) <= set(methods())
            assert allowed.basis


def test_presets_cover_the_same_classes() -> None:
    """Changing the preset must never leave a wire without a rule, nor a figure without a value."""
    one, other = (presets.preset(name) for name in ("house", "crimp"))

    assert set(one.joints) == set(other.joints)
    assert set(one.figures) == set(other.figures)
    assert len(one.joints) == 3 * 6


def test_presets_differ_where_the_trade_does() -> None:
    house, crimp = presets.preset("HOUSE"), presets.preset("crimp")

    assert "solder" in house.allowed("loom", "audio").methods
    assert "solder" not in crimp.allowed("loom", "audio").methods
    assert house.figures["untwist"].value == pytest.approx(0.100)
    assert crimp.figures["untwist"].value == pytest.approx(0.050)
    assert house.figures["fuse distance"].value == pytest.approx(18 * 0.0254)
    assert crimp.figures["fuse distance"].value == pytest.approx(12 * 0.0254)


def test_nothing_is_allowed_on_restraint() -> None:
    for name in presets.names():
        for (_, what), allowed in presets.preset(name).joints.items():
            assert (what == "restraint") == (allowed.methods == ())


def test_unknown_preset() -> None:
    with pytest.raises(KeyError):
        presets.preset("hoose")
    assert presets.names() == ("crimp", "house")
