"""What a judgement can be chosen from: each choice computed, with why it is right or wrong.

Diagonals, a piece as it was cut, a rule that fails, pieces out of a board; layers of a wall, wood
that moves; the order of work. What to do with a piece is common practice, no published source.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Final, TypeAlias

from hivecalc.assembly import Step, steps
from hivecalc.components import values
from hivecalc.derivation import title
from hivecalc.exercise.asked import Option
from hivecalc.exercise.record import Exercise, Numbers, with_change
from hivecalc.fit import Finding, broken, findings, is_allowed
from hivecalc.judging import in_units as said
from hivecalc.length import Units, by_the_tape, millimetres
from hivecalc.measuring import Squareness, squareness

Maker: TypeAlias = Callable[[Exercise, Numbers], Iterator[Option]]


# ── pieces, frames and boards ─────────────────────────────────────────────────────────────────

PUSHES: Final = (
    "Square enough: leave it",
    "Push front left and back right together",
    "Push front right and back left together",
    "Measure again: these can't all be right",
)
REPAIRS: Final = (
    "Use it as it is",
    "Trim it to size",
    "Fill the gap with a thin strip",
    "Cut another one",
)
CLAMPED: Final = (
    "Clamp it, and plane it or cut it as the manual of your saw shows. Foam: a knife, away from "
    "your hands."
)
ENOUGH: Final = "It goes in and does its work: "
# What to say to each repair of a piece that is good, too long or too short; the right one first.
SAID: Final[Mapping[str, Mapping[int, str]]] = {
    "good": {
        0: "No rule fails with it.",
        1: f"{ENOUGH}nothing has to come off.",
        2: f"{ENOUGH}a strip would take the room that it needs.",
        3: f"{ENOUGH}another one only costs material.",
    },
    "too long": {
        1: f"What is too long is not finished yet. {CLAMPED}",
        0: "So it does not go in, or pushes its neighbours apart.",
        2: "There is no gap that a strip could fill.",
        3: "So it can still be trimmed: another one only costs material.",
    },
    "too short": {
        3: "Keep this one for a shorter piece.",
        0: "So it leaves a gap that does harm, and no glue fills that.",
        1: "A saw takes off, and nothing puts it back.",
        2: "A strip in a screwed joint holds no screw, and a loose one falls out.",
    },
}


def _pushes(_exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """What to do with a box of these sides and diagonals."""
    length, width, rising, falling = (
        numbers.sizes[n] for n in ("length", "width", "rising", "falling")
    )
    found = squareness(length, width, rising, falling, numbers.units)
    leaning = 1 if found.lean > 0 else 2
    right = 3 if found.misread else 0 if found.square else leaning
    for number, text in enumerate(PUSHES):
        says = found.sentence if number == right else _wrong_push(number, found, numbers.units)
        yield Option(text, number == right, says=says)


def _wrong_push(number: int, found: Squareness, units: Units) -> str:
    """Why leaving it, pushing these two corners or measuring again is wrong here."""
    if found.misread:
        return "No box of these sides has these two diagonals, so they say nothing about it yet."
    if number == 3:  # noqa: PLR2004 - the last of PUSHES
        return "The figures are possible: there is such a box."
    by = f"The diagonals differ by {said(abs(found.difference), units)}"
    if found.square:
        return f"{by}: that is square enough, and a push may only make it worse."
    if not number:
        return f"{by}: more than is square enough."
    return "These two corners lie on the shorter diagonal, and it would get shorter still."


def _repairs(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """What to do with a piece that was cut to this size: what may be cut is for `fit` to say."""
    cut = numbers.sizes["cut"]
    off = cut - values(numbers.hive)[exercise.asks]
    size = "too long" if off > 0 else "too short"
    found = "good" if is_allowed(numbers.hive, exercise.asks, cut) else size
    by = f"It is {said(abs(off), numbers.units)} {size}. " if off else ""
    right, *_ = SAID[found]
    for number, text in enumerate(REPAIRS):
        yield Option(text, number == right, says=f"{by}{SAID[found][number]}")


def _rules(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Which of several rules fails after a change, and by how much the others still hold."""
    new = findings(with_change(numbers, exercise.change).hive)
    failing = {f.rule: f.why for f in broken(findings(numbers.hive), new)}
    found = {f.rule: f for f in new}
    for name in exercise.asks.split():
        says = failing.get(name) or _still_holds(found[name], numbers.units)
        yield Option(title(name).capitalize(), name in failing, says=says)


def _still_holds(found: Finding, units: Units) -> str:
    def told(length: Fraction) -> str:
        return f"{millimetres(length)} mm" if units == "mm" else by_the_tape(length)

    limits = (("at least", found.low), ("at most", found.high))
    needed = " and ".join(f"{word} {told(limit)}" for word, limit in limits if limit is not None)
    return f"That rule still holds: {told(found.value)}, and it asks for {needed}."


def _counts(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """How many pieces come out of a board, each cut taking its kerf."""
    board, kerf = (numbers.sizes[n] for n in ("board", "kerf"))
    piece = values(numbers.hive)[exercise.asks]
    right = (board + kerf) // (piece + kerf)
    for count in range(max(2, right - 1), right + 3):
        needed = count * piece + (count - 1) * kerf
        fits = "go in with room to spare" if needed <= board else "need a longer board"
        says = (
            f"{count} pieces and {count - 1} cuts between them take {said(needed, numbers.units)}: "
        )
        yield Option(f"{count} pieces", count == right, says=f"{says}they {fits}.")


# ── heat and wood ──

WAYS: Final = {
    "tangential": "Most round the rings, hardly any along the grain",
    "radial": "Most across the rings, as much along the grain",
    "along": "Most along the grain, since that is the longest way",
}
"""How a board may be thought to move, the right one by the direction that moves most."""


def _in_a_row(_exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """R of a wall of board, foam and skin, among what slips would give."""
    from hivecalc.warmth.layers import (  # noqa: PLC0415 - as above
        FOAM,
        PLYWOOD,
        SOFTWOOD,
        Element,
        Path,
        layer,
    )
    from hivecalc.warmth.losses import chain_slips, links  # noqa: PLC0415 - slow to load
    from hivecalc.warmth.losses import in_a_row as together  # noqa: PLC0415 - as above

    made_of = {"board": SOFTWOOD, "foam": FOAM, "skin": PLYWOOD}
    layers = tuple(
        layer(made_of[name], float(size) * 0.0254, name) for name, size in numbers.sizes.items()
    )
    chain = links(Element((Path(1, layers),), "level"))
    row = " + ".join(f"{r:.1f}" for _, r in chain)
    said = f"{row}: films and layers, one after another."
    yield Option(f"R {together(chain):.1f}", right=True, says=said)
    wanted = {s.name: s for s in reversed(chain_slips(chain))}
    for slip in wanted.values():
        yield Option(f"R {slip.value:.2g}", right=False, says=slip.sentence)


def _side_by_side(_exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """R of foam with a strip of wood beside it, among what slips would give."""
    from hivecalc.warmth.losses import beside_slips  # noqa: PLC0415 - slow to load
    from hivecalc.warmth.losses import side_by_side as together  # noqa: PLC0415 - as above

    foam, strip = (float(numbers.sizes[n]) for n in ("foam_height", "strip_height"))
    parts = [(foam / (foam + strip), 5.0), (strip / (foam + strip), 1.0)]
    said = "Each way takes its share of the area, and the flows are added."
    yield Option(f"R {together(parts):.1f}", right=True, says=said)
    for slip in beside_slips(parts):
        yield Option(f"R {slip.value:.2g}", right=False, says=slip.sentence)


def _grain(_exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Which way a board moves most, with how much it is for a white fir from 12 to 8 %."""
    from hivecalc.wood import SPECIES, USUAL_SPECIES, Grain, change  # noqa: PLC0415 - slow to load

    board = float(numbers.sizes["board"])
    grains: tuple[Grain, ...] = ("tangential", "radial", "along")
    moves = {g: abs(change(board, SPECIES[USUAL_SPECIES], g, 12, 8)) for g in grains}
    most = max(moves, key=lambda g: moves[g])
    for name, text in WAYS.items():
        times = moves[most] / moves["along"]
        said = f"Round the rings it moves about {times:.0f} times as much as along the grain."
        yield Option(text, name == most, says=said)


# ── the order of work ──

FOUND_ALL: Final = "Each one finds what it needs."


def _listed(exercise: Exercise, numbers: Numbers) -> list[Step]:
    """The steps that are asked about, as the exercise lists them."""
    known = {step.key: step for step in steps(numbers.hive)}
    there = [known[key] for key in exercise.asks.split() if key in known]
    return [step for step in there if step.component == there[-1].component]


def done(exercise: Exercise, numbers: Numbers) -> str:
    """The steps in the order in which somebody did them."""
    return ", then ".join(f"“{step.title}”" for step in _listed(exercise, numbers))


def orders(right: Sequence[str], listed: Sequence[str]) -> Iterable[tuple[str, ...]]:
    """Orders to choose from: the right one, turned round, as listed, two or one of it moved."""
    moved = [*right[1::-1], *right[2:]], [*right[1:], right[0]]
    return dict.fromkeys(map(tuple, (right, right[::-1], listed, *moved)))


def _in_order(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Orders of some steps: the one that goes, turned round, as listed, two exchanged."""
    names, place = _listed(exercise, numbers), _places(numbers)
    known = {step.key: step for step in names}
    for order in orders(sorted(known, key=place.__getitem__), [*known]):
        wrong = next(((a, b) for a, b in pairwise(order) if place[b] < place[a]), None)
        says = _first(*(known[key] for key in wrong[::-1])) if wrong else FOUND_ALL
        first, *others = (known[key].title for key in order)
        later = (f"{title[:1].lower()}{title[1:]}" for title in others)
        yield Option(", then ".join((first, *later)), not wrong, says=says)


def _too_early(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Which step was done before another one that it needs."""
    order, place = _listed(exercise, numbers), _places(numbers)
    for number, step in enumerate(order):
        late = [each for each in order[number + 1 :] if place[each.key] < place[step.key]]
        says = _first(late[0], step) if late else "All that it needs was done by then."
        yield Option(f"“{step.title}” came too early", bool(late), says=says)


def _places(numbers: Numbers) -> dict[str, int]:
    return {step.key: n for n, step in enumerate(steps(numbers.hive))}


def _first(before: Step, after: Step) -> str:
    return f"“{before.title}” comes before “{after.title}”."


MAKERS: Final[Mapping[str, Maker]] = {
    "square": _pushes,
    "piece": _repairs,
    "rule": _rules,
    "count": _counts,
    "row": _in_a_row,
    "beside": _side_by_side,
    "grain": _grain,
    "built first": _in_order,
    "too early": _too_early,
}
"""What makes the choices, by what an exercise's `by` is or begins with."""
