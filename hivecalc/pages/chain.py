"""The walk to a dimension on a page: prediction, chain, sum, and what is seen at its end.

Plain functions from an entry to what is shown; nothing here gives the figure away before it is
found.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from fractions import Fraction
from html import escape
from typing import Final, Literal, NamedTuple, TypeAlias

from hivecalc.components import (
    DIMENSIONS,
    MODULES,
    PRACTICE,
    begun_with,
    built,
    values,
    values_to_find,
    worked_out_on,
)
from hivecalc.derivation import Chains, kind_of, title
from hivecalc.drawing.bar import ASKED, Term, chain_bar, laid_off, practice_drawing
from hivecalc.drawing.canvas import figure
from hivecalc.drawing.in_space import in_space
from hivecalc.drawing.tape import step_on_tape
from hivecalc.fractions_in_words import in_words, operations_of, sum_steps, without_result
from hivecalc.hive import Hive
from hivecalc.judging import Verdict, plain
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
from hivecalc.length import MM, Length, length_from_text
from hivecalc.pages.messages import message, picture, verdict_message, wide_picture
from hivecalc.pages.outcomes import best_view
from hivecalc.pages.views import VIEWS, is_measured
from hivecalc.reports.sizes import exactly
from hivecalc.space import Solid, solids

Stage: TypeAlias = Literal["counts", "all"]
"""How much of a chain is left to the learner: how often each size counts, or which sizes, too."""
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


SEEN_FROM_ABOVE: Final = ("side_rail", "front_rail", "back_rail", "panel")
"""Parts of the bottom board that its plan or section shows as they are."""
SEEN_AT: Final = {
    "roof.rim_length": "roof.rim_side",
    "roof.rim_width": "roof.rim_front",
    "roof.slope": "roof.rim_side",
    "roof.rim_front_inner_height": "roof.rim_front",
    "roof.rim_back_inner_height": "roof.rim_back",
    "roof.deck_overhang": "roof.deck",
    "skirt_width": "roof.skirt_side",
    "inner_cover.overall_height": "inner_cover.sheet",
    "bottom_board.screen_length": "bottom_board.screen_side_strip",
    "bottom_board.screen_width": "bottom_board.screen_end_strip",
    "box.inside_length": "box.side",
    "box.inside_width": "box.end",
    "box.space_above": "box.end",
    "box_length": "box.side",
    "box_width": "box.end",
    "box_height": "box.side",
    "hive_length": "sleeve.skin_side",
    "hive_width": "sleeve.skin_end",
    "sleeve.clear_height": "sleeve.foam_side",
}
"""Dimensions that are no size of one part, by the part at which each is seen in space."""
OPENED: Final = 0.35
"""How far a component is taken apart where one of its parts is lit."""


# ── a chain that somebody else built ──────────────────────────────────────────────────────────

EXAMPLES: Final[Mapping[str, Sequence[tuple[str, str, int, int]]]] = {
    "shelf": (("width of the cupboard", "30 1/4", 760, 1), ("thickness of a side", "3/4", 18, -2)),
    "loose shelf": (("inside of the cupboard", "24 1/2", 620, 1), ("gap in all", "1/8", 3, -1)),
    "pile of books": (("thick book", "1 3/4", 44, 1), ("thin book", "5/8", 16, 3)),
    "table top": (
        ("width of the table's frame", "26 1/2", 670, 1), ("what it stands out", "1 3/8", 35, 2),
    ),
    "row of jars": (("width of a jar", "3 3/8", 86, 6), ("room to lift one out", "3/4", 20, 1)),
}  # fmt: skip
"""Sister pieces of the families of the course, by what is worked out; invented.

Each size in words, in inches and in mm, and how often it counts.
"""


def worked_chain(hive: Hive, name: str = "shelf") -> str:
    """The chain of a sister piece, that somebody else built: its bar, and its sum step by step."""
    units = hive.units
    terms = [
        Term(words, mm * MM if units == "mm" else length_from_text(inches), Fraction(count))
        for words, inches, mm, count in EXAMPLES[name]
    ]
    left = sum((term.count * term.size for term in terms), Fraction(0))
    bar = chain_bar(terms, name, result=figure(left, units), units=units)
    lengths = [(term.count, term.size) for term in terms]
    return picture(bar) + message("note", *in_words(sum_steps(lengths, units)))


# ── the chain ─────────────────────────────────────────────────────────────────────────────────


class Offered(NamedTuple):
    """One size to build a chain from: its name, what it is called, and how big it is."""

    name: str
    words: str
    size: str


def sizes_offered(
    hive: Hive, dimension: str, found: Collection[str], stage: Stage = "all"
) -> list[Offered]:
    """The sizes that a chain can be built from on this hive, with their values."""
    sizes = values_to_find(hive)
    names = offered(hive, dimension, found, slips=stage == "all")
    return [Offered(n, plain(n), figure(sizes[n], hive.units)) for n in names]


def hive_card(hive: Hive, dimension: str, found: Collection[str]) -> str:
    """The sizes of this hive that may be needed for a dimension, for beside its field."""
    sizes, known = values_to_find(hive), {*begun_with(hive, dimension), *found} - {dimension}
    listed = sizes_offered(hive, dimension, found) or [
        Offered(n, plain(n), exactly(sizes[n], kind_of(n, DIMENSIONS.dimensions), hive.units))
        for n in DIMENSIONS.rests_on(dimension, known, sizes)
    ]
    text = " · ".join(f"{escape(o.words)} <b>{escape(o.size)}</b>" for o in listed)
    return f'<div class="hc hc-card"><p>Your sizes: {text}</p></div>'


def step_of_count(hive: Hive, dimension: str) -> Fraction:
    """By how much one press changes a count: a half where the formula has halves, else one."""
    chain = true_chain(hive, dimension) or {}
    return Fraction(1, 2) if any(c.denominator > 1 for c in chain.values()) else Fraction(1)


def chain_text(chain: Mapping[str, Fraction]) -> str:
    """A chain as it is kept among the answers."""
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
    """The bar of a chain as it is now; with its result only where that is solved."""
    result = figure(comes_to(hive, chain), hive.units) if solved else ASKED
    before = _before(hive, dimension, chain)
    terms = _terms(hive, chain)
    return chain_bar(terms, title(dimension), before=before, result=result, units=hive.units)


def _terms(hive: Hive, chain: Mapping[str, Fraction]) -> list[Term]:
    sizes = values_to_find(hive)
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
    return axis, values_to_find(hive)[before] * times if before else times


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
    return solids(values_to_find(hive), component) if component in {"bottom_board", "roof"} else ()


def drawing_of(
    hive: Hive, dimension: str, chain: Mapping[str, Fraction], found: Collection[str]
) -> str:
    """The drawing that shows a dimension, with the pieces lit that the chain takes off."""
    component = DIMENSIONS.dimension(dimension).component
    if component == PRACTICE:
        sizes = values_to_find(hive)
        size = figure(sizes[dimension], hive.units) if dimension in found else ASKED
        return practice_drawing(sizes, dimension, result=size, units=hive.units)
    if part := _part_to_see(dimension):
        taken_off = [s.name for s in _taken_off(hive, dimension, chain)]
        return _seen_in_space(hive, part, found, taken_off)
    seen_in = (v for v in VIEWS.values() if component in v.components)
    named = best_view(dimension if "." in dimension else f"{component}.{dimension}")
    view = VIEWS.get(named) or next(seen_in)
    return view.to_work_out(hive, found, [s.label for s in _taken_off(hive, dimension, chain)])


def may_change_drawing(dimension: str, found: Collection[str]) -> bool:
    """Whether sizes that were found since may stand in the drawing or the bar of a dimension."""
    part = _part_to_see(dimension)
    return not part or any(name == dimension or name.startswith(f"{part}_") for name in found)


def _part_to_see(dimension: str) -> str:
    """The part to light in space where no plan or section shows a dimension; else empty."""
    if dimension in SEEN_AT:
        return SEEN_AT[dimension]
    part = dimension.rpartition("_")[0]
    component, _, name = part.partition(".")
    is_part = component in MODULES and any(p.name == name for p in MODULES[component].PARTS)
    return part if is_part and name not in SEEN_FROM_ABOVE else ""


def _seen_in_space(hive: Hive, part: str, found: Collection[str], outlined: Collection[str]) -> str:
    """A component in space, one part lit, some pieces outlined, "?" for what was not found yet."""
    component, _, name = part.partition(".")
    sizes, inside = values(hive), component == "bottom_board"
    around = {p for p in (*SEEN_FROM_ABOVE, name) if p != "panel"}
    around |= {p.name for p in MODULES[component].PARTS if p.name.split("_")[0] in name.split("_")}
    asked = {
        n for n, d in DIMENSIONS.dimensions.items() if n not in found and not is_measured(d, hive)
    }
    sleeved = tuple(c for c in ("box", "sleeve") if component == "sleeve" and c in built(hive))
    return in_space(
        sizes, sleeved or (component,), opened=0.0 if inside else OPENED, lit=part, new=outlined,
        shown={f"{component}.{p}" for p in around} if inside else None, asked=asked,
        units=hive.units, name=hive.name,
    )  # fmt: skip


def _taken_off(hive: Hive, dimension: str, chain: Mapping[str, Fraction]) -> list[Solid]:
    """The pieces that lie just where the chain takes something off."""
    ordered = in_working_order(chain)
    before = _before(hive, dimension, chain)
    if before is None:
        return []
    axis, origin = _place(hive, ordered[0][0])
    terms = _terms(hive, chain)
    origin -= sum((t.size / 2 for t in terms if t.halved and t.count > 0), Fraction(0))
    laid = {(t.low + origin, t.high + origin) for t in laid_off(terms, before).laid if t.off}
    return [s for s in _pieces(hive, dimension) if s.extents[axis] in laid]


def chain_message(found: ChainVerdict) -> str:
    """The verdict on a chain, beside its button."""
    if found.right:
        return message("right", "Your chain is right. Now do the sum.")
    return message("wrong", found.message) + message("note", found.question)


def rule_message(hive: Hive, dimension: str, words: str) -> tuple[bool, str]:
    """Whether a rule that was chosen in words is right, and what is said to it."""
    rule = next((r for r in rules_in_words(hive, dimension) if r.words == words), None)
    if rule is None:
        return False, message("note", "Choose a rule first.")
    if not rule.slip:
        return True, message("right", "That is the rule. Now work it out and type it below.")
    return False, message("wrong", "Not yet.") + message("note", rule.question)


# ── predict ───────────────────────────────────────────────────────────────────────────────────

A_HAND: Final = Fraction(4)
TWO_FINGERS: Final = Fraction(2)


class ToPredict(NamedTuple):
    """The question to predict by, what may be chosen, the word that is right, how it came out.

    Each option is what is said, and the word that is kept for it.
    """

    question: str
    options: list[tuple[str, str]]
    right: str
    came_out: str


def to_predict(hive: Hive, dimension: str) -> ToPredict:
    """What may be predicted of a dimension beside the largest size it is made from.

    >>> from hivecalc.hive import demo_hive
    >>> found = to_predict(demo_hive(), "bottom_board.front_rail_length")
    >>> found.question, found.options[1][1], found.right
    ('compared with the hive width of 17 3/8 in, the front rail length is …', 'same', 'hand')

    Nothing for what is no length.
    """
    if DIMENSIONS.dimension(dimension).kind != "length":
        return ToPredict("", [], "", "")
    units, base = hive.units, _largest_in(hive, dimension)
    sizes = values_to_find(worked_out_on(hive, dimension))
    size, over = sizes[base], sizes[base] - sizes[dimension]
    more, less, same = "larger", "smaller", "the same"
    if dimension.endswith("_length"):
        more, less, same = "longer", "shorter", "just as long"
    two, hand = ("2 in", "4 in") if units == "inch" else ("5 cm", "10 cm")
    shorter, right = [(less, "less")], "less"
    if size > A_HAND:
        right = "finger" if over <= TWO_FINGERS else "hand" if over <= A_HAND else "less"
        shorter = [
            (f"{less} by a finger or two (up to {two})", "finger"),
            (f"{less} by a hand (up to {hand})", "hand"),
            (f"{less} by more than a hand", "less"),
        ]
    if over <= 0:
        right = "more" if over else "same"
    by = f"{figure(abs(over), units)} {less if over > 0 else more} than"
    return ToPredict(
        f"compared with the {plain(base)} of {figure(size, units)}, the {title(dimension)} is …",
        [(more, "more"), (same, "same"), *shorter],
        right,
        f"It came out {by if over else 'just the same as'} the {plain(base)}.",
    )


def _largest_in(hive: Hive, dimension: str) -> str:
    """The largest size that a dimension is made from, of those that its steps begin with."""
    chain, sizes = true_chain(hive, dimension), values_to_find(hive)
    known = begun_with(hive, dimension)
    if chain is None:
        needed = DIMENSIONS.rests_on(dimension, known, sizes)
        made = [n for n in needed if kind_of(n, DIMENSIONS.dimensions) == "length"]
    else:
        made = [*Chains(sizes, known, DIMENSIONS).in_measurements(chain)]
    return max(made, key=lambda n: sizes[n])


# ── the sum ───────────────────────────────────────────────────────────────────────────────────

TRIES_BEFORE_STEP: Final = 3
TRIES_BEFORE_SUM: Final = 5


def judged_sum(
    hive: Hive, dimension: str, chain: Mapping[str, Fraction], text: str
) -> tuple[Verdict, str]:
    """The verdict on the sum of the learner's own chain, and what is said to it."""
    found = sum_verdict(hive, dimension, chain, text)
    said = verdict_message(found)
    if found.right and not chain_verdict(hive, dimension, chain).right:
        said += message("wrong", "But the chain itself is not right yet: look at step 2 again.")
    return found, said


def sum_help(hive: Hive, chain: Mapping[str, Fraction], found: Verdict, tries: int) -> str:
    """What helps after a wrong sum: where it went wrong, on the tape; from the third try in words.

    On the tape stands the operation that the slip is about, or the hardest one; the result stands
    nowhere.
    """
    if found.right or found.value is None or comes_to(hive, chain) <= 0:
        return ""
    terms = _lengths(hive, chain)
    wanted = [HARD_AT[slip.name] for slip in found.slips if slip.name in HARD_AT]
    done = [
        (sign, first, second)
        for sign, (first, second) in operations_of(terms)
        if second.denominator > 1 or (sign in {"+", "÷"} and first.denominator > 1)
    ]
    fitting = [one for one in done if one[0] in wanted] or done
    on_tape = fitting and hive.units == "inch"
    drawn = wide_picture(step_on_tape(*max(fitting, key=_is_hard))) if on_tape else ""
    if tries < TRIES_BEFORE_STEP:
        return drawn
    return drawn + message("note", *without_result(sum_steps(terms, hive.units)))


def whole_sum(hive: Hive, chain: Mapping[str, Fraction]) -> str:
    """The sum of a chain step by step, with its result: for a learner who asks for it."""
    return message("note", *in_words(sum_steps(_lengths(hive, chain), hive.units)))


def _lengths(hive: Hive, chain: Mapping[str, Fraction]) -> list[tuple[Fraction, Length]]:
    sizes = values_to_find(hive)
    return [(count, sizes[name]) for name, count in in_working_order(chain)]


HARD_AT: Final[Mapping[str, str]] = {
    "inch_not_lowered": "−", "smaller_from_larger": "−", "borrowed_ten": "−",
    "carry_dropped": "+", "tops_and_bottoms": "+", "halved_bottom": "÷",
    "multiplied_one_part": "×", "fraction_dropped": "×",
}  # fmt: skip
"""The operation that a slip in a sum is about."""


def _is_hard(operation: tuple[str, Fraction, Fraction]) -> bool:
    """Whether an inch has to be borrowed or carried in it, or parts of an inch change."""
    sign, first, second = operation
    if sign == "−":
        return first % 1 < second % 1
    return sign != "+" or first % 1 + second % 1 >= 1


# ── see it ────────────────────────────────────────────────────────────────────────────────────


def seen(hive: Hive, dimension: str, predicted: str) -> str:
    """What stands below a size that was found: its figure, the why, the prediction beside it."""
    asked = DIMENSIONS.dimension(dimension)
    size = values_to_find(worked_out_on(hive, dimension))[dimension]
    is_length = asked.kind == "length"
    text = figure(size, hive.units) if is_length else exactly(size, asked.kind, hive.units)
    guess = to_predict(hive, dimension)
    said = next((text for text, kept in guess.options if kept == predicted), "")
    beside = f"You predicted: {said}. {guess.came_out}" if said else ""
    lines = [f"{title(dimension).capitalize()}: {text}.", asked.why, beside]
    paragraphs = "".join(f"<p>{escape(line)}</p>" for line in lines if line)
    return f'<div class="hc hc-right" role="status">{paragraphs}</div>'


MOST_LISTED: Final = 4


def waiting(names: Sequence[str]) -> str:
    """What stands in the place of a panel that would give sizes away; of many, the next one."""
    *most, last = (f"the {title(name)}" for name in names)
    if len(most) >= MOST_LISTED:
        asked = f"the {len(names)} sizes that are still asked for above"
        return f"This opens once you have found {asked}. Next comes {most[0]}."
    listed = f"{', '.join(most)} and {last}" if most else last
    return f"This opens once you have found {listed}."
