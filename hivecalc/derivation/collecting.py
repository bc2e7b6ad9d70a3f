"""Modules of functions read as dimensions: each parameter is looked up once, by its name."""

import ast
import inspect
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import ModuleType
from typing import Final

from hivecalc.derivation.dimension import (
    DerivationError,
    Dimension,
    Formula,
    Kind,
    RoundingRule,
    leaf,
    nearest_names,
    renamed,
    rounding_of,
)
from hivecalc.derivation.formula import arithmetic, branches, by_piece, line
from hivecalc.derivation.graph import Graph
from hivecalc.hive import MEASUREMENTS
from hivecalc.stock import Figure

_NOTHING: Final = Graph((), ())


def collected(
    *modules: ModuleType,
    base: Graph = _NOTHING,
    leaves: Mapping[str, Figure] | None = None,
    pieces: Mapping[str, Sequence[str]] | None = None,
) -> Graph:
    """The graph of all dimensions in these modules, a module being a component.

    A component is called as the last part of its module's name. Public functions are dimensions, in
    the order they stand. A function named as a measurement gives that measurement where it was not
    measured. A module's PARTS give each part its thickness, width and length under the part's own
    name. Dimensions of `base` are known too, and stand first in the graph; `leaves` are lengths
    that rest on nothing, unless given with the measurements; `pieces` has the single pieces behind
    each name that a parameter of `Lengths` may have. Raises DerivationError.
    """
    named = {m.__name__.rpartition(".")[2]: m for m in modules}
    before = [*base.dimensions.values(), *(leaf(n, f) for n, f in (leaves or {}).items())]
    components = tuple(dict.fromkeys([*base.components, *named]))
    return Graph(
        [*before, *_collected(named, {d.name: d for d in before}, components, pieces or {})],
        components,
    )


def _collected(
    modules: Mapping[str, ModuleType],
    before: Mapping[str, Dimension],
    components: tuple[str, ...],
    pieces: Mapping[str, Sequence[str]],
) -> list[Dimension]:
    """The dimensions of these modules, in order, where others are known before them."""
    written = {
        _full_name(component, node.name): (component, node, module)
        for component, module in modules.items()
        for node in _functions(module)
    }
    sources = _part_sources(modules, written)
    _check_new({*written, *sources}, before)
    known = {*MEASUREMENTS, *before, *written, *sources}
    resolver = _Resolver(known, components, pieces)
    found = {n: _dimension(n, *entry, resolver) for n, entry in written.items()}
    for name, (component, source, note) in sources.items():
        origin = resolver.full(component, source, name)
        rule = found[origin].rule if origin in found else RoundingRule()
        found[name] = renamed(name, component, origin, note, rule)
    return [d for c in modules for d in found.values() if d.component == c]


def _functions(module: ModuleType) -> Iterator[ast.FunctionDef]:
    for node in ast.parse(inspect.getsource(module)).body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node


def _full_name(component: str, name: str) -> str:
    return name if name in MEASUREMENTS else f"{component}.{name}"


def _part_sources(
    modules: Mapping[str, ModuleType], written: Mapping[str, object]
) -> dict[str, tuple[str, str, str]]:
    """The sizes of parts that no function of that name gives: full name → where it comes from."""
    return {
        f"{component}.{part.name}_{size}": (component, source, part.note)
        for component, module in modules.items()
        for part in getattr(module, "PARTS", ())
        for size, source in part.sizes()
        if f"{component}.{part.name}_{size}" not in written
    }


def _check_new(names: set[str], before: Mapping[str, Dimension]) -> None:
    """Raise DerivationError for a name that is taken: a second formula would replace the first."""
    taken = sorted(names & before.keys())
    if taken:
        raise DerivationError(f"{', '.join(taken)}: there is a dimension of this name already")


@dataclass(frozen=True)
class _Resolver:
    """Which full name a parameter stands for, or which pieces."""

    known: set[str]
    components: tuple[str, ...]
    pieces: Mapping[str, Sequence[str]]

    def full(self, component: str, parameter: str, own: str) -> str:
        """The measurement, else its own component's dimension, else that of the one it names."""
        return self._first(component, parameter, own, self.known)

    def each_piece(self, component: str, parameter: str, own: str) -> Sequence[str]:
        """The full names of the pieces that a parameter of lengths stands for."""
        return self.pieces[self._first(component, parameter, own, self.pieces.keys())]

    def _first(self, component: str, parameter: str, own: str, known: Collection[str]) -> str:
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
            each = resolver.each_piece(component, parameter.arg, name)
            pieces[parameter.arg] = [p.replace(".", "_") for p in each]
            inputs |= dict(zip(pieces[parameter.arg], each, strict=True))
        else:
            inputs[parameter.arg] = resolver.full(component, parameter.arg, name)
    written_out = by_piece(arithmetic(node, name), pieces)
    expression = written_out.expression
    for branch in branches(expression):
        line(branch, dict.fromkeys(inputs, "1"))
    what, why = _prose(ast.get_docstring(node) or "")
    return Dimension(
        name=name,
        component=component,
        inputs=tuple(inputs.values()),
        parameters=tuple(inputs),
        function=function,
        expression=expression,
        kind=_kind(node, name),
        what=what,
        why=why,
        rule=rounding_of(function),
        by_piece=written_out.changed,
    )


def _prose(docstring: str) -> tuple[str, str]:
    """What a dimension is, and why: its docstring's first line, and the text before examples."""
    what, _, rest = inspect.cleandoc(docstring).partition("\n\n")
    why = rest.partition(">>>")[0]
    return " ".join(what.split()), " ".join(why.split())


def _kind(node: ast.FunctionDef, name: str) -> Kind:
    kinds: dict[str, Kind] = {"Length": "length", "Ratio": "ratio"}
    returned = node.returns.id if isinstance(node.returns, ast.Name) else "nothing"
    if returned not in kinds:
        raise DerivationError(f"{name}: must return a Length or a Ratio, not {returned}")
    return kinds[returned]
