"""One dimension: its name in plain words, its function, what its parameters mean, its reason."""

import ast
import difflib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final, Literal, TypeAlias, TypeVar

from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Rounding, written
from hivecalc.part import Figure

Kind: TypeAlias = Literal["length", "ratio", "count", "answer"]
Formula: TypeAlias = Callable[..., Fraction]
F = TypeVar("F", bound=Formula)

NEAREST_REASON: Final = "A fit like this is as good as a pencil line: take the nearest mark."


class DerivationError(Exception):
    """A dimension that cannot stand in the graph, told when the modules are collected."""


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

    def __str__(self) -> str:
        return str(self.args[0])


# ── names ─────────────────────────────────────────────────────────────────────────────────────


def nearest_names(name: str, known: Iterable[str]) -> list[str]:
    """At most three known names spelt most like this one, or the same without its component."""
    names = list(known)
    same_ending = [n for n in names if n.rpartition(".")[2] == name.rpartition(".")[2]]
    return same_ending[:3] or difflib.get_close_matches(name[:60], names, n=3, cutoff=0.6)


SAID: Final = {"inner_cover.overall_height": "inner cover height"}
"""Names that say too little without their component, in the words of the bench."""


def title(name: str) -> str:
    """A dimension's or measurement's name in plain words, without its component.

    >>> title("bottom_board.side_rail_length")
    'side rail length'
    """
    return SAID.get(name) or name.rpartition(".")[2].replace("_", " ")


# ── which way it is rounded ───────────────────────────────────────────────────────────────────


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


# ── a dimension ───────────────────────────────────────────────────────────────────────────────


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


def leaf(name: str, figure: Figure) -> Dimension:
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
