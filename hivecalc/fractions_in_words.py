"""Sums of inches and fractions, told in short sentences as a builder reckons them on the tape.

Equal parts first, then the fractions, then the whole inches: with an inch carried where the
fractions make more than one, and borrowed where there is too little fraction to take from.
"""

import re
from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from hivecalc.length import Length

PARTS = {
    2: "halves",
    4: "quarters",
    8: "eighths",
    16: "sixteenths",
    32: "thirty-seconds",
    64: "sixty-fourths",
}


def sum_in_words(first: Length, second: Length) -> list[str]:
    """The sum of two lengths, step by step, in short sentences.

    >>> for sentence in sum_in_words(Fraction(139, 8), Fraction(23, 4)):
    ...     print(sentence)
    Make the parts equal: 5 3/4 is 5 6/8.
    Add the eighths: 3/8 + 6/8 = 9/8.
    9/8 is more than an inch: carry it. 9/8 is 1 1/8.
    Add the inches: 17 + 5 + 1 = 23.
    Together: 23 1/8 in.

    Lengths are in inches, and exact: a bottom that no tape has, as mm give it, stays as it is.
    Raises ValueError for a length below zero.
    """
    _refuse_below_zero(first, second)
    bottom = lcm(first.denominator, second.denominator)
    (whole, top), (other, other_top) = (_whole_and_top(v, bottom) for v in (first, second))
    carried, rest = divmod(top + other_top, bottom)
    steps = [_equal_parts(first, second, bottom)]
    if top and other_top:
        steps += [_added(top, other_top, bottom), _carried(carried, rest, bottom)]
    steps.append(_inches_added(whole, other, carried))
    return [*filter(None, steps), f"Together: {_read(first + second)} in."]


def difference_in_words(whole: Length, off: Length) -> list[str]:
    """What is left of a length when another comes off it, step by step, in short sentences.

    >>> for sentence in difference_in_words(Fraction(185, 8), Fraction(11, 2)):
    ...     print(sentence)
    Make the parts equal: 5 1/2 is 5 4/8.
    1/8 is too small to take 4/8 from: borrow an inch. 23 1/8 is 22 9/8.
    Take the eighths: 9/8 − 4/8 = 5/8.
    Take the inches: 22 − 5 = 17.
    Left: 17 5/8 in.

    >>> difference_in_words(Fraction(5), Fraction(11, 2))
    ['5 1/2 in can’t come off 5 in: 1/2 in is lacking.']

    Lengths are in inches, and exact. Raises ValueError for a length below zero.
    """
    _refuse_below_zero(whole, off)
    if off > whole:
        return [
            f"{_read(off)} in can’t come off {_read(whole)} in: {_read(off - whole)} in is lacking."
        ]
    bottom = lcm(whole.denominator, off.denominator)
    (inches, top), (off_inches, off_top) = (_whole_and_top(v, bottom) for v in (whole, off))
    steps = [_equal_parts(whole, off, bottom)]
    if top < off_top:
        steps.append(_borrowed(inches, top, off_top, bottom))
        inches, top = inches - 1, top + bottom
    if off_top:
        steps.append(_taken(top, off_top, bottom))
    if off_inches:
        steps.append(f"Take the inches: {inches} − {off_inches} = {inches - off_inches}.")
    return [*filter(None, steps), f"Left: {_read(whole - off)} in."]


def product_in_words(times: int, size: Length) -> list[str]:
    """A size taken several times, step by step, in short sentences.

    >>> for sentence in product_in_words(10, Fraction(11, 8)):
    ...     print(sentence)
    Take the inches: 10 × 1 = 10.
    Take the eighths as often: 10 × 3/8 = 30/8, which is 3 3/4.
    Together: 13 3/4 in.

    Lengths are in inches, and exact. Raises ValueError for a length below zero.
    """
    _refuse_below_zero(size)
    bottom = size.denominator
    inches, top = _whole_and_top(size, bottom)
    steps = [f"Take the inches: {times} × {inches} = {times * inches}."] if inches else []
    if top:
        both = f"{times} × {top}/{bottom} = {times * top}/{bottom}"
        also = " as often" if inches else ""
        steps.append(f"Take the {_named(bottom)}{also}: {both}{_simplest(times * top, bottom)}.")
    return [*steps, f"Together: {_read(times * size)} in."]


def half_in_words(size: Length) -> list[str]:
    """Half of a size, step by step, in short sentences.

    >>> for sentence in half_in_words(Fraction(13, 4)):
    ...     print(sentence)
    Write it all as quarters: 3 1/4 is 13/4.
    The parts get half as big, so the bottom doubles: half of 13/4 = 13/8.
    Together: 1 5/8 in.

    Lengths are in inches, and exact. Raises ValueError for a length below zero.
    """
    _refuse_below_zero(size)
    top, bottom = size.numerator, size.denominator
    whole = [f"Write it all as {_named(bottom)}: {_read(size)} is {top}/{bottom}."]
    steps = whole if bottom > 1 and size > 1 else []
    doubled = "The parts get half as big, so the bottom doubles: half of"
    written = f"{top}/{bottom}" if bottom > 1 else f"{top}"
    half = f"{doubled} {written} = {top}/{2 * bottom}" if top % 2 else f"Half of {written} = "
    half += "" if top % 2 else _mixed(*_whole_and_top(size / 2, bottom), bottom)
    return [*steps, f"{half}.", f"Together: {_read(size / 2)} in."]


def reckoned_in_words(terms: Sequence[tuple[Fraction, Length]]) -> list[str]:
    """A sum of sizes, each with how often it counts, step by step, in short sentences.

    >>> for sentence in reckoned_in_words([(Fraction(1), Fraction(139, 8)), (Fraction(-2),
    ...                                    Fraction(3, 2))]):
    ...     print(sentence)
    First 2 × 1 1/2. Take the inches: 2 × 1 = 2.
    Take the halves as often: 2 × 1/2 = 2/2, which is 1.
    Together: 3 in.
    Then 17 3/8 − 3. Take the inches: 17 − 3 = 14.
    Left: 14 3/8 in.

    A size may count whole times or half. What is added stands before what is taken off.
    """
    return [sentence for step in _reckoned(terms) for sentence in step]


def unfinished_in_words(terms: Sequence[tuple[Fraction, Length]]) -> list[str]:
    """The same sentences with the last step left to do: no result stands in them.

    >>> for sentence in unfinished_in_words([(Fraction(1), Fraction(185, 8)), (Fraction(-1),
    ...                                      Fraction(11, 2))]):
    ...     print(sentence)
    First 23 1/8 − 5 1/2. Make the parts equal: 5 1/2 is 5 4/8.
    1/8 is too small to take 4/8 from: borrow an inch. 23 1/8 is 22 9/8.
    Take the eighths: 9/8 − 4/8 = ?
    Take the inches: 22 − 5 = ?
    """
    *before, last = _reckoned(terms) or [[]]
    told = [sentence for step in before for sentence in step]
    return told + [_opened(s) for s in last if not s.startswith(("Together:", "Left:"))]


def _opened(sentence: str) -> str:
    if "an inch: carry it" in sentence:
        return "Is that an inch or more? Then carry it."
    return re.sub(r" = [^=]*$", " = ?", sentence)


def _reckoned(terms: Sequence[tuple[Fraction, Length]]) -> list[list[str]]:
    """The steps of a sum, each with its sentences: first what is multiplied or halved."""
    steps, sizes = list[list[str]](), list[Length]()
    for count, size in terms:
        taken = abs(count) * size
        if count.denominator != 1:
            whole = abs(count.numerator) * size
            if abs(count.numerator) > 1:
                steps.append(
                    _headed(
                        f"{abs(count.numerator)} × {_read(size)}",
                        product_in_words(abs(count.numerator), size),
                        steps,
                    )
                )
            steps.append(_headed(f"half of {_read(whole)}", half_in_words(whole), steps))
        elif abs(count) > 1:
            told = product_in_words(abs(count.numerator), size)
            steps.append(_headed(f"{abs(count)} × {_read(size)}", told, steps))
        sizes.append(taken if count > 0 else -taken)
    total = sizes[0] if sizes else Fraction(0)
    for size in sizes[1:]:
        sign, words = ("+", sum_in_words) if size > 0 else ("−", difference_in_words)
        told = words(total, abs(size))
        steps.append(_headed(f"{_read(total)} {sign} {_read(abs(size))}", told, steps))
        total += size
        if total < 0:
            break
    return steps


def _headed(what: str, sentences: list[str], before: Sequence[object]) -> list[str]:
    """A step's sentences, with what is done in it before the first."""
    first, *others = sentences
    return [f"{'Then' if before else 'First'} {what}. {first}", *others]


def _simplest(top: int, bottom: int) -> str:
    """What a fraction is as a mixed number in lowest terms, to be said after it."""
    found = Fraction(top, bottom)
    same = found.denominator == bottom and top < bottom
    return "" if same else f", which is {_read(found)}"


def _refuse_below_zero(*lengths: Length) -> None:
    if min(lengths) < 0:
        raise ValueError(f"a board can't be {_read(min(lengths))} in long")


def _whole_and_top(length: Length, bottom: int) -> tuple[int, int]:
    """The whole inches of a length, and how many parts of this bottom are left over."""
    whole = int(length // 1)
    return whole, int((length - whole) * bottom)


def _read(length: Length) -> str:
    """A length with its fraction in lowest terms.

    >>> _read(Fraction(37, 127)), _read(Fraction(23))
    ('37/127', '23')
    """
    whole, top = _whole_and_top(abs(length), length.denominator)
    sign = "−" if length < 0 else ""
    return sign + _mixed(whole, top, length.denominator)


def _mixed(whole: int, top: int, bottom: int) -> str:
    """Whole inches and a fraction just as they are given, so that 22 9/8 stays 22 9/8."""
    if not top:
        return str(whole)
    return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"


def _equal_parts(one: Length, other: Length, bottom: int) -> str:
    """How each length is written with the bottom that both share, where it is another."""
    changed = [v for v in (one, other) if v.denominator not in {1, bottom}]
    told = (f"{_read(v)} is {_mixed(*_whole_and_top(v, bottom), bottom)}" for v in changed)
    return f"Make the parts equal: {', '.join(told)}." if changed else ""


def _named(bottom: int) -> str:
    return PARTS.get(bottom, f"parts of 1/{bottom}")


def _lowest(top: int, bottom: int) -> str:
    """What a fraction is in lowest terms, to be said after it; nothing where it is so."""
    lowest = Fraction(top, bottom)
    return f", which is {_read(lowest)}" if lowest.denominator != bottom else ""


def _added(top: int, other: int, bottom: int) -> str:
    both = top + other
    lowest = _lowest(both, bottom) if both < bottom else ""
    return f"Add the {_named(bottom)}: {top}/{bottom} + {other}/{bottom} = {both}/{bottom}{lowest}."


def _carried(carried: int, rest: int, bottom: int) -> str:
    if not carried:
        return ""
    top = rest + bottom
    if not rest:
        return f"{top}/{bottom} is just an inch: carry it."
    told = f"{_mixed(1, rest, bottom)}{_lowest(top, bottom)}"
    return f"{top}/{bottom} is more than an inch: carry it. {top}/{bottom} is {told}."


def _inches_added(*inches: int) -> str:
    shown = [str(n) for n in inches if n]
    return f"Add the inches: {' + '.join(shown)} = {sum(inches)}." if shown[1:] else ""


def _borrowed(inches: int, top: int, off_top: int, bottom: int) -> str:
    before, after = _mixed(inches, top, bottom), _mixed(inches - 1, top + bottom, bottom)
    small = f"{top}/{bottom} is too small" if top else f"{before} has no fraction"
    return f"{small} to take {off_top}/{bottom} from: borrow an inch. {before} is {after}."


def _taken(top: int, off_top: int, bottom: int) -> str:
    left = top - off_top
    told = f"{left}/{bottom}{_lowest(left, bottom)}" if left else "0"
    return f"Take the {_named(bottom)}: {top}/{bottom} − {off_top}/{bottom} = {told}."
