"""The hive standing and taken apart, and its inner cover, from the front, the right and above."""

from hivecalc.drawing.exploded.inner_cover import (
    changed_inner_cover,
    exploded_inner_cover,
    inner_cover_to_work_out,
)
from hivecalc.drawing.exploded.standing_hive import standing_hive
from hivecalc.drawing.exploded.whole_hive import exploded_hive, part_numbers

__all__ = [
    "changed_inner_cover",
    "exploded_hive",
    "exploded_inner_cover",
    "inner_cover_to_work_out",
    "part_numbers",
    "standing_hive",
]
