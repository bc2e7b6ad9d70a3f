"""Sums of lesson 01, told as "17 1/4 − 2 5/8": judged with their slips, and worked step by step."""

import re
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from typing import Final

from hivecalc.exercise.sums import Sum, sum_of, wrong_sums
from hivecalc.fractions_in_words import difference_in_words, sum_in_words
from hivecalc.judging import Verdict
from hivecalc.length import length_from_text
from hivecalc.pages.messages import message

FORMULAS: Final = {
    "+": "result = first_length + second_length",
    "−": "result = first_length - second_length",
}

QUESTIONS: Final = {
    "+": "Make the parts equal first. Do they come to more than an inch?",
    "−": "Make the parts equal first. Is there enough fraction to take from?",
}


def sum_verdict(task: str, text: str) -> Verdict:
    """The verdict on the answer to a sum.

    >>> sum_verdict("17 1/4 − 2 5/8", "14 5/8").message
    'Right.'
    >>> [slip.name for slip in sum_verdict("17 1/4 − 2 5/8", "15 5/8").slips]
    ['inch_not_lowered']
    """
    found = _sum(task).verdict(text)
    if found.verdict != "unexplained":
        return found
    return replace(found, question=QUESTIONS[_parts(task)[1]])


@lru_cache(maxsize=64)
def _sum(task: str) -> Sum:
    first, sign, second = _parts(task)
    asked = sum_of(FORMULAS[sign])
    values = {"first_length": first, "second_length": second}
    values[asked.name] = asked.function(first, second)
    return Sum(asked, values, "inch", wrong_sums(asked, values, "inch"))


def _parts(task: str) -> tuple[Fraction, str, Fraction]:
    first, sign, second = re.split(r" ([+−]) ", task)
    return length_from_text(first), sign, length_from_text(second)


def sum_steps(task: str) -> str:
    """The sum step by step, as a builder does it.

    >>> "borrow an inch" in sum_steps("17 1/4 − 2 5/8")
    True
    """
    first, sign, second = _parts(task)
    return message("note", *(sum_in_words if sign == "+" else difference_in_words)(first, second))
