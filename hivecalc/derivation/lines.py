"""A dimension's arithmetic as a builder writes it: in words, or with numbers."""

import ast
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Final

from hivecalc.derivation.dimension import DerivationError, Dimension, Kind
from hivecalc.hive import answer_text
from hivecalc.length import Units, decimal_inches, written

_SIGNS: Final[dict[type[ast.operator], tuple[str, int]]] = {
    ast.Add: ("+", 1),
    ast.Sub: ("−", 1),
    ast.Mult: ("×", 2),
    ast.Div: ("÷", 2),
}
_CALLS: Final = {"max": "the larger of", "min": "the smaller of"}


def number(value: Fraction, kind: Kind, units: Units = "inch") -> str:
    """A value as it stands in a worked step, "≈" before it where it was rounded to be shown.

    A ratio is a plain number and so a decimal.

    >>> number(Fraction(45, 2), "length"), number(Fraction(10), "count")
    ('22 1/2', '10')
    >>> number(Fraction(1, 12), "ratio")
    '≈ 0.083'
    """
    if kind == "answer":
        return answer_text(value)
    if kind == "count":
        return str(value)
    return decimal_inches(value) if kind == "ratio" else written(value, units)


def branches(expression: ast.expr) -> tuple[ast.expr, ...]:
    """The plain arithmetic that a formula may come to: one, or two where it asks for something.

    >>> [ast.unparse(b) for b in branches(ast.parse("a - b if b else a", mode="eval").body)]
    ['a - b', 'a']
    """
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
    used = {n.id for n in ast.walk(plain) if isinstance(n, ast.Name)}
    kept = [p for p in dimension.parameters if p in used]
    inputs = tuple(full[p] for p in kept)
    return replace(dimension, expression=plain, parameters=tuple(kept), inputs=inputs)


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
        listed = " and ".join(_bracketed(a, words, 1) for a in expression.args)
        return f"{_CALLS[ast.unparse(expression.func)]} {listed}"
    raise DerivationError(f"a dimension's arithmetic may not hold {ast.unparse(expression)!r}")


def _binary_line(expression: ast.BinOp, words: Mapping[str, str]) -> str:
    sign, rank = _sign(expression)
    left = _bracketed(expression.left, words, rank)
    right = expression.right
    same = isinstance(right, ast.BinOp) and type(right.op) is type(expression.op)
    associative = same and isinstance(expression.op, ast.Add | ast.Mult)
    return f"{left} {sign} {_bracketed(right, words, rank if associative else rank + 1)}"


def _sign(expression: ast.BinOp) -> tuple[str, int]:
    if type(expression.op) not in _SIGNS:
        raise DerivationError(f"a dimension's arithmetic may not hold {ast.unparse(expression)!r}")
    return _SIGNS[type(expression.op)]


def _rank(expression: ast.expr) -> int:
    """How strongly an expression holds together: sums 1, products 2, a name or number 3."""
    if isinstance(expression, ast.BinOp):
        return _sign(expression)[1]
    return 0 if isinstance(expression, ast.Call) else 3


def _bracketed(expression: ast.expr, words: Mapping[str, str], needed: int) -> str:
    text = line(expression, words)
    below_zero = isinstance(expression, ast.Name) and "−" in text
    return f"({text})" if _rank(expression) < needed or below_zero else text
