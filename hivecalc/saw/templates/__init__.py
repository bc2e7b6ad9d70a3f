"""Templates at full size, on as many sheets of paper as they take: the taper, the screw lines."""

from hivecalc.paper import Paper
from hivecalc.saw.templates.pages import OVERLAP, PAPERS, pages, windows
from hivecalc.saw.templates.screw_lines import screw_places, screw_templates
from hivecalc.saw.templates.sheet import Page, Stroke, Window, Words
from hivecalc.saw.templates.taper_line import taper_template
from hivecalc.saw.templates.template import Line, Template

__all__ = [
    "OVERLAP",
    "PAPERS",
    "Line",
    "Page",
    "Paper",
    "Stroke",
    "Template",
    "Window",
    "Words",
    "pages",
    "screw_places",
    "screw_templates",
    "taper_template",
    "windows",
]
