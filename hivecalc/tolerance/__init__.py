"""How errors of tape and saw add up: worst case, root-sum-square, and hives made by chance.

A fit rule rests on sizes that were measured or cut, and each of them is off by a little. How much
of that reaches the rule comes from the rule's own arithmetic. The method, a gap as a sum of sizes
each with its own factor, is that of F. Scholz, Tolerance Stack Analysis Methods (1995).
"""

from hivecalc.tolerance.arithmetic import rule_value
from hivecalc.tolerance.care import HAND_MARK, READING, SIGMAS, STOP_BLOCK, USUAL, Care, Contributor
from hivecalc.tolerance.chance import Simulation, simulated
from hivecalc.tolerance.sizes import rests_on, rules_of, sizes_of
from hivecalc.tolerance.stack import Stack, stack
from hivecalc.tolerance.summing import ranked, root_sum_square, worst_case
from hivecalc.tolerance.trial import Trial, trial

__all__ = [
    "HAND_MARK",
    "READING",
    "SIGMAS",
    "STOP_BLOCK",
    "USUAL",
    "Care",
    "Contributor",
    "Simulation",
    "Stack",
    "Trial",
    "ranked",
    "rests_on",
    "root_sum_square",
    "rule_value",
    "rules_of",
    "simulated",
    "sizes_of",
    "stack",
    "trial",
    "worst_case",
]
