"""What the commands of the workshop print as one SVG file: plans, basket, settings of the saw."""

from hivecalc.tables.drawn.basket import basket_drawn
from hivecalc.tables.drawn.plans import plans_drawn
from hivecalc.tables.drawn.settings import saw_drawn
from hivecalc.tables.drawn.words import hives_named

__all__ = ["basket_drawn", "hives_named", "plans_drawn", "saw_drawn"]
