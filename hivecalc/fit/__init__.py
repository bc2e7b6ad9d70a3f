"""Will it go together, and will bees use it: one rule, one function.

A rule is a dimension with limits: its parameters are dimensions and measurements, its body is one
line of arithmetic, its docstring says what it measures and then why that matters. The rules of a
component stand in the module of its name; `FIT` is the graph of them all.
"""

from hivecalc.fit.allowed import (
    GRID_OF,
    Allowed,
    allowed,
    is_allowed,
    mark,
    marked,
    newly_failing,
    rounding_to_mark,
)
from hivecalc.fit.figures import FIGURES
from hivecalc.fit.findings import (
    FIT,
    RULES,
    Finding,
    Outcome,
    broken,
    finding_json,
    findings,
    fit_json,
    holds,
    rule_values,
    rules_of,
)
from hivecalc.fit.limits import AGREE
from hivecalc.fit.rule import Level, Rule

__all__ = [
    "AGREE",
    "FIGURES",
    "FIT",
    "GRID_OF",
    "RULES",
    "Allowed",
    "Finding",
    "Level",
    "Outcome",
    "Rule",
    "allowed",
    "broken",
    "finding_json",
    "findings",
    "fit_json",
    "holds",
    "is_allowed",
    "mark",
    "marked",
    "newly_failing",
    "rounding_to_mark",
    "rule_values",
    "rules_of",
]
