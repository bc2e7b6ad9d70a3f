"""Drawings of the work at the saw: stops, a stud's cross-section, fence, blade, taper."""

from hivecalc.drawing.saw.fence import fence_and_kerf, tilted_blade
from hivecalc.drawing.saw.stops import stop_distances
from hivecalc.drawing.saw.stud_section import stud_section
from hivecalc.drawing.saw.taper import taper_drawing
from hivecalc.drawing.saw.template_sheets import template_sheets

__all__ = [
    "fence_and_kerf",
    "stop_distances",
    "stud_section",
    "taper_drawing",
    "template_sheets",
    "tilted_blade",
]
