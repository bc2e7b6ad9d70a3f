"""A dimension's arithmetic as a tree: compute it, change one thing in it, follow it downstream."""

import ast
from collections.abc import Collection, Mapping
from fractions import Fraction
from functools import lru_cache

from hivecalc.components import DIMENSIONS
from hivecalc.derivation import (
    DerivationError,
    Dimension,
    UnknownNameError,
    Values,
    branches,
    title,
)

COUNTS = frozenset({"frames", "boxes"})
"""Measurements that are no lengths: how many there are of something."""
PLAIN = {"strip_narrow": "strip's narrow side", "strip_wide": "strip's wide side"}


def plain(name: str) -> str:
    """The words for a size: its title, or the trade's way to say it."""
    return PLAIN.get(name) or title(name)


def dimension_in(values: Values, name: str) -> Dimension:
    """The dimension of this name, if these values have it; raises UnknownNameError."""
    found = DIMENSIONS.dimension(name)
    if name not in values:
        here = [n for n in DIMENSIONS.dimensions if n in values]
        raise UnknownNameError(name, here, "dimension in this hive")
    return found


def sizes_in(expression: ast.expr) -> list[str]:
    """The names of the sizes in an arithmetic, each once."""
    found = dict.fromkeys(n.id for n in ast.walk(expression) if isinstance(n, ast.Name))
    return [name for name in found if name not in {"max", "min"}]


def full_named(dimension: Dimension) -> ast.expr:
    """A dimension's arithmetic, freshly made, each parameter under its full name.

    Of a formula with two branches it is the first; `on_hive` settles which one a hive takes.
    """
    names = dict(zip(dimension.parameters, dimension.inputs, strict=True))
    return _renamed(branches(dimension.expression)[0], names)


def _renamed(expression: ast.expr, names: Mapping[str, str]) -> ast.expr:
    if isinstance(expression, ast.Name):
        return ast.Name(id=names[expression.id])
    if isinstance(expression, ast.BinOp):
        left, right = _renamed(expression.left, names), _renamed(expression.right, names)
        return ast.BinOp(left, expression.op, right)
    if isinstance(expression, ast.Call):
        return ast.Call(expression.func, [_renamed(a, names) for a in expression.args], [])
    return expression


def swapped(expression: ast.expr, old: ast.expr, new: ast.expr) -> ast.expr:
    """The same arithmetic with one part of it, old, replaced by another."""
    if expression is old:
        return new
    if isinstance(expression, ast.BinOp):
        left, right = (swapped(e, old, new) for e in (expression.left, expression.right))
        return ast.BinOp(left, expression.op, right)
    if isinstance(expression, ast.Call):
        return ast.Call(expression.func, [swapped(a, old, new) for a in expression.args], [])
    return expression


def computed(expression: ast.expr, values: Mapping[str, Fraction]) -> Fraction:
    """What an arithmetic gives for these values.

    Raises KeyError for a name without a value, ZeroDivisionError.
    """
    if isinstance(expression, ast.Name):
        return values[expression.id]
    if isinstance(expression, ast.Constant) and isinstance(expression.value, int | Fraction):
        return Fraction(expression.value)
    if isinstance(expression, ast.BinOp):
        left, right = computed(expression.left, values), computed(expression.right, values)
        if isinstance(expression.op, ast.Add):
            return left + right
        if isinstance(expression.op, ast.Sub):
            return left - right
        return left * right if isinstance(expression.op, ast.Mult) else left / right
    if isinstance(expression, ast.Call):
        chosen = max if ast.unparse(expression.func) == "max" else min
        return chosen(computed(a, values) for a in expression.args)
    raise DerivationError(f"a dimension's arithmetic may not hold {ast.dump(expression)!r}")


def before(name: str, known: Collection[str], most: int = 2) -> dict[str, int]:
    """The dimensions that lead to this one, with how many steps before it they stand.

    known are the names that were measured and so are no steps; those further back than most
    steps are left out.
    """
    found, edge = dict[str, int](), [name]
    for distance in range(1, most + 1):
        inputs = [i for n in edge for i in DIMENSIONS.dimensions[n].inputs]
        edge = [i for i in dict.fromkeys(inputs) if is_step(i, known) and i not in found]
        if not edge:
            break
        found.update(dict.fromkeys(edge, distance))
    return found


@lru_cache(maxsize=512)
def has_choice(name: str) -> bool:
    """Whether a dimension takes the larger or the smaller of some sizes."""
    return any(isinstance(n, ast.Call) for n in ast.walk(DIMENSIONS.dimensions[name].expression))


def in_order(name: str, known: Collection[str]) -> tuple[str, ...]:
    """The steps to this dimension, the deepest first and itself last."""
    inputs = DIMENSIONS.dimensions[name].inputs if is_step(name, known) else ()
    deeper = [n for i in inputs if is_step(i, known) for n in in_order(i, known)]
    return (*dict.fromkeys(deeper), name)


def is_step(name: str, known: Collection[str]) -> bool:
    """Whether a name is worked out, and not measured."""
    return name in DIMENSIONS.dimensions and name not in known


def worked_on(
    name: str, values: Values, given: Mapping[str, Fraction], known: Collection[str]
) -> Fraction:
    """The value of a dimension where some before it have other values; the rest stands in values.

    Raises ZeroDivisionError where the other values divide by nothing.
    """
    if name in given:
        return given[name]
    if not is_step(name, known):
        return values[name]
    dimension = DIMENSIONS.dimensions[name]
    inputs = [worked_on(i, values, given, known) for i in dimension.inputs]
    return dimension.function(*inputs)
