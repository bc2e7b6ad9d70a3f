"""A dimension's arithmetic: read from its function's text, and written as a builder writes it.

It may hold + − × ÷, max and min, or two such and the measurement that decides: `a if b else c`.
Where a parameter is all pieces of a part (`Lengths`), it stands in `max(*sides)`, `min(*sides)`,
`sum(sides)` or `difference(*sides)`.
"""

import ast
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import reduce
from typing import Final

from hivecalc.derivation.dimension import DerivationError, Dimension, Kind
from hivecalc.fractions_in_words import SIGNS
from hivecalc.hive import answer_text
from hivecalc.length import Length, Units, decimal_inches, written

_CALLS: Final = {"max": ("larger", "largest"), "min": ("smaller", "smallest")}


def difference(*lengths: Length) -> Length:
    """The largest of these lengths less the smallest."""
    return max(lengths) - min(lengths)


# ── read ──────────────────────────────────────────────────────────────────────────────────────


def arithmetic(function: ast.FunctionDef, place: str) -> ast.expr:
    """The one expression that a dimension's body returns; raises DerivationError for any other."""
    body = function.body[1:] if ast.get_docstring(function) else function.body
    if len(body) != 1 or not isinstance(body[0], ast.Return) or body[0].value is None:
        raise DerivationError(f"{place}: the body must be one line of arithmetic, returned")
    expression = body[0].value
    if isinstance(expression, ast.IfExp) and not isinstance(expression.test, ast.Name):
        raise DerivationError(f"{place}: `if` may only ask whether one measurement is there")
    return expression


def by_piece(expression: ast.expr, pieces: Mapping[str, Sequence[str]]) -> tuple[ast.expr, bool]:
    """An expression written out over each single piece, and whether it is now another one."""
    if not pieces and "difference" not in names_in(expression):
        return expression, False
    return _ByPiece(pieces).visit(expression), True


class _ByPiece(ast.NodeTransformer):
    def __init__(self, pieces: Mapping[str, Sequence[str]]) -> None:
        self.pieces = pieces

    def visit_Call(self, node: ast.Call) -> ast.expr:
        args = [e for a in node.args for e in self._each(a)]
        called = node.func.id if isinstance(node.func, ast.Name) else ""
        if called == "sum":
            return reduce(lambda total, each: ast.BinOp(total, ast.Add(), each), args)
        if called == "difference":
            return ast.BinOp(_call("max", args), ast.Sub(), _call("min", args))
        return ast.Call(node.func, args, [])

    def _each(self, argument: ast.expr) -> list[ast.expr]:
        inner = argument.value if isinstance(argument, ast.Starred) else argument
        if isinstance(inner, ast.Name) and inner.id in self.pieces:
            return [ast.Name(piece, ast.Load()) for piece in self.pieces[inner.id]]
        found: ast.expr = self.visit(argument)
        return [found]


def _call(name: str, args: list[ast.expr]) -> ast.Call:
    return ast.Call(ast.Name(name, ast.Load()), args, [])


def branches(expression: ast.expr) -> tuple[ast.expr, ...]:
    """The plain arithmetic that a formula may come to: one, or two where it asks for something."""
    if isinstance(expression, ast.IfExp):
        return expression.body, expression.orelse
    return (expression,)


def settled(expression: ast.expr, values: Mapping[str, object]) -> ast.expr:
    """The plain arithmetic that a formula comes to for these values of its parameters.

    >>> body = ast.parse("a - b if b else a", mode="eval").body
    >>> ast.unparse(settled(body, {"a": 3, "b": 0}))
    'a'
    """
    if isinstance(expression, ast.IfExp):
        asked = values[ast.unparse(expression.test)]
        return expression.body if asked else expression.orelse
    return expression


def on_hive(dimension: Dimension, values: Mapping[str, object]) -> Dimension:
    """The dimension with the plain arithmetic that it comes to for these values, by full name."""
    if not isinstance(dimension.expression, ast.IfExp):
        return dimension
    full = dict(zip(dimension.parameters, dimension.inputs, strict=True))
    plain = settled(dimension.expression, {p: values.get(i) for p, i in full.items()})
    used = names_in(plain)
    kept = [p for p in dimension.parameters if p in used]
    inputs = tuple(full[p] for p in kept)
    return replace(dimension, expression=plain, parameters=tuple(kept), inputs=inputs)


def names_in(*expressions: ast.expr) -> set[str]:
    """The names that stand in some expressions."""
    return {n.id for e in expressions for n in ast.walk(e) if isinstance(n, ast.Name)}


# ── written ───────────────────────────────────────────────────────────────────────────────────


def number(value: Fraction, kind: Kind, units: Units = "inch") -> str:
    """A value as it stands in a worked step, "≈" before it where it was rounded to be shown.

    >>> number(Fraction(45, 2), "length"), number(Fraction(1, 12), "ratio")
    ('22 1/2', '≈ 0.083')
    """
    if kind == "answer":
        return answer_text(value)
    if kind == "count":
        return str(value)
    return decimal_inches(value) if kind == "ratio" else written(value, units)


def line(expression: ast.expr, words: Mapping[str, str]) -> str:
    """An expression as a builder writes it, each name replaced by its word or number.

    >>> body = ast.parse("a - (b - 2 * c)", mode="eval").body
    >>> line(body, {"a": "9 1/2", "b": "3", "c": "1/4"})
    '9 1/2 − (3 − 2 × 1/4)'

    Raises DerivationError for anything but + − × ÷, max and min.
    """
    if isinstance(expression, ast.Name):
        return words[expression.id]
    if isinstance(expression, ast.Constant):
        return str(expression.value)
    if isinstance(expression, ast.BinOp):
        return _binary_line(expression, words)
    if isinstance(expression, ast.Call) and ast.unparse(expression.func) in _CALLS:
        *first, last = (_bracketed(a, words, 1) for a in expression.args)
        which = _CALLS[ast.unparse(expression.func)][len(first) > 1]
        return f"the {which} of {', '.join(first)} and {last}"
    raise DerivationError(f"a dimension's arithmetic may not hold {ast.unparse(expression)!r}")


def _binary_line(expression: ast.BinOp, words: Mapping[str, str]) -> str:
    sign, rank = _sign(expression)
    left = _bracketed(expression.left, words, rank)
    right = expression.right
    same = isinstance(right, ast.BinOp) and type(right.op) is type(expression.op)
    associative = same and isinstance(expression.op, ast.Add | ast.Mult)
    return f"{left} {sign} {_bracketed(right, words, rank if associative else rank + 1)}"


def _sign(expression: ast.BinOp) -> tuple[str, int]:
    if type(expression.op) not in SIGNS:
        raise DerivationError(f"a dimension's arithmetic may not hold {ast.unparse(expression)!r}")
    return SIGNS[type(expression.op)], 1 if isinstance(expression.op, ast.Add | ast.Sub) else 2


def _rank(expression: ast.expr) -> int:
    """How strongly an expression holds together: sums 1, products 2, a name or number 3."""
    if isinstance(expression, ast.BinOp):
        return _sign(expression)[1]
    return 0 if isinstance(expression, ast.Call) else 3


def _bracketed(expression: ast.expr, words: Mapping[str, str], needed: int) -> str:
    text = line(expression, words)
    below_zero = isinstance(expression, ast.Name) and "−" in text
    return f"({text})" if _rank(expression) < needed or below_zero else text
