"""Exercises: one record each, and from it the page that asks, the solution and the tests."""

from collections.abc import Mapping
from typing import Final

from hivecalc.derivation import UnknownNameError
from hivecalc.exercise import records_00_05, records_06_14
from hivecalc.exercise.posing import Posed, posed
from hivecalc.exercise.record import KINDS, Case, Exercise, LessonExercises

__all__ = [
    "EXERCISES", "KINDS", "LESSONS", "Case", "Exercise", "Posed", "by_slip", "exercise", "posed",
    "titles",
]  # fmt: skip

LESSONS: Final[Mapping[str, LessonExercises]] = {
    each.number: each for each in (*records_00_05.LESSONS, *records_06_14.LESSONS)
}
"""The lessons that have exercises, by number."""
EXERCISES: Final[Mapping[str, Exercise]] = {
    record.id: record for lesson in LESSONS.values() for record in lesson.exercises
}
"""Every exercise by its id, in the order of the lessons."""


def exercise(name: str) -> Exercise:
    """The exercise of this id.

    Raises UnknownNameError, which says the nearest ids.
    """
    if name not in EXERCISES:
        raise UnknownNameError(name, EXERCISES, "exercise")
    return EXERCISES[name]


def by_slip() -> dict[str, list[str]]:
    """The exercises that practise each slip, by its name.

    >>> by_slip()["carry_dropped"]
    ['01-01', '01-02', '12-02', '13-02']
    """
    found = dict[str, list[str]]()
    for name, record in EXERCISES.items():
        for slip in record.slips:
            found.setdefault(slip, []).append(name)
    return found


def titles() -> dict[str, str]:
    """What each exercise is called, by the key that its answers are kept under.

    >>> titles()["02-01"], titles()["02-01 own"]
    ('02-01, work out a length', '02-01, work out a length: on your own hive')
    """
    cases = {"": "", " alike": ": another one like it", " own": ": on your own hive"}
    return {
        f"{name}{case}": f"{name}, {KINDS[record.kind]}{words}"
        for name, record in EXERCISES.items()
        for case, words in cases.items()
    }
