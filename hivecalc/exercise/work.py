"""What can be chosen from about the order of work: options made from the steps of putting together.

An exercise lists steps by their keys. Of those, the steps of one component are asked about: the
last in the list that the hive of these numbers has.
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from hivecalc.assembly import Step, steps
from hivecalc.exercise.record import Exercise, Numbers


def listed(exercise: Exercise, numbers: Numbers) -> list[Step]:
    """The steps that are asked about, as the exercise lists them."""
    known = {step.key: step for step in steps(numbers.hive)}
    there = [known[key] for key in exercise.asks.split() if key in known]
    return [step for step in there if step.component == there[-1].component]


def done(exercise: Exercise, numbers: Numbers) -> str:
    """The steps in the order in which somebody did them."""
    return ", then ".join(f"“{step.title}”" for step in listed(exercise, numbers))


def in_order(exercise: Exercise, numbers: Numbers) -> Iterator[tuple[str, bool, str]]:
    """Orders of some steps: the one that goes, turned round, as listed, two exchanged.

    Yields the text, whether it is right, and what to say to it.
    """
    names, place = listed(exercise, numbers), _places(numbers)
    right = sorted(names, key=lambda step: place[step.key])
    tried = [right, right[::-1], names, [*right[1::-1], *right[2:]], [*right[1:], right[0]]]
    for order in {tuple(step.key for step in each): each for each in tried}.values():
        wrong = next(((a, b) for a, b in pairwise(order) if place[b.key] < place[a.key]), None)
        says = _first(*wrong[::-1]) if wrong else "Each one finds what it needs."
        yield ", then ".join(step.title for step in order), not wrong, says


def too_early(exercise: Exercise, numbers: Numbers) -> Iterator[tuple[str, bool, str]]:
    """Which step was done before another one that it needs.

    Yields the text, whether it is right, and what to say to it.
    """
    order, place = listed(exercise, numbers), _places(numbers)
    for number, step in enumerate(order):
        late = [each for each in order[number + 1 :] if place[each.key] < place[step.key]]
        says = _first(late[0], step) if late else "All that it needs was done by then."
        yield f"“{step.title}” came too early", bool(late), says


def _places(numbers: Numbers) -> dict[str, int]:
    return {step.key: n for n, step in enumerate(steps(numbers.hive))}


def _first(before: Step, after: Step) -> str:
    return f"“{before.title}” comes before “{after.title}”."


MAKERS: Final = {"built first": in_order, "too early": too_early}
"""What makes the options, by what stands in an exercise's `by`."""
