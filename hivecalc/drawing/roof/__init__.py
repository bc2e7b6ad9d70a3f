"""The roof drawn: cut along its middle, its two ends enlarged; its screws from above."""

from hivecalc.drawing.roof.from_above import roof_from_above
from hivecalc.drawing.roof.section import (
    changed_roof_section,
    roof_section,
    roof_section_to_work_out,
)

__all__ = [
    "changed_roof_section",
    "roof_from_above",
    "roof_section",
    "roof_section_to_work_out",
]
