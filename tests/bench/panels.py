"""From a changed field to the new picture, in the kernel, beside the same with pyplot.

Run:  python -m tests.bench.panels

Every way answers the same entries in turn, in one process. The pyplot way draws the frame's four
rails and the dimension texts to PNG, as `interact` with an inline figure does, and decides nothing.
"""

import io
import statistics
import time
from collections.abc import Callable
from fractions import Fraction

from hivecalc.components import built, values
from hivecalc.drawing import Subject, plan, section, stack, tape
from hivecalc.drawing.in_space import in_space
from hivecalc.hive import Hive, changed, demo_hive
from hivecalc.pages import outcomes

HIVE = demo_hive()
STUDS = [f"1 {n}/16" for n in (7, 8, 9, 10, 11)] * 12
CUTS = [f"{n} {k}/8" for n in (13, 14, 15, 16) for k in (1, 3, 5, 7)] * 4
FRONT_RAIL = "bottom_board.front_rail_length"


def times(answer: Callable[[str], object], entries: list[str]) -> list[float]:
    """Milliseconds of each answer, after one that is not counted."""
    answer(entries[0])
    found = []
    for entry in entries:
        start = time.perf_counter()
        answer(entry)
        found.append((time.perf_counter() - start) * 1000)
    return found


def pyplot_plan(text: str) -> bytes:
    """The frame from above by pyplot, as a PNG."""
    from matplotlib import pyplot as plt
    from matplotlib.patches import Rectangle

    now: Hive = changed(HIVE, {"stud_thickness": text})
    found = {n: float(v) for n, v in values(now).items()}
    stud, length, width = found["stud_thickness"], found["hive_length"], found["hive_width"]
    figure, axes = plt.subplots()
    for place, size in (
        ((0, 0), (length - stud, stud)),
        ((0, width - stud), (length - stud, stud)),
        ((0, stud), (stud, width - 2 * stud)),
        ((length - stud, 0), (stud, width)),
    ):
        axes.add_patch(Rectangle(place, *size, fill=False, hatch="//"))
        axes.text(place[0] + size[0] / 2, place[1] + size[1] / 2, f"{max(size):.3f}")
    axes.set(xlim=(-1, length + 1), ylim=(-1, width + 1), aspect="equal")
    data = io.BytesIO()
    figure.savefig(data, format="png")
    plt.close(figure)
    return data.getvalue()


def main() -> None:
    """Print a table: median, 95th percentile and largest of each way."""
    import matplotlib as mpl

    mpl.use("agg")
    found = Subject(values(HIVE))
    whole, turns = built(HIVE), [str(turn) for turn in range(0, 360, 7)]
    ways: dict[str, tuple[Callable[[str], object], list[str]]] = {
        "a changed stud, whole outcome": (
            lambda t: outcomes.planned_anew(HIVE, "stud_thickness", t), STUDS),
        "a wrong front rail, whole outcome": (
            lambda t: outcomes.wrong_cut(HIVE, FRONT_RAIL, t), CUTS),
        "a runner turned, whole outcome, stack": (
            lambda t: outcomes.wrong_cut(HIVE, "bottom_board.upper_runner_height", t, "stack"),
            ["3/4", "1/2"] * 20),
        "a reading on the tape": (lambda t: outcomes.reading(HIVE, t), CUTS),
        "drawing alone: plan": (lambda _: plan(Subject(found.now)), CUTS),
        "drawing alone: section": (lambda _: section(Subject(found.now)), CUTS),
        "drawing alone: stack": (lambda _: stack(Subject(found.now)), CUTS),
        "drawing alone: tape": (lambda _: tape(Fraction(185, 8)), CUTS),
        "in space: the bottom board": (
            lambda t: in_space(found.now, whole[:1], turn=int(t), opened=0.5), turns),
        "in space: the whole hive": (
            lambda t: in_space(found.now, whole, turn=int(t), opened=0.5), turns),
        "a changed stud, pyplot PNG": (pyplot_plan, STUDS),
    }  # fmt: skip
    medians = {}
    for name, (answer, entries) in ways.items():
        taken = sorted(times(answer, entries))
        medians[name] = statistics.median(taken)
        p95 = taken[int(0.95 * (len(taken) - 1))]
        print(f"{name:40} median {medians[name]:7.2f} ms   p95 {p95:7.2f}   max {taken[-1]:7.2f}")
    ratio = medians["a changed stud, pyplot PNG"] / medians["a changed stud, whole outcome"]
    print(f"pyplot over the whole outcome: × {ratio:.1f}")


if __name__ == "__main__":
    main()
