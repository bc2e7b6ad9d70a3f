"""The hive file: what the builder measured and chose, read with every fault listed at once.

A hive file is TOML. Numbers in it are never floats: `23.125` is read as it is written, exactly.
"""

from hivecalc.hive.hive import Hive, answer_text, demo_hive
from hivecalc.hive.measurements import (
    BOX_SIZES,
    HIVE_SIZES,
    MEASUREMENTS,
    OPENINGS,
    SIZED_BY,
    Measurement,
)
from hivecalc.hive.reading import changed, hive_from_file, hive_from_text, with_reading
from hivecalc.hive.writing import exact_text, hive_text, save
from hivecalc.support.faults import Fault, HiveFaults
from hivecalc.support.files import locked, write_new, write_whole

__all__ = [
    "BOX_SIZES", "HIVE_SIZES", "MEASUREMENTS", "OPENINGS", "SIZED_BY", "Fault", "Hive",
    "HiveFaults", "Measurement", "answer_text", "changed", "demo_hive", "exact_text",
    "hive_from_file", "hive_from_text", "hive_text", "locked", "save", "with_reading", "write_new",
    "write_whole",
]  # fmt: skip
