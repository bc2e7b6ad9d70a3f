"""What the yard sells, against the published standards."""

from fractions import Fraction

import pytest

from hivecalc.length import MM
from hivecalc.stock import NOMINAL, SHEETS, plywood_thickness

HALF = Fraction(1, 2)

# American Softwood Lumber Standard PS 20-20, Table 3, dry dressed, as retold in a public
# engineering reference: nominal name, inches, the whole millimetres printed beside them.
PS_20 = [
    ("1x2", "3/4", "3/2", 19, 38),
    ("1x4", "3/4", "7/2", 19, 89),
    ("1x10", "3/4", "37/4", 19, 235),
    ("2x3", "3/2", "5/2", 38, 64),
    ("2x4", "3/2", "7/2", 38, 89),
    ("2x6", "3/2", "11/2", 38, 140),
    ("2x8", "3/2", "29/4", 38, 184),
    ("2x12", "3/2", "45/4", 38, 286),
]


@pytest.mark.parametrize(("name", "thickness", "width", "thick_mm", "wide_mm"), PS_20)
def test_dressed_sizes_are_those_of_ps_20(
    name: str, thickness: str, width: str, thick_mm: int, wide_mm: int
) -> None:
    dressed = NOMINAL[name]
    assert dressed == (Fraction(thickness), Fraction(width))
    assert [int(side / MM + HALF) for side in dressed] == [thick_mm, wide_mm]


def test_every_nominal_size_follows_the_rule_of_the_table() -> None:
    """PS 20-20, Table 3: width 1/2 in less up to nominal 6, 3/4 in less from 8 up."""
    assert len(NOMINAL) == 14
    for name, (thickness, width) in NOMINAL.items():
        thick, wide = map(int, name.split("x"))
        assert width == wide - (Fraction(3, 4) if wide >= 8 else HALF)
        assert thickness == (Fraction(3, 4) if thick == 1 else Fraction(3, 2))


def test_a_1x10_is_narrower_than_the_side_of_a_deep_box() -> None:
    """A box of 9 9/16 in: common practice, no published source."""
    deep_box = Fraction(153, 16)
    assert NOMINAL["1x10"].width < deep_box < NOMINAL["1x12"].width


# PS 1, unsanded grades, as a trade association prints it, in three decimals of an inch.
PS_1 = [
    ("1/4", "0.219", "0.281"),
    ("15/32", "0.438", "0.500"),
    ("1/2", "0.469", "0.531"),
    ("3/4", "0.719", "0.781"),
    ("7/8", "0.831", "0.919"),
    ("1", "0.950", "1.050"),
]


@pytest.mark.parametrize(("category", "low", "high"), PS_1)
def test_plywood_thickness_is_that_of_ps_1(category: str, low: str, high: str) -> None:
    printed = plywood_thickness(Fraction(category))
    rounding = Fraction(1, 2000)
    assert abs(printed.low - Fraction(low)) <= rounding
    assert abs(printed.high - Fraction(high)) <= rounding


def test_the_fixed_tolerance_reaches_up_to_13_16() -> None:
    """PS 1: 1/32 in for performance categories of 13/16 and less, 5 % above."""
    at, above = Fraction(13, 16), Fraction(27, 32)
    assert plywood_thickness(at).high - at == Fraction(1, 32)
    assert plywood_thickness(above).high == above * Fraction(105, 100)


def test_two_neighbouring_categories_overlap() -> None:
    """PS 1: what is sold as 15/32 and what is sold as 1/2 may be equally thick."""
    thin, thick = plywood_thickness(Fraction(15, 32)), plywood_thickness(Fraction(1, 2))
    assert (thick.low, thin.high) == (Fraction(15, 32), Fraction(1, 2))


def test_sheets_are_as_large_as_the_trade_names_them() -> None:
    """4 x 8 ft, 2 x 8 ft, 600 x 1250 mm: common practice, no published source."""
    metric, half = SHEETS["metric_foam_board"], SHEETS["half_foam_board"]
    assert [metric.width / MM, metric.length / MM] == [600, 1250]
    assert [half.width / 12, half.length / 12] == [2, 8]
    for name in ("plywood_sheet", "foam_board", "plastic_sheet"):
        assert [SHEETS[name].width / 12, SHEETS[name].length / 12] == [4, 8]
