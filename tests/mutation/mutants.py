"""Small changes of a source, each of which a test must notice.

Left out, since nothing that is looked at could change: words; `strict=True` of a zip, a guard against the programmer
alone; how wide a margin for rounding is, and whether its very end counts (`<` for `<=` beside `1 + 1e-9`), for no sum
meets that exactly. Whether there is a margin, and on which side, is changed all the same.
"""

from __future__ import annotations

import ast
import copy
from collections.abc import Callable, Collection, Iterator
from typing import NamedTuple

Change = Callable[[ast.AST], ast.AST | None]


class Mutant(NamedTuple):
    """One change: the file, the lines of the statement that holds it, its number in the file, and what is done."""

    file: str
    line: int
    statement: tuple[int, int]
    number: int
    what: str


_NO = (type(None), bool)
_ROUNDING = 1e-6  # a margin for rounding may be half again as wide: nothing that is looked at would change
_COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_COMPUTED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr, ast.Pow: ast.Mult, ast.Mod: ast.Mult, ast.FloorDiv: ast.Mult,
}  # fmt: skip


def mutants_of(source: str, file: str) -> list[Mutant]:
    """Every change of one source, in the order of its text."""
    return [
        Mutant(file, getattr(node, "lineno", lines[0]), lines, number, what)
        for number, (node, lines, what, _) in enumerate(_changes(ast.parse(source)))
    ]


def mutated(source: str, number: int) -> ast.Module:
    """The tree of a source with the change of that number made."""
    tree = ast.parse(source)
    for at, (node, _, _, change) in enumerate(_changes(tree)):
        if at == number:
            new = change(copy.deepcopy(node))
            _replace(tree, node, new)
            return ast.fix_missing_locations(tree)
    raise IndexError(number)


def rewritten(source: str, number: int) -> str:
    """The text of a source with the change of that number made, and every other line and remark as it was."""
    for at, (node, _, _, change) in enumerate(_changes(ast.parse(source))):
        if at == number:
            assert isinstance(node, ast.expr | ast.stmt)
            assert node.end_col_offset is not None
            lines = source.encode().splitlines(keepends=True)
            first, last = node.lineno - 1, (node.end_lineno or node.lineno) - 1
            new = ast.unparse(ast.fix_missing_locations(change(copy.deepcopy(node)) or node))
            text = f"({new})" if isinstance(node, ast.expr) else new
            lines[first : last + 1] = [
                lines[first][: node.col_offset] + text.encode() + lines[last][node.end_col_offset :]
            ]
            return b"".join(lines).decode()
    raise IndexError(number)


class _Site(NamedTuple):
    node: ast.AST
    lines: tuple[int, int]
    what: str
    change: Change


def _changes(tree: ast.Module) -> Iterator[_Site]:
    """Where something can be changed. Words of messages, docstrings, imports and annotations are left alone."""
    margins = {
        target.id
        for statement in tree.body
        if isinstance(statement, ast.Assign) and _is_margin(statement.value, frozenset())
        for target in statement.targets
        if isinstance(target, ast.Name)
    }
    for statement in _statements(tree):
        lines = (statement.lineno, _last_own_line(statement))
        if isinstance(statement, ast.Continue):
            yield _Site(statement, lines, "continue becomes break", lambda node: ast.copy_location(ast.Break(), node))
        elif isinstance(statement, ast.Return) and statement.value is not None:
            # None is False wherever one asks; True and False are turned
            if not (isinstance(statement.value, ast.Constant) and isinstance(statement.value.value, _NO)):
                yield _Site(statement, lines, "returns None", _return_none)
        elif isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Call | ast.Yield | ast.YieldFrom):
            yield _Site(statement, lines, "left out", lambda node: ast.copy_location(ast.Pass(), node))
        for node in _expressions(statement):
            if isinstance(node, ast.Compare) and any(_is_margin(each, margins) for each in ast.walk(node)):
                continue
            for what, change in _of_expression(node):
                yield _Site(node, lines, what, change)


def _of_expression(node: ast.AST) -> Iterator[tuple[str, Change]]:
    match node:
        case ast.Compare(ops=[one]) if type(one) in _COMPARED:
            other = _COMPARED[type(one)]
            yield f"{type(one).__name__} becomes {other.__name__}", lambda each: _with(each, ops=[other()])
        case ast.BoolOp():
            other_op = ast.Or if isinstance(node.op, ast.And) else ast.And
            yield f"becomes {other_op.__name__.lower()}", lambda each: _with(each, op=other_op())
            for at in range(len(node.values)):
                yield f"part {at + 1} left out", lambda each, at=at: _without(each, at)
        case ast.UnaryOp(op=ast.Not()):
            yield "not left out", lambda each: each.operand  # type: ignore[attr-defined,no-any-return]
        case ast.UnaryOp(op=ast.USub()) if not isinstance(node.operand, ast.Constant):
            yield "minus left out", lambda each: each.operand  # type: ignore[attr-defined,no-any-return]
        case ast.BinOp() if type(node.op) in _COMPUTED:
            op = _COMPUTED[type(node.op)]
            yield f"{type(node.op).__name__} becomes {op.__name__}", lambda each: _with(each, op=op())
        case ast.IfExp():
            yield "condition turned", lambda each: _with(each, body=each.orelse, orelse=each.body)  # type: ignore[attr-defined]
        case ast.Constant(value=bool()):
            yield f"{node.value} turned", lambda each: _with(each, value=not each.value)  # type: ignore[attr-defined]
        case ast.Constant(value=int() | float()) if not _is_margin(node, ()):
            new = node.value + 1 if isinstance(node.value, int) else node.value * 1.5 + 0.01 * (node.value == 0)
            yield f"{node.value} becomes {new}", lambda each: _with(each, value=new)


def _is_margin(node: ast.AST, names: Collection[str]) -> bool:
    if isinstance(node, ast.Name):
        return node.id in names
    return isinstance(node, ast.Constant) and isinstance(node.value, float) and 0 < node.value <= _ROUNDING


def _statements(tree: ast.AST) -> Iterator[ast.stmt]:
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.Import | ast.ImportFrom):
            continue
        if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            continue
        if isinstance(node, ast.stmt):
            yield node
            yield from _statements(node)
        elif isinstance(node, ast.ExceptHandler | ast.match_case):
            yield from _statements(node)


def _expressions(statement: ast.stmt) -> Iterator[ast.AST]:
    """The expressions of a statement itself: no statements in it, no annotations, decorators, messages."""
    skipped = {"body", "orelse", "finalbody", "handlers", "cases", "annotation", "returns", "decorator_list"}
    for name, value in ast.iter_fields(statement):
        if name in skipped and isinstance(statement, ast.stmt):
            continue
        for each in value if isinstance(value, list) else [value]:
            if isinstance(each, ast.AST):
                yield from _within(each)


def _within(node: ast.AST) -> Iterator[ast.AST]:
    if isinstance(node, ast.JoinedStr | ast.arg) or (isinstance(node, ast.keyword) and node.arg == "strict"):
        return
    yield node
    for child in ast.iter_child_nodes(node):
        if not isinstance(child, ast.stmt):
            yield from _within(child)


def _last_own_line(statement: ast.stmt) -> int:
    body = getattr(statement, "body", None)
    if isinstance(body, list) and body:
        return max(statement.lineno, body[0].lineno - 1)
    return statement.end_lineno or statement.lineno


def _return_none(node: ast.AST) -> ast.AST:
    return ast.copy_location(ast.Return(value=None), node)


def _with(node: ast.AST, **fields: object) -> ast.AST:
    for name, value in fields.items():
        setattr(node, name, value)
    return node


def _without(node: ast.AST, at: int) -> ast.AST:
    assert isinstance(node, ast.BoolOp)
    left = [value for number, value in enumerate(node.values) if number != at]
    return left[0] if len(left) == 1 else ast.copy_location(ast.BoolOp(op=node.op, values=left), node)


def _replace(tree: ast.AST, old: ast.AST, new: ast.AST | None) -> None:
    for parent in ast.walk(tree):
        for name, value in ast.iter_fields(parent):
            if value is old:
                setattr(parent, name, new)
                return
            if isinstance(value, list):
                for at, each in enumerate(value):
                    if each is old:
                        value[at] = new
                        return
    raise LookupError("the node is not in the tree")
