"""A rule's own sums, done with any sort of number."""

import ast
import operator
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any, Final, Generic, TypeAlias, TypeVar

from hivecalc.fit import FIT

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats: TypeAlias = NDArray[np.float64]

N = TypeVar("N")
_OPERATORS: Final[dict[type[ast.operator], Callable[[Any, Any], Any]]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}
Choose: TypeAlias = Callable[[ast.Call, Sequence[N]], N]


@dataclass(frozen=True)
class Arithmetic(Generic[N]):
    """The sums behind a rule, done with any sort of number; `choose` decides larger or smaller."""

    choose: Choose[N]

    def value(self, name: str, found: dict[str, N]) -> N:
        """The value of a dimension or rule; what it needs on the way is added to `found`."""
        if name not in found:
            d = FIT.dimension(name)
            numbers = {p: self.value(i, found) for p, i in zip(d.parameters, d.inputs, strict=True)}
            found[name] = self._computed(d.expression, numbers)
        return found[name]

    def _computed(self, expression: ast.expr, numbers: Mapping[str, N]) -> N:
        if isinstance(expression, ast.Name):
            return numbers[expression.id]
        if isinstance(expression, ast.Call):
            return self.choose(expression, [self._computed(a, numbers) for a in expression.args])
        if isinstance(expression, ast.BinOp):
            sides = [self._computed(e, numbers) for e in (expression.left, expression.right)]
            value: N = _OPERATORS[type(expression.op)](*sides)
            return value
        constant: N = ast.literal_eval(expression)
        return constant


def true_choice(call: ast.Call, numbers: Sequence[Fraction]) -> Fraction:
    """The larger or smaller of exact numbers, as the formula says."""
    return max(numbers) if ast.unparse(call.func) == "max" else min(numbers)


def true_choices(call: ast.Call, numbers: "Sequence[Floats]") -> "Floats":
    """The larger or smaller, hive by hive, as the formula says."""
    import numpy as np  # noqa: PLC0415 - loaded only where hives are simulated

    smaller = ast.unparse(call.func) == "min"
    chosen: Floats = (np.minimum if smaller else np.maximum).reduce(np.broadcast_arrays(*numbers))
    return chosen


def rule_value(rule: str, sizes: Mapping[str, Fraction]) -> Fraction:
    """What a rule finds for these sizes, exactly.

    >>> rule_value("roof.skirt_lap", {"skirt_width": Fraction(2), "rim_low_height": Fraction(3, 2)})
    Fraction(1, 2)

    `sizes` needs at least what the rule rests on. Raises UnknownNameError for a rule that there
    isn't.
    """
    return Arithmetic(true_choice).value(rule, dict(sizes))
