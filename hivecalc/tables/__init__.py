"""What a command tells: pieces, worked steps and fit rules, each as text, JSON or CSV.

Whatever a builder wrote is shown so that it can do no harm.
"""

from hivecalc.support.faults import escaped as harmless
from hivecalc.tables.check import check_json, check_table, check_text
from hivecalc.tables.explain import explain_json, explain_table, explain_text, explanation
from hivecalc.tables.fit import fit_table, fit_text, trial_json, trial_text
from hivecalc.tables.numbers import usual_grid
from hivecalc.tables.parts import parts_json, parts_table, parts_text
from hivecalc.tables.texts import csv_text, json_text

__all__ = [
    "check_json",
    "check_table",
    "check_text",
    "csv_text",
    "explain_json",
    "explain_table",
    "explain_text",
    "explanation",
    "fit_table",
    "fit_text",
    "harmless",
    "json_text",
    "parts_json",
    "parts_table",
    "parts_text",
    "trial_json",
    "trial_text",
    "usual_grid",
]
