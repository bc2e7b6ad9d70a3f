"""The hive and its inner cover taken apart, seen from the front, the right and above."""

from hivecalc.drawing.exploded.whole_hive import exploded_hive, part_numbers

__all__ = ["exploded_hive", "part_numbers"]
