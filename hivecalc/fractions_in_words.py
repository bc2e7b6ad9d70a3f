"""Sums of inches and fractions, told in short sentences as a builder reckons them on the tape.

Equal parts first, then the fractions, then the whole inches: with an inch carried where the
fractions make more than one, and borrowed where there is too little fraction to take from.
"""

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
