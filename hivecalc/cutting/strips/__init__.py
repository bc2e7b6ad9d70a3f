"""Strips out of a stud: how its cross-section is cut, and how long the blanks for it are."""

from hivecalc.cutting.strips.blanks import LEAST_RIP, Blanks, Strip, blanks_for, rest_for
from hivecalc.cutting.strips.cross_section import (
    DEEPEST,
    LEAST_HELD,
    CrossSection,
    Rectangle,
    Rip,
    cross_section,
)
from hivecalc.cutting.strips.telling import blanks_told, section_told

__all__ = [
    "DEEPEST",
    "LEAST_HELD",
    "LEAST_RIP",
    "Blanks",
    "CrossSection",
    "Rectangle",
    "Rip",
    "Strip",
    "blanks_for",
    "blanks_told",
    "cross_section",
    "rest_for",
    "section_told",
]
