"""One dimension: its function, what the function's parameters stand for, its kind and reason."""

import ast
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias, TypeVar

from hivecalc.derivation.names import title
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Rounding, written
from hivecalc.stock import Figure

Kind: TypeAlias = Literal["length", "ratio", "count", "answer"]
Formula: TypeAlias = Callable[..., Fraction]
F = TypeVar("F", bound=Formula)

NEAREST_REASON: Final = "A fit like this is as good as a pencil line: take the nearest mark."


class DerivationError(Exception):
    """A dimension that can't stand in the graph: told when the modules are collected."""


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
    """Which way a function's value is rounded: to the nearest mark where nothing else is said.

    >>> rounding_of(max).rounding
    <Rounding.NEAREST: 'nearest'>
    """
    return _RULES.get(function, RoundingRule())


@dataclass(frozen=True)
class Dimension:
    """One dimension: its function, what the function's parameters stand for, and its reason."""

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

    @property
    def title(self) -> str:
        """The name in plain words, without its component."""
        return title(self.name)

    @property
    def as_measured(self) -> bool:
        """Whether this is a measurement under a part's own name, taken as the stock comes."""
        return self.function is _same and self.inputs[0] in MEASUREMENTS


def _same(value: Fraction) -> Fraction:
    return value


def renamed(name: str, component: str, source: str, note: str, rule: RoundingRule) -> Dimension:
    """A part's size that is another dimension or a measurement under the part's own name.

    >>> board = renamed("roof.deck_thickness", "roof", "deck_thickness", "", RoundingRule())
    >>> board.what, board.as_measured
    ('The thickness of the deck.', True)
    """
    size = name.rpartition("_")[2]
    what = f"The {size} of the {title(name).removesuffix(f' {size}')}."
    expression = ast.Name("source", ast.Load())
    return Dimension(
        name, component, (source,), ("source",), _same, expression, "length", what, note, rule
    )


def leaf(name: str, figure: Figure) -> Dimension:
    """A figure of the stock as a dimension that rests on nothing: its source is the reason.

    >>> nail = leaf("nail", Figure(Fraction(5, 4), "Length of the nail.", "common practice"))
    >>> nail.function(), nail.kind, nail.why
    (Fraction(5, 4), 'length', 'common practice')
    """
    shown = ast.Constant(written(figure.value))
    return Dimension(
        name, "stock", (), (), lambda: figure.value, shown, "length", figure.what, figure.source,
        RoundingRule(),
    )  # fmt: skip


def kind_of(name: str, dimensions: Mapping[str, Dimension]) -> Kind:
    """What sort of number stands behind a name: a length, a ratio, a count or an answer.

    >>> kind_of("frames", {}), kind_of("stud_width", {}), kind_of("inner_cover", {})
    ('count', 'length', 'answer')
    """
    if name in dimensions:
        return dimensions[name].kind
    return MEASUREMENTS[name].kind
