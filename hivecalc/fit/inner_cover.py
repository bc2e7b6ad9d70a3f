"""Will the inner cover go together: one function a rule.

Figures in the examples are common practice, no published source.
"""

from fractions import Fraction

from hivecalc.fit.rule import rule
from hivecalc.length import Length


@rule("blocks", low=Fraction(0))
def sheet_out_of_sheet(
    inner_cover_sheet_width: Length,
    inner_cover_sheet_length: Length,
    plywood_sheet_width: Length,
    plywood_sheet_length: Length,
) -> Length:
    """What a sheet of plywood is bigger than the inner cover, in the tighter direction.

    The inner cover's thin sheets must be whole: a joint sags between the rim's strips.

    >>> sheet_out_of_sheet(16.25, 22.75, 48, 96)
    31.75
    """
    return min(
        plywood_sheet_width - min(inner_cover_sheet_width, inner_cover_sheet_length),
        plywood_sheet_length - max(inner_cover_sheet_width, inner_cover_sheet_length),
    )
