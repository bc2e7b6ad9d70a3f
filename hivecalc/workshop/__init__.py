"""From parts to the bench: one plan of what to buy, how to cut it, and how to set the saw.

plan(hives, yard)               the plan of a batch; the same input gives the same plan
plan_from_file(path)            a plan that was kept, made again and compared
demo_yard(), yard_from_file()   what a yard sells
"""

from hivecalc.workshop.plan import (
    Plan,
    changes_since,
    plan,
    plan_from_file,
    plan_json,
    plan_text,
    units_of,
)
from hivecalc.workshop.yard import (
    YARD_FILE,
    Yard,
    demo_yard,
    turn_yard,
    yard_beside,
    yard_from_file,
    yard_from_text,
    yard_text,
)

__all__ = [
    "YARD_FILE", "Plan", "Yard", "changes_since", "demo_yard", "plan", "plan_from_file",
    "plan_json", "plan_text", "turn_yard", "units_of", "yard_beside", "yard_from_file",
    "yard_from_text", "yard_text",
]  # fmt: skip
