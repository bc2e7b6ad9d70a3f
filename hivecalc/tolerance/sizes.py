"""What a rule rests on: sizes that were measured, cut, chosen or bought."""

import ast
import itertools
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Final, TypeAlias

from hivecalc.components import COURSE, MODULES, built
from hivecalc.derivation import UnknownNameError, kind_of
from hivecalc.fit import FIGURES, FIT, RULES, Rule
from hivecalc.hive import MEASUREMENTS, Hive

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]
from hivecalc.tolerance.care import MARKED, Care, Deviation


def _same_sizes(name: str) -> Iterator[str]:
    """The names that a piece's size has: its own, and those of the sizes that it only repeats."""
    while name in COURSE.dimensions:
        yield name
        dimension = COURSE.dimension(name)
        if not isinstance(dimension.expression, ast.Name):
            return
        name = dimension.inputs[0]
    yield name


PIECE_SIZES: Final[Mapping[str, tuple[str, ...]]] = {
    f"{component}.{part.name}_{size}": tuple(_same_sizes(f"{component}.{part.name}_{size}"))
    for component, module in MODULES.items()
    for part in module.PARTS
    for size, _ in part.sizes()
}
"""Each size of each piece by its full name, and all the names that stand for this size."""
_CUT: Final = frozenset(itertools.chain(*PIECE_SIZES.values()))


def sizes_of(hive: Hive, given: Mapping[str, Fraction] | None = None) -> dict[str, Fraction]:
    """Every value that the rules on this hive need, by full name, figures of the stock as well.

    >>> from hivecalc.hive import demo_hive
    >>> sizes_of(demo_hive())["bottom_board.panel_length"]
    Fraction(159, 8)

    `given` replaces any of them. Raises UnknownNameError for a name that there isn't.
    """
    for name in given or {}:
        if name not in FIT.dimensions and name not in MEASUREMENTS:
            raise UnknownNameError(name, [*MEASUREMENTS, *FIT.dimensions])
    return FIT.values(hive.measurements, given, built(hive))


def rules_of(hive: Hive) -> dict[str, Rule]:
    """The rules that apply to what is built of this hive, by name.

    >>> from hivecalc.hive import demo_hive
    >>> {name.partition(".")[0] for name in rules_of(demo_hive())} == set(built(demo_hive()))
    True
    """
    components = built(hive)
    return {n: rule for n, rule in RULES.items() if rule.applies(components, hive.measurements)}


@lru_cache(maxsize=1024)
def resting_sizes(rule: str, known: frozenset[str]) -> tuple[str, ...]:
    """The sizes that a rule rests on where these measurements and values are known.

    >>> resting_sizes("roof.skirt_lap", frozenset({"skirt_width", "rim_low_height"}))
    ('skirt_width', 'rim_low_height')

    Where the arithmetic comes to the size of a piece it stops: once cut, a piece stays as it is.
    """
    return FIT.rests_on(rule, known | _CUT | MARKED | FIGURES.keys())


def rests_on(hive: Hive, rule: str, given: Mapping[str, Fraction] | None = None) -> tuple[str, ...]:
    """The sizes measured, cut, chosen or bought that a rule rests on.

    >>> from hivecalc.hive import demo_hive
    >>> rests_on(demo_hive(), "bottom_board.panel_play_along")
    ('hive_length', 'stud_thickness', 'bottom_board.panel_length')

    Raises UnknownNameError for a rule that there isn't for this hive.
    """
    asked = rules_of(hive)
    if rule not in asked:
        raise UnknownNameError(rule, asked, "rule for this hive")
    return resting_sizes(rule, _known(hive, given))


def _known(hive: Hive, given: Mapping[str, Fraction] | None) -> frozenset[str]:
    return frozenset({*hive.measurements, *(given or {})})


@dataclass(frozen=True)
class Sheet:
    """What is known of a hive, of how it is made, and so how far off each of its sizes may be."""

    hive: Hive
    care: Care
    given: Mapping[str, Fraction]
    values: Mapping[str, Fraction]

    def sizes(self, rule: str) -> dict[str, Fraction]:
        """The sizes that a rule rests on."""
        known = _known(self.hive, self.given)
        return {n: self.values[n] for n in resting_sizes(rule, known)}

    def deviations(self, names: Iterable[str]) -> list[Deviation]:
        """The errors of those sizes that somebody reads or cuts; what is bought has none."""
        lengths = (n for n in names if n not in FIGURES)
        return [
            self.care.deviation(n, self.values[n], read=self._read(n))
            for n in lengths
            if kind_of(n, FIT.dimensions) == "length"
        ]

    def _read(self, name: str) -> bool:
        """Whether a size comes off a tape: it was measured on the stock, the hive or a piece."""
        known = MEASUREMENTS.get(name)
        measured = known is not None and known.group == "measured"
        return name in self.given or (measured and name in self.hive.measurements)


def sheet_of(hive: Hive, care: Care, given: Mapping[str, Fraction] | None) -> Sheet:
    """All that is known of a hive that is made with this care."""
    return Sheet(hive, care, given or {}, sizes_of(hive, given))
