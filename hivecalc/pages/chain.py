"""What a learner's steps to a dimension lead to: predict, build the chain, do the sum, see it.

Plain functions from an entry to what is shown; nothing here gives the figure away before it is
found.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from typing import Final

from hivecalc.components import COURSE, values
from hivecalc.derivation import in_measurements, title
from hivecalc.drawing.bar import ASKED, Laid, Term, chain_bar, laid_off
from hivecalc.drawing.canvas import figure
from hivecalc.fractions_in_words import in_words, sum_steps, without_result
from hivecalc.hive import Hive
from hivecalc.judging import Verdict
from hivecalc.judging.arithmetic import plain
from hivecalc.judging.chain import (
    MOST_COUNT,
    ChainVerdict,
    chain_verdict,
    comes_to,
    in_working_order,
    offered,
    rules_in_words,
    sum_verdict,
    true_chain,
)
from hivecalc.length import MM, Length, Units
from hivecalc.pages.messages import message, verdict_message
from hivecalc.pages.outcomes import best_view
from hivecalc.pages.views import VIEWS
from hivecalc.space import Solid, solids

TRIES_BEFORE_STEP: Final = 3
WORKED: Final[dict[Units, tuple[Length, Length]]] = {
    "inch": (Fraction(121, 4), Fraction(3, 4)),
    "mm": (760 * MM, 18 * MM),
}
"""A cupboard's width and the thickness of its sides, for an example; invented."""
A_HAND: Final = Fraction(4)
TWO_FINGERS: Final = Fraction(2)
LATER: Final = "later"
MEANT_IN_ALL: Final = ("_gap", "_clearance")
PLACES: Final = {
    "hive_width": (0, "", Fraction(0)),
    "hive_length": (1, "", Fraction(0)),
    "stud_width": (2, "", Fraction(0)),
    "bottom_board.opening_width": (0, "stud_thickness", Fraction(1)),
    "bottom_board.opening_length": (1, "stud_thickness", Fraction(1)),
    "roof.rim_width": (0, "cap_clearance", Fraction(-1, 2)),
    "roof.rim_length": (1, "cap_clearance", Fraction(-1, 2)),
}
"""Where a size that a chain begins with lies: along x, y or z, and how far from the hive's corner.
"""


# ── a chain that somebody else built ──────────────────────────────────────────────────────────


def worked_chain(units: Units) -> tuple[str, str]:
    """The chain of a sister piece, worked through: its bar, and its sum step by step.

    >>> bar, told = worked_chain("inch")
    >>> "28 3/4 in" in bar, "30 1/4 − 1 1/2" in told
    (True, True)

    A shelf between the two sides of a cupboard: an invented example.
    """
    whole, side = WORKED[units]
    terms = [
        Term("width of the cupboard", whole, Fraction(1)),
        Term("thickness of a side", side, Fraction(-2)),
    ]
    left = whole - 2 * side
    bar = chain_bar(terms, "shelf", result=figure(left, units), units=units)
    lengths = [(term.count, term.size) for term in terms]
    return bar, message("note", *in_words(sum_steps(lengths, units)))


# ── predict ───────────────────────────────────────────────────────────────────────────────────


def prediction(hive: Hive, dimension: str) -> tuple[str, list[tuple[str, str]]]:
    """The question to predict by, and what may be chosen: what is said, and the word kept for it.

    >>> from hivecalc.hive import demo_hive
    >>> question, options = prediction(demo_hive(), "bottom_board.front_rail_length")
    >>> question, options[1][1]
    ('beside the hive width of 17 3/8 in, is the front rail length …', 'same')
    """
    base = _base(hive, dimension)
    size = figure(values(hive)[base], hive.units)
    long = dimension.endswith("_length")
    more, less = ("longer", "shorter") if long else ("larger", "smaller")
    two, hand = ("2 in", "4 in") if hive.units == "inch" else ("5 cm", "10 cm")
    return f"beside the {plain(base)} of {size}, is the {title(dimension)} …", [
        (more, "more"),
        ("just as long" if long else "the same", "same"),
        (f"{less} by a finger or two (up to {two})", "finger"),
        (f"{less} by a hand (up to {hand})", "hand"),
        (f"{less} by more than a hand", "less"),
    ]


def _base(hive: Hive, dimension: str) -> str:
    """The largest size that a dimension is made from: what it is compared with."""
    chain = true_chain(hive, dimension)
    sizes = values(hive)
    if chain is None:
        return max(COURSE.rests_on(dimension, hive.measurements, sizes), key=lambda n: sizes[n])
    return max(
        in_measurements(chain, sizes, hive.measurements, COURSE)
        if "." in next(iter(chain))
        else chain,
        key=lambda n: sizes[n],
    )


def prediction_fits(hive: Hive, dimension: str, word: str) -> bool:
    """Whether a prediction was right.

    >>> from hivecalc.hive import demo_hive
    >>> [w for w in ("same", "hand", "less")
    ...  if prediction_fits(demo_hive(), "bottom_board.front_rail_length", w)]
    ['hand']
    """
    sizes = values(hive)
    over = sizes[_base(hive, dimension)] - sizes[dimension]
    return word == (
        "more" if over < 0
        else "same" if over == 0
        else "finger" if over <= TWO_FINGERS
        else "hand" if over <= A_HAND
        else "less"
    )  # fmt: skip


def prediction_told(hive: Hive, dimension: str, word: str) -> str:
    """What was predicted, beside how it came out; only for a size that was found."""
    _, options = prediction(hive, dimension)
    said = {kept: text for text, kept in options}.get(word)
    if not said:
        return ""
    sizes, base = values(hive), _base(hive, dimension)
    over = sizes[base] - sizes[dimension]
    long = dimension.endswith("_length")
    way = ("shorter" if long else "smaller") if over > 0 else ("longer" if long else "larger")
    by = f"{figure(abs(over), hive.units)} {way} than the" if over else "just the same as the"
    return f"You predicted: {said}. It came out {by} {plain(base)}."


# ── the chain ─────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Offered:
    """One size to build a chain from: its name, what it is called, and how big it is."""

    name: str
    words: str
    size: str


def sizes_offered(hive: Hive, dimension: str, found: Collection[str]) -> list[Offered]:
    """The sizes that a chain can be built from on this hive, with their values.

    >>> from hivecalc.hive import demo_hive
    >>> [(o.words, o.size) for o in sizes_offered(demo_hive(), "bottom_board.front_rail_width", ())]
    [('stud width', '3 1/2 in'), ('stud thickness', '1 1/2 in'), ('entrance height', '3/4 in')]
    """
    sizes = values(hive)
    names = offered(hive, dimension, found)
    return [Offered(n, plain(n), figure(sizes[n], hive.units)) for n in names]


def step_of_count(hive: Hive, dimension: str) -> Fraction:
    """By how much one press changes a count: a half where the formula has halves, else one."""
    chain = true_chain(hive, dimension) or {}
    return Fraction(1, 2) if any(c.denominator > 1 for c in chain.values()) else Fraction(1)


def changed_count(count: Fraction, by: Fraction) -> Fraction:
    """A count after a press, never beyond what a chain may hold.

    >>> changed_count(Fraction(MOST_COUNT), Fraction(1)) == MOST_COUNT
    True
    """
    return count if abs(count + by) > MOST_COUNT else count + by


def count_told(count: Fraction) -> str:
    """A count beside its buttons, with its sign.

    >>> [count_told(Fraction(n)) for n in (-2, 0, 1)]
    ['−2', '0', '+1']
    """
    sign = "+" if count > 0 else "−" if count < 0 else ""
    return f"{sign}{abs(count)}"


def chain_text(chain: Mapping[str, Fraction]) -> str:
    """A chain as it is kept among the answers.

    >>> chain_text({"hive_width": Fraction(1), "stud_thickness": Fraction(-2)})
    'hive_width=1, stud_thickness=-2'
    """
    return ", ".join(f"{name}={count}" for name, count in chain.items() if count)


def kept_chain(text: str, names: Collection[str]) -> dict[str, Fraction]:
    """The chain that was kept; empty where it can't be read or has a size that is not offered.

    >>> kept_chain("hive_width=1, stud_thickness=-2", ["hive_width", "stud_thickness"])
    {'hive_width': Fraction(1, 1), 'stud_thickness': Fraction(-2, 1)}
    >>> kept_chain("hive_width=1e99, x", ["hive_width"])
    {}
    """
    found: dict[str, Fraction] = {}
    for part in filter(None, text.split(", ")):
        name, _, count = part.partition("=")
        whole = count.removesuffix("/2").removeprefix("-")
        if name not in names or not whole.isdecimal() or len(whole) > len(str(2 * MOST_COUNT)):
            return {}
        found[name] = Fraction(count)
    return found if all(abs(c) <= MOST_COUNT for c in found.values()) else {}


def bar_of(
    hive: Hive, dimension: str, chain: Mapping[str, Fraction], *, solved: bool = False
) -> str:
    """The bar of a chain as it is now; with its result only where that is solved.

    >>> from hivecalc.hive import demo_hive
    >>> once = {"hive_width": Fraction(1), "stud_thickness": Fraction(-1)}
    >>> "15 7/8" in bar_of(demo_hive(), "bottom_board.front_rail_length", once)
    False
    """
    result = figure(comes_to(hive, chain), hive.units) if solved else ASKED
    before = _before(hive, dimension, chain)
    terms = _terms(hive, chain)
    return chain_bar(terms, title(dimension), before=before, result=result, units=hive.units)


def _terms(hive: Hive, chain: Mapping[str, Fraction]) -> list[Term]:
    sizes = values(hive)
    ordered = in_working_order(chain)
    return [Term(plain(n), sizes[n], c, n.endswith(MEANT_IN_ALL)) for n, c in ordered]


def _before(hive: Hive, dimension: str, chain: Mapping[str, Fraction]) -> Fraction | None:
    """How much of the bar lies before the piece, where that is known."""
    name, count = next(iter(in_working_order(chain)), ("", 0))
    if name not in PLACES or count != 1:
        return None
    added = [t for t in _terms(hive, chain)[1:] if t.count > 0]
    axis, origin = _place(hive, name)
    lies = _lies(hive, dimension, axis)
    if lies is None or not all(t.halved for t in added):
        return None
    return max(lies - origin + sum((t.size for t in added), Fraction(0)) / 2, Fraction(0))


def _place(hive: Hive, base: str) -> tuple[int, Fraction]:
    axis, before, times = PLACES[base]
    return axis, values(hive)[before] * times if before else times


def _lies(hive: Hive, dimension: str, axis: int) -> Fraction | None:
    """Where a piece of the bottom board or roof, or the opening, begins along x, y or z."""
    if dimension in PLACES:
        its_axis, origin = _place(hive, dimension)
        return origin if its_axis == axis else None
    for solid in _pieces(hive, dimension):
        part, _, size = dimension.partition(".")[2].rpartition("_")
        if solid.part == part and solid.along[axis] == size:
            return solid.extents[axis][0]
    return None


def _pieces(hive: Hive, dimension: str) -> Iterable[Solid]:
    component = dimension.partition(".")[0]
    return solids(values(hive), component) if component in {"bottom_board", "roof"} else ()


def drawing_of(
    hive: Hive, dimension: str, chain: Mapping[str, Fraction], found: Collection[str]
) -> str:
    """The drawing that shows a dimension, with the pieces lit that the chain takes off.

    >>> from hivecalc.hive import demo_hive
    >>> twice = {"hive_width": Fraction(1), "stud_thickness": Fraction(-2)}
    >>> rail = "bottom_board.front_rail_length"
    >>> drawing_of(demo_hive(), rail, twice, ()).count('fill-opacity=".3"')
    2
    """
    component = dimension.partition(".")[0]
    seen_in = (v for v in VIEWS.values() if component in v.components)
    view = VIEWS.get(best_view(dimension)) or next(seen_in, None)
    if view is None:
        return ""
    return view.to_work_out(hive, found, _lit(hive, dimension, chain))


def _lit(hive: Hive, dimension: str, chain: Mapping[str, Fraction]) -> list[str]:
    """The pieces that lie just where the chain takes something off."""
    ordered = in_working_order(chain)
    before = _before(hive, dimension, chain)
    if before is None:
        return []
    axis, origin = _place(hive, ordered[0][0])
    terms = _terms(hive, chain)
    origin -= sum((t.size / 2 for t in terms if t.halved and t.count > 0), Fraction(0))
    laid = [one for one in laid_off(terms, before).laid if one.off]
    return [s.label for s in _pieces(hive, dimension) if _is_there(s, axis, origin, laid)]


def _is_there(solid: Solid, axis: int, origin: Fraction, laid: Iterable[Laid]) -> bool:
    low, high = solid.extents[axis]
    return any((one.low + origin, one.high + origin) == (low, high) for one in laid)


def chain_told(found: ChainVerdict) -> str:
    """The verdict on a chain, beside its button."""
    if found.right:
        return message("right", "Your chain is right. Now do the sum.")
    told = message("wrong", found.message)
    return told + (message("note", found.question) if found.question else "")


def rule_told(hive: Hive, dimension: str, words: str) -> tuple[bool, str]:
    """Whether a rule that was chosen in words is right, and what is said to it.

    >>> from hivecalc.hive import demo_hive
    >>> right, said = rule_told(demo_hive(), "roof.slope", "stud width ÷ rim length")
    >>> right, "Go through all that makes the slope" in said
    (False, True)
    """
    rule = next(r for r in rules_in_words(hive, dimension) if r.words == words)
    if not rule.slip:
        return True, message("right", "That is the rule. Now work it out and type it below.")
    return False, message("wrong", "Not yet.") + message("note", rule.question)


# ── the sum ───────────────────────────────────────────────────────────────────────────────────


def judged_sum(
    hive: Hive, dimension: str, chain: Mapping[str, Fraction], text: str
) -> tuple[Verdict, str]:
    """The verdict on the sum of the learner's own chain, and what is said to it.

    >>> from hivecalc.hive import demo_hive
    >>> once = {"hive_width": Fraction(1), "stud_thickness": Fraction(-1)}
    >>> found, said = judged_sum(demo_hive(), "bottom_board.front_rail_length", once, "15 7/8")
    >>> found.right, "the chain itself is not right yet" in said
    (True, True)
    """
    found = sum_verdict(hive, dimension, chain, text)
    said = verdict_message(found)
    if found.right and not chain_verdict(hive, dimension, chain).right:
        said += message("wrong", "But the chain itself is not right yet: look at step 2 again.")
    return found, said


def sum_step(hive: Hive, chain: Mapping[str, Fraction], tries: int) -> str:
    """After the third wrong try the sum step by step, its last result left open."""
    if tries < TRIES_BEFORE_STEP or comes_to(hive, chain) <= 0:
        return ""
    sizes = values(hive)
    terms = [(count, sizes[name]) for name, count in in_working_order(chain)]
    return message("note", *without_result(sum_steps(terms, hive.units)))


# ── see it ────────────────────────────────────────────────────────────────────────────────────


def seen(hive: Hive, dimension: str, predicted: str) -> str:
    """What stands below a size that was found: its figure, the why, the prediction beside it.

    >>> from hivecalc.hive import demo_hive
    >>> told = seen(demo_hive(), "bottom_board.front_rail_length", "hand")
    >>> "14 3/8 in" in told, "between the two side rails" in told, "You predicted" in told
    (True, True, True)
    """
    asked = COURSE.dimension(dimension)
    size = figure(values(hive)[dimension], hive.units)
    beside = prediction_told(hive, dimension, predicted)
    told = [f"{title(dimension).capitalize()}: {size}.", asked.why, beside]
    lines = "".join(f"<p>{escape(line)}</p>" for line in told if line)
    return f'<div class="hc hc-right" role="status">{lines}</div>'


def waiting(names: Iterable[str]) -> str:
    """What stands in the place of a panel that would give these sizes away.

    >>> waiting(["bottom_board.side_rail_length", "bottom_board.back_rail_length"])
    'This opens once you have found the side rail length and the back rail length.'
    """
    *most, last = (f"the {title(name)}" for name in names)
    listed = f"{', '.join(most)} and {last}" if most else last
    return f"This opens once you have found {listed}."
