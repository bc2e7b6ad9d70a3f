"""Does the hive agree with the sleeve round its box: one function a rule.

Figures in the examples are common practice, no published source.
"""

from hivecalc.components import TAPE_AGREES
from hivecalc.fit.rule import rule
from hivecalc.length import Length


@rule("harms", low=-TAPE_AGREES, high=TAPE_AGREES)
def hive_against_sleeve_along(
    hive_length: Length, sleeve_skin_side_length: Length, skin_thickness: Length
) -> Length:
    """How much longer the hive was measured than box, foam and skin make it.

    Bottom board and roof are cut to the hive's length. Where two ways to it disagree, one of them
    is wrong, and the skin overhangs the board or falls short of it.

    >>> hive_against_sleeve_along(22.875, 21.875, 0.5)
    0.0
    """
    return hive_length - (sleeve_skin_side_length + 2 * skin_thickness)


@rule("harms", low=-TAPE_AGREES, high=TAPE_AGREES)
def hive_against_sleeve_across(hive_width: Length, sleeve_skin_end_length: Length) -> Length:
    """How much wider the hive was measured than box, foam and skin make it.

    Bottom board and roof are cut to the hive's width. Where two ways to it disagree, one of them is
    wrong, and the skin overhangs the board or falls short of it.

    >>> hive_against_sleeve_across(19.25, 19.25)
    0.0
    """
    return hive_width - sleeve_skin_end_length
