"""A learner's own earlier answers, and an answer judged with them: right if they were, told so.

An earlier answer is the last one kept to another dimension of the same hive. For an exercise it is
the last one to another exercise on the same givens.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Final, TypeAlias

from hivecalc.answers import STEPS, Answer, Answers
from hivecalc.components import DIMENSIONS, values_to_find
from hivecalc.derivation import title
from hivecalc.exercise import EXERCISES, Case, Exercise, Posed, posed
from hivecalc.hive import Hive
from hivecalc.judging import Verdict, before, verdict
from hivecalc.length import Units

Texts: TypeAlias = dict[str, str]

PREDICTED, CHAIN, SUM, SHOWN, DONE = STEPS
"""What a prediction, a chain, its sum, a figure that was shown and a step done are kept under."""
FARTHEST: Final = 99
"""Steps before an answer in which an earlier one is looked for: all of them."""


def judged_of_hive(hive: Hive, dimension: str, text: str, answers: Sequence[Answer]) -> Verdict:
    """The verdict on an answer for a dimension of a hive, with the earlier answers of that hive."""

    def judge(kept: Sequence[Answer]) -> Verdict:
        return verdict(hive, dimension, text, of_hive(kept, hive))

    return _judged(judge, dimension, text, answers)


def of_hive(answers: Iterable[Answer], hive: Hive) -> Texts:
    """The last answer to each dimension of a hive, asked for by itself or in an exercise.

    Those of a hive with another name are left out.
    """
    found: Texts = {}
    for answer in answers:
        name = _dimension_of(answer.asked)
        if name and answer.hive in {"", hive.name} and name not in hive.measurements:
            found[name] = answer.answer
    return found


def _dimension_of(asked: str) -> str:
    """The dimension of the learner's own hive that was asked for, if it was one."""
    if asked in DIMENSIONS.dimensions:
        return asked
    name, _, case = asked.partition(" ")
    dimensions = EXERCISES[name].dimensions if case == "own" and name in EXERCISES else ()
    return dimensions[0] if len(dimensions) == 1 else ""


def judged_in(asked: Posed, text: str, answers: Sequence[Answer]) -> Verdict:
    """The verdict on an answer to an exercise, with the earlier answers that it rests on."""

    def judge(kept: Sequence[Answer]) -> Verdict:
        if asked.case == "own":
            return asked.verdict(text, of_hive(kept, asked.numbers.hive))
        sources = _sources(asked.exercise, asked.case, asked.numbers.units)
        earlier = {sources[a.asked]: a.answer for a in kept if a.asked in sources}
        return asked.verdict(text, earlier)

    return _judged(judge, asked.key, text, answers)


@lru_cache(maxsize=512)
def _sources(exercise: Exercise, case: Case, units: Units) -> Texts:
    """The exercises that lead to this one, on the same givens: by their keys the dimensions."""
    asked = posed(exercise, case, units=units)
    if asked.options or exercise.asks not in DIMENSIONS.dimensions:
        return {}
    leading = before(exercise.asks, asked.numbers.hive.measurements, FARTHEST)
    sources = (
        posed(record, case, units=units) for record in EXERCISES.values() if record.asks in leading
    )
    return {s.key: s.exercise.asks for s in sources if not s.options and _same_givens(s, asked)}


def _same_givens(source: Posed, asked: Posed) -> bool:
    """Whether what an exercise rests on is the same in another one."""
    theirs, ours = source.numbers.hive.measurements, asked.numbers.hive.measurements
    needed = DIMENSIONS.rests_on(source.exercise.asks, theirs)
    return all(theirs[name] == ours.get(name) for name in needed)


def right_by_now(answers: Sequence[Answer], hive: Hive) -> dict[str, bool]:
    """Whether the last answer to each question is right, as the earlier answers now stand."""
    last = {answer.asked: answer for answer in answers}
    return {key: _right_by_now(answer, answers, hive) for key, answer in last.items()}


def _right_by_now(answer: Answer, answers: Sequence[Answer], hive: Hive) -> bool:
    if answer.verdict != "right_carried":
        return answer.right
    name, _, case = answer.asked.partition(" ")
    if name in values_to_find(hive):
        return judged_of_hive(hive, name, answer.answer, answers).right
    record = EXERCISES.get(name)
    cases: dict[str, Case] = {"": "given", "alike": "alike"}
    if record and record.own:
        cases["own"] = "own"
    if record is None or case not in cases:
        return answer.right
    return judged_in(posed(record, cases[case], hive, hive.units), answer.answer, answers).right


# ── found ─────────────────────────────────────────────────────────────────────────────────────


def found_on(hive: Hive, answers: Answers) -> frozenset[str]:
    """The dimensions of this hive that a learner answered rightly, or had shown.

    They are judged anew: what was right for another stud is to be found again. All that a page
    shows asks here.
    """
    sizes = values_to_find(hive)
    texts = of_hive(answers.all(), hive)
    right = {n for n, text in texts.items() if n in sizes and verdict(hive, n, text).right}
    shown = {key.removesuffix(SHOWN) for key in answers.asked() if key.endswith(SHOWN)}
    return frozenset(right | (shown & sizes.keys()))


def still_to_find(names: Iterable[str], hive: Hive, answers: Answers) -> list[str]:
    """Those of some dimensions that were not found yet, in the order given."""
    found = found_on(hive, answers)
    return [name for name in names if name not in found]


# ── judged, and judged anew ───────────────────────────────────────────────────────────────────


def _judged(
    judge: Callable[[Sequence[Answer]], Verdict], key: str, text: str, answers: Sequence[Answer]
) -> Verdict:
    """The verdict now; where it once was right for an answer that was changed since, told so."""
    now = judge(answers)
    if now.right:
        return now
    last = next((i for i, a in reversed(list(enumerate(answers))) if a.asked == key), None)
    if last is None or (answers[last].answer, answers[last].verdict) != (text, "right_carried"):
        return now
    return since_changed(now, judge(answers[:last]))


def since_changed(now: Verdict, then: Verdict) -> Verdict:
    """The verdict on an answer that was right for an earlier one that is another by now.

    >>> then = Verdict("", "", "right_carried", "", carried_from="bottom_board.opening_width")
    >>> print(since_changed(Verdict("", "", "unexplained", "No."), then).message)
    This was right for your old opening width. You have changed that opening width since, so work \
this one out again from the new one.
    """
    if then.carried_from is None:
        return now
    name = title(then.carried_from)
    told = (
        f"This was right for your old {name}. You have changed that {name} since, so work this one "
        "out again from the new one."
    )
    return replace(now, verdict="unexplained", message=told, question="", slips=(), tells_apart="")
