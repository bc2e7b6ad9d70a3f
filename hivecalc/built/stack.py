"""What stands between bottom board and roof, from outside."""

from hivecalc.length import Count, Length


def outside_length(hive_length: Length, sleeved: Count, sleeve_outside_length: Length) -> Length:
    """Outside length of what stands on the bottom board, front to back.

    >>> outside_length(22.75, 0, 0)
    22.75
    """
    return sleeve_outside_length if sleeved else hive_length


def outside_width(hive_width: Length, sleeved: Count, sleeve_outside_width: Length) -> Length:
    """Outside width of what stands on the bottom board, side to side.

    >>> outside_width(16.25, 0, 0)
    16.25
    """
    return sleeve_outside_width if sleeved else hive_width
