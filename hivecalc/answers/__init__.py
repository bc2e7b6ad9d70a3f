"""Answers in files: those of one learner, kept; and rows of answers that wait for a verdict.

`Answers` is a learner's own file beside the hive file, which is only ever added to. `rows_in` reads
a file of answers of many learners.
"""

from hivecalc.answers.kept import STEPS, Answer, Answers, answers_path
from hivecalc.answers.rows import AnswerRow, rows_in

__all__ = ["STEPS", "Answer", "AnswerRow", "Answers", "answers_path", "rows_in"]
