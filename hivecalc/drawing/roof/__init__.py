"""The roof drawn: cut along its middle, whole and with its two ends enlarged."""

from hivecalc.drawing.roof.section import (
    changed_roof_section,
    roof_section,
    roof_section_to_work_out,
)

__all__ = ["changed_roof_section", "roof_section", "roof_section_to_work_out"]
