"""What the yard sells, against the published standards."""

from fractions import Fraction

import pytest

from hivecalc.length import MM
from hivecalc.part import NOMINAL, WHOLE_SHEET
from hivecalc.workshop.needs import NEAR_SHEET

HALF = Fraction(1, 2)

# American Softwood Lumber Standard PS 20-20, Table 3, dry dressed, as retold in a public
# engineering reference: nominal name, inches, the whole millimetres printed beside them.
PS_20 = [
    ("1x2", "3/4", "3/2", 19, 38), ("1x4", "3/4", "7/2", 19, 89), ("1x10", "3/4", "37/4", 19, 235),
    ("2x3", "3/2", "5/2", 38, 64), ("2x4", "3/2", "7/2", 38, 89), ("2x6", "3/2", "11/2", 38, 140),
    ("2x8", "3/2", "29/4", 38, 184), ("2x12", "3/2", "45/4", 38, 286),
]  # fmt: skip


@pytest.mark.parametrize(("name", "thickness", "width", "thick_mm", "wide_mm"), PS_20)
def test_dressed_sizes_are_those_of_ps_20(name, thickness, width, thick_mm, wide_mm):
    dressed = NOMINAL[name]
    assert dressed == (Fraction(thickness), Fraction(width))
    assert [int(side / MM + HALF) for side in dressed] == [thick_mm, wide_mm]


def test_every_nominal_size_follows_the_rule_of_the_table():
    """PS 20-20, Table 3: width 1/2 in less up to nominal 6, 3/4 in less from 8 up."""
    assert len(NOMINAL) == 14
    for name, (thickness, width) in NOMINAL.items():
        thick, wide = map(int, name.split("x"))
        assert width == wide - (Fraction(3, 4) if wide >= 8 else HALF)
        assert thickness == (Fraction(3, 4) if thick == 1 else Fraction(3, 2))


def test_a_1x10_is_narrower_than_the_side_of_a_deep_box():
    """A box of 9 9/16 in: common practice, no published source."""
    deep_box = Fraction(153, 16)
    assert NOMINAL["1x10"].width < deep_box < NOMINAL["1x12"].width


# PS 1, unsanded grades, as a trade association prints it, in three decimals of an inch.
PS_1 = [("1/4", "0.219", "0.281"), ("15/32", "0.438", "0.500"), ("1/2", "0.469", "0.531"),
        ("3/4", "0.719", "0.781")]  # fmt: skip


@pytest.mark.parametrize(("category", "low", "high"), PS_1)
def test_a_sheet_of_plywood_counts_as_its_own_within_the_tolerance_of_ps_1(category, low, high):
    off = NEAR_SHEET["plywood"]
    rounding = Fraction(1, 2000)
    assert abs(Fraction(category) - off - Fraction(low)) <= rounding
    assert abs(Fraction(category) + off - Fraction(high)) <= rounding


def test_a_sheet_is_as_large_as_the_trade_names_it():
    """4 x 8 ft: common practice, no published source."""
    assert [WHOLE_SHEET["width"] / 12, WHOLE_SHEET["length"] / 12] == [4, 8]
