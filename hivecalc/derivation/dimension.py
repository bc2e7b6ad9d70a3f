"""One dimension: its name, function and reason; its arithmetic read, and written as a builder does.

The arithmetic may hold + − × ÷, max and min, or two such and the measurement that decides:
`a if b else c`. Where a parameter is all pieces of a part (`Lengths`), it stands in `max(*sides)`,
`min(*sides)`, `sum(sides)` or `difference(*sides)`.
"""

import ast
import difflib
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, reduce
from typing import Final, Literal, TypeAlias, TypeVar

from hivecalc.fractions_in_words import SIGNS
from hivecalc.hive import MEASUREMENTS, answer_text
from hivecalc.length import Length, Rounding, Units, decimal_inches, written
from hivecalc.part import TradeSize

Kind: TypeAlias = Literal["length", "ratio", "count", "answer"]
Formula: TypeAlias = Callable[..., Fraction]
F = TypeVar("F", bound=Formula)

NEAREST_REASON: Final = "A fit like this is as good as a pencil line: take the nearest mark."


class DerivationError(Exception):
    """A dimension that cannot stand in the graph, found when the modules are collected."""


class UnknownNameError(LookupError):
    """A name that no dimension and no measurement has: says the nearest ones.

    >>> str(UnknownNameError("lap", ["roof.lap"]))
    "there is no dimension called 'lap'; did you mean roof.lap?"
    """

    def __init__(self, name: str, known: Iterable[str], kind: str = "dimension") -> None:
        self.name = name
        self.nearest = nearest_names(name, known)
        hint = (
            f"did you mean {' or '.join(self.nearest)}?" if self.nearest else "see the parts table."
        )
        super().__init__(f"there is no {kind} called {name[:60]!a}; {hint}")


# ── names ─────────────────────────────────────────────────────────────────────────────────────────


def nearest_names(name: str, known: Iterable[str]) -> list[str]:
    """At most three known names spelt most like this one, or the same without its component."""
    names = list(known)
    same_ending = [n for n in names if n.rpartition(".")[2] == name.rpartition(".")[2]]
    return same_ending[:3] or difflib.get_close_matches(name[:60], names, n=3, cutoff=0.6)


SAID: Final = {"inner_cover.overall_height": "inner cover height"}
"""Names that say too little without their component, in the words of the bench."""


def title(name: str) -> str:
    """The name of a size, a part or a component in plain words, without what stands before a dot.

    >>> title("bottom_board.side_rail_length")
    'side rail length'
    """
    return SAID.get(name) or name.rpartition(".")[2].replace("_", " ")


# ── which way it is rounded ───────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class RoundingRule:
    """Which way a dimension is rounded on the cutting list, and why."""

    rounding: Rounding = Rounding.NEAREST
    reason: str = NEAREST_REASON


_RULES: Final[dict[Formula, RoundingRule]] = {}


def rounds(rounding: Rounding, reason: str) -> Callable[[F], F]:
    """A decorator that says which way a dimension is rounded, and why.

    >>> @rounds(Rounding.DOWN, "It must slide.")
    ... def drawer_width(box_width: Fraction) -> Fraction:
    ...     return box_width - Fraction(1, 8)
    >>> rounding_of(drawer_width).reason
    'It must slide.'
    """

    def marked(function: F) -> F:
        _RULES[function] = RoundingRule(rounding, reason)
        return function

    return marked


def rounding_of(function: Formula) -> RoundingRule:
    """Which way a function's value is rounded: to the nearest mark where nothing else is said."""
    return _RULES.get(function, RoundingRule())


# ── a dimension ───────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Dimension:
    """One dimension: its function, what the function's parameters stand for, and its reason.

    `expression` is the function's arithmetic over `parameters`, and `inputs` are their full names.
    Where the function takes all pieces of a part in one parameter, each piece has its own here.
    """

    name: str
    component: str
    inputs: tuple[str, ...]
    parameters: tuple[str, ...]
    function: Formula
    expression: ast.expr
    kind: Kind
    what: str
    why: str
    rule: RoundingRule
    by_piece: bool = False

    @property
    def title(self) -> str:
        """The name in plain words, without its component."""
        return title(self.name)

    @property
    def as_measured(self) -> bool:
        """Whether this is a measurement under a part's own name, taken as the stock comes."""
        return self.function is _same and self.inputs[0] in MEASUREMENTS

    @cached_property
    def full_names(self) -> dict[str, str]:
        """The full name of what each parameter stands for."""
        return dict(zip(self.parameters, self.inputs, strict=True))

    @cached_property
    def compute(self) -> Formula:
        """What gives the value for the inputs, in their order."""
        if not self.by_piece:
            return self.function
        return compiled(self.parameters, self.expression, {"max": max, "min": min})


def compiled(
    parameters: Iterable[str], expression: ast.expr, choices: Mapping[str, object]
) -> Formula:
    """A function of these parameters that works out an arithmetic, with these `max` and `min`."""
    names = ast.arguments([], [ast.arg(p) for p in parameters], None, [], [], None, [])
    whole = ast.fix_missing_locations(ast.Expression(ast.Lambda(names, expression)))
    function: Formula = eval(  # noqa: S307 - the arithmetic of our own modules, checked before
        compile(whole, "<formula>", "eval"), {"__builtins__": {}, **choices}
    )
    return function


def _same(value: Fraction) -> Fraction:
    return value


def renamed(name: str, component: str, source: str, note: str, rule: RoundingRule) -> Dimension:
    """A part's size that is another dimension or a measurement under the part's own name."""
    size = name.rpartition("_")[2]
    what = f"The {size} of the {title(name).removesuffix(f' {size}')}."
    expression = ast.Name("source", ast.Load())
    return Dimension(
        name, component, (source,), ("source",), _same, expression, "length", what, note, rule
    )


def leaf(name: str, figure: TradeSize) -> Dimension:
    """A figure as a dimension that rests on nothing: its source is the reason."""
    shown = ast.Constant(written(figure.value))
    return Dimension(
        name, "stock", (), (), lambda: figure.value, shown, "length", figure.what, figure.source,
        RoundingRule(),
    )  # fmt: skip


def kind_of(name: str, dimensions: Mapping[str, Dimension]) -> Kind:
    """What sort of number stands behind a name: a length, a ratio, a count or an answer."""
    if name in dimensions:
        return dimensions[name].kind
    return MEASUREMENTS[name].kind


def difference(*lengths: Length) -> Length:
    """The largest of these lengths less the smallest."""
    return max(lengths) - min(lengths)


# ── its arithmetic, read ──────────────────────────────────────────────────────────────────────────


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
    if not pieces and "difference" not in sizes_in(expression):
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
    full = dimension.full_names
    plain = settled(dimension.expression, {p: values.get(i) for p, i in full.items()})
    used = sizes_in(plain)
    kept = [p for p in dimension.parameters if p in used]
    inputs = tuple(full[p] for p in kept)
    return replace(dimension, expression=plain, parameters=tuple(kept), inputs=inputs)


# ── its arithmetic, changed ────────────────────────────────────────────────────────────────────


def sizes_in(expression: ast.expr) -> list[str]:
    """The names of the sizes in an arithmetic, each once."""
    found = dict.fromkeys(n.id for n in ast.walk(expression) if isinstance(n, ast.Name))
    return [name for name in found if name not in _CALLS]


def full_named(dimension: Dimension) -> ast.expr:
    """A dimension's arithmetic, freshly made, each parameter under its full name.

    Of a formula with two branches it is the first; `on_hive` settles which one a hive takes.
    """
    names = dimension.full_names

    def with_full_name(part: ast.expr) -> ast.expr | None:
        return ast.Name(id=names[part.id]) if isinstance(part, ast.Name) else None

    return _made_anew(branches(dimension.expression)[0], with_full_name)


def swapped(expression: ast.expr, old: ast.expr, new: ast.expr) -> ast.expr:
    """The same arithmetic with one part of it, old, replaced by another."""
    return _made_anew(expression, lambda part: new if part is old else None)


def _made_anew(expression: ast.expr, other: Callable[[ast.expr], ast.expr | None]) -> ast.expr:
    """The same arithmetic, freshly made, with the other part instead where there is one."""
    instead = other(expression)
    if instead is not None:
        return instead
    if isinstance(expression, ast.BinOp):
        left, right = (_made_anew(e, other) for e in (expression.left, expression.right))
        return ast.BinOp(left, expression.op, right)
    if isinstance(expression, ast.Call):
        return ast.Call(expression.func, [_made_anew(a, other) for a in expression.args], [])
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


# ── its arithmetic, written ───────────────────────────────────────────────────────────────────────


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


_CALLS: Final = {"max": ("larger", "largest"), "min": ("smaller", "smallest")}


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
        sign, rank = _sign(expression)
        right = expression.right
        same = isinstance(right, ast.BinOp) and type(right.op) is type(expression.op)
        associative = same and isinstance(expression.op, ast.Add | ast.Mult)
        after = _bracketed(right, words, rank if associative else rank + 1)
        return f"{_bracketed(expression.left, words, rank)} {sign} {after}"
    if isinstance(expression, ast.Call) and ast.unparse(expression.func) in _CALLS:
        *first, last = (_bracketed(a, words, 1) for a in expression.args)
        which = _CALLS[ast.unparse(expression.func)][len(first) > 1]
        return f"the {which} of {', '.join(first)} and {last}"
    raise DerivationError(f"a dimension's arithmetic may not hold {ast.unparse(expression)!r}")


def _sign(expression: ast.BinOp) -> tuple[str, int]:
    """The sign between two parts, and how strongly it holds them: sums 1, products 2."""
    if type(expression.op) not in SIGNS:
        raise DerivationError(f"a dimension's arithmetic may not hold {ast.unparse(expression)!r}")
    return SIGNS[type(expression.op)], 1 if isinstance(expression.op, ast.Add | ast.Sub) else 2


def _bracketed(expression: ast.expr, words: Mapping[str, str], needed: int) -> str:
    """An expression in brackets where it holds together less than its place needs it to."""
    text = line(expression, words)
    loose = isinstance(expression, ast.Call)
    if isinstance(expression, ast.BinOp):
        loose = _sign(expression)[1] < needed
    elif isinstance(expression, ast.Name):
        loose = "−" in text  # a figure below zero
    return f"({text})" if loose else text
