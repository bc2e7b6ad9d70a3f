"""What a learner may choose from: every option computed, each wrong one with what gives it.

Pieces, effects and orders by the slips; judgements of diagonals, of a piece as it was cut, of a
rule that fails, of a wall's layers, of wood that moves. What to do with a piece is common practice,
no published source.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from fractions import Fraction
from functools import partial
from hashlib import sha256
from itertools import pairwise
from typing import Final, Literal, TypeAlias, TypeVar

from hivecalc.assembly import steps
from hivecalc.components import DIMENSIONS, values
from hivecalc.derivation import title
from hivecalc.exercise.record import Exercise, Numbers, Option, asked_for, with_change
from hivecalc.fit import Finding, broken, findings, is_allowed
from hivecalc.judging import (
    Candidate,
    Verdict,
    Wrong,
    named_slips,
    plain,
    question,
    slip_verdict,
    spoken,
)
from hivecalc.judging.chain import rules_in_words
from hivecalc.length import LengthError, Units, by_the_tape, length_from_text, millimetres
from hivecalc.measuring import Squareness, squareness

Offered: TypeAlias = tuple[Option, ...]
T = TypeVar("T")
Maker: TypeAlias = Callable[[Exercise, Numbers], Iterator[Option]]


def options(exercise: Exercise, numbers: Numbers) -> Offered:
    """What an exercise offers to choose from on these numbers; nothing where a length is typed.

    >>> from hivecalc.exercise.record import numbers_of
    >>> rail = Exercise("02-01", "choose", "bottom_board.front_rail_length", "", "", "",
    ...                 "thickness_once thickness_forgotten")
    >>> [o.text for o in options(rail, numbers_of(""))]
    ['14 3/8 in', '17 3/8 in', '15 7/8 in']
    """

    def place(option: Option) -> bytes:
        return sha256(f"{exercise.id} {option.text}".encode()).digest()

    for key in (exercise.by, exercise.by.partition(" ")[0], exercise.kind):
        if key in IN_THEIR_ORDER:
            return tuple(IN_THEIR_ORDER[key](exercise, numbers))
        if key in MIXED:  # an order that says nothing of which is right, and is always the same
            return tuple(sorted(MIXED[key](exercise, numbers), key=place))
    return ()


# ── sizes and effects ─────────────────────────────────────────────────────────────────────────────


def _pieces(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """The right piece among those that the slips would cut."""
    (asked,) = asked_for(exercise, numbers)
    shown = [w for w in asked.wrong if w.slip.name in exercise.slips]
    for value in {asked.value, *(w.value for w in shown)}:
        wrong = tuple(w for w in shown if w.value == value)
        yield Option(spoken(value, asked.units), value == asked.value, value, wrong)


def _chains(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """The rule of a size in words among those of slips: which sizes, which sign, how often."""
    (asked,) = asked_for(exercise, numbers)
    by_slip = {w.slip.name: (w,) for w in reversed(asked.wrong)}
    for rule in rules_in_words(numbers.hive, exercise.asks, most=99):
        if not rule.slip:
            yield Option(rule.words, right=True, says="Each size is there, as often as it counts.")
        elif rule.slip in exercise.slips:
            wrong = by_slip.get(rule.slip, ())  # none on a hive as long as it is wide
            yield Option(rule.words, right=False, wrong=wrong, says=rule.question)


def _effects(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """How a size changes with a measurement: rightly, by a slip, not at all, the other way."""
    old, new = (
        question(n.hive, exercise.asks) for n in (numbers, with_change(numbers, exercise.change))
    )
    right = new.value - old.value
    by_slip = dict[Fraction, list[Wrong]]()  # made before the change and after it
    after = {(w.slip.name, w.what, w.other): w.value for w in new.wrong}
    for wrong in old.wrong:
        key = (wrong.slip.name, wrong.what, wrong.other)
        if wrong.slip.name in exercise.slips and key in after:
            by_slip.setdefault(after[key] - wrong.value, []).append(wrong)
    name = exercise.change.partition(" ")[0]
    step = right or abs(new.hive.measurements[name] - old.hive.measurements[name])
    was, now = (spoken(v.value, numbers.units) for v in (old, new))
    for change in sorted({right, -step, step, Fraction(0), *by_slip}):
        text = _effect(change, exercise.asks, numbers.units)
        if change == right:
            yield Option(text, right=True, says=f"Before it is {was}, after it is {now}.")
        else:
            words = _no_effect(exercise, change, right)
            yield Option(text, right=False, wrong=tuple(by_slip.get(change, ())), says=words)


def _no_effect(exercise: Exercise, change: Fraction, right: Fraction) -> str:
    """Why a size does not change so, without saying how it does."""
    measured, asked = plain(exercise.change.partition(" ")[0]), title(exercise.asks)
    if not right:
        return f"The {measured} does not come into the {asked} at all."
    if not change:
        return f"The {asked} is made from the {measured}: when one changes, so does the other."
    if change * right < 0:
        return f"The other way: look whether the {measured} is added there or taken off."
    return f"Count how often the {measured} comes into the {asked}."


WAYS: Final[Mapping[str, tuple[str, str]]] = {
    "length": ("longer", "shorter"),
    "width": ("wider", "narrower"),
    "height": ("higher", "lower"),
}


def _effect(change: Fraction, name: str, units: Units) -> str:
    if not change:
        return "It stays the same"
    longer, shorter = WAYS.get(name.rpartition("_")[2], ("more", "less"))
    return f"{spoken(abs(change), units)} {longer if change > 0 else shorter}"


def _touched(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Which of several sizes a change reaches most, or least."""
    old, new = (values(n.hive) for n in (numbers, with_change(numbers, exercise.change)))
    changes = {n: new[n] - old[n] for n in exercise.dimensions}
    extreme = (max if exercise.by.startswith("most ") else min)(abs(c) for c in changes.values())
    for name, by in changes.items():
        text = _effect(by, name, numbers.units)
        says = f"The {title(name)}: {text[:1].lower()}{text[1:]}."
        yield Option(_piece(name), abs(by) == extreme, says=says)


def _piece(name: str) -> str:
    """What a size is the size of, as it is said at the bench."""
    return title(name).removesuffix(" length")


# ── orders ────────────────────────────────────────────────────────────────────────────────────────


def _orders(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Orders of sizes: by what they measure, or by what is made from what."""
    listed = exercise.asks.split()
    fault = partial(_fault, exercise, numbers)
    sizes = {**values(numbers.hive), **numbers.sizes} if exercise.by != "needed first" else {}
    for names in _to_choose_from(_sorted(listed, fault), listed):
        row = "; ".join(f"{_piece(n)} {spoken(sizes[n], numbers.units)}" for n in names if sizes)
        wrong = next(filter(None, (fault(a, b) for a, b in pairwise(names))), "")
        says = wrong or (f"{row}." if row else "")
        yield Option(", then ".join(map(_piece, names)), not wrong, says=says)


def _sorted(listed: Sequence[str], fault: Callable[[str, str], str]) -> list[str]:
    """The names in an order in which none stands before one that must come first."""
    left, right = list(listed), list[str]()
    while left:
        first = next(n for n in left if not any(fault(n, m) for m in left if m != n))
        left.remove(first)
        right.append(first)
    return right


def _fault(exercise: Exercise, numbers: Numbers, one: str, other: str) -> str:
    """Why one of two may not come before the other; nothing where it may."""
    sizes = {**values(numbers.hive), **numbers.sizes}
    if exercise.by == "longest first" and sizes[other] > sizes[one]:
        return f"The {_piece(other)} is longer than the {_piece(one)}."
    if exercise.by == "smallest first" and sizes[one] > sizes[other]:
        return f"{numbers.said(one)} is more than {numbers.said(other)}."
    if exercise.by == "needed first" and other in DIMENSIONS.before(
        one, numbers.hive.measurements, len(exercise.dimensions)
    ):
        return f"The {title(one)} is made from the {title(other)}."
    return ""


def _to_choose_from(right: Sequence[T], listed: Sequence[T]) -> Iterable[tuple[T, ...]]:
    """The right order, turned round, as listed, two or one of it moved."""
    moved = [*right[1::-1], *right[2:]], [*right[1:], right[0]]
    return dict.fromkeys(map(tuple, (right, right[::-1], listed, *moved)))


def _listed(exercise: Exercise, numbers: Numbers) -> dict[int, str]:
    """What the steps that are asked about are called, by their places, as they are listed."""
    known = {step.key: (place, step) for place, step in enumerate(steps(numbers.hive))}
    there = [known[key] for key in exercise.asks.split() if key in known]
    _, last = there[-1]
    return {place: step.title for place, step in there if step.component == last.component}


def done(exercise: Exercise, numbers: Numbers) -> str:
    """The steps in the order in which somebody did them."""
    return ", then ".join(f"“{title}”" for title in _listed(exercise, numbers).values())


def _in_order(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Orders of some steps of the work: the one that goes, and others."""
    titles = _listed(exercise, numbers)
    for order in _to_choose_from(sorted(titles), [*titles]):
        wrong = next(((b, a) for a, b in pairwise(order) if b < a), None)
        says = _first(*(titles[n] for n in wrong)) if wrong else "Each one finds what it needs."
        first, *others = (titles[place] for place in order)
        later = (f"{title[:1].lower()}{title[1:]}" for title in others)
        yield Option(", then ".join((first, *later)), not wrong, says=says)


def _too_early(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Which step was done before another one that it needs."""
    titles = _listed(exercise, numbers)
    for number, place in enumerate(titles):
        late = next((later for later in [*titles][number + 1 :] if later < place), None)
        done, says = titles[place], "All that it needs was done by then."
        if late is not None:
            says = _first(titles[late], done)
        yield Option(f"“{done}” came too early", late is not None, says=says)


def _first(before: str, after: str) -> str:
    return f"“{before}” comes before “{after}”."


# ── judgements ────────────────────────────────────────────────────────────────────────────────────

PUSHES: Final = (
    "Square enough: leave it",
    "Push front left and back right together",
    "Push front right and back left together",
    "Measure again: these can't all be right",
)
CLAMPED: Final = (
    "Clamp it, and plane it or cut it as the manual of your saw shows. Foam: a knife, away from "
    "your hands."
)
ENOUGH: Final = "It goes in and does its work: "
REPAIRS: Final = (
    "Use it as it is", "Trim it to size", "Fill the gap with a thin strip", "Cut another one",
)  # fmt: skip
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
    by = f"The diagonals differ by {spoken(abs(found.difference), units)}"
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
    by = f"It is {spoken(abs(off), numbers.units)} {size}. " if off else ""
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
    def in_own_units(length: Fraction) -> str:
        return f"{millimetres(length)} mm" if units == "mm" else by_the_tape(length)

    limits = (("at least", found.low), ("at most", found.high))
    needed = " and ".join(
        f"{word} {in_own_units(limit)}" for word, limit in limits if limit is not None
    )
    return f"That rule still holds: {in_own_units(found.value)}, and it asks for {needed}."


def _counts(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """How many pieces come out of a board, each cut taking its kerf."""
    board, kerf = (numbers.sizes[n] for n in ("board", "kerf"))
    piece = values(numbers.hive)[exercise.asks]
    right = (board + kerf) // (piece + kerf)
    for count in range(max(2, right - 1), right + 3):
        needed = count * piece + (count - 1) * kerf
        fits = "go in with room to spare" if needed <= board else "need a longer board"
        says = f"{count} pieces and {count - 1} cuts between them take"
        text = f"{says} {spoken(needed, numbers.units)}: they {fits}."
        yield Option(f"{count} pieces", count == right, says=text)


# ── heat and wood ─────────────────────────────────────────────────────────────────────────────────

MOVES: Final[Mapping[Literal["tangential", "radial", "along"], str]] = {
    "tangential": "Most round the rings, hardly any along the grain",
    "radial": "Most across the rings, as much along the grain",
    "along": "Most along the grain, since that is the longest way",
}
"""How a board may be thought to move, the right one by the direction that moves most."""


def _in_a_row(_exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """R of a wall of board, foam and skin, among what slips would give."""
    from hivecalc.warmth import layers as wall  # noqa: PLC0415 - slow to load
    from hivecalc.warmth.losses import (  # noqa: PLC0415 - as above
        R_PLACES,
        chain_slips,
        in_a_row,
        links,
    )

    made_of = {"board": wall.SOFTWOOD, "foam": wall.FOAM, "skin": wall.PLYWOOD}
    units = numbers.units
    each = (wall.layer(made_of[n], float(size) * 0.0254, n) for n, size in numbers.sizes.items())
    chain = links(wall.Element((wall.Path(1, tuple(each)),), "level"), units)
    row = " + ".join(f"{r:.{R_PLACES[units]}f}" for _, r in chain)
    said = f"{row}: films and layers, one after another."
    yield Option(f"R {in_a_row(chain, units):.{R_PLACES[units]}f}", right=True, says=said)
    for slip in {s.name: s for s in reversed(chain_slips(chain, units))}.values():
        yield Option(f"R {slip.value:.{1 + R_PLACES[units]}g}", right=False, says=slip.sentence)


def _side_by_side(_exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """R of foam with a strip of wood beside it, among what slips would give."""
    from hivecalc.warmth.losses import beside_slips, side_by_side  # noqa: PLC0415 - slow to load

    foam, strip = (float(numbers.sizes[n]) for n in ("foam_height", "strip_height"))
    parts = [(foam / (foam + strip), 5.0), (strip / (foam + strip), 1.0)]
    said = "Each way takes its share of the area, and the flows are added."
    yield Option(f"R {side_by_side(parts):.1f}", right=True, says=said)
    for slip in beside_slips(parts):
        yield Option(f"R {slip.value:.2g}", right=False, says=slip.sentence)


def _grain(_exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Which way a board moves most, with how much it is for a white fir from 12 to 8 %."""
    from hivecalc.wood import SPECIES, USUAL_SPECIES, change  # noqa: PLC0415 - slow to load

    board = float(numbers.sizes["board"])
    moves = {g: abs(change(board, SPECIES[USUAL_SPECIES], g, 12, 8)) for g in MOVES}
    most = max(moves.values())
    times = most / moves["along"]
    said = f"Round the rings it moves about {times:.0f} times as much as along the grain."
    for grain, text in MOVES.items():
        yield Option(text, moves[grain] == most, says=said)


# ── by kind, and the verdict ──────────────────────────────────────────────────────────────────────

IN_THEIR_ORDER: Final[Mapping[str, Maker]] = {
    "predict": _effects,
    "most": _touched,
    "least": _touched,
    "square": _pushes,
    "piece": _repairs,
    "rule": _rules,
    "count": _counts,
}
"""What makes choices that are always the same, or go up, by an exercise's kind or its `by`."""
MIXED: Final[Mapping[str, Maker]] = {
    "choose": _pieces,
    "chain": _chains,
    "order": _orders,
    "built first": _in_order,
    "too early": _too_early,
    "row": _in_a_row,
    "beside": _side_by_side,
    "grain": _grain,
}


def choice_verdict(
    name: str, offered: Sequence[Option], answer: str, question: str, units: Units = "inch"
) -> Verdict:
    """The verdict on a choice: by its text, or by its value where that is a length.

    >>> offered = (Option("9 in", True, Fraction(9)), Option("8 in", False, Fraction(8)))
    >>> [choice_verdict("left", offered, a, "").verdict for a in ("9.0", "8 in", "7")]
    ['right', 'unexplained', 'unreadable']
    """
    chosen = _chosen(offered, answer)
    if chosen is None:
        texts = "; ".join(o.text for o in offered)
        return Verdict(name, answer, "unreadable", f"Choose one of these: {texts}.")
    if chosen.right:
        text = f"Right. {chosen.says}".strip()
        return Verdict(name, answer, "right", text, value=chosen.value)
    if chosen.wrong:
        read = chosen.value or Fraction(0)
        slips = named_slips((Candidate(w, read) for w in chosen.wrong), read, units)
        return slip_verdict(name, answer, chosen.value, slips)
    text = chosen.says or "That is not it."
    return Verdict(name, answer, "unexplained", text, question, chosen.value)


def _chosen(offered: Iterable[Option], answer: str) -> Option | None:
    plain, value = " ".join(answer.casefold().split()), None
    with suppress(LengthError):
        value = length_from_text(answer)
    by_text = (o for o in offered if o.text.casefold() == plain)
    by_value = (o for o in offered if value is not None and o.value == value)
    return next(by_text, None) or next(by_value, None)
