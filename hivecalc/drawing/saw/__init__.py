"""Drawings of the work at the saw: a stud's cross-section, fence, blade, taper."""

from hivecalc.drawing.saw.fence import fence_and_kerf, tilted_blade
from hivecalc.drawing.saw.stud_section import stud_section
from hivecalc.drawing.saw.taper import taper_drawing

__all__ = [
    "fence_and_kerf",
    "stud_section",
    "taper_drawing",
    "tilted_blade",
]
