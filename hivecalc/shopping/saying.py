"""Money and sizes as they are said: exact, money in whatever the user pays with."""

from hivecalc.stock import Money


def amount(money: Money) -> str:
    """An amount as a decimal: whole where it is, else with two places or more.

    >>> from fractions import Fraction
    >>> amount(3 * Fraction("3.95")), amount(Fraction(7)), amount(Fraction(-5, 2))
    ('11.85', '7', '−2.50')

    Prices have four places at most, so that this is exact for whatever they add up to.
    """
    sign, size = "−" if money < 0 else "", abs(money)
    if size.denominator == 1:
        return f"{sign}{size.numerator:,}"
    whole, parts = divmod(size * 10_000, 10_000)
    return f"{sign}{whole:,}.{_places(f'{int(parts):04}')}"


def _places(digits: str) -> str:
    """Four digits behind the point, or two where the others are noughts."""
    return digits.rstrip("0").ljust(2, "0")


def paid(money: Money, currency: str) -> str:
    """An amount with its currency.

    >>> from fractions import Fraction
    >>> paid(Fraction(9, 2), "coins")
    '4.50 coins'
    """
    return f"{amount(money)} {currency}"


def more_or_less(difference: Money, currency: str) -> str:
    """A difference in words.

    >>> from fractions import Fraction
    >>> more_or_less(Fraction(-2), "coins"), more_or_less(Fraction(0), "coins")
    ('2 coins less', 'the same price')
    """
    if difference == 0:
        return "the same price"
    return f"{paid(abs(difference), currency)} {'more' if difference > 0 else 'less'}"


def times(count: int, what: str) -> str:
    """Some things that are alike, in words.

    >>> times(1, "31 1/2 in"), times(1200, "31 1/2 in")
    ('31 1/2 in', '1,200 × 31 1/2 in')
    """
    return what if count == 1 else f"{count:,} × {what}"
