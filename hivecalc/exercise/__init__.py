"""Exercises: one record each, and from it the page that asks, the solution and the tests."""

from collections.abc import Mapping
from types import ModuleType
from typing import Final

from hivecalc.derivation import UnknownNameError
from hivecalc.exercise import (
    lesson_00,
    lesson_01,
    lesson_02,
    lesson_03,
    lesson_04,
    lesson_05,
    lesson_06,
    lesson_07,
    lesson_08,
    lesson_09,
    lesson_10,
    lesson_11,
    lesson_12,
    lesson_13,
    lesson_14,
)
from hivecalc.exercise.posing import Posed, posed
from hivecalc.exercise.record import KINDS, Case, Exercise, Kind, Stage

__all__ = [
    "EXERCISES",
    "KINDS",
    "LESSONS",
    "Case",
    "Exercise",
    "Kind",
    "Posed",
    "Stage",
    "by_slip",
    "exercise",
    "posed",
    "titles",
]

LESSONS: Final[Mapping[str, ModuleType]] = {
    module.__name__.rpartition("_")[2]: module
    for module in (
        lesson_00, lesson_01, lesson_02, lesson_03, lesson_04, lesson_05, lesson_06, lesson_07,
        lesson_08, lesson_09, lesson_10, lesson_11, lesson_12, lesson_13,
        lesson_14,
    )
}  # fmt: skip
"""The lessons that have exercises, by number."""
EXERCISES: Final[Mapping[str, Exercise]] = {e.id: e for m in LESSONS.values() for e in m.EXERCISES}
"""Every exercise by its id, in the order of the lessons."""


def exercise(name: str) -> Exercise:
    """The exercise of this id.

    >>> exercise("02-01").kind
    'derive'

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
