"""What leads to a dimension besides its chain: the prediction, the sum, what is seen at the end.

Plain functions from an entry to what is shown; nothing here gives the figure away before it is
found.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from html import escape
from typing import Final

from hivecalc.components import DIMENSIONS, values_to_find
from hivecalc.derivation import Chains, kind_of, title
from hivecalc.drawing.canvas import figure
from hivecalc.drawing.tape import Operation, step_on_tape
from hivecalc.fractions_in_words import SumStep, in_words, sum_steps, without_result
from hivecalc.hive import Hive
from hivecalc.judging import Verdict
from hivecalc.judging.arithmetic import plain
from hivecalc.judging.chain import (
    chain_verdict,
    comes_to,
    in_working_order,
    sum_verdict,
    true_chain,
)
from hivecalc.length import Length
from hivecalc.pages.messages import message, verdict_message, wide_picture
from hivecalc.reports.sizes import exactly

TRIES_BEFORE_STEP: Final = 3
TRIES_BEFORE_SUM: Final = 5
MOST_LISTED: Final = 4
A_HAND: Final = Fraction(4)
TWO_FINGERS: Final = Fraction(2)

# ── predict ───────────────────────────────────────────────────────────────────────────────────


def prediction(hive: Hive, dimension: str) -> tuple[str, list[tuple[str, str]]]:
    """The question to predict by, and what may be chosen: what is said, and the word kept for it.

    >>> from hivecalc.hive import demo_hive
    >>> question, options = prediction(demo_hive(), "bottom_board.front_rail_length")
    >>> question, options[1][1]
    ('compared with the hive width of 17 3/8 in, the front rail length is …', 'same')

    Nothing to choose for what is no length.
    """
    if DIMENSIONS.dimension(dimension).kind != "length":
        return "", []
    base = _base(hive, dimension)
    size = values_to_find(hive)[base]
    long = dimension.endswith("_length")
    more, less = ("longer", "shorter") if long else ("larger", "smaller")
    two, hand = ("2 in", "4 in") if hive.units == "inch" else ("5 cm", "10 cm")
    by_how_much = [
        (f"{less} by a finger or two (up to {two})", "finger"),
        (f"{less} by a hand (up to {hand})", "hand"),
        (f"{less} by more than a hand", "less"),
    ]
    size_told = f"{plain(base)} of {figure(size, hive.units)}"
    told = f"compared with the {size_told}, the {title(dimension)} is …"
    return told, [
        (more, "more"),
        ("just as long" if long else "the same", "same"),
        *(by_how_much if size > A_HAND else [(less, "less")]),
    ]


def _base(hive: Hive, dimension: str) -> str:
    """The largest measured size that a dimension is made from: what it is compared with."""
    chain, sizes = true_chain(hive, dimension), values_to_find(hive)
    known = hive.measurements
    if chain is None:
        made = DIMENSIONS.rests_on(dimension, known, sizes)
        return max((n for n in made if _is_length(n)), key=lambda n: sizes[n])
    below = Chains(sizes, known, DIMENSIONS).in_measurements(chain)
    return max(below, key=lambda n: sizes[n])


def _is_length(name: str) -> bool:
    return kind_of(name, DIMENSIONS.dimensions) == "length"


def prediction_fits(hive: Hive, dimension: str, word: str) -> bool:
    """Whether a prediction was right."""
    sizes, base = values_to_find(hive), _base(hive, dimension)
    over = sizes[base] - sizes[dimension]
    if over <= 0:
        return word == ("more" if over < 0 else "same")
    if sizes[base] <= A_HAND:
        return word == "less"
    return word == ("finger" if over <= TWO_FINGERS else "hand" if over <= A_HAND else "less")


def prediction_told(hive: Hive, dimension: str, word: str) -> str:
    """What was predicted, beside how it came out; only for a size that was found."""
    _, options = prediction(hive, dimension)
    said = {kept: text for text, kept in options}.get(word)
    if not said:
        return ""
    sizes, base = values_to_find(hive), _base(hive, dimension)
    over = sizes[base] - sizes[dimension]
    long = dimension.endswith("_length")
    way = ("shorter" if long else "smaller") if over > 0 else ("longer" if long else "larger")
    by = f"{figure(abs(over), hive.units)} {way} than the" if over else "just the same as the"
    return f"You predicted: {said}. It came out {by} {plain(base)}."


# ── the sum ───────────────────────────────────────────────────────────────────────────────────


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

    The result stands nowhere in it.
    """
    if found.right or found.value is None or comes_to(hive, chain) <= 0:
        return ""
    terms = _lengths(hive, chain)
    drawn = _where_it_went_wrong(terms, found) if hive.units == "inch" else ""
    words = (
        message("note", *without_result(_steps(hive, chain))) if tries >= TRIES_BEFORE_STEP else ""
    )
    return drawn + words


def whole_sum(hive: Hive, chain: Mapping[str, Fraction]) -> str:
    """The sum of a chain step by step, with its result: for a learner who asks for it."""
    return message("note", *in_words(_steps(hive, chain)))


def _steps(hive: Hive, chain: Mapping[str, Fraction]) -> list[SumStep]:
    return sum_steps(_lengths(hive, chain), hive.units)


def _lengths(hive: Hive, chain: Mapping[str, Fraction]) -> list[tuple[Fraction, Length]]:
    sizes = values_to_find(hive)
    return [(count, sizes[name]) for name, count in in_working_order(chain)]


HARD_AT: Final[Mapping[str, str]] = {
    "inch_not_lowered": "−", "smaller_from_larger": "−", "borrowed_ten": "−",
    "carry_dropped": "+", "tops_and_bottoms": "+", "halved_bottom": "÷",
    "multiplied_one_part": "×", "fraction_dropped": "×",
}  # fmt: skip
"""The operation that a slip in a sum is about."""


def _where_it_went_wrong(terms: Sequence[tuple[Fraction, Length]], found: Verdict) -> str:
    """The picture of the operation that the slip is about, or of the hardest one."""
    wanted = [HARD_AT[slip.name] for slip in found.slips if slip.name in HARD_AT]
    done = [one for one in _operations(terms) if _has_fraction(*one)]
    fitting = [one for one in done if one[0] in wanted] or done
    if not fitting:
        return ""
    return wide_picture(step_on_tape(*max(fitting, key=lambda one: _is_hard(*one))))


def _operations(
    terms: Sequence[tuple[Fraction, Length]],
) -> Iterator[tuple[Operation, Fraction, Fraction]]:
    """Each operation of a sum with the two numbers that it works on; `÷` halves the first."""
    total = Fraction(0)
    for place, (count, size) in enumerate(terms):
        times = abs(count.numerator)
        if times > 1:
            yield "×", Fraction(times), size
        if count.denominator > 1:
            yield "÷", times * size, Fraction(count.denominator)
        taken = abs(count) * size
        if place:
            yield ("+" if count > 0 else "−"), total, taken
        total += count * size


def _has_fraction(sign: Operation, first: Fraction, second: Fraction) -> bool:
    return second.denominator > 1 or (sign in {"+", "÷"} and first.denominator > 1)


def _is_hard(sign: Operation, first: Fraction, second: Fraction) -> bool:
    """Whether an inch has to be borrowed or carried in it, or parts of an inch change."""
    if sign == "−":
        return first % 1 < second % 1
    return sign != "+" or first % 1 + second % 1 >= 1


# ── see it ────────────────────────────────────────────────────────────────────────────────────


def seen(hive: Hive, dimension: str, predicted: str) -> str:
    """What stands below a size that was found: its figure, the why, the prediction beside it."""
    asked = DIMENSIONS.dimension(dimension)
    size = values_to_find(hive)[dimension]
    is_length = asked.kind == "length"
    told = figure(size, hive.units) if is_length else exactly(size, asked.kind, hive.units)
    beside = prediction_told(hive, dimension, predicted)
    lines = [f"{title(dimension).capitalize()}: {told}.", asked.why, beside]
    paragraphs = "".join(f"<p>{escape(line)}</p>" for line in lines if line)
    return f'<div class="hc hc-right" role="status">{paragraphs}</div>'


def waiting(names: Sequence[str]) -> str:
    """What stands in the place of a panel that would give sizes away; of many, the next one."""
    *most, last = (f"the {title(name)}" for name in names)
    if len(most) >= MOST_LISTED:
        asked = f"the {len(names)} sizes that are still asked for above"
        return f"This opens once you have found {asked}. Next comes {most[0]}."
    listed = f"{', '.join(most)} and {last}" if most else last
    return f"This opens once you have found {listed}."
