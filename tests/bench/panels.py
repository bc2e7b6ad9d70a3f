"""From a changed field to the new picture, in the kernel.

Run:  python -m tests.bench.panels

Every way answers the same entries in turn, in one process.
"""

import statistics
import time
from collections.abc import Callable
from fractions import Fraction

from hivecalc.components import built, values
from hivecalc.drawing import Subject, plan, section, stack, tape
from hivecalc.drawing.in_space import in_space
from hivecalc.hive import demo_hive
from hivecalc.pages import outcomes

HIVE = demo_hive()
STUDS = [f"1 {n}/16" for n in (7, 8, 9, 10, 11)] * 12
CUTS = [f"{n} {k}/8" for n in (13, 14, 15, 16) for k in (1, 3, 5, 7)] * 4
FRONT_RAIL = "bottom_board.front_rail_length"
RUNNER = "bottom_board.upper_runner_height"


def times(answer: Callable[[str], object], entries: list[str]) -> list[float]:
    """Milliseconds of each answer, after one that is not counted."""
    answer(entries[0])
    found = []
    for entry in entries:
        start = time.perf_counter()
        answer(entry)
        found.append((time.perf_counter() - start) * 1000)
    return found


def main() -> None:
    """Print a table: median, 95th percentile and largest of each way."""
    found = Subject(values(HIVE))
    whole, turns = built(HIVE), [str(turn) for turn in range(0, 360, 7)]
    ways: dict[str, tuple[Callable[[str], object], list[str]]] = {
        "a changed stud, whole outcome": (
            lambda t: outcomes.planned_anew(HIVE, "stud_thickness", t).follows, STUDS),
        "a wrong front rail, whole outcome": (
            lambda t: outcomes.wrong_cut(HIVE, FRONT_RAIL, t).follows, CUTS),
        "a runner turned, whole outcome, stack": (
            lambda t: outcomes.wrong_cut(HIVE, RUNNER, t, "stack").follows,
            ["3/4", "1/2"] * 20),
        "a reading on the tape": (lambda t: outcomes.on_tape(tape, HIVE, t), CUTS),
        "drawing alone: plan": (lambda _: plan(Subject(found.now)), CUTS),
        "drawing alone: section": (lambda _: section(Subject(found.now)), CUTS),
        "drawing alone: stack": (lambda _: stack(Subject(found.now)), CUTS),
        "drawing alone: tape": (lambda _: tape(Fraction(185, 8)), CUTS),
        "in space: the bottom board": (
            lambda t: in_space(found.now, whole[:1], turn=int(t), opened=0.5), turns),
        "in space: the whole hive": (
            lambda t: in_space(found.now, whole, turn=int(t), opened=0.5), turns),
    }  # fmt: skip
    for name, (answer, entries) in ways.items():
        taken = sorted(times(answer, entries))
        middle, p95 = statistics.median(taken), taken[int(0.95 * (len(taken) - 1))]
        print(f"{name:40} median {middle:7.2f} ms   p95 {p95:7.2f}   max {taken[-1]:7.2f}")


if __name__ == "__main__":
    main()
