"""Dimensions as a graph: a dimension is a function, written once.

Its name says what comes back, its parameters are the dimensions and measurements that it needs,
its docstring says why, its body is the arithmetic. From that text alone come the value, the order
of work, the worked steps and what a change reaches.
"""

import ast
import difflib
import inspect
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from graphlib import CycleError, TopologicalSorter
from types import ModuleType
from typing import Literal, TypeAlias, TypeVar

from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Rounding, Units, written

Kind: TypeAlias = Literal["length", "ratio", "count"]
Values: TypeAlias = dict[str, Fraction]
Formula: TypeAlias = Callable[..., Fraction]
F = TypeVar("F", bound=Formula)

NEAREST_REASON = "A fit like this is as good as a pencil line: take the nearest mark."


class DerivationError(Exception):
    """A dimension that can't stand in the graph: told when the modules are collected."""


class UnknownNameError(LookupError):
    """A name that no dimension and no measurement has: says the nearest ones."""

    def __init__(self, name: str, known: Iterable[str], kind: str = "dimension") -> None:
        self.name = name
        self.nearest = nearest_names(name, known)
        hint = (
            f"did you mean {' or '.join(self.nearest)}?" if self.nearest else "see the parts table."
        )
        super().__init__(f"there is no {kind} called {name[:60]!a}; {hint}")

    def __str__(self) -> str:
        return str(self.args[0])


def nearest_names(name: str, known: Iterable[str]) -> list[str]:
    """At most three known names that are spelt most like this one, the likeliest first.

    >>> nearest_names("side_rail_lenght", ["side_rail_length", "lap"])
    ['side_rail_length']

    A name without its component is found too.

    >>> nearest_names("lap", ["roof.lap", "bottom_board.way_in"])
    ['roof.lap']
    """
    names = list(known)
    same_ending = [n for n in names if n.rpartition(".")[2] == name.rpartition(".")[2]]
    return same_ending[:3] or difflib.get_close_matches(name[:60], names, n=3, cutoff=0.6)


@dataclass(frozen=True)
class RoundingRule:
    """Which way a dimension is rounded on the cutting list, and why."""

    rounding: Rounding = Rounding.NEAREST
    reason: str = NEAREST_REASON


_RULES: dict[Formula, RoundingRule] = {}


def rounds(rounding: Rounding, reason: str) -> Callable[[F], F]:
    """A decorator that says which way a dimension is rounded, and why."""

    def marked(function: F) -> F:
        _RULES[function] = RoundingRule(rounding, reason)
        return function

    return marked


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


@dataclass(frozen=True)
class Step:
    """One worked step: the formula in words, the same with numbers, the value and the reason."""

    dimension: str
    formula: str
    numbers: str
    value: Fraction
    shown: str
    why: str


@dataclass(frozen=True)
class Change:
    """A dimension whose value differs between two hives."""

    name: str
    old: Fraction
    new: Fraction


def title(name: str) -> str:
    """A dimension's or measurement's name in plain words, without its component.

    >>> title("bottom_board.side_rail_length")
    'side rail length'
    """
    return name.rpartition(".")[2].replace("_", " ")


def kind_of(name: str, dimensions: Mapping[str, Dimension]) -> Kind:
    """What sort of number stands behind a name: a length, a ratio or a count."""
    if name in dimensions:
        return dimensions[name].kind
    return "count" if MEASUREMENTS[name].kind == "count" else "length"


def number(value: Fraction, kind: Kind, units: Units = "inch") -> str:
    """A value as it stands in a worked step, "≈" before it where it was rounded to be shown.

    >>> number(Fraction(45, 2), "length"), number(Fraction(10), "count")
    ('22 1/2', '10')
    """
    if kind == "count":
        return str(value)
    return written(value, "inch" if kind == "ratio" else units)


_SIGNS: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: ("+", 1),
    ast.Sub: ("−", 1),
    ast.Mult: ("×", 2),
    ast.Div: ("÷", 2),
}
_CALLS = {"max": "the larger of", "min": "the smaller of"}


def line(expression: ast.expr, words: Mapping[str, str]) -> str:
    """An expression as a builder writes it, each name replaced by its word or number.

    >>> body = ast.parse("a - (b - 2 * c)", mode="eval").body
    >>> line(body, {"a": "9 1/2", "b": "3", "c": "1/4"})
    '9 1/2 − (3 − 2 × 1/4)'
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


def _arithmetic(function: ast.FunctionDef, place: str) -> ast.expr:
    """The one expression that a dimension's body returns; anything else is an error."""
    body = function.body[1:] if ast.get_docstring(function) else function.body
    if len(body) != 1 or not isinstance(body[0], ast.Return) or body[0].value is None:
        raise DerivationError(f"{place}: the body must be one line of arithmetic, returned")
    expression = body[0].value
    line(expression, {a.arg: "1" for a in function.args.args})
    return expression


def _prose(docstring: str) -> tuple[str, str]:
    """What a dimension is, and why: its docstring's first line, and the text before examples."""
    what, _, rest = inspect.cleandoc(docstring).partition("\n\n")
    why = rest.partition(">>>")[0]
    return " ".join(what.split()), " ".join(why.split())


class Graph:
    """All dimensions of some modules, checked once: every name known, nothing in a circle."""

    def __init__(self, dimensions: Iterable[Dimension], components: Iterable[str]) -> None:
        self.dimensions = {d.name: d for d in dimensions}
        self.components = tuple(components)
        self._order = self._sorted()
        self._plan = lru_cache(maxsize=256)(self._planned)

    def _sorted(self) -> tuple[Dimension, ...]:
        inner = {
            n: [i for i in d.inputs if i in self.dimensions] for n, d in self.dimensions.items()
        }
        try:
            return tuple(self.dimensions[n] for n in TopologicalSorter(inner).static_order())
        except CycleError as error:
            circle = " → ".join(error.args[1])
            raise DerivationError(
                f"these dimensions need each other in a circle: {circle}"
            ) from None

    def dimension(self, name: str) -> Dimension:
        """The dimension of this full name; raises UnknownNameError with the nearest names."""
        if name not in self.dimensions:
            raise UnknownNameError(name, self.dimensions)
        return self.dimensions[name]

    def names(self, components: Iterable[str] | None = None) -> tuple[str, ...]:
        """The full names of these components' dimensions, in the order they stand in the text."""
        wanted = set(self.components if components is None else components)
        return tuple(n for n, d in self.dimensions.items() if d.component in wanted)

    def _planned(self, known: frozenset[str], components: tuple[str, ...]) -> tuple[Dimension, ...]:
        needed, waiting = set[str](), list(self.names(components))
        while waiting:
            name = waiting.pop()
            if name in needed or name in known or name not in self.dimensions:
                continue
            needed.add(name)
            waiting += self.dimensions[name].inputs
        return tuple(d for d in self._order if d.name in needed)

    def values(
        self,
        measurements: Mapping[str, Fraction],
        given: Mapping[str, Fraction] | None = None,
        components: tuple[str, ...] | None = None,
    ) -> Values:
        """The value of every dimension of these components, with the measurements beside them.

        `given` replaces any dimension or measurement by a value: a learner's answer, a measured
        piece, a wrong cut. Keys are full names, values Fractions of an inch.
        """
        found: Values = {**measurements, **(given or {})}
        known = frozenset(self.dimensions.keys() & found.keys())
        for d in self._plan(known, components or self.components):
            found[d.name] = d.function(*[found[i] for i in d.inputs])
        return found

    def _walk(self, name: str, known: frozenset[str]) -> Iterator[str]:
        """The names that a dimension rests on and at last itself, deepest first, each once."""
        seen: set[str] = set()

        def visit(n: str) -> Iterator[str]:
            if n in seen:
                return
            seen.add(n)
            for i in self.dimensions[n].inputs if self._derived(n, known) else ():
                yield from visit(i)
            yield n

        return visit(name)

    def _derived(self, name: str, known: frozenset[str]) -> bool:
        return name in self.dimensions and name not in known

    def steps(
        self,
        name: str,
        measurements: Mapping[str, Fraction],
        given: Mapping[str, Fraction] | None = None,
        units: Units = "inch",
    ) -> list[Step]:
        """The worked steps down to what was measured or given: deepest first, each once."""
        top = self.dimension(name)
        known = frozenset({*measurements, *(given or {})})
        values = self.values(measurements, given, (top.component,))
        walk = (n for n in self._walk(name, known) if self._derived(n, known))
        return [self._step(self.dimensions[n], values, units) for n in walk]

    def _step(self, d: Dimension, values: Values, units: Units) -> Step:
        pairs = list(zip(d.parameters, d.inputs, strict=True))
        numbers = {p: number(values[i], kind_of(i, self.dimensions), units) for p, i in pairs}
        words = {p: title(i) for p, i in pairs}
        formula = line(d.expression, words)
        shown = number(values[d.name], d.kind, units)
        return Step(d.name, formula, line(d.expression, numbers), values[d.name], shown, d.why)

    def rests_on(self, name: str, known: Iterable[str] = ()) -> tuple[str, ...]:
        """The measurements (and names taken as known) that a dimension is made from."""
        self.dimension(name)
        fixed = frozenset(known)
        return tuple(n for n in self._walk(name, fixed) if not self._derived(n, fixed))

    def reached_by(self, name: str, known: Iterable[str] = ()) -> tuple[str, ...]:
        """The dimensions that change when this measurement or dimension changes, in order."""
        if name not in MEASUREMENTS and name not in self.dimensions:
            raise UnknownNameError(name, [*MEASUREMENTS, *self.dimensions], "measurement")
        reached, fixed = {name}, frozenset(known)
        for d in self._order:
            if d.name not in fixed and reached.intersection(d.inputs):
                reached.add(d.name)
        return tuple(n for n in self.dimensions if n in reached and n != name)


def changes(old: Values, new: Values) -> list[Change]:
    """The values that differ between two hives, in the order of the first.

    >>> changes({"a": Fraction(1), "b": Fraction(2)}, {"a": Fraction(1), "b": Fraction(3)})
    [Change(name='b', old=Fraction(2, 1), new=Fraction(3, 1))]
    """
    return [Change(n, old[n], new[n]) for n in old if n in new and old[n] != new[n]]


def collected(*modules: ModuleType) -> Graph:
    """The graph of all dimensions in these modules, a module being a component.

    Public functions are dimensions, in the order they stand. A function named as a measurement
    gives that measurement where it was not measured. A module's PARTS give each part its
    thickness, width and length under the part's own name. Raises DerivationError.
    """
    components = {m.__name__.rpartition(".")[2]: m for m in modules}
    named = {
        _full_name(component, node.name): (component, node, module)
        for component, module in components.items()
        for node in _functions(module)
    }
    sources = _part_sources(components, named)
    resolver = _Resolver({*MEASUREMENTS, *named, *sources}, tuple(components))
    dims = {n: _dimension(n, *entry, resolver) for n, entry in named.items()}
    for name, (component, source, note) in sources.items():
        dims[name] = _renamed(name, component, resolver.full(component, source, name), note, dims)
    return Graph((d for c in components for d in dims.values() if d.component == c), components)


def _functions(module: ModuleType) -> Iterator[ast.FunctionDef]:
    for node in ast.parse(inspect.getsource(module)).body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node


def _full_name(component: str, name: str) -> str:
    return name if name in MEASUREMENTS else f"{component}.{name}"


def _part_sources(
    components: Mapping[str, ModuleType], named: Mapping[str, object]
) -> dict[str, tuple[str, str, str]]:
    """The sizes of parts that no function of that name gives: full name → where it comes from."""
    return {
        f"{component}.{part.name}_{size}": (component, source, part.note)
        for component, module in components.items()
        for part in getattr(module, "PARTS", ())
        for size, source in part.sizes()
        if f"{component}.{part.name}_{size}" not in named
    }


@dataclass(frozen=True)
class _Resolver:
    """Which full name a parameter stands for."""

    known: set[str]
    components: tuple[str, ...]

    def full(self, component: str, parameter: str, own: str) -> str:
        """The measurement, else its own component's dimension, else that of the one it names."""
        candidates = [parameter, f"{component}.{parameter}"]
        candidates += [
            f"{c}.{parameter.removeprefix(f'{c}_')}"
            for c in self.components
            if parameter.startswith(f"{c}_")
        ]
        for candidate in candidates:
            if candidate in self.known and candidate != own:
                return candidate
        hint = nearest_names(candidates[1], self.known)
        raise DerivationError(
            f"{own}: {parameter!r} is no measurement and no dimension; near: {hint}"
        )


def _dimension(
    name: str, component: str, node: ast.FunctionDef, module: ModuleType, resolver: _Resolver
) -> Dimension:
    function: Formula = getattr(module, node.name)
    parameters = tuple(a.arg for a in node.args.args)
    what, why = _prose(ast.get_docstring(node) or "")
    return Dimension(
        name=name,
        component=component,
        inputs=tuple(resolver.full(component, p, name) for p in parameters),
        parameters=parameters,
        function=function,
        expression=_arithmetic(node, name),
        kind=_kind(node, name),
        what=what,
        why=why,
        rule=_RULES.get(function, RoundingRule()),
    )


def _kind(node: ast.FunctionDef, name: str) -> Kind:
    kinds: dict[str, Kind] = {"Length": "length", "Ratio": "ratio"}
    returned = ast.unparse(node.returns) if node.returns else "nothing"
    if returned not in kinds:
        raise DerivationError(f"{name}: must return a Length or a Ratio, not {returned}")
    return kinds[returned]


def _same(value: Fraction) -> Fraction:
    return value


def _renamed(
    name: str, component: str, source: str, note: str, dims: Mapping[str, Dimension]
) -> Dimension:
    """A part's size that is some other dimension or a measurement under the part's own name."""
    rule = dims[source].rule if source in dims else RoundingRule()
    size = name.rpartition("_")[2]
    what = f"The {size} of the {title(name).removesuffix(f' {size}')}."
    expression = ast.Name(id="source")
    return Dimension(
        name, component, (source,), ("source",), _same, expression, "length", what, note, rule
    )
