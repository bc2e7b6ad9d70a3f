"""What was made: pieces and frames as they were cut, and many hives built with some care."""

from hivecalc.as_built.care import HABITS, KINDS, OFF_BY, Care, Habit, usual_care
from hivecalc.as_built.check import AsBuilt, CutPiece, check
from hivecalc.as_built.frame import PIECE_SIZE, Frame, FrameCheck, check_frame
from hivecalc.as_built.reading import Pieces, pieces_from_file, pieces_from_text, pieces_given
from hivecalc.as_built.trial import HIVES, SEED, SPREAD_TOLD, Spread, Trial, spread, trial

__all__ = [
    "HABITS",
    "HIVES",
    "KINDS",
    "OFF_BY",
    "PIECE_SIZE",
    "SEED",
    "SPREAD_TOLD",
    "AsBuilt",
    "Care",
    "CutPiece",
    "Frame",
    "FrameCheck",
    "Habit",
    "Pieces",
    "Spread",
    "Trial",
    "check",
    "check_frame",
    "pieces_from_file",
    "pieces_from_text",
    "pieces_given",
    "spread",
    "trial",
    "usual_care",
]
