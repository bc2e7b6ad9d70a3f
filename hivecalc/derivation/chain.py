"""Chains: what a formula is as a plain sum, which sizes, added or taken off, and how often.

A chain comes from the formula's own parsed text. Two chains are the same rule where they come to
the same in measurements, whatever dimensions they stand on.
"""

import ast
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from typing import Final, TypeAlias

from hivecalc.derivation.dimension import Dimension, kind_of, on_hive
from hivecalc.derivation.graph import Graph, Values

Chain: TypeAlias = Mapping[str, Fraction]
"""Sizes by full name with how often each counts: below nothing where it is taken off."""

MOST_FORMS: Final = 256
_ONE: Final = ""  # stands for a plain number among the terms


def added(one: Chain, other: Chain, times: Fraction | int = 1) -> dict[str, Fraction]:
    """One chain and so many times another, without what counts nothing.

    >>> added({"a": Fraction(1)}, {"a": Fraction(1), "b": Fraction(2)}, -1)
    {'b': Fraction(-2, 1)}
    """
    both = {n: one.get(n, 0) + times * other.get(n, Fraction(0)) for n in {**one, **other}}
    return {name: count for name, count in both.items() if count}


@dataclass(frozen=True)
class Chains:
    """The chains of one hive's dimensions: its values, and the names that were measured on it."""

    values: Values
    known: Collection[str]
    graph: Graph

    def of(self, dimension: Dimension) -> dict[str, Fraction] | None:
        """The chain that a dimension's formula is on this hive, in the formula's own terms.

        >>> from hivecalc.components import DIMENSIONS, values
        >>> from hivecalc.hive import demo_hive
        >>> chains = Chains(values(demo_hive()), demo_hive().measurements, DIMENSIONS)
        >>> chain = chains.of(DIMENSIONS.dimension("bottom_board.front_rail_length"))
        >>> {name: str(count) for name, count in chain.items()}
        {'hive_width': '1', 'stud_thickness': '-2'}

        A count, such as the number of frames, is taken as the number that it is. None for a formula
        that is no plain sum of sizes: a slope, the larger of two.
        """
        plain = on_hive(dimension, self.values)
        return self.terms(plain.expression, plain.full_names)

    def terms(
        self, expression: ast.expr, names: Mapping[str, str] | None = None
    ) -> dict[str, Fraction] | None:
        """The chain that an arithmetic is; None where it is no plain sum of sizes.

        names gives the full name for each name in it; one that is missing stands for itself.
        """
        found = self._linear(expression, names or {})
        if found is None or found.pop(_ONE, Fraction(0)):
            return None
        return {name: count for name, count in found.items() if count}

    def _linear(self, expression: ast.expr, names: Mapping[str, str]) -> dict[str, Fraction] | None:
        if isinstance(expression, ast.Constant) and isinstance(expression.value, int | Fraction):
            return {_ONE: Fraction(expression.value)}
        if isinstance(expression, ast.Name):
            return self._named(names.get(expression.id, expression.id))
        if not isinstance(expression, ast.BinOp):
            return None
        left, right = (self._linear(e, names) for e in (expression.left, expression.right))
        if left is None or right is None:
            return None
        if isinstance(expression.op, ast.Add | ast.Sub):
            return added(left, right, 1 if isinstance(expression.op, ast.Add) else -1)
        return _multiplied(left, right, expression.op)

    def _named(self, name: str) -> dict[str, Fraction] | None:
        if name not in self.values:
            return None
        kind = kind_of(name, self.graph.dimensions)
        if kind == "length":
            return {name: Fraction(1)}
        return {_ONE: self.values[name]} if kind == "count" else None

    def behind(self, name: str) -> dict[str, Fraction] | None:
        """The chain behind a size that is worked out on this hive; None for a measured one."""
        if name in self.known or name not in self.graph.dimensions:
            return None
        return self.of(self.graph.dimensions[name])

    def in_measurements(self, chain: Chain) -> dict[str, Fraction]:
        """What a chain comes to in measurements; a size that is no plain chain stays as it is."""
        found: dict[str, Fraction] = {}
        for name, count in chain.items():
            inner = self.behind(name)
            if inner is None:
                found = added(found, {name: count})
            else:
                found = added(found, self.in_measurements(inner), count)
        return found

    def forms(self, chain: Chain) -> Iterator[dict[str, Fraction]]:
        """The same chain on every mixture of its steps: as it stands first, in measurements last.

        >>> from hivecalc.components import DIMENSIONS, values
        >>> from hivecalc.hive import demo_hive
        >>> chains = Chains(values(demo_hive()), demo_hive().measurements, DIMENSIONS)
        >>> strip = {"bottom_board.screen_width": Fraction(1), "strip_wide": Fraction(-2)}
        >>> for form in chains.forms(strip):
        ...     print(*form)
        bottom_board.screen_width strip_wide
        bottom_board.opening_width screen_gap strip_wide
        hive_width stud_thickness screen_gap strip_wide
        """
        ways = [
            [{name: count}, *(added({}, form, count) for form in self.forms(inner))]
            if (inner := self.behind(name)) is not None
            else [{name: count}]
            for name, count in chain.items()
        ]
        for number, mixture in enumerate(product(*ways)):
            if number == MOST_FORMS:
                yield self.in_measurements(chain)
                return
            found: dict[str, Fraction] = {}
            for part in mixture:
                found = added(found, part)
            yield found


def _multiplied(
    left: dict[str, Fraction], right: dict[str, Fraction], operator: ast.operator
) -> dict[str, Fraction] | None:
    """A product or quotient of which one part is a plain number."""
    if isinstance(operator, ast.Div):
        times = 1 / right[_ONE] if right.keys() == {_ONE} and right[_ONE] else None
        return None if times is None else {n: c * times for n, c in left.items()}
    number, sizes = (left, right) if left.keys() == {_ONE} else (right, left)
    return {n: c * number[_ONE] for n, c in sizes.items()} if number.keys() == {_ONE} else None
