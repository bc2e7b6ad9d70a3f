"""What a learner has found on this hive: the one record that pictures and panels ask."""

from collections.abc import Iterable

from hivecalc.answers import STEPS, Answers
from hivecalc.components import values
from hivecalc.hive import Hive
from hivecalc.judging import verdict
from hivecalc.pages.earlier import of_hive

PREDICTED, CHAIN, SUM, SHOWN, DONE = STEPS
"""What a prediction, a chain, its sum, a figure that was shown and a step done are kept under."""


def found_on(hive: Hive, answers: Answers) -> frozenset[str]:
    """The dimensions of this hive that a learner answered rightly, or had shown.

    They are judged anew: what was right for another stud is to be found again.
    """
    sizes = values(hive)
    texts = of_hive(answers.all(), hive)
    right = {n for n, text in texts.items() if n in sizes and verdict(hive, n, text).right}
    return frozenset(right | {n for n in sizes if answers.last(f"{n}{SHOWN}")})


def still_to_find(names: Iterable[str], hive: Hive, answers: Answers) -> list[str]:
    """Those of some dimensions that were not found yet, in the order given."""
    found = found_on(hive, answers)
    return [name for name in names if name not in found]
