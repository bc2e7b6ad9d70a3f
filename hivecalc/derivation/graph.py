"""The graph of dimensions: values, worked steps, what a change reaches; and how it is collected.

Modules of functions are read as dimensions: each parameter is looked up once, by its name.
"""

import ast
import inspect
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from graphlib import CycleError, TopologicalSorter
from types import ModuleType
from typing import Final, TypeAlias

from hivecalc.derivation.dimension import (
    DerivationError,
    Dimension,
    Formula,
    Kind,
    RoundingRule,
    UnknownNameError,
    arithmetic,
    branches,
    by_piece,
    kind_of,
    leaf,
    line,
    nearest_names,
    number,
    renamed,
    rounding_of,
    settled,
    sizes_in,
    title,
)
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Units
from hivecalc.part import TradeSize

Values: TypeAlias = dict[str, Fraction]
Plan: TypeAlias = tuple[tuple[str, Formula, tuple[str, ...]], ...]


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


class Graph:
    """All dimensions of some components, checked once: nothing goes in a circle."""

    def __init__(self, dimensions: Iterable[Dimension], components: Iterable[str]) -> None:
        self.dimensions = {d.name: d for d in dimensions}
        self.components = tuple(components)
        self._known = frozenset({*MEASUREMENTS, *self.dimensions})
        self.plan = lru_cache(maxsize=256)(self._planned)
        inner = {
            n: [i for i in d.inputs if i in self.dimensions] for n, d in self.dimensions.items()
        }
        try:
            order = tuple(TopologicalSorter(inner).static_order())
        except CycleError as error:
            circle = " → ".join(error.args[1])
            raise DerivationError(
                f"these dimensions need each other in a circle: {circle}"
            ) from None
        self._order = tuple(self.dimensions[name] for name in order)

    def dimension(self, name: str) -> Dimension:
        """The dimension of this full name; raises UnknownNameError with the nearest names."""
        if name not in self.dimensions:
            raise UnknownNameError(name, self.dimensions)
        return self.dimensions[name]

    def names(self, components: Iterable[str] | None = None) -> tuple[str, ...]:
        """The full names of these components' dimensions, in the order they stand in the text."""
        wanted = set(self.components if components is None else components)
        return tuple(n for n, d in self.dimensions.items() if d.component in wanted)

    def _planned(
        self, known: frozenset[str], components: tuple[str, ...], names: tuple[str, ...] | None
    ) -> Plan:
        """What is worked out for these names, or else for all of these components, in order."""
        needed, waiting = set[str](), list(self.names(components) if names is None else names)
        while waiting:
            name = waiting.pop()
            if name in needed or name in known or name not in self.dimensions:
                continue
            needed.add(name)
            waiting += self.dimensions[name].inputs
        return tuple((d.name, d.compute, d.inputs) for d in self._order if d.name in needed)

    def values(
        self,
        measurements: Mapping[str, Fraction],
        given: Mapping[str, Fraction] | None = None,
        components: tuple[str, ...] | None = None,
        names: tuple[str, ...] | None = None,
    ) -> Values:
        """The value of every dimension of these components, with the measurements beside them.

        >>> from hivecalc.components import DIMENSIONS
        >>> from hivecalc.hive import demo_hive
        >>> wide = {"skirt_width": Fraction(3)}
        >>> DIMENSIONS.values(demo_hive().measurements, wide, ("roof",))["roof.lap"]
        Fraction(5, 8)

        `given` replaces any dimension or measurement by a value: a learner's answer, a measured
        piece, a wrong cut. With `names` only these are worked out, and what they rest on. Keys are
        full names, values Fractions of an inch. Raises UnknownNameError for a name that is neither.
        """
        if given and not self._known.issuperset(given):
            raise self._unknown(given)
        found: Values = {**measurements, **(given or {})}
        known, value = frozenset(self.dimensions.keys() & found.keys()), found.__getitem__
        for name, function, inputs in self.plan(known, components or self.components, names):
            found[name] = function(*map(value, inputs))
        return found

    def _unknown(self, names: Iterable[str], kind: str = "dimension") -> UnknownNameError:
        first = next(n for n in names if n not in self._known)
        return UnknownNameError(first, [*MEASUREMENTS, *self.dimensions], kind)

    def _walk(self, name: str, known: Collection[str], values: Values | None) -> Iterator[str]:
        """The names that a dimension rests on and at last itself, deepest first, each once.

        With values, only what it rests on for these: of a formula with two branches, the one taken.
        """
        seen: set[str] = set()

        def visit(n: str) -> Iterator[str]:
            if n in seen:
                return
            seen.add(n)
            for i in _inputs(self.dimensions[n], values) if self._derived(n, known) else ():
                yield from visit(i)
            yield n

        return visit(name)

    def _derived(self, name: str, known: Collection[str]) -> bool:
        return name in self.dimensions and name not in known

    def in_order(self, name: str, known: Collection[str]) -> tuple[str, ...]:
        """The steps to a dimension, the deepest first and itself last; none to what is known."""
        walk = self._walk(name, known, None)
        return (*(n for n in walk if n != name and self._derived(n, known)), name)

    def before(self, name: str, known: Collection[str], most: int = 2) -> dict[str, int]:
        """The dimensions that lead to this one, with how many steps before it they stand.

        known are the names that were measured and so are no steps; those further back than most
        steps are left out.
        """
        found, edge = dict[str, int](), [name]
        for distance in range(1, most + 1):
            inputs = dict.fromkeys(i for n in edge for i in self.dimensions[n].inputs)
            edge = [i for i in inputs if self._derived(i, known) and i not in found]
            found |= dict.fromkeys(edge, distance)
        return found

    def worked_on(
        self, name: str, values: Values, given: Mapping[str, Fraction], known: Collection[str]
    ) -> Fraction:
        """The value of a dimension where some before it are given; the rest stands in values.

        Raises ZeroDivisionError where the other values divide by nothing.
        """
        if name in given:
            return given[name]
        if not self._derived(name, known):
            return values[name]
        dimension = self.dimensions[name]
        return dimension.function(
            *(self.worked_on(i, values, given, known) for i in dimension.inputs)
        )

    def steps(
        self,
        name: str,
        measurements: Mapping[str, Fraction],
        given: Mapping[str, Fraction] | None = None,
        units: Units = "inch",
    ) -> list[Step]:
        """The worked steps down to what was measured or given: deepest first, each once.

        >>> from hivecalc.components import DIMENSIONS
        >>> from hivecalc.hive import demo_hive
        >>> (step,) = DIMENSIONS.steps("bottom_board.front_rail_width", demo_hive().measurements)
        >>> step.formula, step.numbers, step.shown
        ('stud width − entrance height', '3 1/2 − 3/4', '2 3/4')

        Raises UnknownNameError as `dimension` and `values` do.
        """
        top = self.dimension(name)
        known = frozenset({*measurements, *(given or {})})
        values = self.values(measurements, given, (top.component,))
        walk = (n for n in self._walk(name, known, values) if self._derived(n, known))
        return [self._step(self.dimensions[n], values, units) for n in walk]

    def _step(self, d: Dimension, values: Values, units: Units) -> Step:
        pairs, shown = d.full_names.items(), number(values[d.name], d.kind, units)
        words = {p: title(i) for p, i in pairs}
        numbers = {p: number(values[i], kind_of(i, self.dimensions), units) for p, i in pairs}
        plain = settled(d.expression, {p: values[i] for p, i in pairs})
        lines = (line(plain, words), line(plain, numbers)) if pairs else (shown, shown)
        return Step(d.name, *lines, values[d.name], shown, d.why)

    def rests_on(
        self, name: str, known: Iterable[str] = (), values: Values | None = None
    ) -> tuple[str, ...]:
        """The measurements (and names taken as known) that a dimension is made from.

        >>> from hivecalc.components import DIMENSIONS
        >>> DIMENSIONS.rests_on("bottom_board.side_rail_length", ["hive_length"])
        ('hive_length', 'stud_thickness')

        A formula may ask for a measurement, as for the inner cover; with a hive's values only the
        way that it goes there is followed.
        """
        self.dimension(name)
        fixed = frozenset(known)
        return tuple(n for n in self._walk(name, fixed, values) if not self._derived(n, fixed))

    def reached_by(self, name: str, known: Iterable[str] = ()) -> tuple[str, ...]:
        """The dimensions that change when this measurement or dimension changes, in order.

        Raises UnknownNameError.
        """
        if name not in self._known:
            raise self._unknown([name], "measurement")
        reached, fixed = {name}, frozenset(known)
        for d in self._order:
            if d.name not in fixed and reached.intersection(d.inputs):
                reached.add(d.name)
        return tuple(n for n in self.dimensions if n in reached and n != name)


def _inputs(d: Dimension, values: Values | None) -> tuple[str, ...]:
    """What a dimension needs; with values only what it needs for these, and what it asks for."""
    if values is None or not isinstance(d.expression, ast.IfExp):
        return d.inputs
    plain = settled(d.expression, {p: values[i] for p, i in d.full_names.items()})
    used = {*sizes_in(d.expression.test), *sizes_in(plain)}
    return tuple(i for p, i in d.full_names.items() if p in used)


def changes(old: Values, new: Values) -> list[Change]:
    """The values that differ between two hives, in the order of the first."""
    return [Change(n, old[n], new[n]) for n in old if n in new and old[n] != new[n]]


# ── collected from modules ────────────────────────────────────────────────────────────────────────


_NOTHING: Final = Graph((), ())


def collected(
    *modules: ModuleType,
    base: Graph = _NOTHING,
    leaves: Mapping[str, TradeSize] | None = None,
    pieces: Mapping[str, Sequence[str]] | None = None,
) -> Graph:
    """The graph of all dimensions in these modules, a module being a component.

    A component is called as the last part of its module's name, or by the COMPONENT above its
    functions where a module has several. Public functions are dimensions, in the order they stand,
    without the component's name where they begin with it below a COMPONENT. A function named as a
    measurement gives that measurement where it was not measured. A module's PARTS give each part
    its thickness, width and length under the part's own name. Dimensions of `base` are known too,
    and stand first in the graph; `leaves` are lengths that rest on nothing, unless given with the
    measurements; `pieces` has the single pieces behind each name that a parameter of `Lengths` may
    have. Raises DerivationError.
    """
    before = {d.name: d for d in base.dimensions.values()}
    before |= {n: leaf(n, f) for n, f in (leaves or {}).items()}
    written = {name: entry for module in modules for name, entry in _written(module)}
    sources = _part_sources(modules, written)
    if taken := sorted({*written, *sources} & before.keys()):  # it would replace the first
        raise DerivationError(f"{', '.join(taken)}: there is a dimension of this name already")
    own = dict.fromkeys(c for c, *_ in (*written.values(), *sources.values()))
    components = tuple(dict.fromkeys([*base.components, *own]))
    resolver = _Resolver({*MEASUREMENTS, *before, *written, *sources}, components, pieces or {})
    found = {n: _dimension(n, *entry, resolver) for n, entry in written.items()}
    for name, (component, source, note) in sources.items():
        origin = resolver.full(component, source, name)
        rule = found[origin].rule if origin in found else RoundingRule()
        found[name] = renamed(name, component, origin, note, rule)
    ordered = [d for c in own for d in found.values() if d.component == c]
    return Graph([*before.values(), *ordered], components)


def _component(module: ModuleType) -> str:
    return module.__name__.rpartition(".")[2]


def _written(module: ModuleType) -> Iterator[tuple[str, tuple[str, ast.FunctionDef, ModuleType]]]:
    """The public functions of a module, each with its component, by full name."""
    component, section = _component(module), ""
    for node in ast.parse(inspect.getsource(module)).body:
        match node:
            case ast.Assign([ast.Name("COMPONENT")], ast.Constant(str(named))):
                component, section = named, f"{named}_"
            case ast.FunctionDef(name) if name in MEASUREMENTS:
                yield name, (component, node, module)
            case ast.FunctionDef(name) if not name.startswith("_"):
                yield f"{component}.{name.removeprefix(section)}", (component, node, module)


def _part_sources(
    modules: Iterable[ModuleType], written: Mapping[str, object]
) -> dict[str, tuple[str, str, str]]:
    """The sizes of parts that no function of that name gives: full name → where it comes from."""
    return {
        f"{component}.{part.name}_{size}": (component, source, part.note)
        for component, module in ((_component(module), module) for module in modules)
        for part in getattr(module, "PARTS", ())
        for size, source in part.sizes()
        if f"{component}.{part.name}_{size}" not in written
    }


@dataclass(frozen=True)
class _Resolver:
    """Which full name a parameter stands for, or which pieces."""

    known: set[str]
    components: tuple[str, ...]
    pieces: Mapping[str, Sequence[str]]

    def full(self, component: str, parameter: str, own: str, *, pieces: bool = False) -> str:
        """The measurement, else its own component's dimension, else that of the one it names."""
        known: Collection[str] = self.pieces if pieces else self.known
        candidates = [parameter, f"{component}.{parameter}"]
        candidates += [
            f"{c}.{parameter.removeprefix(f'{c}_')}"
            for c in self.components
            if parameter.startswith(f"{c}_")
        ]
        for candidate in candidates:
            if candidate in known and candidate != own:
                return candidate
        hint = nearest_names(candidates[1], known)
        raise DerivationError(
            f"{own}: {parameter!r} is neither a measurement nor a dimension; near: {hint}"
        )


def _dimension(
    name: str, component: str, node: ast.FunctionDef, module: ModuleType, resolver: _Resolver
) -> Dimension:
    function: Formula = getattr(module, node.name)
    inputs: dict[str, str] = {}  # by parameter
    pieces: dict[str, list[str]] = {}
    for parameter in node.args.args:
        if isinstance(parameter.annotation, ast.Name) and parameter.annotation.id == "Lengths":
            each = resolver.pieces[resolver.full(component, parameter.arg, name, pieces=True)]
            pieces[parameter.arg] = [p.replace(".", "_") for p in each]
            inputs |= dict(zip(pieces[parameter.arg], each, strict=True))
        else:
            inputs[parameter.arg] = resolver.full(component, parameter.arg, name)
    expression, written_out = by_piece(arithmetic(node, name), pieces)
    for branch in branches(expression):
        line(branch, dict.fromkeys(inputs, "1"))
    # its docstring's first line, and the text before examples
    what, _, rest = (ast.get_docstring(node) or "").partition("\n\n")
    why = rest.partition(">>>")[0]
    return Dimension(
        name=name,
        component=component,
        inputs=tuple(inputs.values()),
        parameters=tuple(inputs),
        function=function,
        expression=expression,
        kind=_kind(node, name),
        what=" ".join(what.split()),
        why=" ".join(why.split()),
        rule=rounding_of(function),
        by_piece=written_out,
    )


def _kind(node: ast.FunctionDef, name: str) -> Kind:
    kinds: dict[str, Kind] = {"Length": "length", "Ratio": "ratio"}
    returned = node.returns.id if isinstance(node.returns, ast.Name) else "nothing"
    if returned not in kinds:
        raise DerivationError(f"{name}: must return a Length or a Ratio, not {returned}")
    return kinds[returned]
