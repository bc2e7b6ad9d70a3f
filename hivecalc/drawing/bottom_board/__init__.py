"""The bottom board drawn: from above, from the side, and what lies in it layer by layer."""

from hivecalc.drawing.bottom_board.column import changed_stack, stack
from hivecalc.drawing.bottom_board.from_above import changed_plan, plan
from hivecalc.drawing.bottom_board.from_the_side import changed_section, section

__all__ = ["changed_plan", "changed_section", "changed_stack", "plan", "section", "stack"]
