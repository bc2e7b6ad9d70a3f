"""Will it go together, and will bees use it: one rule, one function.

A rule is a dimension with limits: its parameters are dimensions and measurements, its body is one
line of arithmetic, its docstring says what it measures and then why that matters. The rules of a
component stand in the module of its name; `FIT` is the graph of them all.
"""

from hivecalc.fit.findings import (
    FIT,
    RULES,
    Finding,
    broken,
    finding_json,
    findings,
    fit_json,
    holds,
    is_allowed,
    is_cut,
    mark,
    marked,
    newly_failing,
    rounding_to_mark,
    rules_of,
)
from hivecalc.fit.rule import AGREE, Level, Rule

__all__ = [
    "AGREE", "FIT", "RULES", "Finding", "Level", "Rule", "broken", "finding_json",
    "findings", "fit_json", "holds", "is_allowed", "is_cut", "mark", "marked", "newly_failing",
    "rounding_to_mark", "rules_of",
]  # fmt: skip
