"""The bottom board drawn: from above, from the side, and what lies in it layer by layer."""

from hivecalc.drawing.bottom_board.column import changed_stack, stack, stack_to_work_out
from hivecalc.drawing.bottom_board.from_above import changed_plan, plan, plan_to_work_out
from hivecalc.drawing.bottom_board.from_the_side import (
    changed_section,
    section,
    section_to_work_out,
)

__all__ = [
    "changed_plan",
    "changed_section",
    "changed_stack",
    "plan",
    "plan_to_work_out",
    "section",
    "section_to_work_out",
    "stack",
    "stack_to_work_out",
]
