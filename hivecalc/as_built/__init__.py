"""What was made: pieces and frames as they were cut; `trial` builds many hives with some care."""

from hivecalc.as_built.care import (
    HABIT_NAMES,
    HABITS,
    KINDS,
    OFF_BY,
    SPREAD_NOTE,
    Care,
    Habit,
    usual_care,
)
from hivecalc.as_built.check import AsBuilt, check
from hivecalc.as_built.reading import (
    PIECE_SIZE,
    Frame,
    FrameCheck,
    Pieces,
    check_frame,
    pieces_from_file,
    pieces_from_text,
    pieces_given,
)

__all__ = [
    "HABITS", "HABIT_NAMES", "KINDS", "OFF_BY", "PIECE_SIZE", "SPREAD_NOTE", "AsBuilt", "Care",
    "Frame", "FrameCheck", "Habit", "Pieces", "check", "check_frame",
    "pieces_from_file", "pieces_from_text", "pieces_given", "usual_care",
]  # fmt: skip
